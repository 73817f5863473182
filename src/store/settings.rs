use super::{Arrangement, Home, WindowSize, write_whole};
use crate::handout::HandoutChoice;
use crate::picture::StillLook;
use crate::sound::SoundChoice;
use serde::{Deserialize, Serialize};

/// What a person has chosen about the window, remembered from one sitting to the next.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Settings {
    /// Whether the window is light, as paper.
    pub paper: bool,
    /// The size of the text and all about it; 1 is what the desktop has.
    pub text_size: f32,
    /// Whether the card of the first minute has been put away for good.
    pub welcomed: bool,
    /// What was handed out last.
    pub handout: HandoutChoice,
    /// How stills are to look; as the floor does where nothing was ever chosen.
    pub still: Option<StillLook>,
    /// How large the window was; nothing before it was ever shown.
    pub window: Option<WindowSize>,
    /// How it is divided.
    pub arrangement: Arrangement,
    /// Whether it opens on the dance that was open last.
    pub open_last: bool,
    /// What is heard in play.
    pub sound: SoundChoice,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            paper: false,
            text_size: 1.0,
            welcomed: false,
            handout: HandoutChoice::default(),
            still: None,
            window: None,
            arrangement: Arrangement::default(),
            open_last: false,
            sound: SoundChoice::default(),
        }
    }
}

impl Settings {
    /// The smallest and the largest text.
    pub const TEXT_SIZES: std::ops::RangeInclusive<f32> = 0.7..=2.0;

    /// What is remembered; what is usual where nothing is, or where it cannot be read.
    #[must_use]
    pub fn kept_in(home: &Home) -> Self {
        let bytes = home.inside(NAME).and_then(|path| std::fs::read(path).ok()).unwrap_or_default();
        let mut known = Self::read(&bytes);
        known.text_size = Self::text_size_near(known.text_size);
        known.arrangement = known.arrangement.sane();
        known.still = known.still.map(StillLook::sane);
        known.sound = known.sound.sane();
        known.window = known.window.and_then(WindowSize::sane);
        known
    }

    /// What is written, without what cannot be read of it: another version may have more to say there.
    fn read(bytes: &[u8]) -> Self {
        let all = serde_json::from_slice::<serde_json::Map<String, serde_json::Value>>(bytes);
        let mut known = all.unwrap_or_default();
        let alone = |name: &String, value: &serde_json::Value| {
            serde_json::from_value::<Self>(serde_json::json!({ name: value })).is_ok()
        };
        known.retain(|name, value| alone(name, value));
        serde_json::from_value(known.into()).unwrap_or_default()
    }

    /// Remembers this. Settings that cannot be kept are not worth stopping for.
    pub fn keep(&self, home: &Home) {
        if let Some(path) = home.inside(NAME)
            && let Ok(text) = serde_json::to_string_pretty(self)
        {
            let made = path.parent().map_or(Ok(()), super::whole::make_private);
            if made.is_ok() {
                let _ = write_whole(&path, text.as_bytes());
            }
        }
    }

    /// The nearest size that text can have.
    #[must_use]
    pub fn text_size_near(size: f32) -> f32 {
        if size.is_finite() { size.clamp(*Self::TEXT_SIZES.start(), *Self::TEXT_SIZES.end()) } else { 1.0 }
    }
}

/// The name of the file.
const NAME: &str = "settings.json";

#[cfg(test)]
mod tests {
    use super::*;
    use crate::handout::HandoutKind;
    use crate::picture::Theme;
    use crate::store::Tab;

    #[test]
    fn they_last_and_a_torn_file_is_as_none() {
        let folder = tempfile::tempdir().unwrap();
        let home = Home::at(&folder.path().join("state"));
        assert_eq!(Settings::kept_in(&home), Settings::default());
        let handout = HandoutChoice { kind: HandoutKind::Moving, speed: 70, ..HandoutChoice::default() };
        let window = Some(WindowSize { across: 1100.0, down: 700.0, filled: true });
        let arrangement = Arrangement { left: 300.0, right_tab: Tab::Faults, ..Arrangement::default() };
        let chosen = Settings {
            paper: true,
            text_size: 1.25,
            welcomed: true,
            handout,
            still: Some(StillLook { size: 2400, trails: true, theme: Theme::Paper }),
            window,
            arrangement,
            open_last: true,
            sound: SoundChoice { counts_in: true, speed: 70, delay: 180, ..SoundChoice::default() },
        };
        chosen.keep(&home);
        assert_eq!(Settings::kept_in(&home), chosen);
        let path = home.inside(NAME).unwrap();
        let whole = std::fs::read(&path).unwrap();
        std::fs::write(&path, &whole[..whole.len() / 2]).unwrap();
        assert_eq!(Settings::kept_in(&home), Settings::default());
        // What one version does not know, and sizes that nobody could read.
        std::fs::write(&path, r#"{"text_size": 900.0, "bells": 7, "sound": {"speed": 7}}"#).unwrap();
        let slowest = SoundChoice { speed: 30, ..SoundChoice::default() };
        assert_eq!(
            Settings::kept_in(&home),
            Settings { text_size: 2.0, sound: slowest, ..Settings::default() }
        );
        std::fs::write(&path, r#"{"paper": true, "arrangement": {"left_tab": "bells"}}"#).unwrap();
        assert_eq!(Settings::kept_in(&home), Settings { paper: true, ..Settings::default() });
        for (wrong, value) in
            [("sound", r#"{"delay": -1}"#), ("sound", "40.5"), ("window", "[]"), ("text_size", "\"large\"")]
        {
            std::fs::write(&path, format!(r#"{{"paper": true, "{wrong}": {value}}}"#)).unwrap();
            assert_eq!(Settings::kept_in(&home), Settings { paper: true, ..Settings::default() }, "{wrong}");
        }
        Settings::default().keep(&Home::nowhere());
    }
}
