//! Layer order: each face of each assembly followed work by work, once, however many parts are built with it.
//!
//! A layer goes `absent → placed → fixed → finished → covered`, a verb being one arrow. Start at
//! [`history`], which is that walk; each finding has a file of its own that asks the history one question.

mod board_before_liner;
mod cell_open_under_coating;
mod context;
mod drain_without_stone;
mod extents;
mod facing_mismatch;
mod fastener_spacing;
mod fastener_too_short;
pub(crate) mod history;
mod joint_names;
mod lap_direction_mixed;
mod layer_order;
mod missing_lap_tape;
mod never_fastened;
mod open_board_joints;
mod out_of_reach;
mod placed_twice;
mod remove_permanent;
mod sealant_bond;
mod sealed_too_soon;
pub(crate) mod surface;
mod taped_before_fixed;
mod uncapped_edge;
mod unfixed_cover;
mod unknown_layer;
mod unsealed_piercing;
mod verb_mismatch;
pub(crate) mod words;
mod wrong_base;

use wythe_findings::Finding;
use wythe_model::{AssemblyId, Foundation};

pub(crate) use self::uncapped_edge::drinks;

use self::context::Context;
use self::history::History;
use crate::{Requirements, levels, merge};

type Check = fn(&Context, &mut Vec<Finding>);

const CHECKS: [Check; 23] = [
    layer_order::check,
    board_before_liner::check,
    unfixed_cover::check,
    never_fastened::check,
    fastener_too_short::check,
    fastener_spacing::check,
    unsealed_piercing::check,
    facing_mismatch::check,
    uncapped_edge::check,
    sealed_too_soon::check,
    sealant_bond::check,
    unknown_layer::check,
    remove_permanent::check,
    missing_lap_tape::check,
    cell_open_under_coating::check,
    out_of_reach::check,
    taped_before_fixed::check,
    placed_twice::check,
    verb_mismatch::check,
    wrong_base::check,
    drain_without_stone::check,
    open_board_joints::check,
    extents::check,
];

/// Findings about the order of layers, in order of place.
pub fn check(foundation: &Foundation, asked: &Requirements) -> Vec<Finding> {
    let mut out = Vec::new();
    for (number, assembly) in foundation.assemblies.iter().enumerate() {
        let id = AssemblyId(number as u32);
        let levels = levels::levels_of(foundation, id);
        for face in &assembly.faces {
            let joints = foundation.joints.iter().filter(|j| {
                [j.first, j.second].into_iter().any(|key| key.kind == assembly.kind && key.face == face.name)
            });
            let history = History::of(assembly, face, &levels);
            let context = Context {
                foundation,
                asked,
                id,
                assembly,
                swapped: board_before_liner::swapped(&history),
                history,
                joint_works: joints.flat_map(|j| &j.face.works).collect(),
            };
            for check in CHECKS {
                check(&context, &mut out);
            }
        }
    }
    joint_names::check(foundation, &mut out);
    lap_direction_mixed::check(foundation, &mut out);
    merge(out)
}

#[cfg(test)]
mod tests;
