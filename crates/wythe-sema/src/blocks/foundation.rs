//! Foundations, their walls, openings, piers, pads and beams; rates and logs.

use wythe_findings::{Finding, codes};
use wythe_model::Class;
use wythe_syntax::ast::{Block, Decl, Ident, StatementKind};
use wythe_units::Dim;

use crate::checker::Checker;
use crate::signature::Signature;
use crate::suggest::closest;
use crate::types::Type;

use super::Context;

/// The eight winds, and `skew` for any other bearing.
pub(crate) const DIRECTIONS: [&str; 9] =
    ["east", "northeast", "north", "northwest", "west", "southwest", "south", "southeast", "skew"];

pub(super) fn check(c: &mut Checker<'_>, decl: &Decl, site: Ident, block: &Block) {
    if let Some(def) = c.global_ident(site) {
        let due = Type::Record(c.program.prelude.record("Site"));
        if !matches!(c.signature_of(def), Signature::Value(ty) if due.accepts(&ty)) {
            c.report(
                Finding::new(codes::TYPE_MISMATCH, site.span, format!("`{}` is not a site", site.name))
                    .related(c.program.span_of(def), "declared here"),
            );
        }
    }
    c.record_block_named(block, "FoundationBlock", Context::Foundation, decl.name.span);
}

pub(super) fn statement(c: &mut Checker<'_>, kind: &StatementKind) {
    let length = Type::quantity(Dim::LENGTH);
    match kind {
        StatementKind::Wall { name, direction, length: how_far, block } => {
            let word = direction.name.as_str();
            if !DIRECTIONS.contains(&word) {
                let near = closest(word, DIRECTIONS);
                let mut finding =
                    Finding::new(codes::UNKNOWN_MEMBER, direction.span, format!("`{word}` is not a direction"));
                finding = match near {
                    Some(near) => finding
                        .mend(format!("did you mean `{near}`?"))
                        .fix(wythe_findings::Fix::needs_consent(format!("write `{near}`"), direction.span, near)),
                    None => finding
                        .mend("a wall runs east, north, west, south, between two of them, or `skew` with a `bearing`"),
                };
                c.report(finding);
            }
            c.expect(*how_far, &length);
            if let Some(block) = block {
                c.record_block_named(block, "WallBlock", Context::Wall, name.span);
            }
        }
        StatementKind::Step { at, block } => {
            c.expect(*at, &length);
            c.record_block_named(block, "StepBlock", Context::Plain, block.span);
        }
        StatementKind::Opening { name, at, block, .. } => {
            c.expect(*at, &length);
            c.record_block_named(block, "OpeningBlock", Context::Plain, name.span);
        }
        StatementKind::Piers { name, block } => c.record_block_named(block, "PiersBlock", Context::Plain, name.span),
        StatementKind::Pier { name, at, block } => {
            c.expect(*at, &Type::Place);
            c.record_block_named(block, "PierBlock", Context::Plain, name.span);
        }
        StatementKind::Pad { name, at, block } => {
            c.expect(*at, &Type::Place);
            c.record_block_named(block, "PadBlock", Context::Plain, name.span);
        }
        StatementKind::Beam { name, from, to, block } => {
            c.expect(*from, &Type::Place);
            c.expect(*to, &Type::Place);
            if let Some(block) = block {
                c.record_block_named(block, "BeamBlock", Context::Plain, name.span);
            }
        }
        StatementKind::Rate { value, class, .. } => {
            let ty = c.infer(*value);
            let per_hour = match &ty {
                Type::Quantity(dim, _) => dim.mul(Dim::TIME).is_ok_and(|amount| {
                    amount == Dim::AREA
                        || amount == Dim::LENGTH
                        || amount == Dim::VOLUME
                        || amount.as_nominal().is_some()
                        || amount.is_none()
                }),
                Type::Unknown => true,
                _ => false,
            };
            if !per_hour {
                c.report(
                    Finding::new(codes::UNLIKE_DIMENSIONS, c.module[*value].span, "a rate is an amount in a time")
                        .label(format!("this is {}", c.describe(&ty)))
                        .mend("write it as `120 ft2 per h`, `160 ft per h` or `110 pc per h`"),
                );
            }
            if let Some(class) = class {
                known_class(c, *class);
            }
        }
        StatementKind::Waste { class, value } => {
            known_class(c, *class);
            c.expect(*value, &Type::NUMBER);
        }
        StatementKind::Entry { date, block } => {
            c.expect(*date, &Type::Date);
            c.record_block_named(block, "EntryBlock", Context::Plain, block.span);
        }
        _ => {}
    }
}

fn known_class(c: &mut Checker<'_>, ident: Ident) {
    if Class::of_name(ident.name.as_str()).is_none() {
        let near = closest(ident.name.as_str(), Class::ALL.map(Class::name));
        let mut finding =
            Finding::new(codes::UNKNOWN_TYPE, ident.span, format!("there is no product class `{}`", ident.name));
        if let Some(near) = near {
            finding = finding.mend(format!("did you mean `{near}`?"));
        }
        c.report(finding);
    }
}
