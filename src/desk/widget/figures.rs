//! Figures in a column: set to the right, with their points under one another.

/// The width of a figure and of a point, as parts of the type size: Noto Sans
/// has tabular figures (measured).
const FIGURE: f32 = 0.572;
const POINT: f32 = 0.27;

/// How many figures stand behind a number's point; nothing where a text is more
/// than a number.
fn behind(text: &str) -> Option<usize> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let figures = |text: &str| text.bytes().all(|b| b.is_ascii_digit());
    (!whole.is_empty() && figures(whole) && figures(part)).then_some(part.len())
}

/// The most figures behind a point in a column.
pub fn most(texts: impl Iterator<Item = String>) -> usize {
    texts.filter_map(|text| behind(&text)).max().unwrap_or(0)
}

/// The room to the right of a text, in pixels, that puts its point under those
/// with `most` figures behind theirs.
pub fn after(text: &str, most: usize, type_size: f32) -> f32 {
    let Some(own) = behind(text).filter(|own| *own < most) else {
        return 0.0;
    };
    let missing = u16::try_from(most - own).unwrap_or(0);
    let point = if own == 0 { POINT } else { 0.0 };
    (f32::from(missing) * FIGURE + point) * type_size
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn points_stand_under_one_another() {
        let column = ["62.5", "60", "101.25", "pass", ""];
        let most = most(column.iter().map(|t| (*t).to_owned()));
        assert_eq!(most, 2);
        let rooms = column.map(|text| format!("{:.1}", after(text, most, 10.0)));
        assert_eq!(rooms, ["5.7", "14.1", "0.0", "0.0", "0.0"]);
    }
}
