//! `wythe draw`

use std::io::{self, Write as _};
use std::path::PathBuf;

use clap::ValueEnum;
use wythe_bill::Job;
use wythe_check::lines::Trace;
use wythe_eval::JudgedFoundation;
use wythe_model::SurfaceKind;
use wythe_render::drawing::{
    self, ControlLine, Drawing, PatternOptions, PierOptions, SectionOptions, StripOptions, Theme,
};
use wythe_report::control_line;
use wythe_source::Symbol;
use wythe_units::UnitSystem;

use crate::bill::plans::{Houses, plans};
use crate::exit::Exit;
use crate::output::{complain, out};
use crate::replace::put;

/// Draw houses as SVG files: plan with liner strips and numbered board pieces, sections, piers, sheet patterns, the
/// sequence, the control lines.
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
    let houses = Houses::of(&args.target);
    let Some(plans) = plans(&houses)? else { return Ok(Exit::Unusable) };
    let terms = plans.terms(&houses);
    let theme = args.theme.theme();
    let system = plans.opened.project.manifest().display.system;
    if let Err(error) = std::fs::create_dir_all(&args.into) {
        complain(&format_args!("{}: {error}", args.into.display()));
        return Ok(Exit::Unusable);
    }
    let mut out = out();
    for judged in &plans.judged {
        let job = Job::of(std::slice::from_ref(&judged.foundation), &terms);
        for (name, drawing) in drawings(judged, &job, system) {
            let path = args.into.join(format!("{}_{name}.svg", judged.foundation.name));
            if let Err(error) = put(&path, drawing::to_svg(&drawing, theme)) {
                complain(&format_args!("{}: not written: {error}", path.display()));
                return Ok(Exit::Unusable);
            }
            writeln!(out, "{}", path.display())?;
        }
    }
    out.flush()?;
    Ok(Exit::Clean)
}

/// The drawings of a house, each with the end of its file's name. Pieces and strips are those of its own cut list.
pub(crate) fn drawings(judged: &JudgedFoundation, job: &Job, system: UnitSystem) -> Vec<(String, Drawing)> {
    let f = &judged.foundation;
    let lines_of = |wall: Symbol| -> Vec<ControlLine> {
        let of_wall = |t: &&Trace| t.kind == SurfaceKind::Wall && t.places.contains(&wall);
        judged.traces.iter().filter(of_wall).map(control_line).collect()
    };
    let mut out = vec![("plan".to_owned(), drawing::plan(f, &drawing::plan_options(job, 0, system)))];
    for (number, wall) in f.walls.iter().enumerate() {
        let options = SectionOptions { system, lines: lines_of(wall.name), letter: Some(drawing::letter(number)) };
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
    let patterns = drawing::patterns(job);
    if !patterns.is_empty() {
        out.push(("sheets".to_owned(), drawing::sheet_patterns(&patterns, &PatternOptions { system })));
    }
    if !f.walls.is_empty() {
        let options = StripOptions { system, wall: 0, at: None };
        out.push(("sequence".to_owned(), drawing::sequence_strip(f, &options)));
        let lines = lines_of(f.walls[0].name);
        out.push(("control_lines".to_owned(), drawing::control_strip(f, &lines, &options)));
    }
    out
}
