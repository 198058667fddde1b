//! Units after a figure, those of the dimension that is due first.

use wythe_sema::Type;
use wythe_syntax::ast::DeclKind;
use wythe_syntax::{Before, Kind, Token};
use wythe_units::{Dim, UnitSystem, all_units, preferred_unit};

use super::expected::expected;
use super::{Asked, Item, ItemKind};
use crate::scope;

/// The units that may follow the figure before the cursor; nothing where no figure stands there.
pub(super) fn after_figure(asked: &Asked<'_>) -> Option<Vec<Item>> {
    let last = asked.cursor.last()?;
    let apart = asked.cursor.word.0 > last.end;
    if apart && last.kind == Kind::Number {
        return Some(units(asked, due(asked)));
    }
    // `12 W per m` and `41 USD per`
    let statement = asked.cursor.statement();
    let figure = statement.iter().rposition(|t| t.kind == Kind::Number)?;
    let names = |t: &Token| {
        matches!(t.kind, Kind::Name | Kind::Type | Kind::UnitSign)
            || matches!(t.kind, Kind::Word(wythe_syntax::keywords::Keyword::Per | wythe_syntax::keywords::Keyword::In))
    };
    let unit_so_far = statement.get(figure + 1..)?;
    let going = !unit_so_far.is_empty() && unit_so_far.iter().all(|t| names(t) && !t.before.has(Before::LINE));
    let per = matches!(last.kind, Kind::Word(wythe_syntax::keywords::Keyword::Per));
    (going && per).then(|| units(asked, None))
}

fn due(asked: &Asked<'_>) -> Option<Dim> {
    match expected(asked) {
        Type::Quantity(dim, _) => Some(dim),
        _ => None,
    }
}

fn units(asked: &Asked<'_>, due: Option<Dim>) -> Vec<Item> {
    let mut out = Vec::new();
    if let Some(dim) = due {
        let ours = asked.project.manifest().display.system;
        let systems = match ours {
            UnitSystem::Us => [UnitSystem::Us, UnitSystem::Si],
            UnitSystem::Si => [UnitSystem::Si, UnitSystem::Us],
        };
        for (rank, system) in systems.into_iter().enumerate() {
            if let Some((unit, _)) = preferred_unit(dim, None, system) {
                out.push(Item::new(unit.text(), ItemKind::Unit, rank as u8).detail(dim.describe()));
            }
        }
    }
    for unit in all_units() {
        let fits = due.is_none_or(|dim| unit.dim == dim);
        if fits || due.is_none() {
            let ours = unit.system.is_none_or(|s| s == asked.project.manifest().display.system);
            let rank = if ours { 2 } else { 3 };
            out.push(Item::new(unit.symbol, ItemKind::Unit, rank).detail(unit.dim.describe()).docs(unit.plural));
        }
    }
    // Counting units are declared in the language.
    let counted = due.is_none_or(Dim::has_nominal);
    let program = asked.project.program();
    for (name, def) in scope::visible(program, asked.file) {
        if counted && matches!(program.decl(def).map(|d| &d.kind), Some(DeclKind::Unit(_))) {
            out.push(Item::new(name.as_str(), ItemKind::Unit, 2).detail("unit"));
        }
    }
    out.dedup_by(|a, b| a.label == b.label);
    out
}
