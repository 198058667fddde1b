//! Emacs without a screen, by Eglot: findings, hover, completion, rename, a fix made and saved, the drawing.

use std::fs;
use std::process::Command;

use crate::client::{Folder, is_there, plans, root, run, wythe};

#[test]
fn emacs_shows_what_is_wrong_completes_renames_and_mends() {
    if !is_there("emacs") {
        return;
    }
    let folder = Folder::new("emacs");
    let plans = plans(folder.path());
    fs::write(plans.join("houses/probe.wythe"), "let a = 3' 4\n").unwrap();
    let out = run(Command::new("emacs")
        .args(["--batch", "-Q", "-l"])
        .arg(root().join("tests/editors/emacs.el"))
        .current_dir(&plans)
        .env("WYTHE_COMMAND", wythe())
        .env("WYTHE_MODE", root().join("editors/emacs/wythe-mode.el"))
        .env("XDG_CACHE_HOME", folder.path().join("cache"))
        .env("HOME", folder.path()));
    let (said, noise) = (String::from_utf8_lossy(&out.stdout), String::from_utf8_lossy(&out.stderr));
    if said.contains("no eglot") {
        // Emacs 28 carries no Eglot; there the mode alone is tested.
        assert!(said.contains("depth: 8"), "{said}\n{noise}");
        return;
    }
    assert!(said.contains("finding: "), "{said}\n{noise}");
    assert!(said.contains("/cedar_row/\n"), "the root is the folder of the manifest: {said}");
    assert!(said.contains("hover: ") && said.contains("below the top of the masonry"), "{said}\n{noise}");
    assert!(said.contains("depth: 8"), "{said}\n{noise}");
    assert!(said.contains("completion: (wall_liner"), "{said}\n{noise}");
    assert!(said.contains("drawn: HTTP/1.1 200"), "{said}\n{noise}");
    assert!(said.contains("\"followed\":true"), "{said}\n{noise}");
    assert!(said.contains("line: set board from top - gap to ground"), "{said}\n{noise}");

    // What was done stands on the disk.
    assert_eq!(fs::read_to_string(plans.join("houses/probe.wythe")).unwrap(), "let a = 3' 4\"\n");
    let house = fs::read_to_string(plans.join("houses/unit_4.wythe")).unwrap();
    let library = fs::read_to_string(plans.join("library/closed_crawl.wythe")).unwrap();
    assert!(house.contains("build: lined_wall(board:") && !house.contains("stem_wall"), "{house}");
    assert!(library.contains("buildup lined_wall(") && !library.contains("hang wa\n"), "{library}");
}
