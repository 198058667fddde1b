//! Figures nobody can build, and things that are not there: an answer, never a panic.

use wythe_model::fixture::{ft_in, unit_4};
use wythe_model::{Length, Levels};

use crate::drawing::{
    Cutout, PatternOffcut, PatternOptions, PatternPiece, PierOptions, PlanOptions, SectionOptions, SheetPattern,
    StripOptions, Theme, UnitSystem, pier_detail, plan, section, sequence_strip, sheet_patterns, to_svg,
};

use super::houses::drawings;

#[test]
fn what_is_not_there_is_said() {
    let mut f = unit_4();
    let missing = [
        section(&f, 99, Length::default(), &SectionOptions::default()),
        pier_detail(&f, 99, &PierOptions::default()),
        sequence_strip(&f, &StripOptions { wall: 99, ..StripOptions::default() }),
    ];
    for d in &missing {
        assert!(d.texts().iter().any(|t| t.shown.starts_with("There is no")), "{}", d.title);
    }
    f.walls.clear();
    let empty = plan(&f, &PlanOptions::default());
    assert!(empty.texts().iter().any(|t| t.shown == "There are no walls yet."));
}

#[test]
fn figures_past_all_measure_are_drawn_or_left_out() {
    for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1.0e30, -5.0, 0.0] {
        let value = Length { value: bad, ..Length::default() };
        let mut f = unit_4();
        for wall in &mut f.walls {
            wall.length = value;
            for s in &mut wall.stretches {
                s.levels = Levels { top: value, sill: -value, grade: value, ground: value, footing: -value };
            }
        }
        for p in &mut f.piers {
            (p.width, p.depth, p.top, p.at.x) = (value, value, value, value);
        }
        for o in &mut f.openings {
            (o.at, o.width, o.height) = (value, value, value);
        }
        for d in drawings(&f, UnitSystem::Us) {
            let svg = to_svg(&d, Theme::Light);
            roxmltree::Document::parse(&svg).unwrap();
            assert!(!svg.contains("NaN") && !svg.contains("inf"), "{bad}: {}", d.id);
            assert!(svg.len() < 4_000_000, "{bad}: {} is {} long", d.id, svg.len());
        }
    }
}

#[test]
fn sheets_say_every_piece_and_lay_no_text_over_another() {
    let on = |x: f64, y: f64, along: f64, across: f64| Cutout {
        x: ft_in(0.0, x),
        y: ft_in(0.0, y),
        along: ft_in(0.0, along),
        across: ft_in(0.0, across),
    };
    let piece = |mark: &str, on: Cutout| PatternPiece { mark: mark.to_owned(), place: "south".to_owned(), on };
    let pattern = SheetPattern {
        name: "Sheet 1".to_owned(),
        count: 3,
        length: ft_in(8.0, 0.0),
        width: ft_in(4.0, 0.0),
        pieces: vec![
            piece("1", on(0.0, 0.0, 96.0, 28.0)),
            piece("2", on(0.0, 28.0, 6.0, 20.0)),
            piece("3", on(6.0, 28.0, 3.0, 20.0)),
            piece("4", on(9.0, 28.0, 24.0, 8.0)),
        ],
        offcuts: vec![PatternOffcut { kept: true, on: on(33.0, 28.0, 63.0, 20.0) }],
    };
    let d = sheet_patterns(&vec![pattern; 5], &PatternOptions::default());
    let texts = d.texts();
    for (i, a) in texts.iter().enumerate() {
        assert!(texts[i + 1..].iter().all(|b| !a.frame().overlaps(&b.frame())), "{}", a.shown);
    }
    for size in ["2' 4\" x 8'", "1' 8\" x 6\"", "1' 8\" x 3\"", "8\" x 2'"] {
        assert!(texts.iter().any(|t| t.shown.contains(size)), "{size}");
    }
    assert!(texts.iter().any(|t| t.shown.contains("15 sheets, 60 pieces")));
}
