use sha2::{Digest, Sha256};
use std::fmt::Write as _;

/// SHA-256 over texts, in hexadecimal digits.
pub(crate) fn digest(texts: impl Iterator<Item = impl AsRef<str>>) -> String {
    let mut digest = Sha256::new();
    for text in texts {
        digest.update(text.as_ref().as_bytes());
    }
    digest
        .finalize()
        .iter()
        .fold(String::new(), |mut text, byte| {
            let _ = write!(text, "{byte:02x}");
            text
        })
}
