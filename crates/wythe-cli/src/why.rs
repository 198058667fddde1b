//! `wythe why`

use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use serde_json::{Value, json};
use wythe_eval::{Derivation, Evaluator, Frame};
use wythe_findings::Severity;
use wythe_render::terminal::{Sheets, clean, write_finding};
use wythe_source::LineTable;
use wythe_syntax::ast::DeclKind;

use crate::args::{Format, When};
use crate::exit::Exit;
use crate::output::{out, style};
use crate::repository::{Opened, open};

/// The name the question is given in the file; nobody else gives it.
const ASKED: &str = "asked_on_the_command_line";

/// Say where a value comes from: the lines, figures and sources it was worked out of.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe why houses/unit_4.wythe 'unit_4.perimeter'\n  wythe why houses/unit_4.wythe 'unit_4.wall(south).resistance(board_band)'"
)]
pub(crate) struct Why {
    /// The file in which the question is asked: its names are known.
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// A name or any expression of the language.
    #[arg(value_name = "EXPRESSION")]
    pub expression: String,
    /// The form of the output.
    #[arg(long, value_enum, default_value_t)]
    pub format: Format,
}

pub(crate) fn run(args: &Why, color: When) -> io::Result<Exit> {
    let (opened, reached) = open(std::slice::from_ref(&args.file), Path::new(""))?;
    let Some(mut opened) = opened.into_iter().next().filter(|_| reached) else { return Ok(Exit::Unusable) };
    let Some(file) = opened.project.roots().next() else { return Ok(Exit::Unusable) };
    opened.project.check_affected();
    let Some(path) = opened.project.entry(file).map(|e| e.path.clone()) else { return Ok(Exit::Unusable) };
    // The question becomes the last line of the file, in memory only.
    let before = opened.project.text(file).len() as u32;
    let text = format!("{}\nlet {ASKED} = {}\n", opened.project.text(file), args.expression);
    opened.project.set_text(path, text);
    opened.project.check_affected();
    let mut out = out();
    let faults: Vec<_> = opened.project.findings_in(file);
    let faults = faults.iter().filter(|f| f.severity == Severity::Error && f.primary.span.start >= before);
    let mut faulty = false;
    let mut sheets = Sheets::new(&opened);
    for fault in faults {
        faulty = true;
        write_finding(fault, &mut sheets, style(color), &mut out)?;
    }
    if faulty {
        out.flush()?;
        return Ok(Exit::Findings);
    }
    let Some(derivation) = derive(&opened, file) else { return Ok(Exit::Unusable) };
    match args.format {
        Format::Text => write_text(&derivation, &opened, 0, &mut out)?,
        Format::Json => {
            let text = serde_json::to_string_pretty(&as_json(&derivation, &opened)).map_err(io::Error::other)?;
            writeln!(out, "{text}")?;
        }
    }
    out.flush()?;
    Ok(Exit::Clean)
}

fn derive(opened: &Opened, file: wythe_source::FileId) -> Option<Derivation> {
    let program = opened.project.program();
    let module = &program.module(file)?.module;
    let asked = module.decls.iter().rev().find_map(|decl| match &decl.kind {
        DeclKind::Let(binding) if binding.name.name.as_str() == ASKED => Some(binding.value),
        _ => None,
    })?;
    let mut frame = Frame::new(program, file)?;
    Some(Evaluator::new(program).why(&mut frame, asked, &opened.project.manifest().display))
}

/// Where a figure stands, as file and line; nothing for the question itself.
fn place(derivation: &Derivation, opened: &Opened) -> Option<String> {
    let span = derivation.place?;
    let text = opened.project.text(span.file);
    let line = LineTable::new(text).line_of(span.start) + 1;
    let asked = text.lines().nth(line as usize - 1).is_some_and(|l| l.contains(ASKED));
    (!asked).then(|| format!("{}:{line}", opened.project.name(span.file)))
}

fn write_text(derivation: &Derivation, opened: &Opened, depth: usize, out: &mut dyn io::Write) -> io::Result<()> {
    let mut line = format!("{:indent$}{} = {}", "", derivation.text, derivation.value, indent = depth * 2);
    if let Some(place) = place(derivation, opened) {
        line.push_str(&format!("   [{place}]"));
    }
    if let Some(note) = &derivation.note {
        line.push_str(&format!("   {note}"));
    }
    writeln!(out, "{}", clean(&line))?;
    derivation.parts.iter().try_for_each(|part| write_text(part, opened, depth + 1, out))
}

fn as_json(derivation: &Derivation, opened: &Opened) -> Value {
    json!({
        "text": derivation.text,
        "value": derivation.value,
        "place": place(derivation, opened),
        "note": derivation.note,
        "parts": derivation.parts.iter().map(|part| as_json(part, opened)).collect::<Vec<_>>(),
    })
}
