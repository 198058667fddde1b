//! The files that are measured: generated houses, and Python of the same byte count for the public linter.

use std::path::{Path, PathBuf};
use std::{fs, io};

use wythe_tests::houses;

fn write(root: &Path, path: &str, text: &str) -> io::Result<usize> {
    let path = root.join(path);
    fs::create_dir_all(path.parent().unwrap_or(root))?;
    fs::write(path, text)?;
    Ok(text.len())
}

/// Writes a repository of `count` houses with their library into a folder of that name; gives it and its bytes.
pub(crate) fn write_plans(folder: &Path, count: u64) -> io::Result<(PathBuf, usize)> {
    let root = folder.join(format!("plans_{count}"));
    write(&root, "wythe.toml", "currency = \"USD\"\nunits = \"us\"\n")?;
    let mut bytes = 0;
    for (path, text) in houses::LIBRARY {
        bytes += write(&root, path, text)?;
    }
    for number in 0..count {
        bytes += write(&root, &houses::house_path(number), &houses::house(number))?;
    }
    Ok((root, bytes))
}

/// As many files of Python, each of the same share of the bytes: plain functions with nothing to report.
pub(crate) fn write_python(folder: &Path, count: u64, bytes: usize) -> io::Result<PathBuf> {
    let root = folder.join("python");
    let share = bytes / usize::try_from(count).unwrap_or(1).max(1);
    for file in 0..count {
        let mut text = "\"\"\"Generated module.\"\"\"\n".to_owned();
        for number in 0.. {
            if text.len() >= share {
                break;
            }
            text.push_str(&format!(
                "\n\ndef area_{number}(length: float, height: float, openings: list[float]) -> float:\n    \"\"\"Net area of wall {number}, openings deducted.\"\"\"\n    total = length * height\n    for opening in openings:\n        if opening > {file}:\n            total -= opening\n    return round(total, 2)\n"
            ));
        }
        write(&root, &format!("module_{file}.py"), &text)?;
    }
    Ok(root)
}
