//! Every kind of ask, each on a desk on which it makes sense.

use crate::kinds::Kinds;
use crate::picture::{changed, picture};
use crate::stage::{OURS, Stage, edit, four_lines, sample, seek, six};
use bellpad::dance::{
    ClearFloor, Dancer, Ends, EndsIn, Extra, Foot, Holding, Landing, LeadRule, Metre, Number, OwnStep,
    PlaceNumber, Set, SpeedChange, Strain, Strength, StrikeEnd, StrikePart, Struck, TurnOn,
};
use bellpad::desk::{
    About, AboutAsk, Ask, CompareAsk, Desk, DrawAsk, FaultAsk, FileAsk, Grip, KeepAsk, OrderAsk, Pasted,
    PhotoAsk, PlayAsk, Question, Seen, StepAsk, StrikeAsk, ViewAsk,
};
use bellpad::edits::{
    Follow, Later, LegChange, LegFrom, PointOf, SecondHalf, StrikeAt, StrikeEdit, TimePoint, Together,
    Toward, TurnEdit, TurnTime,
};
use bellpad::faults::WhatIf;
use bellpad::figures::Mirror;
use bellpad::handout::{HandoutChoice, HandoutKind, PaperFile};
use bellpad::motion::SpanIndex;
use bellpad::picture::{EyeSide, StillLook, Theme};
use bellpad::sound::{Heard, SoundChoice};
use bellpad::store::{self, Arrangement, Home, Recent, WindowSize};
use std::collections::BTreeSet;
use std::panic::Location;
use std::time::Duration;

/// The dancer whom the sample of these tests draws, and the end of their first leg.
const ONE: Dancer = Dancer(0);
const END: PointOf = PointOf { leg: 0, point: None };

/// What has been tried, and what of that did nothing.
#[derive(Default)]
struct Tried {
    kinds: BTreeSet<&'static str>,
    wrong: Vec<String>,
}

impl Tried {
    /// Asks something of a desk: what is named must be otherwise afterwards. Gives the desk as it is then.
    #[track_caller]
    fn on(&mut self, mut stage: Stage, ask: Ask, what: &str) -> Stage {
        if ask != Ask::View(ViewAsk::DropNotice) {
            // What was said before is not what this ask says.
            stage.desk.apply(Ask::View(ViewAsk::DropNotice));
        }
        self.kinds.extend(ask.names());
        let (before, asked) = (picture(&stage.desk), format!("{ask:?}"));
        stage.desk.apply(ask);
        let changed = changed(&before, &picture(&stage.desk));
        if !changed.contains(&what) {
            let line = Location::caller().line();
            self.wrong.push(format!(
                "line {line}: {asked} leaves {what:?} as it was; changed: {changed:?}, notice {:?}, question {:?}",
                stage.desk.notice(),
                stage.desk.question()
            ));
        }
        stage
    }

    /// Asks something that shows only in what is asked after it: what is named must be otherwise at the end than without.
    #[track_caller]
    fn before(&mut self, stage: impl Fn() -> Stage, ask: &Ask, then: &[Ask], what: &str) {
        self.kinds.extend(ask.names());
        let without = stage().having(then.to_owned());
        let with = stage().having([ask.clone()]).having(then.to_owned());
        let changed = changed(&picture(&without.desk), &picture(&with.desk));
        if !changed.contains(&what) {
            let line = Location::caller().line();
            self.wrong.push(format!(
                "line {line}: after {ask:?}, {then:?} comes to the same {what:?}: {changed:?}"
            ));
        }
    }
}

#[test]
fn every_ask_changes_something_or_says_why_not() {
    let mut tried = Tried::default();
    for every in [
        plays, views, drags, draws, by_name, turns, shapes, orders, steps, strikes, abouts, faults, photos,
        files, answers, compares, keeps, goes_back,
    ] {
        every(&mut tried);
    }
    assert!(tried.wrong.is_empty(), "\n{}", tried.wrong.join("\n"));
    let untried: Vec<_> = Ask::all().into_iter().filter(|kind| !tried.kinds.contains(kind)).collect();
    assert!(untried.is_empty(), "nobody tries {untried:?}");
}

fn plays(tried: &mut Tried) {
    let playing = || Stage::lines().having([Ask::Play(PlayAsk::Toggle)]);
    for ask in [
        PlayAsk::Seek(7.5),
        PlayAsk::Step(4.0),
        PlayAsk::Toggle,
        PlayAsk::Tempo(0.5),
        PlayAsk::ToggleLoop,
        PlayAsk::LoopFrom,
        PlayAsk::LoopTo,
        PlayAsk::LoopBar(13.0),
        PlayAsk::LoopFromAt(13.0),
        PlayAsk::LoopToAt(13.0),
    ] {
        tried.on(Stage::lines(), Ask::Play(ask), "player");
    }
    tried.on(playing(), Ask::Play(PlayAsk::Toggle), "player");
    tried.on(playing(), Ask::Play(PlayAsk::Advance(0.4)), "player");
    for heard in [Heard::CountingIn(3.0), Heard::Count(9.0), Heard::Ended] {
        tried.on(playing(), Ask::Play(PlayAsk::Heard(heard)), "player");
    }
    tried.on(playing(), Ask::Play(PlayAsk::Silent(Some("no loudspeakers".to_owned()))), "notice");
}

fn views(tried: &mut Tried) {
    let all = || Stage::lines().having([Ask::View(ViewAsk::Pick([1, 2, 4].map(Dancer).to_vec()))]);
    let mut view = |stage: Stage, ask: ViewAsk, what: &str| tried.on(stage, Ask::View(ask), what);
    for ask in [ViewAsk::Choose(Some(Dancer(2))), ViewAsk::Choose(None), ViewAsk::ChooseFor(Dancer(3))] {
        view(Stage::lines(), ask, "chosen");
    }
    view(Stage::lines(), ViewAsk::Pick([1, 2].map(Dancer).to_vec()), "picked");
    view(Stage::lines(), ViewAsk::AlsoPick(Dancer(3)), "picked");
    view(all(), ViewAsk::AlsoPick(Dancer(2)), "picked");
    view(Stage::lines(), ViewAsk::See(Seen::OwnFacing), "seen");
    let turned = view(Stage::lines(), ViewAsk::See(Seen::FromTop), "seen");
    view(turned, ViewAsk::See(Seen::FromBottom), "seen");
    let beside = view(Stage::lines(), ViewAsk::EyeSide(EyeSide::Front), "eye side");
    let behind = view(beside, ViewAsk::EyeSide(EyeSide::Behind), "eye side");
    view(behind, ViewAsk::EyeSide(EyeSide::Side), "eye side");
    view(Stage::lines(), ViewAsk::Zoom(1.5, [100.0, 50.0]), "frame");
    let moved = view(Stage::lines(), ViewAsk::Pan([30.0, -20.0]), "frame");
    view(moved, ViewAsk::FitFloor, "frame");
    let late = view(Stage::lines(), ViewAsk::WhatIf(Some(WhatIf { late: 0.5, short: 0.0 })), "what if");
    view(late, ViewAsk::WhatIf(None), "what if");
    for (ask, what) in [
        (ViewAsk::ToggleTrails, "trails"),
        (ViewAsk::ToggleBeats, "beats"),
        (ViewAsk::ToggleEyeLevel, "eye level"),
        (ViewAsk::ToggleSpace, "space"),
        (ViewAsk::ToggleTheme, "ink"),
        (ViewAsk::ToggleHelp, "question"),
    ] {
        let other = view(Stage::lines(), ask.clone(), what);
        view(other, ask, what);
    }
    let told = Stage::lines().having([Ask::Order(OrderAsk::Rename(0, String::new()))]);
    assert!(told.desk.notice().is_some());
    view(told, ViewAsk::DropNotice, "notice");
    view(Stage::lines().having([Ask::File(FileAsk::AskNew)]), ViewAsk::PutAway, "question");
}

fn drags(tried: &mut Tried) {
    let mut draw = |stage: Stage, ask: DrawAsk, what: &str| tried.on(stage, Ask::Draw(ask), what);
    let held = |grip| Stage::lines().having([Ask::Draw(DrawAsk::BeginDrag(grip))]);
    let end = Grip::Point { span: SpanIndex(0), dancer: ONE, point: END };
    for grip in [Grip::Dancer(ONE), Grip::Facing(ONE), end] {
        draw(Stage::lines(), DrawAsk::BeginDrag(grip), "held");
    }
    draw(held(Grip::Dancer(ONE)), DrawAsk::DragTo { x: -0.4, y: 1.5, reach: 0.0 }, "dance");
    draw(held(Grip::Dancer(ONE)), DrawAsk::DragTo { x: 0.01, y: 1.79, reach: 0.1 }, "guides");
    draw(held(end), DrawAsk::DragTo { x: -0.4, y: 1.5, reach: 0.0 }, "dance");
    draw(held(Grip::Facing(ONE)), DrawAsk::DragBy(45.0), "dance");
    let times = [(TimePoint::Begin(0), 2.0), (TimePoint::Through(0, 0), 9.0), (TimePoint::End(0), 11.0)];
    for (point, to) in times {
        let grip = Grip::Time { span: SpanIndex(0), dancer: ONE, point };
        let stage = Stage::lines().having([Ask::Draw(DrawAsk::InsertPoint(ONE))]);
        let stage = draw(stage, DrawAsk::BeginDrag(grip), "held");
        draw(stage, DrawAsk::DragToCount(to), "dance");
    }
    let dragged =
        || held(Grip::Dancer(ONE)).having([Ask::Draw(DrawAsk::DragTo { x: -0.4, y: 1.5, reach: 0.0 })]);
    draw(dragged(), DrawAsk::EndDrag, "undo");
    draw(dragged(), DrawAsk::CancelDrag, "dance");
}

fn draws(tried: &mut Tried) {
    let mut draw = |stage: Stage, ask: DrawAsk, what: &str| tried.on(stage, Ask::Draw(ask), what);
    for together in Together::ALL {
        // From each other way to this one.
        let other = Together::ALL.into_iter().find(|other| *other != together).unwrap();
        let stage = Stage::lines().having([Ask::Draw(DrawAsk::Together(other))]);
        draw(stage, DrawAsk::Together(together), "together");
    }
    for from in [LegFrom::LastStood, LegFrom::BarStart] {
        let stage = draw(Stage::lines(), DrawAsk::LegFrom(from), "leg from");
        draw(stage, DrawAsk::LegFrom(LegFrom::Usual), "leg from");
    }
    draw(Stage::lines(), DrawAsk::Nudge { right: 0.05, up: 0.0 }, "dance");
    draw(
        Stage::lines(),
        DrawAsk::NudgePoint { span: SpanIndex(0), dancer: ONE, point: END, right: 0.05, up: 0.0 },
        "dance",
    );
    draw(Stage::lines(), DrawAsk::PlaceAt { dancer: ONE, x: -0.5, y: 1.6 }, "dance");
    draw(Stage::lines(), DrawAsk::FaceAt { dancer: ONE, degrees: 45.0 }, "dance");
    // At the very start of a figure nobody can be anywhere else.
    draw(Stage::lines().having([seek(0.0)]), DrawAsk::PlaceAt { dancer: ONE, x: -0.5, y: 1.6 }, "notice");
    for (together, other) in [
        (Together::Mirror(Mirror::Across), 1),
        (Together::Mirror(Mirror::EndForEnd), 4),
        (Together::Mirror(Mirror::HalfTurn), 5),
        (Together::BothMirrors, 4),
        (Together::Same, 2),
    ] {
        draw(Stage::lines(), DrawAsk::CopyPart { dancer: ONE, together, other: Dancer(other) }, "dance");
    }
    // Under no symmetry nobody is a mate.
    draw(
        Stage::lines(),
        DrawAsk::CopyPart { dancer: ONE, together: Together::JustMe, other: Dancer(1) },
        "notice",
    );
    for second in [SecondHalf::Mirrored, SecondHalf::Same] {
        draw(Stage::lines(), DrawAsk::CopyHalf(second), "dance");
    }
    let redrawn =
        Stage::lines().having([seek(38.0), Ask::Draw(DrawAsk::PlaceAt { dancer: ONE, x: 0.2, y: 0.2 })]);
    draw(redrawn, DrawAsk::RestoreNamed { figure: 1, place: PlaceNumber(1) }, "dance");
    // Two nudges are one step to undo, unless what nudges is let go of between them.
    let nudge = Ask::Draw(DrawAsk::Nudge { right: 0.05, up: 0.0 });
    let nudged = || Stage::lines().having([Ask::Draw(DrawAsk::Nudge { right: 0.05, up: 0.0 })]);
    tried.before(nudged, &Ask::Draw(DrawAsk::PartSteps), &[nudge, Ask::Undo], "dance");
}

/// What is asked for by name, from a menu. 1 is picked; everyone is, where it says so.
fn by_name(tried: &mut Tried) {
    let mut draw = |stage: Stage, ask: DrawAsk, what: &str| tried.on(stage, Ask::Draw(ask), what);
    let everyone = || Stage::lines().having([Ask::View(ViewAsk::Pick(Dancer::all(6).collect()))]);
    draw(Stage::lines(), DrawAsk::GoBy { dancer: ONE, x: 0.3, y: 1.2, count: 12.0 }, "dance");
    // In another figure nobody is anywhere by a count of this one.
    draw(Stage::lines(), DrawAsk::GoBy { dancer: ONE, x: 0.3, y: 1.2, count: 99.0 }, "notice");
    for stage in [Stage::lines(), everyone()] {
        draw(stage, DrawAsk::HomeBy { dancer: ONE, count: 10.0 }, "dance");
    }
    draw(Stage::lines(), DrawAsk::StandUntil { dancer: ONE, count: 12.0 }, "dance");
    draw(Stage::lines(), DrawAsk::StandUntil { dancer: ONE, count: 8.0 }, "notice");
    // Beyond all bars.
    draw(Stage::lines(), DrawAsk::StandUntil { dancer: ONE, count: 1e12 }, "notice");
    for toward in [Toward::Up, Toward::Down, Toward::Out, Toward::Partner, Toward::In] {
        // 1 looks to 2 across the set at first, from where they are now not quite.
        let stage = Stage::lines().having([Ask::Draw(DrawAsk::FaceAt { dancer: ONE, degrees: 45.0 })]);
        draw(stage, DrawAsk::Face { dancer: ONE, toward }, "dance");
    }
    for degrees in [90.0, -270.0] {
        draw(everyone(), DrawAsk::TurnBy { dancer: ONE, degrees }, "dance");
    }
    draw(
        Stage::lines(),
        DrawAsk::PointAt { span: SpanIndex(0), dancer: ONE, point: END, x: -0.3, y: 1.0 },
        "dance",
    );
    for together in [
        Together::Mirror(Mirror::Across),
        Together::Mirror(Mirror::EndForEnd),
        Together::Mirror(Mirror::HalfTurn),
        Together::BothMirrors,
        Together::Same,
    ] {
        draw(Stage::lines(), DrawAsk::CopyToMates { dancer: ONE, together }, "dance");
    }
    draw(Stage::lines(), DrawAsk::CopyToMates { dancer: ONE, together: Together::JustMe }, "notice");
    draw(Stage::lines(), DrawAsk::Clear(ONE), "dance");
    draw(Stage::lines(), DrawAsk::Clear(Dancer(3)), "notice");
}

fn turns(tried: &mut Tried) {
    // 1 turns left 270 in the second bar, which ends at the playhead.
    let turned = || Stage::lines().having([Ask::Draw(DrawAsk::TurnBy { dancer: ONE, degrees: -270.0 })]);
    for edit in [
        TurnEdit::OtherWay,
        TurnEdit::By(90.0),
        TurnEdit::On(Some(TurnOn::SingleSteps)),
        TurnEdit::On(Some(TurnOn::Hop)),
        TurnEdit::On(Some(TurnOn::Start)),
        TurnEdit::Remove,
    ] {
        tried.on(
            turned(),
            Ask::Draw(DrawAsk::ChangeTurn { span: SpanIndex(0), dancer: ONE, turn: 0, edit }),
            "dance",
        );
    }
    let on = TurnEdit::On(Some(TurnOn::SingleSteps));
    let on = turned().having([Ask::Draw(DrawAsk::ChangeTurn {
        span: SpanIndex(0),
        dancer: ONE,
        turn: 0,
        edit: on,
    })]);
    tried.on(
        on,
        Ask::Draw(DrawAsk::ChangeTurn { span: SpanIndex(0), dancer: ONE, turn: 0, edit: TurnEdit::On(None) }),
        "dance",
    );
    let gone = DrawAsk::ChangeTurn { span: SpanIndex(0), dancer: ONE, turn: 7, edit: TurnEdit::OtherWay };
    tried.on(turned(), Ask::Draw(gone), "notice");
    for (of, to) in [(TurnTime::Whole, 1.0), (TurnTime::Begin, 7.0), (TurnTime::End, 9.5)] {
        let grip = Grip::Turn { span: SpanIndex(0), dancer: ONE, turn: 0, of };
        let held = tried.on(turned(), Ask::Draw(DrawAsk::BeginDrag(grip)), "held");
        tried.on(held, Ask::Draw(DrawAsk::DragToCount(to)), "dance");
        let by = |turn| DrawAsk::NudgeTurn { span: SpanIndex(0), dancer: ONE, turn, of, counts: -0.5 };
        tried.on(turned(), Ask::Draw(by(0)), "dance");
        tried.on(turned(), Ask::Draw(by(7)), "notice");
    }
}

fn shapes(tried: &mut Tried) {
    let mut draw = |stage: Stage, ask: DrawAsk, what: &str| tried.on(stage, Ask::Draw(ask), what);
    let change = |change| DrawAsk::ChangeLeg { dancer: ONE, leg: 0, change };
    let pointed = draw(Stage::lines(), DrawAsk::InsertPoint(ONE), "dance");
    draw(
        pointed,
        DrawAsk::DropPoint { span: SpanIndex(0), dancer: ONE, point: PointOf { leg: 0, point: Some(0) } },
        "dance",
    );
    draw(Stage::lines(), DrawAsk::SplitLeg(ONE), "dance");
    draw(Stage::lines(), DrawAsk::JoinLegs { dancer: ONE, leg: 0 }, "dance");
    let smooth = draw(Stage::lines(), change(LegChange::Smooth), "dance");
    draw(smooth, change(LegChange::Straighten), "dance");
    draw(Stage::lines(), change(LegChange::Arc), "dance");
    let forwards = draw(Stage::lines(), change(LegChange::Forwards), "dance");
    draw(forwards, change(LegChange::Held), "dance");
    draw(Stage::lines(), change(LegChange::Backwards), "dance");
    draw(Stage::lines(), change(LegChange::Remove), "dance");
    draw(Stage::lines(), DrawAsk::ChangeLeg { dancer: ONE, leg: 7, change: LegChange::Arc }, "notice");
}

fn orders(tried: &mut Tried) {
    let mut order = |ask: OrderAsk, what: &str| tried.on(Stage::lines(), Ask::Order(ask), what);
    let ends = Ends { spots: Some(EndsIn::Anywhere), stance: None };
    for ask in [
        OrderAsk::PutIn("cross-over", None),
        OrderAsk::TakeOut(1),
        OrderAsk::NewFigure,
        OrderAsk::Dance { figure: 3, before: None },
        OrderAsk::Dance { figure: 1, before: Some(0) },
        OrderAsk::Rename(0, "Lamps".to_owned()),
        OrderAsk::Duplicate(1),
        OrderAsk::Move { from: 0, to: 2 },
        OrderAsk::Delete(3),
        OrderAsk::SetStrain(0, "A".to_owned()),
        OrderAsk::SetCall(0, "Away!".to_owned()),
        OrderAsk::SetCallBefore(0, Some(1.5)),
        OrderAsk::SetBars(0, 12),
        OrderAsk::SetEnds(0, ends),
        OrderAsk::SetNotes(0, "Look up.".to_owned()),
        OrderAsk::SetChoice(1, "timing", "even".into()),
        OrderAsk::SetLead(1, Some(LeadRule::Right)),
        OrderAsk::SetPhrase(0, "7 st, ftj".to_owned()),
        OrderAsk::ChangeSet(Box::new(Set::longways(8, 2.4, 1.8))),
        OrderAsk::ChangeSet(Box::new(Set::longways(6, 2.6, 1.8))),
        OrderAsk::SetHops(false),
        OrderAsk::NamePerson(Number(2), "Wren".to_owned()),
        OrderAsk::SetHand(Number(2), true),
    ] {
        order(ask, "dance");
    }
    for about in [About::Call(0), About::Bars(0), About::Notes(0)] {
        order(OrderAsk::Write(about), "question");
    }
    // What cannot be done says why.
    for ask in [
        OrderAsk::PutIn("gallop", None),
        OrderAsk::TakeOut(9),
        OrderAsk::Dance { figure: 9, before: None },
        OrderAsk::Rename(0, " ".to_owned()),
        OrderAsk::SetStrain(9, "A".to_owned()),
        OrderAsk::SetCallBefore(9, None),
        OrderAsk::SetCallBefore(0, Some(17.0)),
        OrderAsk::SetPhrase(0, "7 zz".to_owned()),
        OrderAsk::SetBars(1, 9),
        OrderAsk::SetChoice(1, "timing", "never".into()),
        OrderAsk::ChangeSet(Box::new(Set::longways(5, 2.4, 1.8))),
    ] {
        order(ask, "notice");
    }
}

fn abouts(tried: &mut Tried) {
    let mut about = |ask: AboutAsk, what: &str| tried.on(Stage::lines(), Ask::About(ask), what);
    let strain = |name: &str, bars| {
        let (name, metre, speeds) = (name.to_owned(), None, Vec::new());
        Strain { name, bars, metre, speeds, extra: Extra::new() }
    };
    for ask in [
        AboutAsk::SetTitle("Reeds".to_owned()),
        AboutAsk::SetSide("Quillow Ferry Morris".to_owned()),
        AboutAsk::SetTradition("ours".to_owned()),
        AboutAsk::SetAuthor("the foreman".to_owned()),
        AboutAsk::SetOnceToYourself(true),
        AboutAsk::SetNotes("Look up.".to_owned()),
        AboutAsk::SetHolding(Holding::Sticks),
        AboutAsk::SetGrip(bellpad::dance::Grip::End),
        AboutAsk::SetHeight(1.9),
        AboutAsk::SetMetre(Metre::NineEight),
        AboutAsk::SetSpeed(92.0),
        AboutAsk::SetUpbeat(1),
        AboutAsk::SetTune("X:1\nM:6/8\nK:G\nG6|A6|\n".to_owned()),
        AboutAsk::SetStrain(0, strain("C", 6)),
        AboutAsk::AddStrain,
        AboutAsk::TakeStrain(1),
        AboutAsk::SetPlayed(vec!["B".to_owned(), "A".to_owned()]),
        AboutAsk::SetSpeeds(0, vec![SpeedChange::at(0.0, 60.0)]),
        AboutAsk::SetBarMetre(0, 2, Some(Metre::NineEight)),
    ] {
        about(ask, "dance");
    }
    for ask in [AboutAsk::Show, AboutAsk::AskTune] {
        about(ask, "question");
    }
    let tune = || Ask::About(AboutAsk::SetTune("X:1\nM:6/8\nK:G\nG6|A6|\n".to_owned()));
    about(AboutAsk::Listen, "notice");
    tried.on(Stage::lines().having([tune()]), Ask::About(AboutAsk::Listen), "listening");
    let mut about = |ask: AboutAsk, what: &str| tried.on(Stage::lines(), Ask::About(ask), what);
    for ask in [
        AboutAsk::FollowTune,
        AboutAsk::SetSpeed(4.0),
        AboutAsk::SetUpbeat(9),
        AboutAsk::SetStrain(0, strain("A", 0)),
        AboutAsk::SetPlayed(vec!["Z".to_owned()]),
        AboutAsk::SetSpeeds(0, vec![SpeedChange::at(-1.0, 60.0)]),
        AboutAsk::SetBarMetre(0, 99, None),
    ] {
        about(ask, "notice");
    }
}

fn steps(tried: &mut Tried) {
    let mut step = |stage: Stage, ask: StepAsk, what: &str| tried.on(stage, Ask::Step(ask), what);
    let copied = || Stage::lines().having([Ask::Step(StepAsk::Copy("ds".to_owned()))]);
    let set = |short: &str, what: &str| {
        let step = OwnStep {
            name: "ours".to_owned(),
            short: short.to_owned(),
            feet: vec![Landing::Lead, Landing::Stay, Landing::Other, Landing::Other],
            ..OwnStep::default()
        };
        StepAsk::Set { index: 0, step: Box::new(step), what: what.to_owned() }
    };
    step(Stage::lines(), StepAsk::Show(None), "question");
    step(Stage::lines(), StepAsk::Copy("ds".to_owned()), "dance");
    step(copied(), set("ours", "count 2"), "dance");
    step(copied(), StepAsk::TakeAway(0), "dance");
    for ask in [StepAsk::Copy("zz".to_owned()), StepAsk::TakeAway(4), set("two words", "the letters")] {
        step(copied(), ask, "notice");
    }
}

fn strikes(tried: &mut Tried) {
    let mut strike = |stage: Stage, ask: StrikeAsk, what: &str| tried.on(stage, Ask::Strike(ask), what);
    let at = StrikeAt { strike: 0, which: 0 };
    let add = |at: f64, place: Option<u32>| StrikeAsk::Add { figure: 0, at, place: place.map(PlaceNumber) };
    let struck = || Stage::lines().having([Ask::Strike(add(2.0, Some(1)))]);
    let odds = || Stage::lines().having([Ask::Strike(add(2.0, None))]);
    strike(Stage::lines(), add(2.0, Some(4)), "dance");
    strike(struck(), add(2.0, Some(1)), "notice");
    for edit in [
        StrikeEdit::On(Struck::Opposite),
        StrikeEdit::Part(StrikePart::Overhead),
        StrikeEdit::With(StrikeEnd::Left),
        StrikeEdit::Their(Some(StrikeEnd::Left)),
        StrikeEdit::Height(Some(1.5)),
        StrikeEdit::Stay(true),
        StrikeEdit::Follow(Follow::Everyone, None),
        StrikeEdit::Follow(Follow::Odds, None),
        StrikeEdit::Follow(Follow::Evens, None),
        StrikeEdit::Follow(Follow::InTurn(Later::Bar), None),
        StrikeEdit::Follow(Follow::InTurn(Later::Half), None),
        StrikeEdit::To(3.25),
        StrikeEdit::InBars(vec![1, 3]),
        StrikeEdit::Remove,
        StrikeEdit::RemoveAll,
    ] {
        strike(struck(), StrikeAsk::Change { figure: 0, at, edit }, "dance");
    }
    let nobody = StrikeEdit::Follow(Follow::Nobody, Some(PlaceNumber(4)));
    strike(odds(), StrikeAsk::Change { figure: 0, at, edit: nobody }, "dance");
    let tip = StrikeAsk::Change { figure: 0, at, edit: StrikeEdit::With(StrikeEnd::Tip) };
    let hand = StrikeEdit::Hand(Some(Foot::Left));
    let tips = || struck().having([Ask::Strike(tip.clone())]);
    for edit in [hand, StrikeEdit::TheirHand(Some(Foot::Left))] {
        strike(tips(), StrikeAsk::Change { figure: 0, at, edit }, "dance");
    }
    for edit in [
        StrikeEdit::InBars(Vec::new()),
        StrikeEdit::To(f64::NAN),
        StrikeEdit::On(Struck::Place(PlaceNumber(1))),
    ] {
        strike(struck(), StrikeAsk::Change { figure: 0, at, edit }, "notice");
    }
    strike(struck(), StrikeAsk::Nudge { figure: 0, at, counts: 0.25 }, "dance");
    strike(struck(), StrikeAsk::CopyBar { figure: 0, from: 1, to: 2 }, "dance");
    strike(struck(), StrikeAsk::CopyBar { figure: 0, from: 3, to: 2 }, "notice");
    strike(struck(), StrikeAsk::AskToWrite(0), "question");
    strike(Stage::lines(), StrikeAsk::SayNoRow, "notice");
    strike(struck(), StrikeAsk::Write { figure: 0, strikes: Vec::new() }, "dance");
    strike(struck(), StrikeAsk::Write { figure: 40, strikes: Vec::new() }, "notice");
    let held = Grip::Strike { span: SpanIndex(0), at };
    let stage = tried.on(struck(), Ask::Draw(DrawAsk::BeginDrag(held)), "held");
    tried.on(stage, Ask::Draw(DrawAsk::DragToCount(5.0)), "dance");
}

fn faults(tried: &mut Tried) {
    let mut fault = |stage: Stage, ask: FaultAsk, what: &str| tried.on(stage, Ask::Fault(ask), what);
    fault(Stage::hey(), FaultAsk::GoTo(1), "fault shown");
    let proposed = || Stage::hey().having([Ask::Fault(FaultAsk::MakeRoom(0))]);
    fault(Stage::hey(), FaultAsk::MakeRoom(0), "mend");
    fault(proposed(), FaultAsk::TakeMend, "dance");
    fault(proposed(), FaultAsk::LeaveMend, "mend");
    // Both stand still there: there is nothing to mend.
    let mut close = Stage::on(six());
    close = close.having([
        Ask::Order(OrderAsk::NewFigure),
        Ask::Order(OrderAsk::ChangeSet(Box::new(Set::longways(6, 0.2, 1.8)))),
    ]);
    fault(close, FaultAsk::MakeRoom(0), "notice");
    fault(Stage::hey(), FaultAsk::AskAllow(0), "question");
    let meant = fault(Stage::hey(), FaultAsk::Allow(0, "we squeeze by".to_owned()), "dance");
    fault(meant, FaultAsk::NoLongerAllow { figure: 0, which: 0 }, "dance");
    fault(Stage::hey(), FaultAsk::AskLimits, "question");
    let mut limits = Stage::hey().desk.dance().limits.clone();
    limits.apart = Some(0.3);
    fault(Stage::hey(), FaultAsk::SetLimits(Box::new(limits)), "faults");
    let floor = ClearFloor { across: 2.0, along: 3.0, x: 0.0, y: 0.0, extra: Extra::new() };
    let small = fault(Stage::hey(), FaultAsk::SetFloor(Some(Box::new(floor))), "faults");
    fault(small, FaultAsk::SetFloor(None), "dance");
}

fn photos(tried: &mut Tried) {
    let mut photo = |stage: Stage, ask: PhotoAsk, what: &str| {
        let stage = tried.on(stage, Ask::Photo(ask), what);
        stage.having([Ask::Keep(KeepAsk::CatchUp)])
    };
    let ask = |ask: PhotoAsk| Ask::Photo(ask);
    photo(Stage::lines(), PhotoAsk::AskFile, "question");
    let stage = Stage::filed();
    let (picture, missing) = (stage.picture(), stage.file("nothing.png"));
    let stage = photo(stage, PhotoAsk::Lay(missing), "question");
    photo(stage, PhotoAsk::Lay(picture), "dance");
    let pasted = |many: usize| Pasted { size: [20, 10], rgba: vec![90; many].into() };
    let stage = photo(Stage::filed(), PhotoAsk::Paste(pasted(800)), "dance");
    assert!(!stage.desk.dance().underlay[0].inside.is_empty());
    photo(stage, PhotoAsk::Paste(pasted(7)), "question");
    photo(Stage::photographed(), PhotoAsk::Show(0), "question");
    photo(Stage::photographed(), PhotoAsk::Show(4), "notice");
    let mark_at = |mark: usize| PhotoAsk::MarkAt { photo: 0, mark, across: 30.0, down: 7.0 };
    photo(Stage::photographed(), mark_at(1), "dance");
    photo(Stage::photographed(), mark_at(9), "notice");
    let place_at = |x: f64, reach: f64| PhotoAsk::PlaceAt { photo: 0, mark: 0, x, y: 1.7, reach };
    let stage = photo(Stage::photographed(), place_at(-1.1, 0.2), "dance");
    let mark = &stage.desk.dance().underlay[0].marks[0];
    assert_eq!((mark.x, mark.y), (-1.2, 1.8), "it catches on a spot");
    photo(Stage::photographed(), place_at(f64::NAN, 0.0), "notice");
    photo(Stage::photographed(), PhotoAsk::Marks(0, 6), "dance");
    let stage = photo(Stage::photographed(), PhotoAsk::Marks(0, 2), "dance");
    let stage = photo(stage, PhotoAsk::Lock(0, true), "dance");
    let stage = photo(stage, place_at(0.3, 0.0), "notice");
    let stage = photo(stage, PhotoAsk::Marks(0, 4), "notice");
    photo(stage, PhotoAsk::Lock(0, false), "dance");
    // Two that have changed places set nothing true.
    let crossed = Stage::photographed().having([
        ask(PhotoAsk::PlaceAt { photo: 0, mark: 0, x: 2.0, y: 2.0, reach: 0.0 }),
        ask(PhotoAsk::PlaceAt { photo: 0, mark: 1, x: -2.0, y: 2.0, reach: 0.0 }),
    ]);
    let stage = photo(crossed, PhotoAsk::Lock(0, true), "notice");
    assert!(
        stage.desk.notice().unwrap().contains("changed places") && !stage.desk.dance().underlay[0].locked
    );
    for strength in [Strength::Stronger, Strength::Hidden] {
        photo(Stage::photographed(), PhotoAsk::Strength(0, strength), "dance");
    }
    photo(Stage::photographed(), PhotoAsk::Strength(0, Strength::Faint), "notice");
    photo(Stage::photographed(), PhotoAsk::NextStrength, "dance");
    photo(Stage::lines(), PhotoAsk::NextStrength, "notice");
    let stage = photo(Stage::photographed(), PhotoAsk::OneFigure(0, true), "dance");
    let elsewhere = stage.having([seek(40.0)]);
    assert!(elsewhere.desk.photographs_here().is_empty());
    photo(elsewhere, PhotoAsk::OneFigure(0, false), "dance");
    let stage = photo(Stage::photographed(), PhotoAsk::KeepInside(0, true), "dance");
    photo(stage, PhotoAsk::KeepInside(0, false), "dance");
    let stage = photo(Stage::photographed(), PhotoAsk::TakeAway(0), "dance");
    photo(stage, PhotoAsk::TakeAway(0), "notice");
}

fn files(tried: &mut Tried) {
    let mut file = |stage: Stage, ask: FileAsk, what: &str| tried.on(stage, Ask::File(ask), what);
    for ask in [FileAsk::AskNew, FileAsk::AskOpen, FileAsk::AskSaveAs, FileAsk::AskStill, FileAsk::AskHandout]
    {
        file(Stage::filed(), ask, "question");
    }
    file(Stage::filed(), FileAsk::AskHandoutPath, "question");
    file(Stage::filed(), FileAsk::AskStillPath, "question");
    let look = StillLook { size: 40, trails: true, theme: Theme::Paper };
    let stage = file(Stage::filed(), FileAsk::ChooseStill(look), "settings");
    assert_eq!(stage.desk.still_look(), look);
    // What nobody could draw is the nearest that can be.
    let stage = file(stage, FileAsk::ChooseStill(StillLook { size: 1, ..look }), "settings");
    assert_eq!(stage.desk.still_look().size, 16);
    let stage = Stage::filed();
    let version = stage.version();
    file(stage, FileAsk::Open(version), "path");
    let stage = Stage::filed();
    let (missing, still) = (stage.file("nothing.dance.json"), stage.file("still.svg"));
    let stage = file(stage, FileAsk::Open(missing), "question");
    let stage = file(stage, FileAsk::StillTo(still.clone()), "notice");
    assert!(still.is_file());
    let nowhere = stage.file("no folder/still.svg");
    file(stage, FileAsk::StillTo(nowhere), "question");
    file(Stage::filed(), FileAsk::OpenSample(1), "dance");
    file(Stage::filed(), FileAsk::PutNew(Box::new(six())), "dance");
    let stage = file(Stage::unsaved(), FileAsk::Save, "unsaved");
    assert_eq!(store::open(&stage.file(OURS)).unwrap(), *stage.desk.dance());
    file(Stage::lines(), FileAsk::Save, "question");
    let stage = Stage::lines();
    let (path, nowhere) = (stage.file(OURS), stage.file("no folder/ours.dance.json"));
    let stage = file(stage, FileAsk::SaveTo(path), "path");
    assert_eq!(store::open(&stage.file(OURS)).unwrap(), four_lines());
    file(stage, FileAsk::SaveTo(nowhere), "question");
    let other = HandoutChoice { kind: HandoutKind::Notebook, ..HandoutChoice::default() };
    file(Stage::filed(), FileAsk::ChooseHandout(other), "settings");
    // What would put away work that no file has asks first.
    for ask in [FileAsk::AskOpen, FileAsk::OpenSample(1), FileAsk::PutNew(Box::new(six())), FileAsk::Close] {
        let stage = file(Stage::unsaved(), ask, "question");
        assert!(matches!(stage.desk.question(), Some(Question::Unsaved(_))));
    }
    file(Stage::filed(), FileAsk::Close, "may close");
}

fn answers(tried: &mut Tried) {
    let mut file = |stage: Stage, ask: FileAsk, what: &str| tried.on(stage, Ask::File(ask), what);
    let asking = |stage: Stage, ask: FileAsk| stage.having([Ask::File(ask)]);
    let stage = asking(Stage::filed(), FileAsk::AskOpen);
    let (version, missing) = (stage.version(), stage.file("nothing.dance.json"));
    let stage = file(stage, FileAsk::Choose(missing), "question");
    file(stage, FileAsk::Choose(version), "path");
    let stage = asking(Stage::lines(), FileAsk::AskSaveAs);
    let path = stage.file(OURS);
    file(stage, FileAsk::Choose(path), "path");
    let stage = asking(Stage::lines(), FileAsk::AskStillPath);
    let path = stage.file("still.png");
    file(stage, FileAsk::Choose(path), "notice");
    let stage = Stage::lines().having([Ask::Compare(CompareAsk::Ask)]);
    let path = stage.version();
    file(stage, FileAsk::Choose(path), "compared");
    for answer in [FileAsk::GoOnUnsaved, FileAsk::SaveAndGoOn] {
        let stage = asking(Stage::unsaved(), FileAsk::Close);
        file(stage, answer, "may close");
    }
    // A handout of several pages, the second of which would go over somebody's own file.
    let choice = HandoutChoice { words: true, file: PaperFile::Svg, ..HandoutChoice::default() };
    let stage = asking(Stage::lines(), FileAsk::ChooseHandout(choice));
    let stage = asking(stage, FileAsk::AskHandoutPath);
    let (first, second) = (stage.file("hey.svg"), stage.file("hey-2.svg"));
    std::fs::write(&second, "my own").unwrap();
    let stage = file(stage, FileAsk::Choose(first), "writing").written();
    assert!(matches!(stage.desk.question(), Some(Question::Writing(_, files)) if files.len() == 1));
    let stage = file(stage, FileAsk::ReplacePages, "question").written();
    assert!(stage.desk.notice().unwrap().contains("handout written"), "{:?}", stage.desk.notice());
    assert!(std::fs::read_to_string(second).unwrap().starts_with("<svg"));
}

fn compares(tried: &mut Tried) {
    let mut compare = |stage: Stage, ask: CompareAsk, what: &str| tried.on(stage, Ask::Compare(ask), what);
    compare(Stage::lines(), CompareAsk::Ask, "question");
    let stage = Stage::lines();
    let (version, missing) = (stage.version(), stage.file("nothing.dance.json"));
    let stage = compare(stage, CompareAsk::With(version), "compared");
    compare(stage, CompareAsk::With(missing), "question");
    compare(Stage::compared(), CompareAsk::Stop, "compared");
    compare(Stage::compared(), CompareAsk::GoTo(0), "difference");
    compare(Stage::compared(), CompareAsk::TakePart(0), "dance");
    compare(Stage::compared(), CompareAsk::TakeFigure(0), "dance");
    let add = StrikeAsk::Add { figure: 0, at: 2.0, place: None };
    compare(Stage::compared().having([Ask::Strike(add)]), CompareAsk::TakeTaps(0), "dance");
}

fn keeps(tried: &mut Tried) {
    let mut keep = |stage: Stage, ask: KeepAsk, what: &str| tried.on(stage, Ask::Keep(ask), what);
    let stage = keep(Stage::meanwhile(), KeepAsk::SaveOver, "unsaved");
    assert_eq!(store::open(&stage.file(OURS)).unwrap(), *stage.desk.dance());
    let stage = keep(Stage::meanwhile(), KeepAsk::SaveElsewhere, "question");
    assert!(matches!(stage.desk.question(), Some(Question::Path(_))));
    let stage = keep(Stage::meanwhile(), KeepAsk::OpenTheirs, "dance");
    assert_eq!(*stage.desk.dance(), sample(1));
    let stage = Stage::filed();
    store::save(&stage.file(OURS), &sample(1)).unwrap();
    let stage = keep(stage, KeepAsk::LookOutside, "outside");
    keep(stage, KeepAsk::LeaveTheirs, "outside");
    keep(Stage::at_home(), KeepAsk::AskRecovered, "notice");
    let stage = Stage::at_home();
    stage.leave_work();
    keep(stage, KeepAsk::AskRecovered, "question");
    let stage = keep(Stage::recovered(), KeepAsk::DiscardRecovered(0), "question");
    let stage = keep(stage, KeepAsk::OpenRecovered(0), "dance");
    assert_eq!(*stage.desk.dance(), four_lines());
    let earlier = || {
        let stage = Stage::unsaved();
        let theirs = stage.file(OURS);
        let stage = stage.having([Ask::File(FileAsk::Save)]);
        let saves = Home::at(&stage.file("state")).backups(&theirs);
        (stage, saves.first().unwrap().clone())
    };
    keep(earlier().0, KeepAsk::AskEarlier, "question");
    let (stage, save) = earlier();
    let stage = keep(stage, KeepAsk::GoBackTo(save), "dance");
    assert_eq!(*stage.desk.dance(), four_lines());
    // A home that cannot be a folder: below a file.
    let mut stage = Stage::filed();
    let home = Home::at(&stage.file(OURS).join("state"));
    stage.desk = Desk::with_sample(Recent::default()).at_home(home);
    while stage.desk.keep_line().is_none() {
        std::thread::sleep(Duration::from_millis(2));
        stage.desk.apply(Ask::Keep(KeepAsk::CatchUp));
    }
    keep(stage, KeepAsk::PutLineAway, "keep");
    let stage = keep(Stage::at_home(), KeepAsk::ShutWelcome(false), "welcome");
    keep(stage, KeepAsk::ShutWelcome(true), "settings");
    keep(Stage::lines(), KeepAsk::TextSize(1.5), "settings");
    let size = WindowSize { across: 900.0, down: 700.0, filled: false };
    keep(Stage::lines(), KeepAsk::WindowSize(size), "settings");
    let arrangement = Arrangement { left_folded: true, ..Arrangement::default() };
    keep(Stage::lines(), KeepAsk::Arrange(arrangement), "settings");
    keep(Stage::lines(), KeepAsk::OpenLast(true), "settings");
    let sound = SoundChoice { counts_in: true, ..SoundChoice::default() };
    keep(Stage::lines(), KeepAsk::Sound(sound), "settings");
    keep(Stage::lines().having([Ask::View(ViewAsk::ToggleTheme)]), KeepAsk::CatchUp, "settings");
}

fn goes_back(tried: &mut Tried) {
    let stage = tried.on(Stage::lines().having([edit()]), Ask::Undo, "dance");
    tried.on(stage, Ask::Redo, "dance");
}
