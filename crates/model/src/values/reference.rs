//! Names that lead to another entry.

use crate::declare::{Link, Role, Shape};
use crate::{Cursor, Fail, Value};
use plumbhook_sheet::{Origin, Part};
use std::marker::PhantomData;

/// What a name has to lead to.
pub trait Target: 'static {
    /// The role it must have.
    const ROLE: Role;
}

/// A name with its target; a dot reaches inside (`hall-crane.main`).
#[derive(Debug)]
pub struct NameOf<T> {
    /// As written.
    pub name: Box<str>,
    /// Where it stands.
    pub origin: Origin,
    target: PhantomData<T>,
}

impl<T> Clone for NameOf<T> {
    fn clone(&self) -> Self {
        Self {
            name: self.name.clone(),
            origin: self.origin.clone(),
            target: PhantomData,
        }
    }
}

impl<T: Target> NameOf<T> {
    /// The part before the dot.
    pub fn head(&self) -> &str {
        crate::mentions::head_of(&self.name)
    }

    /// The part after the dot.
    pub fn inner(&self) -> Option<&str> {
        self.name.split_once('.').map(|(_, inner)| inner)
    }

    /// As a link.
    pub fn link(&self) -> Link<'_> {
        Link {
            name: &self.name,
            role: T::ROLE,
            origin: &self.origin,
        }
    }

    /// A name that was read already.
    pub(crate) fn at(name: &str, origin: Origin) -> Self {
        Self {
            name: name.into(),
            origin,
            target: PhantomData,
        }
    }

    /// Reads one name; for use inside other shapes.
    pub fn read_part(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let (name, place) = line.name(T::ROLE.say())?;
        Ok(Self::at(name, line.origin(place, Part::Value)))
    }
}

impl<T: Target> Value for NameOf<T> {
    const SHAPE: Shape = Shape {
        say: "a name",
        kind: None,
        words: &[],
        role: Some(T::ROLE),
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        Self::read_part(line)
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        out.push(self.link());
    }
}

macro_rules! targets {
    ($($(#[doc = $help:literal])+ $marker:ident $alias:ident $role:ident;)*) => {$(
        #[doc = concat!("Marks a name as leading to a ", stringify!($role), ".")]
        #[derive(Debug)]
        pub enum $marker {}
        impl Target for $marker {
            const ROLE: Role = Role::$role;
        }
        $(#[doc = $help])+
        pub type $alias = NameOf<$marker>;
    )*};
}

targets! {
    /// The name of a plant.
    ToPlant PlantName Plant;
    /// The name of a load.
    ToLoad LoadName Load;
    /// The name of a set of legs.
    ToRigging RiggingName Rigging;
    /// The name of a piece of gear.
    ToGear GearName Gear;
    /// The name of a spreader or lifting beam, and what of it: `spreader-4.ends`.
    ToBeam BeamName Beam;
    /// The name of a type of lug.
    ToLug LugName Lug;
    /// The name of a machine, or of a hook of it.
    ToMachine MachineName Machine;
    /// The name of a mobile crane.
    ToCrane CraneName Crane;
    /// The name of a floor or ground.
    ToSurface SurfaceName Surface;
    /// The name of something a load can stand on.
    ToStand StandName Stand;
    /// The name of something that has a place in plan, or of a named place in it.
    ToSpot PlaceName Spot;
    /// The name of a level datum of the plant.
    ToDatum DatumName Datum;
    /// The name of a move.
    ToMove MoveName Move;
    /// The name of an option.
    ToOption OptionName Option;
    /// The names of two grid lines of the plant that cross, as `A/1`.
    ToGrid GridName Grid;
}
