//! Libraries by folder and by git revision: brought in when asked, locked, and held to what was locked.

use std::fs;
use std::process::Command;

use crate::plans::Plans;

const STOCK: &str = "/// The least lap of seams.\npub let seam_lap = 6 in\n";
const HOUSE: &str =
    "use \"stock/laps.wythe\": seam_lap\nlet twice = seam_lap * 2\n\ntest \"laps\" {\n    expect twice == 12 in\n}\n";

fn git(folder: &std::path::Path, arguments: &[&str]) -> String {
    let who = ["-c", "user.name=Mason", "-c", "user.email=mason@cedar-row.example", "-c", "commit.gpgsign=false"];
    let done = Command::new("git").arg("-C").arg(folder).args(who).args(arguments).output().unwrap();
    assert!(done.status.success(), "git {arguments:?}: {}", String::from_utf8_lossy(&done.stderr));
    String::from_utf8_lossy(&done.stdout).trim().to_owned()
}

/// Plans that use a library, which stands in a folder beside them.
fn beside() -> (Plans, std::path::PathBuf) {
    let plans = Plans::new(&[("houses/a.wythe", HOUSE)]);
    plans.write("wythe.toml", "edition = 2026\n[library.stock]\npath = \"../stock\"\n");
    let stock = plans.root().parent().unwrap().join("stock");
    fs::create_dir(&stock).unwrap();
    fs::write(stock.join("laps.wythe"), STOCK).unwrap();
    (plans, stock)
}

#[test]
fn a_folder_is_brought_in_when_asked_and_held_to_the_lock() {
    let (plans, stock) = beside();
    let before = plans.run(&["check"]);
    assert_eq!(before.code, 1);
    assert!(before.out.contains("[W0285] error: the library `stock` is not here"), "{}", before.out);
    assert_eq!(plans.run(&["library"]).code, 1);
    let fetched = plans.run(&["library", "--fetch"]);
    assert_eq!((fetched.code, fetched.out.as_str()), (0, "stock: the folder ../stock, 1 files\n"), "{}", fetched.err);
    assert_eq!(plans.run(&["library"]).out, "stock: the folder ../stock, 1 files, as locked\n");
    assert_eq!((plans.run(&["check"]).code, plans.run(&["test"]).code), (0, 0), "{}", plans.run(&["check"]).out);
    assert_eq!(plans.run(&["format", "--check"]).out, "", "a library is not laid out by who uses it");
    // The source may be gone: a check reads the copy only.
    fs::remove_dir_all(&stock).unwrap();
    assert_eq!(plans.run(&["check"]).code, 0);
    let lock = plans.read("wythe.lock");
    assert!(lock.contains("\"laps.wythe\" = \"sha256:"), "{lock}");
    for (change, said) in
        [(Some("pub let seam_lap = 3 in\n"), "`laps.wythe` differs"), (None, "its files are not there")]
    {
        match change {
            Some(text) => plans.write(".libraries/stock/laps.wythe", text),
            None => fs::remove_file(plans.path(".libraries/stock/laps.wythe")).unwrap(),
        }
        let run = plans.run(&["check"]);
        assert!(run.code == 1 && run.out.contains(said), "{}", run.out);
    }
    plans.write(".libraries/stock/laps.wythe", STOCK);
    plans.write(".libraries/stock/more.wythe", "let a = 1 in\n");
    let run = plans.run(&["check"]);
    assert!(run.out.contains("`more.wythe` is not in the lock file"), "{}", run.out);
    plans.write("wythe.lock", "form = 7\n");
    assert!(plans.run(&["check"]).out.contains("this Wythe reads form 1"));
    assert_eq!(plans.run(&["library"]).code, 2);
}

#[test]
fn an_update_says_first_what_it_does_to_every_house() {
    let plans = Plans::bare();
    assert_eq!(plans.run(&["new", "."]).code, 0);
    let stock = plans.root().parent().unwrap().join("stock");
    fs::create_dir(&stock).unwrap();
    for file in ["closed_crawl.wythe", "products.wythe", "phases.wythe"] {
        fs::rename(plans.path(&format!("library/{file}")), stock.join(file)).unwrap();
    }
    for file in ["houses/first_house.wythe", "houses/first_house_test.wythe", "houses/lot.wythe"] {
        plans.write(file, plans.read(file).replace("\"../library/", "\"stock/"));
    }
    let manifest = plans.read("wythe.toml").replace(", \"library\"", "");
    plans.write("wythe.toml", format!("{manifest}\n[library.stock]\npath = \"../stock\"\n"));
    assert_eq!(plans.run(&["library", "--fetch"]).code, 0);
    assert_eq!(plans.run(&["check"]).code, 0, "{}", plans.run(&["check"]).out);
    let nothing = plans.run(&["library", "--update"]);
    assert_eq!(
        (nothing.code, nothing.out.as_str()),
        (0, "stock: the folder ../stock, nothing new\n"),
        "{}",
        nothing.err
    );

    let text = fs::read_to_string(stock.join("closed_crawl.wythe")).unwrap();
    let pin = "            fasten wall_liner with drive_pin every 24\"\n";
    assert!(text.contains(pin));
    fs::write(
        stock.join("closed_crawl.wythe"),
        text.replace(pin, "            fasten wall_liner with drive_pin every 12\"\n"),
    )
    .unwrap();
    // Who only fetches stays with what was locked.
    assert_eq!((plans.run(&["library", "--fetch"]).code, plans.run(&["check"]).code), (0, 0));
    let lock = plans.read("wythe.lock");
    let told = plans.run(&["library", "--update"]);
    assert_eq!(told.code, 1, "{}", told.shown());
    assert!(told.out.contains("+            fasten wall_liner with drive_pin every 12\""), "{}", told.out);
    assert!(told.out.contains("Every house, before and after the update"), "{}", told.out);
    assert!(told.out.contains("drive_pin"), "{}", told.out);
    assert!(told.err.contains("nothing is written"), "{}", told.err);
    assert_eq!(plans.read("wythe.lock"), lock);
    let made = plans.run(&["library", "--update", "--only", "stock", "--write"]);
    assert!(made.code <= 1, "{}", made.shown());
    assert_ne!(plans.read("wythe.lock"), lock);
    assert!(plans.read(".libraries/stock/closed_crawl.wythe").contains("every 12\""));
    assert_eq!(plans.run(&["check"]).code, 0);
    assert_eq!(plans.run(&["library", "--update", "--only", "lost"]).code, 2);
    // Nothing is left behind beside the library.
    let names: Vec<_> = fs::read_dir(plans.path(".libraries")).unwrap().map(|e| e.unwrap().file_name()).collect();
    assert_eq!(names, ["stock"]);
}

#[test]
fn a_git_revision_is_pinned_to_its_commit() {
    let plans = Plans::new(&[("houses/a.wythe", HOUSE)]);
    let source = plans.root().parent().unwrap().join("source");
    fs::create_dir(&source).unwrap();
    git(&source, &["init", "-q", "-b", "main"]);
    fs::write(source.join("laps.wythe"), STOCK).unwrap();
    fs::write(source.join("run.sh"), "exit 1\n").unwrap();
    git(&source, &["add", "-A"]);
    git(&source, &["commit", "-q", "-m", "first"]);
    let first = git(&source, &["rev-parse", "HEAD"]);
    plans.write("wythe.toml", "edition = 2026\n[library.stock]\ngit = \"../source\"\nrevision = \"main\"\n");
    let fetched = plans.run(&["library", "--fetch"]);
    assert_eq!(fetched.code, 0, "{}", fetched.err);
    assert!(plans.read("wythe.lock").contains(&format!("commit = \"{first}\"")), "{}", plans.read("wythe.lock"));
    assert!(!plans.path(".libraries/stock/run.sh").exists());
    assert_eq!(plans.run(&["check"]).code, 0);
    // The branch goes on; what is locked does not.
    fs::write(source.join("laps.wythe"), STOCK.replace("6 in", "8 in")).unwrap();
    git(&source, &["commit", "-q", "-a", "-m", "second"]);
    fs::remove_dir_all(plans.path(".libraries")).unwrap();
    assert_eq!(plans.run(&["library", "--fetch"]).code, 0);
    assert_eq!(plans.read(".libraries/stock/laps.wythe"), STOCK);
    let updated = plans.run(&["library", "--update", "--write"]);
    assert!(updated.out.contains("-pub let seam_lap = 6 in\n+pub let seam_lap = 8 in\n"), "{}", updated.shown());
    assert!(plans.run(&["test"]).code == 1, "the test holds the old lap");
    // A revision and an address that are not there, and one that would run a program.
    for (git, revision) in [("../source", "v9"), ("../nowhere", "main")] {
        plans.write("wythe.toml", format!("[library.stock]\ngit = \"{git}\"\nrevision = \"{revision}\"\n"));
        let run = plans.run(&["library", "--fetch"]);
        assert!(run.code == 2 && run.err.starts_with("wythe: stock: "), "{}", run.shown());
    }
    plans.write("wythe.toml", "[library.stock]\ngit = \"ext::sh -c touch% x\"\nrevision = \"main\"\n");
    assert!(plans.run(&["check"]).out.contains("a library that cannot be had"));
    assert_eq!(plans.run(&["library", "--fetch"]).out, "");
    assert!(!plans.path("x").exists());
}

#[test]
fn a_library_reaches_no_house_and_names_what_it_leans_on() {
    let (plans, stock) = beside();
    plans.write("houses/secret.wythe", "pub let code = 1 in\n");
    fs::create_dir(stock.join("parts")).unwrap();
    fs::write(stock.join("parts/sizes.wythe"), "pub let half = 3 in\n").unwrap();
    fs::write(stock.join("wythe.toml"), "libraries = [\"parts\"]\n[library.other]\npath = \"../other\"\n").unwrap();
    fs::write(stock.join("laps.wythe"), "use \"sizes.wythe\": half\npub let seam_lap = half * 2\n").unwrap();
    let fetched = plans.run(&["library", "--fetch"]);
    assert_eq!(fetched.code, 1);
    assert!(fetched.err.contains("it uses the library `other`"), "{}", fetched.err);
    assert_eq!(plans.run(&["check"]).code, 0, "{}", plans.run(&["check"]).out);
    for path in ["../../houses/secret.wythe", "../../../x.wythe"] {
        fs::write(stock.join("laps.wythe"), format!("use \"{path}\": code\npub let seam_lap = 6 in\n")).unwrap();
        plans.run(&["library", "--update", "--write"]);
        let run = plans.run(&["check"]);
        assert!(run.out.contains("[W0205]"), "{}", run.out);
    }
}

#[test]
fn a_deprecated_name_is_told_with_its_mend() {
    let (plans, stock) = beside();
    let text = "/// Old.\n///\n/// Deprecated: use `tape_lap` instead.\npub let seam_lap = 6 in\n/// New.\npub let tape_lap = 6 in\n";
    fs::write(stock.join("laps.wythe"), text).unwrap();
    assert_eq!(plans.run(&["library", "--fetch"]).code, 0);
    let run = plans.run(&["check"]);
    assert!(run.code == 0 && run.out.contains("[W0214] warning: `seam_lap` is deprecated"), "{}", run.out);
    assert!(run.out.contains("use `tape_lap` instead."), "{}", run.out);
    assert_eq!(run.out.matches("[W0214]").count(), 1);
    assert_eq!(plans.run(&["fix", "--write"]).code, 0);
    assert_eq!(plans.read("houses/a.wythe"), HOUSE);
    plans.run(&["fix", "--unsafe", "--write"]);
    assert_eq!(
        plans.read("houses/a.wythe"),
        HOUSE.replace(": seam_lap", ": tape_lap").replace("= seam_lap", "= tape_lap")
    );
    assert_eq!(plans.run(&["check"]).out, "");
}
