//! Which key a letter sounds: the key signature (3.1.14) and the accidentals of the bar (4.2).

/// What is done to each letter, from C to B.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct LetterKeys {
    /// Sharps, or flats below 0.
    pub(super) sharps: i32,
    /// What the key does to each letter, and what the sharps or flats at the start of the stave do.
    signature: [i32; 7],
    drawn: [i32; 7],
    /// Accidentals that hold to the end of the bar, for a letter in all octaves (11.3): letter, and semitones.
    bar: Vec<(usize, i32)>,
    /// Those that stand on the stave, where each is for its own octave: octave and letter, and semitones.
    stave: Vec<((i32, usize), i32)>,
}

/// The letters in the order in which sharps come; flats come from the end.
const SHARPS: [usize; 7] = [3, 0, 4, 1, 5, 2, 6];
/// The semitones of each letter above C.
const SEMITONES: [i32; 7] = [0, 2, 4, 5, 7, 9, 11];

/// The clefs of the standard (4.6) that a K: field may name.
const CLEFS: [&str; 5] = ["treble", "alto", "tenor", "bass", "perc"];

/// What it may say of the stave besides (4.6).
const ON_THE_STAVE: [&str; 7] = ["clef=", "middle=", "transpose=", "octave=", "stafflines=", "m=", "t="];

fn letter_index(letter: char) -> usize {
    match letter.to_ascii_uppercase() {
        'C' => 0,
        'D' => 1,
        'E' => 2,
        'F' => 3,
        'G' => 4,
        'A' => 5,
        _ => 6,
    }
}

/// The octave of a letter with its marks, 0 from middle C up; as far as it can be heard.
fn clear_octave(letter: char, marks: i32) -> i32 {
    marks.clamp(-4, 4) + i32::from(letter.is_ascii_lowercase())
}

/// Where a letter stands on the stave: steps above middle C.
pub(super) fn stave_step(letter: char, marks: i32) -> i32 {
    7 * clear_octave(letter, marks) + i32::try_from(letter_index(letter)).unwrap_or(0)
}

impl LetterKeys {
    /// Reads the value of a K: field; one that names no key leaves what there was. Gives what of it is for a stave that is not drawn
    /// here, such as its clef.
    pub(super) fn set<'a>(&mut self, value: &'a str) -> Option<&'a str> {
        let is_stave = |word: &&str| {
            let named = |name: &&str| word.starts_with(*name);
            CLEFS.iter().any(named) || ON_THE_STAVE.iter().any(named)
        };
        let words = || value.split_whitespace();
        let stave = words().find(is_stave).filter(|word| !matches!(*word, "treble" | "clef=treble"));
        if words().next().is_none_or(|first| is_stave(&first)) {
            return stave;
        }
        let is_none = value.starts_with("none");
        let is_explicit = words().any(|word| word == "exp");
        match sharps_of(value) {
            Some(_) if is_explicit => self.sharps = 0,
            Some(sharps) => self.sharps = sharps,
            None if is_none => self.sharps = 0,
            None => return stave,
        }
        for (place, letter) in (0..).zip(SHARPS) {
            if let Some(shift) = self.drawn.get_mut(letter) {
                *shift = i32::from(self.sharps > place) - i32::from(-self.sharps > 6 - place);
            }
        }
        self.signature = self.drawn;
        // Accidentals of its own, such as ^f; those stand before the notes on the stave.
        for word in words().filter(|word| !is_stave(word)) {
            let mut shift = None;
            for letter in word.chars() {
                match letter {
                    '^' => shift = Some(shift.unwrap_or(0) + 1),
                    '_' => shift = Some(shift.unwrap_or(0) - 1),
                    '=' => shift = Some(0),
                    'A'..='G' | 'a'..='g' => {
                        if let Some((own, shift)) =
                            self.signature.get_mut(letter_index(letter)).zip(shift.take())
                        {
                            *own = shift.clamp(-2, 2);
                        }
                    }
                    _ => shift = None,
                }
            }
        }
        stave
    }

    /// The key that a letter sounds with an octave mark and an accidental, 60 for middle C; and the accidental that stands before it
    /// on the stave, which may be one that was written in another octave.
    pub(super) fn key(&mut self, letter: char, octave: i32, marked: Option<i32>) -> (u8, Option<i32>) {
        let index = letter_index(letter);
        let octave = clear_octave(letter, octave);
        let place = (octave, index);
        if let Some(shift) = marked {
            self.bar.retain(|(other, _)| *other != index);
            self.bar.push((index, shift));
        }
        let signed = self.signature.get(index).copied().unwrap_or(0);
        let own = self.bar.iter().find(|(other, _)| *other == index).map(|(_, shift)| *shift);
        let shift = own.unwrap_or(signed);
        let drawn = self.drawn.get(index).copied().unwrap_or(0);
        let stands = self.stave.iter().find(|(other, _)| *other == place).map_or(drawn, |(_, shift)| *shift);
        let accidental = marked.or((stands != shift).then_some(shift));
        if let Some(shift) = accidental {
            self.stave.retain(|(other, _)| *other != place);
            self.stave.push((place, shift));
        }
        let key = 60 + 12 * octave + SEMITONES.get(index).copied().unwrap_or(0) + shift.clamp(-2, 2);
        (key.clamp(0, 127) as u8, accidental)
    }

    /// Accidentals end with their bar.
    pub(super) fn end_bar(&mut self) {
        self.bar.clear();
        self.stave.clear();
    }
}

/// How many sharps a key has, or flats below 0.
fn sharps_of(value: &str) -> Option<i32> {
    let mut letters = value.trim().chars();
    // The tonic's place in the circle of fifths as a major key.
    let major = match letters.next()? {
        'F' => -1,
        'C' => 0,
        'G' => 1,
        'D' => 2,
        'A' => 3,
        'E' => 4,
        'B' => 5,
        // The pipes' own scale has two sharps.
        'H' => return Some(2),
        _ => return None,
    };
    let rest = letters.as_str();
    let (accidental, rest) = match rest.chars().next() {
        Some('#') => (7, rest.get(1..).unwrap_or_default()),
        Some('b') => (-7, rest.get(1..).unwrap_or_default()),
        _ => (0, rest),
    };
    let mode: String = rest.trim_start().chars().take(3).collect::<String>().to_lowercase();
    let mode = match mode.as_str() {
        "lyd" => 1,
        "mix" => -1,
        "dor" => -2,
        "min" | "aeo" => -3,
        "phr" => -4,
        "loc" => -5,
        mode if mode == "m" || mode.starts_with("m ") => -3,
        _ => 0,
    };
    Some((major + accidental + mode).clamp(-7, 7))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The keys of the ABC standard 2.1, 3.1.14 (abcnotation.com, December 2011), whose table has
    /// these lines.
    #[test]
    fn signatures_are_those_of_the_standard() {
        for (sharps, keys) in [
            (7, "C# A#m G#Mix D#Dor E#Phr F#Lyd B#Loc"),
            (2, "D Bm AMix EDor F#Phr GLyd C#Loc"),
            (1, "G Em DMix ADor BPhr CLyd F#Loc"),
            (0, "C Am GMix DDor EPhr FLyd BLoc"),
            (-3, "Eb Cm BbMix FDor GPhr AbLyd DLoc"),
        ] {
            for key in keys.split(' ') {
                assert_eq!(sharps_of(key), Some(sharps), "{key}");
            }
        }
        assert_eq!(sharps_of("E minor"), Some(1));
        assert_eq!(sharps_of("none"), None);
        let mut keys = LetterKeys::default();
        keys.set("Bb");
        assert_eq!(keys.signature, [0, 0, -1, 0, 0, 0, -1]);
        keys.set("D");
        assert_eq!(keys.signature, [1, 0, 0, 1, 0, 0, 0]);
        // Its examples of accidentals, and a clef alone.
        assert_eq!(keys.set("D Phr ^f"), None);
        assert_eq!((keys.sharps, keys.signature), (-2, [0, 0, -1, 1, 0, 0, -1]));
        assert_eq!(keys.set("D exp _b _e ^f"), None);
        assert_eq!((keys.sharps, keys.signature), (0, [0, 0, -1, 1, 0, 0, -1]));
        assert_eq!(
            (keys.set("Dmix=c octave=-1"), keys.signature),
            (Some("octave=-1"), [0, 0, 0, 1, 0, 0, 0])
        );
        assert_eq!(keys.set("D exp _b_e ^f"), None);
        assert_eq!(keys.set("clef=alto"), Some("clef=alto"));
        assert_eq!(keys.signature, [0, 0, -1, 1, 0, 0, -1]);
        assert_eq!((keys.set("none"), keys.signature), (None, [0; 7]));
    }

    /// To the end of the bar and in all octaves (4.2, 11.3); on the stave each octave has its own sign.
    #[test]
    fn accidentals_hold_to_the_end_of_the_bar() {
        let mut keys = LetterKeys::default();
        keys.set("G");
        let mut key = |letter, octave, marked| keys.key(letter, octave, marked);
        assert_eq!(
            (key('C', 0, None), key('F', 0, None), key('f', 0, None)),
            ((60, None), (66, None), (78, None))
        );
        assert_eq!((key('F', 0, Some(0)), key('F', 0, None)), ((65, Some(0)), (65, None)));
        assert_eq!((key('f', 0, None), key('f', 0, None)), ((77, Some(0)), (77, None)));
        keys.end_bar();
        let mut key = |letter, octave| keys.key(letter, octave, None);
        assert_eq!((key('F', 0), key('C', -1), key('c', 1)), ((66, None), (48, None), (84, None)));
    }
}
