//! How fast things are, beside a yardstick measured in the same run.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use bellpad::dance::{Dance, Dancer, Entry, Extra, FaultLimits, Score, Set, read};
use bellpad::desk::{Ask, CompareAsk, Desk, DrawAsk, Grip, PlayAsk, ViewAsk};
use bellpad::edits::make_room;
use bellpad::edits::{Together, drag_dancer};
use bellpad::faults::{Body, ToWatch, find_faults, watch_dance};
use bellpad::figures::{Mirror, motion_after, motion_of, named_figure};
use bellpad::handout::{SheetChoice, figure_sheet, handout_to_pdf, notebook, page_to_png};
use bellpad::motion::limbs::Gait;
use bellpad::motion::{Clock, Motion, SpanIndex};
use bellpad::picture::{PAPER, StillChoice, engrave, still, to_png, to_rgb, to_svg};
use bellpad::sound::{Band, LIVE_RATE, Levels, MusicOf, Performance, SAMPLE_RATE, wav};
use bellpad::store::Recent;
use bellpad::versions::compare;
use bellpad::window::Window;
use criterion::{Criterion, criterion_group, criterion_main};
use kurbo::{CubicBez, ParamCurve, Point};
use rayon::prelude::*;
use resvg::{tiny_skia, usvg};
use std::hint::black_box;
use std::io::Cursor;
use std::sync::Arc;

fn sample() -> (Dance, Motion) {
    let dance = read(include_bytes!("../dances/nine-geese-home.dance.json")).unwrap();
    let motion = motion_of(&dance, None).unwrap();
    (dance, motion)
}

fn poses(bench: &mut Criterion) {
    let (dance, motion) = sample();
    let mut group = bench.benchmark_group("pose");
    let curve = CubicBez::new((0.0, 0.0), (1.0, 0.3), (1.5, 2.0), (0.2, 2.2));
    let mut at = 0.0;
    group.bench_function("yardstick: a bare kurbo cubic", |bencher| {
        bencher.iter(|| {
            at = (at + 0.137) % 1.0;
            let place: Point = curve.eval(black_box(at));
            place
        });
    });
    let hey = 5.0 * 32.0;
    let mut all = Vec::new();
    let mut count = 0.0;
    group.bench_function("six dancers in the hey", |bencher| {
        bencher.iter(|| {
            count = (count + 0.137) % 32.0;
            motion.pose_all(black_box(hey + count), &mut all);
            all.len()
        });
    });
    let clock = Clock::of_dance(&dance, &motion);
    let gaits: Vec<Gait> = Dancer::all(6).map(|dancer| Gait::of(&motion, &clock, dancer)).collect();
    group.bench_function("six dancers in the hey, with their limbs", |bencher| {
        bencher.iter(|| {
            count = (count + 0.137) % 32.0;
            let at = black_box(hey + count);
            gaits.iter().map(|gait| gait.limbs(&motion, &clock, at).crown.z).sum::<f64>()
        });
    });
    group.bench_function("how one dancer goes through the whole dance", |bencher| {
        bencher.iter(|| Gait::of(&motion, &clock, Dancer(2)).bytes());
    });
    group.finish();
    let mut group = bench.benchmark_group("edit");
    let step = |x: f64| drag_dancer(&dance, &motion, Dancer(2), hey + 6.0, x, 1.2).unwrap();
    group.bench_function("yardstick: the dance copied", |bencher| bencher.iter(|| dance.clone()));
    group.bench_function("recompile after one drag step", |bencher| {
        let mut x = 0.0;
        bencher.iter(|| {
            x = (x + 0.013) % 1.0;
            motion_after(&step(-1.0 + x), (&dance, &motion)).unwrap().bars()
        });
    });
    group.bench_function("a drag step by itself, to take from that", |bencher| {
        let mut x = 0.0;
        bencher.iter(|| {
            x = (x + 0.013) % 1.0;
            step(-1.0 + x).figures.len()
        });
    });
    let mut desk = Desk::new(dance.clone(), None, Recent::default()).unwrap();
    desk.apply(Ask::Play(PlayAsk::Seek(hey + 6.0)));
    desk.apply(Ask::Draw(DrawAsk::PlaceAt { dancer: Dancer(2), x: -0.5, y: 1.2 }));
    group.bench_function("undo and redo of a step", |bencher| {
        bencher.iter(|| {
            desk.apply(Ask::Undo);
            desk.apply(Ask::Redo);
            desk.dance().figures.len()
        });
    });
    group.bench_function("compile from nothing", |bencher| {
        bencher.iter(|| motion_of(black_box(&dance), None).unwrap().bars());
    });
    group.finish();
}

fn heys(bench: &mut Criterion) {
    let mut group = bench.benchmark_group("hey");
    group.sample_size(20);
    for dancers in [6, 8] {
        // Every round is a set of another size, so that no answer is there already.
        let mut along = 1.5;
        group.bench_function(format!("timing solved afresh for {dancers}"), |bencher| {
            bencher.iter(|| {
                along += 0.000_1;
                let mut dance = Dance::new("", Set::longways(dancers, 2.4, along));
                dance.figures.push(named_figure("hey", Extra::new(), &dance.set).unwrap());
                dance
            });
        });
    }
    group.finish();
}

fn stills(bench: &mut Criterion) {
    let (_, motion) = sample();
    let mut group = bench.benchmark_group("still");
    group.sample_size(20);
    let choice = StillChoice { trails: true, ..StillChoice::default() };
    let picture = still(&motion, 166.0, &choice);
    let svg = to_svg(&picture);
    group.bench_function("yardstick: resvg on the same SVG, with the default encoding", |bencher| {
        bencher.iter(|| {
            let tree = usvg::Tree::from_str(black_box(&svg), &usvg::Options::default()).unwrap();
            let mut pixels = tiny_skia::Pixmap::new(1200, 1200).unwrap();
            resvg::render(&tree, tiny_skia::Transform::identity(), &mut pixels.as_mut());
            let mut rgb = vec![0; 1200 * 1200 * 3];
            for ([red, green, blue, _], pixel) in
                pixels.data().as_chunks::<4>().0.iter().zip(rgb.as_chunks_mut::<3>().0)
            {
                *pixel = [*red, *green, *blue];
            }
            let mut bytes = Vec::new();
            let mut encoder = png::Encoder::new(&mut bytes, 1200, 1200);
            encoder.set_color(png::ColorType::Rgb);
            encoder.write_header().unwrap().write_image_data(&rgb).unwrap();
            bytes.len()
        });
    });
    group.bench_function("1200 px, drawn only", |bencher| {
        bencher.iter(|| to_rgb(black_box(&picture)).unwrap().len());
    });
    group.bench_function("1200 px PNG", |bencher| {
        bencher.iter(|| to_png(&still(&motion, black_box(166.0), &choice)).unwrap().len());
    });
    group.finish();
    // For the whole of this the bar is 2 s on two cores.
    let mut group = bench.benchmark_group("stills");
    group.sample_size(10);
    group.bench_function("1,000 of 1200 px, on every core", |bencher| {
        bencher.iter(|| {
            let bytes = (0..1_000_u32)
                .into_par_iter()
                .map(|step| to_png(&still(&motion, f64::from(step) * 0.5, &choice)).unwrap().len());
            bytes.sum::<usize>()
        });
    });
    group.finish();
}

/// A sheet, and a notebook of some 40 pages, for which the bar is 2 s.
fn handouts(bench: &mut Criterion) {
    let (dance, motion) = sample();
    let choice = SheetChoice::default();
    let mut group = bench.benchmark_group("handout");
    group.sample_size(10);
    let blank = vec![255_u8; 1654 * 2339 * 3];
    group.bench_function("yardstick: a blank PNG of a sheet's size with the default encoding", |bencher| {
        bencher.iter(|| {
            let mut bytes = Vec::new();
            let mut encoder = png::Encoder::new(&mut bytes, 1654, 2339);
            encoder.set_color(png::ColorType::Rgb);
            encoder.write_header().unwrap().write_image_data(&blank).unwrap();
            bytes.len()
        });
    });
    group.bench_function("a sheet laid out", |bencher| {
        bencher.iter(|| figure_sheet(&dance, black_box(&motion), SpanIndex(5), &choice).pages.len());
    });
    group.bench_function("a sheet's first page as PNG", |bencher| {
        bencher.iter(|| {
            page_to_png(&figure_sheet(&dance, black_box(&motion), SpanIndex(5), &choice).pages[0])
                .unwrap()
                .len()
        });
    });
    let dances = [(dance.clone(), motion.clone()), (dance.clone(), motion.clone())];
    assert!(notebook(&dances, &choice, &mut |_, _| true).pages.len() >= 40);
    group.bench_function("a notebook of 40 pages and more as PDF", |bencher| {
        bencher.iter(|| {
            let book = notebook(black_box(&dances), &choice, &mut |_, _| true);
            handout_to_pdf(&book).unwrap().len()
        });
    });
    group.finish();
}

/// The least space between any two bodies by looking at each 32nd of a count: what proof between samples is beside.
fn brute_force(motion: &Motion) -> f64 {
    let body = Body::of(&FaultLimits::default());
    let mut poses = Vec::new();
    let mut least = f64::INFINITY;
    for step in 0..=(motion.counts() * 32.0) as u32 {
        motion.pose_all(f64::from(step) / 32.0, &mut poses);
        for (index, one) in poses.iter().enumerate() {
            for other in &poses[index + 1..] {
                let d = (other.x - one.x, other.y - one.y);
                least = least.min(body.space(d, one.facing, other.facing).0);
            }
        }
    }
    least
}

/// A dance of one named figure for so many.
fn crowd(dancers: u32) -> (Dance, Motion) {
    let mut dance = Dance::new("", Set::longways(dancers, 2.4, 1.8));
    dance.figures.push(named_figure("cross-and-turn", Extra::new(), &dance.set).unwrap());
    let motion = motion_of(&dance, None).unwrap();
    (dance, motion)
}

fn faults(bench: &mut Criterion) {
    let (mut dance, _) = sample();
    dance.order.pop();
    let motion = motion_of(&dance, None).unwrap();
    assert_eq!((motion.bars(), motion.dancers()), (128, 6));
    let mut group = bench.benchmark_group("faults");
    group.sample_size(20);
    group.bench_function("yardstick: bodies of six, 128 bars, by brute force at each 32nd", |bencher| {
        bencher.iter(|| brute_force(black_box(&motion)));
    });
    group.bench_function("every fault of six, 128 bars", |bencher| {
        bencher.iter(|| find_faults(&dance, black_box(&motion)).len());
    });
    // Bodies on one another: the bars are 5 ms and 100 ms.
    for along in [0.5, 0.3, 0.1] {
        let (mut close, _) = sample();
        close.set.along = along;
        let motion = motion_of(&close, None).unwrap();
        group.bench_function(format!("every fault of the sample at along {along} m"), |bencher| {
            bencher.iter(|| find_faults(&close, black_box(&motion)).len());
        });
    }
    let spot = read(include_bytes!("../tests/crowds/four-hundred-on-the-spot.dance.json")).unwrap();
    let heaped = motion_of(&spot, None).unwrap();
    group.bench_function("every fault of 400 on one spot", |bencher| {
        bencher.iter(|| find_faults(&spot, black_box(&heaped)).len());
    });
    let mut hey = Dance::new("", Set::longways(6, 2.4, 1.8));
    let with = Extra::from_iter([("timing".to_owned(), "even".into())]);
    hey.figures.push(named_figure("hey", with, &hey.set).unwrap());
    let met = motion_of(&hey, None).unwrap();
    let fault = find_faults(&hey, &met).remove(0);
    let (nine, whole) = sample();
    let danced = whole.spans().iter().position(|span| nine.figures[span.figure].name == "Hey");
    group.bench_function("what to watch for in the hey of six, 8 bars", |bencher| {
        bencher.iter(|| ToWatch::of_span(&nine, &whole, SpanIndex(danced.unwrap()), &mut || true));
    });
    group.bench_function("what to watch for in the sample, 136 bars", |bencher| {
        bencher.iter(|| watch_dance(&nine, &whole, &mut || true));
    });
    group.bench_function("room made for ends that meet in a hey", |bencher| {
        bencher.iter(|| make_room(&hey, black_box(&met), &fault).unwrap().moved);
    });
    for dancers in [26, 50, 100, 200, 400] {
        let (dance, motion) = crowd(dancers);
        group.bench_function(format!("every fault of {dancers}, 8 bars"), |bencher| {
            bencher.iter(|| find_faults(&dance, black_box(&motion)).len());
        });
    }
    group.finish();
}

/// `bellpad check` on a thousand files, beside reading them as plain JSON.
fn files(bench: &mut Criterion) {
    let folder = tempfile::tempdir().unwrap();
    let samples = ["nine-geese-home", "low-water", "kettle-bridge", "thimble-row", "ferrymans-candle"];
    let paths: Vec<std::path::PathBuf> = (0..1000)
        .map(|index| {
            let name = samples[index % samples.len()];
            let from = format!("{}/dances/{name}.dance.json", env!("CARGO_MANIFEST_DIR"));
            let path = folder.path().join(format!("{index}.dance.json"));
            std::fs::copy(from, &path).unwrap();
            path
        })
        .collect();
    let mut group = bench.benchmark_group("files");
    group.sample_size(10);
    group.bench_function("yardstick: 1,000 files read as JSON on one core", |bencher| {
        bencher.iter(|| {
            let values = paths.iter().map(|path| {
                serde_json::from_slice::<serde_json::Value>(&std::fs::read(path).unwrap()).unwrap()
            });
            values.filter(|value| value["title"].is_string()).count()
        });
    });
    group.bench_function("bellpad check of 1,000 files", |bencher| {
        bencher.iter(|| {
            let mut check = std::process::Command::new(env!("CARGO_BIN_EXE_bellpad"));
            let done = check.arg("check").arg("--json").args(&paths).output().unwrap();
            assert!(done.status.success());
            done.stdout.len()
        });
    });
    group.finish();
}

/// What shows a window once, without a screen: update and tessellate.
fn frames() -> impl FnMut(&mut Window) -> usize {
    let ctx = egui::Context::default();
    let mut time = 0.0;
    move |window: &mut Window| {
        time += 1.0 / 60.0;
        let rect = egui::Rect::from_min_size(egui::Pos2::ZERO, egui::vec2(1280.0, 800.0));
        let input = egui::RawInput { screen_rect: Some(rect), time: Some(time), ..egui::RawInput::default() };
        let mut output = ctx.run_ui(input, |ui| window.show(ui));
        let shapes = std::mem::take(&mut output.shapes);
        output.textures_delta.clear();
        let pixels = output.pixels_per_point;
        ctx.tessellate(shapes, pixels).len()
    }
}

/// One step of a drag with its mates, all faults and the frame that shows it: twelve dancers, 64 bars.
fn drags(bench: &mut Criterion) {
    let mut dance = Dance::new("", Set::longways(12, 2.4, 1.8));
    for name in ["cross-and-turn", "into-line", "back-to-back", "foot-up-and-down"] {
        let figure = named_figure(name, Extra::new(), &dance.set).unwrap();
        dance.order.extend([Entry::of(&figure.id), Entry::of(&figure.id)]);
        dance.figures.push(figure);
    }
    let mut window = Window::new(Desk::new(dance, None, Recent::default()).unwrap(), false);
    assert_eq!((window.desk.motion().bars(), window.desk.motion().dancers()), (64, 12));
    let mut frame = frames();
    let mut group = bench.benchmark_group("drag");
    group.sample_size(20);
    window.desk.apply(Ask::Play(PlayAsk::Seek(4.0)));
    for _ in 0..60 {
        frame(&mut window);
    }
    group.bench_function("yardstick: a frame of twelve with trails", |bencher| {
        bencher.iter(|| frame(black_box(&mut window)));
    });
    window.desk.apply(Ask::Draw(DrawAsk::Together(Together::Mirror(Mirror::Across))));
    let mut x = 0.0;
    group.bench_function("a step of a drag of twelve, 64 bars, faults and frame", |bencher| {
        bencher.iter(|| {
            x = (x + 0.013) % 0.8;
            for ask in [
                Ask::Draw(DrawAsk::BeginDrag(Grip::Dancer(Dancer(4)))),
                Ask::Draw(DrawAsk::DragTo { x: -0.6 + x, y: 1.2, reach: 0.05 }),
            ] {
                window.desk.apply(ask);
            }
            frame(black_box(&mut window))
        });
    });
    group.finish();
}

/// A tune as notes on staves.
fn scores(bench: &mut Criterion) {
    let abc = sample().0.music.abc;
    let score = Score::read(&abc).unwrap();
    let mut group = bench.benchmark_group("score");
    group.bench_function("yardstick: a tune read", |bencher| {
        bencher.iter(|| Score::read(black_box(&abc)).unwrap().bars.len());
    });
    group.bench_function("a tune engraved for a page", |bencher| {
        bencher.iter(|| engrave(black_box(&score), 516.0, 4.4, PAPER.words).len());
    });
    group.finish();
}

/// The music of a dance of three minutes: as a WAV file, for which the bar is 0.5 s, and as it is played, for which it is three
/// hundredths of a core: 30 ms for each second that is heard.
fn sounds(bench: &mut Criterion) {
    let (dance, motion) = sample();
    let music = MusicOf::whole(&dance, &motion);
    assert!((150.0..210.0).contains(&music.seconds()), "{} s are not three minutes", music.seconds());
    let mut group = bench.benchmark_group("sound");
    group.sample_size(20);
    let samples = (music.seconds() * f64::from(SAMPLE_RATE)) as u32;
    group.bench_function("yardstick: one bare sine of three minutes, as samples of hound", |bencher| {
        bencher.iter(|| {
            let (channels, sample_rate, bits_per_sample) = (1, SAMPLE_RATE, 16);
            let sample_format = hound::SampleFormat::Int;
            let spec = hound::WavSpec { channels, sample_rate, bits_per_sample, sample_format };
            let mut bytes = Cursor::new(Vec::new());
            let mut writer = hound::WavWriter::new(&mut bytes, spec).unwrap();
            for sample in 0..samples {
                let swing = (f64::from(black_box(sample)) * 0.06).sin();
                writer.write_sample((swing * 32_767.0) as i16).unwrap();
            }
            writer.finalize().unwrap();
            bytes.into_inner().len()
        });
    });
    let levels = Levels { tune: 1.0, click: 1.0, taps: 1.0 };
    group.bench_function("three minutes as WAV", |bencher| {
        bencher.iter(|| wav(black_box(&music), levels, 1.0).unwrap().len());
    });
    // As a loudspeaker asks for it: a hundredth of a second at a time, round and round without end.
    let mut band = Band::new(LIVE_RATE, levels);
    band.play(Performance {
        sounds: music.sounds().into(),
        clock: music.clock().clone(),
        from: 0.0,
        end: motion.counts(),
        round: Some((0.0, motion.counts())),
        speed: 1.0,
        counted_in: 0,
    });
    let mut piece = vec![0.0; LIVE_RATE as usize / 100];
    group.bench_function("a second of tune and click, as it is played", |bencher| {
        bencher.iter(|| {
            for _ in 0..100 {
                band.fill(black_box(&mut piece));
            }
            piece.len()
        });
    });
    group.finish();
}

/// A frame of the window without a screen, with a playhead in the hey.
fn windows(bench: &mut Criterion) {
    let (dance, motion) = sample();
    let hey = 5.0 * 32.0;
    let other = drag_dancer(&dance, &motion, Dancer(2), hey + 6.0, -0.4, 0.3).unwrap();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("other.dance.json");
    bellpad::store::save(&path, &other).unwrap();
    let mut group = bench.benchmark_group("window");
    for (name, asks) in [
        ("yardstick: one chosen, with trails", vec![]),
        ("and beats of the chosen", vec![Ask::View(ViewAsk::ToggleBeats)]),
        ("and another version beside it", vec![Ask::Compare(CompareAsk::With(path))]),
        ("nobody chosen, with trails", vec![Ask::View(ViewAsk::Choose(None))]),
        (
            "nobody chosen, and beats of all six",
            vec![Ask::View(ViewAsk::Choose(None)), Ask::View(ViewAsk::ToggleBeats)],
        ),
    ] {
        let mut window = Window::new(Desk::with_sample(Recent::default()), false);
        for ask in [Ask::Play(PlayAsk::Seek(hey + 9.0))].into_iter().chain(asks) {
            window.desk.apply(ask);
        }
        let mut frame = frames();
        for _ in 0..60 {
            frame(&mut window);
        }
        group.bench_function(name, |bencher| bencher.iter(|| frame(black_box(&mut window))));
    }
    let mut silent = dance.clone();
    silent.music.abc.clear();
    let mut window = Window::new(Desk::new(silent, None, Recent::default()).unwrap(), false);
    window.desk.apply(Ask::Play(PlayAsk::Seek(hey + 9.0)));
    let mut frame = frames();
    for _ in 0..60 {
        frame(&mut window);
    }
    group.bench_function("and no tune", |bencher| bencher.iter(|| frame(black_box(&mut window))));
    group.finish();
}

fn compares(bench: &mut Criterion) {
    let (dance, motion) = sample();
    let hey = 5.0 * 32.0;
    let other = drag_dancer(&dance, &motion, Dancer(2), hey + 6.0, -0.4, 0.3).unwrap();
    let (motion, there) = (Arc::new(motion), Arc::new(motion_of(&other, None).unwrap()));
    let first = compare((&dance, &motion), (&other, &there), None);
    let mut group = bench.benchmark_group("compare");
    let drag = |x: f64| {
        let edited = drag_dancer(&dance, &motion, Dancer(2), hey + 6.0, x, 1.2).unwrap();
        let moved = Arc::new(motion_of(&edited, Some(&motion)).unwrap());
        (edited, moved)
    };
    group.bench_function("yardstick: recompile after one drag step", |bencher| {
        let mut x = 0.0;
        bencher.iter(|| {
            x = (x + 0.013) % 1.0;
            drag(x - 1.0).1.bars()
        });
    });
    group.bench_function("six, 136 bars, from nothing", |bencher| {
        bencher.iter(|| compare((&dance, &motion), (&other, &there), None).many());
    });
    let (edited, moved) = drag(-0.5);
    group.bench_function("six, 136 bars, after one drag step", |bencher| {
        bencher.iter(|| compare((&edited, &moved), (&other, &there), Some(black_box(&first))).many());
    });
    group.finish();
}

criterion_group!(
    benches, poses, heys, faults, files, stills, handouts, scores, sounds, windows, drags, compares
);
criterion_main!(benches);
