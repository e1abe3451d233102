//! Where lines end: at `\n`, `\r\n` or a lone `\r`, as editors and the language server protocol count them.

use memchr::memchr2;

/// The line ending at or after `from`: where it starts, and where the next line starts.
pub(crate) fn line_end(text: &str, from: usize) -> Option<(usize, usize)> {
    let bytes = text.as_bytes();
    let at = from + memchr2(b'\n', b'\r', bytes.get(from..)?)?;
    let wide = bytes.get(at) == Some(&b'\r') && bytes.get(at + 1) == Some(&b'\n');
    Some((at, at + if wide { 2 } else { 1 }))
}

/// The lines of a text without their endings. An ending at the end of the text opens no further line.
pub(crate) fn lines(text: &str) -> impl Iterator<Item = &str> {
    let mut start = 0;
    std::iter::from_fn(move || {
        if start >= text.len() {
            return None;
        }
        let (end, next) = line_end(text, start).unwrap_or((text.len(), text.len()));
        let line = text.get(start..end).unwrap_or("");
        start = next;
        Some(line)
    })
}
