//! The core of a check over a folder, as one process: lex, parse, resolve, dimensions, layer order; no rules, no
//! control lines, no results. `core_check FOLDER [bytes|parse|types|layers]` stops after that stage.
//!
//! It exists so that the rate of the core can be set beside that of a public linter, process against process.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::{env, fs, io};

use rayon::prelude::*;
use wythe_check::Requirements;
use wythe_eval::Evaluator;
use wythe_sema::{DefId, ModuleData, Prelude, Program, check_module, declare};
use wythe_source::FileId;
use wythe_syntax::ast::{DeclKind, Module, UseTarget};
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
    let texts: Vec<String> = paths.par_iter().map(fs::read_to_string).collect::<io::Result<_>>()?;
    let bytes: usize = texts.iter().map(String::len).sum();
    if stage == "bytes" {
        println!("{bytes} bytes");
        return Ok(());
    }
    // As in a check: the tree is kept, the tokens are not.
    let parsed: Vec<(Module, usize)> = texts
        .par_iter()
        .enumerate()
        .map(|(i, text)| {
            let parsed = parse(FileId(i as u32), text);
            (parsed.module, parsed.findings.len())
        })
        .collect();
    let mut findings: usize = parsed.iter().map(|(_, count)| count).sum();
    if stage == "parse" {
        println!("{findings} findings");
        return Ok(());
    }
    let mut program = Program::new(Prelude::load());
    let resolve = |from: &Path, to: &str| {
        let target = fs::canonicalize(from.parent()?.join(to)).ok()?;
        paths.iter().position(|p| fs::canonicalize(p).is_ok_and(|p| p == target)).map(|i| FileId(i as u32))
    };
    let mut known = rustc_hash::FxHashMap::default();
    for (index, (module, _)) in parsed.into_iter().enumerate() {
        let uses = module.uses.iter().map(|used| match &used.target {
            UseTarget::Code(_) => None,
            UseTarget::File { path, .. } => {
                let key = (paths[index].parent().map(Path::to_path_buf), path.clone());
                *known.entry(key).or_insert_with(|| resolve(&paths[index], path))
            }
        });
        let uses = uses.collect();
        let declared = Arc::new(declare(&module));
        let data = ModuleData { text: texts[index].as_str().into(), module: Arc::new(module), declared, uses, checked: None };
        program.insert(FileId(index as u32), data);
    }
    // Libraries first: they use one another in the order of their depth, which two rounds settle here.
    let (libraries, houses): (Vec<u32>, Vec<u32>) =
        (0..paths.len() as u32).partition(|i| paths[*i as usize].components().any(|c| c.as_os_str() == "library"));
    for _ in 0..2 {
        for &i in &libraries {
            let checked = check_module(&program, FileId(i));
            program.set_checked(FileId(i), Arc::new(checked));
        }
    }
    let checked: Vec<_> = houses.par_iter().map(|i| (FileId(*i), Arc::new(check_module(&program, FileId(*i))))).collect();
    findings += checked.iter().map(|(_, c)| c.findings.len()).sum::<usize>();
    for (file, checked) in checked {
        program.set_checked(file, checked);
    }
    if stage != "types" {
        let asked = Requirements::default();
        findings += houses
            .par_chunks(32)
            .map(|chunk| {
                let mut evaluator = Evaluator::new(&program);
                let mut count = 0;
                for &i in chunk {
                    let Some(data) = program.module(FileId(i)) else { continue };
                    for (index, decl) in data.module.decls.iter().enumerate() {
                        if matches!(decl.kind, DeclKind::Foundation { .. })
                            && let Some(f) = evaluator.foundation(DefId { file: FileId(i), index: index as u32 })
                        {
                            count += wythe_check::order::check(&f, &asked).len();
                        }
                    }
                }
                count + evaluator.take_findings().len()
            })
            .sum::<usize>();
    }
    println!("{findings} findings in {} files", paths.len());
    // What is left is given back to the system whole; taking it apart piece by piece is no part of a check.
    std::mem::forget(program);
    Ok(())
}
