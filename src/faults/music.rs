use super::{found::Found, look::Look};
use crate::dance::{Entry, FaultKind, Music, SpeedChange, Strain, Tune, shown_name};
use crate::motion::{Moment, Span, SpanIndex};

/// A line of the running order as it is danced.
struct DancedLine<'a> {
    index: SpanIndex,
    span: &'a Span,
    entry: &'a Entry,
}

/// Where the figures and the tune do not fit: strains that are too long or too short for what is danced to them,
/// strains that there are not, strains out of turn; and where the notes say something else than the dance does.
pub(super) fn find(look: &Look, found: &mut Vec<(SpanIndex, Found)>) {
    let spans = look.motion.spans();
    let danced = look.dance.danced();
    // A single figure, looked at by itself, has no place in the tune.
    if spans.is_empty() || !spans.iter().map(|span| span.figure).eq(danced) {
        return;
    }
    match look.tune {
        Some(Ok(tune)) => {
            let odd = tune.told.iter().filter(|remark| remark.is_odd);
            let told = odd.map(|remark| fault(0.0, 0.0, (1.0, 0.0), format!("the tune, {remark}")));
            found.extend(told.map(|fault| (SpanIndex(0), fault)));
            compare(look, tune, found);
        }
        Some(Err(error)) => {
            found.push((
                SpanIndex(0),
                fault(0.0, 0.0, (1.0, 0.0), format!("the tune cannot be read: {error}")),
            ));
        }
        None => {}
    }
    fit(look, look.tune.as_ref().and_then(|tune| tune.as_deref().ok()), found);
}

pub(super) fn fault(at: f64, lasts: f64, (value, limit): (f64, f64), text: String) -> Found {
    Found {
        kind: FaultKind::Music,
        at,
        lasts: (at, at + lasts),
        dancers: Vec::new(),
        value,
        limit,
        text,
        spot: None,
    }
}

/// What the dance says of the tune beside what the notes say.
fn compare(look: &Look, tune: &Tune, found: &mut Vec<(SpanIndex, Found)>) {
    let music = &look.dance.music;
    let mut add = |value: f64, limit: f64, text: String| {
        found.push((SpanIndex(0), fault(0.0, 0.0, (value, limit), text)));
    };
    let (beats, each) = music.metre.written();
    let (in_tune, of) = tune.metre;
    if (u64::from(beats), u64::from(each)) != tune.metre {
        let text = format!("the metre is {beats}/{each} here and {in_tune}/{of} in the tune");
        add(f64::from(beats) / f64::from(each), in_tune as f64 / of as f64, text);
    }
    if let Some(speed) = tune.speed.filter(|speed| (speed - music.speed).abs() > 0.5) {
        let text =
            format!("the speed is {:.0} strong beats a minute here and {speed:.0} in the tune", music.speed);
        add(music.speed, speed, text);
    }
    for strain in &music.strains {
        if let Some(other) = tune.strain(&strain.name).filter(|other| other.bars != strain.bars) {
            let text = format!(
                "strain {} is {} here and {} in the tune",
                shown_name(&strain.name),
                bars(strain.bars),
                other.bars
            );
            add(f64::from(strain.bars), f64::from(other.bars), text);
        }
    }
    for strain in &music.strains {
        let Some(other) = tune.strain(&strain.name) else { continue };
        let is_otherwise =
            |change: &&SpeedChange| (speed_at(music, strain, change.count) - change.speed).abs() > 0.5;
        if let Some(change) = other.speeds.iter().find(is_otherwise) {
            let here = speed_at(music, strain, change.count);
            let text = format!(
                "strain {} goes at {:.0} strong beats a minute from bar {} on in the tune, and at {here:.0} here",
                shown_name(&strain.name),
                change.speed,
                Moment::at(&other.bar_counts(), change.count),
            );
            add(here, change.speed, text);
        }
    }
    let upbeat = tune.upbeat_counts();
    if upbeat != music.upbeat {
        let counts = if music.upbeat == 1 { "count" } else { "counts" };
        let text = format!("the upbeat is {} {counts} here and {upbeat} in the tune", music.upbeat);
        add(f64::from(music.upbeat), f64::from(upbeat), text);
    }
}

/// How fast the dance has a strain go from a count of it on, strong beats a minute.
fn speed_at(music: &Music, strain: &Strain, count: f64) -> f64 {
    let near = |change: &&SpeedChange| change.count <= count + 1e-6;
    strain.speeds.iter().take_while(near).last().map_or(music.speed, |change| change.speed)
}

/// Goes through the running order, strain by strain.
fn fit(look: &Look, tune: Option<&Tune>, found: &mut Vec<(SpanIndex, Found)>) {
    let music = &look.dance.music;
    let lines: Vec<DancedLine> = look
        .dance
        .order
        .iter()
        .filter(|entry| look.dance.figure_index(&entry.figure).is_some())
        .zip(look.motion.indexed_spans())
        .map(|(entry, (index, span))| DancedLine { index, span, entry })
        .collect();
    let mut played = music.played.iter().cycle();
    let mut in_step = !music.played.is_empty();
    for group in lines.chunk_by(|one, other| same(&one.entry.strain, &other.entry.strain)) {
        let Some(first) = group.first() else { continue };
        let name = first.entry.strain.trim();
        if name.is_empty() {
            continue;
        }
        let danced: u32 = group.iter().map(|line| line.span.bars).sum();
        let listed = music.strains.iter().find(|strain| same(&strain.name, name));
        let length = match listed {
            Some(strain) => Some(strain.bars),
            None if music.strains.is_empty() => {
                tune.and_then(|tune| tune.strain(name)).map(|strain| strain.bars)
            }
            None => {
                let counts = group.iter().map(|line| line.span.bar_counts().counts()).sum();
                let text = format!("there is no strain {} in the tune", shown_name(name));
                found.push((first.index, fault(0.0, counts, (f64::from(danced), 0.0), text)));
                in_step = false;
                continue;
            }
        };
        // The bars at which the strain begins again.
        let begins: Vec<u32> = match length {
            Some(length) if length > 0 => {
                let times = times(danced, length);
                if danced != times * length {
                    found.extend(misfit(look, group, danced, length));
                }
                (0..times).map(|time| time * length).collect()
            }
            _ => group.iter().map(|line| line.span.first_bar - first.span.first_bar).collect(),
        };
        for begin in begins.into_iter().take_while(|begin| *begin < danced) {
            let Some(expected) = played.next().filter(|_| in_step) else { break };
            if !same(expected, name) {
                in_step = false;
                let bar = first.span.first_bar + begin;
                if let Some((line, at, rest)) = line_at(group, bar) {
                    let figure = figure_name(look, line);
                    let [expected, name] = [expected, name].map(shown_name);
                    let text = format!("the tune plays {expected} here, and {figure} is danced to {name}");
                    found.push((line.index, fault(at, rest, (1.0, 0.0), text)));
                }
            }
        }
    }
}

/// Whether two strains are the same.
fn same(one: &str, other: &str) -> bool {
    one.trim().eq_ignore_ascii_case(other.trim())
}

/// How many times through a strain some bars are, as nearly as can be, and the more where two are as near.
fn times(danced: u32, length: u32) -> u32 {
    ((2 * u64::from(danced) + u64::from(length)) / (2 * u64::from(length).max(1))).max(1) as u32
}

/// The line danced at a bar of the dance, the counts from its start, and the counts from there to its end.
fn line_at<'a, 'b>(group: &'a [DancedLine<'b>], bar: u32) -> Option<(&'a DancedLine<'b>, f64, f64)> {
    let line = group.iter().rfind(|line| line.span.first_bar <= bar)?;
    let at = line.span.bar_counts().begin_of(bar - line.span.first_bar);
    Some((line, at, line.span.end() - line.span.begin() - at))
}

/// Music left over, or too little of it.
fn misfit(look: &Look, group: &[DancedLine], danced: u32, length: u32) -> Option<(SpanIndex, Found)> {
    let (first, last) = (group.first()?, group.last()?);
    let times = times(danced, length);
    let music = times * length;
    let name = shown_name(first.entry.strain.trim());
    let (who, takes) = names(look, group);
    let has = match times {
        1 => format!("strain {name} has {music}"),
        2 => format!("strain {name} twice has {music}"),
        _ => format!("strain {name} {times} times has {music}"),
    };
    let (line, at, lasts, tail) = if danced < music {
        let end = last.span.end() - last.span.begin();
        let over = music - danced;
        let are = if over == 1 { "is" } else { "are" };
        (last, end, 0.0, format!("{} of music {are} left over", bars(over)))
    } else {
        let (line, at, _) = line_at(group, first.span.first_bar + music)?;
        let short = danced - music;
        let lasts = last.span.end() - line.span.begin() - at;
        (line, at, lasts, format!("the music is {} too short", bars(short)))
    };
    let text = format!("{who} {takes} {} and {has}: {tail}", bars(danced));
    Some((line.index, fault(at, lasts, (f64::from(danced), f64::from(music)), text)))
}

fn bars(bars: u32) -> String {
    if bars == 1 { "1 bar".to_owned() } else { format!("{bars} bars") }
}

fn figure_name(look: &Look, line: &DancedLine) -> String {
    look.dance.figures.get(line.span.figure).map_or_else(String::new, |figure| shown_name(&figure.name))
}

/// The figures of some lines, and whether they take or take part as one.
fn names(look: &Look, group: &[DancedLine]) -> (String, &'static str) {
    let names: Vec<String> = group.iter().map(|line| figure_name(look, line)).collect();
    match names.as_slice() {
        [one] => (one.clone(), "takes"),
        [one, rest @ ..] if rest.iter().all(|other| other == one) => {
            let times =
                if rest.len() == 1 { "twice".to_owned() } else { format!("{} times", rest.len() + 1) };
            (format!("{one} {times}"), "takes")
        }
        [one, other] => (format!("{one} and {other}"), "take"),
        [one, other, last] => (format!("{one}, {other} and {last}"), "take"),
        [one, .., last] => (format!("The {} figures from {one} to {last}", names.len()), "take"),
        [] => (String::new(), "take"),
    }
}
