//! The calculation sheet: everything that one check used, did and found.

use crate::{Basis, Figure, Origin, Step};
use plumbhook_units::{Amount, Printer, Round};
use std::sync::{Arc, LazyLock};

/// The value of an input as it was used.
#[derive(Clone, Debug, PartialEq)]
pub enum InputValue {
    /// One number.
    Exact(Amount),
    /// A band; a side that no claim states is `None`.
    Band {
        /// Lower side.
        lo: Option<Amount>,
        /// Upper side.
        hi: Option<Amount>,
    },
    /// A word or a name.
    Words(String),
}

/// One datum that a check asked for and got.
#[derive(Clone, Debug, PartialEq)]
pub struct Input {
    /// What it is, in words ("mass of runner").
    pub what: String,
    /// What was used.
    pub value: InputValue,
    /// Where it stands; every claim of a united value has its own place.
    pub origins: Vec<Origin>,
    /// How it is known ("d-204, drawing 1931"), empty where nothing is said.
    pub pedigree: String,
}

/// An input that a corner stands at one side of; shared by all corners of a case.
#[derive(Debug, PartialEq)]
pub struct CornerInput {
    /// What it is ("cg x", "mass").
    pub what: String,
    /// Whether it is a coordinate, whose sign is said always.
    pub coordinate: bool,
    /// Where the band stands.
    pub origin: Option<Origin>,
}

/// One side of one input at the corner that governs.
#[derive(Clone, Debug, PartialEq)]
pub struct Corner {
    /// The input.
    pub input: Arc<CornerInput>,
    /// The value there.
    pub value: Amount,
}

impl Corner {
    /// "cg x -60 mm", "mass 34.02 t".
    pub fn text(&self) -> String {
        let value = if self.input.coordinate {
            Printer::signed(self.value)
        } else {
            let metric = Printer { us_beside: false };
            metric.bound(self.value, Round::Nearest)
        };
        format!("{} {value}", self.input.what)
    }
}

/// Everything one check used, did and found. Faces read it and compute nothing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sheet {
    /// What was asked for and found; shared with the other checks of the case that used it.
    pub inputs: Vec<Arc<Input>>,
    /// What was done, in order.
    pub steps: Vec<Step>,
    /// What acts.
    pub demand: Option<Amount>,
    /// What may act.
    pub capacity: Option<Amount>,
    /// Demand over capacity at the governing corner.
    pub utilisation: Option<f64>,
    /// The corner that governs, and the station or state in words.
    pub corner: Vec<Corner>,
    /// The station or state that governs, empty where there is one only.
    pub state: String,
    /// The publications it follows.
    pub basis: Vec<Basis>,
    /// What it looks like.
    pub figure: Option<Arc<Figure>>,
}

/// Of a check that asked for nothing and did nothing.
static BLANK: LazyLock<Arc<Sheet>> = LazyLock::new(Arc::default);

impl Sheet {
    /// To be kept with a finding: most checks that do not apply used nothing, and share that.
    pub fn shared(self) -> Arc<Self> {
        if self == **BLANK {
            Arc::clone(&BLANK)
        } else {
            Arc::new(self)
        }
    }

    pub(crate) fn shrink_to_fit(&mut self) {
        self.inputs.shrink_to_fit();
        for step in &mut self.steps {
            step.shrink_to_fit();
        }
        self.steps.shrink_to_fit();
        self.corner.shrink_to_fit();
        self.state.shrink_to_fit();
        self.basis.shrink_to_fit();
    }

    /// The governing corner in one line: "mass 34.02 t, cg x -60 mm".
    pub fn corner_text(&self) -> String {
        self.corner
            .iter()
            .map(Corner::text)
            .collect::<Vec<_>>()
            .join(", ")
    }
}
