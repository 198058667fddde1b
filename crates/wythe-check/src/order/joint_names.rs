//! Layers named by joints: each must be put on one of the two faces that meet, and its tape must hold.

use wythe_findings::{Finding, codes};
use wythe_model::{Act, EdgeName, Foundation, Joint, Work};
use wythe_source::{Span, Symbol};

use super::facing_mismatch;
use super::words::nearest;

pub(super) fn check(foundation: &Foundation, out: &mut Vec<Finding>) {
    for joint in &foundation.joints {
        if !both_sides_are_built(foundation, joint) {
            continue;
        }
        for work in &joint.face.works {
            for (name, span) in names(work) {
                if !is_there(foundation, joint, work, name) {
                    out.push(unknown(foundation, joint, name, span));
                }
            }
        }
        facing_mismatch::check_joint(foundation, joint, out);
    }
}

/// The works of the faces on both sides of a joint, and its own.
pub(crate) fn sides<'a>(foundation: &'a Foundation, joint: &'a Joint) -> impl Iterator<Item = &'a Work> {
    let faces = foundation.assemblies.iter().flat_map(|a| a.faces.iter().map(move |f| (a.kind, f)));
    let meets = move |kind, name| [joint.first, joint.second].into_iter().any(|k| k.kind == kind && k.face == name);
    faces.filter(move |(kind, f)| meets(*kind, f.name)).flat_map(|(_, f)| &f.works).chain(&joint.face.works)
}

fn both_sides_are_built(foundation: &Foundation, joint: &Joint) -> bool {
    [joint.first, joint.second]
        .into_iter()
        .all(|key| foundation.assemblies.iter().any(|a| a.kind == key.kind && a.face(key.face.as_str()).is_some()))
}

/// The layers a work of a joint names, each with its place.
fn names(work: &Work) -> impl Iterator<Item = (Symbol, Span)> {
    let acts = matches!(work.act, Act::Lap | Act::Fasten | Act::Remove).then_some((work.layer, work.layer_origin));
    let place = work.place;
    let edge = place.and_then(|p| match p.edge {
        EdgeName::Layer(name) => Some((name, p.origin)),
        _ => p.of.map(|of| (of, p.origin)),
    });
    let line = |n: &str| matches!(n, "structure" | "sill" | "top" | "head" | "footing" | "ground" | "grade");
    let to = place.and_then(|p| p.to.map(|to| (to, p.origin))).filter(|(to, _)| !line(to.as_str()));
    acts.into_iter().chain(edge).chain(to)
}

fn is_there(foundation: &Foundation, joint: &Joint, work: &Work, name: Symbol) -> bool {
    let heads = work.place.is_some_and(|p| p.edge == EdgeName::Heads);
    sides(foundation, joint).any(|w| {
        if heads && w.act == Act::Fasten {
            w.product.as_deref().is_some_and(|p| p.name == name)
        } else {
            w.act.places() && w.layer == name
        }
    })
}

fn unknown(foundation: &Foundation, joint: &Joint, name: Symbol, span: Span) -> Finding {
    let (first, second) = (joint.first, joint.second);
    let sides_named = format!("`{}.{}` or `{}.{}`", first.kind.word(), first.face, second.kind.word(), second.face);
    let finding = Finding::new(codes::UNKNOWN_LAYER, span, format!("no layer `{name}` on {sides_named}"))
        .label("a joint names layers of the two faces that meet in it")
        .related(joint.origin, format!("joint `{}`", joint.name))
        .item(format!("{}.{}", foundation.name, joint.name));
    let known = sides(foundation, joint).filter(|w| w.act.places()).map(|w| w.layer);
    match nearest(name, known) {
        Some(near) => finding.mend(format!("did you mean `{near}`?")),
        None => finding.mend(format!("put `{name}` on one of the faces, or take the line out")),
    }
}
