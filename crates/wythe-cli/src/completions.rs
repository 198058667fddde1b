//! `wythe completions` and `wythe manual`: what a shell and a reader of manual pages want, from the arguments themselves.

use std::fs;
use std::io::{self, Write as _};
use std::path::PathBuf;

use clap::CommandFactory as _;
use clap_complete::Shell;

use crate::args::Args;
use crate::exit::Exit;
use crate::output::out;

/// Write the completions of a shell.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe completions bash > ~/.local/share/bash-completion/completions/wythe\n  wythe completions fish > ~/.config/fish/completions/wythe.fish"
)]
pub(crate) struct Completions {
    /// The shell.
    #[arg(value_enum)]
    pub shell: Shell,
}

/// Write the manual pages: that of the command, or all of them into a folder.
#[derive(clap::Args, Debug)]
#[command(after_help = "Examples:\n  wythe manual | man -l -\n  wythe manual ~/.local/share/man/man1")]
pub(crate) struct Manual {
    /// The folder; it is made if it is not there.
    #[arg(value_name = "FOLDER")]
    pub folder: Option<PathBuf>,
}

pub(crate) fn completions(args: &Completions) -> io::Result<Exit> {
    let mut text = Vec::new();
    clap_complete::generate(args.shell, &mut Args::command(), "wythe", &mut text);
    let mut out = out();
    out.write_all(&text)?;
    out.flush()?;
    Ok(Exit::Clean)
}

pub(crate) fn manual(args: &Manual) -> io::Result<Exit> {
    match &args.folder {
        None => {
            let mut out = out();
            clap_mangen::Man::new(Args::command()).render(&mut out)?;
            out.flush()?;
        }
        Some(folder) => {
            let told = |error: io::Error| io::Error::new(error.kind(), format!("{}: {error}", folder.display()));
            fs::create_dir_all(folder).map_err(told)?;
            clap_mangen::generate_to(Args::command(), folder).map_err(told)?;
        }
    }
    Ok(Exit::Clean)
}
