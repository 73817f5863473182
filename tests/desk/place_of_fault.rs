//! Where the desk goes to see a fault, and what it calls the moment.

use bellpad::dance::{Dance, Entry, Figure, Leg, Part, Set};
use bellpad::desk::{Ask, Desk, FaultAsk};
use bellpad::motion::SpanIndex;
use bellpad::store::Recent;

/// Two drawn figures: number 1 goes 8 m in the first two counts of the second and is not back at its end.
fn two_figures() -> Desk {
    let mut dance = Dance::new("Two", Set::longways(2, 2.4, 1.8));
    let mut second = Figure::drawn("second", "Second", 4);
    let mut part = Part::still(1);
    part.legs.push(Leg::straight(0.0, 2.0, -1.2, 8.0));
    second.parts.push(part);
    dance.figures = vec![Figure::drawn("first", "First", 4), second];
    dance.order = vec![Entry::of("first"), Entry::of("second")];
    Desk::new(dance, None, Recent::default()).unwrap()
}

#[test]
fn a_fault_at_the_start_of_a_figure_is_told_and_seen_there() {
    let mut desk = two_figures();
    let at = |desk: &Desk, count: f64| {
        desk.faults().iter().position(|fault| (fault.counts() - count).abs() < 1e-6).unwrap()
    };
    // An over-long step as the second figure begins, which is where the first one ends.
    let index = at(&desk, 16.0);
    let fault = desk.faults()[index].clone();
    assert_eq!((fault.span, desk.before_fault(&fault)), (SpanIndex(1), 16.0));
    assert!(desk.moment_words(16.0).starts_with("Second, bar 1"), "{}", desk.moment_words(16.0));
    desk.apply(Ask::Fault(FaultAsk::GoTo(index)));
    assert_eq!((desk.player().count, desk.span()), (16.0, Some(SpanIndex(1))));
    // Not home at the end of it: a count before, so that it is still that figure.
    let index = at(&desk, 32.0);
    let fault = desk.faults()[index].clone();
    assert_eq!((fault.span, desk.before_fault(&fault)), (SpanIndex(1), 31.0));
    desk.apply(Ask::Fault(FaultAsk::GoTo(index)));
    assert_eq!((desk.player().count, desk.span()), (31.0, Some(SpanIndex(1))));
}
