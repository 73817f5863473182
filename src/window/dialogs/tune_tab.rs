use super::shape::row;
use crate::dance::{
    BarCounts, CleanedTunes, Metre, Music, Score, Strain, Tune, TuneError, TuneStrain, follow_tune, limits,
};
use crate::desk::{AboutAsk, Ask, Desk};
use crate::picture::{Colour, System, engrave};
use crate::window::fields::{
    NumberField, NumberKind, TuneField, TuneTyped, Typed, Wrong, show_fixed, show_names, show_speeds,
    show_typed,
};
use crate::window::paint::paint;
use egui::{ComboBox, Grid, Id, RichText, ScrollArea, Sense, Ui, vec2};

/// What the part about the tune holds.
pub struct TuneFields {
    /// The tune as it is typed.
    text: String,
    /// Tunes to choose from, where a text that was read or pasted had several.
    choices: Vec<String>,
    /// What was cleaned in what was pasted or read last.
    cleaned: Vec<&'static str>,
    /// Whether what is typed is to reach the desk though nobody typed it.
    fresh: bool,
    /// What was read of the text, and its staves, until that is another.
    read: Option<TuneRead>,
    drawn: Option<Drawn>,
}

/// A text, and the tune that it is.
struct TuneRead {
    text: String,
    tune: Result<Tune, TuneError>,
}

/// The staves of a text for a width and an ink.
struct Drawn {
    of: (String, f32, Colour),
    systems: Vec<System>,
}

/// The height of the field for the text and of the engraved tune, points.
const TEXT: f32 = 130.0;
const STAVES: f32 = 150.0;
/// The space of the staves, points.
const SPACE: f32 = 5.0;

impl TuneFields {
    /// Holds the tune of the dance, or what was read for it.
    pub fn new(read: Option<&str>, abc: &str) -> Self {
        let mut fields = Self {
            text: abc.to_owned(),
            choices: Vec::new(),
            cleaned: Vec::new(),
            fresh: false,
            read: None,
            drawn: None,
        };
        if let Some(read) = read {
            fields.take(read);
        }
        fields
    }

    /// The tune that the text is.
    fn read(&mut self) -> &TuneRead {
        let known = self.read.take().filter(|read| read.text == self.text);
        self.read.insert(
            known.unwrap_or_else(|| TuneRead { text: self.text.clone(), tune: Tune::read(&self.text) }),
        )
    }

    /// The staves of the text, as far as they can be drawn.
    fn systems(&mut self, width: f32, ink: Colour) -> &[System] {
        let known = self
            .drawn
            .take()
            .filter(|drawn| (drawn.of.0 == self.text) && (drawn.of.1, drawn.of.2) == (width, ink));
        let drawn = known.unwrap_or_else(|| {
            let score = Score::read(&self.text).ok();
            let systems = score.map(|score| engrave(&score, width, SPACE, ink)).unwrap_or_default();
            Drawn { of: (self.text.clone(), width, ink), systems }
        });
        &self.drawn.insert(drawn).systems
    }

    /// Takes a text from elsewhere: cleans it, and has its tunes to choose from where it has several.
    fn take(&mut self, text: &str) {
        self.have(CleanedTunes::of(text));
    }

    /// The same of a text that is cleaned.
    fn have(&mut self, CleanedTunes { mut tunes, said }: CleanedTunes) {
        self.cleaned = said;
        if tunes.len() > 1 {
            self.choices = tunes;
        } else if let Some(tune) = tunes.pop() {
            (self.text, self.fresh) = (tune, true);
            self.choices.clear();
        }
    }
}

/// Shows the tune, what is wrong with it, its staves, and what the dance knows of it.
pub fn show_tune(ui: &mut Ui, desk: &Desk, fields: &mut TuneFields, asks: &mut Vec<Ask>) {
    let music = &desk.dance().music;
    row(ui, |ui| {
        show_music(ui, music, asks);
    });
    ui.add_space(6.0);
    if !fields.choices.is_empty() {
        show_choices(ui, fields);
        return;
    }
    let edit = show_text(ui, music, fields);
    // What is pasted is both, and goes out once.
    let fresh = std::mem::take(&mut fields.fresh);
    if edit || fresh {
        asks.push(Ask::About(AboutAsk::SetTune(fields.text.clone())));
    }
    show_said(ui, desk, fields, asks);
    show_staves(ui, desk, fields);
    ui.add_space(6.0);
    show_strains(ui, music, asks);
}

/// Metre, speed and upbeat.
fn show_music(ui: &mut Ui, music: &Music, asks: &mut Vec<Ask>) {
    let label = ui.label("Metre");
    let hint =
        "Two strong beats a bar have four counts; 9/8, 3/4 and 3/2 have three strong beats and six counts";
    let menu = ComboBox::from_id_salt("metre").width(56.0).selected_text(music.metre.to_string());
    let shown = menu.show_ui(ui, |ui| {
        for metre in Metre::ALL {
            if ui.selectable_label(metre == music.metre, metre.to_string()).clicked() {
                asks.push(Ask::About(AboutAsk::SetMetre(metre)));
            }
        }
    });
    shown.response.labelled_by(label.id).on_hover_text(hint);
    ui.add_space(10.0);
    let label = ui.label("Speed");
    let [least, most] = limits::SPEEDS;
    let kind = NumberKind { least, most, places: 1, unit: "strong beats a minute" };
    let answer = NumberField::new(music.speed, kind, 0.5).hint("How fast it is danced").show(ui);
    answer.response.labelled_by(label.id);
    if let Some(speed) = answer.changed {
        asks.push(Ask::About(AboutAsk::SetSpeed(speed)));
    }
    ui.add_space(10.0);
    let label = ui.label("Upbeat");
    let kind = NumberKind { least: 0.0, most: f64::from(music.metre.counts()), places: 0, unit: "counts" };
    let answer = NumberField::new(f64::from(music.upbeat), kind, 0.05)
        .hint("Counts of the tune before its first bar")
        .show(ui);
    answer.response.labelled_by(label.id);
    if let Some(counts) = answer.changed {
        asks.push(Ask::About(AboutAsk::SetUpbeat(counts as u32)));
    }
}

/// The tunes of a page that has several.
fn show_choices(ui: &mut Ui, fields: &mut TuneFields) {
    ui.label(format!("There are {} tunes in it. Which is danced to?", fields.choices.len()));
    ui.add_space(4.0);
    let mut chosen = None;
    ScrollArea::vertical().id_salt("tunes").max_height(380.0).show(ui, |ui| {
        for (index, tune) in fields.choices.iter().enumerate() {
            if ui.button(title_of(tune, index)).clicked() {
                chosen = Some(index);
            }
        }
    });
    if ui.button("None of these").clicked() {
        fields.choices.clear();
    }
    if let Some(index) = chosen.filter(|index| *index < fields.choices.len()) {
        (fields.text, fields.fresh) = (fields.choices.swap_remove(index), true);
        fields.choices.clear();
    }
}

/// What a tune is called by its own words.
fn title_of(tune: &str, index: usize) -> String {
    let title = tune.lines().find_map(|line| line.strip_prefix("T:")).map_or("", str::trim);
    if title.is_empty() { format!("tune {}", index + 1) } else { title.chars().take(80).collect() }
}

/// The field for the text; gives whether it was changed.
fn show_text(ui: &mut Ui, music: &Music, fields: &mut TuneFields) -> bool {
    let label = ui.weak("The tune in ABC notation: type it, or paste it from a page, a mail or a file");
    let hint = "X:1\nT:A tune\nM:6/8\nL:1/8\nQ:3/8=100\nK:G\nD|:GAB d2B|cBA B2:|";
    let (name, size) = (Id::unique("tune text"), vec2(f32::INFINITY, TEXT));
    let TuneTyped { response, pasted } =
        TuneField { name, size, hint, label: label.id }.show(ui, &mut fields.text);
    let edit = response.on_hover_text(
        "M: is the metre, Q: the speed, K: the key; letters are notes, | a bar line, |: and :| what is repeated",
    );
    if edit.changed() {
        fields.cleaned.clear();
        if let Some(pasted) = pasted {
            fields.have(pasted);
        }
        return fields.choices.is_empty();
    }
    // What was undone, or changed elsewhere, is what there is.
    if !edit.has_focus() && fields.text != music.abc && !fields.fresh {
        fields.text.clone_from(&music.abc);
    }
    false
}

/// What can be done with the tune; and under it in a line what is wrong, what was cleaned and what was left out, whole under the pointer.
fn show_said(ui: &mut Ui, desk: &Desk, fields: &mut TuneFields, asks: &mut Vec<Ask>) {
    let music = &desk.dance().music;
    let cleaned = fields.cleaned.join(", ");
    let is_blank = fields.text.trim().is_empty();
    let TuneRead { tune, .. } = fields.read();
    let button = |ui: &mut Ui, name: &str, hint: &str, enabled: bool, why_not: &str| {
        let button = egui::Button::new(name).min_size(vec2(64.0, 0.0));
        ui.add_enabled(enabled, button).on_hover_text(hint).on_disabled_hover_text(why_not).clicked()
    };
    row(ui, |ui| {
        if button(ui, "From a file…", "A tune from a file, or one of several", true, "") {
            asks.push(Ask::About(AboutAsk::AskTune));
        }
        let (name, hint) = if desk.listening().is_some() {
            ("Stop", "Listen no more")
        } else {
            ("Listen", "Have the tune heard once through")
        };
        if button(ui, name, hint, tune.is_ok(), "There is no tune that can be read") {
            asks.push(Ask::About(AboutAsk::Listen));
        }
        let follows = tune.is_ok() && follow_tune(music).is_ok_and(|made| made == *music);
        let why_not = if follows {
            "The dance has all as the tune has it"
        } else {
            "There is no tune that can be read"
        };
        let hint = "Take metre, speed, upbeat and strains from the tune";
        if button(ui, "As the tune has it", hint, tune.is_ok() && !follows, why_not) {
            asks.push(Ask::About(AboutAsk::FollowTune));
        }
    });
    let cleaned = (!cleaned.is_empty()).then(|| format!("Cleaned: {cleaned}"));
    let (said, is_wrong) = match tune {
        _ if is_blank => (vec!["No tune yet: the click alone is heard".to_owned()], false),
        Err(error) => (vec![format!("The tune cannot be read: {error}")], true),
        Ok(tune) => (cleaned.into_iter().chain(tune.told.iter().map(ToString::to_string)).collect(), false),
    };
    let line = said.join(" · ");
    let mut text = RichText::new(&line).small();
    if is_wrong {
        text = text.color(ui.visuals().error_fg_color);
    }
    // A line that keeps its height when there is nothing to say.
    let height = ui.text_style_height(&egui::TextStyle::Small);
    ui.allocate_ui(vec2(ui.available_width(), height), |ui| {
        ui.set_min_height(height);
        if !line.is_empty() {
            ui.add(egui::Label::new(text).truncate()).on_hover_text(said.join("\n"));
        }
    });
}

/// The staves, as far as the tune can be read.
fn show_staves(ui: &mut Ui, desk: &Desk, fields: &mut TuneFields) {
    let area = ScrollArea::vertical().id_salt("staves").max_height(STAVES).min_scrolled_height(STAVES);
    area.auto_shrink([false, false]).show(ui, |ui| {
        let (width, ink) = (ui.available_width() - 12.0, desk.ink().words);
        for System { size: [across, down], marks, .. } in fields.systems(width, ink) {
            let (across, down) = (*across, *down);
            let (rect, _) = ui.allocate_exact_size(vec2(across, down + SPACE), Sense::hover());
            if !ui.is_rect_visible(rect) {
                continue;
            }
            let at = [rect.left(), rect.top()];
            let marks: Vec<_> = marks.iter().cloned().map(|mark| mark.placed(1.0, at)).collect();
            paint(ui.painter(), &marks);
        }
    });
}

/// The strains: name, bars, metre and speed of each, and in which order they are played.
fn show_strains(ui: &mut Ui, music: &Music, asks: &mut Vec<Ask>) {
    Grid::new("strains").num_columns(5).spacing([10.0, 4.0]).show(ui, |ui| {
        if music.strains.is_empty() {
            return;
        }
        let tune = Tune::read(&music.abc).ok();
        let in_tune = |strain: &Strain| tune.as_ref().and_then(|tune| tune.strain(&strain.name));
        let heads = ["Strain", "Bars", "Metre", "Speed"].map(|head| ui.weak(head).id);
        ui.end_row();
        for (index, strain) in music.strains.iter().enumerate() {
            if let Some(changed) = show_strain(ui, music, heads, (index, strain, in_tune(strain)), asks) {
                asks.push(Ask::About(AboutAsk::SetStrain(index, changed)));
            }
            ui.end_row();
        }
    });
    row(ui, |ui| {
        if ui.button("+ Strain").on_hover_text("Another strain of the tune").clicked() {
            asks.push(Ask::About(AboutAsk::AddStrain));
        }
        ui.add_space(8.0);
        let label = ui.label("Played");
        let known: Vec<&str> = music.strains.iter().map(|strain| strain.name.as_str()).collect();
        let takes = "The strains as the tune plays them once through, such as A A B B; empty where the music follows the dance";
        let place = (Id::unique("strains played"), 220.0);
        let (response, played) = show_names(ui, place, (&music.played, &known), ("as the dance goes", takes));
        response.labelled_by(label.id);
        if let Some(played) = played {
            asks.push(Ask::About(AboutAsk::SetPlayed(played)));
        }
    });
}

/// A strain; gives what it is changed to.
fn show_strain(
    ui: &mut Ui,
    music: &Music,
    [of_name, of_bars, of_metre, of_speed]: [Id; 4],
    (index, strain, in_tune): (usize, &Strain, Option<&TuneStrain>),
    asks: &mut Vec<Ask>,
) -> Option<Strain> {
    let mut changed = None;
    if in_tune.is_some() {
        let name = &strain.name;
        let why = format!(
            "The tune calls it {name}. Another name is given in the tune's own text: a line such as P:{name} before its notes"
        );
        let place = (Id::unique(("strain of the tune", index)), 48.0);
        show_fixed(ui, place, name, &why).labelled_by(of_name);
    } else {
        let taken = |name: &str| {
            let others = music.strains.iter().enumerate().filter(|(other, _)| *other != index);
            others.clone().any(|(_, other)| other.name.eq_ignore_ascii_case(name))
        };
        let read = |text: &str| match text.trim() {
            "" => Err(Wrong { unfinished: true, ..Wrong::whole("a strain has a name".to_owned()) }),
            name if taken(name) => Err(Wrong::whole("another strain is called so".to_owned())),
            name => Ok(name.to_owned()),
        };
        let typed = Typed {
            now: strain.name.clone(),
            written: strain.name.clone(),
            hint: String::new(),
            takes: "What the strain is called: a letter, mostly",
            read: &read,
        };
        let (response, name) = show_typed(ui, (Id::unique(("strain name", index)), 48.0), typed);
        response.labelled_by(of_name);
        if let Some(name) = name {
            changed = Some(Strain { name, ..strain.clone() });
        }
    }
    let kind = NumberKind { least: 1.0, most: f64::from(limits::MOST_BARS), places: 0, unit: "" };
    let answer = NumberField::new(f64::from(strain.bars), kind, 0.1).hint("Bars, played once").show(ui);
    answer.response.labelled_by(of_bars);
    if let Some(bars) = answer.changed {
        changed = Some(Strain { bars: bars as u32, ..strain.clone() });
    }
    let said = strain.metre.map_or_else(|| "as the tune".to_owned(), |metre| metre.to_string());
    let menu = ComboBox::from_id_salt(("strain metre", index)).width(90.0).selected_text(said);
    let shown = menu.show_ui(ui, |ui| {
        let all = std::iter::once(None).chain(Metre::ALL.into_iter().map(Some));
        for metre in all {
            let words =
                metre.map_or_else(|| format!("as the tune, {}", music.metre), |metre| metre.to_string());
            if ui.selectable_label(metre == strain.metre, words).clicked() {
                changed = Some(Strain { metre, ..strain.clone() });
            }
        }
    });
    shown.response.labelled_by(of_metre);
    // As the tune has its bars, unless the side has it otherwise: one in a metre of its own moves those after it.
    let bars = in_tune
        .filter(|tune| tune.metre().and_then(Metre::as_written) == Some(music.metre))
        .map(TuneStrain::bar_counts)
        .filter(|bars| strain.metre.is_none() && bars.bars() == strain.bars)
        .unwrap_or_else(|| BarCounts::of(strain.bars, strain.metre.unwrap_or(music.metre)));
    let name = Id::unique(("speeds of a strain", index));
    let (response, speeds) = show_speeds(ui, (name, 220.0), (&strain.speeds, &bars), music.speed);
    response.labelled_by(of_speed);
    if let Some(speeds) = speeds {
        changed = Some(Strain { speeds, ..strain.clone() });
    }
    if ui.small_button("take away").on_hover_text(format!("Take strain {} away", strain.name)).clicked() {
        asks.push(Ask::About(AboutAsk::TakeStrain(index)));
    }
    changed
}
