//! Houses to draw: the fixtures, and some made hard on purpose.

use std::sync::Arc;

use wythe_model::fixture::{Places, Products, at_ft, ft_in, levels, rectangle, unit_4};
use wythe_model::{Act, Control, Foundation, Length, Pier, SurfaceKind, Work};
use wythe_source::Symbol;

use crate::drawing::{
    BreakAt, BreakSide, ControlLine, Drawing, LineBreak, LineStep, PierOptions, PlanOptions, PlanPiece, PlanStrip,
    SectionMark, SectionOptions, StripOptions, UnitSystem, control_strip, pier_detail, plan, section, sequence_strip,
};

/// Lines of the house standard, written out by hand: one whole, two broken.
pub fn lines() -> Vec<ControlLine> {
    let step = |element, face: &str, layer: &str, from: f64, to: f64| LineStep {
        element,
        face: Symbol::new(face),
        layer: Symbol::new(layer),
        from: ft_in(0.0, from),
        to: ft_in(0.0, to),
    };
    let wall = SurfaceKind::Wall;
    let short_lap =
        LineBreak { at: BreakAt::Floor(ft_in(0.0, 13.0)), text: "lap 4 in found, 6 in due".to_owned(), origin: None };
    let bare = LineBreak {
        at: BreakAt::Elevation(ft_in(0.0, -4.0), BreakSide::Inside),
        text: "bare band of 4 in".to_owned(),
        origin: None,
    };
    vec![
        ControlLine {
            control: Control::BulkWater,
            steps: vec![step(wall, "outside", "wall_membrane", 0.0, -40.0)],
            breaks: vec![],
        },
        ControlLine {
            control: Control::Vapor,
            steps: vec![
                step(wall, "head", "head_coat", 0.0, 0.0),
                step(wall, "inside", "wall_cap", 0.0, -8.0),
                step(wall, "inside", "wall_liner", -4.0, -32.0),
                step(SurfaceKind::Ground, "face", "ground_liner", -32.0, -32.0),
            ],
            breaks: vec![short_lap],
        },
        ControlLine {
            control: Control::Heat,
            steps: vec![step(wall, "inside", "board", -4.0, -32.0)],
            breaks: vec![bare],
        },
    ]
}

/// A plan of unit 4 with all that may be drawn into it.
pub fn full_plan() -> PlanOptions {
    let strip = |number: usize| {
        let y = 9.5 * (number as f64 - 1.0) + 0.6;
        let corners = vec![at_ft(-1.0, y), at_ft(43.0, y), at_ft(43.0, y + 10.0), at_ft(-1.0, y + 10.0)];
        PlanStrip { number, corners }
    };
    let lap = |number: usize| {
        let y = 9.5 * number as f64 + 0.6;
        vec![at_ft(-1.0, y), at_ft(43.0, y), at_ft(43.0, y + 0.5), at_ft(-1.0, y + 0.5)]
    };
    let piece = |number: usize| PlanPiece {
        wall: 0,
        from: ft_in(0.64 + 8.0 * (number as f64 - 1.0), 0.0),
        to: ft_in((0.64 + 8.0 * number as f64).min(41.36), 0.0),
        mark: number.to_string(),
    };
    PlanOptions {
        system: UnitSystem::Us,
        marks: vec![
            SectionMark { wall: 0, at: ft_in(21.0, 0.0), letter: "A".to_owned() },
            SectionMark { wall: 1, at: ft_in(20.0, 0.0), letter: "B".to_owned() },
        ],
        strips: (1..=3).map(strip).collect(),
        laps: (1..=2).map(lap).collect(),
        pieces: (1..=6).map(piece).collect(),
    }
}

/// A rectangle with forty piers.
pub fn forty_piers() -> Foundation {
    let mut f = rectangle(ft_in(80.0, 0.0), ft_in(36.0, 0.0));
    let model = unit_4().piers.remove(0);
    for row in 0..4_u32 {
        for column in 0..10_u32 {
            let at = at_ft(7.5 * f64::from(column + 1), 7.2 * f64::from(row + 1));
            let name = Symbol::new(&format!("p{}", row * 10 + column + 1));
            f.piers.push(Pier { name, at, ..model.clone() });
        }
    }
    f
}

/// The first assembly changed.
fn with_wall(mut f: Foundation, change: impl FnOnce(&mut wythe_model::Assembly)) -> Foundation {
    change(Arc::make_mut(&mut f.assemblies[0]));
    f
}

/// Ten layers on the inside, each of full height, after what is there.
pub fn ten_layers() -> Foundation {
    let p = Products::new(&mut Places::default());
    with_wall(rectangle(ft_in(30.0, 0.0), ft_in(20.0, 0.0)), |wall| {
        let face = &mut wall.faces[2];
        let model: Work = face.works.iter().find(|w| w.act == Act::Set).unwrap().clone();
        face.works.clear();
        for i in 0..10 {
            let (act, product) = match i % 3 {
                0 => (Act::Coat, &p.wall_membrane),
                1 => (Act::Hang, &p.wall_liner),
                _ => (Act::Set, &p.foil_board),
            };
            let layer = Symbol::new(&format!("layer_{}", i + 1));
            face.works.push(Work { act, layer, product: Some(product.clone()), ..model.clone() });
        }
    })
}

/// One layer, and nothing else on the wall or the ground.
pub fn one_layer() -> Foundation {
    let mut f = with_wall(rectangle(ft_in(30.0, 0.0), ft_in(20.0, 0.0)), |wall| {
        wall.faces.retain(|face| face.name.as_str() == "outside");
        wall.faces[0].works.truncate(1);
    });
    f.ground.assembly = None;
    f.joints.clear();
    f
}

/// Walls twelve feet high.
pub fn tall() -> Foundation {
    let mut f = rectangle(ft_in(30.0, 0.0), ft_in(20.0, 0.0));
    for wall in &mut f.walls {
        wall.stretches[0].levels = levels(24.0, 120.0, 144.0);
    }
    f
}

/// Names nobody should give, and figures nobody can build.
pub fn hostile() -> Foundation {
    let mut f = unit_4();
    f.name = Symbol::new("<script>alert('x')</script> & \"quoted\" \u{202e}reversed\u{0}");
    f.walls[0].name = Symbol::new("</text><script>alert(1)</script>");
    f.walls[1].name = Symbol::new("\u{5e7}\u{5d9}\u{5e8} \u{5de}\u{5d6}\u{5e8}\u{5d7} 12 (\u{5d7}\u{5d3}\u{5e9})");
    f.walls[2].name = Symbol::new(&"a_very_long_name_".repeat(40));
    f.openings[0].name = Symbol::new(&"WWWW".repeat(60));
    f.piers[0].name = Symbol::new("]]><!--");
    f.piers[1].name = Symbol::new(&"m".repeat(300));
    f.beams[0].name = Symbol::new("\u{0}\u{1}\u{b}\u{ffff}");
    f.pads[0].name = Symbol::new("\u{1f3e0}\u{1f3e0} \u{4e2d}\u{6587}");
    f
}

/// Every house with a name for messages.
pub fn all() -> Vec<(&'static str, Foundation)> {
    let box_of = |e: f64, n: f64| rectangle(ft_in(e, 0.0), ft_in(n, 0.0));
    let mut no_assembly = box_of(20.0, 12.0);
    no_assembly.walls.iter_mut().for_each(|w| w.assembly = None);
    no_assembly.ground.assembly = None;
    vec![
        ("unit 4", unit_4()),
        ("small", box_of(8.0, 6.0)),
        ("medium", box_of(40.0, 28.0)),
        ("200 ft wall", box_of(200.0, 40.0)),
        ("2 ft wall", box_of(24.0, 2.0)),
        ("forty piers", forty_piers()),
        ("ten layers", ten_layers()),
        ("one layer", one_layer()),
        ("tall", tall()),
        ("hostile names", hostile()),
        ("nothing built", no_assembly),
    ]
}

/// Every drawing of a house in a system of units.
pub fn drawings(f: &Foundation, system: UnitSystem) -> Vec<Drawing> {
    let plain = SectionOptions { system, ..SectionOptions::default() };
    let mut out = Vec::new();
    for (i, wall) in f.walls.iter().enumerate() {
        out.push(section(f, i, wall.length * 0.55, &plain));
    }
    for (i, opening) in f.openings.iter().enumerate().take(1) {
        let at = opening.at + opening.width / 2.0;
        out.push(section(f, opening.wall.unwrap_or(i), at, &plain));
    }
    out.push(section(f, 0, Length::default(), &SectionOptions { lines: lines(), ..plain.clone() }));
    let mut options = full_plan();
    options.system = system;
    out.push(plan(f, &PlanOptions { system, ..PlanOptions::default() }));
    out.push(plan(f, &options));
    for pier in [0, f.piers.len().saturating_sub(1)] {
        out.push(pier_detail(f, pier, &PierOptions { system }));
    }
    let strip = StripOptions { system, wall: 0, at: None };
    out.push(sequence_strip(f, &strip));
    out.push(control_strip(f, &lines(), &strip));
    out
}
