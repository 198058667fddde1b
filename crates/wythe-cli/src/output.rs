//! Where the command writes, and how wide and in what colors.

use std::fmt::Display;
use std::io::{self, BufWriter, IsTerminal as _, StdoutLock, Write as _};

use wythe_render::terminal::{Style, clean};

use crate::args::When;

/// How many columns prose takes.
pub(crate) const WIDTH: usize = 100;

/// Standard output, gathered into large writes.
pub(crate) fn out() -> BufWriter<StdoutLock<'static>> {
    BufWriter::with_capacity(1 << 16, io::stdout().lock())
}

/// How to draw on standard output.
pub(crate) fn style(when: When) -> Style {
    let color = match when {
        When::Always => true,
        When::Never => false,
        When::Auto => io::stdout().is_terminal() && std::env::var_os("NO_COLOR").is_none_or(|v| v.is_empty()),
    };
    Style { color, width: WIDTH }
}

/// Says on standard error why something could not be done.
pub(crate) fn complain(what: &dyn Display) {
    // Where even this cannot be written, there is nobody left to tell.
    let _ = writeln!(io::stderr(), "wythe: {}", clean(&what.to_string()));
}
