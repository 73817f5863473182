//! What a frame costs while a dance is played: where no graphics card is, most of it is its triangles, which are counted here, not
//! timed.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing)]

#[path = "common/window.rs"]
mod driven;

use bellpad::dance::Dancer;
use bellpad::desk::{Ask, KeepAsk, PlayAsk, ViewAsk};
use driven::{Driven, desk, show_sample, take};
use egui::epaint::Primitive;

/// The most triangles of a frame of the sample dance in a window of 1366 by 768, with a dancer chosen.
const MOST: usize = 29_000;

fn triangles(harness: &Driven) -> usize {
    let shapes = harness.output().shapes.clone();
    let cut = harness.ctx.tessellate(shapes, 1.0);
    let meshes = cut.iter().filter_map(|part| match &part.primitive {
        Primitive::Mesh(mesh) => Some(mesh.indices.len() / 3),
        Primitive::Callback(_) => None,
    });
    meshes.sum()
}

#[test]
fn a_frame_of_a_dance_has_few_triangles() {
    let mut harness = show_sample([1382.0, 784.0]);
    take(&mut harness, Ask::Keep(KeepAsk::ShutWelcome(true)));
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(2)))));
    let begins: Vec<f64> = desk(&harness).motion().spans().iter().map(bellpad::motion::Span::begin).collect();
    let (mut most, mut least) = (0, usize::MAX);
    for begin in begins {
        for count in [0.0, 6.0, 13.5, 27.0] {
            take(&mut harness, Ask::Play(PlayAsk::Seek(begin + count)));
            let many = triangles(&harness);
            (most, least) = (most.max(many), least.min(many));
        }
    }
    println!("{least} to {most} triangles");
    assert!(most <= MOST, "{most} triangles");
    assert!(least > 5_000, "{least}: the whole window is counted");
}
