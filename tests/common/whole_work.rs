//! Everything that is done with a dance, from its file to what is handed out, each with what must hold of any dance at all.

use bellpad::dance::{Dance, Dancer, FaultKind, check_rules, read, write};
use bellpad::faults::{Faults, MOST_WATCHED, watch_dance};
use bellpad::figures::figure_name_at;
use bellpad::handout::page::{PageError, page};
use bellpad::handout::{
    Handout, Paper, SheetChoice, caption, dancer_page, diagram_times, figure_sheet, handout_to_pdf, notebook,
    page_to_svg, pocket_page, stepping, tapping, whole_sheet,
};
use bellpad::motion::limbs::Gait;
use bellpad::motion::{Clock, Motion, SpanIndex};
use bellpad::picture::{StillChoice, still, to_png, to_svg};
use bellpad::sound::{Levels, MusicOf, midi};
use bellpad::store;
use bellpad::words::{
    all_steps_told, calls_said, clauses, figure_told, gist, now, side_clauses, side_told, speeds_said,
    standing, steps_of, tap_now, taps_told, taps_written,
};
use roxmltree::Document;

/// A file that is read is written so that it is read the same, and once it is written it stays as it is.
pub fn keep(text: &str) -> Dance {
    let dance = read(text.as_bytes()).unwrap_or_else(|error| panic!("{error}\n{text}"));
    check_rules(&dance).unwrap();
    let written = write(&dance).unwrap();
    let again = read(written.as_bytes()).unwrap();
    assert!(again == dance, "it is read otherwise than it was written:\n{written}");
    assert_eq!(write(&again).unwrap(), written);
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("any.dance.json");
    store::save(&path, &dance).unwrap();
    assert!(store::open(&path).unwrap() == dance);
    assert_eq!(std::fs::read_to_string(&path).unwrap(), written);
    dance
}

/// Where everybody is at counts before, in and after a dance: real numbers, whoever and whenever.
pub fn stand(dance: &Dance, motion: &Motion, counts: &[f64]) {
    let clock = Clock::of_dance(dance, motion);
    let mut before = f64::NEG_INFINITY;
    let mut sorted = counts.to_vec();
    sorted.sort_by(f64::total_cmp);
    for count in &sorted {
        let seconds = clock.seconds(count.clamp(0.0, motion.counts()));
        assert!(seconds.is_finite() && seconds >= before, "{count}: {before} s and then {seconds} s");
        before = seconds;
    }
    for dancer in Dancer::all(motion.dancers()) {
        for &count in counts {
            let pose = motion.pose(dancer, count);
            let all = [pose.x, pose.y, pose.facing, pose.hands, pose.each_hand[0], pose.each_hand[1]];
            assert!(all.iter().all(|number| number.is_finite()), "{count}: {pose:?}");
            assert!((0.0..=1.0).contains(&pose.hands) && pose.x.abs().max(pose.y.abs()) < 1e6, "{pose:?}");
        }
    }
    let some = [0, motion.dancers() / 2, motion.dancers() - 1];
    for dancer in some.map(Dancer) {
        let gait = Gait::of(motion, &clock, dancer);
        for &count in counts {
            let limbs = gait.limbs(motion, &clock, count);
            let pairs = [limbs.hips, limbs.knees, limbs.feet, limbs.shoulders, limbs.elbows, limbs.hands];
            for point in pairs.iter().flatten().chain([&limbs.crown]) {
                let real = [point.x, point.y, point.z].iter().all(|number| number.is_finite());
                assert!(real, "dancer {dancer} at {count}: {limbs:?}");
            }
            assert!(limbs.lean.is_finite() && limbs.facing.is_finite(), "{limbs:?}");
            assert!(limbs.feet.iter().all(|foot| foot.z > -0.01 && foot.z < 2.5), "{count}: {limbs:?}");
        }
    }
}

/// A line that a person reads: something, and no number that is none.
#[track_caller]
fn line(said: &str, of: &str) {
    assert!(!said.trim().is_empty(), "{of} says nothing");
    no_numbers_that_are_none(said, of);
}

/// Numbers that are none do not stand in a text.
#[track_caller]
fn no_numbers_that_are_none(said: &str, of: &str) {
    for word in ["NaN", "inf ", "-inf", " inf.", "null"] {
        assert!(!said.contains(word), "{of}: {said}");
    }
}

/// What is wrong with a dance, and where it goes wrong first.
pub fn check(dance: &Dance, motion: &Motion) -> Faults {
    let faults = Faults::of(dance, motion);
    for fault in faults.iter() {
        line(&fault.text, "a fault");
        line(&fault.said, "a fault");
        let numbers = [fault.value, fault.limit, fault.count, fault.counts(), fault.lasts.0, fault.lasts.1];
        assert!(numbers.iter().all(|number| number.is_finite()), "{fault:?}");
        assert!(fault.spot.is_none_or(|(x, y)| x.is_finite() && y.is_finite()), "{fault:?}");
        assert!((-6.0..=motion.counts() + 6.0).contains(&fault.counts()), "{fault:?} of {}", motion.counts());
        assert!(fault.dancers.iter().all(|number| number.is_in(dance.set.dancers)), "{fault:?}");
        assert!(fault.kind == FaultKind::Music || fault.bar <= motion.bars() + 1, "{fault:?}");
    }
    if motion.dancers() <= MOST_WATCHED {
        for list in watch_dance(dance, motion, &mut || true).unwrap() {
            for one in &list.all {
                line(&one.text, "what to watch");
                assert!(one.at.is_finite() && one.slack.is_finite(), "{one:?}");
            }
            for dancer in Dancer::all(motion.dancers()) {
                list.words_for(dancer, 0.0).iter().for_each(|said| line(said, "what to watch"));
            }
        }
    }
    faults
}

/// What each does, in a line, in clauses and in sentences; steps, taps, captions and calls.
pub fn tell(dance: &Dance, motion: &Motion) {
    let clock = Clock::of_dance(dance, motion);
    for said in all_steps_told(motion) {
        line(&said, "a step");
    }
    let _ = calls_said(dance, motion).iter().flatten().map(|call| line(&call.words(), "a call")).count();
    for (index, span) in motion.indexed_spans() {
        line(&gist(dance, motion, index, None), "the gist of all");
        let (all, groups) = side_told(dance, motion, index);
        all.iter().for_each(|said| line(said, "all"));
        assert!(groups.iter().all(|group| !group.who.is_empty()));
        let who: usize = groups.iter().map(|group| group.who.len()).sum();
        assert_eq!(who, motion.dancers(), "everybody is told of once");
        assert!(side_clauses(dance, motion, index).iter().all(|group| !group.who.is_empty()));
        for dancer in Dancer::all(motion.dancers()) {
            line(&gist(dance, motion, index, Some(dancer)), "a gist");
            for (bar, said) in clauses(dance, motion, index, dancer) {
                assert!(bar < span.bars, "bar {bar} of {}: {said}", span.bars);
                line(&said, "a clause");
            }
            let told = figure_told(dance, motion, index, dancer);
            told.once.iter().for_each(|said| line(said, "once"));
            for said in &told.phrases {
                line(&said.text, "a sentence");
            }
            taps_told(motion, index, dancer).iter().for_each(|taps| line(&taps.line(), "the taps"));
        }
        for pair in diagram_times(span.bar_counts(), None).windows(2) {
            let caption = caption(dance, motion, span, (pair[0], pair[1]));
            no_numbers_that_are_none(&format!("{} {}", caption.when, caption.what), "a caption");
        }
    }
    for dancer in Dancer::all(motion.dancers()) {
        no_numbers_that_are_none(&standing(motion.ground(), dancer), "where they stand");
        steps_of(motion, dancer).iter().for_each(|said| line(said, "a step"));
        for count in [0.0, motion.counts() / 3.0, motion.counts()] {
            tap_now(motion, dancer, count)
                .iter()
                .for_each(|said| no_numbers_that_are_none(said, "what is tapped"));
        }
    }
    let _ = (clock, now);
    for figure in &dance.figures {
        let bars = dance.bar_counts(figure);
        no_numbers_that_are_none(&taps_written(&figure.strikes, &bars), "taps");
        speeds_said(&figure.speeds, &bars).iter().for_each(|said| line(said, "speeds"));
    }
}

/// A picture, parsed as strict XML: every number in it is one.
pub fn see_svg(svg: &str) {
    let document = Document::parse(svg).unwrap_or_else(|error| panic!("{error}\n{svg}"));
    for node in document.descendants().filter(roxmltree::Node::is_element) {
        for attribute in node.attributes() {
            if ["aria-label", "font-family", "class", "id"].contains(&attribute.name()) {
                continue;
            }
            let words = attribute.value().split(|letter: char| !letter.is_ascii_alphabetic());
            for word in words {
                assert!(!["NaN", "inf", "nan", "Infinity"].contains(&word), "{attribute:?}");
            }
        }
    }
}

/// What is made of a dance for paper and for a phone; `turn` says of which dancer and which figure, and what of it is drawn.
pub fn hand_out(dance: &Dance, motion: &Motion, turn: usize) {
    let counts = motion.counts();
    for count in [0.0, counts * 0.37, counts] {
        let choice = StillChoice {
            size: 240,
            trails: turn.is_multiple_of(2),
            holding: dance.holding,
            title: dance.title.clone(),
            figure: figure_name_at(dance, motion, count),
            ..StillChoice::default()
        };
        let picture = still(motion, count, &choice);
        see_svg(&to_svg(&picture));
        if count == 0.0 {
            assert!(to_png(&picture).unwrap().starts_with(b"\x89PNG"));
        }
    }
    match page(dance, motion) {
        Ok(page) => {
            let (_, rest) = page.split_once(r#"<script type="application/json" id="dance">"#).unwrap();
            let data = rest.split_once("</script>").unwrap().0;
            let data: serde_json::Value = serde_json::from_str(data).unwrap();
            assert_eq!(data["spans"].as_array().unwrap().len(), motion.spans().len());
        }
        Err(PageError::Empty) => assert!(motion.spans().is_empty()),
        Err(PageError::Large(_) | PageError::Steps(_)) => {}
    }
    let notes = midi(&MusicOf::whole(dance, motion), Levels::default(), 1.0).unwrap();
    assert!(notes.starts_with(b"MThd"));
    if motion.spans().is_empty() {
        return;
    }
    let (paper, choice) = (Paper::default(), SheetChoice::default());
    let (dancer, span) = (Dancer(turn % motion.dancers()), SpanIndex(turn % motion.spans().len()));
    let made: Handout = match turn % 7 {
        0 => figure_sheet(dance, motion, span, &choice),
        1 => whole_sheet(dance, motion, &choice),
        2 => dancer_page(dance, motion, None, dancer, &choice),
        3 => pocket_page(dance, motion, dancer, paper),
        4 => stepping(dance, motion, Some(dancer), paper),
        5 => notebook(&[(dance.clone(), motion.clone())], &choice, &mut |_, _| true),
        _ => match tapping(dance, motion, None, paper) {
            Some(made) => made,
            None => stepping(dance, motion, None, paper),
        },
    };
    assert!(!made.pages.is_empty());
    for page in made.pages.iter().take(3) {
        see_svg(&page_to_svg(page));
    }
    assert!(handout_to_pdf(&made).unwrap().starts_with(b"%PDF-"));
}
