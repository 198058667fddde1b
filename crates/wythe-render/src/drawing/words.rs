//! The words on a drawing: lengths by the system of units, names as people read them, what a piece of work says.

use wythe_model::{Act, EdgeName, Elevation, Extent, Foundation, Length, Level, Levels, Place, Product, Work};
use wythe_source::Symbol;
use wythe_units::{DisplayOptions, Quantity, UnitSystem, format_quantity};

use super::text::clean;

/// A length as it stands on a drawing.
pub fn length(value: Length, system: UnitSystem) -> String {
    let options = DisplayOptions::new(system);
    Quantity::try_from(value).map_or_else(|_| "?".to_owned(), |q| format_quantity(q, &options))
}

/// A width, lap or spacing as the trade says it: in inches up to two feet.
pub fn span(value: Length, system: UnitSystem) -> String {
    let sixteenths = (value.get::<uom::si::length::inch>() * 16.0).round();
    if system != UnitSystem::Us || !(0.0..=384.0).contains(&sixteenths) {
        return length(value, system);
    }
    let (whole, part) = (sixteenths as u32 / 16, sixteenths as u32 % 16);
    if part == 0 {
        return format!("{whole}\"");
    }
    let shift = part.trailing_zeros();
    let fraction = format!("{}/{}", part >> shift, 16 >> shift);
    if whole == 0 { format!("{fraction}\"") } else { format!("{whole}-{fraction}\"") }
}

/// A thickness: films in mils or micrometers, all else as a length.
pub fn thickness(value: Length, system: UnitSystem) -> String {
    use uom::si::length::{micrometer, mil, millimeter};
    if value >= Length::new::<millimeter>(3.0) {
        return span(value, system);
    }
    match system {
        UnitSystem::Us => format!("{} mil", trimmed(value.get::<mil>())),
        UnitSystem::Si if value < Length::new::<millimeter>(1.0) => {
            format!("{} µm", trimmed(value.get::<micrometer>().round()))
        }
        UnitSystem::Si => format!("{} mm", trimmed(value.get::<millimeter>())),
    }
}

fn trimmed(value: f64) -> String {
    let text = format!("{value:.1}");
    text.strip_suffix(".0").map_or(text.clone(), str::to_owned)
}

/// A name as people read it: `wall_liner` is wall liner, `foil_board_1_5in` is foil board 1.5in.
pub fn name(symbol: Symbol) -> String {
    let text = symbol.as_str();
    let mut out = String::with_capacity(text.len());
    let letters: Vec<char> = text.chars().collect();
    for (i, &c) in letters.iter().enumerate() {
        let digit = |at: Option<usize>| at.and_then(|a| letters.get(a)).is_some_and(char::is_ascii_digit);
        out.push(match c {
            '_' if digit(i.checked_sub(1)) && digit(Some(i + 1)) => '.',
            '_' => ' ',
            c => c,
        });
    }
    clean(&out)
}

/// With a capital letter.
pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// What is done, as the first line of its label: `Tape top edge of board`.
pub(super) fn headline(work: &Work) -> String {
    let layer = name(work.layer);
    let verb = capital(work.act.word());
    match (work.act, work.place) {
        (Act::Tape | Act::Seal | Act::Cap, Some(place)) => format!("{verb} {}", edge(&place)),
        (Act::Coat, Some(place)) if work.extent.is_none() => format!("{verb} {}", edge(&place)),
        (Act::Lap, Some(place)) => {
            let over = match place.edge {
                EdgeName::Layer(other) => name(other),
                _ => edge(&place),
            };
            format!("{verb} {layer} {} {over}", relation(&place))
        }
        (Act::Drain, _) => format!("Lay {layer}"),
        (Act::Fill, _) => format!("Fill with {layer}"),
        _ => format!("{verb} {layer}"),
    }
}

/// What it is done with, how thick, how far, how often and when: the second line of its label.
pub(super) fn details(work: &Work, levels: &Levels, system: UnitSystem) -> String {
    let mut parts: Vec<String> = Vec::new();
    if let Some(product) = &work.product {
        let size = size(product, work.act, system);
        let named = (product.name != work.layer || !work.act.places()).then(|| name(product.name));
        parts.push(match (named, size) {
            (Some(n), Some(s)) => format!("{n} {s}"),
            (Some(n), None) => n,
            (None, Some(s)) => s,
            (None, None) => String::new(),
        });
    }
    if let Some(extent) = &work.extent {
        let (low, high) = extent.on(levels);
        parts.push(format!("{} ({})", range(extent, levels, system), span(high - low, system)));
    }
    if let Some(every) = work.every {
        parts.push(format!("every {}", span(every, system)));
    }
    if let Some((count, unit)) = &work.each {
        parts.push(format!("{} per {}", trimmed(*count), name(*unit)));
    }
    if let Some(by) = work.by {
        let what = match work.act {
            Act::Hang => "tail on the ground",
            Act::Lap => "wide",
            Act::Lay => "overlap",
            _ => "wide",
        };
        parts.push(format!("{} {what}", span(by, system)));
    }
    if let Some(bead) = work.bead {
        parts.push(format!("{} bead", span(bead, system)));
    }
    parts.retain(|p| !p.is_empty());
    parts.join(", ")
}

fn size(product: &Product, act: Act, system: UnitSystem) -> Option<String> {
    match act {
        Act::Tape => product.width.map(|w| span(w, system)),
        Act::Fasten => product.length.map(|l| span(l, system)),
        Act::Drain => product.diameter.map(|d| span(d, system)),
        _ => product.thickness.map(|t| thickness(t, system)),
    }
}

/// `from 4" below top to crawl floor`.
fn range(extent: &Extent, levels: &Levels, system: UnitSystem) -> String {
    let (upper, lower) = if levels.height_of(extent.from) >= levels.height_of(extent.to) {
        (extent.from, extent.to)
    } else {
        (extent.to, extent.from)
    };
    format!("{} down to {}", elevation(upper, system), elevation(lower, system))
}

fn elevation(at: Elevation, system: UnitSystem) -> String {
    let level = level(at.from);
    let nought = Length::default();
    if at.offset.abs() < wythe_model::geometry::hair() {
        level.to_owned()
    } else if at.offset > nought {
        format!("{} above {level}", span(at.offset, system))
    } else {
        format!("{} below {level}", span(-at.offset, system))
    }
}

/// The name of a level on a drawing.
pub(super) const fn level(level: Level) -> &'static str {
    match level {
        Level::Datum => "datum",
        Level::Top => "top",
        Level::Sill => "sill",
        Level::Grade => "grade",
        Level::Ground => "crawl floor",
        Level::Footing => "footing",
    }
}

fn relation(place: &Place) -> &'static str {
    use wythe_model::Relation;
    match place.relation {
        Relation::Along => "along",
        Relation::Over => "over",
        Relation::Under => "under",
        Relation::Into => "into",
    }
}

fn edge(place: &Place) -> String {
    let what = match place.edge {
        EdgeName::TopEdge => "top edge",
        EdgeName::BottomEdge => "bottom edge",
        EdgeName::EndEdges => "end edges",
        EdgeName::Joints => "joints",
        EdgeName::Heads => "heads",
        EdgeName::Laps => "laps",
        EdgeName::Cuts => "cuts",
        EdgeName::Perimeter => "perimeter",
        EdgeName::Head => "top of the masonry",
        EdgeName::Footing => "footing",
        EdgeName::Layer(layer) => return name(layer),
    };
    let of = place.of.map(|of| format!(" of {}", name(of))).unwrap_or_default();
    let to = place.to.map(|to| format!(" to {}", name(to))).unwrap_or_default();
    format!("{what}{of}{to}")
}

/// The phase a work is done in, as people read it.
pub(super) fn phase(f: &Foundation, work: &Work) -> Option<String> {
    let phase = work.phase?;
    f.phase_index(phase.name)?;
    Some(name(phase.name))
}

#[cfg(test)]
mod tests {
    use uom::si::length::{inch, mil, millimeter};

    use super::*;

    #[test]
    fn lengths_follow_the_system_of_units() {
        assert_eq!(length(Length::new::<inch>(40.5), UnitSystem::Us), "3' 4-1/2\"");
        assert_eq!(length(Length::new::<inch>(40.0), UnitSystem::Si), "1016 mm");
        assert_eq!(length(Length::new::<inch>(f64::NAN), UnitSystem::Us), "?");
        assert_eq!(thickness(Length::new::<mil>(12.0), UnitSystem::Us), "12 mil");
        assert_eq!(thickness(Length::new::<mil>(10.0), UnitSystem::Si), "254 µm");
        assert_eq!(span(Length::new::<inch>(24.0), UnitSystem::Us), "24\"");
        assert_eq!(span(Length::new::<inch>(0.375), UnitSystem::Us), "3/8\"");
        assert_eq!(span(Length::new::<inch>(40.0), UnitSystem::Us), "3' 4\"");
        assert_eq!(span(Length::new::<inch>(-1.0), UnitSystem::Us), "-1\"");
        assert_eq!(thickness(Length::new::<millimeter>(38.1), UnitSystem::Us), "1-1/2\"");
    }

    #[test]
    fn names_lose_their_underscores() {
        assert_eq!(name(Symbol::new("foil_board_1_5in")), "foil board 1.5in");
        assert_eq!(name(Symbol::new("wall_liner")), "wall liner");
    }
}
