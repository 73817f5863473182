//! The verbs, as scripts and other programs use them.
//!
//! Sources: [MB1] C. J. Sharp and H. C. `MacIlwaine`, The Morris Book, Part I, Novello, 1907; [CP] common
//! practice, no source.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{Dance, Dancer, read};
use bellpad::figures::{find, motion_of, motion_of_figure};
use bellpad::motion::Motion;
use bellpad::picture::{Colour, SLATE, still_frame};
use common::{assert_refused, bellpad, contents, done, sample, text};
use resvg::{tiny_skia, usvg};
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

fn poses(arguments: &[&str]) -> Value {
    let printed = done(["pose"].iter().chain(arguments));
    serde_json::from_str(&printed).expect("pose prints JSON")
}

fn saved(folder: &TempDir, dance: &Value) -> PathBuf {
    let path = folder.path().join("made.dance.json");
    fs::write(&path, dance.to_string()).unwrap();
    path
}

fn dance_of(path: &Path) -> Dance {
    read(&fs::read(path).unwrap()).unwrap()
}

fn new_dance(folder: &TempDir, arguments: &[&str]) -> PathBuf {
    let path = folder.path().join("new.dance.json");
    done(["new", text(&path)].iter().chain(arguments));
    path
}

/// Four dancers who stand still for eight bars, well apart.
fn standing() -> Value {
    json!({
        "bellpad": 1,
        "title": "Standing",
        "set": {"kind": "longways", "dancers": 4, "across": 3.0, "along": 2.0},
        "figures": [{"id": "stand", "name": "Stand", "bars": 8}]
    })
}

/// The same, but 3 goes a metre out to the left and stays there.
fn straying() -> Value {
    let mut dance = standing();
    let leg = json!({"begin": 0, "end": 4, "to": {"x": -2.5, "y": -1.0}});
    dance["figures"][0]["parts"] = json!([{"place": 3, "legs": [leg]}]);
    dance
}

// pose

#[test]
fn pose_prints_the_shape_that_is_promised() {
    let file = sample("nine-geese-home");
    let printed = poses(&[text(&file), "--at", "9:1"]);
    assert_eq!(printed["bars"], 136);
    assert_eq!(printed["counts_per_bar"], 4);
    let list = printed["poses"].as_array().unwrap();
    assert_eq!(list.len(), 1);
    assert_eq!((&list[0]["bar"], list[0]["count"].as_f64()), (&json!(9), Some(1.0)));
    let dancers = list[0]["dancers"].as_array().unwrap();
    assert_eq!(dancers.len(), 6);
    for (index, dancer) in dancers.iter().enumerate() {
        let keys: Vec<&str> = dancer.as_object().unwrap().keys().map(String::as_str).collect();
        assert_eq!(keys[..7], ["number", "x", "y", "facing", "weight", "step", "hands"]);
        assert_eq!(dancer["number"], index + 1);
        assert_eq!(dancer["step"], "ds", "a double step begins there");
    }
    // [MB1]: odds on the left as you face up, 1 and 2 at the top, partners facing; 2.4 m across and 1.8 m from
    // rank to rank are the dance's own.
    let stands: Vec<(f64, f64, f64)> = poses(&[text(&file), "--at", "1:1"])["poses"][0]["dancers"]
        .as_array()
        .unwrap()
        .iter()
        .map(|dancer| ["x", "y", "facing"].map(|key| dancer[key].as_f64().unwrap()).into())
        .collect();
    let front =
        [(-1.2, 1.8, 90.0), (1.2, 1.8, 270.0), (-1.2, 0.0, 90.0), (1.2, 0.0, 270.0), (-1.2, -1.8, 90.0)];
    assert_eq!(stands[..5], front);
    assert_eq!(stands[5], (1.2, -1.8, 270.0));
}

/// The same bytes every time, and the same pose whichever way it is asked for.
#[test]
fn pose_is_the_same_every_time() {
    let file = sample("low-water");
    let every = ["pose", text(&file), "--every", "0.75"];
    assert_eq!(done(every), done(every));
    for pose in poses(&[text(&file), "--every", "0.75"])["poses"].as_array().unwrap().iter().step_by(7) {
        let at = format!("{}:{}", pose["bar"], pose["count"]);
        assert_eq!(&poses(&[text(&file), "--at", &at])["poses"][0], pose, "at {at}");
    }
}

#[test]
fn every_goes_from_the_start_to_the_end() {
    let folder = tempfile::tempdir().unwrap();
    let file = new_dance(&folder, &["--figure", "cross-and-turn"]);
    let moments = |every: &str| -> Vec<(u64, f64)> {
        let printed = poses(&[text(&file), "--every", every]);
        assert_eq!(printed["bars"], 8);
        let list = printed["poses"].as_array().unwrap();
        list.iter().map(|pose| (pose["bar"].as_u64().unwrap(), pose["count"].as_f64().unwrap())).collect()
    };
    let halves: Vec<(u64, f64)> =
        (0..=64_u32).map(|half| (u64::from(half) / 8 + 1, f64::from(half % 8) / 2.0 + 1.0)).collect();
    assert_eq!(moments("0.5"), halves);
    assert_eq!(moments("0.5").last(), Some(&(9, 1.0)));
    // Where the end is not a whole number of steps away it still comes last, once.
    let thirds = moments("3");
    assert_eq!(thirds.len(), 12);
    assert_eq!(thirds[10..], [(8, 3.0), (9, 1.0)]);
    assert_eq!(moments("32"), [(1, 1.0), (9, 1.0)]);
    assert_eq!(moments("1000"), [(1, 1.0), (9, 1.0)]);
    for every in ["0.1", "0.3333333333", "0.7"] {
        let list = moments(every);
        assert_eq!(list.last(), Some(&(9, 1.0)));
        assert!(
            list.iter().all(|(bar, count)| (1..=9).contains(bar) && (1.0..5.0).contains(count)),
            "{every}"
        );
        assert!(list.windows(2).all(|pair| pair[0] < pair[1]), "each is after the one before");
    }
}

#[test]
fn poses_are_within_what_is_promised() {
    for file in common::samples() {
        let mut weights = BTreeSet::new();
        let printed = poses(&[text(&file), "--every", "0.125"]);
        for pose in printed["poses"].as_array().unwrap() {
            for dancer in pose["dancers"].as_array().unwrap() {
                let facing = dancer["facing"].as_f64().unwrap();
                assert!((0.0..360.0).contains(&facing), "{dancer}");
                assert!((0.0..=1.0).contains(&dancer["hands"].as_f64().unwrap()), "{dancer}");
                assert!(
                    dancer["x"].as_f64().unwrap().abs() < 10.0 && dancer["y"].as_f64().unwrap().abs() < 10.0
                );
                weights.insert(dancer["weight"].as_str().unwrap().to_owned());
            }
        }
        let words = ["air", "both", "left", "right"];
        assert_eq!(weights.iter().map(String::as_str).collect::<Vec<_>>(), words, "{}", file.display());
    }
}

/// Exactly on a count the weight is on the foot that lands on it. Begun on the left, [MB1]'s 4/3 step is L R L L
/// and then R L R R, and its 4/2 step L L, R R; the jump is in the air and then on both feet [CP].
#[test]
fn the_weight_on_a_count_is_the_foot_that_lands() {
    let folder = tempfile::tempdir().unwrap();
    let file = new_dance(&folder, &["--figure", "cross-and-turn"]);
    let feet: String = poses(&[text(&file), "--every", "1"])["poses"]
        .as_array()
        .unwrap()
        .iter()
        .take(16)
        .map(|pose| match pose["dancers"][0]["weight"].as_str().unwrap() {
            "left" => 'L',
            "right" => 'R',
            "both" => 'B',
            _ => '-',
        })
        .collect();
    // Together, up, down on the third count and the hop that starts the second half right (common practice, no source).
    assert_eq!(feet, "LRLLRLRRLLRRB-BL");
}

#[test]
fn a_figure_is_found_by_id_or_name_in_any_case() {
    let file = sample("nine-geese-home");
    let file = text(&file);
    let by_id = poses(&[file, "--figure", "lanterns", "--every", "0.5"]);
    assert_eq!(by_id["bars"], 8, "the bars are the figure's own");
    for name in ["LANTERNS", "Chorus: lanterns", "chorus: LANTERNS"] {
        assert_eq!(poses(&[file, "--figure", name, "--every", "0.5"]), by_id, "{name}");
    }
    // In the dance it comes after two figures of eight bars that leave everyone at home.
    let whole = poses(&[file, "--at", "19:3"]);
    let alone = poses(&[file, "--figure", "lanterns", "--at", "3:3"]);
    assert_eq!(whole["poses"][0]["dancers"], alone["poses"][0]["dancers"]);
    assert_eq!((&whole["bars"], &whole["poses"][0]["bar"]), (&json!(136), &json!(19)));
    assert_refused(&bellpad(["pose", file, "--figure", "lanterns", "--at", "10:1"]), &["8 bars", "9:1"]);
}

/// A figure whose id is another one's name: the id comes first.
#[test]
fn an_id_goes_before_a_name() {
    let folder = tempfile::tempdir().unwrap();
    let mut dance = standing();
    dance["figures"] = json!([{"id": "a", "name": "b", "bars": 4}, {"id": "b", "name": "a", "bars": 12}]);
    let file = saved(&folder, &dance);
    assert_eq!(poses(&[text(&file), "--figure", "B", "--at", "1:1"])["bars"], 12);
    assert_eq!(poses(&[text(&file), "--figure", "A", "--at", "1:1"])["bars"], 4);
}

// new

#[test]
fn new_writes_a_dance_of_the_figures_in_their_order() {
    let folder = tempfile::tempdir().unwrap();
    let path = new_dance(
        &folder,
        &[
            "--title",
            "Heron's Gate",
            "--dancers",
            "6",
            "--across",
            "2.8",
            "--along",
            "2",
            "--figure",
            "hey:inside=0.4",
            "--figure",
            "cross-and-turn",
            "--figure",
            "hey",
            "--figure",
            "Hey:inside=0.4,outside=0.5",
            "--figure",
            "cross-and-turn",
        ],
    );
    let dance = dance_of(&path);
    assert_eq!(dance.title, "Heron's Gate");
    assert_eq!((dance.set.dancers, dance.set.across, dance.set.along), (6, 2.8, 2.0));
    let names: Vec<&str> = dance
        .danced()
        .iter()
        .map(|&index| dance.figures[index].named.as_ref().unwrap().figure.as_str())
        .collect();
    assert_eq!(names, ["hey", "cross-and-turn", "hey", "hey", "cross-and-turn"]);
    assert_eq!(dance.figures.len(), 4, "the same figure with the same choices is written once");
    let ids: Vec<&str> = dance.figures.iter().map(|figure| figure.id.as_str()).collect();
    assert_eq!(ids, ["hey", "cross-and-turn", "hey-2", "hey-3"]);
    assert_eq!(dance.figures[0].named.as_ref().unwrap().with["inside"], 0.4);
    assert_eq!(dance.figures[3].named.as_ref().unwrap().with["outside"], 0.5);
    assert_eq!(dance.bars(), 40);
    assert_eq!(contents(folder.path()).len(), 1, "no other file is left behind");
}

/// Every figure of the shelf can be asked for by its name.
#[test]
fn every_named_figure_can_be_made() {
    for figure in bellpad::figures::all() {
        let folder = tempfile::tempdir().unwrap();
        let path = new_dance(&folder, &["--dancers", "6", "--figure", &figure.name.to_uppercase()]);
        let dance = dance_of(&path);
        assert_eq!(dance.figures[0].name, find(figure.name).unwrap().title);
        // The trade's bars: eight, four for the half hey [MB1], four for each of three pairs there and back, eight for a solo.
        let bars = match figure.name {
            "half-hey" => 4,
            "corners" => 24,
            "solos" => 48,
            _ => 8,
        };
        assert_eq!(motion_of(&dance, None).unwrap().bars(), bars, "{}", figure.name);
    }
}

#[test]
fn new_without_anything_is_an_empty_dance_for_six() {
    let folder = tempfile::tempdir().unwrap();
    let dance = dance_of(&new_dance(&folder, &[]));
    assert_eq!((dance.set.dancers, dance.set.across, dance.set.along), (6, 2.4, 1.8));
    assert!(dance.figures.is_empty() && dance.order.is_empty());
}

#[test]
fn new_keeps_the_file_that_was_there() {
    let folder = tempfile::tempdir().unwrap();
    let path = new_dance(&folder, &["--title", "First"]);
    let first = fs::read(&path).unwrap();
    let ran = bellpad(["new", text(&path), "--title", "Second"]);
    assert_eq!(ran.code, Some(0), "{ran:?}");
    assert_eq!(ran.out, "");
    assert!(ran.err.contains("new.dance.json.old"), "{ran:?}");
    assert_eq!(dance_of(&path).title, "Second");
    assert_eq!(fs::read(folder.path().join("new.dance.json.old")).unwrap(), first);
}

// check

#[test]
fn check_says_that_a_dance_is_clear() {
    let folder = tempfile::tempdir().unwrap();
    let file = saved(&folder, &standing());
    let said = done(["check", text(&file)]);
    let lines: Vec<&str> = said.lines().collect();
    assert_eq!(lines[0], format!("{}: clear", file.display()));
    // Six on their spots, 2.4 m across and 1.8 m from rank to rank unless the dance says else, with 0.8 m of arms all
    // round (common practice, no source).
    assert!(lines[1].starts_with(&format!("{}: needs a clear floor of ", file.display())), "{said}");
    assert!(lines[2].starts_with("Keep clear floor beyond the reach of arms"), "{said}");
    let list: Value = serde_json::from_str(&done(["check", "--json", text(&file)])).unwrap();
    assert_eq!(list, json!([]));
}

#[test]
fn check_finds_a_dancer_who_is_not_home() {
    let folder = tempfile::tempdir().unwrap();
    let file = saved(&folder, &straying());
    let ran = bellpad(["check", "--json", text(&file)]);
    assert_eq!((ran.code, ran.err.as_str()), (Some(1), ""), "{ran:?}");
    let list: Value = serde_json::from_str(&ran.out).unwrap();
    let strays: Vec<&Value> =
        list.as_array().unwrap().iter().filter(|fault| fault["kind"] == "not-home").collect();
    assert_eq!(strays.len(), 1, "{list}");
    let fault = strays[0].as_object().unwrap();
    let keys: Vec<&str> = fault.keys().map(String::as_str).collect();
    assert_eq!(keys[..7], ["kind", "bar", "count", "dancers", "value", "limit", "text"]);
    // They end at the end of bar 8, which is the start of bar 9.
    assert_eq!((&fault["bar"], fault["count"].as_f64()), (&json!(9), Some(1.0)));
    assert_eq!(fault["dancers"], json!([3]));
    assert!((fault["value"].as_f64().unwrap() - 1.0).abs() < 1e-6, "{list}");
    assert!(fault["limit"].as_f64().unwrap() < 1.0);
    assert!(fault["text"].as_str().unwrap().contains("1.00 m from their spot"), "{list}");

    let ran = bellpad(["check", text(&file)]);
    assert_eq!(ran.code, Some(1));
    assert!(
        ran.out.contains(&format!(
            "{}: not-home at 9:1: At the end of Stand: 3 ends the figure",
            file.display()
        )),
        "{ran:?}"
    );
}

#[test]
fn check_takes_many_files_and_says_which() {
    let (one, other) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let (clear, stray) = (saved(&one, &standing()), saved(&other, &straying()));
    let ran = bellpad(["check", "--json", text(&clear), text(&stray)]);
    assert_eq!(ran.code, Some(1));
    let list: Value = serde_json::from_str(&ran.out).unwrap();
    let faults = list.as_array().unwrap();
    assert!(!faults.is_empty() && faults.iter().all(|fault| fault["file"] == text(&stray)), "{list}");
    let ran = bellpad(["check", text(&clear), text(&stray)]);
    assert!(ran.out.contains(&format!("{}: clear", clear.display())), "{ran:?}");
    assert_eq!(bellpad(["check", text(&clear), text(&clear)]).code, Some(0));
}

// still

fn drawn(arguments: &[&str], out: &Path) {
    assert_eq!(done(["still"].iter().chain(arguments).chain(&["-o", text(out)])), "");
}

/// Each dancer's hue is on both shoulders, 0.18 m to their left and right, where `pose` says they are.
#[track_caller]
fn assert_shoulders(picture: &image::RgbImage, printed: &Value, motion: &Motion, at: &str) {
    let frame = still_frame(motion, picture.width());
    for dancer in printed["poses"][0]["dancers"].as_array().unwrap() {
        let [x, y, facing] = ["x", "y", "facing"].map(|key| dancer[key].as_f64().unwrap());
        let Colour(red, green, blue, _) =
            if dancer["number"].as_u64().unwrap() % 2 == 0 { SLATE.even } else { SLATE.odd };
        // Facing up, a dancer's right is the picture's right; it goes round with them.
        let right = (facing.to_radians().cos(), -facing.to_radians().sin());
        for side in [-0.18, 0.18] {
            let [across, down] = frame.to_picture(x + side * right.0, y + side * right.1);
            let pixel = picture.get_pixel(across as u32, down as u32).0;
            assert_eq!(pixel, [red, green, blue], "{at}: shoulder at {side} m of {dancer}");
        }
    }
}

#[test]
fn stills_show_every_dancer_where_pose_says() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("out.png");
    for (name, moments) in [
        ("nine-geese-home", &["1:1", "11:2.5", "17:4.25", "19:3.3", "34:2", "43:1.75", "60:4.9", "65:1"][..]),
        ("low-water", &["1:1", "10:3.6", "18:2.2"]),
    ] {
        let file = sample(name);
        let motion = motion_of(&dance_of(&file), None).unwrap();
        for at in moments {
            drawn(&[text(&file), "--at", at], &out);
            let picture = image::open(&out).unwrap();
            assert_eq!((picture.width(), picture.height()), (1200, 1200), "the usual size");
            assert_shoulders(&picture.to_rgb8(), &poses(&[text(&file), "--at", at]), &motion, at);
        }
    }
}

#[test]
fn stills_of_a_figure_and_of_another_size_do_too() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("out.PNG");
    let file = sample("nine-geese-home");
    let dance = dance_of(&file);
    let motion = motion_of_figure(&dance, dance.find_figure("hey").unwrap()).unwrap();
    for size in ["800", "1999"] {
        drawn(&[text(&file), "--figure", "Hey", "--at", "3:2.5", "--size", size], &out);
        let picture =
            image::load_from_memory_with_format(&fs::read(&out).unwrap(), image::ImageFormat::Png).unwrap();
        assert_eq!(picture.width().to_string(), size);
        assert_eq!(picture.height().to_string(), size);
        let printed = poses(&[text(&file), "--figure", "hey", "--at", "3:2.5"]);
        assert_shoulders(&picture.to_rgb8(), &printed, &motion, "3:2.5");
    }
}

/// A still lies over another of the same dance: the floor stays where it is while the dancers move.
#[test]
fn stills_of_two_counts_share_their_corners() {
    let folder = tempfile::tempdir().unwrap();
    let file = sample("low-water");
    let still = |at: &str| {
        let out = folder.path().join("out.png");
        drawn(&[text(&file), "--at", at, "--size", "600"], &out);
        image::open(&out).unwrap().to_rgb8()
    };
    let (one, other) = (still("10:1"), still("11:3"));
    assert_ne!(one, other);
    let Colour(red, green, blue, _) = SLATE.floor;
    for (x, y) in [(0, 0), (599, 0), (0, 599), (599, 599), (2, 300)] {
        assert_eq!(one.get_pixel(x, y), other.get_pixel(x, y));
        assert_eq!(one.get_pixel(x, y).0, [red, green, blue], "the floor is slate");
    }
}

fn rendered(svg: &[u8]) -> tiny_skia::Pixmap {
    let tree = usvg::Tree::from_data(svg, &usvg::Options::default()).expect("the SVG is well formed");
    let size = tree.size().to_int_size();
    let mut pixels = tiny_skia::Pixmap::new(size.width(), size.height()).unwrap();
    resvg::render(&tree, tiny_skia::Transform::identity(), &mut pixels.as_mut());
    pixels
}

/// The SVG and the PNG of a count are the same picture, whatever the title holds.
#[test]
fn an_svg_is_well_formed_and_the_same_picture() {
    let folder = tempfile::tempdir().unwrap();
    let (svg, png) = (folder.path().join("out.svg"), folder.path().join("out.png"));
    let mut dance = straying();
    dance["title"] = json!("<Geese> & \"Herons\" \u{7}\u{1b}]]> é 鵝");
    let file = saved(&folder, &dance);
    for trails in [&[][..], &["--trails"]] {
        let arguments = [&[text(&file), "--at", "1:3", "--size", "700"], trails].concat();
        drawn(&arguments, &svg);
        drawn(&arguments, &png);
        let bytes = fs::read(&svg).unwrap();
        let pixels = rendered(&bytes);
        let picture = image::open(&png).unwrap().to_rgba8();
        assert_eq!((pixels.width(), pixels.height()), (700, 700));
        common::assert_alike(pixels.data(), picture.as_raw());
        drawn(&arguments, &svg);
        assert!(fs::read(&svg).unwrap() == bytes, "the same every time");
        let words = String::from_utf8(bytes).unwrap();
        assert!(words.contains("<title>&lt;Geese&gt; &amp; "), "the title is there for those who cannot see");
        assert!(!words.contains("<image") && !words.contains("href"), "nothing outside the file is needed");
    }
}

/// Once in so many counts, numbered from the start to the end, each the same picture as a still of its moment.
#[test]
fn stills_of_a_whole_figure_are_numbered() {
    let folder = tempfile::tempdir().unwrap();
    let (all, one) = (folder.path().join("hey.png"), folder.path().join("one.png"));
    let file = sample("nine-geese-home");
    drawn(&[text(&file), "--figure", "hey", "--every", "4", "--size", "64"], &all);
    // Eight bars have nine ends; counting begins at 1.
    let names: Vec<String> = (1..=9).map(|number| format!("hey-{number}.png")).collect();
    let written: Vec<String> = contents(folder.path()).into_iter().map(|(name, _)| name).collect();
    assert_eq!(written, names);
    for (name, moment) in [("hey-1.png", "1:1"), ("hey-3.png", "3:1"), ("hey-9.png", "9:1")] {
        drawn(&[text(&file), "--figure", "hey", "--at", moment, "--size", "64"], &one);
        let [numbered, alone] = [&folder.path().join(name), &one].map(|path| image::open(path).unwrap());
        assert!(numbered == alone, "{name}");
    }
    for (wrong, said) in [
        (&["--every", "0"][..], "at least 0.001"),
        (&["--every", "0.001"], "20000 at most"),
        (&["--every", "4", "--at", "1:1"], "cannot be used with"),
        (&[], "--at"),
    ] {
        let run = [&["still", text(&file)], wrong, &["-o", text(&one)]].concat();
        assert_refused(&bellpad(run), &[said]);
    }
}

#[test]
fn trails_are_drawn_only_when_asked_for() {
    let folder = tempfile::tempdir().unwrap();
    let (plain, trailed) = (folder.path().join("plain.svg"), folder.path().join("trailed.svg"));
    let file = sample("nine-geese-home");
    drawn(&[text(&file), "--at", "19:1"], &plain);
    drawn(&[text(&file), "--at", "19:1", "--trails"], &trailed);
    let lines = |path: &Path| fs::read_to_string(path).unwrap().matches("<polyline").count();
    assert!(lines(&trailed) >= lines(&plain) + 6, "a line or more for each dancer");
}

#[test]
fn a_still_takes_the_place_of_the_picture_that_was_there() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("out.png");
    fs::write(&out, "an older picture").unwrap();
    drawn(&[text(&sample("low-water")), "--at", "1:1", "--size", "64"], &out);
    assert_eq!(image::open(&out).unwrap().width(), 64);
    assert_eq!(contents(folder.path()).len(), 1);
}

// The window

#[test]
fn without_a_display_the_verbs_are_named() {
    let file = sample("low-water");
    let why = if cfg!(feature = "window") { "display" } else { "this build has no window" };
    for arguments in [&[][..], &[text(&file)], &["missing.dance.json"]] {
        assert_refused(&bellpad(arguments), &[why, "new", "pose", "check", "still", "schema"]);
    }
}

/// A slip in a verb's name is told as such, with or without a display, and not that there is no display.
#[test]
fn a_verb_that_is_not_there_is_told_with_the_nearest() {
    for (word, meant) in [
        ("nosuchverb", "the verbs are new, pose, check"),
        ("chekc", "did you mean check? The verbs are new, pose"),
        ("SHEETS", "did you mean sheet?"),
        ("notebok", "did you mean notebook?"),
        ("x", "the verbs are"),
    ] {
        let said = format!("there is no verb or file called \"{word}\"");
        let ran = bellpad([word]);
        assert_refused(&ran, &[&said, meant]);
        assert!(!ran.err.contains("display"), "{ran:?}");
        // On a machine with a display no window is opened either: this one would not open, and say so.
        let mut program = common::program();
        let ran = program.env("DISPLAY", ":none").arg(word).output().unwrap().into();
        assert_refused(&ran, &[&said, meant]);
    }
    // Whatever comes after it.
    assert_refused(
        &bellpad(["chekc", "x.dance.json", "--json"]),
        &["called \"chekc\"", "did you mean check?"],
    );
    assert_refused(&bellpad(["help", "chekc"]), &["chekc"]);
    assert_refused(&bellpad(["pose", "x.dance.json"]), &["--at"]);
    // What is written as a file is, is taken for one.
    for file in ["missing.dance.json", "./missing", "folder/missing"] {
        assert_refused(&bellpad([file]), &[file, "there is no such file", "display", "pose"]);
    }
    // A file without an ending is a file.
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("chekc"), "{}").unwrap();
    let ran = common::program().current_dir(folder.path()).arg("chekc").output().unwrap().into();
    assert_refused(&ran, &["display"]);
}

#[test]
fn help_and_version_are_no_errors() {
    let help = done(["--help"]);
    for verb in ["new", "pose", "check", "still", "crib", "schema"] {
        assert!(help.lines().any(|line| line.trim_start().starts_with(verb)), "{verb} is not in {help}");
        assert!(done([verb, "--help"]).contains("Usage: bellpad"));
    }
    assert_eq!(done(["--version"]), format!("bellpad {}\n", env!("CARGO_PKG_VERSION")));
}

#[test]
fn options_that_no_verb_has_are_refused() {
    assert_refused(&bellpad(["--loud"]), &["--loud"]);
    assert_refused(&bellpad(["pose", "x.dance.json", "--at", "1:1", "--loud"]), &["--loud"]);
    assert_refused(&bellpad(["check"]), &["FILES"]);
}

/// What sides differ in can be chosen for any figure from the command line.
#[test]
fn leads_bars_and_phrases_can_be_chosen() {
    let folder = tempfile::tempdir().unwrap();
    let path = new_dance(&folder, &["--figure", "cross-and-turn:lead=right,bars=2,phrase=4 ds"]);
    let dance = dance_of(&path);
    assert_eq!(dance.figures[0].phrase, "4 ds");
    let motion = motion_of(&dance, None).unwrap();
    assert_eq!(motion.pose(Dancer(0), 0.0).weight.word(), "right");
    // [CALC]: a step travels 1 and the hop 0.7, but for the last, in which they come to stand; setting off and stopping take 0.75
    // of a count each, and lose half of that. So at the end of bar 1 they have gone 3.325 of 6.95, of a way past 0.35 m aside.
    let short = (0.5 - 3.325 / 6.95) * 2.0 * 1.2_f64.hypot(0.35);
    let half_way = motion.pose(Dancer(0), 4.0).x;
    assert!(
        (half_way + short).abs() < 0.002,
        "half-way across but {short} m at the end of bar 1: {half_way}"
    );
    assert!((motion.pose(Dancer(0), 8.0).x - 1.2).abs() < 1e-9);
    let folder = tempfile::tempdir().unwrap();
    let path = new_dance(&folder, &["--figure", "hey:phrase=2 ds+2 ss+ftj", "--figure", "hey"]);
    let dance = dance_of(&path);
    let ids: Vec<&str> = dance.figures.iter().map(|figure| figure.id.as_str()).collect();
    assert_eq!(ids, ["hey", "hey-2"]);
    let out = path.display().to_string();
    assert_refused(&bellpad(["new", &out, "--figure", "hey:phrase=3 xx"]), &["figures[0].phrase", "\"xx\""]);
}

/// The crib in three lengths, and without the people's names; who dances is told apart by numbers all the same.
#[test]
fn the_crib_can_be_short_and_without_names() {
    let file = sample("nine-geese-home");
    let file = text(&file);
    let words = |said: &str| said.split_whitespace().count();
    let line_up = |said: String| said.split_whitespace().collect::<Vec<_>>().join(" ");
    let full = done(["crib", file]);
    let (gist, bars) = (done(["crib", file, "--gist"]), done(["crib", file, "--bars"]));
    assert!(words(&gist) * 2 < words(&bars), "{} and {}", words(&gist), words(&bars));
    assert!(words(&gist) * 2 < words(&full), "{} and {}", words(&gist), words(&full));
    assert!(line_up(gist).contains(
        "Cross and turn, bars 25 to 32: Cross by the right, turn left; home by the left, turn right."
    ));
    // A line a bar, of at most twelve words, and one dancer's own.
    let own = done(["crib", file, "--bars", "--dancer", "3"]);
    let mut told = 0;
    for line in line_up(own).split(" bar ").skip(1) {
        let Some((bar, said)) = line.split_once(": ") else { continue };
        if bar.parse::<u32>().is_ok_and(|bar| (1..=8).contains(&bar)) {
            told += 1;
            assert!(!said.is_empty(), "{line}");
        }
    }
    assert!(told >= 8 * 9, "{told} bars");
    assert!(full.contains("Wren Aldous"));
    for level in [&[][..], &["--gist"], &["--bars"], &["--dancer", "3"], &["--bars", "--dancer", "3"]] {
        let without = done(["crib", file, "--no-names"].into_iter().chain(level.iter().copied()));
        assert!(!without.contains("Wren") && !without.contains("Aldous"), "{level:?}: {without}");
        assert!(words(&without) > 100, "{level:?}");
    }
    assert_refused(&bellpad(["crib", file, "--bars", "--gist"]), &["--gist"]);
    assert_refused(&bellpad(["crib", file, "--gist", "--dancer", "7"]), &["7"]);
}
