//! What is danced keeps its place in bars that get another metre, and comes back with the old one.

use crate::stage::Stage;
use bellpad::dance::{
    Dance, Entry, Extra, Figure, Leg, Metre, Part, Set, SpeedChange, Strain, Turn, Way, Waypoint,
};
use bellpad::desk::{AboutAsk, Ask, Desk, OrderAsk};
use bellpad::sound::MusicOf;
use std::sync::Arc;

/// Two who go round a point at a count, turn with a jump, and have steps and speeds of their own; danced to a strain that has speeds.
fn drawn() -> Dance {
    let mut dance = Dance::new("In bars", Set::longways(2, 2.4, 1.8));
    let mut figure = Figure::drawn("one", "One", 8);
    "2 ds, 2 ss, ftj".clone_into(&mut figure.phrase);
    figure.speeds = vec![SpeedChange::at(0.0, 80.0), SpeedChange::at(16.0, 90.0).eased()];
    let mut part = Part::still(1);
    let mut leg = Leg::straight(8.0, 12.0, 0.0, 1.0);
    leg.through.push(Waypoint { x: -0.6, y: 0.4, at: Some(10.0), extra: Extra::new() });
    part.legs = vec![leg, Leg::straight(16.0, 20.0, -1.2, 0.0)];
    part.turns.push(Turn::to_face(13.0, 15.0, Way::Left, 180.0));
    let mut other = Part::still(2);
    "left, 2 ds, 2 ss, hj, ss".clone_into(&mut other.phrase);
    other.legs.push(Leg::straight(0.0, 8.0, 1.2, 0.5));
    figure.parts = vec![part, other];
    dance.figures = vec![figure, Figure::drawn("two", "Two", 8)];
    for name in ["A", "B"] {
        let speeds = vec![SpeedChange::at(16.0, 110.0)];
        let (name, metre, extra) = (name.to_owned(), None, Extra::new());
        dance.music.strains.push(Strain { name, bars: 8, metre, speeds, extra });
    }
    dance.order = [("one", "A"), ("two", "A"), ("one", "B")]
        .map(|(id, strain)| Entry { strain: strain.to_owned(), ..Entry::of(id) })
        .into();
    dance
}

fn strain(dance: &Dance, index: usize, metre: Option<Metre>) -> Ask {
    Ask::About(AboutAsk::SetStrain(index, Strain { metre, ..dance.music.strains[index].clone() }))
}

#[track_caller]
fn assert_near(found: &Dance, expected: &Dance) {
    let rounded = |dance: &Dance| {
        let mut value = serde_json::to_value(dance).unwrap();
        round(&mut value);
        value
    };
    assert_eq!(rounded(found), rounded(expected));
}

/// To the billionth: counts that went there and back.
fn round(value: &mut serde_json::Value) {
    match value {
        serde_json::Value::Number(number) => {
            *value = ((number.as_f64().unwrap() * 1e9).round() / 1e9).into();
        }
        serde_json::Value::Array(all) => all.iter_mut().for_each(round),
        serde_json::Value::Object(all) => all.values_mut().for_each(round),
        _ => {}
    }
}

#[test]
fn a_metre_changed_and_changed_back_leaves_what_was_drawn() {
    let metre = |metre| Ask::About(AboutAsk::SetMetre(metre));
    let bar = |metre| Ask::About(AboutAsk::SetBarMetre(0, 4, metre));
    let first = drawn();
    for [there, back] in [
        [metre(Metre::NineEight), metre(Metre::FourFour)],
        [metre(Metre::ThreeFour), metre(Metre::SixEight)],
        [bar(Some(Metre::NineEight)), bar(None)],
        [strain(&first, 0, Some(Metre::ThreeTwo)), strain(&first, 0, None)],
    ] {
        let stage = Stage::on(drawn()).having([there.clone()]);
        let changed = stage.desk.dance();
        assert_ne!(changed.figures[0].parts, first.figures[0].parts, "{there:?}: {:?}", stage.desk.notice());
        assert_ne!(changed.figures[0].phrase, first.figures[0].phrase, "{there:?}");
        let mut stage = stage.having([back.clone()]);
        assert_eq!(stage.desk.notice(), None, "{back:?}");
        let mut expected = drawn();
        expected.music.metre = stage.desk.dance().music.metre;
        assert_near(stage.desk.dance(), &expected);
        while stage.desk.undo_name().is_some() {
            stage.desk.apply(Ask::Undo);
        }
        assert_eq!(*stage.desk.dance(), first, "{there:?} undone");
    }
}

#[test]
fn what_is_drawn_falls_as_far_into_its_bars() {
    let stage = Stage::on(drawn()).having([Ask::About(AboutAsk::SetMetre(Metre::NineEight))]);
    let figure = &stage.desk.dance().figures[0];
    // Half-way through bar 3, and in bar 4 with the jump, which leaves the ground on count 4 of six.
    let part = &figure.parts[0];
    assert_eq!(part.legs[0].through[0].at, Some(15.0));
    assert_eq!((part.turns[0].begin, part.turns[0].end), (21.0, 23.0));
    assert_eq!((part.legs[1].begin, part.legs[1].end), (24.0, 30.0));
    assert_eq!(figure.speeds[1].count, 24.0);
    assert_eq!(stage.desk.dance().music.strains[0].speeds[0].count, 24.0);
}

/// A figure is danced in the metre of the first line that dances it; when another line comes first it is still all in its bars.
#[test]
fn lines_that_move_take_what_is_danced_along() {
    let first = drawn();
    let mut stage = Stage::on(drawn()).having([strain(&first, 1, Some(Metre::NineEight))]);
    let before = stage.desk.dance().figures[0].clone();
    assert_eq!(stage.desk.dance().bar_counts(&before).counts(), 32.0);
    stage.desk.apply(Ask::Order(OrderAsk::TakeOut(0)));
    let after = &stage.desk.dance().figures[0];
    assert_eq!(stage.desk.dance().bar_counts(after).counts(), 48.0, "{:?}", stage.desk.notice());
    assert_eq!((after.parts[0].legs[1].begin, after.parts[0].legs[1].end), (24.0, 30.0));
}

#[test]
fn stepping_that_does_not_fill_its_bars_is_given_up_and_said() {
    let mut dance = drawn();
    dance.music.metre = Metre::NineEight;
    dance.figures[0].parts.clear();
    "3 sh, 9 ss, 2 ds, 5 ss".clone_into(&mut dance.figures[0].phrase);
    let stage = Stage::on(dance).having([Ask::About(AboutAsk::SetMetre(Metre::FourFour))]);
    assert_eq!(stage.desk.dance().figures[0].phrase, "");
    assert!(stage.desk.notice().unwrap().starts_with("The stepping written for One does not fill its bars"));
}

/// [MB1] (C. J. Sharp and H. C. `MacIlwaine`, The Morris Book, Part I, 1907): the music plays a strain before the dancing, and they jump
/// on its last half-bar.
#[test]
fn once_to_yourself_is_put_before_the_dancing_and_taken_away() {
    for metre in [Metre::SixEight, Metre::NineEight] {
        let mut dance = drawn();
        dance.music.metre = metre;
        dance.figures[0].parts.clear();
        dance.figures[0].phrase.clear();
        let mut stage = Stage::on(dance.clone()).having([Ask::About(AboutAsk::SetOnceToYourself(true))]);
        let motion = stage.desk.motion();
        assert_eq!((motion.spans().len(), motion.spans()[0].bars), (4, 8), "{:?}", stage.desk.notice());
        let each = f64::from(metre.counts());
        let weight = |count: f64| motion.pose(bellpad::dance::Dancer(1), count).weight.word();
        assert_eq!(
            [8.0 * each - 3.0, 8.0 * each - 2.0, 8.0 * each - 1.0].map(weight),
            ["both", "air", "both"]
        );
        assert_eq!(stage.desk.dance().order[0].strain, "A");
        stage.desk.apply(Ask::About(AboutAsk::SetOnceToYourself(false)));
        assert_eq!(*stage.desk.dance(), dance);
    }
}

fn assert_sounds(desk: &Desk, what: &str) {
    let anew = MusicOf::whole(desk.dance(), desk.motion()).sounds();
    assert_eq!(desk.sounds()[..], anew[..], "{what}");
}

/// What is heard is made anew where it is heard otherwise, and only there.
#[test]
fn what_is_heard_is_made_once() {
    let mut stage =
        Stage::lines().having([Ask::About(AboutAsk::SetTune("X:1\nM:6/8\nK:G\nG6|A6|\n".to_owned()))]);
    let heard = Arc::clone(stage.desk.sounds());
    let name = stage.desk.dance().figures[0].name.clone();
    stage.desk.apply(Ask::About(AboutAsk::SetNotes("Look up.".to_owned())));
    assert!(Arc::ptr_eq(&heard, stage.desk.sounds()), "notes on {name} are not heard");
    // The text of the tune is read once, whatever else is said of the music.
    let read = |stage: &Stage| Arc::clone(&stage.desk.air().unwrap().tune);
    let before = read(&stage);
    stage.desk.apply(Ask::About(AboutAsk::SetSpeed(90.0)));
    assert!(Arc::ptr_eq(&before, &read(&stage)) && !Arc::ptr_eq(&heard, stage.desk.sounds()));
    for (ask, what) in [
        (AboutAsk::SetSpeed(80.0), "speed"),
        (AboutAsk::SetMetre(Metre::NineEight), "metre"),
        (AboutAsk::SetBarMetre(0, 2, Some(Metre::FourFour)), "a bar's metre"),
        (AboutAsk::SetSpeeds(0, vec![SpeedChange::at(4.0, 60.0)]), "a figure's speeds"),
        (AboutAsk::SetTune("X:1\nM:6/8\nK:G\nB6|c6|\n".to_owned()), "the tune"),
    ] {
        let before = Arc::clone(stage.desk.sounds());
        stage.desk.apply(Ask::About(ask));
        assert!(before[..] != stage.desk.sounds()[..], "{what}: {:?}", stage.desk.notice());
        assert_sounds(&stage.desk, what);
    }
}
