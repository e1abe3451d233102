//! Angles of legs: never without what they are measured from.
#![allow(clippy::unwrap_used, reason = "tests")]

use plumbhook_model::values::LegAngle;
use plumbhook_model::{Cursor, Fail, Reading, Value};
use plumbhook_sheet::EntryKey;
use plumbhook_syntax::read_entry;
use plumbhook_units::{HorizontalAngle, Measured};
use std::sync::Arc;

fn read(value: &str) -> Result<LegAngle, String> {
    let text = format!("x a\n  angle {value}\n");
    let entry = read_entry(&text);
    let key = Arc::new(EntryKey {
        file: "a.pick".into(),
        word: "x".into(),
        name: "a".into(),
        nth: 0,
    });
    let reading = Reading::alone(&key);
    let mut cursor = Cursor::new(&entry.statements[0], 0, &reading);
    let read = LegAngle::read(&mut cursor).and_then(|angle| cursor.finish().map(|()| angle));
    read.map_err(|fail| match fail {
        Fail::Broken(broken) => format!("{}; {}", broken.say, broken.mend),
        other => format!("{other:?}"),
    })
}

fn degrees(side: Option<HorizontalAngle>) -> Option<f64> {
    side.map(|side| (side.si().to_degrees() * 1e6).round() / 1e6)
}

/// Low side, high side and number, in degrees from horizontal.
fn from_horizontal(value: &str) -> [Option<f64>; 3] {
    let angle = read(value).unwrap().to_horizontal();
    [angle.lo, angle.hi, angle.nominal].map(degrees)
}

#[test]
fn an_angle_names_its_datum_and_turns_into_the_other() {
    // 60 deg from horizontal is 30 deg from vertical: the two make a right angle.
    assert_eq!(
        from_horizontal("60 deg from horizontal"),
        [None, None, Some(60.0)]
    );
    assert_eq!(
        from_horizontal("30 deg from vertical"),
        [None, None, Some(60.0)]
    );
    assert_eq!(
        from_horizontal("30 deg +/- 2 deg from vertical"),
        [Some(58.0), Some(62.0), Some(60.0)]
    );
    assert_eq!(
        from_horizontal("at most 45 deg from vertical"),
        [Some(45.0), None, None]
    );
    assert_eq!(from_horizontal("90 deg from horizontal")[2], Some(90.0));
}

#[test]
fn a_bare_angle_is_refused() {
    assert_eq!(
        read("60 deg").unwrap_err(),
        "`60 deg` does not say what it is measured from; write `60 deg from horizontal` or `60 deg from vertical`"
    );
    assert_eq!(
        read("100 deg from horizontal").unwrap_err(),
        "a leg stands between level and plumb, 0 to 90 deg; "
    );
    assert_eq!(
        read("3 m from vertical").unwrap_err(),
        "`3 m` is length (m), and no angle from vertical; "
    );
    assert!(
        read("60 deg from drawing").is_err(),
        "what stands behind `from` is a source"
    );
}
