//! What the jobs under one root file see beside their own entries: its yard and its plants.

use crate::layout::{Given, Root};
use crate::settled::Loud;
use crate::source::{FileKind, SourceFile};
use plumbhook_model::{Declared, Layer, Role, Scope, Settings};
use plumbhook_sheet::Stage;
use rustc_hash::FxHashMap;
use std::sync::Arc;

/// What the jobs under one root file see. Made anew when one of its files changes.
#[derive(Debug)]
pub(crate) struct RootView {
    pub(crate) settings: Settings,
    pub(crate) louds: Arc<[Loud]>,
    pub(crate) yards: Vec<Arc<SourceFile>>,
    pub(crate) plants: Vec<Arc<SourceFile>>,
    yard: Arc<Layer>,
    by_name: FxHashMap<Box<str>, Vec<Arc<SourceFile>>>,
}

impl RootView {
    /// `None` where the root file is wrong: then nothing under it can be checked.
    pub(crate) fn new(
        root: &Root,
        given: &Given,
        stage: Option<Stage>,
        source: impl Fn(&std::path::Path) -> Option<Arc<SourceFile>>,
    ) -> Option<Self> {
        let config = root.config.as_ref().ok()?;
        let of_kind = |paths: &[Arc<std::path::Path>], kind| -> Vec<_> {
            let files = paths.iter().filter_map(|path| source(path));
            files.filter(|file| file.kind == Some(kind)).collect()
        };
        let yards = of_kind(&given.yard, FileKind::Yard);
        let plants = of_kind(&given.plants, FileKind::Plant);
        let gear = yards.iter().flat_map(|file| file.entries());
        let mut by_name: FxHashMap<Box<str>, Vec<Arc<SourceFile>>> = FxHashMap::default();
        for file in &plants {
            if let Some(plant) = &file.opener {
                let named = by_name.entry(plant.key.name.clone()).or_default();
                named.push(Arc::clone(file));
            }
        }
        Some(Self {
            settings: Settings {
                // `None` is below every stage.
                stage: config.settings.stage.max(stage),
                ..config.settings.clone()
            },
            louds: config.louds.as_slice().into(),
            yard: Arc::new(Layer::new(gear.map(Arc::clone).collect())),
            yards,
            plants,
            by_name,
        })
    }

    /// Whether both give the very same files and settings.
    pub(crate) fn same(&self, other: &Self) -> bool {
        let same = |a: &[Arc<SourceFile>], b: &[Arc<SourceFile>]| {
            a.len() == b.len() && a.iter().zip(b).all(|(a, b)| Arc::ptr_eq(a, b))
        };
        self.settings == other.settings
            && self.louds == other.louds
            && same(&self.yards, &other.yards)
            && same(&self.plants, &other.plants)
    }

    /// The plant files whose plant has that name.
    pub(crate) fn plants_named(&self, name: &str) -> &[Arc<SourceFile>] {
        self.by_name.get(name).map_or(&[], Vec::as_slice)
    }

    /// What a file sees: its own entries first, then its plant's, then the yard's.
    pub(crate) fn scope(&self, file: &SourceFile) -> Scope {
        let mut layers = Vec::with_capacity(3);
        if file.kind != Some(FileKind::Yard) {
            layers.push(Arc::clone(&file.layer));
        }
        if let [plant] = self.plants_of(file) {
            layers.push(Arc::clone(&plant.layer));
        }
        layers.push(Arc::clone(&self.yard));
        Scope::new(layers)
    }

    /// The plant files that a job file names; more than one means that the name leads to none.
    pub(crate) fn plants_of(&self, file: &SourceFile) -> &[Arc<SourceFile>] {
        plant_name(file).map_or(&[], |name| self.plants_named(name))
    }

    /// Names of all plants, for did-you-mean.
    pub(crate) fn plant_names(&self) -> impl Iterator<Item = &str> {
        self.by_name
            .keys()
            .map(|name| &**name)
            .filter(|name| !name.is_empty())
    }
}

/// The plant that a job file names.
pub(crate) fn plant_name(file: &SourceFile) -> Option<&str> {
    let job: &Declared = file
        .opener
        .as_ref()
        .filter(|_| file.kind == Some(FileKind::Job))?;
    let job: &plumbhook_model::entries::Job = job.of()?;
    Some(&job.plant.known()?.value.name)
}

/// Whether a link leads to a plant: those are looked up among files, not among entries.
pub(crate) fn leads_to_plant(link: &plumbhook_model::Link<'_>) -> bool {
    link.role == Role::Plant
}
