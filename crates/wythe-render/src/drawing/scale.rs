//! Scales: the customary ones of each system of units, the one that fits, how it is written, and a bar to measure by.

use uom::si::length::{foot, meter};
use wythe_model::Length;
use wythe_units::UnitSystem;

use super::scene::{Anchor, Fill, Form, Frame, Group, Ink, Role, Text, Weight, pen, spot};
use super::words;

/// Millimeters on paper of a length at a scale; what is no number is nought.
pub(super) fn on_paper(length: Length, scale: u32) -> f64 {
    let value = length.get::<meter>() * 1000.0 / f64::from(scale.max(1));
    if value.is_finite() { value.clamp(-1.0e6, 1.0e6) } else { 0.0 }
}

/// The customary scales, largest drawing first.
const US: [u32; 14] = [8, 12, 16, 24, 32, 48, 64, 96, 128, 192, 240, 480, 960, 2400];
const SI: [u32; 9] = [10, 20, 25, 50, 100, 200, 500, 1000, 2000];

/// The customary scales of a system from one to another.
pub(super) fn between(system: UnitSystem, from: u32, to: u32) -> impl Iterator<Item = u32> {
    let all: &[u32] = match system {
        UnitSystem::Us => &US,
        UnitSystem::Si => &SI,
    };
    all.iter().copied().filter(move |s| (from..=to).contains(s))
}

/// The largest customary scale at which all pairs of a length and its room on paper fit; the smallest there is
/// where none does.
pub(super) fn fitting(system: UnitSystem, from: u32, to: u32, pairs: &[(Length, f64)]) -> u32 {
    let fits = |s: &u32| pairs.iter().all(|(length, room)| on_paper(*length, *s) <= *room);
    between(system, from, to).find(fits).or_else(|| between(system, from, to).last()).unwrap_or(to)
}

/// A scale as a drawing says it: `1" = 1' (1:12)`, `1:20`.
pub fn words_for(scale: u32, system: UnitSystem) -> String {
    let inches = match (system, scale) {
        (UnitSystem::Si, _) => None,
        (_, 8) => Some("1-1/2\" = 1'"),
        (_, 12) => Some("1\" = 1'"),
        (_, 16) => Some("3/4\" = 1'"),
        (_, 24) => Some("1/2\" = 1'"),
        (_, 32) => Some("3/8\" = 1'"),
        (_, 48) => Some("1/4\" = 1'"),
        (_, 64) => Some("3/16\" = 1'"),
        (_, 96) => Some("1/8\" = 1'"),
        (_, 128) => Some("3/32\" = 1'"),
        (_, 192) => Some("1/16\" = 1'"),
        (_, 240) => Some("1\" = 20'"),
        (_, 480) => Some("1\" = 40'"),
        (_, 960) => Some("1\" = 80'"),
        (_, 2400) => Some("1\" = 200'"),
        _ => None,
    };
    inches.map_or_else(|| format!("1:{scale}"), |i| format!("{i} (1:{scale})"))
}

/// A bar to measure by, its left end at the spot; the group and the room it takes.
pub(super) fn bar(x: f64, y: f64, scale: u32, system: UnitSystem) -> (Group, Frame) {
    let unit = |n: f64| match system {
        UnitSystem::Us => Length::new::<foot>(n),
        UnitSystem::Si => Length::new::<meter>(n),
    };
    let steps = [0.1, 0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0];
    let step = steps.into_iter().map(unit).find(|l| on_paper(*l, scale) >= 14.0).unwrap_or(unit(200.0));
    let part = on_paper(step, scale);
    let mut group = Group::new(Role::Sheet, "scale-bar").titled("Scale bar");
    for i in 0..2 {
        let left = x + part * f64::from(i);
        let ink = if i == 0 { Fill::Full(Ink::Line) } else { Fill::Full(Ink::Paper) };
        let frame = Frame { left, top: y, right: left + part, bottom: y + 1.4 };
        group.shape(Form::Area(frame.corners()), ink, Some(pen(Ink::Line, Weight::Thin)));
    }
    let mut room = Frame { left: x, top: y, right: x + part * 2.0, bottom: y + 1.4 };
    for i in 0..3 {
        let text = if i == 0 { "0".to_owned() } else { words::length(step * f64::from(i), system) };
        let text = Text::new(spot(x + part * f64::from(i), y + 4.2), 2.5, text).anchor(Anchor::Middle);
        room = room.with(text.frame());
        group.text(text);
    }
    (group, room)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_largest_scale_that_fits_is_taken() {
        let wall = Length::new::<foot>(42.0);
        assert_eq!(fitting(UnitSystem::Us, 24, 480, &[(wall, 150.0)]), 96);
        assert_eq!(fitting(UnitSystem::Si, 20, 500, &[(wall, 150.0)]), 100);
        assert_eq!(fitting(UnitSystem::Us, 24, 500, &[(wall * 1.0e6, 150.0)]), 480);
        assert!((on_paper(Length::new::<foot>(1.0), 12) - 25.4).abs() < 1e-9);
    }
}
