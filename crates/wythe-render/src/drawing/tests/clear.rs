//! Nothing lies over a text: not another text, not the leader of another name; and all is on the sheet.

use crate::drawing::{Drawing, Form, Frame, Group, Item, Role, Spot, UnitSystem};

use super::houses::{all, drawings};

fn systems() -> [UnitSystem; 2] {
    [UnitSystem::Us, UnitSystem::Si]
}

fn each(check: impl Fn(&str, &Drawing)) {
    for (house, f) in all() {
        for system in systems() {
            for d in drawings(&f, system) {
                check(&format!("{house}, {}, {system:?}", d.id.chars().take(40).collect::<String>()), &d);
            }
        }
    }
}

#[test]
fn no_text_lies_over_another() {
    each(|name, d| {
        let texts: Vec<_> = d.texts().into_iter().filter(|t| !t.shown.trim().is_empty()).collect();
        for (i, a) in texts.iter().enumerate() {
            for b in &texts[i + 1..] {
                assert!(
                    !a.frame().overlaps(&b.frame()),
                    "{name}: {:?} {:?} over {:?} {:?}",
                    a.shown,
                    a.frame(),
                    b.shown,
                    b.frame()
                );
            }
        }
    });
}

#[test]
fn every_text_is_on_its_sheet() {
    each(|name, d| {
        let sheet = Frame { left: 0.0, top: 0.0, right: d.width, bottom: d.height };
        for t in d.texts() {
            let f = t.frame();
            let on = f.left >= sheet.left && f.right <= sheet.right && f.top >= sheet.top && f.bottom <= sheet.bottom;
            assert!(on, "{name}: {:?} at {f:?} is off the sheet {sheet:?}", t.shown);
        }
    });
}

/// The leader of a group of names: its first line.
fn leader(group: &Group) -> Option<Vec<Spot>> {
    group.items.iter().find_map(|item| match item {
        Item::Shape(s) => match &s.form {
            Form::Line(spots) => Some(spots.clone()),
            _ => None,
        },
        _ => None,
    })
}

fn side(a: Spot, b: Spot, c: Spot) -> f64 {
    (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)
}

fn cross(a: (Spot, Spot), b: (Spot, Spot)) -> bool {
    let apart = |p: f64, q: f64| p * q < -1e-9;
    apart(side(a.0, a.1, b.0), side(a.0, a.1, b.1)) && apart(side(b.0, b.1, a.0), side(b.0, b.1, a.1))
}

/// Whether a stretch passes through a frame.
fn passes(from: Spot, to: Spot, frame: &Frame) -> bool {
    (0..=100).any(|i| {
        let t = f64::from(i) / 100.0;
        let (x, y) = (from.x + (to.x - from.x) * t, from.y + (to.y - from.y) * t);
        x > frame.left && x < frame.right && y > frame.top && y < frame.bottom
    })
}

#[test]
fn no_leader_crosses_another() {
    each(|name, d| {
        let groups: Vec<&Group> = d.all_groups().into_iter().filter(|g| g.role == Role::Leader).collect();
        let lines: Vec<_> = groups.iter().filter_map(|g| leader(g).map(|l| (g.id.as_str(), l))).collect();
        for (i, (a, one)) in lines.iter().enumerate() {
            for (b, other) in &lines[i + 1..] {
                for p in one.windows(2) {
                    for q in other.windows(2) {
                        assert!(!cross((p[0], p[1]), (q[0], q[1])), "{name}: {a} crosses {b}: {one:?} {other:?}");
                    }
                }
            }
        }
    });
}

#[test]
fn no_leader_runs_through_a_text() {
    each(|name, d| {
        let groups = d.all_groups();
        let named = |g: &&&Group| matches!(g.role, Role::Leader | Role::Opening);
        let texts_of = |g: &Group| {
            g.items
                .iter()
                .filter_map(|i| if let Item::Text(t) = i { Some(t.clone()) } else { None })
                .collect::<Vec<_>>()
        };
        for g in groups.iter().filter(named).filter(|g| !texts_of(g).is_empty()) {
            let Some(line) = leader(g) else { continue };
            for other in groups.iter().filter(|o| !std::ptr::eq(**o, *g)) {
                // A ring with a letter sits on its own line, over whatever is there.
                for text in texts_of(other).iter().filter(|_| other.role != Role::ControlLine) {
                    let frame = text.frame().grown(-0.25);
                    for p in line.windows(2) {
                        assert!(!passes(p[0], p[1], &frame), "{name}: {} runs through {:?}", g.id, text.shown);
                    }
                }
            }
        }
    });
}

#[test]
fn the_houses_that_fit_lose_no_name() {
    for (house, f) in all().into_iter().filter(|(n, _)| ["unit 4", "small", "medium", "forty piers"].contains(n)) {
        for d in drawings(&f, UnitSystem::Us).iter().filter(|d| d.id == "plan").take(1) {
            assert!(d.texts().iter().all(|t| !t.shown.contains("left out")), "{house}");
        }
    }
}
