//! Bounds and plans against an independent solver (`tests/reference/takeoff/bounds.py`).

use serde_json::Value;
use uom::si::f64::Length;
use uom::si::length::inch;
use wythe_takeoff::nest::cover::{self, CoverRules, JointEdge, Run};
use wythe_takeoff::nest::pieces::{self, Piece, PieceRules};
use wythe_takeoff::nest::{CutPlan, LeastOffcut, Sheet};

const INSTANCES: &str = include_str!("../../../tests/reference/takeoff/instances.json");
const BOUNDS: &str = include_str!("../../../tests/reference/takeoff/bounds.json");

fn inches(v: f64) -> Length {
    Length::new::<inch>(v)
}

fn number(v: &Value) -> f64 {
    v.as_f64().expect("a number in the instance file")
}

fn list(v: &Value) -> &[Value] {
    v.as_array().expect("a list in the instance file")
}

fn cases(kind: &str) -> Vec<(String, Value, Value)> {
    let instances: Value = serde_json::from_str(INSTANCES).expect("instances.json");
    let bounds: Value = serde_json::from_str(BOUNDS).expect("bounds.json");
    list(&instances[kind])
        .iter()
        .map(|c| {
            let name = c["name"].as_str().expect("a name").to_owned();
            let bound = bounds[&name].clone();
            (name, c.clone(), bound)
        })
        .collect()
}

fn whole(bound: &Value) -> usize {
    (number(&bound["bound"]) - 1e-5).ceil() as usize
}

fn least() -> LeastOffcut {
    LeastOffcut { short: inches(6.0), long: inches(12.0) }
}

fn cut(sheet: (f64, f64), turn: bool, wanted: impl Iterator<Item = (f64, f64, f64)>) -> CutPlan {
    let pieces: Vec<Piece> = wanted
        .map(|(length, width, count)| Piece {
            name: format!("{length} x {width}"),
            length: inches(length),
            width: inches(width),
            count: count as u32,
        })
        .collect();
    let rules = PieceRules { kerf: inches(0.0), least_offcut: least(), turn };
    let sheet = Sheet { length: inches(sheet.0), width: inches(sheet.1) };
    pieces::plan(sheet, &pieces, &rules).expect("valid stock")
}

#[test]
fn bars_reach_the_known_optimum() {
    for (name, case, bound) in cases("bars") {
        let wanted = list(&case["pieces"]).iter().map(|p| (number(&p[0]), 1.0, number(&p[1])));
        let plan = cut((number(&case["capacity"]), 1.0), false, wanted);
        let optimum = number(&case["optimum"]) as usize;
        assert_eq!(whole(&bound), optimum, "{name}: the solver and the literature");
        assert_eq!((plan.bound, plan.bought), (optimum, optimum), "{name}");
    }
}

#[test]
fn sheets_have_the_same_bound_and_as_good_a_plan() {
    for (name, case, bound) in cases("sheets") {
        let turn = case["turn"].as_bool().expect("a flag");
        let wanted = list(&case["pieces"]).iter().map(|p| (number(&p[0]), number(&p[1]), number(&p[2])));
        let sheet = (number(&case["sheet"][0]), number(&case["sheet"][1]));
        let plan = cut(sheet, turn, wanted);
        assert_eq!(plan.bound, whole(&bound), "{name}");
        assert!(
            plan.bought <= number(&bound["plan"]) as usize,
            "{name}: {} sheets where the solver has {}",
            plan.bought,
            bound["plan"]
        );
    }
}

#[test]
fn walls_have_the_same_bound() {
    for (name, case, bound) in cases("walls") {
        let runs: Vec<Run> = list(&case["walls"])
            .iter()
            .enumerate()
            .map(|(i, w)| Run {
                name: format!("wall {i}"),
                length: inches(number(&w[0])),
                height: inches(number(&w[1])),
                no_joint_at: vec![],
            })
            .collect();
        let rules = CoverRules {
            kerf: inches(number(&case["kerf"])),
            least_piece: inches(number(&case["least"])),
            least_offcut: least(),
            turn: case["turn"].as_bool().expect("a flag"),
            joints: JointEdge::Any,
            joint_clearance: inches(0.0),
        };
        let sheet = Sheet { length: inches(number(&case["sheet"][0])), width: inches(number(&case["sheet"][1])) };
        let plan = cover::plan(sheet, &runs, &rules, &[]).expect("valid stock");
        assert_eq!(plan.bound, whole(&bound), "{name}");
        assert!(plan.is_complete() && plan.bought <= plan.bound + 1, "{name}: {}", plan.bought);
    }
}
