//! One text through every station, and what must hold of it whatever it says.

use std::panic::{AssertUnwindSafe, catch_unwind};

use wythe_findings::{Finding, apply_edits, codes};
use wythe_project::{Memory, Project, SourcePath};
use wythe_source::FileId;

use crate::examples;

const PLACE: &str = "houses/here.wythe";

/// A repository in which one file changes all the time.
pub struct Pipeline {
    project: Project,
    path: SourcePath,
}

impl Pipeline {
    pub fn new() -> Self {
        let library = examples::library();
        let mut files: Vec<(&str, &str)> = library.iter().map(|(p, t)| (p.as_str(), t.as_str())).collect();
        files.push(("wythe.toml", "libraries = [\"library\"]\ntoday = 2026-04-01\n"));
        let path = SourcePath::resolve(&SourcePath::root(), PLACE).unwrap();
        Pipeline { project: Project::open(Memory::new(files)), path }
    }

    /// The findings of the text run last.
    pub fn shown(&self) -> Vec<String> {
        let findings = self.project.findings();
        let place = |span: wythe_source::Span| format!("{}:{:?}", self.project.name(span.file), span.range());
        let shown = |f: &Finding| {
            let related: Vec<_> = f.related.iter().map(|l| (place(l.span), &l.text)).collect();
            let said = (&f.title, &f.primary.text, &f.cause, &f.mend, &f.item);
            format!("{} {:?} {} {said:?} {related:?}", f.name, f.severity, place(f.primary.span))
        };
        findings.iter().map(shown).collect()
    }

    /// Runs a text through. Uses of the examples are led to the library at hand.
    pub fn run(&mut self, text: &str) -> Result<(), String> {
        let text = text.replace("../../cedar_row/", "../").replace("../cedar_row/", "../");
        if std::env::var_os("FUZZ_SHOW").is_some() {
            println!("{text}");
        }
        let told = |why: String| format!("{why}\n--- the text\n{text}");
        let done = catch_unwind(AssertUnwindSafe(|| {
            self.project.set_text(self.path.clone(), text.as_str());
            self.project.check_affected();
        }));
        if done.is_err() {
            // What was under way is lost with it.
            *self = Pipeline::new();
            return Err(told("the check broke down".into()));
        }
        for finding in self.project.findings() {
            self.sound(&finding).map_err(told)?;
        }
        catch_unwind(|| laid_out(&text)).unwrap_or_else(|_| Err("the formatter broke down".into())).map_err(told)
    }

    /// Whether a finding is no breakdown, lies in its files, and offers edits that can be made.
    fn sound(&self, finding: &Finding) -> Result<(), String> {
        if finding.name.as_str() == codes::INTERNAL_ERROR.name() {
            return Err(format!("broke down: {}", finding.primary.text));
        }
        if finding.title.is_empty() {
            return Err(format!("{} has no title", finding.name));
        }
        for label in finding.related.iter().chain([&finding.primary]) {
            let text = self.project.text(label.span.file);
            if text.get(label.span.range()).is_none() {
                return Err(format!("{} lies outside its file: {:?}", finding.name, label.span));
            }
        }
        for fix in &finding.fixes {
            let edits = fix.resolve(|file: FileId| Some(self.project.text(file)));
            let edits = edits.ok_or_else(|| format!("{}: `{}` cannot be resolved", finding.name, fix.title))?;
            let mut files: Vec<FileId> = edits.iter().map(|e| e.span.file).collect();
            files.dedup();
            for file in files {
                let here: Vec<_> = edits.iter().filter(|e| e.span.file == file).cloned().collect();
                apply_edits(self.project.text(file), &here)
                    .ok_or_else(|| format!("{}: `{}` cannot be made", finding.name, fix.title))?;
            }
        }
        Ok(())
    }
}

/// Whether the formatter has nothing to say about what it wrote.
fn laid_out(text: &str) -> Result<(), String> {
    let once = wythe_syntax::format(text);
    let twice = wythe_syntax::format(&once);
    if once == twice {
        Ok(())
    } else {
        Err(format!("the formatter changes its own work\n--- once\n{once}\n--- twice\n{twice}"))
    }
}
