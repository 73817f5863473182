use super::{
    Handout, HandoutError, OnProgress, Paper, SheetChoice, dancer_page, figure_sheet, handout_to_pdf,
    moving::{MovingChoice, MovingKind, SeenFrom, moving},
    notebook, page_to_png, page_to_svg, pocket_page, sheets, stepping, tapping, whole_sheet, without_names,
};
use crate::dance::{Dance, Dancer};
use crate::figures::motion_of_figure;
use crate::motion::{Motion, SpanIndex};
use crate::picture::Theme;
use serde::{Deserialize, Serialize};
use std::path::Path;

/// What is handed out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum HandoutKind {
    /// One figure as a sheet.
    #[default]
    Figure,
    /// Every figure.
    Dance,
    /// The whole dance on one sheet.
    Whole,
    /// One dancer's own page.
    Dancer,
    /// One dancer's part for the pocket.
    Pocket,
    /// Each step that the dance uses, at eye level.
    Stepping,
    /// What meets on which beat, figure by figure.
    Tapping,
    /// A notebook of the dance.
    Notebook,
    /// A page that plays on a phone.
    PracticePage,
    /// One figure as a moving picture.
    Moving,
}

/// The kinds of file that pages of paper are written as.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PaperFile {
    /// All pages in one file.
    #[default]
    Pdf,
    /// Pixels, a file for each page.
    Png,
    /// Outlines, a file for each page.
    Svg,
}

impl PaperFile {
    /// The kind that the ending of a file's name says, in any case.
    #[must_use]
    pub fn of(path: &Path) -> Option<Self> {
        match path.extension()?.to_str()?.to_lowercase().as_str() {
            "png" => Some(Self::Png),
            "svg" => Some(Self::Svg),
            "pdf" => Some(Self::Pdf),
            _ => None,
        }
    }
}

/// What was chosen for a handout, kept from one to the next.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct HandoutChoice {
    pub kind: HandoutKind,
    pub paper: Paper,
    /// A diagram for each strong beat, not for each bar.
    pub beats: bool,
    /// The words under the diagrams.
    pub words: bool,
    /// The tune's ABC text under its notes, in a notebook.
    pub abc: bool,
    /// Without the names of people.
    pub no_names: bool,
    /// With what there is to watch for in each figure.
    pub watch: bool,
    /// What sheets and a dancer's page are written as.
    pub file: PaperFile,
    /// What a moving picture is written as.
    pub moving: MovingKind,
    /// Pixels along each side of a moving picture.
    pub size: u32,
    /// Percent of the tune's speed in a moving picture.
    pub speed: u32,
    /// From where a moving picture is seen.
    pub seen: SeenFrom,
    /// The colours of a moving picture.
    pub theme: Theme,
}

impl Default for HandoutChoice {
    fn default() -> Self {
        let moving = MovingChoice::default();
        Self {
            kind: HandoutKind::default(),
            paper: Paper::default(),
            beats: false,
            words: false,
            abc: false,
            no_names: false,
            watch: true,
            file: PaperFile::default(),
            moving: MovingKind::Gif,
            size: moving.size,
            speed: moving.speed,
            seen: moving.seen,
            theme: Theme::default(),
        }
    }
}

impl HandoutChoice {
    /// The endings that the file's name can have, without their dots, the one chosen first.
    #[must_use]
    pub fn endings(&self) -> &'static [&'static str] {
        match (self.kind, self.file, self.moving) {
            (HandoutKind::PracticePage, ..) => &["html", "htm"],
            (HandoutKind::Notebook, ..) => &["pdf"],
            (HandoutKind::Moving, _, MovingKind::Gif) => &["gif", "png"],
            (HandoutKind::Moving, _, MovingKind::Png) => &["png", "gif"],
            (_, PaperFile::Pdf, _) => &["pdf", "png", "svg"],
            (_, PaperFile::Png, _) => &["png", "pdf", "svg"],
            (_, PaperFile::Svg, _) => &["svg", "pdf", "png"],
        }
    }

    /// The same for a file whose ending says what it is written as.
    #[must_use]
    pub fn for_file(self, path: &Path) -> Self {
        let file = PaperFile::of(path).unwrap_or(self.file);
        let moving = MovingKind::of(path).unwrap_or(self.moving);
        Self { file, moving, ..self }
    }
}

/// What was made: pages of paper, or a file as it is.
#[derive(Clone, Debug)]
pub enum Made {
    /// For paper.
    Pages(Handout, PaperFile),
    /// For a phone or a screen.
    File(Vec<u8>),
}

impl Made {
    /// The bytes of each of its files. `progress` hears how many are done, of how many; what is made when it says no is
    /// not whole.
    ///
    /// # Errors
    /// When one cannot be made.
    pub fn files(&self, progress: OnProgress) -> Result<Vec<Vec<u8>>, HandoutError> {
        let (handout, kind) = match self {
            Self::File(bytes) => return Ok(vec![bytes.clone()]),
            Self::Pages(handout, PaperFile::Pdf) => {
                return Ok(vec![handout_to_pdf(handout)?]);
            }
            Self::Pages(handout, kind) => (handout, *kind),
        };
        let mut files = Vec::with_capacity(handout.pages.len());
        for page in &handout.pages {
            files.push(match kind {
                PaperFile::Svg => page_to_svg(page).into_bytes(),
                _ => page_to_png(page)?,
            });
            if !progress(files.len(), handout.pages.len()) {
                break;
            }
        }
        Ok(files)
    }
}

/// Makes a handout of a dance: of the figure danced in a line of the running order, or for a dancer, where it is of one.
/// `progress` hears how much is done, of how much; what is made when it says no is not whole.
///
/// # Errors
/// When there is nothing to hand out, or too much.
pub fn make_handout(
    dance: &Dance,
    motion: &Motion,
    (span, dancer): (SpanIndex, Option<Dancer>),
    choice: HandoutChoice,
    progress: OnProgress,
) -> Result<Made, HandoutError> {
    let nameless = choice.no_names.then(|| without_names(dance.clone()));
    let dance = nameless.as_ref().unwrap_or(dance);
    let every = choice.beats.then_some(2.0);
    let sheet =
        SheetChoice { paper: choice.paper, every, words: choice.words, abc: choice.abc, watch: choice.watch };
    Ok(match choice.kind {
        HandoutKind::Figure => Made::Pages(figure_sheet(dance, motion, span, &sheet), choice.file),
        HandoutKind::Dance => Made::Pages(sheets(dance, motion, &sheet, progress), choice.file),
        HandoutKind::Dancer => {
            let dancer = dancer.ok_or(HandoutError::Nobody)?;
            Made::Pages(dancer_page(dance, motion, None, dancer, &sheet), choice.file)
        }
        HandoutKind::Whole => Made::Pages(whole_sheet(dance, motion, &sheet), choice.file),
        HandoutKind::Pocket => {
            let dancer = dancer.ok_or(HandoutError::Nobody)?;
            Made::Pages(pocket_page(dance, motion, dancer, choice.paper), choice.file)
        }
        HandoutKind::Stepping => Made::Pages(stepping(dance, motion, None, choice.paper), choice.file),
        HandoutKind::Tapping => {
            let pages = tapping(dance, motion, None, choice.paper).ok_or(HandoutError::NothingMeets(None))?;
            Made::Pages(pages, choice.file)
        }
        HandoutKind::Notebook => {
            let all = [(dance.clone(), motion.clone())];
            Made::Pages(notebook(&all, &SheetChoice { words: true, ..sheet }, progress), PaperFile::Pdf)
        }
        HandoutKind::PracticePage => {
            Made::File(super::page::page_with(dance, motion, choice.watch)?.into_bytes())
        }
        HandoutKind::Moving => {
            let figure = motion.span(span).map(|span| span.figure);
            let figure = figure.ok_or(HandoutError::NoFigures)?;
            let alone = motion_of_figure(dance, figure)?;
            let moves = moving_choice(dance, (figure, dancer), choice);
            Made::File(moving(dance, &alone, choice.moving, &moves, progress)?)
        }
    })
}

/// How a figure (index) of a dance is to move; at eye level a dancer who is meant is seen alone.
#[must_use]
pub fn moving_choice(
    dance: &Dance,
    (figure, dancer): (usize, Option<Dancer>),
    choice: HandoutChoice,
) -> MovingChoice {
    MovingChoice {
        size: choice.size,
        speed: choice.speed,
        figure: dance.figures.get(figure).map(|figure| figure.name.clone()).unwrap_or_default(),
        seen: choice.seen,
        ink: choice.theme.ink(),
        dancer: dancer.filter(|_| choice.seen != SeenFrom::Above),
        ..MovingChoice::default()
    }
}
