//! The core of a check over a folder, as one process: lex, parse, resolve, dimensions, layer order; no rules, no
//! control lines, no results. `core_check FOLDER [bytes|parse|types|layers]` stops after that stage.
//!
//! It exists so that the rate of the core can be set beside that of a public linter, process against process.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::{env, fs, io};

use rayon::prelude::*;
use wythe_check::Requirements;
use wythe_eval::{Evaluator, Shared};
use wythe_sema::{DefId, ModuleData, Prelude, Program, check_module, declare};
use wythe_source::FileId;
use wythe_syntax::ast::{DeclKind, UseTarget};
use wythe_syntax::parse;

#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn collect(folder: &Path, out: &mut Vec<PathBuf>) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            collect(&path, out)?;
        } else if path.extension().is_some_and(|e| e == "wythe") {
            out.push(path);
        }
    }
    Ok(())
}

fn main() -> io::Result<()> {
    let mut args = env::args().skip(1);
    let folder = args.next().unwrap_or_else(|| ".".into());
    let stage = args.next().unwrap_or_else(|| "layers".into());
    let mut paths = Vec::new();
    collect(Path::new(&folder), &mut paths)?;
    paths.sort();
    let (libraries, houses): (Vec<PathBuf>, Vec<PathBuf>) =
        paths.iter().cloned().partition(|p| p.components().any(|c| c.as_os_str() == "library"));
    if stage == "bytes" {
        let bytes: usize = houses.par_iter().map(|p| fs::read(p).map_or(0, |b| b.len())).sum();
        println!("{bytes} bytes");
        return Ok(());
    }
    // Libraries first. They use one another no more than twice over, so that three rounds settle them.
    let mut program = Program::new(Prelude::load());
    let number =
        |path: &Path| libraries.iter().position(|l| l.file_name() == path.file_name()).map(|i| FileId(i as u32));
    for (index, path) in libraries.iter().enumerate() {
        program.insert(FileId(index as u32), read(path, FileId(index as u32), &number)?.0);
    }
    for _ in 0..3 {
        for index in 0..libraries.len() as u32 {
            let checked = check_module(&program, FileId(index));
            program.set_checked(FileId(index), Arc::new(checked));
        }
    }
    let shared = Arc::default();
    // No house is used by another file: each is read, checked and let go.
    let counts: Vec<io::Result<usize>> = houses
        .par_iter()
        .enumerate()
        .map(|(index, path)| {
            let file = FileId((libraries.len() + index) as u32);
            let (data, count) = read(path, file, &number)?;
            Ok(count + if stage == "parse" { 0 } else { house(&program, file, data, stage == "layers", &shared) })
        })
        .collect();
    let findings: usize = counts.into_iter().sum::<io::Result<usize>>()?;
    println!("{findings} findings in {} files", paths.len());
    Ok(())
}

fn read(path: &Path, file: FileId, number: &dyn Fn(&Path) -> Option<FileId>) -> io::Result<(ModuleData, usize)> {
    let text = fs::read_to_string(path)?;
    let parsed = parse(file, &text);
    let uses = parsed.module.uses.iter().map(|used| match &used.target {
        UseTarget::Code(_) => None,
        UseTarget::File { path, .. } => number(Path::new(path)),
    });
    let data = ModuleData {
        uses: uses.collect(),
        declared: Arc::new(declare(&parsed.module)),
        module: Arc::new(parsed.module),
        text: text.into(),
        checked: None,
    };
    Ok((data, parsed.findings.len()))
}

/// The findings of one house, by names, types and dimensions, and by layer order.
fn house(library: &Program, file: FileId, data: ModuleData, layers: bool, shared: &Arc<Shared>) -> usize {
    let mut program = library.clone();
    program.insert(file, data);
    let checked = check_module(&program, file);
    let mut count = checked.findings.len();
    program.set_checked(file, Arc::new(checked));
    if layers && let Some(data) = program.module(file) {
        let asked = Requirements::default();
        let mut evaluator = Evaluator::sharing(&program, shared.clone(), Some(file));
        for (index, decl) in data.module.decls.iter().enumerate() {
            if matches!(decl.kind, DeclKind::Foundation { .. })
                && let Some(f) = evaluator.foundation(DefId { file, index: index as u32 })
            {
                count += wythe_check::order::check(&f, &asked).len();
            }
        }
        count += evaluator.take_findings().len();
    }
    count
}
