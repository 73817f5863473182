//! Playing aloud, without the machine's sound: a sink that is told what it does stands in for it, and a clock that is set.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/beats.rs"]
mod beats;
#[path = "common/test_sink.rs"]
mod test_sink;

use beats::performance;
use bellpad::sound::{Heard, Keeper, LivePlayer, Performance, Server};
use test_sink::{AHEAD, Hand, TestSink};

/// Clicks alone of so many counts, at a strong beat each half second.
fn clicks(counts: f64) -> Performance {
    performance(counts, None)
}

/// A player on a sink that has loudspeakers, or has none.
fn player(there: bool) -> (LivePlayer, Keeper, Hand) {
    let (sink, hand) = TestSink::new(there);
    let clock = hand.clone();
    let (player, keeper) = LivePlayer::by_hand(sink, move || clock.now());
    (player, keeper, hand)
}

/// Lets time go by in hundredths of a second, as the thread and the loudspeakers go on; what is heard at each.
fn go_on(player: &LivePlayer, keeper: &mut Keeper, hand: &Hand, seconds: f64) -> Vec<Heard> {
    (0..(seconds * 100.0).round() as usize)
        .map(|_| {
            hand.pass(0.01);
            keeper.look();
            player.heard()
        })
        .collect()
}

#[track_caller]
fn count(heard: &Heard) -> f64 {
    match heard {
        Heard::Count(count) => *count,
        other => panic!("{other:?}"),
    }
}

/// What is drawn for a click is what the loudspeakers play, however much lies ready ahead of them.
#[test]
fn the_count_that_is_heard_is_the_one_that_sounds() {
    let (player, mut keeper, hand) = player(true);
    player.play(clicks(16.0));
    assert_eq!(player.heard(), Heard::Count(0.0), "it has not sounded yet");
    let mut off = Vec::new();
    for _ in 0..300 {
        hand.pass(0.01);
        keeper.look();
        // Until it sounds, it is drawn as it begins.
        if let Heard::Count(count) = player.heard()
            && count > 0.0
        {
            off.push(count / 4.0 - hand.heard_seconds());
        }
    }
    assert_eq!(player.server(), Server::There);
    // The loudspeakers had a click at each of the counts.
    let found = hand.clicks();
    for (index, click) in found.iter().enumerate() {
        assert!((click - found[0] - index as f64 * 0.25).abs() < 0.001, "{found:?}");
    }
    assert!(off.len() > 250, "{}", off.len());
    assert!(off.iter().all(|off| (off + found[0]).abs() < 0.001), "{off:?}");
    assert!(found.len() >= 11);
}

#[test]
fn with_nothing_to_play_on_it_goes_on_silently_and_sounds_when_there_is() {
    let (player, mut keeper, hand) = player(false);
    player.play(clicks(64.0));
    keeper.look();
    assert!(matches!(player.server(), Server::Missing(why) if why == "nothing to play on"));
    let heard = go_on(&player, &mut keeper, &hand, 2.0);
    assert!((count(heard.last().unwrap()) - 8.0).abs() < 0.2, "{:?}", heard.last());
    hand.set_there(true);
    let mut before = count(heard.last().unwrap());
    for heard in go_on(&player, &mut keeper, &hand, 2.0) {
        let now = count(&heard);
        assert!(now >= before && now < before + 0.1, "{before} to {now}");
        before = now;
    }
    assert_eq!(player.server(), Server::There);
    let clicks = hand.clicks();
    assert!(clicks.len() >= 6, "{clicks:?}");
    // What is drawn is what sounds: the last click was at a whole count.
    let since = hand.heard_seconds() - clicks.last().unwrap();
    let at_click = before - since * 4.0;
    assert!((at_click - at_click.round()).abs() < 0.02, "{at_click}");
}

/// A window that nobody sees asks for nothing; meanwhile the dance goes on all the same, and sounds where it has come to.
#[test]
fn time_goes_by_though_nobody_looks() {
    let (player, mut keeper, hand) = player(false);
    let unseen = |keeper: &mut Keeper, seconds: f64| {
        for _ in 0..(seconds * 100.0).round() as usize {
            hand.pass(0.01);
            keeper.look();
        }
    };
    player.play(clicks(256.0));
    keeper.look();
    let first = count(go_on(&player, &mut keeper, &hand, 1.0).last().unwrap());
    unseen(&mut keeper, 2.0);
    hand.set_there(true);
    unseen(&mut keeper, 2.0);
    let then = count(&player.heard());
    assert!((then - first - 16.0).abs() < 1.6, "{first} to {then}");
    // They go while nobody looks, too.
    hand.set_there(false);
    unseen(&mut keeper, 2.0);
    let last = count(&player.heard());
    assert!((last - then - 8.0).abs() < 0.8, "{then} to {last}");
}

/// Loudspeakers that are there and do not go on are as none: what is drawn goes on without them.
#[test]
fn loudspeakers_that_never_go_on_stop_nothing() {
    let (player, mut keeper, hand) = player(true);
    hand.hold(3.0);
    player.play(clicks(64.0));
    let heard = go_on(&player, &mut keeper, &hand, 2.5);
    // Half a second is what it waits for them.
    assert!((count(heard.last().unwrap()) - 8.0).abs() < 0.2, "{:?}", heard.last());
    assert_eq!(hand.clicks().len(), 0);
    go_on(&player, &mut keeper, &hand, 2.5);
    assert!(hand.clicks().len() >= 6);
}

#[test]
fn loudspeakers_that_go_in_play_stop_nothing_and_are_taken_again() {
    loudspeakers_go(0.0);
}

/// What is drawn was behind what they play by as much as they lag; it goes on from there, and does not leap.
#[test]
fn loudspeakers_that_lag_and_go_in_play_leave_no_gap() {
    loudspeakers_go(0.4);
}

#[track_caller]
fn loudspeakers_go(delay: f64) {
    let (player, mut keeper, hand) = player(true);
    player.set_delay(delay);
    player.play(clicks(64.0));
    let before = count(go_on(&player, &mut keeper, &hand, 1.0).last().unwrap());
    hand.set_there(false);
    let mut last = before;
    for heard in go_on(&player, &mut keeper, &hand, 1.0) {
        let now = count(&heard);
        assert!(now >= last && now < last + 0.1, "{last} to {now}");
        last = now;
    }
    assert!((last - before - 4.0).abs() < 0.5, "{before} to {last}");
    assert!(matches!(player.server(), Server::Missing(_)));
    let sounded = hand.clicks().len();
    hand.set_there(true);
    let heard = go_on(&player, &mut keeper, &hand, 2.0);
    assert!(count(heard.last().unwrap()) > last + 6.0 - 4.0 * delay);
    assert_eq!(player.server(), Server::There);
    assert!(hand.clicks().len() >= sounded + 5);
}

#[test]
fn what_was_asked_for_before_is_no_longer_told() {
    let (player, mut keeper, hand) = player(true);
    player.play(clicks(64.0));
    go_on(&player, &mut keeper, &hand, 1.0);
    player.play(Performance { from: 32.0, ..clicks(64.0) });
    let heard = go_on(&player, &mut keeper, &hand, 0.3);
    assert!(heard.iter().all(|heard| match heard {
        Heard::Nothing => true,
        Heard::Count(count) => *count >= 32.0,
        _ => false,
    }));
    assert!(count(heard.last().unwrap()) > 32.5);
    player.stop();
    assert!(go_on(&player, &mut keeper, &hand, 0.3).iter().all(|heard| *heard == Heard::Nothing));
    // A while later nothing is open any more, and it can be played again.
    go_on(&player, &mut keeper, &hand, 2.0);
    assert!(!hand.is_open());
    player.play(Performance { from: 8.0, counted_in: 4, ..clicks(64.0) });
    let heard = go_on(&player, &mut keeper, &hand, 0.5);
    assert!(heard.iter().any(|heard| matches!(heard, Heard::CountingIn(left) if *left > 2.0)));
    let heard = go_on(&player, &mut keeper, &hand, 1.0);
    assert!(count(heard.last().unwrap()) > 8.5);
}

#[test]
fn loudspeakers_that_lag_are_waited_for() {
    let (player, mut keeper, hand) = player(true);
    player.play(clicks(64.0));
    go_on(&player, &mut keeper, &hand, 1.0);
    player.set_delay(0.3);
    let heard = go_on(&player, &mut keeper, &hand, 1.0);
    let late = hand.heard_seconds() - hand.clicks()[0] - count(heard.last().unwrap()) / 4.0;
    assert!((late - 0.3).abs() < 0.001, "{late}");
}

#[test]
fn the_end_is_told_once_it_is_heard() {
    let (player, mut keeper, hand) = player(true);
    player.play(clicks(4.0));
    let heard = go_on(&player, &mut keeper, &hand, 2.0);
    let ended = heard.iter().position(|heard| *heard == Heard::Ended).unwrap();
    assert!(heard[..ended].iter().all(|heard| *heard != Heard::Ended));
    // Loudspeakers are opened first, and what lies ready ahead of what is heard comes before it too.
    assert!((ended as f64 * 0.01 - 1.0 - 2.0 * AHEAD).abs() < 0.15, "{ended}");
}

/// A drop-out takes as long as it takes: what is drawn waits, and is where the sound is after it.
#[test]
fn a_drop_out_is_waited_for() {
    let (player, mut keeper, hand) = player(true);
    player.play(clicks(64.0));
    go_on(&player, &mut keeper, &hand, 1.0);
    hand.hold(0.4);
    go_on(&player, &mut keeper, &hand, 1.0);
    let off = hand.heard_seconds() - hand.clicks()[0] - count(&player.heard()) / 4.0;
    assert!(off.abs() < 0.001, "{off}");
}
