//! What to watch for: the trade's own faults come out of the motion, and every sentence is true.
//!
//! The faults that a foreman watches for are common practice, no source; where the hey is at the end of its second bar is [MB1] (C. J. Sharp
//! and H. C. `MacIlwaine`, The Morris Book, Part I, 1907).
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{Dance, Dancer, Extra, FaultLimits, Figure, Grip, Leg, Part, Set, SetKind, Spot, read};
use bellpad::desk::{AboutAsk, Ask, Desk, KeepAsk, PlayAsk};
use bellpad::faults::{Body, MOST_SHIFT, Slack, ToWatch, WatchKind, Watched, watch_dance};
use bellpad::figures::{all, motion_of, named_figure};
use bellpad::motion::{Motion, SpanIndex};
use bellpad::store::Recent;
use common::samples;
use std::fs;

fn dance_of(figures: &[&str], dancers: u32) -> Option<Dance> {
    let mut dance = Dance::new("Watched", Set::longways(dancers, 2.4, 1.8));
    for name in figures {
        dance.figures.push(named_figure(name, Extra::new(), &dance.set).ok()?);
    }
    Some(dance)
}

fn watched(dance: &Dance) -> (Motion, Vec<std::sync::Arc<ToWatch>>) {
    let motion = motion_of(dance, None).unwrap();
    let lists = watch_dance(dance, &motion, &mut || true).unwrap();
    (motion, lists)
}

/// The least space between two bodies in a figure, metres, where one of them is so many counts late (early below 0): looked at each 64th of
/// a count, by the sums of the faults.
fn least(motion: &Motion, span: SpanIndex, late: Dancer, other: Dancer, by: f64) -> f64 {
    let span = motion.span(span).unwrap();
    let (own, their) = (span.track(late).unwrap(), span.track(other).unwrap());
    let counts = span.end() - span.begin();
    let body = Body::of(&FaultLimits::default());
    (0..=(counts * 64.0) as u32)
        .map(|look| f64::from(look) / 64.0)
        .map(|at| {
            let (x, y, facing) = own.stand((at - by).clamp(0.0, counts));
            let (ox, oy, theirs) = their.stand(at);
            body.space((ox - x, oy - y), facing, theirs).0
        })
        .fold(f64::INFINITY, f64::min)
}

/// That somebody late or early by what is told and a sixteenth of a count more touches, and by a sixteenth less does not touch them.
fn is_true(motion: &Motion, watched: &Watched) -> Result<(), String> {
    let sign = if watched.kind == WatchKind::Late { 1.0 } else { -1.0 };
    let (who, other) = (watched.dancers[0], watched.dancers[watched.who]);
    let more = least(motion, watched.span, who, other, sign * (watched.slack + 1.0 / 16.0));
    let less = least(motion, watched.span, who, other, sign * (watched.slack - 1.0 / 16.0).max(0.0));
    // Where they are together for a moment only it may be over a sixteenth later: then at what is told itself.
    let more = more.min(least(motion, watched.span, who, other, sign * watched.slack)).min(least(
        motion,
        watched.span,
        who,
        other,
        sign * (watched.slack + 1.0 / 32.0),
    ));
    if more < 0.003 && less > 0.0 { Ok(()) } else { Err(format!("{}: {more} and {less}", watched.text)) }
}

#[test]
fn every_sentence_of_time_is_true_of_samples_and_named_figures() {
    let mut dances: Vec<Dance> =
        samples().iter().map(|path| read(&fs::read(path).unwrap()).unwrap()).collect();
    for figure in all() {
        dances.extend([4, 6, 8].into_iter().filter_map(|dancers| dance_of(&[figure.name], dancers)));
    }
    let (mut told, mut wrong) = (0, Vec::new());
    for dance in &dances {
        let (motion, lists) = watched(dance);
        let mut seen = std::collections::HashSet::new();
        for (list, span) in lists.iter().zip(motion.spans()) {
            if !seen.insert(span.identity()) {
                continue;
            }
            let timed =
                |one: &&Watched| matches!(one.kind, WatchKind::Late | WatchKind::Early) && !one.of_blow;
            for one in list.all.iter().filter(timed) {
                told += 1;
                wrong.extend(is_true(&motion, one).err().map(|wrong| format!("{}: {wrong}", dance.title)));
            }
            assert!(list.for_side().len() <= 3);
        }
    }
    assert!(wrong.is_empty(), "{} of {told}: {wrong:#?}", wrong.len());
    assert!(told > 150, "{told}");
}

/// In a hey of six the ends who do not wait meet at the middle, and number 1 who does not lead meets 5 at the end of bar 2 [MB1].
#[test]
fn the_hey_of_six_goes_wrong_where_the_trade_says() {
    let dance = dance_of(&["half-hey"], 6).unwrap();
    let (_, lists) = watched(&dance);
    let of = |kind: WatchKind, who: usize, other: usize| {
        lists[0].all.iter().find(|one| one.kind == kind && one.dancers == [Dancer(who), Dancer(other)])
    };
    let late = of(WatchKind::Late, 0, 4).expect("1 late meets 5");
    // Before the last count of bar 2 is over 1 has to be out of the way: they touch in its second half or as bar 3 begins.
    assert!((5.0..8.0).contains(&late.at), "{late:?}");
    let touch = |one: &Watched| {
        let of_pair = |slack: &&Slack| slack.dancer == one.dancers[0] && slack.other == one.dancers[1];
        lists[0].slacks.iter().filter(of_pair).find(|slack| (slack.due - one.at).abs() < 1e-9).unwrap().at
    };
    assert!((6.0..9.0).contains(&touch(late)), "{late:?} at {}", touch(late));
    let early = of(WatchKind::Early, 4, 0).expect("5 early meets 1");
    assert!((early.slack - late.slack).abs() < 1e-9, "{early:?} {late:?}");
    // The ends meet at the middle: not far from the middle of the set.
    let (motion, _) = watched(&dance);
    let span = motion.span(SpanIndex(0)).unwrap();
    let at_middle = |one: &Watched| {
        let (x, y, _) = span.track(one.dancers[1]).unwrap().stand(touch(one));
        x.abs() < 1.5 && y.abs() < 0.8
    };
    let ends = [(0, 4), (4, 0), (1, 5), (5, 1)];
    let met = ends.iter().filter_map(|(who, other)| {
        let kinds = [WatchKind::Late, WatchKind::Early];
        kinds.into_iter().find_map(|kind| of(kind, *who, *other)).filter(|one| at_middle(one))
    });
    assert!(met.count() >= 2, "{:#?}", lists[0].all);
    assert!(
        lists[0].for_side().iter().any(|one| one.dancers.contains(&Dancer(4))),
        "{:#?}",
        lists[0].for_side()
    );
}

/// Turning before the backs have passed is told with its count: to the side, and to each dancer of their own.
#[test]
fn in_back_to_back_the_turn_waits_for_the_backs() {
    for dancers in [4, 6, 8] {
        let dance = dance_of(&["back-to-back"], dancers).unwrap();
        let (motion, lists) = watched(&dance);
        let turns = |list: Vec<Watched>| {
            list.into_iter().filter(|one| one.kind == WatchKind::Turn).collect::<Vec<_>>()
        };
        let told = turns(lists[0].for_side());
        let waits = |one: &&Watched| one.text.contains("turn after ") && one.text.contains(" past, bar ");
        let side = told.iter().find(waits).unwrap_or_else(|| panic!("{:#?}", lists[0].for_side()));
        assert!(side.text.starts_with("everybody: turn after your partner is past, bar "), "{}", side.text);
        for dancer in Dancer::all(motion.dancers()) {
            let own = turns(lists[0].own_list(dancer));
            let start = format!("{dancer}: turn after your partner is past, bar ");
            assert!(
                own.iter().any(|one| one.text.starts_with(&start)),
                "{dancer}: {:#?}",
                lists[0].own_list(dancer)
            );
        }
    }
}

/// After two double steps begun on the wrong foot the foot for home is not free.
#[test]
fn the_wrong_foot_has_no_foot_to_step_home_with() {
    let dance = dance_of(&["into-line"], 6).unwrap();
    let (_, lists) = watched(&dance);
    let shown = lists[0].for_side();
    assert!(
        shown.iter().any(|one| one.kind == WatchKind::Foot && one.watchers().contains(&Dancer(0))),
        "{shown:#?}"
    );
    let own = lists[0].own_list(Dancer(0));
    let foot = own.iter().find(|one| one.kind == WatchKind::Foot && one.dancers == [Dancer(0)]).unwrap();
    assert!(
        foot.text.starts_with(
            "1: start on the left foot at bar 1 count 1; on the wrong one, the left is not free"
        ),
        "{}",
        foot.text
    );
    assert!(foot.text.ends_with("at bar 3 count 1"), "{}", foot.text);
}

/// Mates are told together, those who start on other feet apart, and files as each has them.
#[test]
fn mates_are_told_together() {
    let dance = dance_of(&["foot-up-and-down", "hey"], 6).unwrap();
    let (_, lists) = watched(&dance);
    let said: Vec<String> = lists.iter().flat_map(|list| list.for_side()).map(|one| one.text).collect();
    assert!(
        said.iter().any(|text| text.starts_with("odds: start on the left foot at bar 1 count 1;")),
        "{said:#?}"
    );
    assert!(said.iter().all(|text| !text.contains('{') && !text.contains("odds' file")), "{said:#?}");
    let hey = lists[1].for_side();
    assert!(hey.iter().any(|one| one.text.ends_with("late meet 5 and 6") && one.who == 2), "{hey:#?}");
}

/// `bellpad watch` prints a list of what it takes, and of one dancer also whom to have an eye on.
#[test]
fn the_verb_prints_what_to_watch() {
    let run = |arguments: &[&str]| {
        let output = std::process::Command::new(env!("CARGO_BIN_EXE_bellpad"))
            .arg("watch")
            .args(arguments)
            .output()
            .unwrap();
        assert!(output.status.success(), "{output:?}");
        String::from_utf8(output.stdout).unwrap()
    };
    let sample = common::sample("nine-geese-home");
    let path = sample.to_str().unwrap();
    let list: serde_json::Value = serde_json::from_str(&run(&[path, "--figure", "hey", "--json"])).unwrap();
    let list = list.as_array().unwrap();
    assert!((1..=3).contains(&list.len()));
    for one in list {
        let keys: Vec<&String> = one.as_object().unwrap().keys().collect();
        assert_eq!(keys, ["figure", "bar", "count", "dancers", "kind", "slack", "unit", "text"]);
        assert!(["late", "early", "short", "foot", "turn"].contains(&one["kind"].as_str().unwrap()));
    }
    let own = run(&[path, "--figure", "hey", "--dancer", "3"]);
    assert!(own.contains("an eye on 5"), "{own}");
    assert!(run(&[path]).ends_with("spectators outside it.\n"));
}

/// In sets of many a spot is nobody else's by its last letters, and nobody is told to mind themselves.
#[test]
fn sentences_of_large_sets_read_well() {
    for dancers in [8, 12] {
        for figure in all() {
            let Some(dance) = dance_of(&[figure.name], dancers) else { continue };
            let (_, lists) = watched(&dance);
            for one in lists.iter().flat_map(|list| list.all.iter().cloned().chain(list.for_side())) {
                assert!(!one.text.contains("1your") && !one.text.contains('{'), "{}", one.text);
                let mut all = one.dancers.clone();
                all.sort_unstable();
                all.dedup();
                assert_eq!(all.len(), one.dancers.len(), "{}", one.text);
            }
        }
    }
}

/// Two side by side for some bars, so far from one another, who then go off one after the other, the second over where the first was.
fn side_by_side(gap: f64, bars: u32) -> Dance {
    let mut set = Set::longways(2, 2.0, 2.0);
    (set.kind, set.dancers) = (SetKind::Spots, 2);
    let apart = 0.5 + gap;
    set.spots = [0.0, apart].map(|x| Spot { x, y: -10.0, facing: 0.0, extra: Extra::new() }).to_vec();
    let mut dance = Dance::new("Side by side", set);
    let mut figure = Figure::drawn("near", "Near", bars);
    let counts = f64::from(bars * 4);
    let (mut at, mut y, mut parts) = (0.0, -10.0, [Part::still(1), Part::still(2)]);
    while at + 4.0 <= counts - 8.0 {
        y = if y < -5.0 { -4.0 } else { -10.0 };
        for (part, x) in parts.iter_mut().zip([0.0, apart]) {
            part.legs.push(Leg::straight(at, at + 4.0, x, y));
        }
        at += 4.0;
    }
    parts[0].legs.push(Leg::straight(at, at + 3.0, -3.0, y));
    parts[1].legs.push(Leg::straight(at + 2.0, at + 6.0, -1.5, y));
    figure.parts.extend(parts);
    dance.figures.push(figure);
    dance
}

/// However near two keep to one another, for however long, how late the one may be is found; or it is said that more was not worked out, and
/// never more than is so.
#[test]
fn who_are_near_throughout_are_looked_over_or_it_is_said_that_they_were_not() {
    let mut whole = 0;
    for (gap, bars) in [
        (0.3, 8),
        (0.05, 8),
        (0.05, 16),
        (0.01, 16),
        (0.003, 8),
        (0.003, 32),
        (0.0005, 16),
        (0.0, 8),
        (0.0, 16),
    ] {
        let dance = side_by_side(gap, bars);
        let (motion, lists) = watched(&dance);
        let [late, _] = lists[0].bands[0];
        let said = lists[0].band_words(Dancer(0)).unwrap();
        let at = |by: f64| least(&motion, SpanIndex(0), Dancer(0), Dancer(1), by);
        let expected = (1..=128).map(|part| f64::from(part) / 64.0).find(|by| at(*by) < -0.002).unwrap();
        assert!(late < expected + 1.0 / 16.0, "{gap} m, {bars} bars: {late}, not {expected}: {said}");
        assert!(!said.contains("meets nobody"), "{gap} m, {bars} bars: {said}");
        let open = said.contains("more was not worked out") || said.contains("more late was not worked out");
        assert!(open || late > expected - 1.0 / 16.0, "{gap} m, {bars} bars: {late}, not {expected}: {said}");
        whole += usize::from(!open);
        // As near as two may be who dance close, it is found.
        assert!(!open || gap < 0.03, "{gap} m, {bars} bars: {said}");
    }
    assert!(whole >= 3, "{whole}");
}

/// Two files shoulder to shoulder are looked over in no more work than others.
#[test]
fn a_close_set_is_looked_over_too() {
    let mut dance = dance_of(&["foot-up-and-down"], 6).unwrap();
    dance.set.across = 0.5;
    let (motion, lists) = watched(&dance);
    assert_eq!(lists[0].bands.len(), 6);
    for dancer in Dancer::all(6) {
        for (way, band) in [1.0, -1.0].into_iter().zip(lists[0].bands[dancer.index()]) {
            let others = || Dancer::all(6).filter(|other| *other != dancer);
            let near = |by: f64| {
                others()
                    .map(|other| least(&motion, SpanIndex(0), dancer, other, way * by))
                    .fold(f64::INFINITY, f64::min)
            };
            let less = (1..32).map(|part| f64::from(part) / 16.0).filter(|by| *by < band - 1.0 / 32.0);
            for by in less {
                assert!(near(by) > -0.003, "{dancer}: {band}, but {by} touches");
            }
            assert!(band >= MOST_SHIFT || near(band + 1.0 / 32.0) < 0.003, "{dancer}: {band}");
        }
    }
}

/// How the sticks are held changes how late one may be for a tap: what is told changes with it, with no other change.
#[test]
fn what_is_told_goes_with_how_the_sticks_are_held() {
    // Butt to butt, a stick reaches as far as its butt is from the hand.
    let text = fs::read_to_string(common::sample("kettle-bridge")).unwrap().replace("\"tip\"", "\"butt\"");
    let dance = read(text.as_bytes()).unwrap();
    let mut desk = Desk::new(dance, None, Recent::default()).unwrap();
    let motion = desk.motion();
    let tapped =
        motion.spans().iter().find(|span| desk.dance().figures[span.figure].name.contains("tapping"));
    let count = tapped.unwrap().begin() + 1.0;
    desk.apply(Ask::Play(PlayAsk::Seek(count)));
    let told = |desk: &mut Desk| {
        desk.apply(Ask::Keep(KeepAsk::CatchUp));
        let list = desk.to_watch().unwrap();
        list.all.iter().filter(|one| one.of_blow).map(|one| one.text.clone()).collect::<Vec<_>>()
    };
    let grip = desk.dance().grip;
    let other = if grip == Grip::End { Grip::Middle } else { Grip::End };
    let first = told(&mut desk);
    desk.apply(Ask::About(AboutAsk::SetGrip(other)));
    let second = told(&mut desk);
    assert!(!first.is_empty() && first != second, "{first:#?}");
    // And it is what is told of the dance by itself.
    let (_, lists) = watched(desk.dance());
    let all = lists.iter().find(|list| list.all.iter().any(|one| one.of_blow)).unwrap();
    let alone: Vec<String> = all.all.iter().filter(|one| one.of_blow).map(|one| one.text.clone()).collect();
    assert_eq!(second, alone);
    desk.apply(Ask::About(AboutAsk::SetGrip(grip)));
    assert_eq!(told(&mut desk), first);
}

/// It is asked often enough whether it is to go on, by each of the searches; and where it is stopped, nothing is told.
#[test]
fn it_can_be_stopped_at_any_time() {
    let dance = read(&fs::read(common::sample("kettle-bridge")).unwrap()).unwrap();
    let motion = motion_of(&dance, None).unwrap();
    let (index, _) =
        motion.indexed_spans().find(|(_, span)| dance.figures[span.figure].name.contains("tapping")).unwrap();
    let mut asked = 0;
    let whole = ToWatch::of_span(&dance, &motion, index, &mut || {
        asked += 1;
        true
    });
    let dancers = motion.dancers();
    assert!(whole.is_some());
    // Each pair once for late, for aside and for short, each dancer for taps, feet and turns.
    let least = dancers * (dancers - 1) * 2 + dancers * (dancers - 1) / 2 + dancers * 2;
    assert!(asked >= least, "{asked}, not {least}");
    for stopped in [1, asked / 4, asked / 2, asked * 3 / 4, asked - 1, asked] {
        let mut left = stopped;
        let list = ToWatch::of_span(&dance, &motion, index, &mut || {
            left = usize::saturating_sub(left, 1);
            left > 0
        });
        assert!(list.is_none(), "stopped at {stopped} of {asked}");
    }
}

/// A dance that leaves everybody alone has nothing to watch for in time.
#[test]
fn who_stands_alone_has_nothing_to_watch() {
    let dance = dance_of(&["foot-up-and-down"], 2).unwrap();
    let (_, lists) = watched(&dance);
    assert!(lists[0].all.iter().all(|one| !matches!(one.kind, WatchKind::Short)), "{:?}", lists[0].all);
    assert_eq!(lists[0].bands.len(), 2);
}

fn run(arguments: &[&str]) -> String {
    common::done(["watch"].iter().chain(arguments))
}

/// Who taps has to be in by the first tap: one in is enough at 2.4 m, both at home are not.
#[test]
fn a_tapping_says_by_when_to_be_in() {
    let path = common::sample("kettle-bridge");
    let said = run(&[path.to_str().unwrap(), "--figure", "tap"]);
    let first = said.lines().nth(1).unwrap();
    assert!(first.starts_with("  everybody: in for the tapping by bar 2 count 1; both of a pair "), "{said}");
    assert!(first.ends_with(" late the sticks miss"), "{said}");
    let json: serde_json::Value =
        serde_json::from_str(&run(&[path.to_str().unwrap(), "--figure", "tap", "--json"])).unwrap();
    assert_eq!((&json[0]["kind"], &json[0]["unit"]), (&"late".into(), &"counts".into()));
    assert!((1.5..3.0).contains(&json[0]["slack"].as_f64().unwrap()), "{json}");
    // And the one to watch is the partner.
    let own = run(&[path.to_str().unwrap(), "--figure", "tap", "--dancer", "3"]);
    assert!(own.contains("an eye on 4, in front, for the taps"), "{own}");
}

/// Who stand so far apart that one of them at home is out of reach are told each how late they may be.
#[test]
fn one_who_is_late_for_a_tap_misses_in_a_wide_set() {
    let mut dance = read(&fs::read(common::sample("kettle-bridge")).unwrap()).unwrap();
    dance.set.across = 4.4;
    let (_, lists) = watched(&dance);
    let tap = lists.iter().flat_map(|list| &list.all).find(|one| one.of_blow && one.who == 1).unwrap();
    assert!(tap.text.contains(": in for the tapping with your partner by bar 2 count 1; "), "{}", tap.text);
    // What each says of a partner of their own is one line.
    let tapping = lists.iter().map(|list| list.for_side()).find(|told| told.iter().any(|one| one.of_blow));
    let lines: Vec<String> =
        tapping.unwrap().into_iter().filter(|one| one.of_blow).map(|one| one.text).collect();
    assert!(lines[0].starts_with("everybody: in for the tapping with your partner by "), "{lines:#?}");
    assert_eq!(lines.iter().filter(|line| line.contains(" late the sticks miss")).count(), 1, "{lines:#?}");
}

/// Who stands still all through a figure cannot be late in it: nothing of that is said.
#[test]
fn who_stands_still_is_not_said_to_be_late_or_early() {
    let path = common::sample("kettle-bridge");
    for figure in ["once", "foot"] {
        let said = run(&[path.to_str().unwrap(), "--figure", figure, "--dancer", "3"]);
        assert_eq!(said.contains("may be 2 counts late or early"), figure == "foot", "{said}");
    }
}

/// What the whole list says of a dancer their own list says too.
#[test]
fn the_list_of_one_has_what_the_list_of_all_says_of_them() {
    let mut more = 0;
    for path in samples() {
        let (motion, lists) = watched(&read(&fs::read(path).unwrap()).unwrap());
        for list in &lists {
            for dancer in Dancer::all(motion.dancers()) {
                let own = list.own_list(dancer);
                more += own.len().saturating_sub(1);
                for told in list.for_side().iter().filter(|told| told.watchers().contains(&dancer)) {
                    let what = told.text.split_once(": ").unwrap().1.split([',', ';']).next().unwrap();
                    let what = what.trim_end_matches(|letter: char| !letter.is_alphabetic());
                    assert!(
                        own.iter().any(|one| one.text.contains(what)),
                        "{dancer}: {} in {own:#?}",
                        told.text
                    );
                }
            }
        }
    }
    assert!(more > 20, "{more}");
}

/// Of a figure with faults it is said that these come first, with how many there are, and not that nothing takes little.
#[test]
fn a_figure_with_faults_says_so() {
    let mut dance = dance_of(&["foot-up-and-down", "foot-up-and-down"], 6).unwrap();
    dance.figures[0] = bellpad::dance::Figure::drawn("stray", "Stray", 4);
    let mut part = bellpad::dance::Part::still(1);
    part.legs.push(bellpad::dance::Leg::straight(0.0, 8.0, -1.2, 0.0));
    dance.figures[0].parts.push(part);
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("stray.dance.json");
    fs::write(&path, serde_json::to_string(&dance).unwrap()).unwrap();
    let said = run(&[path.to_str().unwrap()]);
    let stray = said.split("\n\n").next().unwrap();
    assert!(stray.contains(" to mend first: bellpad check"), "{said}");
    assert!(!stray.contains("keep to the figure"), "{said}");
    assert_eq!(said.matches("to mend first").count(), 1, "{said}");
}

/// Who come together side by side and part again as they came are past nobody.
#[test]
fn who_part_as_they_came_are_past_nobody() {
    let dance = dance_of(&["into-line"], 6).unwrap();
    let (_, lists) = watched(&dance);
    for one in &lists[0].all {
        assert!(!one.text.contains(" past, "), "{}", one.text);
    }
}

/// Who is late only from a count on touches whom they would touch late throughout, where that is still to come, and nobody sooner.
#[test]
fn late_from_a_count_on_is_as_late_as_what_is_to_come() {
    let dance = dance_of(&["hey"], 6).unwrap();
    let (motion, lists) = watched(&dance);
    let span = motion.span(SpanIndex(0)).unwrap();
    let (counts, body) = (span.end() - span.begin(), Body::of(&FaultLimits::default()));
    let mut narrow = 0;
    for dancer in Dancer::all(6) {
        for from in [0.0, 6.0, 11.0, 16.0, 21.0] {
            let [late, _] = lists[0].band_from((body, span), dancer, from);
            let own = span.track(dancer).unwrap();
            let touches = |by: f64| {
                (0..=(counts * 64.0) as u32).map(|look| f64::from(look) / 64.0).any(|at| {
                    let then = if at < from { at } else { (at - by).max(from) };
                    let (x, y, facing) = own.stand(then);
                    Dancer::all(6).filter(|other| *other != dancer).any(|other| {
                        let (ox, oy, their) = span.track(other).unwrap().stand(at);
                        body.space((ox - x, oy - y), facing, their).0 < 0.0
                    })
                })
            };
            assert!(!touches((late - 1.0 / 16.0).max(0.0)), "{dancer} from {from}: {late}");
            if late < bellpad::faults::MOST_SHIFT - 1.0 / 16.0 {
                narrow += 1;
                assert!(touches(late + 1.0 / 16.0), "{dancer} from {from}: {late}");
            }
        }
    }
    assert!(narrow > 10, "{narrow}");
}
