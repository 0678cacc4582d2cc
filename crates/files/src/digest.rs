use sha2::{Digest as _, Sha256};
use std::fmt;

/// The SHA-256 of some bytes, which tells whether a file is still the one that was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Digest([u8; 32]);

impl Digest {
    /// The digest of some bytes.
    pub fn of(bytes: &[u8]) -> Self {
        Self(Sha256::digest(bytes).into())
    }

    /// The digest of this digest followed by some bytes.
    pub(crate) fn and(&self, bytes: &[u8]) -> Self {
        Self(
            Sha256::new()
                .chain_update(self.0)
                .chain_update(bytes)
                .finalize()
                .into(),
        )
    }
}

impl fmt::Display for Digest {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0
            .iter()
            .try_for_each(|byte| write!(formatter, "{byte:02x}"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_is_sha_256() {
        // FIPS 180-2, appendix B.1.
        let digest = Digest::of(b"abc").to_string();
        assert_eq!(
            digest,
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
        );
        assert_eq!(Digest::of(b"").and(b"x"), Digest::of(b"").and(b"x"));
        assert_ne!(Digest::of(b"").and(b"x"), Digest::of(b"x"));
    }
}
