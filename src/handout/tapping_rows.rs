use crate::motion::{Motion, Span};
use crate::words::{MetSaid, met_said};

/// A row of a tapping page: a bar, or bars that are alike.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Row {
    /// `1`, or `1–2, 5–6`.
    pub bars: String,
    /// What meets on each count of the bar.
    pub cells: Vec<Vec<Said>>,
}

/// What stands in a cell.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Said {
    pub who: String,
    pub how: String,
}

impl Row {
    /// The row for those who cannot see it.
    pub fn told(&self) -> String {
        let cells = self.cells.iter().zip(1..).filter(|(cell, _)| !cell.is_empty()).map(|(cell, count)| {
            let said: Vec<String> = cell.iter().map(|said| format!("{}, {}", said.who, said.how)).collect();
            format!("count {count}: {}", said.join("; "))
        });
        let bars = if self.bars.chars().all(|letter| letter.is_ascii_digit()) { "Bar" } else { "Bars" };
        format!("{bars} {}: {}.", self.bars, cells.collect::<Vec<_>>().join("; "))
    }
}

/// The bars of a figure in which something meets, in order; those that are alike are one row, where the first of them is.
pub(super) fn rows(motion: &Motion, span: &Span) -> Vec<Row> {
    let bars = span.bar_counts();
    let mut found: Vec<(Vec<u32>, Vec<Vec<Said>>)> = Vec::new();
    for bar in 0..bars.bars() {
        let (begin, end) = (bars.begin_of(bar), bars.begin_of(bar + 1));
        let met = met_said(motion, span, (begin, end));
        if met.is_empty() {
            continue;
        }
        let mut cells = vec![Vec::new(); bars.in_bar(bar) as usize];
        for said in met {
            let count = said.at - begin;
            if let Some(cell) = cells.get_mut((count + 1e-3).max(0.0) as usize) {
                cell.push(cell_of(said, count));
            }
        }
        match found.iter_mut().find(|(_, known)| *known == cells) {
            Some((alike, _)) => alike.push(bar + 1),
            None => found.push((vec![bar + 1], cells)),
        }
    }
    found.into_iter().map(|(alike, cells)| Row { bars: ranges(&alike), cells }).collect()
}

/// What stands in the cell of the count before it: between two counts also when.
fn cell_of(said: MetSaid, count: f64) -> Said {
    let between = (count - count.round()).abs() > 1e-3;
    let when =
        if between { format!(" at {}", ((count + 1.0) * 100.0).round() / 100.0) } else { String::new() };
    let stays = (said.stays * 100.0).round() / 100.0;
    let stay = match stays {
        0.0 => String::new(),
        1.0 => ", stay 1 count".to_owned(),
        stays => format!(", stay {stays} counts"),
    };
    Said { who: said.who, how: format!("{}{stay}{when}", said.how) }
}

/// Numbers that grow as ranges: `1–3, 5`.
fn ranges(numbers: &[u32]) -> String {
    let runs = numbers.chunk_by(|one, other| one + 1 == *other);
    let words = runs.filter_map(|run| match (run.first()?, run.last()?) {
        (first, last) if first == last => Some(first.to_string()),
        (first, last) => Some(format!("{first}–{last}")),
    });
    words.collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bars_in_a_row_are_ranges() {
        assert_eq!(ranges(&[1, 2, 5, 6]), "1–2, 5–6");
        assert_eq!((ranges(&[3]), ranges(&[1, 3])), ("3".to_owned(), "1, 3".to_owned()));
    }
}
