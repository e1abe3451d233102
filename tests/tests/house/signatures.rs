//! What the engineering may be asked, and in which types.

use crate::repository::sources;
use crate::sources::{code, line_of, names, without_tests};

/// The signature of every public function in code: where it starts, and its text up to its body.
///
/// A scan of the text: it sees `pub fn` and `pub const fn` wherever they stand, also where the module or the type
/// is not public itself, and it does not see what a macro makes.
fn public_signatures(code: &str) -> Vec<(usize, &str)> {
    let mut found = Vec::new();
    for (at, _) in code.match_indices("pub ") {
        let rest = code.get(at..).unwrap_or_default();
        let mut words = rest.split_whitespace().skip(1);
        let is_function = words
            .by_ref()
            .take_while(|word| matches!(*word, "const" | "async" | "fn"))
            .any(|word| word == "fn");
        if is_function {
            let end = body_start(rest);
            found.push((at, rest.get(..end).unwrap_or(rest)));
        }
    }
    found
}

/// Where the body starts: the first brace or semicolon outside round and square brackets.
fn body_start(signature: &str) -> usize {
    let mut depth = 0;
    for (at, c) in signature.char_indices() {
        match c {
            '(' | '[' => depth += 1,
            ')' | ']' => depth -= 1,
            '{' | ';' if depth == 0 => return at,
            _ => {}
        }
    }
    signature.len()
}

/// The types in a signature that do not say what they mean.
///
/// An array of plain numbers is a direction: its parts have no unit and no other meaning.
fn bare(signature: &str) -> Vec<&str> {
    let mut text = signature.to_owned();
    for size in ["2", "3"] {
        text = text.replace(&format!("[f64; {size}]"), "direction");
    }
    let bare = ["f64", "f32", "Angle", "Ratio"];
    bare.into_iter()
        .filter(|kind| names(&text).any(|name| name == *kind))
        .collect()
}

#[test]
fn no_public_function_of_mechanics_takes_or_gives_a_number_without_a_meaning() {
    let mut wrong = Vec::new();
    let mut seen = 0;
    for (file, text) in sources(|name| name == "mechanics") {
        let code = without_tests(&file, &code(&text));
        for (at, signature) in public_signatures(&code) {
            seen += 1;
            for kind in bare(signature) {
                let one_line = signature.split_whitespace().collect::<Vec<_>>().join(" ");
                wrong.push(format!(
                    "{file}:{}: `{kind}` in `{one_line}`",
                    line_of(&code, at)
                ));
            }
        }
    }
    assert!(seen >= 5, "only {seen} public functions were seen");
    assert!(
        wrong.is_empty(),
        "an angle from where, a share of what? Take a newtype of the units crate:\n{}",
        wrong.join("\n")
    );
}

#[test]
fn the_scan_of_signatures_finds_what_it_must() {
    let code = "pub const fn a(x: [f64; 3]) -> Length { let y: f64 = 1.0; }\n\
                pub fn b(\n  turn: Angle,\n) -> Result<Ratio, No>;\n\
                fn own(x: f64) {} pub struct S { pub share: f64 } pub(crate) fn near(x: f64) {}";
    let found = public_signatures(code);
    assert_eq!(found.len(), 2);
    let said: Vec<_> = found.iter().map(|(_, signature)| bare(signature)).collect();
    assert_eq!(said, [vec![], vec!["Angle", "Ratio"]]);
    assert_eq!(bare("pub fn c(x: &[f64]) -> HorizontalAngle"), ["f64"]);
}
