//! `wythe draw`

use std::io::{self, Write as _};
use std::path::PathBuf;

use clap::ValueEnum;
use wythe_eval::JudgedFoundation;
use wythe_model::SurfaceKind;
use wythe_render::drawing::{
    self, ControlLine, Drawing, PierOptions, PlanOptions, SectionOptions, StripOptions, Theme,
};
use wythe_report::control_line;
use wythe_units::UnitSystem;

use crate::bill::plans::{Houses, plans};
use crate::exit::Exit;
use crate::output::{complain, out};
use crate::replace::put;

/// Draw houses as SVG files: plan, a section of each wall, a pier of each sort, the sequence, the control lines.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe draw unit_4\n  wythe draw houses/unit_4.wythe --into drawings --theme print"
)]
pub(crate) struct Draw {
    /// The name of a foundation, or a file or folder with foundations.
    #[arg(default_value = ".", value_name = "FOUNDATION|PATH")]
    pub target: String,
    /// The folder to write to; it is made if it is not there.
    #[arg(long, value_name = "FOLDER", default_value = "drawings")]
    pub into: PathBuf,
    /// Where the drawings are to be seen.
    #[arg(long, value_enum, default_value_t)]
    pub theme: ThemeAsked,
}

/// Where a drawing is to be seen.
#[derive(ValueEnum, Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(crate) enum ThemeAsked {
    /// On a light screen.
    #[default]
    Light,
    /// On a dark screen.
    Dark,
    /// On paper, in black.
    Print,
}

impl ThemeAsked {
    pub(crate) const fn theme(self) -> Theme {
        match self {
            ThemeAsked::Light => Theme::Light,
            ThemeAsked::Dark => Theme::Dark,
            ThemeAsked::Print => Theme::Print,
        }
    }
}

pub(crate) fn run(args: &Draw) -> io::Result<Exit> {
    let Some(plans) = plans(&Houses::of(&args.target))? else { return Ok(Exit::Unusable) };
    let theme = args.theme.theme();
    let system = plans.opened.project.manifest().display.system;
    if let Err(error) = std::fs::create_dir_all(&args.into) {
        complain(&format_args!("{}: {error}", args.into.display()));
        return Ok(Exit::Unusable);
    }
    let mut out = out();
    for judged in &plans.judged {
        for (name, drawing) in drawings(judged, system) {
            let path = args.into.join(format!("{}_{name}.svg", judged.foundation.name));
            if let Err(error) = put(&path, &drawing::to_svg(&drawing, theme)) {
                complain(&format_args!("{}: not written: {error}", path.display()));
                return Ok(Exit::Unusable);
            }
            writeln!(out, "{}", path.display())?;
        }
    }
    out.flush()?;
    Ok(Exit::Clean)
}

/// The drawings of a house, each with the end of its file's name.
fn drawings(judged: &JudgedFoundation, system: UnitSystem) -> Vec<(String, Drawing)> {
    let f = &judged.foundation;
    let mut out = vec![("plan".to_owned(), drawing::plan(f, &PlanOptions { system, ..PlanOptions::default() }))];
    for (number, wall) in f.walls.iter().enumerate() {
        let options = SectionOptions { system, ..SectionOptions::default() };
        out.push((format!("section_{}", wall.name), drawing::section(f, number, wall.length / 2.0, &options)));
    }
    let mut sorts = Vec::new();
    for (number, pier) in f.piers.iter().enumerate() {
        let sort = (pier.assembly, pier.top.value.to_bits());
        if !sorts.contains(&sort) {
            sorts.push(sort);
            out.push((format!("pier_{}", pier.name), drawing::pier_detail(f, number, &PierOptions { system })));
        }
    }
    if !f.walls.is_empty() {
        let options = StripOptions { system, wall: 0, at: None };
        out.push(("sequence".to_owned(), drawing::sequence_strip(f, &options)));
        let first = f.walls[0].name;
        let of_wall = judged.traces.iter().filter(|t| t.kind == SurfaceKind::Wall && t.places.contains(&first));
        let lines: Vec<ControlLine> = of_wall.map(control_line).collect();
        out.push(("control_lines".to_owned(), drawing::control_strip(f, &lines, &options)));
    }
    out
}
