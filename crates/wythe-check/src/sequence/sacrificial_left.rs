//! `sacrificial_left`: a sacrificial layer is still there in service, and nothing lies over it.

use wythe_findings::{Finding, codes};

use super::plan::Plan;

pub(super) fn check(plan: &Plan, out: &mut Vec<Finding>) {
    for surface in &plan.surfaces {
        let lives = &surface.history.lives;
        for life in lives.iter().filter(|l| l.is_sacrificial() && l.stays()) {
            let over = lives
                .iter()
                .any(|o| o.work > life.work && o.stays() && !o.is_sacrificial() && o.range.meets(life.range));
            if over {
                continue;
            }
            let name = life.name;
            let finding = plan
                .of_face(
                    surface,
                    codes::SACRIFICIAL_LEFT,
                    surface.work(life).origin,
                    format!("`{name}` is neither covered nor taken away"),
                )
                .label("a sheet for the time of building, still bare in service")
                .mend(format!("add `remove {name}` before the closing, or lay the permanent liner over it"));
            out.push(finding);
        }
    }
}
