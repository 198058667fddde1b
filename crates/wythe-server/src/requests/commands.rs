//! Commands that any editor can have the server carry out.

use serde_json::{Value, json};
use tower_lsp::jsonrpc::{Error, Result};

use crate::state::State;

/// A command: its name, and what it does.
type Command = (&'static str, fn(&mut State, &[Value]) -> Result<Value>);

/// Every command.
pub(crate) const ALL: [Command; 3] =
    [("wythe.server.status", status), ("wythe.server.explain", explain), ("wythe.server.recheck", recheck)];

/// Carries out a command.
pub(crate) fn execute(state: &mut State, name: &str, arguments: &[Value]) -> Result<Option<Value>> {
    let Some((_, command)) = ALL.iter().find(|(known, _)| *known == name) else {
        return Err(Error::invalid_params(format!("there is no command `{name}`")));
    };
    command(state, arguments).map(Some)
}

/// What the server is at: its version, and of each repository the folder, how many files, and how many wait.
fn status(state: &mut State, _: &[Value]) -> Result<Value> {
    let repositories = state.repositories().iter().map(|repository| {
        json!({
            "folder": repository.root,
            "files": repository.project.roots().count(),
            "waiting": repository.project.waiting(),
        })
    });
    let repositories: Vec<Value> = repositories.collect();
    Ok(json!({ "version": env!("CARGO_PKG_VERSION"), "repositories": repositories }))
}

/// The page on a finding, by its name, as Markdown.
fn explain(_: &mut State, arguments: &[Value]) -> Result<Value> {
    let Some(name) = arguments.first().and_then(Value::as_str) else {
        return Err(Error::invalid_params("the name of a finding is due"));
    };
    match wythe_findings::find_page(name) {
        Some(page) => Ok(json!(format!("# {}\n\n`{}` {}\n\n{}", page.title, page.name, page.number, page.body))),
        None => Err(Error::invalid_params(format!("no finding is called `{name}`"))),
    }
}

/// Looks at the disk and checks everything that has changed there; gives how many findings there are.
fn recheck(state: &mut State, _: &[Value]) -> Result<Value> {
    state.look_around();
    state.settle(&crate::state::Need::All);
    let found: usize = state.repositories().iter().map(|repository| repository.project.findings().len()).sum();
    Ok(json!({ "findings": found }))
}
