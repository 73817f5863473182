//! In which order the bars of a tune are played: its repeats (ABC standard 2.1, 4.8), its endings (4.9, 4.10), and the order
//! of its parts (3.1.9).

use super::abc::{At, Event};

/// What is played, maybe more than once, before the tune goes on: bars by their places among the events.
#[derive(Default)]
pub(super) struct Passage {
    pub body: Vec<usize>,
    /// Each with the times that it is for, from 1.
    pub endings: Vec<(Vec<u32>, Vec<usize>)>,
    /// How often it is played, as its repeat signs have it; 0 where there are none.
    pub passes: u32,
    /// The part that it is of, from 1; 0 before the first.
    pub part: usize,
}

/// The most times that a strain is played with endings of their own.
pub(super) const MOST_TIMES: u32 = 16;
/// The most bars that are played.
const MOST_BARS: usize = 20_000;
/// The most parts that are played.
const MOST_PARTS: usize = 1_000;

/// The times that an ending is for: `1`, `1,3` or `1-3` (4.10).
pub(super) fn times_of(numbers: &str) -> Vec<u32> {
    let mut times = Vec::new();
    for part in numbers.split(',') {
        let (first, last) = part.split_once('-').unwrap_or((part, part));
        if let (Ok(first), Ok(last)) = (first.trim().parse::<u32>(), last.trim().parse::<u32>()) {
            times.extend(first.max(1)..=last.min(MOST_TIMES));
        }
    }
    times
}

/// The places of the bars among the events of a tune, in the order in which they are played.
pub(super) fn in_playing_order(events: &[At], order: &str) -> Vec<usize> {
    let (passages, names) = passages(events);
    let order = expanded(order);
    let mut played = Vec::new();
    if order.is_empty() || names.is_empty() {
        for passage in &passages {
            passage.play(&mut played);
        }
        return played;
    }
    // What stands before the first part is played before them all.
    let of_part = |part: usize| passages.iter().filter(move |passage| passage.part == part);
    of_part(0).for_each(|passage| passage.play(&mut played));
    let part_of = |letter: char| names.iter().position(|name| name.starts_with(letter));
    // One after the other: A A B A is twice A, B, and A.
    for run in order.chunk_by(|one, other| one == other) {
        let Some(part) = run.first().and_then(|letter| part_of(*letter)) else { continue };
        let all = run.len() as u32;
        for time in 1..=all {
            of_part(part + 1).for_each(|passage| passage.play_in_part((time, all), &mut played));
        }
    }
    played
}

impl Passage {
    fn is_empty(&self) -> bool {
        self.body.is_empty() && self.endings.is_empty()
    }

    fn once(&self, time: u32, played: &mut Vec<usize>) {
        let ending = self.endings.iter().find(|(times, _)| times.contains(&time));
        if played.len() < MOST_BARS {
            played.extend(self.body.iter().chain(ending.into_iter().flat_map(|(_, bars)| bars)));
        }
    }

    /// As often as its signs and its endings have it.
    fn play(&self, played: &mut Vec<usize>) {
        (1..=self.times().max(self.passes)).for_each(|time| self.once(time, played));
    }

    /// How often its endings have it played.
    fn times(&self) -> u32 {
        self.endings.iter().flat_map(|(times, _)| times).max().copied().unwrap_or(1)
    }

    /// In a part that is played for one of so many times: where it is played as often as it has endings, those are for the times
    /// of the part (4.10).
    fn play_in_part(&self, (time, all): (u32, u32), played: &mut Vec<usize>) {
        let last = self.times();
        if last > 1 && all >= last {
            self.once((time - 1) % last + 1, played);
        } else {
            self.play(played);
        }
    }
}

/// The passages of a tune, of which its strains are made too, and the names of its parts in the order in which they are written.
pub(super) fn passages(events: &[At]) -> (Vec<Passage>, Vec<String>) {
    let (mut made, mut names) = (Vec::new(), Vec::new());
    let mut now = Passage::default();
    let (mut splits, mut in_repeat, mut passes) = (false, false, 0);
    for (index, (_, event)) in events.iter().enumerate() {
        match event {
            Event::Bar(_) => {
                if std::mem::take(&mut splits) && !now.is_empty() {
                    made.push(std::mem::take(&mut now));
                }
                now.part = names.len();
                now.endings.last_mut().map_or(&mut now.body, |(_, bars)| bars).push(index);
            }
            Event::Line { ends, starts, double, .. } => {
                if *ends > 0 {
                    now.passes = now.passes.max(ends + 1).max(std::mem::take(&mut passes));
                    in_repeat = false;
                }
                splits |= *ends > 0 || *starts > 0 || (*double && (!in_repeat || !now.endings.is_empty()));
                if *starts > 0 {
                    (in_repeat, passes) = (true, (starts + 1).min(MOST_TIMES));
                }
            }
            Event::Ending(numbers) => {
                splits = false;
                now.endings.push((times_of(numbers), Vec::new()));
            }
            Event::Part(name) => {
                (splits, in_repeat) = (true, false);
                names.push(name.trim().to_owned());
            }
            Event::Break => {}
        }
    }
    made.push(now);
    (made, names)
}

/// What a strain is called that the tune gives no name: A, B, ... Z, A2, B2 and so on.
pub(super) fn letter(index: usize) -> String {
    let letter = char::from(b'A' + (index % 26) as u8);
    if index < 26 { letter.to_string() } else { format!("{letter}{}", index / 26 + 1) }
}

/// The order of the parts with all its repeats: `A2(BC)2` is A A B C B C.
pub(super) fn expanded(order: &str) -> Vec<char> {
    // What is gathered of each bracket that is open, the innermost last.
    let mut open: Vec<Vec<char>> = vec![Vec::new()];
    let mut last: Vec<char> = Vec::new();
    let mut number = 0;
    for letter in order.chars().chain(['.']) {
        if let Some(digit) = letter.to_digit(10) {
            number = (number * 10 + digit).min(MOST_PARTS as u32);
            continue;
        }
        if let Some(gathered) = open.last_mut() {
            let room = MOST_PARTS.saturating_sub(gathered.len());
            let all = last.iter().cycle().take(last.len() * number.max(1) as usize);
            gathered.extend(all.take(room));
        }
        (number, last) = (0, Vec::new());
        match letter {
            '(' => open.push(Vec::new()),
            ')' if open.len() > 1 => last = open.pop().unwrap_or_default(),
            letter if letter.is_alphabetic() => last = vec![letter],
            _ => {}
        }
    }
    open.concat()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The examples of the standard, 3.1.9.
    #[test]
    fn the_order_of_parts_is_written_short() {
        let expanded = |order: &str| expanded(order).into_iter().collect::<String>();
        assert_eq!(expanded("AABB"), "AABB");
        assert_eq!(expanded("A3"), "AAA");
        assert_eq!(expanded("(AB)3(CD)3"), "ABABABCDCDCD");
        assert_eq!(expanded("((AB)3.(CD)3)2"), "ABABABCDCDCDABABABCDCDCD");
        assert_eq!(expanded("A (B. C)2 ) D"), "ABCBCD");
        assert_eq!(expanded(&format!("{}A{}", "(".repeat(30), "99)".repeat(30))).len(), MOST_PARTS);
    }
}
