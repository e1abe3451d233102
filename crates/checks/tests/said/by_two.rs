//! The tank of the spreader lift by two machines.

/// The tank by two machines, one at each end.
pub(crate) const BY_TWO: &[(&str, &str)] = &[
    (
        "rigging under-bar
  legs       A B to bar-4.ends, through bow-12, rope-26-long-3, bow-12
  legs       bar-4.tops to ring-2, through bow-12, rope-32-long-4, bow-12
  hung       ring-2 by bridge.main
",
        "rigging head
  legs       A to ring-2, through bow-12, rope-32-long-4, bow-12
  hung       ring-2 by bridge.main

rigging tail
  legs       B to ring-2, through bow-12, rope-32-long-4, bow-12
  hung       ring-2 by second.main
",
    ),
    (
        "by         bridge with under-bar",
        "by         bridge with head, second with tail\n  hooks-level at most 100 mm",
    ),
    (
        "overhead-crane bridge",
        "overhead-crane second
  rated      5 t                      from nameplate \"5 t\"
  block      300 kg +/- 5 %
  block-in-rating yes
  hook main  bears-up-to EL 62.20 m, bears-down-to EL 51.0 m, reaches x 2.0 m .. 22.0 m, y 1.5 m .. 8.5 m  from walk-2

overhead-crane bridge",
    ),
];
