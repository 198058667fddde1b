//! Themes: which color each ink is on a light screen, on a dark one, and on a print in black.
//!
//! The hues are those of Okabe and Ito, "Color Universal Design" (2008), chosen to be told apart by the color-blind
//! (values from memory); on the dark sheet some are lightened. Nothing is told by color alone: hatches, dash
//! patterns and letters say the same.

use wythe_model::Control;

use super::scene::{Dash, Fill, Ink};

/// How a drawing is to be seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default, Hash)]
pub enum Theme {
    /// Dark on white.
    #[default]
    Light,
    /// Light on dark.
    Dark,
    /// Black on white, no gray fills.
    Print,
}

impl Theme {
    /// The color of an ink, as `#rrggbb`.
    pub const fn color(self, ink: Ink) -> &'static str {
        match self {
            Theme::Light => light(ink),
            Theme::Dark => dark(ink),
            Theme::Print => match ink {
                Ink::Paper => "#ffffff",
                Ink::Fine => "#333333",
                _ => "#000000",
            },
        }
    }

    /// The color and opacity inside an outline; nothing for an empty one.
    pub fn fill(self, fill: Fill) -> Option<(&'static str, f64)> {
        match (fill, self) {
            (Fill::None, _) => None,
            (Fill::Full(ink), _) => Some((self.color(ink), 1.0)),
            (Fill::Wash(_), Theme::Print) => Some((self.color(Ink::Paper), 1.0)),
            (Fill::Wash(ink), Theme::Light) => Some((self.color(ink), 0.18)),
            (Fill::Wash(ink), Theme::Dark) => Some((self.color(ink), 0.28)),
        }
    }
}

const fn light(ink: Ink) -> &'static str {
    match ink {
        Ink::Paper => "#ffffff",
        Ink::Line => "#1a1a1a",
        Ink::Fine => "#6b6b6b",
        Ink::Quiet => "#4a4a4a",
        Ink::Earth => "#8a6d3b",
        Ink::Masonry => "#7a7a7a",
        Ink::Stone => "#5f7480",
        Ink::Wood => "#b5813a",
        Ink::Coating => "#0072b2",
        Ink::Sheet => "#006c4f",
        Ink::Board => "#cc79a7",
        Ink::Fixing => "#1a1a1a",
        Ink::New => "#b34700",
        Ink::Alarm => "#b34700",
        Ink::Control(control) => match control {
            Control::Capillary => "#b06f00",
            Control::BulkWater => "#0072b2",
            Control::Vapor => "#9c4a7b",
            Control::Air => "#007a59",
            Control::Heat => "#c44e00",
            Control::Fire => "#000000",
        },
    }
}

const fn dark(ink: Ink) -> &'static str {
    match ink {
        Ink::Paper => "#15191c",
        Ink::Line => "#f0f0f0",
        Ink::Fine => "#a0a6aa",
        Ink::Quiet => "#c8cccf",
        Ink::Earth => "#c9a96a",
        Ink::Masonry => "#b0b0b0",
        Ink::Stone => "#a9bcc6",
        Ink::Wood => "#e0b070",
        Ink::Coating => "#56b4e9",
        Ink::Sheet => "#2fc79a",
        Ink::Board => "#e3a3c6",
        Ink::Fixing => "#f0f0f0",
        Ink::New => "#ff9e4a",
        Ink::Alarm => "#ff9e4a",
        Ink::Control(control) => match control {
            Control::Capillary => "#e69f00",
            Control::BulkWater => "#56b4e9",
            Control::Vapor => "#e3a3c6",
            Control::Air => "#2fc79a",
            Control::Heat => "#ff8a3d",
            Control::Fire => "#f0e442",
        },
    }
}

/// Strokes and gaps of a dash pattern, in millimeters on paper; empty for a whole line.
pub const fn dashes(dash: Dash) -> &'static [f64] {
    match dash {
        Dash::Whole => &[],
        Dash::Hidden => &[2.0, 1.0],
        Dash::Center => &[6.0, 1.2, 1.0, 1.2],
        Dash::Control(control) => match control {
            Control::Capillary => &[0.8, 0.8],
            Control::BulkWater => &[5.0, 0.9],
            Control::Vapor => &[2.4, 0.9],
            Control::Air => &[4.0, 0.8, 0.8, 0.8],
            Control::Heat => &[],
            Control::Fire => &[3.0, 0.7, 0.8, 0.7, 0.8, 0.7],
        },
    }
}

/// The letter of a control, as marked on its line.
pub const fn letter(control: Control) -> &'static str {
    match control {
        Control::Capillary => "C",
        Control::BulkWater => "W",
        Control::Vapor => "V",
        Control::Air => "A",
        Control::Heat => "H",
        Control::Fire => "F",
    }
}

/// What a control keeps out, in plain words.
pub const fn plain_name(control: Control) -> &'static str {
    match control {
        Control::Capillary => "rising damp",
        Control::BulkWater => "water",
        Control::Vapor => "vapor",
        Control::Air => "air",
        Control::Heat => "heat",
        Control::Fire => "fire",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn luminance(color: &str) -> f64 {
        let part = |at: usize| {
            let v = f64::from(u8::from_str_radix(&color[at..at + 2], 16).unwrap()) / 255.0;
            if v <= 0.04045 { v / 12.92 } else { ((v + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5)
    }

    fn contrast(a: &str, b: &str) -> f64 {
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    #[test]
    fn text_and_control_lines_stand_out_from_the_sheet() {
        // WCAG 2.1, success criteria 1.4.3 (text, 4.5) and 1.4.11 (graphics, 3).
        for theme in [Theme::Light, Theme::Dark, Theme::Print] {
            let paper = theme.color(Ink::Paper);
            for ink in [Ink::Line, Ink::Quiet, Ink::New, Ink::Alarm] {
                assert!(contrast(theme.color(ink), paper) >= 4.5, "{ink:?} on {theme:?}");
            }
            for control in Control::ALL {
                assert!(contrast(theme.color(Ink::Control(control)), paper) >= 3.0, "{control:?} on {theme:?}");
            }
            assert!(contrast(theme.color(Ink::Fine), paper) >= 3.0);
        }
    }

    #[test]
    fn no_two_controls_share_a_dash_pattern_or_a_letter() {
        for (i, a) in Control::ALL.into_iter().enumerate() {
            for b in Control::ALL.into_iter().skip(i + 1) {
                assert_ne!(dashes(Dash::Control(a)), dashes(Dash::Control(b)));
                assert_ne!(letter(a), letter(b));
            }
        }
    }
}
