//! Golden sheets. Each was rendered and looked at before it was accepted; do the same when one changes.

use insta::{Settings, assert_binary_snapshot};
use wythe_model::fixture::{ft_in, rectangle, unit_4};

use crate::drawing::{
    Cutout, Drawing, PatternOffcut, PatternOptions, PatternPiece, PierOptions, PlanOptions, SectionOptions,
    SheetPattern, StripOptions, Theme, UnitSystem, control_strip, pier_detail, plan, section, sequence_strip,
    sheet_patterns, to_svg,
};

use super::houses::{forty_piers, full_plan, hostile, lines, tall, ten_layers};

fn golden(name: &str, drawing: &Drawing, theme: Theme) {
    let mut settings = Settings::clone_current();
    settings.set_snapshot_path("../../../../../tests/golden/drawings");
    settings.set_prepend_module_to_snapshot(false);
    settings.set_omit_expression(true);
    settings.bind(|| assert_binary_snapshot!(&format!("{name}.svg"), to_svg(drawing, theme).into_bytes()));
}

#[test]
fn sections() {
    let f = unit_4();
    let us = SectionOptions::default();
    let si = SectionOptions { system: UnitSystem::Si, ..SectionOptions::default() };
    golden("section_south", &section(&f, 0, ft_in(21.0, 0.0), &us), Theme::Light);
    golden("section_east_si_dark", &section(&f, 1, ft_in(20.0, 0.0), &si), Theme::Dark);
    golden("section_hatch_print", &section(&f, 0, ft_in(11.0, 0.0), &us), Theme::Print);
    let traced = SectionOptions { lines: lines(), ..us.clone() };
    golden("section_lines_print", &section(&f, 0, ft_in(21.0, 0.0), &traced), Theme::Print);
    golden("section_ten_layers", &section(&ten_layers(), 0, ft_in(5.0, 0.0), &us), Theme::Light);
    golden("section_tall", &section(&tall(), 0, ft_in(5.0, 0.0), &us), Theme::Light);
}

#[test]
fn plans() {
    let bare = PlanOptions::default();
    golden("plan_full_print", &plan(&unit_4(), &full_plan()), Theme::Print);
    golden("plan_unit_4", &plan(&unit_4(), &bare), Theme::Light);
    golden("plan_forty_piers", &plan(&forty_piers(), &bare), Theme::Light);
    golden("plan_hostile", &plan(&hostile(), &bare), Theme::Light);
    golden("plan_200_ft", &plan(&rectangle(ft_in(200.0, 0.0), ft_in(2.0, 0.0)), &bare), Theme::Light);
}

#[test]
fn piers_and_strips() {
    let f = unit_4();
    golden("pier_p1", &pier_detail(&f, 0, &PierOptions::default()), Theme::Light);
    golden("pier_stair_print", &pier_detail(&f, 6, &PierOptions { system: UnitSystem::Si }), Theme::Print);
    golden("sequence", &sequence_strip(&f, &StripOptions::default()), Theme::Light);
    golden("control_lines_print", &control_strip(&f, &lines(), &StripOptions::default()), Theme::Print);
}

#[test]
fn sheets() {
    let on = |x: f64, y: f64, along: f64, across: f64| Cutout {
        x: ft_in(0.0, x),
        y: ft_in(0.0, y),
        along: ft_in(0.0, along),
        across: ft_in(0.0, across),
    };
    let piece = |mark: &str, place: &str, on: Cutout| PatternPiece { mark: mark.into(), place: place.into(), on };
    let patterns = [
        SheetPattern {
            name: "Sheets 1 to 3, foil board".to_owned(),
            count: 3,
            length: ft_in(8.0, 0.0),
            width: ft_in(4.0, 0.0),
            pieces: vec![
                piece("1", "south, from its start", on(0.0, 0.0, 96.0, 28.0)),
                piece("2", "hatch, right of it", on(0.0, 28.0, 8.0, 20.0)),
            ],
            offcuts: vec![PatternOffcut { kept: true, on: on(8.0, 28.0, 88.0, 20.0) }],
        },
        SheetPattern {
            name: "Sheet 4, foil board".to_owned(),
            count: 1,
            length: ft_in(8.0, 0.0),
            width: ft_in(4.0, 0.0),
            pieces: vec![
                piece("7", "west, to its end", on(0.0, 0.0, 50.0, 28.0)),
                piece("8", "east, over the step", on(50.0, 0.0, 40.0, 28.0)),
                piece("9", "porch, over the vent", on(0.0, 28.0, 16.0, 4.0)),
            ],
            offcuts: vec![
                PatternOffcut { kept: true, on: on(0.0, 32.0, 96.0, 16.0) },
                PatternOffcut { kept: false, on: on(90.0, 0.0, 6.0, 28.0) },
            ],
        },
    ];
    golden("sheets", &sheet_patterns(&patterns, &PatternOptions::default()), Theme::Light);
}
