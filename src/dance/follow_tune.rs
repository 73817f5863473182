use super::limits::SPEEDS;
use super::{Extra, Metre, Music, Strain, Tune, TuneError};

/// Music whose metre, speed, upbeat and strains are those of its tune: what the tune says takes the place of what the dance said,
/// and of a strain whose name stays its own speeds stay where the tune says none within it.
///
/// # Errors
/// When the tune cannot be read; the error names the line.
pub fn follow_tune(music: &Music) -> Result<Music, TuneError> {
    let tune = Tune::read(&music.abc)?;
    let mut made = music.clone();
    made.metre = Metre::as_written(tune.metre).unwrap_or(music.metre);
    // A speed at which nobody dances is told, and not taken.
    let speed = tune.speed.map(f64::round).filter(|speed| (SPEEDS[0]..=SPEEDS[1]).contains(speed));
    made.speed = speed.unwrap_or(music.speed);
    made.upbeat = tune.upbeat_counts();
    made.strains.clear();
    for strain in &tune.strains {
        let alike = |known: &&Strain| known.name.eq_ignore_ascii_case(&strain.name);
        if made.strains.iter().any(|known| alike(&known)) {
            continue;
        }
        let known = music.strains.iter().find(alike).cloned();
        let new = || Strain {
            name: strain.name.clone(),
            bars: strain.bars,
            metre: None,
            speeds: Vec::new(),
            extra: Extra::new(),
        };
        // Its own metre is said where it is not the tune's.
        let own = strain.metre().and_then(Metre::as_written).filter(|metre| *metre != made.metre);
        let known = known.unwrap_or_else(new);
        let speeds = if strain.speeds.is_empty() { known.speeds } else { strain.speeds.clone() };
        made.strains.push(Strain { bars: strain.bars, metre: own, speeds, ..known });
    }
    if !tune.order.is_empty() {
        made.played.clone_from(&tune.order);
    }
    let is_there = |name: &String| made.strains.iter().any(|strain| strain.name == *name);
    if !made.played.iter().all(is_there) {
        made.played.clear();
    }
    Ok(made)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::SpeedChange;

    /// The order of its parts is the order in which it is played, each as often as it is repeated (ABC 2.1, 3.1.9 and 4.10).
    #[test]
    fn a_tune_says_in_which_order_its_strains_are_played() {
        let abc =
            "X:1\nM:2/4\nL:1/8\nP:A2(BA)2\nK:G\nP:A\nGB dB|[1 cA F2:|[2 cA G2|]\nP:B\n|:dB GB|c2 G2:|\n";
        let made = follow_tune(&Music { abc: abc.to_owned(), ..Music::default() }).unwrap();
        assert_eq!(made.played, ["A", "A", "B", "B", "A", "A", "B", "B", "A", "A"]);
        assert_eq!(follow_tune(&made).unwrap(), made, "what follows already stays");
        // Parts that hold several strains, or are not there, say nothing.
        for odd in ["P:AC", "P:A"] {
            let abc = abc.replace("P:A2(BA)2", odd);
            let made = follow_tune(&Music { abc, ..Music::default() }).unwrap();
            assert!(made.played.is_empty(), "{odd}: {:?}", made.played);
        }
    }

    #[test]
    fn a_tune_says_how_it_is_danced_to() {
        let abc = "X:1\nT:Test\nM:6/8\nL:1/8\nQ:3/8=112\nK:G\nD|:GAB d2B|cBA B2:||:d2d cBA|G3 G2:|\n";
        let before = Music { abc: abc.to_owned(), ..Music::default() };
        let made = follow_tune(&before).unwrap();
        assert_eq!((made.metre, made.speed, made.upbeat), (Metre::SixEight, 112.0, 1));
        let strains: Vec<(&str, u32)> =
            made.strains.iter().map(|strain| (strain.name.as_str(), strain.bars)).collect();
        assert_eq!(strains, [("A", 2), ("B", 2)]);
        assert_eq!(follow_tune(&made).unwrap(), made, "what follows already stays");
        assert!(follow_tune(&Music { abc: "words".to_owned(), ..before.clone() }).is_err());
        // The first part in 6/8, the second in 9/8; nobody dances at 900 a minute, and five quavers of 9/8 are four counts.
        let abc = "X:1\nM:6/8\nL:1/8\nQ:3/8=900\nK:G\nG3G3|A6|]\nM:9/8\nB9|c9|]\n";
        let made = follow_tune(&Music { abc: abc.to_owned(), ..before.clone() }).unwrap();
        let metres: Vec<Option<Metre>> = made.strains.iter().map(|strain| strain.metre).collect();
        assert_eq!((made.speed, metres), (before.speed, vec![None, Some(Metre::NineEight)]));
        let abc = "X:1\nM:9/8\nL:1/8\nK:G\nG5|A9|B9|]\n";
        assert_eq!(follow_tune(&Music { abc: abc.to_owned(), ..before }).unwrap().upbeat, 4);
    }

    /// `Q:` among the notes holds from there on (ABC 2.1, 3.1.8), for a strain each time it is played.
    #[test]
    fn a_tune_says_how_fast_each_strain_is_danced() {
        let follow = |notes: &str| {
            let abc = format!("X:1\nM:6/8\nL:1/8\nQ:3/8=100\nK:G\n{notes}\n");
            let made = follow_tune(&Music { abc, ..Music::default() }).unwrap();
            assert_eq!(follow_tune(&made).unwrap(), made, "what follows already stays");
            made.strains.into_iter().map(|strain| strain.speeds).collect::<Vec<_>>()
        };
        let at = |counts: &[(f64, f64)]| -> Vec<SpeedChange> {
            counts.iter().map(|(count, speed)| SpeedChange::at(*count, *speed)).collect()
        };
        // In the third bar, whose quavers 1, 3, 4 and 6 are counts [MB1]; B goes on so, and C is as fast as the head has it.
        let found =
            follow("D|:GAB d2B|cBA B2G|EGE [Q:3/8=80]D2E|G3 G2D:|\n|:ded B2d|G6:|\n[Q:3/8=100]|:G6|A6:|");
        assert_eq!(found, [at(&[(10.0, 80.0)]), at(&[(0.0, 80.0)]), at(&[])]);
        // The change is in the upbeat of B; two at one place; at the last quaver; and one at which nobody dances.
        let found = follow("|:G6|A6:|\n[Q:3/8=60]D|:G6|[Q:3/8=70][Q:3/8=90]A5 [Q:3/8=50]A:|\n[Q:3/8=900]G6|");
        assert_eq!(found, [at(&[]), at(&[(0.0, 60.0), (4.0, 90.0), (7.0, 50.0)]), at(&[])]);
        // With the first ending; the second follows what is before that, and so does the strain after the repeat.
        let found = follow("|:G6|A6|1 [Q:3/8=50]A6:|2 B6||\nG6|");
        assert_eq!(found, [at(&[(8.0, 50.0)]), at(&[])]);
        // In another metre the beat is another: 120 crotchets a minute are 60 minims.
        let found = follow("G6|A6|]\nM:2/2\nL:1/8\nQ:1/4=120\nG8|A8|]");
        assert_eq!(found, [at(&[]), at(&[(0.0, 60.0)])]);
    }
}
