use crate::dance::{Dance, Entry, Extra, Figure, Holding, Set, SetKind, check_rules, follow_tune};
use crate::figures::{self, motion_of, named_figure};

/// What to choose for a new dance.
#[derive(Clone, Debug)]
pub struct NewDance {
    /// What it is called.
    pub title: String,
    /// How they stand.
    pub kind: SetKind,
    /// How many dance.
    pub dancers: u32,
    /// What is held.
    pub holding: Holding,
    /// From file to file, metres.
    pub across: f64,
    /// From rank to rank, metres.
    pub along: f64,
    /// The tune that it is danced to, in ABC notation; blank for none.
    pub tune: String,
    /// The named figures, each with whether it is to be in it.
    pub figures: Vec<(&'static str, bool)>,
}

/// From file to file and from rank to rank with what is held, metres.
fn usual_measures(holding: Holding) -> (f64, f64) {
    match holding {
        Holding::Handkerchiefs => (Set::DEFAULT_ACROSS, Set::DEFAULT_ALONG),
        Holding::Sticks => (1.2, 1.2),
        Holding::Nothing => (0.9, 0.9),
    }
}

/// What a dance is called before somebody says what.
pub const NEW_DANCE: &str = "New dance";

impl Default for NewDance {
    fn default() -> Self {
        Self {
            title: NEW_DANCE.to_owned(),
            kind: SetKind::Longways,
            dancers: 6,
            holding: Holding::default(),
            across: Set::DEFAULT_ACROSS,
            along: Set::DEFAULT_ALONG,
            tune: String::new(),
            figures: figures::all().map(|figure| (figure.name, false)).to_vec(),
        }
    }
}

impl NewDance {
    /// Chooses what is held, with the measures that go with it where they are still those of what was held before: partners and ranks
    /// reach one another at 1.2 m with sticks and at 0.9 m with their hands (from memory).
    pub fn hold(&mut self, holding: Holding) {
        let (was, is) = (usual_measures(self.holding), usual_measures(holding));
        for (measure, (was, is)) in [(&mut self.across, (was.0, is.0)), (&mut self.along, (was.1, is.1))] {
            if (*measure - was).abs() < 1e-9 {
                *measure = is;
            }
        }
        self.holding = holding;
    }

    /// The dance with one figure to draw in.
    #[must_use]
    pub fn empty(&self) -> Dance {
        let set = Set { kind: self.kind, ..Set::longways(self.dancers, self.across, self.along) };
        let mut dance = Dance::new(NEW_DANCE, set);
        dance.holding = self.holding;
        dance.figures.push(Figure::drawn("figure-1", "Figure 1", 8));
        dance.order.push(Entry::of("figure-1"));
        dance
    }

    /// The dance as chosen.
    ///
    /// # Errors
    /// When the set cannot dance a figure chosen, its numbers cannot be, or the tune cannot be read.
    pub fn make(&self) -> Result<Dance, String> {
        let mut dance = self.empty();
        if !self.title.trim().is_empty() {
            self.title.trim().clone_into(&mut dance.title);
        }
        if !self.tune.trim().is_empty() {
            dance.music.abc.clone_from(&self.tune);
            dance.music =
                follow_tune(&dance.music).map_err(|error| format!("The tune cannot be read: {error}"))?;
        }
        let chosen: Vec<&str> =
            self.figures.iter().filter(|(_, chosen)| *chosen).map(|(name, _)| *name).collect();
        if !chosen.is_empty() {
            dance.figures.clear();
            dance.order.clear();
            for name in chosen {
                let figure =
                    named_figure(name, Extra::new(), &dance.set).map_err(|error| error.to_string())?;
                dance.order.push(Entry::of(&figure.id));
                dance.figures.push(figure);
            }
        }
        check_rules(&dance).map_err(|error| error.message)?;
        motion_of(&dance, None).map_err(|error| error.message)?;
        Ok(dance)
    }
}
