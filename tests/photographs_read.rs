//! Reading photographs: cut short they are told as damaged, in every kind and at every length; turned in each of the eight ways; and
//! the memory that it takes, seen from outside the process.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/jpegs.rs"]
mod jpegs;

use bellpad::picture::Photograph;
use image::{Rgb, RgbImage, Rgba, RgbaImage};
use jpegs::grey_jpeg;
use std::io::Cursor;

/// A picture with something in each place of it.
fn lively([wide, high]: [u32; 2]) -> RgbImage {
    RgbImage::from_fn(wide, high, |x, y| {
        Rgb([(x * 7 + y) as u8, (y * 5) as u8 ^ (x as u8), (x * y / 9) as u8])
    })
}

fn written(picture: &RgbImage, format: image::ImageFormat) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    picture.write_to(&mut bytes, format).unwrap();
    bytes.into_inner()
}

fn read(name: &str, bytes: &[u8]) -> Result<Photograph, String> {
    Photograph::read(name, bytes)
}

#[test]
fn whatever_is_cut_short_is_told_as_damaged() {
    let picture = lively([320, 240]);
    let jpeg = written(&picture, image::ImageFormat::Jpeg);
    let cases = [
        ("a.jpg", jpeg),
        ("goes.jpg", grey_jpeg([320, 240], true, "")),
        ("a.png", written(&picture, image::ImageFormat::Png)),
        ("a.webp", written(&picture, image::ImageFormat::WebP)),
    ];
    for (name, bytes) in cases {
        assert_eq!(read(name, &bytes).unwrap().size, [320, 240], "{name}");
        let parts = (1..40).map(|part| bytes.len() * part / 40).chain([bytes.len() - 4]);
        for length in parts.filter(|length| *length > 40) {
            let said = read(name, &bytes[..length]).err();
            let said = said.unwrap_or_else(|| panic!("{name} of {length} of {} bytes is taken", bytes.len()));
            assert!(said.contains("cut short or damaged"), "{name}: {said}");
        }
        // What never came is nothing but noughts in some; in a WebP any bytes are a picture.
        if name == "a.webp" {
            continue;
        }
        let mut holes = bytes.clone();
        let half = holes.len() / 2;
        holes[half..].fill(0);
        assert!(read(name, &holes).is_err(), "{name} whose other half is empty is taken");
    }
}

#[test]
fn what_comes_after_the_end_of_a_picture_is_nothing_to_it() {
    let mut jpeg = written(&lively([64, 48]), image::ImageFormat::Jpeg);
    jpeg.extend(b"\0\0of the camera's own\xff\xd8\xff");
    assert!(read("a.jpg", &jpeg).is_ok());
}

#[test]
fn a_kind_of_jpeg_that_is_not_read_is_told_as_such() {
    let jpeg = grey_jpeg([320, 240], false, "");
    let frame = jpeg.windows(2).position(|pair| pair == [0xff, 0xc0]).unwrap();
    for kind in [0xc3, 0xc9, 0xca] {
        let mut other = jpeg.clone();
        other[frame + 1] = kind;
        let said = read("a.jpg", &other).err().unwrap();
        assert!(said.contains("seldom met"), "{kind:x}: {said}");
    }
}

/// TIFF as EXIF has it, with nothing but the turn in it.
fn exif(turn: u8) -> Vec<u8> {
    let mut tiff = b"MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0".to_vec();
    tiff.extend([turn, 0, 0, 0, 0, 0, 0]);
    tiff
}

fn jpeg_with(turn: u8, stored: &RgbImage) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    let to = image::codecs::jpeg::JpegEncoder::new_with_quality(&mut bytes, 100);
    stored.write_with_encoder(to).unwrap();
    let mut bytes = bytes.into_inner();
    let data = [b"Exif\0\0".to_vec(), exif(turn)].concat();
    let mut segment = vec![0xff, 0xe1];
    segment.extend((data.len() as u16 + 2).to_be_bytes());
    segment.extend(data);
    bytes.splice(2..2, segment);
    bytes
}

fn png_with(turn: u8, stored: &RgbImage) -> Vec<u8> {
    let mut bytes = written(stored, image::ImageFormat::Png);
    let data = exif(turn);
    let mut chunk = (data.len() as u32).to_be_bytes().to_vec();
    chunk.extend(b"eXIf");
    chunk.extend(&data);
    chunk.extend(crc32fast::hash(&chunk[4..]).to_be_bytes());
    // After the head.
    bytes.splice(33..33, chunk);
    bytes
}

fn webp_with(turn: u8, stored: &RgbImage) -> Vec<u8> {
    let still = written(stored, image::ImageFormat::WebP);
    let chunk = |kind: &[u8], data: &[u8]| {
        let mut bytes = kind.to_vec();
        bytes.extend((data.len() as u32).to_le_bytes());
        bytes.extend(data);
        bytes.extend(vec![0; data.len() % 2]);
        bytes
    };
    // That there is EXIF, and the size, told one less.
    let mut head = vec![0x08, 0, 0, 0];
    head.extend(&(stored.width() - 1).to_le_bytes()[..3]);
    head.extend(&(stored.height() - 1).to_le_bytes()[..3]);
    let mut all = b"WEBP".to_vec();
    all.extend(chunk(b"VP8X", &head));
    all.extend(&still[12..]);
    all.extend(chunk(b"EXIF", &exif(turn)));
    chunk(b"RIFF", &all)
}

/// Where a stored pixel is looked at, by what EXIF says of its first row and first column (EXIF 2.3, "Orientation"): the row is at the
/// top, top, bottom, bottom, left, right, right, left, and the column at the left, right, right, left, top, top, bottom, bottom.
fn looked_at(turn: u8, [x, y]: [u32; 2], [wide, high]: [u32; 2]) -> [u32; 2] {
    let (left, top) = (x, y);
    let (right, bottom) = (wide - 1 - x, high - 1 - y);
    match turn {
        2 => [right, top],
        3 => [right, bottom],
        4 => [left, bottom],
        5 => [top, left],
        6 => [bottom, left],
        7 => [bottom, right],
        8 => [top, right],
        _ => [left, top],
    }
}

/// A picture as it is stored so that, turned, it is this one.
fn stored_of(turn: u8, seen: &RgbImage) -> RgbImage {
    let size = if turn >= 5 { [seen.height(), seen.width()] } else { [seen.width(), seen.height()] };
    RgbImage::from_fn(size[0], size[1], |x, y| {
        let [x, y] = looked_at(turn, [x, y], size);
        *seen.get_pixel(x, y)
    })
}

#[test]
fn each_of_the_eight_turns_is_turned_back_in_every_kind_of_file() {
    // A colour in each corner, and none the same either way about.
    let seen = RgbImage::from_fn(48, 32, |x, y| match (x < 24, y < 16) {
        (true, true) => Rgb([220, 30, 30]),
        (false, true) => Rgb([30, 200, 30]),
        (true, false) => Rgb([30, 30, 220]),
        (false, false) => Rgb([230, 230, 230]),
    });
    for turn in 1..=8 {
        let stored = stored_of(turn, &seen);
        let files = [
            ("a.jpg", jpeg_with(turn, &stored)),
            ("a.png", png_with(turn, &stored)),
            ("a.webp", webp_with(turn, &stored)),
        ];
        for (name, bytes) in files {
            let photograph = read(name, &bytes).unwrap();
            assert_eq!(photograph.size, [48, 32], "{name}, turn {turn}");
            for [x, y] in [[8, 8], [40, 8], [8, 24], [40, 24]] {
                let (is, should) = (photograph.kept.get_pixel(x, y).0, seen.get_pixel(x, y).0);
                let off = (0..3).map(|ink| is[ink].abs_diff(should[ink])).max().unwrap();
                assert!(off < 24, "{name}, turn {turn}: {is:?} at {x}, {y}, and {should:?} should be");
            }
        }
    }
}

#[test]
fn a_turned_picture_that_is_made_smaller_keeps_its_places() {
    // Of an odd number of pixels across and down, of which two by two are one; with an edge between two of those pairs.
    let seen = RgbImage::from_fn(2101, 1801, |x, y| {
        Rgb([if x < 1000 { 20 } else { 220 }, if y < 900 { 20 } else { 220 }, 0])
    });
    for turn in 1..=8 {
        let photograph = read("a.png", &png_with(turn, &stored_of(turn, &seen))).unwrap();
        assert_eq!(photograph.size, [2101, 1801], "turn {turn}");
        assert_eq!(photograph.kept_share(), 0.5);
        let at = |x: u32, y: u32| photograph.kept.get_pixel(x, y).0;
        assert_eq!([at(499, 100)[0], at(500, 100)[0]], [20, 220], "turn {turn}, across");
        assert_eq!([at(100, 449)[1], at(100, 450)[1]], [20, 220], "turn {turn}, down");
    }
}

#[test]
fn what_nothing_covers_is_paper_where_it_is_kept_inside() {
    let clear = Photograph::of_pixels(RgbaImage::from_pixel(64, 64, Rgba([0, 0, 0, 0])));
    let (bytes, _) = clear.as_small_file(1_000_000).unwrap();
    let again = read("", &bytes).unwrap();
    assert!(again.kept.get_pixel(32, 32).0[0] > 250, "{:?}", again.kept.get_pixel(32, 32));
}

#[cfg(target_os = "linux")]
mod memory {
    use super::*;
    use bellpad::desk::{Ask, Desk, KeepAsk, PhotoAsk, ViewAsk};
    use bellpad::store::Recent;
    use std::process::Command;

    /// The variable by which the child knows what to read.
    const CASE: &str = "BELLPAD_READS";

    /// The greatest memory that this process has had, millions of bytes.
    fn most() -> f64 {
        let status = std::fs::read_to_string("/proc/self/status").unwrap();
        let line = status.lines().find(|line| line.starts_with("VmHWM:")).unwrap();
        line.split_whitespace().nth(1).unwrap().parse::<f64>().unwrap() * 1024.0 / 1e6
    }

    /// What is done in a process of its own, which then says the most that it has had.
    #[test]
    #[ignore = "run by the test beside it, in a process of its own"]
    fn a_child() {
        let Ok(case) = std::env::var(CASE) else { return };
        let (what, path) = case.split_once(' ').unwrap();
        if what == "twelve" {
            let mut desk = Desk::with_sample(Recent::default());
            for number in 0..12 {
                desk.apply(Ask::Photo(PhotoAsk::Lay(format!("{path}/{number}.jpg").into())));
                desk.apply(Ask::View(ViewAsk::PutAway));
                desk.apply(Ask::Keep(KeepAsk::CatchUp));
            }
            assert_eq!(desk.photographs_here().iter().filter(|here| here.flat.is_some()).count(), 12);
        } else {
            let name = path.rsplit('/').next().unwrap().to_owned();
            let bytes = std::fs::read(path).unwrap();
            let read = Photograph::read(&name, &bytes);
            assert_eq!(read.is_ok(), what == "read", "{:?}", read.err());
        }
        println!("the most: {}", most());
    }

    /// The most memory of a process that does this, millions of bytes.
    fn most_of(case: &str) -> f64 {
        let child = Command::new(std::env::current_exe().unwrap())
            .args(["--exact", "memory::a_child", "--ignored", "--nocapture", "--test-threads", "1"])
            .env(CASE, case)
            .output()
            .unwrap();
        let said = String::from_utf8_lossy(&child.stdout).into_owned();
        assert!(child.status.success(), "{said} {}", String::from_utf8_lossy(&child.stderr));
        let most = said.split("the most: ").nth(1).unwrap().lines().next().unwrap().parse().unwrap();
        println!("{:>6.0} MB: {}", most, case.rsplit('/').next().unwrap());
        most
    }

    /// A PNG of sixteen bits a colour and nothing in it, so that a small file is a large picture.
    fn deep_png([wide, high]: [u32; 2]) -> Vec<u8> {
        let mut bytes = Vec::new();
        let mut encoder = png::Encoder::new(&mut bytes, wide, high);
        encoder.set_color(png::ColorType::Rgba);
        encoder.set_depth(png::BitDepth::Sixteen);
        encoder.set_compression(png::Compression::Fastest);
        let mut writer = encoder.write_header().unwrap();
        let mut stream = writer.stream_writer().unwrap();
        let row = vec![0; wide as usize * 8];
        for _ in 0..high {
            std::io::Write::write_all(&mut stream, &row).unwrap();
        }
        stream.finish().unwrap();
        drop(writer);
        bytes
    }

    #[test]
    fn no_photograph_takes_more_than_is_said() {
        let folder = tempfile::tempdir().unwrap();
        let put = |name: &str, bytes: &[u8]| {
            let path = folder.path().join(name);
            std::fs::write(&path, bytes).unwrap();
            path.to_str().unwrap().to_owned()
        };
        let idle = most_of(&format!("refused {}", put("none.jpg", b"Chalk on a car park")));
        // 250 MB for reading it, and what is kept of it: 13 MB.
        for (name, bytes) in [
            ("plain.jpg", grey_jpeg([8160, 6120], false, "")),
            ("goes.jpg", grey_jpeg([5200, 5200], true, "")),
            ("deep.png", deep_png([8160, 6120])),
        ] {
            let most = most_of(&format!("read {}", put(name, &bytes))) - idle;
            assert!(most < 270.0, "{name} takes {most} MB");
        }
        // What would take more is refused by its head.
        let large = grey_jpeg([8160, 6120], true, "");
        let most = most_of(&format!("refused {}", put("large.jpg", &large))) - idle;
        assert!(most < 20.0, "{most} MB");
        let said = read("large.jpg", &large).err().unwrap();
        assert!(said.contains("more memory"), "{said}");
    }

    #[test]
    fn twelve_photographs_are_kept_small() {
        let folder = tempfile::tempdir().unwrap();
        for number in 0..12 {
            // As much is kept of some as of any: three million pixels, all of them. The last is as large as any.
            let size = [[2000, 1600], [3000, 2000], [8160, 6120]][if number == 11 { 2 } else { number % 2 }];
            std::fs::write(
                folder.path().join(format!("{number}.jpg")),
                grey_jpeg(size, false, &number.to_string()),
            )
            .unwrap();
        }
        let most = most_of(&format!("twelve {}", folder.path().display()));
        assert!(most < 400.0, "{most} MB");
    }
}
