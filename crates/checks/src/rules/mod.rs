//! Every rule. A new one adds its file, its `mod` line and its line in [`RULES`].

mod floor_bearing;
mod gross;
mod ground;
mod hook_capacity;
mod over_void;
mod piece;
mod ring;
mod shackle;
mod sling;
mod support_verified;

use crate::Rule;

/// Every rule, in the order of the reference. A rule that is not in the list is an unused static, which
/// the build refuses.
pub const RULES: &[&Rule] = &[
    &sling::RULE,
    &shackle::RULE,
    &ring::RULE,
    &hook_capacity::RULE,
    &floor_bearing::RULE,
    &over_void::RULE,
    &support_verified::RULE,
];

/// The rule of that code.
pub fn rule(code: &str) -> Option<&'static Rule> {
    RULES.iter().find(|rule| rule.code == code).copied()
}
