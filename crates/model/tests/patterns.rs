//! Points by patterns: each against coordinates worked by hand, in the order of the names.

use plumbhook_model::Declared;
use plumbhook_model::entries::{Load, Stand};
use plumbhook_units::Measured;

/// The points of a line, each as "A (1.200, 0.000, 1.620)"; or what is wrong with it.
fn points(line: &str) -> Result<Vec<String>, String> {
    let text = format!("load it\n  points {line}\n");
    let read = Declared::read(&"job.pick".into(), 0, &text);
    if let Some(notice) = read.notices.first() {
        return Err(notice.say.clone());
    }
    let load = read.of::<Load>().ok_or("no load")?;
    let points = load.points.known().ok_or("no points")?.value.0.iter();
    Ok(points
        .map(|point| {
            // Adding zero turns a negative zero into a plain one.
            let [x, y, z] = point.at.map(|at| (at.si() * 1e6).round() / 1e6 + 0.0);
            format!("{} ({x}, {y}, {z})", point.name)
        })
        .collect())
}

fn refused(line: &str) -> String {
    match points(line) {
        Ok(points) => panic!("{line}: {points:?}"),
        Err(why) => why,
    }
}

#[test]
fn a_ring_starts_where_its_first_lies_and_goes_the_way_it_says() {
    let four = "A .. D ring radius 2 m, z 1 m, first +y,";
    assert_eq!(
        points(&format!("{four} anticlockwise")).unwrap(),
        ["A (0, 2, 1)", "B (-2, 0, 1)", "C (0, -2, 1)", "D (2, 0, 1)"]
    );
    assert_eq!(
        points(&format!("{four} clockwise")).unwrap(),
        ["A (0, 2, 1)", "B (2, 0, 1)", "C (0, -2, 1)", "D (-2, 0, 1)"]
    );
}

#[test]
fn a_rectangle_starts_at_its_first_corner() {
    assert_eq!(
        points("P1 .. P4 rectangle x 4 m, y 2 m, z 0, first -x+y, clockwise").unwrap(),
        [
            "P1 (-2, 1, 0)",
            "P2 (2, 1, 0)",
            "P3 (2, -1, 0)",
            "P4 (-2, -1, 0)"
        ]
    );
    assert_eq!(
        refused("P1 .. P3 rectangle x 4 m, y 2 m, z 0, first -x+y, clockwise"),
        "a rectangle has four points, these are 3"
    );
}

#[test]
fn a_line_goes_on_from_its_start() {
    assert_eq!(
        points("L1 .. L3 line start (1 m, 2 m, 3 m), spacing 1.5 m, toward -y").unwrap(),
        ["L1 (1, 2, 3)", "L2 (1, 0.5, 3)", "L3 (1, -1, 3)"]
    );
    for line in [
        "L1 .. L3 line start (1 m, 2 m, 3 m), toward -y",
        "L1 .. L3 line start (1 m, 2 m, 3 m), spacing 0, toward -y",
        "L1 .. L3 line start (1 m, 2 m, 3 m), spacing 1 m",
        "L1 .. L3 line spacing 1 m, toward +x",
        "L1 .. L3 line start (1 m, 2 m, 3 m), spacing 1 m, toward +x+y",
        "L1 .. L3 line start (1 m, 2 m), spacing 1 m, toward +x",
    ] {
        refused(line);
    }
}

#[test]
fn an_image_in_a_plane_has_the_name_at_its_place() {
    assert_eq!(
        points("A (1 m, 2 m, 3 m), B (4 m, 5 m, 6 m), C D mirror A B, plane x-z").unwrap(),
        ["A (1, 2, 3)", "B (4, 5, 6)", "C (1, -2, 3)", "D (4, -5, 6)"]
    );
    assert_eq!(
        points("A (1 m, 2 m, 3 m), B mirror A, plane y-z, C mirror A, plane x-y").unwrap(),
        ["A (1, 2, 3)", "B (-1, 2, 3)", "C (1, 2, -3)"]
    );
    assert_eq!(
        refused("A (1 m, 2 m, 3 m), B (4 m, 5 m, 6 m), C mirror A B, plane x-z"),
        "2 points are mirrored to 1 names"
    );
    assert_eq!(
        refused("A (1 m, 2 m, 3 m), C mirror E, plane x-z"),
        "`E` has no place before it is mirrored"
    );
    assert_eq!(
        refused("A (1 m, 2 m, 3 m), C mirror A"),
        "the plane of the mirror is missing here"
    );
}

#[test]
fn names_count_up_by_numbers_or_by_letters() {
    let ring = |names: &str| {
        points(&format!(
            "{names} ring radius 1 m, z 0, first +x, anticlockwise"
        ))
        .map(|points| {
            let names = points.iter().filter_map(|point| point.split(' ').next());
            names.collect::<Vec<_>>().join(" ")
        })
    };
    assert_eq!(ring("L8 .. L11").unwrap(), "L8 L9 L10 L11");
    assert_eq!(ring("T1a .. T1c").unwrap(), "T1a T1b T1c");
    assert_eq!(ring("A C B").unwrap(), "A C B", "in the order written");
    for backwards in ["D .. A", "a .. D", "L4 .. L1", "A1 .. B2", "A .. A"] {
        assert_eq!(ring(backwards).unwrap_err(), "these names do not count up");
    }
    assert_eq!(ring("A B A").unwrap_err(), "`A` is named twice");
    assert_eq!(
        refused("A (1 m, 0, 0), A (2 m, 0, 0)"),
        "`A` is named twice"
    );
}

#[test]
fn a_pattern_takes_no_tolerance_and_no_size_of_zero() {
    assert_eq!(
        refused("A B C ring radius 1 m +/- 5 mm, z 0, first +x, anticlockwise"),
        "one length is wanted here, without a tolerance"
    );
    assert_eq!(
        refused("A B C ring radius 0, z 0, first +x, anticlockwise"),
        "`radius` of the pattern is above zero"
    );
    refused("A B C ring radius 1 m, z 0, first +x");
    refused("A B C ring radius 1 m, z 0, anticlockwise");
}

#[test]
fn pads_that_are_written_out_or_mirrored_have_a_size_too() {
    let pads = |line: &str| {
        let text = format!("stand it\n  pads {line}\n");
        let read = Declared::read(&"plant.pick".into(), 0, &text);
        let pads = read.of::<Stand>().and_then(|stand| stand.pads.known());
        pads.map(|pads| (pads.value.points.len(), pads.value.size.is_some()))
    };
    assert_eq!(
        pads("P1 (1 m, 1 m), P2 (-1 m, 1 m), P3 P4 mirror P1 P2, plane x-z, size 300 mm x 300 mm"),
        Some((4, true))
    );
    assert_eq!(
        pads("P1 .. P3 line start (0, 0), spacing 1 m, toward +x"),
        Some((3, false))
    );
    assert_eq!(
        pads("P1 (1 m, 1 m), P2 mirror P1, plane x-y, size 1 m x 1 m"),
        None
    );
}
