//! Prints which libraries the command is built of, and under which license each may be used.

use std::collections::BTreeMap;
use std::io::{self, Write as _};

fn main() -> io::Result<()> {
    let mut by_license: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for library in wythe_tests::libraries::of_the_command()? {
        by_license.entry(library.license).or_default().push(format!("{} {}", library.name, library.version));
    }
    let mut out = io::stdout().lock();
    writeln!(out, "# Licenses of the libraries in `wythe`\n")?;
    for (license, libraries) in by_license {
        writeln!(out, "## {license}\n\n{}\n", libraries.join(", "))?;
    }
    Ok(())
}
