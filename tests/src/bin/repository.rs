//! Writes a repository of generated houses: `repository FOLDER COUNT`.

use std::path::Path;
use std::{env, fs, io};

use wythe_tests::houses;

fn main() -> io::Result<()> {
    let mut args = env::args().skip(1);
    let (Some(folder), Some(count)) = (args.next(), args.next().and_then(|c| c.parse::<u64>().ok())) else {
        return Err(io::Error::other("usage: repository FOLDER COUNT"));
    };
    let root = Path::new(&folder);
    let write = |path: &str, text: &str| {
        let path = root.join(path);
        fs::create_dir_all(path.parent().unwrap_or(root))?;
        fs::write(path, text)
    };
    write("wythe.toml", "currency = \"USD\"\nunits = \"us\"\n")?;
    for (path, text) in houses::LIBRARY {
        write(path, text)?;
    }
    for number in 0..count {
        write(&houses::house_path(number), &houses::house(number))?;
    }
    Ok(())
}
