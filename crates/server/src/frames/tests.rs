//! The framing is the protocol's "Base Protocol": header, blank line, content.

use super::*;
use serde_json::json;

/// Gives one byte at a time: every cut is tried.
struct Drip<'a>(&'a [u8]);

impl Read for Drip<'_> {
    fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
        let Some((first, rest)) = self.0.split_first() else {
            return Ok(0);
        };
        into[0] = *first;
        self.0 = rest;
        Ok(1)
    }
}

fn message(body: &str) -> String {
    format!("Content-Length: {}\r\n\r\n{body}", body.len())
}

/// Messages as they are, malformed stretches as their reason.
fn read(stream: &str) -> Vec<Result<Value, String>> {
    let all = |mut frames: Frames<Box<dyn Read + '_>>| {
        let mut seen = Vec::new();
        while let Some(frame) = frames.next().unwrap() {
            seen.push(match frame {
                Frame::Message(value) => Ok(value),
                Frame::Malformed { why, .. } => Err(why),
            });
        }
        seen
    };
    let whole = all(Frames::new(Box::new(stream.as_bytes())));
    assert_eq!(whole, all(Frames::new(Box::new(Drip(stream.as_bytes())))));
    whole
}

fn malformed(why: &str) -> Result<Value, String> {
    Err(why.to_owned())
}

#[test]
fn messages_follow_each_other() {
    let stream = message("{\"a\":1}") + &message("[\"°\"]");
    assert_eq!(read(&stream), [Ok(json!({"a": 1})), Ok(json!(["°"]))]);
}

#[test]
fn other_header_lines_lower_case_and_bare_line_feeds_are_read() {
    let stream = "Content-Type: application/vscode-jsonrpc; charset=utf-8\r\n\
                  content-length:1\r\n\r\n1Content-Length: 1\n\n2";
    assert_eq!(read(stream), [Ok(json!(1)), Ok(json!(2))]);
}

#[test]
fn broken_json_costs_only_itself() {
    let seen = read(&(message("{\"a\":") + &message("2")));
    assert!(
        seen[0]
            .as_ref()
            .unwrap_err()
            .starts_with("no valid JSON: EOF while parsing")
    );
    assert_eq!(seen[1..], [Ok(json!(2))]);
    let seen = read(&(message("") + &message("2")));
    assert_eq!(
        seen,
        [
            malformed("an empty message (21 bytes dropped)"),
            Ok(json!(2))
        ]
    );
}

#[test]
fn a_length_too_great_loses_neither_this_message_nor_the_next() {
    for extra in 1..40 {
        let (one, two) = ("{\"a\":1}", message("{\"b\":2}"));
        let stream = format!("Content-Length: {}\r\n\r\n{one}{two}", one.len() + extra);
        // Beyond what comes at all, only the end of input can tell.
        if one.len() + extra <= one.len() + two.len() {
            assert_eq!(
                read(&stream),
                [Ok(json!({"a": 1})), Ok(json!({"b": 2}))],
                "{extra}"
            );
        }
    }
}

#[test]
fn broken_json_with_a_length_too_great_does_not_take_the_next_message_along() {
    let (one, two) = ("{\"a\":", message("{\"b\":2}"));
    for extra in [0, 15, 25, two.len()] {
        let stream = format!("Content-Length: {}\r\n\r\n{one}{two}", one.len() + extra);
        let seen = read(&stream);
        assert_eq!(seen.last(), Some(&Ok(json!({"b": 2}))), "{extra}");
    }
}

#[test]
fn a_length_too_small_loses_this_message_and_not_the_next() {
    for missing in 1..7 {
        let one = "{\"a\":1}";
        let stream = format!("Content-Length: {}\r\n\r\n{one}", one.len() - missing);
        let seen = read(&(stream + &message("2")));
        let good: Vec<_> = seen.iter().flatten().collect();
        assert_eq!(good, [&json!(2)], "{missing}");
        assert!(
            seen.len() >= 2,
            "{missing}: nothing was said of the broken message"
        );
    }
}

#[test]
fn a_header_that_makes_no_sense_is_skipped() {
    for bad in [
        "foo",
        "Content-Length: foo",
        "Content-Length: -1",
        "Content-Length: 99999999999",
    ] {
        let seen = read(&(format!("{bad}\r\n\r\n") + &message("2")));
        assert!(seen[0].is_err(), "{bad}");
        assert_eq!(seen[1..], [Ok(json!(2))], "{bad}");
    }
}

#[test]
fn a_header_that_does_not_end_is_skipped_once() {
    for length in [MAX_HEADER - 1, MAX_HEADER, MAX_HEADER + 1, 100_000] {
        let seen = read(&("x".repeat(length) + &message("2")));
        assert_eq!(seen.len(), 2, "{length}");
        assert!(seen[0].is_err(), "{length}");
        assert_eq!(seen[1], Ok(json!(2)), "{length}");
    }
}

#[test]
fn the_end_of_input_inside_a_message_is_said() {
    let seen = read("Content-Length: 10\r\n\r\n{");
    assert_eq!(
        seen,
        [malformed(
            "the input ends within a message (23 bytes dropped)"
        )]
    );
    assert_eq!(read(""), []);
}

#[test]
fn dropped_bytes_that_may_have_been_an_edit_are_marked() {
    for (body, edit) in [
        ("{\"method\":\"textDocument/didChange\",", true),
        ("{\"method\":\"textDocument/hover\",", false),
    ] {
        let frame = Frames::new(message(body).as_bytes()).next().unwrap();
        let Some(Frame::Malformed { maybe_edit, .. }) = frame else {
            panic!("{frame:?}")
        };
        assert_eq!(maybe_edit, edit);
    }
}
