//! Photographs in the window: dropped, pasted and laid by keys; what is painted of them, looked up in the very pixels that the screen is
//! given; how strong they are, under which figure, and their marks moved by keys and by the mouse.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/camera.rs"]
mod camera;
#[path = "common/window.rs"]
mod driven;
#[path = "common/painted.rs"]
mod painted;

use bellpad::dance::Strength;
use bellpad::desk::{Ask, Desk, FileAsk, PhotoAsk, PlayAsk, Question, SAMPLES, ViewAsk};
use bellpad::store::Recent;
use camera::Camera;
use driven::{Driven, at, click, dance, desk, drag, press, press_with, show, take, undo_name};
use egui::epaint::{ImageData, Mesh, Shape};
use egui::{Color32, ColorImage, Key, Modifiers, Pos2, TextureId, pos2, vec2};
use egui_kittest::kittest::Queryable;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, OnceLock};

const SIZE: [f32; 2] = [1366.0, 768.0];
/// Where chalk is, metres: of four spots of the set, and one that is like none of them mirrored.
const SPOTS: [[f64; 2]; 4] = [[-1.2, 1.8], [1.2, 1.8], [1.2, -1.8], [-1.2, -1.8]];
const FIFTH: [f64; 2] = [0.43, 0.67];

fn chalk([x, y]: [f64; 2]) -> f64 {
    let on = |[cross_x, cross_y]: &[f64; 2]| {
        let (right, up) = ((x - cross_x).abs(), (y - cross_y).abs());
        (right < 0.15 && up < 0.025) || (up < 0.15 && right < 0.025)
    };
    if SPOTS.iter().chain([&FIFTH]).any(on) { 0.95 } else { 0.25 }
}

fn camera() -> Camera {
    Camera::looking([1.0, -6.5, 4.0], [0.0, -0.2], 450.0, [700, 500])
}

/// The picture, which is taken once for all tests.
static TAKEN: OnceLock<image::RgbImage> = OnceLock::new();

/// A folder with a dance and the picture of the chalk.
fn folder() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("nine.dance.json"), SAMPLES[0].1).unwrap();
    let taken = TAKEN.get_or_init(|| camera().take(chalk));
    taken.save(folder.path().join("car park.png")).unwrap();
    folder
}

fn window(folder: &Path) -> Driven {
    let mut desk = Desk::with_sample(Recent::default());
    desk.apply(Ask::File(FileAsk::Open(folder.join("nine.dance.json"))));
    show(desk, SIZE)
}

#[derive(Debug)]
struct Dropped(PathBuf);

impl egui::DroppedFile for Dropped {
    fn path(&self) -> &Path {
        &self.0
    }
    fn bytes(&self) -> Result<Vec<u8>, String> {
        std::fs::read(&self.0).map_err(|error| error.to_string())
    }
}

fn drop_on(harness: &mut Driven, path: PathBuf) {
    harness.input_mut().dropped_files.push(Arc::new(Dropped(path)));
    harness.run();
}

/// The pictures that the screen is given, by their number, as long as they are collected.
#[derive(Default)]
struct Pixels(BTreeMap<TextureId, Arc<ColorImage>>);

impl Pixels {
    /// Shows a frame, and takes what pictures come with it.
    fn step(&mut self, harness: &mut Driven) {
        harness.step();
        for (id, deltas) in &harness.output().textures_delta.set {
            for delta in deltas.iter().filter(|delta| delta.pos.is_none()) {
                let ImageData::Color(image) = &delta.image;
                self.0.insert(*id, image.clone());
            }
        }
    }
}

fn meshes(shape: &Shape, found: &mut Vec<Arc<Mesh>>) {
    match shape {
        Shape::Vec(shapes) => shapes.iter().for_each(|shape| meshes(shape, found)),
        Shape::Mesh(mesh) if mesh.vertices.len() == 4 && mesh.texture_id != TextureId::default() => {
            found.push(Arc::clone(mesh));
        }
        _ => {}
    }
}

/// The photographs as they are painted in the last frame, the lowest first.
fn painted(harness: &Driven) -> Vec<Arc<Mesh>> {
    let mut found = Vec::new();
    harness.output().shapes.iter().for_each(|shape| meshes(&shape.shape, &mut found));
    found
}

/// What is painted of a photograph at a place of the window, red 0 to 255, by its corners and its own pixels; nothing beside it.
fn red_at(mesh: &Mesh, image: &ColorImage, place: Pos2) -> Option<f32> {
    let [corner, right, _, below] = [0, 1, 2, 3].map(|index| mesh.vertices[index]);
    let along = |one: Pos2, other: Pos2| {
        let side = other - one;
        (place - one).dot(side) / side.length_sq()
    };
    let (across, down) = (along(corner.pos, right.pos), along(corner.pos, below.pos));
    let uv = corner.uv + (right.uv - corner.uv) * across + (below.uv - corner.uv) * down;
    let [wide, high] = image.size;
    let [x, y] = [uv.x * wide as f32, uv.y * high as f32];
    (x >= 0.0 && y >= 0.0 && (x as usize) < wide && (y as usize) < high)
        .then(|| f32::from(image.pixels[y as usize * wide + x as usize].r()))
}

/// The middle of what is light round a place on the floor, within 30 cm, metres.
fn lightest(harness: &mut Driven, mesh: &Mesh, image: &ColorImage, [x, y]: [f64; 2]) -> Option<[f64; 2]> {
    let (middle, metre) = (at(harness, x, y), at(harness, x + 1.0, y).x - at(harness, x, y).x);
    let mut sum = [0.0, 0.0, 0.0];
    for right in -30..=30 {
        for up in -30..=30 {
            let by = [f64::from(right) * 0.01, f64::from(up) * 0.01];
            let place = middle + vec2(by[0] as f32, -by[1] as f32) * metre;
            if by[0].hypot(by[1]) < 0.3 && red_at(mesh, image, place).is_some_and(|red| red > 160.0) {
                sum = [sum[0] + by[0], sum[1] + by[1], sum[2] + 1.0];
            }
        }
    }
    (sum[2] > 20.0).then(|| [x + sum[0] / sum[2], y + sum[1] / sum[2]])
}

/// Sets it true at one go.
fn set_true(harness: &mut Driven) {
    for (mark, spot) in SPOTS.into_iter().enumerate() {
        let ([across, down], [x, y]) = (camera().pixel(spot), spot);
        let desk = &mut harness.state_mut().desk;
        desk.apply(Ask::Photo(PhotoAsk::MarkAt { photo: 0, mark, across, down }));
        desk.apply(Ask::Photo(PhotoAsk::PlaceAt { photo: 0, mark, x, y, reach: 0.0 }));
    }
}

#[test]
fn a_dropped_picture_is_painted_where_it_belongs_and_nowhere_else() {
    let folder = folder();
    let mut harness = window(folder.path());
    drop_on(&mut harness, folder.path().join("car park.png"));
    assert_eq!(desk(&harness).question(), Some(&Question::Photo(0)));
    let mut pixels = Pixels::default();
    take(&mut harness, Ask::View(ViewAsk::PutAway));
    // Its pixels come to the screen in a frame that is looked at.
    set_true(&mut harness);
    for _ in 0..6 {
        pixels.step(&mut harness);
    }
    let all = painted(&harness);
    assert_eq!(all.len(), 1, "one photograph is painted");
    let image = Arc::clone(pixels.0.get(&all[0].texture_id).expect("its pixels came to the screen"));
    for spot in SPOTS.iter().chain([&FIFTH]) {
        let [x, y] = lightest(&mut harness, &all[0], &image, *spot).expect("chalk");
        let off = (x - spot[0]).hypot(y - spot[1]);
        assert!(off < 0.02, "chalk of {spot:?} is painted {off} m from there");
    }
    // Mirrored either way, or turned, it would be here.
    for [x, y] in [[-0.43, 0.67], [0.43, -0.67], [-0.43, -0.67], [0.67, 0.43]] {
        assert_eq!(lightest(&mut harness, &all[0], &image, [x, y]), None, "at {x}, {y}");
    }
}

#[test]
fn a_broken_picture_that_is_dropped_is_told_and_leaves_all_as_it_was() {
    let folder = folder();
    let whole = std::fs::read(folder.path().join("car park.png")).unwrap();
    std::fs::write(folder.path().join("cut.png"), &whole[..whole.len() / 2]).unwrap();
    let mut harness = window(folder.path());
    let before = dance(&harness);
    drop_on(&mut harness, folder.path().join("cut.png"));
    let Some(Question::Trouble(told)) = desk(&harness).question() else {
        panic!("{:?}", desk(&harness).question())
    };
    assert_eq!(told, "cut.png: the picture is cut short or damaged");
    assert_eq!(dance(&harness), before);
    assert_eq!(undo_name(&harness), "");
}

#[test]
fn a_picture_that_is_pasted_lies_inside_the_dance() {
    let folder = folder();
    let mut harness = window(folder.path());
    let image = ColorImage::filled([64, 48], Color32::from_rgb(200, 40, 40));
    harness.event(egui::Event::PasteImage(Arc::new(image)));
    harness.run();
    let own = &desk(&harness).dance().underlay;
    assert_eq!((own.len(), own[0].name(), own[0].inside.is_empty()), (1, "pasted picture", false));
    assert_eq!(desk(&harness).question(), Some(&Question::Photo(0)));
    take(&mut harness, Ask::View(ViewAsk::PutAway));
    assert_eq!(painted(&harness).len(), 1);
    press_with(&mut harness, Modifiers::COMMAND, Key::Z);
    assert!(desk(&harness).dance().underlay.is_empty() && painted(&harness).is_empty());
}

/// A window with the chalk under the floor.
fn with_chalk(folder: &Path) -> Driven {
    let mut harness = window(folder);
    take(&mut harness, Ask::Photo(PhotoAsk::Lay(folder.join("car park.png"))));
    set_true(&mut harness);
    take(&mut harness, Ask::View(ViewAsk::PutAway));
    harness
}

/// How much of what is under it the photograph covers, 0 to 1; nothing where none is painted.
fn cover(harness: &Driven) -> Option<f32> {
    let all = painted(harness);
    assert!(all.len() < 2);
    all.first().map(|mesh| f32::from(mesh.vertices[0].color.a()) / 255.0)
}

#[test]
fn p_has_it_stronger_hidden_and_faint_on_the_screen() {
    let folder = folder();
    let mut harness = with_chalk(folder.path());
    let faint = cover(&harness).unwrap();
    press(&mut harness, Key::P);
    let stronger = cover(&harness).unwrap();
    assert!(faint > 0.2 && stronger > faint + 0.2, "{faint} {stronger}");
    press(&mut harness, Key::P);
    assert_eq!(cover(&harness), None);
    assert!(harness.query_by_label("Mark 1 of car park.png on the floor").is_none());
    press(&mut harness, Key::P);
    assert_eq!(cover(&harness), Some(faint));
    // And in its dialog.
    take(&mut harness, Ask::Photo(PhotoAsk::Show(0)));
    click(&mut harness, "Stronger");
    assert_eq!(desk(&harness).dance().underlay[0].strength, Strength::Stronger);
    click(&mut harness, "Hidden");
    click(&mut harness, "Close");
    assert_eq!(cover(&harness), None);
}

#[test]
fn under_one_figure_it_is_painted_there_alone() {
    let folder = folder();
    let mut harness = with_chalk(folder.path());
    let spans: Vec<(usize, f64)> =
        desk(&harness).motion().spans().iter().map(|span| (span.figure, span.begin())).collect();
    let here = desk(&harness).motion().span_under(desk(&harness).player().count).unwrap().figure;
    take(&mut harness, Ask::Photo(PhotoAsk::Show(0)));
    click(&mut harness, "Under the figure at the playhead alone");
    click(&mut harness, "Close");
    assert!(cover(&harness).is_some());
    let (_, elsewhere) = *spans.iter().find(|(figure, _)| *figure != here).expect("another figure");
    take(&mut harness, Ask::Play(PlayAsk::Seek(elsewhere + 1.0)));
    assert_eq!(cover(&harness), None);
    let (_, back) = *spans.iter().find(|(figure, _)| *figure == here).unwrap();
    take(&mut harness, Ask::Play(PlayAsk::Seek(back + 1.0)));
    assert!(cover(&harness).is_some());
}

#[test]
fn marks_are_moved_by_keys_and_by_the_mouse() {
    let folder = folder();
    let mut harness = with_chalk(folder.path());
    take(&mut harness, Ask::Photo(PhotoAsk::Show(0)));
    let mark = |harness: &Driven, index: usize| desk(harness).dance().underlay[0].marks[index].clone();
    let before = mark(&harness, 0);
    harness.get_by_label("Mark 1 on the picture").focus();
    harness.run();
    press_with(&mut harness, Modifiers::SHIFT, Key::ArrowRight);
    let fine = mark(&harness, 0).across - before.across;
    assert!((fine - 1.0).abs() < 0.11, "with Shift it goes a pixel: {fine}");
    press(&mut harness, Key::ArrowDown);
    let coarse = mark(&harness, 0).down - before.down;
    assert!(coarse > 0.5 && coarse < 8.0, "a point of the screen: {coarse}");
    // By the mouse onto another: it stays there, and is told.
    let [from, to] =
        [2, 1].map(|number| harness.get_by_label(&format!("Mark {number} on the picture")).rect().center());
    drag(&mut harness, from, to);
    let [one, two] = [0, 1].map(|index| mark(&harness, index));
    assert!((one.across - two.across).abs() < 3.0 && (one.down - two.down).abs() < 3.0, "{one:?} {two:?}");
    let told = painted::words(&harness);
    let why = desk(&harness).photograph_fit(0).unwrap_err().to_string();
    assert!(told.iter().any(|words| words.text.to_lowercase().contains(&why.to_lowercase())), "{why}");
    click(&mut harness, "Set it");
    assert!(!desk(&harness).dance().underlay[0].locked, "what sets nothing true is not set");
}

#[test]
fn its_dialog_says_what_the_marks_come_to() {
    let folder = folder();
    let mut harness = window(folder.path());
    take(&mut harness, Ask::Photo(PhotoAsk::Lay(folder.path().join("car park.png"))));
    let says = |harness: &Driven, part: &str| {
        let all = painted::words(harness);
        let texts: Vec<&str> = all.iter().map(|words| words.text.as_str()).collect();
        assert!(texts.iter().any(|text| text.contains(part)), "{part}: {texts:?}");
    };
    says(&harness, "Nothing is set yet");
    set_true(&mut harness);
    harness.run();
    says(&harness, "Four marks: it is true");
    let place = |harness: &Driven| harness.get_by_label("One more").rect().min;
    let stood = place(&harness);
    click(&mut harness, "One more");
    says(&harness, "Not set yet: mark 5 is where it was put");
    take(&mut harness, Ask::Photo(PhotoAsk::MarkAt { photo: 0, mark: 4, across: 350.0, down: 200.0 }));
    let there = desk(&harness).photograph_fit(0).unwrap().to_floor([350.0, 200.0]).unwrap();
    take(
        &mut harness,
        Ask::Photo(PhotoAsk::PlaceAt { photo: 0, mark: 4, x: there[0], y: there[1], reach: 0.0 }),
    );
    says(&harness, "5 marks agree within");
    assert_eq!(place(&harness), stood, "no button moves as marks come and go");
    click(&mut harness, "One fewer");
    assert_eq!(desk(&harness).dance().underlay[0].marks.len(), 4);
    assert_eq!(place(&harness), stood);
    // Undone where it stands, though the dialog is open.
    press_with(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(desk(&harness).dance().underlay[0].marks.len(), 5);
}

#[test]
fn flags_of_two_photographs_do_not_lie_on_each_other() {
    let folder = folder();
    std::fs::copy(folder.path().join("car park.png"), folder.path().join("sketch.png")).unwrap();
    let mut harness = window(folder.path());
    for name in ["car park.png", "sketch.png"] {
        take(&mut harness, Ask::Photo(PhotoAsk::Lay(folder.path().join(name))));
        take(&mut harness, Ask::View(ViewAsk::PutAway));
    }
    let flag = |name: &str| harness.get_by_label(&format!("Mark 1 of {name} on the floor")).rect();
    assert!(!flag("car park.png").intersects(flag("sketch.png")));
    assert_ne!(flag("car park.png").center(), pos2(0.0, 0.0));
}
