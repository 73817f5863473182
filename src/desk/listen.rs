use super::Desk;
use crate::dance::{Air, BarCounts, Dance, Entry, Figure, Set, Tune};
use crate::figures::motion_of;
use crate::motion::Clock;
use crate::sound::{Performance, sounds};

/// The tune by itself, as its strains are played once through.
impl Desk {
    /// What is listened to beside the dance.
    #[must_use]
    pub fn listening(&self) -> Option<&Performance> {
        self.listening.as_ref()
    }

    /// Has the tune heard by itself, or no more.
    pub(super) fn listen(&mut self) {
        self.rest();
        if self.listening.take().is_some() {
            return;
        }
        self.listening = tune_alone(self.now.dance())
            .map(|performance| Performance { speed: self.player.tempo, ..performance });
        if self.listening.is_none() {
            self.notice = Some("There is no tune to listen to that can be read".to_owned());
        }
    }
}

/// The strains of a dance's tune once through, as often as they are repeated or in the order that the dance says; nothing where it has
/// no tune that can be read.
fn tune_alone(dance: &Dance) -> Option<Performance> {
    let tune = Tune::read(&dance.music.abc).ok()?;
    let repeated = tune.strains.iter().flat_map(|strain| {
        std::iter::repeat_n(
            strain.name.clone(),
            if strain.repeated { strain.again.len().max(1) + 1 } else { 1 },
        )
    });
    let known = dance.music.played.iter().filter(|name| tune.strain(name).is_some()).cloned();
    let known: Vec<String> = known.collect();
    let through: Vec<String> = if known.is_empty() { repeated.collect() } else { known };
    // A dance in which everybody stands for as long.
    let mut alone = Dance::new("", Set::longways(2, 2.0, 2.0));
    alone.music = dance.music.clone();
    for strain in &tune.strains {
        let bars = strain.bars.max(1);
        alone.figures.push(Figure::drawn(&strain.name, &strain.name, bars));
    }
    alone.order =
        through.into_iter().map(|name| Entry { strain: name.clone(), ..Entry::of(&name) }).collect();
    let motion = motion_of(&alone, None).ok()?;
    let bars: &BarCounts = motion.bar_counts();
    let air = Air::of(&alone, bars, motion.spans().iter().map(|span| (span.first_bar, span.bars)));
    let clock = Clock::of_dance(&alone, &motion);
    let end = motion.counts();
    Some(Performance {
        sounds: sounds(air.as_ref(), &clock, (0.0, end)).into(),
        clock,
        from: 0.0,
        end,
        round: None,
        speed: 1.0,
        counted_in: 0,
    })
}
