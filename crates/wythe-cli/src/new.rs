//! `wythe new`

use std::fs;
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use crate::exit::Exit;
use crate::output::{complain, out};

/// Each file of a new repository: its path and its text.
const FILES: [(&str, &str); 10] = [
    ("wythe.toml", include_str!("../new/wythe.toml")),
    ("README.md", include_str!("../new/README.md")),
    ("library/products.wythe", include_str!("../new/library/products.wythe")),
    ("library/closed_crawl.wythe", include_str!("../new/library/closed_crawl.wythe")),
    ("library/phases.wythe", include_str!("../new/library/phases.wythe")),
    ("houses/lot.wythe", include_str!("../new/houses/lot.wythe")),
    ("houses/first_house.wythe", include_str!("../new/houses/first_house.wythe")),
    ("houses/first_house_test.wythe", include_str!("../new/houses/first_house_test.wythe")),
    (".github/workflows/plans.yml", include_str!("../new/workflow.yml")),
    (".pre-commit-config.yaml", include_str!("../new/pre-commit.yaml")),
];

/// Make a small plans repository that checks clean and explains itself.
#[derive(clap::Args, Debug)]
#[command(after_help = "Examples:\n  wythe new plans\n  wythe new .")]
pub(crate) struct New {
    /// The folder to make; one that is there must be empty, but for what git keeps of it.
    #[arg(value_name = "FOLDER")]
    pub folder: PathBuf,
}

pub(crate) fn run(args: &New) -> io::Result<Exit> {
    let told = |error: io::Error| io::Error::new(error.kind(), format!("{}: {error}", args.folder.display()));
    if !is_free(&args.folder).map_err(told)? {
        complain(&format_args!("{}: there is something in it already", args.folder.display()));
        return Ok(Exit::Unusable);
    }
    for (path, text) in FILES {
        write(&args.folder.join(path), text).map_err(told)?;
    }
    let mut out = out();
    for (path, _) in FILES {
        writeln!(out, "{}", args.folder.join(path).display())?;
    }
    writeln!(out, "\nBegin at houses/first_house.wythe, and run `wythe check` there.")?;
    out.flush()?;
    Ok(Exit::Clean)
}

/// Whether a folder is not there, or has nothing in it that could be lost.
fn is_free(folder: &Path) -> io::Result<bool> {
    let entries = match fs::read_dir(folder) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(true),
        entries => entries?,
    };
    for entry in entries {
        if entry?.file_name() != ".git" {
            return Ok(false);
        }
    }
    Ok(true)
}

fn write(path: &Path, text: &str) -> io::Result<()> {
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder)?;
    }
    // Whoever has made the file meanwhile keeps it.
    fs::File::create_new(path)?.write_all(text.as_bytes())
}
