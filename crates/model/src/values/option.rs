//! Of which option something is a part.

use super::reference::OptionName;
use crate::declare::{Link, Role, Shape};
use crate::{Cursor, Fail, Value};

/// `option A`.
#[derive(Clone, Debug)]
pub struct InOption(pub OptionName);

impl Value for InOption {
    const SHAPE: Shape = Shape {
        say: "the option that it belongs to, as `option A`",
        kind: None,
        words: &["option"],
        role: Some(Role::Option),
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        if !line.word("option") {
            return Err(line.broken("`in` is followed by an option", "write `in option A`"));
        }
        OptionName::read_part(line).map(Self)
    }

    fn links<'a>(&'a self, out: &mut Vec<Link<'a>>) {
        out.push(self.0.link());
    }
}
