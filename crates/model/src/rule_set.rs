//! The published rule sets that a job can name, as data.

use plumbhook_mechanics::sling::{self, Hitch, SlingTable};
use plumbhook_sheet::{Basis, Trust};

/// One band of a published leg factor: how many times a single leg's rating a set of legs carries.
#[derive(Debug)]
pub struct LegFactor {
    /// Legs in the set, from and to.
    pub legs: (usize, usize),
    /// Largest angle of any leg from vertical, in degrees.
    pub to_vertical_deg: f64,
    /// The set carries this many times the rating of one leg.
    pub factor: f64,
}

/// What makes a lift a critical one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Trigger {
    /// What the machine lifts is more than this share of what it is rated for.
    ShareOfRating(f64),
    /// More machines than this lift together.
    Machines(usize),
}

/// A trigger of the class of a lift, as published.
#[derive(Clone, Copy, Debug)]
pub struct ClassTrigger {
    /// The trigger.
    pub of: Trigger,
    /// Its publication.
    pub basis: Basis,
}

/// How many times its rating for a straight pull one part of a sling carries in another hitch.
#[derive(Debug)]
pub struct HitchFactor {
    /// The kind of sling.
    pub kind: &'static str,
    /// The hitch.
    pub hitch: Hitch,
    /// Of each part; a basket has two.
    pub factor: f64,
    /// Its publication.
    pub basis: Basis,
}

/// A published rule set.
#[derive(Debug)]
pub struct RuleSet {
    /// Its word in the `rules` line.
    pub word: &'static str,
    /// Our edition of it: raised whenever a number or a limit of it changes. A root file can pin it, so that a
    /// newer version of the program changes no verdict unnoticed. Edition 2 of `us` has the triggers of the class of a
    /// lift and tables of slings.
    pub edition: u32,
    /// What it is.
    pub help: &'static str,
    /// Flattest leg that its tables cover, in degrees from horizontal.
    pub least_horizontal_deg: f64,
    /// Publication of that limit.
    pub least_horizontal_basis: Basis,
    /// How many legs count, where it says so.
    pub leg_factors: &'static [LegFactor],
    /// Publication of the leg factors.
    pub leg_factor_basis: Option<Basis>,
    /// Its tables of slings by size, as far as they are kept.
    pub sling_tables: fn() -> &'static [SlingTable],
    /// What it says of one hitch where a tag rates another.
    pub hitch_factors: &'static [HitchFactor],
    /// What makes a lift critical, as far as that can be computed.
    pub class_triggers: &'static [ClassTrigger],
    /// What makes it critical and only a person can say, in words; empty where the rule set names nothing.
    pub class_by_person: &'static str,
    /// Whether pounds and kips stand beside metric units.
    pub us_beside: bool,
}

/// EN 13414-1:2003, Table 4 (leg factors 1.4, 1.0, 2.1, 1.5 and their bands of the angle from vertical).
const EN_LEGS: &[LegFactor] = &[
    LegFactor {
        legs: (2, 2),
        to_vertical_deg: 45.0,
        factor: 1.4,
    },
    LegFactor {
        legs: (2, 2),
        to_vertical_deg: 60.0,
        factor: 1.0,
    },
    LegFactor {
        legs: (3, 4),
        to_vertical_deg: 45.0,
        factor: 2.1,
    },
    LegFactor {
        legs: (3, 4),
        to_vertical_deg: 60.0,
        factor: 1.5,
    },
];

const EN_13414: Basis = Basis {
    publication: "EN 13414-1:2003",
    section: "Table 4",
    trust: Trust::Published,
};

/// Second-hand: read in a manual that quotes the standard. Two parts that hang plumb carry twice the rating together.
const EN_1492: Basis = Basis {
    publication: "EN 1492-1, as quoted in a user manual of webbing slings",
    section: "table of mode factors",
    trust: Trust::Published,
};

const EN_HITCHES: &[HitchFactor] = &[
    HitchFactor {
        kind: "webbing",
        hitch: Hitch::Choker,
        factor: 0.8,
        basis: EN_1492,
    },
    HitchFactor {
        kind: "webbing",
        hitch: Hitch::Basket,
        factor: 1.0,
        basis: EN_1492,
    },
];

/// The triggers of a critical lift in numbers: the USACE form for critical lifts, read directly. 29 CFR 1926.751 defines the same two for steel erection; that is from
/// memory and not named here.
pub const USACE_CRITICAL: Basis = Basis {
    publication: "USACE New England, critical lift form of 12 October 2016, for EM 385-1-1",
    section: "section 16: over 75 % of rated capacity; more than one crane",
    trust: Trust::Published,
};

const US_CLASS: &[ClassTrigger] = &[
    ClassTrigger {
        of: Trigger::ShareOfRating(0.75),
        basis: USACE_CRITICAL,
    },
    ClassTrigger {
        of: Trigger::Machines(1),
        basis: USACE_CRITICAL,
    },
];

/// Every rule set of this version.
pub static RULE_SETS: &[RuleSet] = &[
    RuleSet {
        word: "us",
        edition: 2,
        help: "US federal rules and guidance: ratings from the tag, tables down to 30 deg from horizontal",
        least_horizontal_deg: 30.0,
        least_horizontal_basis: Basis {
            publication: "OSHA, Guidance on Safe Sling Use",
            section: "Tables 1 and 2 (no rating below 30 deg from horizontal)",
            trust: Trust::Published,
        },
        leg_factors: &[],
        leg_factor_basis: None,
        sling_tables: sling::us_tables,
        hitch_factors: &[],
        class_triggers: US_CLASS,
        class_by_person: "the operator does not see the load, people are lifted, the rigging is not routine",
        us_beside: true,
    },
    RuleSet {
        word: "en",
        edition: 2,
        help: "European standards for slings: leg factors by band, three of four legs, at most 60 deg from vertical",
        least_horizontal_deg: 30.0,
        least_horizontal_basis: EN_13414,
        leg_factors: EN_LEGS,
        leg_factor_basis: Some(EN_13414),
        sling_tables: sling::en_tables,
        hitch_factors: EN_HITCHES,
        class_triggers: &[],
        class_by_person: "",
        us_beside: false,
    },
    RuleSet {
        word: "us-longshoring",
        edition: 1,
        help: "29 CFR 1918, cargo in ships: slings of natural fibre rope by its own table where certificate and maker say nothing",
        least_horizontal_deg: 30.0,
        least_horizontal_basis: Basis {
            publication: "29 CFR 1918 Appendix II, copy of 28 July 2023",
            section: "Table 2 (no rating below 30 deg from horizontal)",
            trust: Trust::Published,
        },
        leg_factors: &[],
        leg_factor_basis: None,
        sling_tables: sling::longshoring_tables,
        hitch_factors: &[],
        class_triggers: &[],
        class_by_person: "",
        us_beside: true,
    },
];

/// The rule set of that word.
pub fn rule_set(word: &str) -> Option<&'static RuleSet> {
    RULE_SETS.iter().find(|set| set.word == word)
}
