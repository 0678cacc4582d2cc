//! The format of a journal.
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
//! and so on. A fourth number, 1, says that the change goes on with the one before: both
//! are one change with the later name, or none at all where that name is empty. The first
//! checksum is the digest of the text; every other is the digest of the one before it and
//! the record.

use super::Patch;
use super::WORK;
use crate::Digest;

const TITLE: &[u8] = b"rimwise journal 1\n";

/// More bytes than the line before a record ever has.
const LONGEST_LINE: usize = 100;

/// The beginning of a journal: its title and the text it builds on.
pub(super) fn beginning(text: &str) -> Vec<u8> {
    let mut bytes = TITLE.to_vec();
    push(&mut bytes, text.as_bytes(), &Digest::of(text.as_bytes()));
    bytes
}

/// The work of reading back a change, by the size of the text it leads to.
pub(super) const fn work_of(text: &str) -> u64 {
    text.len() as u64
}

/// One change as a record, with its checksum.
pub(super) fn change(
    called: &str,
    patch: &Patch,
    goes_on: bool,
    before: &Digest,
) -> (Vec<u8>, Digest) {
    let gone = patch.gone.end - patch.gone.start;
    let mark = if goes_on { " 1" } else { "" };
    let line = format!("{} {gone} {}{mark}\n", patch.gone.start, called.len());
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

/// The complete records of a journal, compared with the text on disk.
pub(super) struct CompleteRecords {
    /// The text after all changes.
    pub(super) text: String,
    /// The names of the changes, in order.
    pub(super) called: Vec<String>,
    /// The number of changes that the text on disk contains; `None` where it is not the text
    /// after any change.
    pub(super) on_disk: Option<usize>,
    /// The checksum of the last record.
    pub(super) sum: Digest,
    /// The number of bytes of complete records.
    pub(super) length: usize,
    /// The bytes of text that the changes lead through, for the limit of work.
    pub(super) work: u64,
}

/// Reads the complete records; `None` where not even the first is complete, or where
/// this is no journal of the program.
pub(super) fn read(bytes: &[u8], on_disk: &str) -> Option<CompleteRecords> {
    let rest = bytes.strip_prefix(TITLE)?;
    let (text, mut sum, mut rest) = next(rest, Digest::of)?;
    // One text, made another in its place: a copy for each change would take the
    // square of the journal's length.
    let mut text = text.to_owned();
    let mut work = 0;
    let is_on_disk = text == on_disk;
    let mut changes: Vec<(String, bool)> = Vec::new();
    while let Some((payload, next_sum, behind)) = next(rest, |payload| sum.and(payload)) {
        // Its checksum is right and it is not a change: no journal of this program.
        let (called, goes_on, patch) = parse(payload)?;
        if !patch.apply(&mut text) {
            return None;
        }
        work += work_of(&text);
        if work > WORK {
            return None;
        }
        if goes_on {
            changes.pop();
        }
        if !goes_on || !called.is_empty() {
            changes.push((called, text == on_disk));
        }
        (sum, rest) = (next_sum, behind);
    }
    let last = changes.iter().rposition(|(_, is_on_disk)| *is_on_disk);
    Some(CompleteRecords {
        on_disk: last.map(|last| last + 1).or(is_on_disk.then_some(0)),
        called: changes.into_iter().map(|(called, _)| called).collect(),
        text,
        sum,
        length: bytes.len() - rest.len(),
        work,
    })
}

/// The next record, its checksum and the rest; `None` where the record is not complete.
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

fn parse(payload: &str) -> Option<(String, bool, Patch)> {
    let (line, rest) = payload.split_once('\n')?;
    let mut numbers = line.split(' ').map(|number| number.parse::<usize>().ok());
    let (start, gone, called) = (numbers.next()??, numbers.next()??, numbers.next()??);
    let goes_on = numbers.next().flatten() == Some(1);
    let (called, come) = (rest.get(..called)?, rest.get(called..)?);
    let patch = Patch {
        gone: start..start.checked_add(gone)?,
        come: come.to_owned(),
    };
    Some((called.to_owned(), goes_on, patch))
}
