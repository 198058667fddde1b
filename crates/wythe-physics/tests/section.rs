//! The two-dimensional solver against an analytic solution, the ISO 10211 cases and ISO 13370.
#![allow(clippy::unwrap_used, reason = "a test stops at its first surprise")]

use uom::si::f64::{Length, Ratio, ThermalConductivity};
use uom::si::{length, ratio, thermal_conductivity};
use wythe_physics::heat::ground::slab::SlabOnGround;
use wythe_physics::heat::ground::{FloorPlan, FloorResistances, Soil};
use wythe_physics::heat::section::mesh::Fineness;
use wythe_physics::heat::section::shape::{Environment, Fill, Rectangle, Section, Side};
use wythe_physics::heat::section::solve::solve;
use wythe_physics::heat::section::wall_ground::{INSIDE, OUTSIDE, WallGround, default_fineness};
use wythe_physics::quantity::{celsius, insulance_si, to_celsius};

fn m(v: f64) -> Length {
    Length::new::<length::meter>(v)
}
fn lambda(v: f64) -> ThermalConductivity {
    ThermalConductivity::new::<thermal_conductivity::watt_per_meter_kelvin>(v)
}
fn fineness(finest: f64, coarsest: f64, growth: f64) -> Fineness {
    Fineness { finest: m(finest), coarsest: m(coarsest), growth: Ratio::new::<ratio::ratio>(growth) }
}
fn paint(x: [f64; 2], y: [f64; 2], fill: Fill) -> Rectangle {
    Rectangle { left: m(x[0]), right: m(x[1]), bottom: m(y[0]), top: m(y[1]), fill }
}
fn air(t: f64, film: f64) -> Environment {
    Environment { temperature: celsius(t), upright_film: insulance_si(film), level_film: insulance_si(film) }
}

// ISO 10211 annex A case 1: the half square column, against the Fourier series at the 28 points of
// the standard (tests/reference/physics/square_column.py); the standard asks for 0.1 K.
#[test]
fn square_column_agrees_with_the_series() {
    let column = Section {
        rectangles: vec![paint([0.0, 0.5], [0.0, 1.0], Fill::Solid(lambda(1.0)))],
        environments: vec![air(20.0, 0.0), air(0.0, 0.0)],
        left: Side::Faces(1),
        right: Side::Adiabatic,
        bottom: Side::Faces(1),
        top: Side::Faces(0),
    };
    // Thirty-second of the side: the eighths fall on mesh corners.
    let got = solve(&column, &fineness(1.0 / 64.0, 1.0 / 64.0, 1.0)).unwrap();
    let mut table =
        csv::Reader::from_path(concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/reference/physics/square_column.csv"))
            .unwrap();
    let mut points = 0;
    for row in table.deserialize() {
        let (x, down, want): (f64, f64, f64) = row.unwrap();
        let t = to_celsius(got.temperature_at(m(x), m(1.0 - down)).unwrap());
        assert!((t - want).abs() < 0.02, "({x}, {down}): {t} not {want}");
        points += 1;
    }
    assert_eq!(points, 28);
}

// ISO 10211:2007 annex A case 2: concrete over wood, insulation and an aluminium tray. Geometry
// from memory of the standard's figure; temperatures and heat flow as the standard's table is
// reproduced publicly. The standard asks for 0.1 K and 0.1 W/m.
#[test]
fn iso_10211_case_2() {
    let (width, total) = (0.500, 0.0475);
    let y = |down: f64| total - down / 1000.0;
    let aluminium = Fill::Solid(lambda(230.0));
    let section = Section {
        rectangles: vec![
            paint([0.0, width], [0.0, total], Fill::Solid(lambda(0.029))),
            paint([0.0, width], [y(6.0), y(0.0)], Fill::Solid(lambda(1.15))),
            paint([0.0, 0.015], [y(11.0), y(6.0)], Fill::Solid(lambda(0.12))),
            paint([0.0, 0.015], [y(12.5), y(11.0)], aluminium),
            paint([0.0, 0.0015], [y(47.5), y(11.0)], aluminium),
            paint([0.0, width], [y(47.5), y(46.0)], aluminium),
        ],
        environments: vec![air(0.0, 0.06), air(20.0, 0.11)],
        left: Side::Adiabatic,
        right: Side::Adiabatic,
        bottom: Side::Faces(1),
        top: Side::Faces(0),
    };
    let got = solve(&section, &fineness(0.0003, 0.005, 1.2)).unwrap();
    let points = [
        ("A", 0.0, 0.0, 7.1),
        ("B", 500.0, 0.0, 0.8),
        ("C", 0.0, 6.0, 7.9),
        ("D", 15.0, 6.0, 6.3),
        ("E", 500.0, 6.0, 0.8),
        ("F", 0.0, 11.0, 16.4),
        ("G", 15.0, 11.0, 16.3),
        ("H", 0.0, 47.5, 16.8),
        ("I", 500.0, 47.5, 18.3),
    ];
    for (name, x, down, want) in points {
        let t = to_celsius(got.temperature_at(m(x / 1000.0), m(y(down))).unwrap());
        assert!((t - want).abs() <= 0.1, "{name}: {t:.3} not {want}");
    }
    let heat = got.heat_from[1].value;
    assert!((heat - 9.5).abs() <= 0.1, "{heat}");
    assert!((heat + got.heat_from[0].value).abs() < 1e-6);
}

fn level_slab(half_width: f64, floor: f64) -> WallGround {
    WallGround {
        half_width: m(half_width),
        depth: m(0.0),
        height: m(0.0),
        wall_thickness: m(0.3),
        wall_conductivity: lambda(1.0),
        insulation_thickness: m(0.0),
        insulation_conductivity: lambda(0.03),
        bare_band: m(0.0),
        soil_conductivity: lambda(2.0),
        floor: insulance_si(floor),
        wall_film: insulance_si(0.13),
        floor_film: insulance_si(0.17),
        outside_film: insulance_si(0.04),
        inside: celsius(20.0),
        outside: celsius(0.0),
    }
}

// ISO 13370's slab formula approximates this same section (a strip, whose B is its width): they agree
// within 3 %.
#[test]
fn slab_agrees_with_iso_13370() {
    for (half, floor, tolerance) in [(2.5, 0.0, 0.03), (4.0, 0.0, 0.03), (2.5, 1.5, 0.03)] {
        let solved = level_slab(half, floor).solve().unwrap();
        let numeric = solved.heat_from[INSIDE].value / (half * 20.0);
        let formula = SlabOnGround {
            plan: FloorPlan { area: m(2.0 * half) * m(1000.0), perimeter: m(2000.0) },
            wall_thickness: m(0.3),
            soil: Soil::sand(),
            resistances: FloorResistances {
                inside_film: insulance_si(0.17),
                floor: insulance_si(floor),
                outside_film: insulance_si(0.04),
            },
        }
        .transmittance()
        .unwrap()
        .transmittance
        .value;
        let off = numeric / formula - 1.0;
        assert!(off.abs() < tolerance, "half {half} floor {floor}: {numeric} against {formula}");
    }
}

fn crawl_wall() -> WallGround {
    WallGround {
        half_width: m(4.0),
        depth: m(0.6),
        height: m(0.4),
        wall_thickness: m(0.2),
        insulation_thickness: m(0.038),
        insulation_conductivity: lambda(0.024),
        bare_band: m(0.1),
        ..level_slab(4.0, 0.0)
    }
}

// The same section by quadratic finite elements (scikit-fem, tests/reference/physics/wall_section.py).
#[test]
fn wall_section_agrees_with_finite_elements() {
    let got = crawl_wall().solve().unwrap();
    let mut table =
        csv::Reader::from_path(concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/reference/physics/wall_section.csv"))
            .unwrap();
    let rows: Vec<(String, f64)> = table.deserialize().map(|r| r.unwrap()).collect();
    let want = |name: &str| rows.iter().find(|row| row.0 == name).unwrap().1;
    let heat = got.heat_from[INSIDE].value;
    assert!((heat / want("heat_from_inside_w_m") - 1.0).abs() < 0.005, "{heat}");
    for (name, x, y) in [
        ("band_c", -0.2, 0.35),
        ("board_at_grade_c", -0.238, 0.0),
        ("floor_two_metres_in_c", -2.2, -0.6),
        ("outer_face_c", 0.0, 0.2),
    ] {
        let t = to_celsius(got.temperature_at(m(x), m(y)).unwrap());
        assert!((t - want(name)).abs() < 0.05, "{name}: {t} not {}", want(name));
    }
}

// Halving every cell changes the loss by less than 0.5 %, and heat in equals heat out.
#[test]
fn wall_section_is_fine_enough() {
    let wall = crawl_wall();
    let section = wall.section().unwrap();
    let base = default_fineness(wall.half_width);
    let coarse = solve(&section, &base).unwrap();
    let half = Fineness {
        finest: base.finest * 0.5,
        coarsest: base.coarsest * 0.5,
        growth: Ratio::new::<ratio::ratio>(base.growth.value.sqrt()),
    };
    let fine = solve(&section, &half).unwrap();
    let change = coarse.heat_from[INSIDE].value / fine.heat_from[INSIDE].value - 1.0;
    assert!(fine.cells > 3 * coarse.cells);
    assert!(change.abs() < 0.005, "{change}");
    let sum = coarse.heat_from[INSIDE].value + coarse.heat_from[OUTSIDE].value;
    assert!(sum.abs() < 1e-6 * coarse.heat_from[INSIDE].value.abs());
}

// The bare band at the top of the wall is the coldest surface of the wall.
#[test]
fn bare_band_is_the_cold_spot() {
    let wall = crawl_wall();
    let got = wall.solve().unwrap();
    let inner = -0.2;
    let band = got.coldest_within(INSIDE, m(inner - 0.001), m(inner + 0.001), m(0.3), m(0.4)).unwrap();
    let board = got.coldest_within(INSIDE, m(inner - 0.039), m(inner - 0.037), m(-0.4), m(0.25)).unwrap();
    assert!(band < board);
    let band_heat = got.heat_between(INSIDE, m(0.3), m(0.4)).unwrap();
    assert!(band_heat.value > 0.2 * got.heat_upright[INSIDE].value);
    // Without the band the loss falls.
    let covered = WallGround { bare_band: m(0.0), ..wall }.solve().unwrap();
    assert!(covered.heat_from[INSIDE] < got.heat_from[INSIDE]);
}

#[test]
fn impossible_sections_are_refused() {
    let wall = crawl_wall();
    assert!(WallGround { bare_band: m(1.2), ..wall }.solve().is_err());
    assert!(WallGround { soil_conductivity: lambda(0.0), ..wall }.solve().is_err());
    assert!(WallGround { half_width: m(f64::NAN), ..wall }.solve().is_err());
    let empty = Section {
        rectangles: vec![paint([0.0, 1.0], [0.0, 1.0], Fill::Air(0))],
        environments: vec![air(0.0, 0.1)],
        left: Side::Adiabatic,
        right: Side::Adiabatic,
        bottom: Side::Adiabatic,
        top: Side::Adiabatic,
    };
    assert!(solve(&empty, &fineness(0.1, 0.1, 1.0)).is_err());
}
