/// Seconds for which what is heard stands still while loudspeakers are opened, before it goes on without them.
const PATIENCE: f64 = 0.5;
/// An answer that took longer than this, seconds, does not say when it was true.
const SLOW: f64 = 0.05;
/// An answer this far from what was expected, seconds, counts once the next one says the same.
const FAR: f64 = 0.02;
/// How much of what an answer is off by is taken over, at the least: so the unevenness of answers is evened out.
const LEAST_SHARE: f64 = 0.1;

/// What a stream says of itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Timing {
    /// When it was asked, and when the answer was there, seconds of one clock that never runs back.
    pub asked: f64,
    /// When the answer was there.
    pub came: f64,
    /// Samples of the stream that had been heard then; below nought before its first is heard.
    pub heard: f64,
    /// Whether it goes on, or waits for something.
    pub moves: bool,
}

/// Which sample is heard at a time. The loudspeakers lead: it is told now and then what has been heard of them, evens the answers
/// out and goes on evenly between them. Without loudspeakers it goes by the time. It never runs back.
pub struct HeardClock {
    rate: f64,
    going: Going,
    /// The furthest sample that it has given.
    given: f64,
}

#[derive(Clone, Copy)]
enum Going {
    /// Stands still since a time, seconds; where a stream has begun, with the sample that was its first.
    Waits { since: f64, first: Option<f64> },
    /// Goes by the time, from a sample at a time.
    Alone { at: f64, sample: f64 },
    /// Is led by a stream.
    Led(Line),
}

/// What the answers of a stream come to.
#[derive(Clone, Copy)]
struct Line {
    /// The sample that is the stream's first.
    first: f64,
    /// A sample that is heard at a time, seconds.
    at: f64,
    sample: f64,
    /// Whether it goes on from there.
    moves: bool,
    /// How many answers it is made of.
    answers: u32,
    /// What the last answer was off by, seconds, if it was too far off to be believed by itself.
    odd: Option<f64>,
}

impl HeardClock {
    /// For so many samples a second; at first it goes by the time.
    #[must_use]
    pub fn new(rate: f64, now: f64) -> Self {
        Self { rate, going: Going::Alone { at: now, sample: 0.0 }, given: 0.0 }
    }

    /// Stands still from now on, as loudspeakers are being opened; not for long, though.
    pub fn wait(&mut self, now: f64) {
        self.heard(now);
        self.going = Going::Waits { since: now, first: None };
    }

    /// Goes on by the time from what is heard now, so many seconds later than the stream says. No sample beyond those that have been made was
    /// heard: it does not leap over them.
    pub fn go_alone(&mut self, now: f64, late: f64, made: f64) {
        self.heard(now - late);
        self.no_further(made);
        self.going = Going::Alone { at: now, sample: self.given };
    }

    /// A stream has begun, whose first sample is this one.
    pub fn begin(&mut self, first: f64, now: f64) {
        self.heard(now);
        self.going = Going::Waits { since: now, first: Some(first) };
    }

    /// Whether it goes by the time, with no stream to lead it.
    #[must_use]
    pub fn is_alone(&self) -> bool {
        matches!(self.going, Going::Alone { .. })
    }

    /// Takes what the stream says.
    pub fn take(&mut self, told: Timing) {
        let at = f64::midpoint(told.asked, told.came);
        let anew = |first: f64| Line {
            first,
            at,
            sample: first + told.heard,
            moves: told.moves,
            answers: 1,
            odd: None,
        };
        match &mut self.going {
            Going::Waits { first: Some(first), .. } => {
                // Before its first sample is on its way a stream has nothing to say of when it is heard.
                if told.moves {
                    self.going = Going::Led(anew(*first));
                }
            }
            Going::Led(line) if !told.moves || !line.moves => *line = anew(line.first),
            Going::Led(line) => {
                if told.came - told.asked > SLOW {
                    return;
                }
                let expected = line.sample + (at - line.at) * self.rate;
                let off = line.first + told.heard - expected;
                let seconds = off / self.rate;
                if seconds.abs() > FAR {
                    if line.odd.is_some_and(|odd| (odd - seconds).abs() < FAR / 2.0) {
                        *line = anew(line.first);
                    } else {
                        line.odd = Some(seconds);
                    }
                    return;
                }
                line.answers = line.answers.saturating_add(1);
                let share = (1.0 / f64::from(line.answers)).max(LEAST_SHARE);
                (line.at, line.sample, line.odd) = (at, expected + share * off, None);
            }
            Going::Waits { .. } | Going::Alone { .. } => {}
        }
    }

    /// The sample that is heard now, with its share.
    pub fn heard(&mut self, now: f64) -> f64 {
        if let Going::Waits { since, first: None } = self.going
            && now > since + PATIENCE
        {
            self.going = Going::Alone { at: since + PATIENCE, sample: self.given };
        }
        let reckoned = match self.going {
            Going::Waits { .. } => self.given,
            Going::Alone { at, sample } => sample + (now - at) * self.rate,
            Going::Led(Line { at, sample, moves, .. }) => {
                sample + if moves { (now - at) * self.rate } else { 0.0 }
            }
        };
        self.given = self.given.max(reckoned);
        self.given
    }

    /// No sample beyond this one has been made: what is heard waits for it.
    pub fn no_further(&mut self, made: f64) {
        self.given = self.given.min(made);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const RATE: f64 = 48_000.0;

    /// An answer that was there at once.
    fn told(at: f64, heard: f64) -> Timing {
        Timing { asked: at, came: at, heard, moves: true }
    }

    /// A clock that has gone so many samples by the time, and then began a stream at a second.
    fn begun() -> HeardClock {
        let mut clock = HeardClock::new(RATE, 0.0);
        assert!((clock.heard(1.0) - RATE).abs() < 1e-6);
        clock.begin(RATE, 1.0);
        clock
    }

    #[test]
    fn it_waits_for_a_stream_follows_it_and_goes_on_from_there_without_it() {
        let mut clock = begun();
        assert_eq!(clock.heard(1.3), RATE, "nothing is heard of the stream yet");
        // Nothing has been heard of it, and its first sample is on its way for 80 thousandths.
        clock.take(told(1.3, -0.08 * RATE));
        assert_eq!(clock.heard(1.35), RATE);
        assert!((clock.heard(1.5) - (1.0 + 0.12) * RATE).abs() < 1e-6);
        assert!(!clock.is_alone());
        clock.go_alone(1.6, 0.0, 9.0 * RATE);
        assert!((clock.heard(2.6) - (1.0 + 1.22) * RATE).abs() < 1e-6);
        assert!(clock.is_alone());
        // It stood at the last sample that was made, and goes on from there.
        let mut clock = begun();
        clock.take(told(1.0, 0.0));
        clock.go_alone(1.6, 0.0, 1.2 * RATE);
        assert!((clock.heard(1.7) - 1.3 * RATE).abs() < 1e-6);
    }

    #[test]
    fn loudspeakers_that_do_not_come_are_not_waited_for_long() {
        let mut clock = HeardClock::new(RATE, 0.0);
        clock.wait(2.0);
        assert_eq!(clock.heard(2.4), 2.0 * RATE);
        assert!((clock.heard(3.0) - 2.5 * RATE).abs() < 1e-6);
        assert!(clock.is_alone());
    }

    /// Where a server runs dry it says that it waits; what is heard stands still until it goes on.
    #[test]
    fn it_stands_still_in_a_drop_out() {
        let mut clock = begun();
        clock.take(told(1.0, 0.0));
        let before = clock.heard(1.2);
        clock.take(Timing { moves: false, ..told(1.2, 0.2 * RATE) });
        assert!((clock.heard(1.5) - before).abs() < 1e-6);
        clock.take(told(1.5, 0.2 * RATE));
        assert!((clock.heard(1.6) - (before + 0.1 * RATE)).abs() < 1e-6);
    }

    /// One wild answer moves nothing; two that say the same are believed.
    #[test]
    fn a_jump_is_believed_when_it_is_told_twice() {
        let mut clock = begun();
        clock.take(told(1.0, 0.0));
        clock.take(told(1.1, 0.4 * RATE));
        assert!((clock.heard(1.1) - 1.1 * RATE).abs() < 1e-6);
        clock.take(told(1.2, 0.2 * RATE));
        assert!((clock.heard(1.2) - 1.2 * RATE).abs() < 1e-6);
        clock.take(told(1.3, 0.6 * RATE));
        clock.take(told(1.4, 0.7 * RATE));
        assert!((clock.heard(1.5) - 1.8 * RATE).abs() < 1e-6);
        // Back again: it stands still until it is there.
        clock.take(told(1.6, 0.6 * RATE));
        clock.take(told(1.7, 0.7 * RATE));
        let before = clock.heard(1.7);
        assert!((clock.heard(1.75) - before).abs() < 1e-6);
        assert!((clock.heard(2.5) - 2.5 * RATE).abs() < 1e-6);
    }

    #[test]
    fn an_answer_that_took_long_says_nothing() {
        let mut clock = begun();
        clock.take(told(1.0, 0.0));
        clock.take(Timing { asked: 1.0, came: 1.2, heard: 0.115 * RATE, moves: true });
        assert!((clock.heard(1.3) - 1.3 * RATE).abs() < 1e-6);
    }

    proptest! {
        /// However uneven the answers are, and however often it is asked between them, it never runs back; once some have come it
        /// is as near to the truth as their mean is, also where the server's samples are a little longer than a second has them.
        #[test]
        fn it_never_runs_back_and_evens_answers_out(
            off in prop::collection::vec(-0.008..0.008_f64, 60),
            drift in -0.0005..0.0005_f64,
        ) {
            let mut clock = begun();
            let truth = |now: f64| RATE + (now - 1.0 - 0.05) * RATE * (1.0 + drift);
            let mut before = 0.0;
            for (index, off) in off.iter().enumerate() {
                let at = 1.0 + 0.1 * index as f64;
                clock.take(told(at, truth(at) - RATE + off * RATE));
                for more in 0..10 {
                    let now = at + 0.01 * f64::from(more);
                    let heard = clock.heard(now);
                    prop_assert!(heard >= before);
                    before = heard;
                    let apart = (heard - truth(now)).abs() / RATE;
                    prop_assert!(index < 20 || apart < 0.005, "{apart} s at {now}");
                }
            }
        }
    }
}
