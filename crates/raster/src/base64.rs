const ALPHABET: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/// Bytes in base64 (RFC 4648), padded.
pub(crate) fn base64(bytes: &[u8]) -> Vec<u8> {
    let mut text = Vec::with_capacity(bytes.len().div_ceil(3) * 4);
    for three in bytes.chunks(3) {
        let [a, b, c] = [0, 1, 2].map(|place| three.get(place).copied().unwrap_or(0));
        let bits = u32::from_be_bytes([0, a, b, c]);
        for place in 0..4_usize {
            let six = (bits >> (18 - 6 * place)) & 0x3F;
            text.push(if place <= three.len() {
                ALPHABET[six as usize]
            } else {
                b'='
            });
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Test vectors of RFC 4648, section 10.
    #[test]
    fn vectors_of_the_standard() {
        for (plain, coded) in [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg=="),
            ("fooba", "Zm9vYmE="),
            ("foobar", "Zm9vYmFy"),
        ] {
            assert_eq!(base64(plain.as_bytes()), coded.as_bytes());
        }
    }
}
