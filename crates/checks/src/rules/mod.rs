//! Every rule. A new one adds its file, its `mod` line and its line in [`RULES`].

mod beyond;
mod carried;
mod centre_of_gravity;
mod floor_bearing;
mod gross;
mod ground;
mod hook;
mod hook_capacity;
mod hook_height;
mod hook_reach;
mod leg_angle;
mod mass;
mod over_void;
mod piece;
mod pose;
mod remedy;
mod ring;
mod shackle;
mod sling;
mod stack;
mod support_verified;
mod tilt;

use crate::Rule;

/// Every rule, in the order of the reference. A rule that is not in the list is an unused static, which
/// the build refuses.
pub const RULES: &[&Rule] = &[
    &mass::RULE,
    &centre_of_gravity::RULE,
    &leg_angle::RULE,
    &sling::RULE,
    &shackle::RULE,
    &ring::RULE,
    &tilt::RULE,
    &hook_capacity::RULE,
    &hook_height::RULE,
    &hook_reach::RULE,
    &floor_bearing::RULE,
    &over_void::RULE,
    &support_verified::RULE,
];

/// The rule of that code.
pub fn rule(code: &str) -> Option<&'static Rule> {
    RULES.iter().find(|rule| rule.code == code).copied()
}
