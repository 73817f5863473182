//! What photographs under the floor have to keep to.

use super::ranges::{Checked, check_place, check_range, check_text};
use crate::dance::limits::{MOST_INSIDE_TEXT, MOST_MARKS, MOST_PHOTOGRAPHS, MOST_PIXEL};
use crate::dance::{Dance, DanceError, Underlay, quoted, shown_list};

/// The photographs of a dance.
pub(super) fn check_underlays(dance: &Dance) -> Checked {
    if dance.underlay.len() > MOST_PHOTOGRAPHS {
        let text = format!("{} photographs; a dance has at most {MOST_PHOTOGRAPHS}", dance.underlay.len());
        return Err(DanceError::key("underlay", text));
    }
    dance.underlay.iter().enumerate().try_for_each(|(index, photo)| {
        let path = format!("underlay[{index}]");
        check_one(&path, photo)?;
        match &photo.figure {
            Some(id) if dance.figure_index(id).is_none() => {
                let known = shown_list(dance.figures.iter().map(|figure| figure.id.as_str()));
                let text = format!("no figure has the id {}; the ids are: {known}", quoted(id));
                Err(DanceError::key(format!("{path}.figure"), text))
            }
            _ => Ok(()),
        }
    })
}

fn check_one(path: &str, photo: &Underlay) -> Checked {
    let key = |name: &str, text: String| Err(DanceError::key(format!("{path}.{name}"), text));
    check_text(&format!("{path}.path"), &photo.path)?;
    if photo.path.is_empty() && photo.inside.is_empty() {
        return key("path", "a photograph needs a path, or the picture itself in `inside`".to_owned());
    }
    let inside = photo.inside.text();
    if inside.len() > MOST_INSIDE_TEXT {
        return key(
            "inside",
            "the picture is larger than 1 MB, the most inside a dance; give its path".to_owned(),
        );
    }
    let is_base64 = |letter: u8| letter.is_ascii_alphanumeric() || matches!(letter, b'+' | b'/' | b'=');
    if !inside.len().is_multiple_of(4) || !inside.bytes().all(is_base64) {
        return key("inside", "this is not base64".to_owned());
    }
    let is_fingerprint = photo.fingerprint.len() == 64
        && photo.fingerprint.bytes().all(|letter| matches!(letter, b'0'..=b'9' | b'a'..=b'f'));
    if !photo.fingerprint.is_empty() && !is_fingerprint {
        return key("fingerprint", "expected SHA-256 as 64 of the digits 0 to 9 and a to f".to_owned());
    }
    if photo.marks.len() > MOST_MARKS {
        let text = format!("{} of them; a photograph has at most {MOST_MARKS} marks", photo.marks.len());
        return key("marks", text);
    }
    for (index, mark) in photo.marks.iter().enumerate() {
        let path = format!("{path}.marks[{index}]");
        check_range(&format!("{path}.across"), mark.across, 0.0, MOST_PIXEL, "pixels")?;
        check_range(&format!("{path}.down"), mark.down, 0.0, MOST_PIXEL, "pixels")?;
        check_place(&path, mark.x, mark.y)?;
    }
    Ok(())
}
