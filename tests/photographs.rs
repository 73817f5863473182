//! Photographs under the floor: where their pixels belong, held against another reckoning and against a made-up camera; and
//! files that are no photographs, each with one message and nothing lost.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/camera.rs"]
mod camera;
mod common;

use bellpad::dance::{PhotoMark, Strength};
use bellpad::desk::{Ask, Desk, FileAsk, KeepAsk, PhotoAsk, Question, SAMPLES, ViewAsk};
use bellpad::picture::{Flat, FloorFit, MOST_PHOTO_BYTES, NotTrue, Photograph};
use bellpad::store::Recent;
use camera::Camera;
use image::{Rgb, RgbImage, Rgba, RgbaImage};
use std::fs;
use std::io::Cursor;
use std::path::Path;

/// Numbers from 0 to 1, the same each time.
struct Chance(u64);

impl Chance {
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }
}

/// The perspective by four pairs as a library finds it: what the smallest singular value of eight equations belongs to.
fn reference(pairs: &[([f64; 2], [f64; 2])]) -> impl Fn([f64; 2]) -> [f64; 2] + use<> {
    // In thousands of pixels from the middle, so that the library has numbers of like size as well.
    let near = |pixel: [f64; 2]| [(pixel[0] - 2000.0) / 1000.0, (pixel[1] - 1500.0) / 1000.0];
    let mut rows = nalgebra::SMatrix::<f64, 9, 9>::zeros();
    for (index, (pixel, [x, y])) in pairs.iter().enumerate() {
        let [u, v] = near(*pixel);
        let both =
            [[u, v, 1.0, 0.0, 0.0, 0.0, -u * x, -v * x, -x], [0.0, 0.0, 0.0, u, v, 1.0, -u * y, -v * y, -y]];
        for (which, row) in both.iter().enumerate() {
            for (column, value) in row.iter().enumerate() {
                rows[(2 * index + which, column)] = *value;
            }
        }
    }
    let svd = rows.svd(false, true);
    let least = svd.singular_values.imin();
    let h: Vec<f64> = svd.v_t.unwrap().row(least).iter().copied().collect();
    move |pixel| {
        let [u, v] = near(pixel);
        let depth = h[6] * u + h[7] * v + h[8];
        [(h[0] * u + h[1] * v + h[2]) / depth, (h[3] * u + h[4] * v + h[5]) / depth]
    }
}

/// Four corners near those of a rectangle, each up to a third of the way in.
fn quadrilateral(chance: &mut Chance, [wide, high]: [f64; 2]) -> [[f64; 2]; 4] {
    [[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]].map(|[right, down]: [f64; 2]| {
        let (in_x, in_y) = (chance.next() * 0.33, chance.next() * 0.33);
        let toward = |at: f64, by: f64| if at == 0.0 { by } else { 1.0 - by };
        [toward(right, in_x) * wide, toward(down, in_y) * high]
    })
}

#[test]
fn four_marks_give_what_another_reckoning_gives() {
    let mut chance = Chance(1907);
    let mut worst = 0.0_f64;
    for _ in 0..1_000 {
        let pixels = quadrilateral(&mut chance, [4000.0, 3000.0]);
        // Up the floor is the other way about than down the picture.
        let places = quadrilateral(&mut chance, [8.0, 6.0]).map(|[x, y]| [x - 4.0, 3.0 - y]);
        let pairs: Vec<_> = pixels.into_iter().zip(places).collect();
        let marks: Vec<_> = pairs.iter().map(|(pixel, place)| PhotoMark::new(*pixel, *place)).collect();
        let fit = FloorFit::of(&marks).unwrap();
        let known = reference(&pairs);
        for _ in 0..8 {
            // Anywhere between the four.
            let mut shares = [0.0; 4].map(|_| chance.next());
            let sum: f64 = shares.iter().sum();
            for share in &mut shares {
                *share /= sum;
            }
            let mean =
                |axis: usize| pixels.iter().zip(&shares).map(|(pixel, share)| pixel[axis] * share).sum();
            let pixel = [mean(0), mean(1)];
            let (own, other) = (fit.to_floor(pixel).unwrap(), known(pixel));
            worst = worst.max((own[0] - other[0]).hypot(own[1] - other[1]));
            let back = fit.to_pixel(own).unwrap();
            assert!((back[0] - pixel[0]).hypot(back[1] - pixel[1]) < 1e-6, "{back:?} is not {pixel:?}");
        }
        for (pixel, place) in &pairs {
            let own = fit.to_floor(*pixel).unwrap();
            worst = worst.max((own[0] - place[0]).hypot(own[1] - place[1]));
        }
    }
    println!("at the worst {worst:e} m");
    assert!(worst < 1e-9, "{worst:e} m");
}

/// A board of squares of half a metre, from 2 m left and down of the middle to 2 m right and up of it.
fn board([x, y]: [f64; 2]) -> f64 {
    if x.abs() > 2.0 || y.abs() > 2.0 {
        return 0.5;
    }
    let square = |along: f64| ((along + 2.0) / 0.5).floor() as i64;
    if (square(x) + square(y)) % 2 == 0 { 0.1 } else { 0.9 }
}

fn png(picture: &RgbImage) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    picture.write_to(&mut bytes, image::ImageFormat::Png).unwrap();
    bytes.into_inner()
}

/// How light a flat photograph is at a place on the floor, between its pixels too.
fn light(flat: &Flat, [x, y]: [f64; 2]) -> f64 {
    let [x0, y0, x1, y1] = flat.bounds;
    let (wide, high) = flat.pixels.dimensions();
    let across = (x - x0) / (x1 - x0) * f64::from(wide) - 0.5;
    let down = (y1 - y) / (y1 - y0) * f64::from(high) - 0.5;
    let (left, top) = (across.floor(), down.floor());
    let at = |right: f64, below: f64| {
        f64::from(flat.pixels.get_pixel((left + right) as u32, (top + below) as u32).0[0])
    };
    let (s, t) = (across - left, down - top);
    (at(0.0, 0.0) * (1.0 - s) + at(1.0, 0.0) * s) * (1.0 - t)
        + (at(0.0, 1.0) * (1.0 - s) + at(1.0, 1.0) * s) * t
}

/// Where along one axis the light passes the middle between dark and light, from a place on: metres from it.
fn edge(flat: &Flat, [x, y]: [f64; 2], along_x: bool) -> f64 {
    let at = |by: f64| light(flat, if along_x { [x + by, y] } else { [x, y + by] }) - 127.5;
    let steps: Vec<f64> = (-60..=60).map(|step| f64::from(step) * 0.001).collect();
    let change = steps.windows(2).filter(|pair| (at(pair[0]) < 0.0) != (at(pair[1]) < 0.0));
    change
        .map(|pair| f64::midpoint(pair[0], pair[1]))
        .min_by(|a, b| a.abs().total_cmp(&b.abs()))
        .expect("an edge")
}

#[test]
fn a_board_that_a_camera_took_lies_true() {
    // As it is read, and of one with so many pixels that fewer are kept.
    lies_true(&Camera::looking([1.5, -7.0, 4.5], [0.2, 0.3], 1300.0, [2000, 1500]));
    lies_true(&Camera::looking([-2.5, 6.5, 5.0], [0.2, 0.3], 2000.0, [3001, 2251]));
}

fn lies_true(camera: &Camera) {
    let photograph = Photograph::read("board.png", &png(&camera.take(board))).unwrap();
    let marks: Vec<_> = [[-2.0, 2.0], [2.0, 2.0], [2.0, -2.0], [-2.0, -2.0]]
        .map(|place| PhotoMark::new(camera.pixel(place).map(|at| (at * 10.0).round() / 10.0), place))
        .to_vec();
    let fit = FloorFit::of(&marks).unwrap();
    let flat = Flat::lay(&photograph, &fit, &mut |_, _| true).unwrap();
    let (mut by_marks, mut by_eye) = (0.0_f64, 0.0_f64);
    for column in -3..=3 {
        for row in -3..=3 {
            let place = [f64::from(column) * 0.5, f64::from(row) * 0.5];
            let there = fit.to_floor(camera.pixel(place)).unwrap();
            by_marks = by_marks.max((there[0] - place[0]).hypot(there[1] - place[1]));
            // The edges beside a corner, on both sides of it: its own light is neither.
            let beside = [-0.12, 0.12];
            let x = beside.map(|by| edge(&flat, [place[0], place[1] + by], true)).iter().sum::<f64>() / 2.0;
            let y = beside.map(|by| edge(&flat, [place[0] + by, place[1]], false)).iter().sum::<f64>() / 2.0;
            by_eye = by_eye.max(x.hypot(y));
        }
    }
    println!("corners by the marks {:.2} mm, in the flat picture {:.2} mm", by_marks * 1e3, by_eye * 1e3);
    assert!(by_marks < 0.005 && by_eye < 0.005, "{by_marks} {by_eye}");
}

#[test]
fn more_marks_are_met_as_nearly_as_can_be() {
    let camera = Camera::looking([-3.0, -6.0, 5.0], [0.0, 0.0], 1200.0, [2000, 1500]);
    let mut chance = Chance(7);
    let marks: Vec<_> = (0..12)
        .map(|index| {
            let place = [f64::from(index % 4) * 1.2 - 1.8, f64::from(index / 4) * 1.8 - 1.8];
            let pixel = camera.pixel(place).map(|at| at + (chance.next() - 0.5) * 4.0);
            PhotoMark::new(pixel, place)
        })
        .collect();
    let cost = |fit: &FloorFit| {
        let off = |mark: &PhotoMark| {
            let [x, y] = fit.to_floor([mark.across, mark.down]).unwrap();
            (x - mark.x).powi(2) + (y - mark.y).powi(2)
        };
        marks.iter().map(off).sum::<f64>()
    };
    let all = FloorFit::of(&marks).unwrap();
    assert!(all.worst() > 0.0 && all.worst() < 0.05, "{}", all.worst());
    // No four of them do better for all.
    for four in [[0, 3, 8, 11], [1, 2, 9, 10], [0, 2, 8, 11], [4, 3, 8, 11]] {
        let some: Vec<_> = four.iter().map(|index| marks[*index].clone()).collect();
        assert!(cost(&FloorFit::of(&some).unwrap()) > cost(&all));
    }
}

#[test]
fn two_marks_give_scale_and_turn() {
    // A sketch with the music at its right edge, 100 pixels a metre.
    let marks = [PhotoMark::new([100.0, 100.0], [-1.0, 2.0]), PhotoMark::new([500.0, 100.0], [-1.0, 6.0])];
    let fit = FloorFit::of(&marks).unwrap();
    let [x, y] = fit.to_floor([300.0, 300.0]).unwrap();
    assert!((x - 1.0).abs() < 1e-9 && (y - 4.0).abs() < 1e-9, "{x} {y}");
}

#[test]
fn marks_from_which_nothing_follows_are_refused_in_words() {
    let pixels = [[100.0, 100.0], [500.0, 100.0], [500.0, 400.0], [100.0, 400.0]];
    let places = [[-2.0, 1.5], [2.0, 1.5], [2.0, -1.5], [-2.0, -1.5]];
    let fit = |pixels: &[[f64; 2]], places: &[[f64; 2]]| {
        let marks: Vec<_> = pixels.iter().zip(places).map(|(a, b)| PhotoMark::new(*a, *b)).collect();
        FloorFit::of(&marks).map(|fit| fit.worst())
    };
    assert!(fit(&pixels, &places).unwrap() < 1e-9);
    assert_eq!(fit(&pixels[..1], &places), Err(NotTrue::TooFew));
    let mut same = pixels;
    same[2] = [100.2, 100.0];
    assert_eq!(fit(&same, &places), Err(NotTrue::SamePixel(1, 3)));
    let mut same = places;
    same[3] = places[1];
    assert_eq!(fit(&pixels, &same), Err(NotTrue::SamePlace(2, 4)));
    let mut line = pixels;
    line[3] = [300.0, 250.0];
    assert_eq!(fit(&line, &places), Err(NotTrue::InLine));
    let line = [[-2.0, 0.0], [2.0, 0.0], [1.0, 0.001], [0.0, 0.0]];
    assert_eq!(fit(&pixels, &line), Err(NotTrue::InLine));
    let five: Vec<_> = (0..5).map(|index| [f64::from(index), 0.0]).collect();
    let wide: Vec<_> =
        (0..5).map(|index| [f64::from(index * index) * 90.0, f64::from(index) * 100.0]).collect();
    assert!(fit(&wide, &five).is_err(), "five in a line are no floor");
    // Two that have changed places, and all the way about.
    let crossed = [places[1], places[0], places[2], places[3]];
    assert_eq!(fit(&pixels, &crossed), Err(NotTrue::Horizon));
    let mirrored = [places[1], places[0], places[3], places[2]];
    assert_eq!(fit(&pixels, &mirrored), Err(NotTrue::Mirror));
    // Turned half about is in order: it was taken from the music.
    let turned = [places[2], places[3], places[0], places[1]];
    assert!(fit(&pixels, &turned).unwrap() < 1e-9);
    // One inside the triangle of the others, seen as if it were outside.
    let inside = [[-2.0, 1.5], [2.0, 1.5], [0.0, 0.8], [0.0, -1.5]];
    assert_eq!(fit(&pixels, &inside), Err(NotTrue::Horizon));
    for why in [NotTrue::TooFew, NotTrue::SamePixel(1, 2), NotTrue::InLine, NotTrue::Horizon, NotTrue::Mirror]
    {
        assert!(!why.to_string().contains("homography"), "{why}");
    }
}

/// A JPEG of one colour on the left and another on the right, with what is said of its turn.
fn jpeg(turn: Option<u8>) -> Vec<u8> {
    let picture =
        RgbImage::from_fn(60, 40, |x, _| if x < 30 { Rgb([220, 30, 30]) } else { Rgb([30, 30, 220]) });
    let mut bytes = Cursor::new(Vec::new());
    picture.write_to(&mut bytes, image::ImageFormat::Jpeg).unwrap();
    let mut bytes = bytes.into_inner();
    if let Some(turn) = turn {
        let mut exif = b"\xff\xe1\x00\x22Exif\0\0MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0".to_vec();
        exif.extend([turn, 0, 0, 0, 0, 0, 0]);
        bytes.splice(2..2, exif);
    }
    bytes
}

#[test]
fn a_photograph_is_turned_as_it_was_taken() {
    let read = |turn: Option<u8>| Photograph::read("a.jpg", &jpeg(turn)).unwrap();
    let red = |photograph: &Photograph, x: u32, y: u32| photograph.kept.get_pixel(x, y).0[0] > 128;
    let plain = read(None);
    assert_eq!(plain.size, [60, 40]);
    assert!(red(&plain, 5, 20) && !red(&plain, 55, 20));
    // 6: the camera was held on its side, and the picture is to be turned a quarter to the right.
    let turned = read(Some(6));
    assert_eq!(turned.size, [40, 60]);
    assert!(red(&turned, 20, 5) && !red(&turned, 20, 55));
    let half = read(Some(3));
    assert!(!red(&half, 5, 20) && red(&half, 55, 20));
    // A turn that is none is no reason to refuse a picture.
    assert_eq!(read(Some(77)).size, [60, 40]);
}

/// The head of a PNG that says it has so many pixels.
fn large_png(wide: u32, high: u32) -> Vec<u8> {
    let chunk = |kind: &[u8], data: &[u8]| {
        let mut bytes = (data.len() as u32).to_be_bytes().to_vec();
        bytes.extend(kind);
        bytes.extend(data);
        bytes.extend(crc32fast::hash(&bytes[4..]).to_be_bytes());
        bytes
    };
    let mut head = wide.to_be_bytes().to_vec();
    head.extend(high.to_be_bytes());
    head.extend([8, 2, 0, 0, 0]);
    let mut bytes = b"\x89PNG\r\n\x1a\n".to_vec();
    bytes.extend(chunk(b"IHDR", &head));
    bytes.extend(chunk(b"IDAT", &[0x78, 0x9c, 0x03, 0, 0, 0, 0, 1]));
    bytes.extend(chunk(b"IEND", &[]));
    bytes
}

/// A PNG of two pictures that follow each other.
fn moving_png() -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, 16, 16);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_animated(2, 0).unwrap();
    let mut writer = encoder.write_header().unwrap();
    for ink in [10, 200] {
        writer.write_image_data(&[ink; 16 * 16 * 3]).unwrap();
    }
    writer.finish().unwrap();
    bytes
}

/// A WebP of one picture after another, of the one that is in a still one.
fn moving_webp(still: &[u8]) -> Vec<u8> {
    let chunk = |kind: &[u8], data: &[u8]| {
        let mut bytes = kind.to_vec();
        bytes.extend((data.len() as u32).to_le_bytes());
        bytes.extend(data);
        bytes.extend(vec![0; data.len() % 2]);
        bytes
    };
    // 40 by 30, told one less.
    let size = [39, 0, 0, 29, 0, 0];
    let mut frame = vec![0; 6];
    frame.extend(size);
    frame.extend([100, 0, 0, 0]);
    frame.extend(&still[12..]);
    let mut head = vec![2, 0, 0, 0];
    head.extend(size);
    let mut all = b"WEBP".to_vec();
    all.extend(chunk(b"VP8X", &head));
    all.extend(chunk(b"ANIM", &[0; 6]));
    all.extend(chunk(b"ANMF", &frame));
    all.extend(chunk(b"ANMF", &frame));
    chunk(b"RIFF", &all)
}

/// Every file that is refused: its name, its bytes, and what is said of it.
fn bad_files() -> Vec<(&'static str, Vec<u8>, &'static str)> {
    let whole = png(&RgbImage::from_fn(90, 70, |x, y| Rgb([x as u8, y as u8, (x * y) as u8])));
    let mut webp = Cursor::new(Vec::new());
    RgbaImage::from_pixel(40, 30, Rgba([1, 2, 3, 255]))
        .write_to(&mut webp, image::ImageFormat::WebP)
        .unwrap();
    let webp = webp.into_inner();
    let animated = moving_webp(&webp);
    // The frame of a JPEG says how many inks it is mixed of.
    let mut cmyk = jpeg(None);
    let frame = cmyk.windows(2).position(|pair| pair == [0xff, 0xc0]).unwrap();
    cmyk[frame + 9] = 4;
    let mut large_jpeg = jpeg(None);
    large_jpeg[frame + 5..frame + 9].copy_from_slice(&[0x9c, 0x40, 0x9c, 0x40]);
    let jpeg = jpeg(None);
    vec![
        ("short.png", whole[..whole.len() / 2].to_vec(), "cut short"),
        ("short.jpg", jpeg[..jpeg.len() / 3].to_vec(), "cut short"),
        ("short.webp", webp[..webp.len() / 2].to_vec(), "cut short"),
        ("head.png", whole[..20].to_vec(), "cut short"),
        ("large.png", large_png(40_000, 40_000), "40000 by 40000"),
        ("large.jpg", large_jpeg, "40000 by 40000"),
        ("long.png", large_png(2_000_000_000, 1), "2000000000 by 1"),
        ("no ending", whole.clone(), "give it the ending .png"),
        ("away.bin", whole.clone(), "give it the ending .png"),
        ("named.jpg", whole.clone(), "give it the ending .png"),
        ("named.png", jpeg, "give it the ending .jpg"),
        ("named.webp", whole, "give it the ending .png"),
        ("moves.png", moving_png(), "it moves"),
        ("moves.webp", animated, "it moves"),
        ("print.jpg", cmyk, "CMYK"),
        ("words.png", b"Chalk on a car park".to_vec(), "no photograph"),
        ("empty.png", Vec::new(), "no photograph"),
        ("small.png", png(&RgbImage::new(4, 3)), "too few"),
    ]
}

fn desk_in(folder: &Path) -> Desk {
    let path = folder.join("nine.dance.json");
    fs::write(&path, SAMPLES[0].1).unwrap();
    let mut desk = Desk::with_sample(Recent::default());
    desk.apply(Ask::File(FileAsk::Open(path)));
    desk
}

#[test]
fn bad_files_have_one_message_and_change_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let mut desk = desk_in(folder.path());
    let before = desk.dance().clone();
    for (name, bytes, said) in bad_files() {
        let path = folder.path().join(name);
        fs::write(&path, &bytes).unwrap();
        let error = Photograph::read(name, &bytes).err().unwrap_or_else(|| panic!("{name} is read"));
        assert!(error.contains(said) && error.lines().count() == 1, "{name}: {error}");
        // Asked for by path, it is asked for again with what is wrong; dropped, it is told.
        desk.apply(Ask::Photo(PhotoAsk::AskFile));
        desk.apply(Ask::File(FileAsk::Choose(path.clone())));
        let Some(Question::Path(asked)) = desk.question() else { panic!("{:?}", desk.question()) };
        assert_eq!(asked.wrong.as_deref(), Some(format!("{name}: {error}").as_str()));
        desk.apply(Ask::View(ViewAsk::PutAway));
        desk.apply(Ask::Photo(PhotoAsk::Lay(path)));
        let Some(Question::Trouble(told)) = desk.question() else { panic!("{:?}", desk.question()) };
        assert_eq!(*told, format!("{name}: {error}"));
        desk.apply(Ask::View(ViewAsk::PutAway));
        assert_eq!(*desk.dance(), before);
        assert!(!desk.unsaved() && desk.undo_name().is_none());
    }
    let large = vec![0; MOST_PHOTO_BYTES as usize + 1];
    assert!(Photograph::read("a.png", &large).err().unwrap().contains("larger than 40 MB"));
}

#[test]
fn it_is_saved_beside_the_dance_and_found_again() {
    let folder = tempfile::tempdir().unwrap();
    let mut desk = desk_in(folder.path());
    fs::create_dir(folder.path().join("pictures")).unwrap();
    let picture = folder.path().join("pictures/balcony.jpg");
    fs::write(&picture, jpeg(None)).unwrap();
    desk.apply(Ask::Photo(PhotoAsk::Lay(picture.clone())));
    desk.apply(Ask::View(ViewAsk::PutAway));
    assert_eq!(desk.dance().underlay[0].path, "pictures/balcony.jpg");
    // To another folder, and its path goes along.
    let other = tempfile::tempdir_in(folder.path()).unwrap();
    let saved = other.path().join("nine.dance.json");
    desk.apply(Ask::File(FileAsk::SaveTo(saved.clone())));
    assert_eq!(desk.dance().underlay[0].path, "../pictures/balcony.jpg");
    assert!(!desk.unsaved());
    let mut again = Desk::with_sample(Recent::default());
    again.apply(Ask::File(FileAsk::Open(saved.clone())));
    again.apply(Ask::Keep(KeepAsk::CatchUp));
    assert_eq!(again.dance().underlay, desk.dance().underlay);
    assert!(again.photographs_here()[0].flat.is_some() && again.notice().is_none());
    // Lost, it is said once, and the dance is as it was.
    fs::rename(&picture, folder.path().join("pictures/elsewhere.jpg")).unwrap();
    again.apply(Ask::File(FileAsk::Open(saved.clone())));
    again.apply(Ask::Keep(KeepAsk::CatchUp));
    assert!(again.notice().unwrap().contains("balcony.jpg"), "{:?}", again.notice());
    assert!(!again.unsaved() && again.photographs_here()[0].flat.is_none());
    again.apply(Ask::View(ViewAsk::DropNotice));
    for _ in 0..3 {
        again.apply(Ask::Keep(KeepAsk::LookOutside));
        again.apply(Ask::Keep(KeepAsk::CatchUp));
        assert_eq!(again.notice(), None, "it is said once");
    }
    // And found once it is there again.
    fs::rename(folder.path().join("pictures/elsewhere.jpg"), &picture).unwrap();
    again.apply(Ask::Keep(KeepAsk::LookOutside));
    again.apply(Ask::Keep(KeepAsk::CatchUp));
    assert!(again.photographs_here()[0].flat.is_some());
    // Another picture of that name is told as well.
    fs::write(&picture, jpeg(Some(3))).unwrap();
    again.apply(Ask::File(FileAsk::Open(saved)));
    again.apply(Ask::Keep(KeepAsk::CatchUp));
    assert!(again.notice().unwrap().contains("another picture"), "{:?}", again.notice());
}

#[test]
fn inside_the_dance_it_needs_no_file() {
    let folder = tempfile::tempdir().unwrap();
    let mut desk = desk_in(folder.path());
    let picture = folder.path().join("balcony.jpg");
    fs::write(&picture, jpeg(None)).unwrap();
    for ask in [
        Ask::Photo(PhotoAsk::Lay(picture.clone())),
        Ask::Photo(PhotoAsk::KeepInside(0, true)),
        Ask::Photo(PhotoAsk::Strength(0, Strength::Stronger)),
        Ask::File(FileAsk::Save),
    ] {
        desk.apply(ask);
    }
    fs::remove_file(&picture).unwrap();
    let mut again = Desk::with_sample(Recent::default());
    again.apply(Ask::File(FileAsk::Open(folder.path().join("nine.dance.json"))));
    again.apply(Ask::Keep(KeepAsk::CatchUp));
    assert!(again.photographs_here()[0].flat.is_some(), "{:?}", again.notice());
    // Noise is not made small by keeping it.
    let mut chance = Chance(3);
    let noise = RgbImage::from_fn(800, 700, |_, _| Rgb([0; 3].map(|_| (chance.next() * 255.0) as u8)));
    noise.save(folder.path().join("noise.png")).unwrap();
    again.apply(Ask::Photo(PhotoAsk::Lay(folder.path().join("noise.png"))));
    again.apply(Ask::Photo(PhotoAsk::KeepInside(1, true)));
    assert!(again.notice().unwrap().contains("larger than 1 MB"), "{:?}", again.notice());
    assert!(again.dance().underlay[1].inside.is_empty());
    while again.undo_name().is_some() {
        again.apply(Ask::Undo);
    }
    assert_eq!(again.dance().underlay.len(), 1);
}

/// A figure of the sample.
const FIGURE: &str = "Hey";

#[test]
fn no_still_and_no_sheet_shows_it() {
    let folder = tempfile::tempdir().unwrap();
    let mut desk = desk_in(folder.path());
    let without = bellpad::picture::to_svg(&desk.still_picture());
    let picture = folder.path().join("balcony.jpg");
    fs::write(&picture, jpeg(None)).unwrap();
    desk.apply(Ask::Photo(PhotoAsk::Lay(picture)));
    desk.apply(Ask::View(ViewAsk::PutAway));
    let from = folder.path().join("nine.dance.json");
    let sheet = || {
        let to = folder.path().join("sheet.svg");
        common::done(["sheet", from.to_str().unwrap(), "--figure", FIGURE, "-o", to.to_str().unwrap()]);
        fs::read_to_string(to).unwrap()
    };
    let before = sheet();
    desk.apply(Ask::File(FileAsk::Save));
    assert!(fs::read_to_string(&from).unwrap().contains("underlay"));
    assert_eq!(sheet(), before);
    assert_eq!(bellpad::picture::to_svg(&desk.still_picture()), without);
}

/// A set of marks along a chalk line, and one beside it as far as is said; each is clicked within a pixel of where it is.
fn along_a_line(camera: &Camera, many: usize, bend: f64, chance: &mut Chance) -> Vec<PhotoMark> {
    let mut places: Vec<[f64; 2]> = (0..many - 1)
        .map(|index| {
            let along = 4.0 * index as f64 / (many - 2) as f64 - 2.0;
            [along, if index % 2 == 0 { -bend } else { bend } / 2.0]
        })
        .collect();
    places.push([0.5, 1.5]);
    let clicked = |place: [f64; 2], chance: &mut Chance| {
        let pixel = camera.pixel(place).map(|at| at + chance.next() * 2.0 - 1.0);
        PhotoMark::new(pixel, place)
    };
    places.into_iter().map(|place| clicked(place, chance)).collect()
}

fn cameras() -> [Camera; 4] {
    [
        Camera::looking([1.0, -6.5, 4.0], [0.0, -0.2], 900.0, [1400, 1000]),
        Camera::looking([0.3, -0.4, 9.0], [0.1, 0.0], 1400.0, [2000, 1600]),
        Camera::looking([3.0, -8.0, 6.0], [0.0, 0.0], 1600.0, [2400, 1800]),
        Camera::looking([0.0, -9.0, 1.6], [0.0, 0.0], 1500.0, [2000, 1500]),
    ]
}

#[test]
fn marks_of_which_all_but_one_lie_in_a_line_set_nothing() {
    let mut chance = Chance(5);
    for camera in &cameras() {
        for many in 4..=12 {
            for _ in 0..40 {
                let marks = along_a_line(camera, many, 0.0, &mut chance);
                let fit = FloorFit::of(&marks);
                assert_eq!(fit.err(), Some(NotTrue::InLine), "{many} marks");
            }
        }
    }
    // As it was met: four along a line and one beside it, each within a pixel.
    let clicks = [[601.0, 799.9], [800.7, 800.0], [1200.3, 799.3], [1400.3, 800.7], [1100.0, 500.5]];
    let places = [[-2.0, 0.0], [-1.0, 0.0], [1.0, 0.0], [2.0, 0.0], [0.5, 1.5]];
    let marks: Vec<_> =
        clicks.iter().zip(places).map(|(pixel, place)| PhotoMark::new(*pixel, place)).collect();
    assert_eq!(FloorFit::of(&marks).err(), Some(NotTrue::InLine));
}

#[test]
fn what_is_set_is_no_farther_off_than_is_said() {
    let mut chance = Chance(11);
    let (mut taken, mut refused, mut worst) = (0, 0, 0.0_f64);
    for camera in &cameras() {
        for _ in 0..1500 {
            let many = 4 + (chance.next() * 5.0) as usize;
            // From all in a line to well spread, and some anywhere.
            let bend = chance.next().powi(3) * 2.0;
            let marks: Vec<PhotoMark> = if chance.next() < 0.7 {
                along_a_line(camera, many, bend, &mut chance)
            } else {
                (0..many)
                    .map(|_| {
                        let place = [chance.next() * 4.0 - 2.0, chance.next() * 4.0 - 2.0];
                        PhotoMark::new(camera.pixel(place).map(|at| at + chance.next() * 2.0 - 1.0), place)
                    })
                    .collect()
            };
            let Ok(fit) = FloorFit::of(&marks) else {
                refused += 1;
                continue;
            };
            taken += 1;
            // Between any two of them, where the floor truly is.
            for (index, one) in marks.iter().enumerate() {
                for other in &marks[index..] {
                    let place = [f64::midpoint(one.x, other.x), f64::midpoint(one.y, other.y)];
                    let there = fit
                        .to_floor(camera.pixel(place))
                        .map_or(f64::MAX, |there| (there[0] - place[0]).hypot(there[1] - place[1]));
                    worst = worst.max(there / fit.unsure());
                    assert!(
                        there < 1.5 * fit.unsure() + 0.005,
                        "{there} m off, and {} is said",
                        fit.unsure()
                    );
                }
            }
        }
    }
    println!("{taken} taken, {refused} refused, at the worst {worst:.2} of what is said");
    assert!(taken > 1000 && refused > 500, "{taken} {refused}");
}

#[test]
fn marks_that_set_nothing_are_told_and_nothing_is_set() {
    let folder = tempfile::tempdir().unwrap();
    let mut desk = desk_in(folder.path());
    let picture = folder.path().join("line.png");
    fs::write(&picture, png(&RgbImage::new(2000, 1400))).unwrap();
    desk.apply(Ask::Photo(PhotoAsk::Lay(picture)));
    desk.apply(Ask::Photo(PhotoAsk::Marks(0, 5)));
    let clicks = [[601.0, 799.9], [800.7, 800.0], [1200.3, 799.3], [1400.3, 800.7], [1100.0, 500.5]];
    let places = [[-2.0, 0.0], [-1.0, 0.0], [1.0, 0.0], [2.0, 0.0], [0.5, 1.5]];
    for (mark, ([across, down], [x, y])) in clicks.into_iter().zip(places).enumerate() {
        desk.apply(Ask::Photo(PhotoAsk::MarkAt { photo: 0, mark, across, down }));
        desk.apply(Ask::Photo(PhotoAsk::PlaceAt { photo: 0, mark, x, y, reach: 0.0 }));
    }
    desk.apply(Ask::Photo(PhotoAsk::Lock(0, true)));
    assert!(!desk.dance().underlay[0].locked);
    let told = desk.notice().unwrap();
    assert!(told.contains("is not set: too many of the marks lie in one line"), "{told}");
}

#[test]
fn the_horizon_is_where_the_camera_has_it() {
    let camera = Camera::looking([0.0, -9.0, 1.6], [0.0, 6.0], 1000.0, [2000, 1500]);
    let marks =
        [[-2.0, 2.0], [2.0, 2.0], [2.0, -2.0], [-2.0, -2.0]].map(|p| PhotoMark::new(camera.pixel(p), p));
    let fit = FloorFit::of(&marks).unwrap();
    let [one, other] = fit.horizon([2000.0, 1500.0]).unwrap();
    let far = camera.pixel([0.0, 1e7]);
    assert!((one[1] - far[1]).abs() < 0.5 && (other[1] - far[1]).abs() < 0.5, "{one:?} {other:?} {far:?}");
    assert!((one[0] - other[0]).abs() > 1999.0);
    // From a balcony there is none in it.
    let camera = &cameras()[1];
    let marks =
        [[-2.0, 2.0], [2.0, 2.0], [2.0, -2.0], [-2.0, -2.0]].map(|p| PhotoMark::new(camera.pixel(p), p));
    assert_eq!(FloorFit::of(&marks).unwrap().horizon([2000.0, 1600.0]), None);
}

/// A dance with these photographs, each with what is said of it in its file.
fn dance_with(folder: &Path, underlay: &serde_json::Value) -> Desk {
    let path = folder.join("with.dance.json");
    let mut dance: serde_json::Value = serde_json::from_str(SAMPLES[0].1).unwrap();
    dance["underlay"] = underlay.clone();
    fs::write(&path, dance.to_string()).unwrap();
    let mut desk = Desk::with_sample(Recent::default());
    desk.apply(Ask::File(FileAsk::Open(path)));
    desk.apply(Ask::Keep(KeepAsk::CatchUp));
    desk
}

/// Marks that lay a picture of 60 by 40 pixels true.
fn marks() -> serde_json::Value {
    serde_json::json!([
        { "across": 10, "down": 10, "x": -2, "y": 1 },
        { "across": 50, "down": 10, "x": 2, "y": 1 },
        { "across": 50, "down": 30, "x": 2, "y": -1 },
        { "across": 10, "down": 30, "x": -2, "y": -1 }
    ])
}

#[test]
fn every_lost_picture_is_told_and_only_once() {
    let folder = tempfile::tempdir().unwrap();
    fs::create_dir(folder.path().join("a folder.jpg")).unwrap();
    fs::write(folder.path().join("broken.png"), b"Chalk").unwrap();
    let under = |path: &str| serde_json::json!({ "path": path, "marks": marks() });
    let mut desk = dance_with(
        folder.path(),
        &serde_json::json!([
            under("first.jpg"),
            under("a folder.jpg"),
            under("old/../second.jpg"),
            under("broken.png"),
            under("gone\nBellpad saved it\n.jpg"),
        ]),
    );
    let told = desk.notice().unwrap().to_owned();
    assert!(
        told.contains("3 photographs under the floor are not there any more: first.jpg, second.jpg, gone"),
        "{told}"
    );
    assert!(told.contains("a folder.jpg is a folder"), "{told}");
    assert!(
        told.contains("broken.png, a photograph under the floor, is not shown: this is no photograph"),
        "{told}"
    );
    assert_eq!(told.lines().count(), 1, "{told}");
    assert!(!told.contains(".."), "{told}");
    desk.apply(Ask::View(ViewAsk::DropNotice));
    for _ in 0..3 {
        desk.apply(Ask::Keep(KeepAsk::LookOutside));
        desk.apply(Ask::Keep(KeepAsk::CatchUp));
        assert_eq!(desk.notice(), None);
    }
    // One alone is told with where it was.
    let desk = dance_with(folder.path(), &serde_json::json!([under("old/../first.jpg")]));
    let told = desk.notice().unwrap();
    assert!(told.ends_with("first.jpg any more") && !told.contains(".."), "{told}");
}

#[test]
fn marks_of_a_file_that_set_nothing_true_are_told() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("a.jpg"), jpeg(None)).unwrap();
    let mut crossed = marks();
    (crossed[2]["x"], crossed[3]["x"]) = (serde_json::json!(-2), serde_json::json!(2));
    for locked in [false, true] {
        let under = |marks: serde_json::Value| serde_json::json!([{ "path": "a.jpg", "marks": marks, "locked": locked }]);
        let desk = dance_with(folder.path(), &under(crossed.clone()));
        let told = desk.notice().unwrap();
        assert!(told.contains("a.jpg lies flat, and is not true: the marks would put the horizon"), "{told}");
        let mut desk = dance_with(folder.path(), &under(serde_json::json!([])));
        let told = desk.notice().unwrap();
        assert!(told.contains("a.jpg is not shown: two marks at least are needed"), "{told}");
        // Given some it lies as when it is laid.
        if !locked {
            desk.apply(Ask::Photo(PhotoAsk::Marks(0, 4)));
            desk.apply(Ask::Keep(KeepAsk::CatchUp));
            assert!(desk.photograph_fit(0).is_ok() && desk.photographs_here()[0].flat.is_some());
            assert_eq!(desk.fresh_marks(0), [0, 1, 2, 3]);
        }
        assert_eq!(dance_with(folder.path(), &under(marks())).notice(), None);
    }
}

#[test]
fn a_picture_that_was_moved_keeps_its_marks() {
    let folder = tempfile::tempdir().unwrap();
    let mut desk = desk_in(folder.path());
    let picture = folder.path().join("balcony.jpg");
    fs::write(&picture, jpeg(None)).unwrap();
    for ask in [
        Ask::Photo(PhotoAsk::Lay(picture.clone())),
        Ask::Photo(PhotoAsk::MarkAt { photo: 0, mark: 1, across: 51.0, down: 9.0 }),
        Ask::Photo(PhotoAsk::Lock(0, true)),
        Ask::File(FileAsk::Save),
    ] {
        desk.apply(ask);
    }
    let marks = desk.dance().underlay[0].marks.clone();
    let moved = folder.path().join("the balcony.jpg");
    fs::rename(&picture, &moved).unwrap();
    let mut again = Desk::with_sample(Recent::default());
    again.apply(Ask::File(FileAsk::Open(folder.path().join("nine.dance.json"))));
    again.apply(Ask::Keep(KeepAsk::CatchUp));
    assert!(again.photograph_lost(0).is_some());
    again.apply(Ask::Photo(PhotoAsk::Lay(moved)));
    again.apply(Ask::Keep(KeepAsk::CatchUp));
    let own = &again.dance().underlay;
    assert_eq!((own.len(), own[0].path.as_str(), own[0].locked), (1, "the balcony.jpg", true));
    assert_eq!(own[0].marks, marks);
    assert!(again.photographs_here()[0].flat.is_some());
    assert!(again.notice().unwrap().contains("lies where it lay"), "{:?}", again.notice());
    again.apply(Ask::Undo);
    assert_eq!(again.dance().underlay[0].path, "balcony.jpg");
}

#[test]
fn what_could_not_be_used_is_there_to_be_put_right() {
    let folder = tempfile::tempdir().unwrap();
    let mut desk = desk_in(folder.path());
    let path = folder.path().join("nothing here.png");
    desk.apply(Ask::Photo(PhotoAsk::AskFile));
    desk.apply(Ask::File(FileAsk::Choose(path.clone())));
    let Some(Question::Path(asked)) = desk.question() else { panic!("{:?}", desk.question()) };
    assert_eq!(
        (asked.path.as_path(), asked.wrong.as_deref()),
        (path.as_path(), Some("nothing here.png: there is no such file"))
    );
}

#[test]
fn a_mark_that_has_not_been_moved_is_known_to_say_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let mut desk = desk_in(folder.path());
    let picture = folder.path().join("balcony.png");
    fs::write(&picture, png(&RgbImage::new(400, 300))).unwrap();
    desk.apply(Ask::Photo(PhotoAsk::Lay(picture)));
    assert_eq!(desk.fresh_marks(0), [0, 1, 2, 3]);
    for (mark, [across, down]) in
        [[70.0, 40.0], [310.0, 50.0], [330.0, 260.0], [60.0, 250.0]].into_iter().enumerate()
    {
        desk.apply(Ask::Photo(PhotoAsk::MarkAt { photo: 0, mark, across, down }));
    }
    assert!(desk.fresh_marks(0).is_empty());
    desk.apply(Ask::Photo(PhotoAsk::Marks(0, 6)));
    assert_eq!(desk.fresh_marks(0), [4, 5]);
    desk.apply(Ask::Photo(PhotoAsk::MarkAt { photo: 0, mark: 4, across: 190.0, down: 100.0 }));
    assert_eq!(desk.fresh_marks(0), [5]);
}
