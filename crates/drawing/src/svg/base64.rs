//! Base 64 after RFC 4648, for pictures inside a file.

const ALPHABET: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/// Bytes as base 64 with padding.
pub(super) fn encode(bytes: &[u8]) -> String {
    let mut out = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for chunk in bytes.chunks(3) {
        let byte = |i: usize| u32::from(chunk.get(i).copied().unwrap_or(0));
        let bits = byte(0) << 16 | byte(1) << 8 | byte(2);
        for i in 0..4 {
            let index = (bits >> (18 - 6 * i)) & 63;
            let letter = ALPHABET.get(index as usize).copied().unwrap_or(b'=');
            out.push(char::from(if i <= chunk.len() { letter } else { b'=' }));
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Values: RFC 4648, section 10.
    #[test]
    fn the_test_vectors_of_the_standard_come_out() {
        for (bytes, text) in [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg=="),
            ("fooba", "Zm9vYmE="),
            ("foobar", "Zm9vYmFy"),
        ] {
            assert_eq!(encode(bytes.as_bytes()), text);
        }
    }
}
