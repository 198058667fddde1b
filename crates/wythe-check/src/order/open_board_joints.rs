//! `open_board_joints`: boards that alone carry the vapor or air line, with open joints between them.

use wythe_findings::{Finding, codes};
use wythe_model::{Class, Control, EdgeName, SurfaceKind};

use super::context::Context;

pub(super) fn check(context: &Context, out: &mut Vec<Finding>) {
    if context.assembly.kind != SurfaceKind::Wall || context.history.face.name.as_str() != "inside" {
        return;
    }
    let lives = &context.history.lives;
    for (at, board) in lives.iter().enumerate().filter(|(_, l)| l.class() == Some(Class::Board) && l.stays()) {
        let Some(product) = board.product else { continue };
        let alone = |control: Control| {
            product.controls.has(control)
                && !lives.iter().enumerate().any(|(other, l)| {
                    other != at
                        && l.stays()
                        && l.range.holds(board.range)
                        && l.product.is_some_and(|p| p.controls.has(control) && !p.sacrificial)
                })
        };
        let Some(control) = [Control::Vapor, Control::Air].into_iter().find(|c| alone(*c)) else { continue };
        let by_joint = || {
            context
                .joint_works
                .iter()
                .any(|w| w.place.is_some_and(|p| p.edge == EdgeName::Joints && p.of == Some(board.name)))
        };
        if context.history.treatments(at, EdgeName::Joints).next().is_some() || by_joint() {
            continue;
        }
        let name = board.name;
        let finding = Finding::new(
            codes::OPEN_BOARD_JOINTS,
            context.works()[board.work].origin,
            format!("the joints of `{name}` stay open"),
        )
        .label(format!("nothing else on this face carries the {} line", control.name()))
        .mend(format!("add `tape … over joints of {name}` with a tape of its facing"));
        out.push(context.placed(finding));
    }
}
