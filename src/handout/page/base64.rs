/// Bytes as text: the base 64 of RFC 4648, section 4, with padding.
#[must_use]
pub fn base64(bytes: &[u8]) -> String {
    let digit = |value: u32| {
        let value = (value & 63) as u8;
        char::from(match value {
            0..=25 => b'A' + value,
            26..=51 => b'a' + value - 26,
            52..=61 => b'0' + value - 52,
            62 => b'+',
            _ => b'/',
        })
    };
    let mut text = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for three in bytes.chunks(3) {
        let whole =
            (0..3).fold(0_u32, |whole, index| whole << 8 | u32::from(three.get(index).copied().unwrap_or(0)));
        for place in 0..4 {
            text.push(if place <= three.len() { digit(whole >> (18 - 6 * place)) } else { '=' });
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::base64;

    /// The test vectors of RFC 4648, section 10.
    #[test]
    fn the_vectors_of_the_standard() {
        let vectors = [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg=="),
            ("fooba", "Zm9vYmE="),
            ("foobar", "Zm9vYmFy"),
        ];
        for (text, coded) in vectors {
            assert_eq!(base64(text.as_bytes()), coded);
        }
        assert_eq!(base64(&[0xFB, 0xEF, 0xFF]), "++//");
    }
}
