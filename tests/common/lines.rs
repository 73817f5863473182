//! A dance with a running order to work on.

use bellpad::dance::{Dance, Entry, Extra, Figure, Leg, Part, Set, Strain};
use bellpad::figures::named_figure;

/// Six in two files, and figures in this order: lanterns (drawn: between three counts 1 goes in and home again), a hey and
/// a crossing. A figure of the file, `old`, is danced only if the order says so; the tune has two strains.
pub fn lines(title: &str, [begin, inside, home]: [f64; 3], order: &[&str]) -> Dance {
    let mut dance = Dance::new(title, Set::longways(6, 2.4, 1.8));
    let mut lanterns = Figure::drawn("lanterns", "Lanterns", 8);
    let mut part = Part::still(1);
    part.legs.push(Leg::straight(begin, inside, -0.8, 1.8));
    part.legs.push(Leg::straight(inside, home, -1.2, 1.8));
    lanterns.parts.push(part);
    dance.figures.push(lanterns);
    dance.figures.push(named_figure("hey", Extra::new(), &dance.set).unwrap());
    dance.figures.push(named_figure("cross-over", Extra::new(), &dance.set).unwrap());
    dance.figures.push(Figure::drawn("old", "Old ending", 4));
    dance.order = order.iter().map(|id| Entry::of(id)).collect();
    for name in ["A", "B"] {
        dance.music.strains.push(Strain {
            name: name.to_owned(),
            bars: 8,
            metre: None,
            speeds: Vec::new(),
            extra: Extra::new(),
        });
    }
    dance
}
