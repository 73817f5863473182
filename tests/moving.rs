//! A figure as a moving picture, read back by other programs' readers: `image` for the animated PNG, `gif` for the GIF.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{Dancer, read};
use bellpad::figures::motion_of_figure;
use bellpad::handout::moving::{MovingChoice, MovingError, MovingKind, SeenFrom, moving, picture_counts};
use bellpad::picture::SLATE;
use common::{assert_refused, bellpad, done, sample, text};
use image::AnimationDecoder;
use image::codecs::png::PngDecoder;
use std::fs;
use std::io::Cursor;
use std::path::Path;

/// Red, green and blue of the floor.
const FLOOR: [u8; 3] = [SLATE.floor.0, SLATE.floor.1, SLATE.floor.2];

fn hey(kind: MovingKind, choice: &MovingChoice) -> (Vec<u8>, Vec<f64>) {
    let dance = read(&fs::read(sample("nine-geese-home")).unwrap()).unwrap();
    let motion = motion_of_figure(&dance, dance.find_figure("hey").unwrap()).unwrap();
    let counts = picture_counts(&dance, &motion, choice).unwrap();
    (moving(&dance, &motion, kind, choice, &mut |_, _| true).unwrap(), counts)
}

/// A figure of eight bars at 100 strong beats a minute is 16 beats: 9.6 s, so 116 pictures at 12 a second and the end.
#[test]
fn an_animated_png_has_every_picture_and_goes_round_for_ever() {
    let choice = MovingChoice { figure: "Hey".to_owned(), ..MovingChoice::default() };
    let (bytes, counts) = hey(MovingKind::Png, &choice);
    assert!(bytes.len() < 3_000_000, "{} bytes", bytes.len());
    println!("a hey at 360 pixels as PNG: {} bytes", bytes.len());
    assert_eq!(counts.len(), 117);
    assert_eq!((counts[0], *counts.last().unwrap()), (0.0, 32.0));
    let decoder = PngDecoder::new(Cursor::new(&bytes)).unwrap();
    assert!(decoder.is_apng().unwrap());
    let frames = decoder.apng().unwrap().into_frames().collect_frames().unwrap();
    assert_eq!(frames.len(), counts.len());
    // The chunk acTL holds the number of pictures and of times round, 0 for ever (PNG Specification, Third Edition,
    // W3C, section 11.3.6.1).
    let at = bytes.windows(4).position(|name| name == b"acTL").unwrap() + 4;
    assert_eq!(bytes[at..at + 8], [0, 0, 0, 117, 0, 0, 0, 0]);
    let (mut seconds, mut moved) = (0.0, 0);
    for pair in frames.windows(2) {
        let (top, bottom) = pair[0].delay().numer_denom_ms();
        seconds += f64::from(top) / f64::from(bottom) / 1e3;
        moved += usize::from(pair[0].buffer() != pair[1].buffer());
    }
    assert!((seconds - 116.0 / 12.0).abs() < 0.011, "{seconds} s before the end");
    assert!(moved > 110, "{moved} pictures differ from the one before");
    for frame in &frames {
        let picture = frame.buffer();
        assert_eq!(picture.dimensions(), (360, 360));
        assert!(picture.pixels().all(|pixel| pixel.0[3] == 255), "nothing shows through");
        assert_eq!(picture.get_pixel(2, 180).0[..3], FLOOR);
    }
}

/// Both kinds show the same pictures, and each is what the floor looks like then: odds and evens in their own hues.
#[test]
fn a_gif_shows_the_same() {
    let choice = MovingChoice { size: 200, rate: 5, figure: "Hey".to_owned(), ..MovingChoice::default() };
    let (bytes, counts) = hey(MovingKind::Gif, &choice);
    let (png, _) = hey(MovingKind::Png, &choice);
    let frames =
        PngDecoder::new(Cursor::new(&png)).unwrap().apng().unwrap().into_frames().collect_frames().unwrap();
    let mut options = gif::DecodeOptions::new();
    options.set_color_output(gif::ColorOutput::RGBA);
    let mut decoder = options.read_info(Cursor::new(&bytes)).unwrap();
    let mut shown = vec![0_u8; 200 * 200 * 4];
    let mut number = 0;
    while let Some(frame) = decoder.read_next_frame().unwrap() {
        for row in 0..usize::from(frame.height) {
            for column in 0..usize::from(frame.width) {
                let from = (row * usize::from(frame.width) + column) * 4;
                let to = ((row + usize::from(frame.top)) * 200 + column + usize::from(frame.left)) * 4;
                if frame.buffer[from + 3] > 0 {
                    shown[to..to + 4].copy_from_slice(&frame.buffer[from..from + 4]);
                }
            }
        }
        assert!(shown == **frames[number].buffer(), "picture {number}");
        number += 1;
    }
    assert_eq!(number, counts.len());
    assert_eq!(decoder.repeat(), gif::Repeat::Infinite);
    for hue in [SLATE.odd, SLATE.even] {
        let near = |pixel: &[u8]| {
            [hue.0, hue.1, hue.2].iter().zip(pixel).all(|(one, other)| one.abs_diff(*other) < 12)
        };
        let seen = shown.chunks(4).filter(|pixel| near(pixel)).count();
        assert!(seen > 60, "{seen} pixels in {hue:?}");
    }
}

/// Half as fast is twice as long.
#[test]
fn speed_stretches_time() {
    let whole = hey(MovingKind::Png, &MovingChoice { size: 64, rate: 4, ..MovingChoice::default() }).1.len();
    let half =
        hey(MovingKind::Png, &MovingChoice { size: 64, rate: 4, speed: 50, ..MovingChoice::default() })
            .1
            .len();
    // 9.6 s at four a second, and the end.
    assert_eq!((whole, half), (40, 78));
}

/// How many pixels of a picture are of the hues of odds and of evens.
fn hues(picture: &image::RgbaImage) -> [usize; 2] {
    [SLATE.odd, SLATE.even]
        .map(|hue| picture.pixels().filter(|pixel| pixel.0[..3] == [hue.0, hue.1, hue.2]).count())
}

/// At eye level everybody is seen side by side, each as large, or one alone, larger; from each side otherwise.
#[test]
fn bodies_move_at_eye_level() {
    let seen = |seen: SeenFrom, dancer: Option<Dancer>| {
        let choice = MovingChoice { size: 240, rate: 5, seen, dancer, ..MovingChoice::default() };
        let (bytes, counts) = hey(MovingKind::Png, &choice);
        let decoder = PngDecoder::new(Cursor::new(&bytes)).unwrap();
        let frames = decoder.apng().unwrap().into_frames().collect_frames().unwrap();
        assert_eq!(frames.len(), counts.len());
        let pictures: Vec<_> = frames.into_iter().map(image::Frame::into_buffer).collect();
        let moved = pictures.windows(2).filter(|pair| pair[0] != pair[1]).count();
        assert!(moved * 20 > pictures.len() * 19, "{seen:?}: {moved} of {} move", pictures.len());
        pictures
    };
    let (all, two) = (seen(SeenFrom::Front, None), seen(SeenFrom::Front, Some(Dancer(1))));
    for (all, two) in all.iter().zip(&two) {
        let [odd, even] = hues(all);
        assert!(odd > 1_000 && even > 1_000, "three of each: {odd} and {even}");
        assert!(odd.abs_diff(even) * 5 < odd, "each as large: {odd} and {even}");
        let [odd, alone] = hues(two);
        assert!(odd == 0 && alone > even, "2 alone, larger than three: {odd} and {alone}, {even}");
    }
    for other in [SeenFrom::Behind, SeenFrom::Side, SeenFrom::Above] {
        assert_ne!(seen(other, Some(Dancer(1)))[7], two[7], "{other:?}");
    }
}

#[test]
fn the_verb_writes_or_says_why_not() {
    let folder = tempfile::tempdir().unwrap();
    let file = sample("low-water");
    let out = folder.path().join("meet.png");
    let run = |more: &[&str], out: &Path| {
        bellpad(["moving", text(&file), "--figure", "meet", "-o", text(out)].iter().chain(more))
    };
    assert_eq!(
        done(["moving", text(&file), "--figure", "meet", "-o", text(&out), "--size", "80", "--fps", "3"]),
        ""
    );
    assert!(PngDecoder::new(Cursor::new(&fs::read(&out).unwrap())).unwrap().is_apng().unwrap());
    let eye = folder.path().join("eye.gif");
    let small = ["--size", "80", "--fps", "3"];
    let at_eye_level = run(&[&small[..], &["--seen", "front", "--dancer", "2"]].concat(), &eye);
    assert_eq!(at_eye_level.code, Some(0), "{at_eye_level:?}");
    assert!(eye.exists());
    let other = folder.path().join("other.gif");
    for (more, words) in [
        (&["--size", "63"][..], &["--size 63", "64 to 1080"][..]),
        (&["--size", "5000"], &["--size 5000", "64 to 1080"]),
        (&["--fps", "0"], &["--fps 0", "1 to 30"]),
        (&["--speed", "1000"], &["--speed 1000", "10 to 200"]),
        (&["--size", "1080", "--fps", "30", "--speed", "10"], &["too many", "--size"]),
        (&["--size", "-3"], &["--size"]),
        (&["--seen", "below"], &["below", "above, front, behind, side"]),
        (&["--dancer", "5"], &["number 5"]),
        (&["--seen", "side", "--dancer", "0"], &["number 0"]),
    ] {
        assert_refused(&run(more, &other), words);
    }
    assert_refused(&run(&[], &folder.path().join("x.mp4")), &["x.mp4", ".png or .gif"]);
    assert_refused(
        &bellpad(["moving", text(&file), "--figure", "nothing", "-o", text(&other)]),
        &["no figure is called \"nothing\""],
    );
    assert_refused(
        &bellpad(["moving", text(&file), "--figure", "met", "-o", text(&other)]),
        &["no figure is called \"met\" (did you mean meet?)"],
    );
    assert!(!other.exists());
}

#[test]
fn kinds_are_told_by_the_ending() {
    assert_eq!(MovingKind::of(Path::new("a.PNG")).unwrap(), MovingKind::Png);
    assert_eq!(MovingKind::of(Path::new("a.gif")).unwrap(), MovingKind::Gif);
    assert!(matches!(MovingKind::of(Path::new("a")), Err(MovingError::Ending(_))));
}
