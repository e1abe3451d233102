//! Between the client's addresses and paths.
//!
//! Two addresses are one file when their decoded paths are one (upper or lower case of escapes and
//! of the drive letter do not matter); an answer uses the spelling that the client used.

use std::borrow::Cow;
use std::collections::HashMap;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::str::FromStr;
use tower_lsp::ls_types::Uri;

/// The path that an address names: of `file:` its path, of `untitled:` (a text never saved) the
/// address itself. Others, such as the two sides of a comparison view, are no files of a job.
pub(crate) fn path_of(uri: &str) -> Option<PathBuf> {
    let (scheme, rest) = uri.split_once(':')?;
    if scheme.eq_ignore_ascii_case("untitled") {
        return Some(PathBuf::from(uri));
    }
    if !scheme.eq_ignore_ascii_case("file") {
        return None;
    }
    let rest = rest.split(['?', '#']).next()?;
    let (host, path) = match rest.strip_prefix("//") {
        Some(rest) => rest.split_at(rest.find('/')?),
        None => ("", rest),
    };
    let path = decode(path);
    if cfg!(windows) {
        return windows_path(host, &String::from_utf8(path).ok()?).map(PathBuf::from);
    }
    native_path(path)
}

#[cfg(unix)]
fn native_path(bytes: Vec<u8>) -> Option<PathBuf> {
    use std::os::unix::ffi::OsStringExt;
    bytes
        .starts_with(b"/")
        .then(|| PathBuf::from(std::ffi::OsString::from_vec(bytes)))
}

#[cfg(not(unix))]
fn native_path(bytes: Vec<u8>) -> Option<PathBuf> {
    String::from_utf8(bytes).ok().map(PathBuf::from)
}

/// `/c:/Jobs/a` is `C:\Jobs\a`; with a host it is a share.
fn windows_path(host: &str, path: &str) -> Option<String> {
    let backslashes = path.replace('/', "\\");
    if !host.is_empty() && !host.eq_ignore_ascii_case("localhost") {
        return Some(format!("\\\\{host}{backslashes}"));
    }
    let local = backslashes.strip_prefix('\\').unwrap_or(&backslashes);
    let mut chars = local.chars();
    match (chars.next(), chars.next()) {
        (Some(drive), Some(':')) if drive.is_ascii_alphabetic() => {
            Some(format!("{}:{}", drive.to_ascii_uppercase(), chars.as_str()))
        }
        _ => None,
    }
}

/// Replaces `%41` by its byte; a `%` that escapes nothing stays.
fn decode(text: &str) -> Vec<u8> {
    let mut rest = text.as_bytes();
    let mut out = Vec::with_capacity(text.len());
    while let Some((&byte, after)) = rest.split_first() {
        let escaped = (byte == b'%').then(|| hex_pair(after)).flatten();
        out.push(escaped.unwrap_or(byte));
        rest = if escaped.is_some() {
            after.get(2..).unwrap_or_default()
        } else {
            after
        };
    }
    out
}

fn hex_pair(bytes: &[u8]) -> Option<u8> {
    let digit = |at: usize| bytes.get(at).and_then(|b| char::from(*b).to_digit(16));
    u8::try_from(digit(0)? * 16 + digit(1)?).ok()
}

/// Escapes what an address may not hold; the escapes and separators in it stay.
pub(crate) fn repaired(raw: &str) -> Cow<'_, str> {
    if Uri::from_str(raw).is_ok() {
        return Cow::Borrowed(raw);
    }
    let mut out = String::with_capacity(raw.len() + 16);
    for (at, byte) in raw.bytes().enumerate() {
        let stays = match byte {
            b'%' => hex_pair(raw.as_bytes().get(at + 1..).unwrap_or_default()).is_some(),
            b'[' | b']' => false,
            _ => byte.is_ascii_graphic() && !b"\"<>\\^`{|}".contains(&byte),
        };
        push(&mut out, byte, stays);
    }
    Cow::Owned(out)
}

fn push(out: &mut String, byte: u8, stays: bool) {
    if stays {
        out.push(char::from(byte));
    } else {
        let _ = write!(out, "%{byte:02X}");
    }
}

/// The address of a path of which the client has not spoken.
pub(crate) fn address(path: &Path) -> String {
    let mut out = String::from("file://");
    let bytes = path.as_os_str().as_encoded_bytes();
    if cfg!(windows) && !bytes.starts_with(b"\\\\") {
        out.push('/');
    }
    for byte in bytes {
        let byte = if cfg!(windows) && *byte == b'\\' {
            b'/'
        } else {
            *byte
        };
        push(
            &mut out,
            byte,
            byte.is_ascii_alphanumeric() || b"-._~/".contains(&byte),
        );
    }
    out
}

/// How the client spells its files.
#[derive(Clone, Debug, Default)]
pub(crate) struct Spelling {
    files: HashMap<PathBuf, String>,
    folders: Vec<(PathBuf, String)>,
}

impl Spelling {
    /// Remembers a spelling, and gives the path it names.
    pub(crate) fn learn(&mut self, uri: &str) -> Option<PathBuf> {
        let path = path_of(uri)?;
        if self.files.get(&path).is_none_or(|known| known != uri) {
            self.files.insert(path.clone(), uri.to_owned());
        }
        Some(path)
    }

    /// The folders' spelling starts the address of the files below them.
    pub(crate) fn set_folders(&mut self, folders: Vec<(PathBuf, String)>) {
        self.folders = folders;
    }

    /// The client's own spelling, or one in its style.
    pub(crate) fn of(&self, path: &Path) -> String {
        if let Some(known) = self.files.get(path) {
            return known.clone();
        }
        let innermost = self
            .folders
            .iter()
            .filter_map(|(root, uri)| Some((path.strip_prefix(root).ok()?, uri)))
            .min_by_key(|(below, _)| below.as_os_str().len());
        match innermost {
            Some((below, uri)) => below_folder(uri, below),
            None => address(path),
        }
    }

    /// The same as a value of the protocol, escaped where the client's spelling is no address.
    pub(crate) fn uri(&self, path: &Path) -> Option<Uri> {
        Uri::from_str(&repaired(&self.of(path))).ok()
    }
}

fn below_folder(folder: &str, below: &Path) -> String {
    let mut out = folder.trim_end_matches('/').to_owned();
    for part in below {
        out.push('/');
        for byte in part.as_encoded_bytes() {
            push(
                &mut out,
                *byte,
                byte.is_ascii_alphanumeric() || b"-._~".contains(byte),
            );
        }
    }
    out
}

#[cfg(test)]
mod tests;
