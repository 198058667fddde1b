//! A plans repository in CI: the forms of hosts, changed files, and a pull request with a mistake.

use std::path::Path;
use std::process::Command;

use crate::plans::Plans;

fn git(plans: &Plans, arguments: &[&str]) {
    let who = ["-c", "user.name=Mason", "-c", "user.email=mason@cedar-row.example", "-c", "commit.gpgsign=false"];
    let done = Command::new("git").arg("-C").arg(plans.root()).args(who).args(arguments).output().unwrap();
    assert!(done.status.success(), "git {arguments:?}: {}", String::from_utf8_lossy(&done.stderr));
}

/// A new plans repository under git, with its first commit made.
fn committed() -> Plans {
    let plans = Plans::bare();
    assert_eq!(plans.run(&["new", "."]).code, 0);
    git(&plans, &["init", "-q", "-b", "main"]);
    git(&plans, &["add", "-A"]);
    git(&plans, &["commit", "-q", "-m", "first"]);
    plans
}

#[test]
fn sarif_of_every_mistake_keeps_the_published_schema() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let schema = std::fs::read_to_string(root.join("tests/reference/ci/sarif-2.1.0.schema.json")).unwrap();
    let validator = jsonschema::validator_for(&serde_json::from_str(&schema).unwrap()).unwrap();
    let plans = Plans::new(&[]);
    let run = plans.run_in(&root.join("examples/mistakes"), &["check", "--format", "sarif"], b"");
    let document: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    let faults: Vec<String> = validator.iter_errors(&document).map(|e| format!("{} {e}", e.instance_path)).collect();
    assert!(faults.is_empty(), "{}", faults[..faults.len().min(10)].join("\n"));
    let results = document["runs"][0]["results"].as_array().unwrap();
    assert!(results.len() >= 80, "{} results", results.len());
    assert!(results.iter().any(|r| r["fixes"].is_array()) && results.iter().any(|r| r["relatedLocations"].is_array()));
    // The schema is strict enough to refuse what is not so.
    let mut wrong = document.clone();
    wrong["runs"][0]["results"][0]["level"] = "grave".into();
    assert!(!validator.is_valid(&wrong));
}

#[test]
fn each_form_names_the_file_and_fails_alike() {
    let plans = Plans::new(&[("houses/a.wythe", "let a = lost\n"), ("b.wythe", "let b = 1 in\n")]);
    for format in ["github", "gitlab", "junit", "rdjson", "sarif", "json"] {
        let run = plans.run(&["check", "--format", format]);
        assert_eq!((run.code, run.err.as_str()), (1, ""), "{format}");
        assert!(run.out.contains("houses/a.wythe") && run.out.contains("lost"), "{format}: {}", run.out);
        if ["gitlab", "rdjson", "sarif", "json"].contains(&format) {
            let _: serde_json::Value = serde_json::from_str(&run.out).unwrap();
        }
    }
    let clean = plans.run(&["check", "b.wythe", "--format", "github"]);
    assert_eq!((clean.code, clean.out.as_str()), (0, ""));
}

#[test]
fn a_pull_request_with_a_board_before_its_liner_is_stopped_at_its_line() {
    let plans = committed();
    assert_eq!(plans.run(&["check", "--format", "github"]).code, 0);
    git(&plans, &["switch", "-q", "-c", "faster"]);
    let library = plans.read("library/closed_crawl.wythe");
    let board = "            set board from top - gap to ground\n";
    let hang = library.find("            hang wall_liner from").unwrap();
    let without = library.replace(board, "");
    let broken = format!("{}{board}{}", &without[..hang], &without[hang..]);
    plans.write("library/closed_crawl.wythe", &broken);
    git(&plans, &["commit", "-q", "-a", "-m", "board first"]);
    let run = plans.run(&["check", "--changed", "main", "--format", "github"]);
    assert_eq!(run.code, 1, "{}", run.shown());
    let line = broken.lines().position(|l| l.trim() == board.trim()).unwrap() + 1;
    let stopped = run.out.lines().any(|l| {
        l.starts_with(&format!("::error file=library/closed_crawl.wythe,line={line},")) && l.contains("W0430")
    });
    assert_eq!(run.out.matches("::error").count(), 1, "{}", run.out);
    assert!(stopped, "line {line}: {}", run.out);
}

/// Copies a folder.
fn copy(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).unwrap();
    for entry in std::fs::read_dir(from).unwrap() {
        let path = entry.unwrap().path();
        let place = to.join(path.file_name().unwrap());
        if path.is_dir() {
            copy(&path, &place);
        } else {
            std::fs::copy(&path, &place).unwrap();
        }
    }
}

/// Runs the steps of the workflow that are ours, as its host does; the last word of each is its exit code.
fn workflow(plans: &Plans, summary: &Path) -> Vec<(String, String, i32)> {
    let program = Path::new(env!("CARGO_BIN_EXE_wythe")).parent().unwrap().to_path_buf();
    let others = std::env::var_os("PATH").unwrap_or_default();
    let path = std::env::join_paths([program].into_iter().chain(std::env::split_paths(&others))).unwrap();
    let recipe = plans.read(".github/workflows/plans.yml");
    let steps = recipe.lines().filter_map(|line| line.trim().trim_start_matches("- ").strip_prefix("run: wythe "));
    let run = |step: &str| {
        let done = Command::new("sh")
            .args(["-e", "-c", &format!("wythe {step}")])
            .current_dir(plans.root())
            .env("PATH", &path)
            .env("GITHUB_ACTIONS", "true")
            .env("GITHUB_BASE_REF", "main")
            .env("GITHUB_STEP_SUMMARY", summary)
            .output()
            .unwrap();
        (step.to_owned(), String::from_utf8(done.stdout).unwrap(), done.status.code().unwrap())
    };
    steps.map(run).collect()
}

#[cfg(unix)]
#[test]
fn a_strangers_pull_request_to_cedar_row_is_stopped_with_its_cost_in_the_summary() {
    let plans = Plans::bare();
    assert_eq!(plans.run(&["new", "."]).code, 0);
    let recipes = (plans.read(".github/workflows/plans.yml"), plans.read(".pre-commit-config.yaml"));
    std::fs::remove_dir_all(plans.root()).unwrap();
    copy(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/cedar_row"), &plans.root());
    plans.write(".github/workflows/plans.yml", &recipes.0);
    plans.write(".pre-commit-config.yaml", &recipes.1);
    git(&plans, &["init", "-q", "-b", "main"]);
    git(&plans, &["add", "-A"]);
    git(&plans, &["commit", "-q", "-m", "first"]);
    // What the host fetches as the branch that the request is made to.
    git(&plans, &["update-ref", "refs/remotes/origin/main", "HEAD"]);
    let summary = plans.path("../summary.md");
    let clean = workflow(&plans, &summary);
    assert!(clean.len() >= 4 && clean.iter().all(|(.., code)| *code == 0), "{clean:?}");
    assert!(!clean.iter().any(|(_, out, _)| out.contains("::error")), "{clean:?}");

    git(&plans, &["switch", "-q", "-c", "faster"]);
    std::fs::remove_file(&summary).unwrap();
    let library = plans.read("library/closed_crawl.wythe");
    let board = "            set board from top - gap to ground\n";
    let hang = library.find("            hang wall_liner from").unwrap();
    assert_eq!(library.matches(board).count(), 1);
    let without = library.replace(board, "");
    let broken = format!("{}{board}{}", &without[..hang], &without[hang..]);
    plans.write("library/closed_crawl.wythe", broken.replace("with drive_pin every 24\"", "with drive_pin every 12\""));
    git(&plans, &["commit", "-q", "-a", "-m", "board first, and more pins"]);
    let steps = workflow(&plans, &summary);
    let (_, annotations, code) = &steps[0];
    assert_eq!(*code, 1, "{steps:?}");
    let line = broken.lines().position(|l| l.trim() == board.trim()).unwrap() + 1;
    let here = |l: &&str| {
        let at = |line: usize| l.contains(&format!("line={line},"));
        l.starts_with("::error file=library/closed_crawl.wythe") && (at(line) || at(line + 1))
    };
    let found: Vec<&str> = annotations.lines().filter(here).collect();
    assert!(!found.is_empty() && found.iter().any(|l| l.contains("Mend%3A") || l.contains("Mend: ")), "{annotations}");
    let summary = std::fs::read_to_string(&summary).unwrap();
    assert!(summary.lines().any(|l| l.starts_with("| ") || l.starts_with("|---")), "{summary}");
    assert!(summary.contains("drive\\_pin") && summary.contains("USD |"), "{summary}");
    assert!(!summary.contains('\u{1b}'), "{summary}");
}

#[test]
fn only_what_a_change_bears_on_is_shown() {
    let plans = committed();
    plans.write("houses/old.wythe", "let a = lost\n");
    plans.write("houses/sizes.wythe", "pub let gap = 4 in\n");
    plans.write("houses/uses.wythe", "use \"sizes.wythe\": gap\nlet b = gap + missing\n");
    git(&plans, &["add", "-A"]);
    git(&plans, &["commit", "-q", "-m", "second"]);
    let changed = |revision: &str| {
        let run = plans.run(&["check", "--changed", revision, "--format", "github"]);
        let files = run.out.lines().filter_map(|l| l.strip_prefix("::error file=")?.split(',').next());
        files.map(str::to_owned).collect::<Vec<_>>()
    };
    assert_eq!(changed("HEAD"), [""; 0]);
    assert_eq!(plans.run(&["check", "--changed", "HEAD"]).code, 0);
    assert_eq!(changed("HEAD~1"), ["houses/old.wythe", "houses/uses.wythe"]);
    // A file that uses what has changed is looked at; a new one too, though git does not know it yet.
    plans.write("houses/sizes.wythe", "pub let gap = 5 in\n");
    plans.write("houses/new.wythe", "let c = gone\n");
    assert_eq!(changed("HEAD"), ["houses/new.wythe", "houses/uses.wythe"]);
    for revision in ["no_such_revision", "--output=x"] {
        let run = plans.run(&["check", &format!("--changed={revision}")]);
        assert_eq!((run.code, run.out.as_str()), (2, ""), "{}", run.err);
    }
    assert!(!plans.path("x").exists());
}

#[test]
fn the_recipes_run() {
    let plans = committed();
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/ci");
    let recipe = |name: &str| std::fs::read_to_string(root.join(name)).unwrap();
    assert_eq!(recipe("github.yml"), plans.read(".github/workflows/plans.yml"));
    assert_eq!(recipe("pre-commit-config.yaml"), plans.read(".pre-commit-config.yaml"));
    let mut commands = 0;
    for name in ["github.yml", "gitlab.yml", "pre-commit-config.yaml"] {
        for line in recipe(name).lines() {
            let line = line.trim().trim_start_matches("- ").trim_start_matches("run: ").trim_start_matches("entry: ");
            let Some(arguments) = line.strip_prefix("wythe ") else { continue };
            let arguments = arguments
                .split(" >")
                .flat_map(|part| part.split(" ||"))
                .next()
                .unwrap()
                .replace("\"origin/$GITHUB_BASE_REF\"", "HEAD");
            let arguments: Vec<&str> = arguments.split(' ').collect();
            let run = plans.run(&arguments);
            assert_eq!((run.code, run.err.as_str()), (0, ""), "{name}: {line}");
            commands += 1;
        }
    }
    assert_eq!(commands, 11);
}
