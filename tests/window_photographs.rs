//! Photographs in the window: one that is dropped and broken, and one that is pasted.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/window.rs"]
mod driven;

use bellpad::desk::{Ask, Desk, FileAsk, Question, SAMPLES, ViewAsk};
use bellpad::store::Recent;
use driven::{Driven, dance, desk, press_with, show, take, undo_name};
use egui::epaint::Shape;
use egui::{Color32, ColorImage, Key, Modifiers, TextureId};
use std::path::{Path, PathBuf};
use std::sync::Arc;

const SIZE: [f32; 2] = [1366.0, 768.0];

fn window(folder: &Path) -> Driven {
    std::fs::write(folder.join("nine.dance.json"), SAMPLES[0].1).unwrap();
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

/// How many photographs a shape paints: pictures of their own with four corners.
fn photographs(shape: &Shape) -> usize {
    match shape {
        Shape::Vec(shapes) => shapes.iter().map(photographs).sum(),
        Shape::Mesh(mesh) => usize::from(mesh.vertices.len() == 4 && mesh.texture_id != TextureId::default()),
        _ => 0,
    }
}

/// How many photographs are painted in the last frame.
fn painted(harness: &Driven) -> usize {
    harness.output().shapes.iter().map(|shape| photographs(&shape.shape)).sum()
}

#[test]
fn a_broken_picture_that_is_dropped_is_told_and_leaves_all_as_it_was() {
    let folder = tempfile::tempdir().unwrap();
    let whole = {
        let mut png = std::io::Cursor::new(Vec::new());
        let lively = image::RgbImage::from_fn(90, 70, |x, y| image::Rgb([x as u8, y as u8, (x * y) as u8]));
        lively.write_to(&mut png, image::ImageFormat::Png).unwrap();
        png.into_inner()
    };
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
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path());
    let image = ColorImage::filled([64, 48], Color32::from_rgb(200, 40, 40));
    harness.event(egui::Event::PasteImage(Arc::new(image)));
    harness.run();
    let own = &desk(&harness).dance().underlay;
    assert_eq!((own.len(), own[0].name(), own[0].inside.is_empty()), (1, "pasted picture", false));
    assert_eq!(desk(&harness).question(), Some(&Question::Photo(0)));
    take(&mut harness, Ask::View(ViewAsk::PutAway));
    assert_eq!(painted(&harness), 1);
    press_with(&mut harness, Modifiers::COMMAND, Key::Z);
    assert!(desk(&harness).dance().underlay.is_empty() && painted(&harness) == 0);
}
