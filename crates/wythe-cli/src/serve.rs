//! `wythe serve`: serves an editor over standard input and output.

use std::io;

use crate::exit::Exit;

/// Serve an editor over standard input and output.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe serve --stdio\n  wythe serve --stdio --drawing\n\nAn editor starts this command itself; see the pages on editors."
)]
pub(crate) struct Serve {
    /// Speak over standard input and output. This is the only way; editors that say so are heard.
    #[arg(long)]
    pub stdio: bool,
    /// Also show the drawing of what stands at the cursor, in a browser; for editors that have no panel for it. The
    /// page is served to this machine only.
    #[arg(long)]
    pub drawing: bool,
}

/// Serves until the client leaves.
pub(crate) fn run(args: &Serve) -> io::Result<Exit> {
    wythe_server::serve_stdio(wythe_server::Service { drawing: args.drawing })?;
    Ok(Exit::Clean)
}
