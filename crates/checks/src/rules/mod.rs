//! Every rule. A new one adds its file and its line in the list below.

mod beyond;
mod carried;
mod chart_radius;
mod crane_standing;
mod crane_statics;
mod crane_work;
mod gross;
mod ground;
mod held;
mod hook;
mod hook_place;
mod lug_pull;
mod lugs;
mod piece;
mod pose;
mod remedy;
mod stack;
mod stop;
mod tiers;
mod worst;

use crate::Rule;

/// One line makes a file part of the crate and its rule part of every check; a file that is in no line is
/// not built, which a test of the house refuses. `cargo fmt` does not follow modules that a macro declares,
/// so another asks `rustfmt` for every file.
macro_rules! rules {
    ($($file:ident,)*) => {
        $(mod $file;)*

        /// Every rule, in the order of the reference.
        pub const RULES: &[&Rule] = &[$(&$file::RULE,)*];
    };
}

rules! {
    mass,
    centre_of_gravity,
    source_agrees,
    weighing,
    leg_angle,
    sling,
    sling_edge,
    shackle,
    ring,
    lifting_point,
    fits_neighbour,
    shackle_side_load,
    beam_rating,
    tilt,
    hoist_plumb,
    breaking_free,
    hold,
    hook_capacity,
    hook_height,
    hook_reach,
    crane_chart,
    floor_bearing,
    over_void,
    support_verified,
    lift_class,
}

/// The rule of that code.
pub fn rule(code: &str) -> Option<&'static Rule> {
    RULES.iter().find(|rule| rule.code == code).copied()
}
