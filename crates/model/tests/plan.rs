//! Grid lines, places, directions and slopes as they are read; what is wrong is said at its place.

use plumbhook_model::entries::{Move, Plant, Stand};
use plumbhook_model::values::Banded;
use plumbhook_model::{Cursor, Declared};
use plumbhook_units::{Measured, Slope};

fn read(entry: &str, line: &str) -> (Declared, Vec<(String, String)>) {
    let text = format!("{entry}\n  {line}\n");
    let read = Declared::read(&"x.pick".into(), 0, &text);
    let said = read.notices.iter();
    let said = said.map(|notice| {
        let place = notice.origin.start as usize..notice.origin.end as usize;
        let line = text.lines().nth(notice.origin.line as usize);
        let marked = line.and_then(|line| line.get(place)).unwrap_or_default();
        (notice.say.clone(), marked.to_owned())
    });
    let said = said.collect();
    (read, said)
}

#[test]
fn grid_lines_stand_in_the_order_of_their_names() {
    let grid = |line: &str| {
        let (plant, said) = read("plant it", line);
        assert!(said.is_empty(), "{said:?}");
        let plant = plant.of::<Plant>().unwrap();
        let lines = &plant.grid.lines[0].known().unwrap().value;
        let shown = lines.lines.iter().map(|line| {
            let at = line.at.nominal.unwrap().si();
            format!("{}={at}", line.name)
        });
        (lines.axis, shown.collect::<Vec<_>>().join(" "))
    };
    assert_eq!(
        grid("grid A .. C at x 0, 6.1 m, 12.2 m"),
        (0, "A=0 B=6.1 C=12.2".into())
    );
    assert_eq!(
        grid("grid 1 .. 3 at y 0, 3.8 m, 7.6 m"),
        (1, "1=0 2=3.8 3=7.6".into())
    );
    assert_eq!(
        grid("grid A B D at x 0, 1 m +/- 5 mm, 2 m"),
        (0, "A=0 B=1 D=2".into())
    );
    assert_eq!(grid("grid 4 at y -2 m"), (1, "4=-2".into()));
}

#[test]
fn a_grid_line_without_a_coordinate_of_its_own_is_told() {
    let said = |line: &str| read("plant it", line).1.remove(0).0;
    assert_eq!(
        said("grid A .. C at x 0, 6.1 m"),
        "3 grid lines are named here, and 2 coordinates are given"
    );
    assert_eq!(
        said("grid A .. C at z 0, 1 m, 2 m"),
        "a grid line stands along `x` or `y`"
    );
    assert_eq!(
        said("grid A .. C x 0, 1 m, 2 m"),
        "where the lines stand is missing here"
    );
    assert_eq!(
        said("grid C .. A at x 0, 1 m, 2 m"),
        "these names do not count up"
    );
}

#[test]
fn a_place_is_written_in_one_of_four_ways() {
    let written = |line: &str| {
        let (stand, said) = read("stand it", &format!("at {line}"));
        match said.into_iter().next() {
            Some((said, _)) => Err(said),
            None => Ok(stand
                .of::<Stand>()
                .unwrap()
                .at
                .known()
                .unwrap()
                .value
                .written()),
        }
    };
    for (line, says) in [
        ("(41.0 m, 5.4 m)", "(41.00 m, 5.40 m)"),
        ("A/1", "A/1"),
        ("H/4 + (1.2 m, -0.3 m)", "H/4 + (1.20 m, -0.30 m)"),
        ("H/4 + (1.2 m, -0.3 m) +/- 10 mm", "H/4 + (1.20 m, -0.30 m)"),
        ("unit-3.pit", "unit-3.pit"),
        ("quay-K + (0, 2 m)", "quay-K + (0.00 m, 2.00 m)"),
    ] {
        assert_eq!(written(line).as_deref(), Ok(says));
    }
    for line in [
        "A/1 + 2 m",
        "A/1 - (1 m, 2 m)",
        "A/1 + (1 m, 2 m, 3 m)",
        "(1 m, 2 m) +/- 5 %",
        "(1 m, 2 m) + (1 m, 2 m)",
        "3 m",
        "to",
        "A/1 B/1",
    ] {
        assert!(written(line).is_err(), "{line}");
    }
}

#[test]
fn an_outline_that_crosses_itself_is_told_where_it_is_drawn() {
    let (_, said) = read("floor it", "outline (0, 0) (2 m, 2 m) (2 m, 0) (0, 2 m)");
    let [(why, at)] = &said[..] else {
        panic!("{said:?}");
    };
    assert!(why.contains("cross or touch"), "{why}");
    assert_eq!(at, "(0, 0)");
    let (_, fine) = read(
        "floor it",
        "outline (0, 0) (3 m, 0) (3 m, 2 m) (2 m, 2 m) (2 m, 1 m) (0, 1 m)",
    );
    assert!(fine.is_empty(), "{fine:?}");
}

#[test]
fn a_direction_counts_from_plus_x_anticlockwise_or_as_it_says() {
    let degrees = |line: &str| {
        let (moves, said) = read("move it", &format!("heading {line}"));
        if let Some((said, _)) = said.into_iter().next() {
            return Err(said);
        }
        let heading = moves.of::<Move>().unwrap().heading.known().unwrap().value.0;
        Ok((heading.si().to_degrees() * 1e9).round() / 1e9)
    };
    for (line, wanted) in [
        ("30 deg", 30.0),
        ("30 deg anticlockwise", 30.0),
        ("30 deg clockwise", 330.0),
        ("30 deg, zero +y", 120.0),
        ("30 deg clockwise, zero +y", 60.0),
        ("+x", 0.0),
        ("+y", 90.0),
        ("-x", 180.0),
        ("-y", 270.0),
    ] {
        assert_eq!(degrees(line), Ok(wanted), "{line}");
    }
    for line in [
        "30",
        "30 deg, zero north",
        "30 deg, zero +x+y",
        "+z",
        "30 deg clockwise left",
        "1:50",
    ] {
        assert!(degrees(line).is_err(), "{line}");
    }
}

#[test]
fn a_slope_is_one_kind_however_it_is_written() {
    let slope = |text: &str| {
        let entry = plumbhook_syntax::read_entry(text);
        let key = std::sync::Arc::new(plumbhook_sheet::EntryKey {
            file: "x".into(),
            word: "x".into(),
            name: "x".into(),
            nth: 0,
        });
        let reading = plumbhook_model::Reading::alone(&key);
        let mut cursor = Cursor::new(&entry.statements[0], 0, &reading);
        Banded::<Slope>::read_part(&mut cursor)
            .ok()
            .and_then(|slope| slope.nominal)
            .map(Slope::si)
    };
    let near = |a: Option<f64>, b: f64| a.is_some_and(|a| (a - b).abs() < 1e-12);
    assert!(near(slope("x\n  fall 1:50\n"), 0.02));
    assert!(near(slope("x\n  fall 2 %\n"), 0.02));
    assert!(
        near(slope("x\n  fall 45 deg\n"), 1.0),
        "{:?}",
        slope("x\n  fall 45 deg\n")
    );
    assert_eq!(
        slope("x\n  fall 0.02\n"),
        None,
        "a bare number says no slope"
    );
}
