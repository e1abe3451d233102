//! Rust text as code alone: comments, quoted texts and tests taken out, lines kept.

/// The text with every comment, quoted text and character made blank; each line stays where it is.
///
/// It is a scan, not a parser: it knows nested comments, raw and byte strings, escapes, and tells a character
/// from a lifetime. It does not expand macros.
pub(crate) fn code(text: &str) -> String {
    let chars: Vec<char> = text.chars().collect();
    let mut out = String::with_capacity(text.len());
    let mut at = 0;
    while let Some(&c) = chars.get(at) {
        let end = match (c, chars.get(at + 1)) {
            ('/', Some('/')) => line_end(&chars, at),
            ('/', Some('*')) => comment_end(&chars, at),
            ('"', _) => string_end(&chars, at + 1),
            ('r', Some('"' | '#')) if !follows_a_name(&chars, at) => raw_end(&chars, at + 1),
            ('\'', _) => character_end(&chars, at),
            _ => at,
        };
        if end == at {
            out.push(c);
            at += 1;
        } else {
            let dropped = chars.get(at..end).unwrap_or_default();
            out.extend(dropped.iter().map(|c| if *c == '\n' { '\n' } else { ' ' }));
            at = end;
        }
    }
    out
}

fn follows_a_name(chars: &[char], at: usize) -> bool {
    // `br"…"` is a raw string; `r` at the end of a longer name is none.
    let before = at.checked_sub(1).and_then(|before| chars.get(before));
    let twice = at.checked_sub(2).and_then(|before| chars.get(before));
    match before {
        Some('b') => twice.is_some_and(|c| c.is_alphanumeric() || *c == '_'),
        Some(c) => c.is_alphanumeric() || *c == '_',
        None => false,
    }
}

fn line_end(chars: &[char], at: usize) -> usize {
    (at..chars.len())
        .find(|end| chars.get(*end) == Some(&'\n'))
        .unwrap_or(chars.len())
}

fn comment_end(chars: &[char], at: usize) -> usize {
    let mut depth = 0;
    let mut end = at;
    while end < chars.len() {
        match (chars.get(end), chars.get(end + 1)) {
            (Some('/'), Some('*')) => depth += 1,
            (Some('*'), Some('/')) => depth -= 1,
            _ => {
                end += 1;
                continue;
            }
        }
        end += 2;
        if depth == 0 {
            return end;
        }
    }
    chars.len()
}

fn string_end(chars: &[char], mut end: usize) -> usize {
    while let Some(c) = chars.get(end) {
        match c {
            '\\' => end += 2,
            '"' => return end + 1,
            _ => end += 1,
        }
    }
    chars.len()
}

/// The end of a raw string whose marks start at `at`, or the place before them if it is a raw name.
fn raw_end(chars: &[char], at: usize) -> usize {
    let marks = (at..chars.len())
        .take_while(|i| chars.get(*i) == Some(&'#'))
        .count();
    if chars.get(at + marks) != Some(&'"') {
        return at - 1;
    }
    let body = at + marks + 1;
    (body..chars.len())
        .find(|i| {
            chars.get(*i) == Some(&'"') && (1..=marks).all(|mark| chars.get(i + mark) == Some(&'#'))
        })
        .map_or(chars.len(), |i| i + marks + 1)
}

fn character_end(chars: &[char], at: usize) -> usize {
    match (chars.get(at + 1), chars.get(at + 2)) {
        (Some('\\'), _) => (at + 3..chars.len())
            .find(|end| chars.get(*end) == Some(&'\''))
            .map_or(chars.len(), |end| end + 1),
        (Some(_), Some('\'')) => at + 3,
        _ => at,
    }
}

/// Code without its tests: cut at a test module in the file, empty for a file that is one.
pub(crate) fn without_tests(file: &str, code: &str) -> String {
    let is_test = file.ends_with("/tests.rs") || file.contains("/tests/");
    let code = if is_test { "" } else { code };
    let end = code.find("#[cfg(test)]").unwrap_or(code.len());
    code.get(..end).unwrap_or_default().to_owned()
}

/// The names in code, in order: keywords too.
pub(crate) fn names(code: &str) -> impl Iterator<Item = &str> {
    code.split(|c: char| !(c.is_alphanumeric() || c == '_'))
        .filter(|name| !name.is_empty())
}

/// The line of a byte, counted from 1.
pub(crate) fn line_of(text: &str, byte: usize) -> usize {
    text.get(..byte).unwrap_or(text).matches('\n').count() + 1
}

#[test]
fn the_scan_sees_code_and_nothing_else() {
    let text = "let a = 'x'; // one\nfn f<'a>(s: &'a str) {} /* two /* three */ four */ let b = \"fi\\\"ve\";\n\
                let c = r#\"si\"x\"#; let d = b'\\''; let r = br\"seven\"; let owner = \"\"; last";
    let seen: Vec<String> = names(&code(text)).map(str::to_owned).collect();
    assert_eq!(
        seen.join(" "),
        "let a fn f a s a str let b let c let d b let r b let owner last"
    );
    assert_eq!(code(text).matches('\n').count(), text.matches('\n').count());
}
