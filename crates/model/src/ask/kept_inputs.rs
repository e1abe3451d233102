//! The inputs that the checks of one job asked for, each once.

use plumbhook_sheet::Input;
use rustc_hash::FxHashSet;
use std::hash::{Hash, Hasher};
use std::sync::{Arc, Mutex, PoisonError};

/// The inputs that the checks of one job asked for, each once: a hundred moves use the same rating of the same
/// shackle, and a server keeps the sheets of all of them.
#[derive(Debug, Default)]
pub struct KeptInputs(Mutex<FxHashSet<ByContent>>);

impl KeptInputs {
    /// The same input, shared with every check that asked for it before.
    pub(crate) fn share(&self, input: Input) -> Arc<Input> {
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let input = ByContent(Arc::new(input));
        if let Some(same) = kept.get(&input) {
            return Arc::clone(&same.0);
        }
        let shared = Arc::clone(&input.0);
        kept.insert(input);
        shared
    }
}

/// An input that equals another with the same content.
#[derive(Debug, PartialEq)]
struct ByContent(Arc<Input>);

/// Bands hold no number that is not equal to itself; one that did would be shared with nobody.
impl Eq for ByContent {}

impl Hash for ByContent {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.0.what.hash(state);
        self.0.origins.hash(state);
    }
}
