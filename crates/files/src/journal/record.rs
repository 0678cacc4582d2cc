//! How a journal is laid out in bytes.
//!
//! ```text
//! rimwise journal 1
//! LENGTH CHECKSUM
//! the text on disk
//! LENGTH CHECKSUM
//! START GONE CALLED
//! what the change is called, CALLED bytes of it, and what comes in place of GONE
//! bytes from START on
//! ```
//!
//! and so on. The first checksum is the digest of the text, every other that of
//! the one before and the record.

use super::Patch;
use crate::Digest;

const TITLE: &[u8] = b"rimwise journal 1\n";

/// More than the line before a record ever has, in bytes.
const LONGEST_LINE: usize = 100;

/// The beginning of a journal: its title and the text it builds on.
pub(super) fn beginning(text: &str) -> Vec<u8> {
    let mut bytes = TITLE.to_vec();
    push(&mut bytes, text.as_bytes(), &Digest::of(text.as_bytes()));
    bytes
}

/// One change as a record, with its checksum.
pub(super) fn change(called: &str, patch: &Patch, before: &Digest) -> (Vec<u8>, Digest) {
    let gone = patch.gone.end - patch.gone.start;
    let line = format!("{} {gone} {}\n", patch.gone.start, called.len());
    let payload = [&line, called, &patch.come].concat();
    let sum = before.and(payload.as_bytes());
    let mut bytes = Vec::new();
    push(&mut bytes, payload.as_bytes(), &sum);
    (bytes, sum)
}

fn push(bytes: &mut Vec<u8>, payload: &[u8], sum: &Digest) {
    bytes.extend(format!("{} {sum}\n", payload.len()).into_bytes());
    bytes.extend(payload);
    bytes.push(b'\n');
}

/// What is whole of a journal.
pub(super) struct Whole {
    /// The text it builds on and those after each change, in order.
    pub(super) texts: Vec<String>,
    /// What each change is called.
    pub(super) called: Vec<String>,
    /// The checksum of the last record.
    pub(super) sum: Digest,
    /// How many bytes of it are whole.
    pub(super) length: usize,
}

/// Reads as much as is whole; `None` where not even the beginning is.
pub(super) fn read(bytes: &[u8]) -> Option<Whole> {
    let rest = bytes.strip_prefix(TITLE)?;
    let (text, sum, mut rest) = next(rest, Digest::of)?;
    let mut whole = Whole {
        texts: vec![text.to_owned()],
        called: Vec::new(),
        sum,
        length: 0,
    };
    while let Some((payload, sum, behind)) = next(rest, |payload| whole.sum.and(payload)) {
        let applied = parse(payload).and_then(|(called, patch)| {
            let text = patch.applied(whole.texts.last()?)?;
            Some((called, text))
        });
        // Its checksum is right and it is not a change: no journal of this program.
        let (called, text) = applied?;
        whole.texts.push(text);
        whole.called.push(called);
        whole.sum = sum;
        rest = behind;
    }
    whole.length = bytes.len() - rest.len();
    Some(whole)
}

/// The next record, its checksum and what is behind it; `None` where it is not
/// whole.
fn next(bytes: &[u8], sum: impl Fn(&[u8]) -> Digest) -> Option<(&str, Digest, &[u8])> {
    let head = &bytes[..bytes.len().min(LONGEST_LINE)];
    let end = head.iter().position(|&byte| byte == b'\n')?;
    let line = str::from_utf8(&head[..end]).ok()?;
    let (length, written) = line.split_once(' ')?;
    let length: usize = length.parse().ok()?;
    let rest = &bytes[end + 1..];
    let payload = rest.get(..length)?;
    let behind = rest[length..].strip_prefix(b"\n")?;
    let sum = sum(payload);
    let payload = str::from_utf8(payload).ok()?;
    (sum.to_string() == written).then_some((payload, sum, behind))
}

fn parse(payload: &str) -> Option<(String, Patch)> {
    let (line, rest) = payload.split_once('\n')?;
    let mut numbers = line.split(' ').map(|number| number.parse::<usize>().ok());
    let (start, gone, called) = (numbers.next()??, numbers.next()??, numbers.next()??);
    let (called, come) = (rest.get(..called)?, rest.get(called..)?);
    let patch = Patch {
        gone: start..start.checked_add(gone)?,
        come: come.to_owned(),
    };
    Some((called.to_owned(), patch))
}
