use crate::dance::{Dance, Tune, TuneStrain};
use crate::motion::Motion;
use serde_json::{Value, json};

/// Parts of a bar in which times are kept: every metre's notes fall on them.
const BAR_PARTS: f64 = 480.0;

/// The tune for the page: the strains with their notes (begin and length in parts of a bar, and key), and which of them
/// begins at which bar of the dance. A strain is played again for as long as its line of the running order lasts; where
/// no line names a strain the tune goes on, each strain as often as it is repeated.
pub(super) fn airs(dance: &Dance, motion: &Motion) -> Value {
    let Some(tune) = Tune::read(&dance.music.abc).ok().filter(|_| !dance.music.abc.trim().is_empty()) else {
        return json!({"parts": BAR_PARTS as u32, "strains": [], "at": []});
    };
    let part = |bars: f64| (bars * BAR_PARTS).round() as i64;
    let strains: Vec<Value> = tune
        .strains
        .iter()
        .map(|strain| {
            let notes: Vec<i64> = strain
                .notes
                .iter()
                .flat_map(|note| [part(note.begin), part(note.length), i64::from(note.key)])
                .collect();
            json!({"name": strain.name, "bars": strain.bars, "notes": notes})
        })
        .collect();
    json!({"parts": BAR_PARTS as u32, "strains": strains, "at": begins(dance, motion, &tune.strains)})
}

/// The bar at which each playing of a strain begins, which strain it is, and how many of its bars are played.
fn begins(dance: &Dance, motion: &Motion, strains: &[TuneStrain]) -> Vec<[u32; 3]> {
    let entries: Vec<_> =
        dance.order.iter().filter(|entry| dance.figure_index(&entry.figure).is_some()).collect();
    // The tune once through, for lines that name no strain.
    let listed: Vec<usize> = dance
        .music
        .played
        .iter()
        .filter_map(|name| strains.iter().position(|strain| strain.name.eq_ignore_ascii_case(name.trim())))
        .collect();
    let through = if listed.is_empty() {
        strains
            .iter()
            .enumerate()
            .flat_map(|(index, strain)| std::iter::repeat_n(index, if strain.repeated { 2 } else { 1 }))
            .collect()
    } else {
        listed
    };
    let (mut at, mut next) = (Vec::new(), 0);
    for (index, span) in motion.spans().iter().enumerate() {
        let name = entries.get(index).map_or("", |entry| entry.strain.trim());
        let named = strains.iter().position(|strain| strain.name.eq_ignore_ascii_case(name));
        if named.is_none() && !name.is_empty() {
            // A strain that the tune has not: nothing but the click.
            continue;
        }
        let mut bar = 0;
        while bar < span.bars {
            let strain = named.or_else(|| through.get(next % through.len().max(1)).copied());
            let Some((strain, bars)) =
                strain.and_then(|index| Some((index, strains.get(index)?.bars.max(1))))
            else {
                break;
            };
            next += usize::from(named.is_none());
            at.push([span.first_bar + bar, strain as u32, bars.min(span.bars - bar)]);
            bar += bars;
        }
    }
    at
}
