//! A practice page read back: its JSON, its bytes and the numbers in them.

use serde_json::Value;

/// The JSON that a page holds.
pub fn data_of(page: &str) -> Value {
    let (_, rest) = page.split_once(r#"<script type="application/json" id="dance">"#).unwrap();
    serde_json::from_str(rest.split_once("</script>").unwrap().0).unwrap()
}

/// RFC 4648, section 4, written apart from the program's own.
pub fn from_base64(text: &str) -> Vec<u8> {
    const DIGITS: &str = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let (mut bits, mut held, mut bytes) = (0_u32, 0, Vec::new());
    for letter in text.chars().filter(|letter| *letter != '=') {
        bits = bits << 6 | DIGITS.find(letter).unwrap() as u32;
        held += 6;
        if held >= 8 {
            held -= 8;
            bytes.push((bits >> held) as u8);
        }
    }
    bytes
}

/// A whole number in sevens of bits, as `reader` in assets/practice/decode.js has it.
pub fn number(bytes: &[u8], at: &mut usize) -> f64 {
    let (mut value, mut scale) = (0.0, 1.0);
    loop {
        let byte = bytes[*at];
        *at += 1;
        value += f64::from(byte & 127) * scale;
        if byte < 128 {
            break;
        }
        scale *= 128.0;
    }
    if value % 2.0 > 0.5 { -f64::midpoint(value, 1.0) } else { value / 2.0 }
}
