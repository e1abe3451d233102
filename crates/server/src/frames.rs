//! Messages on a byte stream: a header with `Content-Length`, a blank line, JSON.
//!
//! A stream that goes wrong is picked up again at the next `Content-Length`, also inside a body
//! whose length was wrong; nothing ends it but its own end.

use memchr::memmem;
use serde::Serialize;
use serde_json::Value;
use std::io::{self, ErrorKind, Read};

const LENGTH: &[u8] = b"content-length:";
/// A header longer than this is none.
const MAX_HEADER: usize = 4096;
/// A message longer than this is not read: a job is a text that a person wrote.
const MAX_BODY: usize = 256 * 1024 * 1024;

/// Read at a time.
const CHUNK: usize = 16 * 1024;

/// What stood next on the stream.
#[derive(Debug, PartialEq)]
pub(crate) enum Frame {
    /// A whole message of valid JSON.
    Message(Value),
    /// Bytes that are no message.
    Malformed {
        why: String,
        /// They may have been a change of a text, which is now lost.
        maybe_edit: bool,
    },
}

/// The bytes of a message: its header, its body.
pub(crate) type Encoded = [Vec<u8>; 2];

/// A message as it is written.
pub(crate) fn encode(message: &impl Serialize) -> serde_json::Result<Encoded> {
    let body = serde_json::to_vec(message)?;
    let header = format!("Content-Length: {}\r\n\r\n", body.len());
    Ok([header.into_bytes(), body])
}

/// Reads frames.
pub(crate) struct Frames<R> {
    input: R,
    /// Read, not yet taken.
    buffer: Vec<u8>,
}

impl<R: Read> Frames<R> {
    pub(crate) fn new(input: R) -> Self {
        Self {
            input,
            buffer: Vec::new(),
        }
    }

    /// The next frame; `None` at the end of input.
    pub(crate) fn next(&mut self) -> io::Result<Option<Frame>> {
        let end = loop {
            let head = self.buffer.get(..MAX_HEADER).unwrap_or(&self.buffer);
            if let Some(end) = header_end(head) {
                break end;
            }
            if head.len() == MAX_HEADER {
                return self.skip_to_length().map(Some);
            }
            if !self.fill()? {
                return Ok(self.rest());
            }
        };
        let header = self.buffer.get(..end).unwrap_or_default();
        let Some(at) = find_length(header) else {
            return Ok(Some(
                self.drop_bytes(end, "a header without Content-Length"),
            ));
        };
        // Other header lines may stand before it; the rest of a broken message may as well.
        let line = header
            .get(..at)
            .and_then(|before| before.iter().rposition(|b| *b == b'\n'));
        if line.map_or(at, |feed| at - feed - 1) > 0 {
            return Ok(Some(self.drop_bytes(at, "bytes before a Content-Length")));
        }
        match length(header.get(at + LENGTH.len()..).unwrap_or_default()) {
            Some(length) => self.body(end, length),
            None => Ok(Some(
                self.drop_bytes(end, "a Content-Length that cannot be"),
            )),
        }
    }

    fn body(&mut self, start: usize, length: usize) -> io::Result<Option<Frame>> {
        while self.buffer.len() < start + length {
            if !self.fill()? {
                return Ok(self.rest());
            }
        }
        let body = self.buffer.get(start..start + length).unwrap_or_default();
        let mut values = serde_json::Deserializer::from_slice(body).into_iter::<Value>();
        match values.next() {
            Some(Ok(message)) => {
                // What follows the value is the next message, if the length was too great.
                let taken = values.byte_offset();
                let rest = body.get(taken..).unwrap_or_default();
                let taken = if rest.trim_ascii().is_empty() {
                    length
                } else {
                    taken
                };
                self.buffer.drain(..start + taken);
                // A long text comes once; what follows are keystrokes.
                self.buffer.shrink_to(CHUNK);
                Ok(Some(Frame::Message(message)))
            }
            other => {
                let why = match other {
                    Some(Err(error)) => format!("no valid JSON: {error}"),
                    _ => "an empty message".to_owned(),
                };
                let swallowed = find_length(body).unwrap_or(length);
                Ok(Some(self.drop_bytes(start + swallowed, &why)))
            }
        }
    }

    /// A header that does not end: everything up to the next Content-Length goes.
    fn skip_to_length(&mut self) -> io::Result<Frame> {
        let mut searched = 1;
        loop {
            let rest = self.buffer.get(searched..).unwrap_or_default();
            if let Some(at) = find_length(rest) {
                return Ok(self.drop_bytes(searched + at, "a header that does not end"));
            }
            // The word may be cut by the end of what has been read. Nothing else need be kept,
            // but what was dropped decides whether a change is lost.
            searched = self.buffer.len().saturating_sub(LENGTH.len()).max(searched);
            if self.buffer.len() > MAX_BODY || !self.fill()? {
                return Ok(self.drop_bytes(self.buffer.len(), "a header that does not end"));
            }
        }
    }

    /// What stands before the end of input.
    fn rest(&mut self) -> Option<Frame> {
        let cut = !self.buffer.is_empty();
        cut.then(|| self.drop_bytes(self.buffer.len(), "the input ends within a message"))
    }

    fn drop_bytes(&mut self, end: usize, why: &str) -> Frame {
        let end = end.min(self.buffer.len());
        let dropped: Vec<u8> = self.buffer.drain(..end).collect();
        let maybe_edit = memmem::find(&dropped, b"textDocument/didChange").is_some();
        Frame::Malformed {
            why: format!("{why} ({end} bytes dropped)"),
            maybe_edit,
        }
    }

    /// Reads more; `false` at the end of input.
    fn fill(&mut self) -> io::Result<bool> {
        let mut chunk = [0; CHUNK];
        loop {
            match self.input.read(&mut chunk) {
                Ok(count) => {
                    self.buffer
                        .extend_from_slice(chunk.get(..count).unwrap_or_default());
                    return Ok(count > 0);
                }
                Err(error) if error.kind() == ErrorKind::Interrupted => {}
                Err(error) => return Err(error),
            }
        }
    }
}

/// First byte after the blank line that ends a header.
fn header_end(bytes: &[u8]) -> Option<usize> {
    memchr::memchr_iter(b'\n', bytes).find_map(|at| {
        let after = bytes.get(at + 1..)?;
        if after.starts_with(b"\r\n") {
            Some(at + 3)
        } else {
            after.starts_with(b"\n").then_some(at + 2)
        }
    })
}

/// The first Content-Length.
fn find_length(bytes: &[u8]) -> Option<usize> {
    memchr::memchr2_iter(b'C', b'c', bytes).find(|at| {
        let word = bytes.get(*at..at + LENGTH.len());
        word.is_some_and(|word| word.eq_ignore_ascii_case(LENGTH))
    })
}

/// The number up to the end of the line.
fn length(value: &[u8]) -> Option<usize> {
    let line = value.split(|b| *b == b'\r' || *b == b'\n').next()?;
    let number = std::str::from_utf8(line).ok()?.trim().parse().ok()?;
    (number <= MAX_BODY).then_some(number)
}

#[cfg(test)]
mod tests;
