//! What is varied: a name and its values, as a list or as a range of lengths or figures.

use std::str::FromStr;

use wythe_units::{Quantity, Scalar, format_feet_inches, parse_length_marks};

/// The most values of one name.
const MOST_VALUES: usize = 100;

/// A name and its values, each as it would stand in the text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Variation {
    pub name: String,
    pub values: Vec<String>,
}

impl FromStr for Variation {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let (name, values) = text.split_once(['=', ':']).ok_or("write NAME=VALUE,VALUE")?;
        let (name, values) = (name.trim().to_owned(), values.trim());
        // The brackets of a list may stand.
        let bare = values.strip_prefix('[').and_then(|v| v.strip_suffix(']')).map(str::trim);
        let values = bare.unwrap_or(values);
        if name.is_empty() || values.is_empty() {
            return Err("a name and at least one value are due".into());
        }
        let values = match range(values)? {
            Some(values) => values,
            None => listed(values),
        };
        Ok(Variation { name, values })
    }
}

/// Values parted by commas that stand in no brackets.
fn listed(text: &str) -> Vec<String> {
    let mut out = vec![String::new()];
    let mut depth = 0_u32;
    for c in text.chars() {
        match c {
            '(' | '[' => depth += 1,
            ')' | ']' => depth = depth.saturating_sub(1),
            _ => {}
        }
        if c == ',' && depth == 0 {
            out.push(String::new());
        } else if let Some(last) = out.last_mut() {
            last.push(c);
        }
    }
    out.into_iter().map(|v| v.trim().to_owned()).filter(|v| !v.is_empty()).collect()
}

/// `3"..6" by 1"`, `1 in .. 2 in by 1/2 in`, `8 % .. 12 % by 1 %`: from the first to the last.
fn range(text: &str) -> Result<Option<Vec<String>>, String> {
    let Some((from, rest)) = text.split_once("..") else { return Ok(None) };
    let Some((to, step)) = rest.split_once(" by ") else { return Err("write a range as FROM..TO by STEP".into()) };
    let length = |text: &str| parse_length_marks(text.trim()).map(|q: Quantity| q.value);
    if let (Ok(from), Ok(to), Ok(step)) = (length(from), length(to), length(step)) {
        let shown =
            |at| format_feet_inches(at, 64).map(|(shown, _)| shown).ok_or("a length past all measure".to_owned());
        return steps(from, to, step, shown).map(Some);
    }
    let (from, to, step) = (figure(from)?, figure(to)?, figure(step)?);
    let unit = to.1;
    if [from.1, step.1].iter().any(|u| !u.is_empty() && *u != unit) {
        return Err("the figures of a range have one unit".into());
    }
    let shown = |at: Scalar| {
        let figure = at.to_f64();
        Ok(format!("{} {unit}", (figure * 1e6).round() / 1e6).trim_end().to_owned())
    };
    steps(from.0, to.0, step.0, shown).map(Some)
}

/// The values from the first to the last, as they are written.
fn steps(
    from: Scalar,
    to: Scalar,
    step: Scalar,
    shown: impl Fn(Scalar) -> Result<String, String>,
) -> Result<Vec<String>, String> {
    if step.signum() <= 0 {
        return Err("the step must be more than nothing".into());
    }
    let mut out = Vec::new();
    let mut at = from;
    while at.compare(to).is_le() {
        if out.len() == MOST_VALUES {
            return Err(format!("more than {MOST_VALUES} values"));
        }
        out.push(shown(at)?);
        at = at.checked_add(step).map_err(|e| e.to_string())?;
    }
    if out.is_empty() {
        return Err("a range goes from the lesser to the greater".into());
    }
    Ok(out)
}

/// A figure and its unit.
fn figure(text: &str) -> Result<(Scalar, &str), String> {
    let text = text.trim();
    let at = text.find(|c: char| c.is_alphabetic() || c == '%').unwrap_or(text.len());
    let (number, unit) = text.split_at(at);
    let number =
        Scalar::parse(number.trim()).map_err(|_| format!("`{text}` is no figure, such as 3\", 1.5 in or 8 %"))?;
    Ok((number, unit.trim()))
}

/// Every way of choosing one value of each, the last name varied fastest.
pub(crate) fn combinations(all: &[Variation]) -> Vec<Vec<String>> {
    let mut out: Vec<Vec<String>> = vec![Vec::new()];
    for variation in all {
        // Enough to see that there are too many.
        if out.len() > 10_000 {
            break;
        }
        out = out
            .iter()
            .flat_map(|way| {
                variation.values.iter().map(|value| way.iter().cloned().chain([value.clone()]).collect::<Vec<_>>())
            })
            .collect();
    }
    out
}

#[cfg(test)]
mod tests {
    use super::{Variation, combinations};

    fn values(text: &str) -> Vec<String> {
        text.parse::<Variation>().unwrap().values
    }

    #[test]
    fn a_list_and_a_range() {
        assert_eq!(values("gap=3\", 4\""), ["3\"", "4\""]);
        assert_eq!(values("gap=3\"..4\" by 1/2\""), ["3\"", "3-1/2\"", "4\""]);
        assert_eq!(values("at=(1', 2'), (3', 4')"), ["(1', 2')", "(3', 4')"]);
        assert_eq!(values("board: [1 in, 1.5 in, 2 in]"), ["1 in", "1.5 in", "2 in"]);
        assert_eq!(values("board=1 in .. 2 in by 1/2 in"), ["1 in", "1.5 in", "2 in"]);
        assert_eq!(values("share=8..10 % by 1"), ["8 %", "9 %", "10 %"]);
        assert!("gap=6\"..4\" by 1\"".parse::<Variation>().is_err());
        assert!("board=1 in..2 ft by 1 in".parse::<Variation>().is_err());
        assert!("gap=3\"..4\"".parse::<Variation>().is_err());
        assert!("gap=3\"..4\" by 0\"".parse::<Variation>().is_err());
        assert!("gap".parse::<Variation>().is_err());
    }

    #[test]
    fn every_way_once() {
        let vary: Vec<Variation> = vec!["a=1,2".parse().unwrap(), "b=x,y,z".parse().unwrap()];
        let ways = combinations(&vary);
        assert_eq!(ways.len(), 6);
        assert_eq!(ways[1], ["1", "y"]);
    }
}
