//! What a line says and nothing could honour is refused where it stands: a tolerance, a second value, a number that
//! waits for itself.

use plumbhook_model::Declared;

/// What is said of a line, and the part of it that is marked.
fn said(entry: &str, line: &str) -> (String, String) {
    let text = format!("{entry}\n  {line}\n");
    let read = Declared::read(&"x.pick".into(), 0, &text);
    let [notice] = &read.notices[..] else {
        panic!("{line}: {:?}", read.notices);
    };
    let place = notice.origin.start as usize..notice.origin.end as usize;
    let marked = text.lines().nth(notice.origin.line as usize);
    let marked = marked.and_then(|line| line.get(place)).unwrap_or_default();
    (notice.say.clone(), marked.to_owned())
}

/// Entry, line, part of what is said of it, and what is marked there.
const REFUSED: &[(&str, &str, &str, &str)] = &[
    (
        "load it",
        "shape disc, outside 3.45 m +/- 500 mm, z 0 .. 1.62 m",
        "the outside is one length without a tolerance",
        "3.45 m +/- 500 mm",
    ),
    (
        "load it",
        "shape disc, outside 3.45 m, outside 3.10 m, z 0 .. 1.62 m",
        "`outside` of the shape stands twice",
        "3.10 m",
    ),
    (
        "load it",
        "shape box, x -1 m .. 1 m, x -2 m .. 2 m, y -2 m .. 2 m, z 0 .. 1 m",
        "`x` of the shape stands twice",
        "-2 m .. 2 m",
    ),
    (
        "load it",
        "shape box, x 1 m +/- 100 mm, y -2 m .. 2 m, z 0 .. 1 m",
        "an axis of a shape is a range",
        "1 m +/- 100 mm",
    ),
    (
        "move it",
        "hold H1 at 2 in +/- 1 in cell within expected",
        "one length without a tolerance",
        "2 in +/- 1 in",
    ),
    (
        "load it",
        "points A .. C ring radius 1 m, z 1 m, first +x, anticlockwise, clockwise",
        "the sense of turning stands twice",
        "clockwise",
    ),
    (
        "load it",
        "points A .. C ring radius 1 m, z 1 m, first +x, first +y, anticlockwise",
        "`first` stands twice",
        "+y",
    ),
    (
        "load it",
        "points A .. C ring radius 1 m, z 1 m, first +x+z, anticlockwise",
        "a pattern lies in x and y",
        "anticlockwise",
    ),
    (
        "takeoff it",
        "part p round outside 1 m +/- 1 mm, long 1 m +/- 1 mm, at (0, 0, 0) +/- 1 mm, of steel, times 3 ring radius 1 m +/- 1 mm, first +x, anticlockwise, clockwise",
        "the sense of turning stands twice",
        "clockwise",
    ),
    (
        "takeoff it",
        "part hub lump mass expected, at (0, 0, 0) +/- 5 mm",
        "a part cannot take its mass from what it is a part of",
        "expected",
    ),
];

#[test]
fn what_a_place_cannot_honour_is_refused_there() {
    for (entry, line, says, marks) in REFUSED {
        let (said, marked) = said(entry, line);
        assert!(said.contains(says), "{line}: {said}");
        assert_eq!(&marked, marks, "{line}: {said}");
    }
}
