//! JPEG files of one colour, as large as wanted, in one go or in several, without unpacking or packing anything.
#![allow(dead_code)]

/// A JPEG of three inks that are all sampled alike: grey all over. `goes` is whether it comes in several goes (progressive), of
/// which it has the first alone; `note` is told in it, so that no two are the same file.
pub fn grey_jpeg([across, down]: [u16; 2], goes: bool, note: &str) -> Vec<u8> {
    let segment = |kind: u8, data: &[u8]| {
        let mut bytes = vec![0xff, kind];
        bytes.extend((data.len() as u16 + 2).to_be_bytes());
        bytes.extend(data);
        bytes
    };
    let mut bytes = vec![0xff, 0xd8];
    bytes.extend(segment(0xfe, note.as_bytes()));
    bytes.extend(segment(0xdb, &[&[0], [1; 64].as_slice()].concat()));
    let mut frame = vec![8];
    frame.extend(down.to_be_bytes());
    frame.extend(across.to_be_bytes());
    frame.extend([3, 1, 0x11, 0, 2, 0x11, 0, 3, 0x11, 0]);
    bytes.extend(segment(if goes { 0xc2 } else { 0xc0 }, &frame));
    // One code, of one bit: no difference, or the end of the block.
    let mut code = vec![0, 1];
    code.extend([0; 15]);
    code.push(0);
    bytes.extend(segment(0xc4, &code));
    code[0] = 0x10;
    bytes.extend(segment(0xc4, &code));
    bytes.extend(segment(0xda, &[3, 1, 0, 2, 0, 3, 0, 0, if goes { 0 } else { 63 }, 0]));
    let blocks = usize::from(across).div_ceil(8) * usize::from(down).div_ceil(8) * 3;
    let bits = if goes { blocks } else { 2 * blocks };
    bytes.extend(vec![0; bits.div_ceil(8)]);
    bytes.extend([0xff, 0xd9]);
    bytes
}
