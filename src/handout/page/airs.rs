use crate::dance::{Air, Dance};
use crate::motion::Motion;
use serde_json::{Value, json};

/// Parts of a bar in which times are kept: notes fall on them, in 9/8 within two thousandths of a second.
const BAR_PARTS: f64 = 480.0;

/// The tune for the page: the strains with their notes (begin and length in parts of a bar, and key), and which of them
/// begins at which bar of the dance, and how many of its bars are played.
pub(super) fn airs(dance: &Dance, motion: &Motion) -> Value {
    let danced = motion.spans().iter().map(|span| (span.first_bar, span.bars));
    let Some(air) = Air::of(dance, danced) else {
        return json!({"parts": BAR_PARTS as u32, "strains": [], "at": []});
    };
    let part = |bars: f64| (bars * BAR_PARTS).round() as i64;
    let strains: Vec<Value> = air
        .tune
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
    let at: Vec<[u32; 3]> =
        air.playings.iter().map(|playing| [playing.first_bar, playing.strain as u32, playing.bars]).collect();
    json!({"parts": BAR_PARTS as u32, "strains": strains, "at": at})
}
