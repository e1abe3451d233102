//! One word of a closed list.

use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use std::marker::PhantomData;

/// A closed list of words.
pub trait Choice: 'static {
    /// The words, as data for completion and messages.
    const WORDS: &'static [&'static str];
}

/// The word that was chosen.
#[derive(Debug)]
pub struct Chosen<C> {
    /// The word; one of the list.
    pub word: &'static str,
    list: PhantomData<C>,
}

impl<C> Clone for Chosen<C> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<C> Copy for Chosen<C> {}

impl<C: Choice> Value for Chosen<C> {
    const SHAPE: Shape = Shape {
        say: "one word of its list",
        kind: None,
        words: C::WORDS,
        role: None,
    };

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let (name, place) = line.name("a word")?;
        match C::WORDS.iter().find(|word| **word == name) {
            Some(word) => Ok(Self {
                word,
                list: PhantomData,
            }),
            None => Err(line.broken_at(
                place,
                format!("`{name}` cannot stand here"),
                &format!("one of {}", C::WORDS.join(", ")),
            )),
        }
    }
}
