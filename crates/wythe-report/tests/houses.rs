//! Reports on houses of every size, and on some that nobody should build or name so: each comes out whole.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use std::sync::Arc;

use wythe_assess::heat::heat;
use wythe_bill::{Job, Terms};
use wythe_check::Requirements;
use wythe_model::fixture::{Places, Products, at_ft, ft_in, r_value, rectangle, unit_4};
use wythe_model::quantity::Films;
use wythe_model::{Act, Foundation, Pier, Work};
use wythe_render::Files;
use wythe_render::tables::{Shower, Standing};
use wythe_report::{Block, House, Report, html, report};
use wythe_source::{FileId, Symbol};
use wythe_units::{DisplayOptions, UnitSystem};

/// Places lead into files of no text.
struct Nowhere;

impl Files for Nowhere {
    fn name(&self, _: FileId) -> String {
        "house.wythe".into()
    }

    fn text(&self, _: FileId) -> &str {
        ""
    }
}

fn told(f: Foundation, system: UnitSystem) -> Report {
    let f = Arc::new(f);
    let job = Job::of(std::slice::from_ref(&f), &Terms::default());
    let checked = wythe_check::check(&f, &Requirements::default());
    let warm = heat(&f, None);
    let film = r_value(0.68);
    report(&House {
        foundation: &f,
        findings: &checked.findings,
        waived: Vec::new(),
        lacking: &job.findings,
        standing: Standing::default(),
        traces: &checked.traces,
        films: Films { inside: film, outside: film },
        heat: warm.report.as_ref(),
        moisture: None,
        job: &job,
        bill: None,
        labor: &[],
        schedule: None,
        today: None,
        show: Shower { display: &DisplayOptions::new(system), files: &Nowhere },
        link: &|_| None,
        version: "0",
    })
}

fn forty_piers() -> Foundation {
    let mut f = rectangle(ft_in(80.0, 0.0), ft_in(36.0, 0.0));
    let model = unit_4().piers.remove(0);
    for number in 0..40_u32 {
        let at = at_ft(7.2 * f64::from(number % 10 + 1), 7.0 * f64::from(number / 10 + 1));
        f.piers.push(Pier { name: Symbol::new(&format!("p{number}")), at, ..model.clone() });
    }
    f
}

/// So many layers on the inside of every wall.
fn layers(count: usize) -> Foundation {
    let products = Products::new(&mut Places::default());
    let mut f = rectangle(ft_in(30.0, 0.0), ft_in(20.0, 0.0));
    let wall = Arc::make_mut(&mut f.assemblies[0]);
    let face = wall.faces.iter_mut().find(|face| face.name.as_str() == "inside").unwrap();
    let model: Work = face.works.iter().find(|w| w.act == Act::Set).unwrap().clone();
    let layer = |n: usize| Work {
        layer: Symbol::new(&format!("layer_{n}")),
        product: Some(products.foil_board.clone()),
        ..model.clone()
    };
    face.works = (0..count).map(layer).collect();
    f
}

fn hostile() -> Foundation {
    let mut f = unit_4();
    f.name = Symbol::new("<script>alert('x')</script> & \"quoted\" \u{202e}reversed\u{0}");
    f.walls[0].name = Symbol::new("</svg></section><script>alert(1)</script>");
    f.walls[1].name = Symbol::new("\u{5e7}\u{5d9}\u{5e8} \u{5de}\u{5d6}\u{5e8}\u{5d7} 12");
    f.walls[2].name = Symbol::new(&"a_very_long_name_".repeat(40));
    f.piers[0].name = Symbol::new("]]><!--");
    f
}

#[test]
fn every_house_has_a_whole_report() {
    let box_of = |e: f64, n: f64| rectangle(ft_in(e, 0.0), ft_in(n, 0.0));
    let mut bare = box_of(20.0, 12.0);
    bare.walls.iter_mut().for_each(|w| w.assembly = None);
    bare.ground.assembly = None;
    let mut no_walls = unit_4();
    no_walls.walls.clear();
    let houses = [
        ("unit 4", unit_4()),
        ("200 ft", box_of(200.0, 40.0)),
        ("2 ft", box_of(24.0, 2.0)),
        ("forty piers", forty_piers()),
        ("ten layers", layers(10)),
        ("one layer", layers(1)),
        ("nothing built", bare),
        ("no walls", no_walls),
        ("hostile", hostile()),
    ];
    for (name, f) in houses {
        for system in [UnitSystem::Us, UnitSystem::Si] {
            let report = told(f.clone(), system);
            let ids: Vec<&str> = report.sections.iter().map(|s| s.id).collect();
            for id in ["summary", "findings", "drawings", "walls", "inspection", "assumptions", "cautions"] {
                assert!(ids.contains(&id) || name.starts_with("no"), "{name}: no `{id}` in {ids:?}");
            }
            let page = html::page(&report);
            assert_eq!(page.matches("<section ").count(), ids.len(), "{name}");
            assert!(!page.contains("<script") && !page.contains("NaN"), "{name}");
            assert!(!page.contains('\u{202e}'), "{name}");
            assert!(page.len() < 4_000_000, "{name}: {}", page.len());
        }
    }
}

#[test]
fn tables_are_as_wide_as_their_heads() {
    for f in [unit_4(), layers(10), forty_piers()] {
        for section in told(f, UnitSystem::Us).sections {
            for block in &section.blocks {
                let Block::Grid { grid } = block else { continue };
                assert!(!grid.title.is_empty() && !grid.columns.is_empty(), "{}", section.id);
                assert!(grid.columns.len() <= 9, "{}: {} columns", grid.title, grid.columns.len());
                assert!(grid.rows.iter().all(|row| row.len() == grid.columns.len()), "{}", grid.title);
            }
        }
    }
}
