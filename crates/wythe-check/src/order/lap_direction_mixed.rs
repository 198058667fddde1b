//! `lap_direction_mixed`: in one joint the ground sheet lies over what hangs down, in another under it.

use wythe_findings::{Finding, codes};
use wythe_model::{Act, EdgeName, Foundation, Joint, Work};
use wythe_source::Symbol;

use super::words::line;

pub(super) fn check(f: &Foundation, out: &mut Vec<Finding>) {
    let Some(ground) = f.ground.assembly.and_then(|id| f.assemblies.get(id.0 as usize)) else { return };
    let is_ground =
        |name: Symbol| ground.faces.iter().flat_map(|face| &face.works).any(|w| w.act.places() && w.layer == name);
    let mut first: [Option<(&Joint, &Work)>; 2] = [None, None];
    for joint in &f.joints {
        for work in joint.face.works.iter().filter(|w| w.act == Act::Lap) {
            let Some(EdgeName::Layer(onto)) = work.place.map(|p| p.edge) else { continue };
            let slot = match (is_ground(work.layer), is_ground(onto)) {
                (true, false) => 0,
                (false, true) => 1,
                _ => continue,
            };
            first[slot].get_or_insert((joint, work));
        }
    }
    let [Some((over, on_top)), Some((under, below))] = first else { return };
    out.push(
        Finding::new(codes::LAP_DIRECTION_MIXED, below.origin, "the laps of the ground sheet go both ways")
            .label(format!("in `{}` the ground sheet lies under: `{}`", under.name, line(below)))
            .related(on_top.origin, format!("in `{}` it lies over: `{}`", over.name, line(on_top)))
            .mend("one direction in the whole house")
            .item(format!("{}.{}", f.name, under.name)),
    );
}
