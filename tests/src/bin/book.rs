//! Writes the book of `spec/` into a folder: `book FOLDER`, run at the top of the source.

use std::path::{Path, PathBuf};
use std::{env, fs, io};

fn main() -> io::Result<()> {
    let Some(folder) = env::args_os().nth(1).map(PathBuf::from) else {
        return Err(io::Error::other("usage: book FOLDER"));
    };
    fs::create_dir_all(&folder)?;
    for (name, text) in wythe_tests::book::pages(Path::new("."))? {
        fs::write(folder.join(name), text)?;
    }
    Ok(())
}
