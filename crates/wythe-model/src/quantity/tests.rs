//! Quantities against the hand calculations in `tests/hand`, and bands against the same walls by hand.

use std::collections::BTreeMap;
use std::sync::Arc;

use uom::si::angle::degree;
use uom::si::area::square_inch;
use uom::si::f64::{Angle, Length};
use uom::si::heat_transfer::watt_per_square_meter_kelvin;
use uom::si::length::inch;
use uom::si::volume::cubic_meter;

use super::*;
use crate::fixture::{ft_in, levels, r_value, rectangle_of, unit_4};
use crate::geometry::{Basis, walk};
use crate::{AssemblyId, Interval, MeasuredFace, OpeningKind, Point, Stretch};

type Key = (String, String, usize, String);

fn role_word(role: Role) -> &'static str {
    match role {
        Role::Surface => "surface",
        Role::Tail => "tail",
        Role::TurnUp => "turn_up",
        Role::Edge => "edge",
        Role::Joints => "joints",
        Role::Laps => "laps",
        Role::Heads => "heads",
        Role::Fasteners => "fasteners",
        Role::Bead => "bead",
        Role::Pieces => "pieces",
        Role::Removed => "removed",
        Role::Drain => "drain",
        Role::Fill => "fill",
    }
}

fn plain(measure: Measure) -> (f64, &'static str) {
    match measure {
        Measure::Area(a) => (a.get::<square_inch>(), "in2"),
        Measure::Length(l) => (l.get::<inch>(), "in"),
        Measure::Count(n) => (n as f64, "pc"),
        // The library's cubic inch is rounded to seven figures; the definition is exact.
        Measure::Volume(v) => (v.get::<cubic_meter>() / 0.0254_f64.powi(3), "in3"),
    }
}

/// Every line of the hand calculation is found, with its amount, and nothing else is.
fn hold_to_hand(f: &Foundation, hand: &str) {
    let found = quantities(f, Basis::Design);
    assert_eq!(found.unmeasured, [], "all is measured");
    let mut lines: BTreeMap<Key, (f64, &str)> = BTreeMap::new();
    for line in &found.lines {
        let key = (line.element.to_string(), line.face.to_string(), line.work, role_word(line.role).to_owned());
        assert!(lines.insert(key.clone(), plain(line.measure)).is_none(), "{key:?} is counted twice");
        assert!(found.work(f, line).is_some_and(|w| w.origin == line.origin));
    }
    for row in hand.lines().skip(1) {
        let cells: Vec<&str> = row.split(',').collect();
        let key = (cells[0].to_owned(), cells[1].to_owned(), cells[2].parse().unwrap(), cells[3].to_owned());
        let due: f64 = cells[4].parse().unwrap();
        let (amount, unit) = lines.remove(&key).unwrap_or_else(|| panic!("{row}: not found"));
        assert_eq!(unit, cells[5], "{row}");
        assert!((amount - due).abs() < 1e-3, "{row}: found {amount}");
    }
    assert!(lines.is_empty(), "more than by hand: {lines:?}");
}

#[test]
fn unit_4_by_hand() {
    hold_to_hand(&unit_4(), include_str!("../../../../tests/hand/unit_4.csv"));
}

#[test]
fn a_rectangle_by_hand() {
    let f = rectangle_of(ft_in(40.0, 0.0), ft_in(28.0, 0.0), ft_in(0.0, 8.0));
    hold_to_hand(&f, include_str!("../../../../tests/hand/rectangle_28_40.csv"));
}

/// The addition of `tests/hand/addition.md`.
fn addition() -> Foundation {
    let mut f = rectangle_of(ft_in(16.0, 0.0), ft_in(12.0, 0.0), ft_in(0.0, 8.0));
    f.measured = MeasuredFace::Inside;
    let (high, low) = (levels(16.0, 32.0, 40.0), levels(16.0, 48.0, 56.0));
    f.walls.rotate_right(1);
    let legs: Vec<(Angle, Length)> = [(90.0, 144.0), (0.0, 192.0), (270.0, 144.0), (180.0, 192.0)]
        .map(|(b, l)| (Angle::new::<degree>(b), ft_in(0.0, l)))
        .to_vec();
    let starts = walk(&legs, Point::default()).corners;
    let on = ["west", "north", "east", "south"].into_iter().zip([[high, high], [high, low], [low, low], [low, high]]);
    for ((wall, (name, [first, second])), ((bearing, length), start)) in
        f.walls.iter_mut().zip(on).zip(legs.into_iter().zip(starts))
    {
        wall.name = Symbol::new(name);
        (wall.bearing, wall.length, wall.start) = (bearing, length, start);
        let stretch = |from, to, levels| Stretch { from, to, levels, origin: wall.origin };
        wall.stretches = if first == second {
            vec![stretch(Length::default(), length, first)]
        } else {
            vec![stretch(Length::default(), ft_in(8.0, 0.0), first), stretch(ft_in(8.0, 0.0), length, second)]
        };
    }
    let mut pocket = unit_4().openings[0].clone();
    pocket.assembly = None;
    let mut door = pocket.clone();
    door.wall = Some(3);
    door.sill = Some(ft_in(-2.0, 0.0));
    pocket.name = Symbol::new("pocket");
    pocket.kind = OpeningKind::BeamPocket;
    pocket.wall = Some(1);
    pocket.at = ft_in(0.0, 90.0);
    (pocket.width, pocket.height) = (ft_in(1.0, 0.0), ft_in(1.0, 0.0));
    pocket.sill = Some(ft_in(0.0, -16.0));
    f.openings = vec![pocket, door];
    f
}

#[test]
fn an_addition_by_hand() {
    hold_to_hand(&addition(), include_str!("../../../../tests/hand/addition.csv"));
}

#[test]
fn lengths_as_built_reach_the_quantities() {
    let mut f = rectangle_of(ft_in(40.0, 0.0), ft_in(28.0, 0.0), ft_in(0.0, 8.0));
    for wall in [0, 2] {
        f.walls[wall].as_built_length = Some(ft_in(40.0, 2.0));
    }
    let drains = |basis| {
        let lines = quantities(&f, basis).lines;
        lines.iter().filter(|l| l.role == Role::Drain).map(|l| plain(l.measure).0).collect::<Vec<_>>()
    };
    for (found, due) in drains(Basis::AsBuilt).iter().zip([482.0, 336.0, 482.0, 336.0]) {
        assert!((found - due).abs() < 1e-6);
    }
    assert!((drains(Basis::Design)[0] - 480.0).abs() < 1e-6);
}

#[test]
fn totals_add_the_lines_of_each_product() {
    let totals = quantities(&unit_4(), Basis::Design).totals();
    let of = |name: &str| {
        let found: Vec<f64> =
            totals.iter().filter(|t| t.product.as_str() == name).map(|t| plain(t.measure).0).collect();
        assert_eq!(found.len(), 1, "{name}");
        found[0]
    };
    assert!((of("drive_pin") - (150.0 + 42.0)).abs() < 1e-9);
    assert!((of("board_anchor") - 61.0).abs() < 1e-9);
    assert!((of("foil_board_1_5in") - 44836.0).abs() < 1e-6);
    // Outside 72 896, heads 12 668.9375, caps 12 536, pier heads 1792.
    assert!((of("wall_membrane") - (72_896.0 + 12_668.937_5 + 12_536.0 + 1792.0)).abs() < 1e-6);
}

#[test]
fn the_arithmetic_reads_as_words() {
    let found = quantities(&unit_4(), Basis::Design);
    let line = found
        .lines
        .iter()
        .find(|l| l.element.as_str() == "east" && l.role == Role::Surface && l.face.as_str() == "outside");
    let show = |m| {
        let (amount, unit) = plain(m);
        format!("{amount:.0} {unit}")
    };
    assert_eq!(
        line.unwrap().how.words(show),
        "length 192 in x height 40 in + length 150 in x height 56 in less openings 128 in2"
    );
}

#[test]
fn what_cannot_be_measured_is_listed_with_its_reason() {
    let mut f = unit_4();
    let wall = Arc::make_mut(&mut f.assemblies[0]);
    let inside = &mut wall.faces[2];
    inside.works[4].extent = None;
    let found = quantities(&f, Basis::Design);
    let lacks: Vec<(usize, Lack)> =
        found.unmeasured.iter().filter(|u| u.element.as_str() == "south").map(|u| (u.work, u.lack)).collect();
    assert_eq!(lacks, [4, 5, 6, 7, 8, 9].map(|work| (work, Lack::Extent)), "the board and all that acts on it");
}

#[test]
fn elements_without_an_assembly_have_no_lines() {
    let mut f = unit_4();
    f.walls[0].assembly = None;
    f.piers[0].assembly = Some(AssemblyId(99));
    let found = quantities(&f, Basis::Design);
    assert!(found.of_element(Symbol::new("south")).next().is_none());
    assert!(found.of_element(Symbol::new("p1")).next().is_none());
    assert_eq!(found.unmeasured, []);
}

/// `south` of unit 4 by hand: from the top 4 bare, 12 of board above grade, 16 of board below it.
#[test]
fn bands_of_a_wall() {
    let bands = wall_bands(&unit_4(), 0, Basis::Design);
    let found: Vec<(f64, f64, bool, bool)> =
        bands.iter().map(|b| (b.height().get::<inch>(), b.area.get::<square_inch>(), b.above_grade, b.bare)).collect();
    let due = [(4.0, 1891.0, true, true), (12.0, 5417.0, true, false), (16.0, 7564.0, false, false)];
    assert_eq!(found.len(), due.len());
    for (a, b) in found.iter().zip(due) {
        assert!((a.0 - b.0).abs() < 1e-6 && (a.1 - b.1).abs() < 1e-6 && a.2 == b.2 && a.3 == b.3, "{a:?} {b:?}");
    }
    assert!((bare_band(&bands).unwrap().get::<inch>() - 4.0).abs() < 1e-6);
    let names: Vec<&str> = bands[1].layers.iter().map(|(n, _)| n.as_str()).collect();
    assert_eq!(names, ["block_8in", "board"]);
    // Area-weighted, with films .68 and .17: board 1.5 in at 0.022 W/(m·K) is; the bare band is.
    let average = wall_average(&bands, Films { inside: r_value(0.68), outside: r_value(0.17) }).unwrap();
    let board = 0.0381 / 0.022 / 0.176_110_2;
    let u = [1.0 / 1.95, 1.0 / (1.95 + board), 1.0 / (1.78 + board)];
    let loss = [1891.0 * u[0], 5417.0 * u[1], 7564.0 * u[2]];
    let total: f64 = loss.iter().sum();
    let found = average.u.get::<watt_per_square_meter_kelvin>() * 0.176_110_2;
    assert!((found - total / 14_872.0).abs() < 1e-9, "{found}");
    assert!((average.loss_shares[0].value - loss[0] / total).abs() < 1e-9);
    assert!(average.loss_shares[0].value > 0.46 && average.loss_shares[0].value < 0.47);
}

/// .17 + 1.11 + 2 in at R-5 an inch + .68 = 11.96, U .08361; below grade without .17.
#[test]
fn a_band_of_2_in_board_with_films() {
    let mut f = unit_4();
    let wall = Arc::make_mut(&mut f.assemblies[0]);
    Arc::make_mut(wall.structure.as_mut().unwrap()).resistance = Some(Interval::exact(r_value(1.11)));
    let board = wall.faces[2].works[4].product.as_mut().unwrap();
    Arc::make_mut(board).resistance = Some(Interval::exact(r_value(10.0)));
    let bands = wall_bands(&f, 0, Basis::Design);
    let average = wall_average(&bands, Films { inside: r_value(0.68), outside: r_value(0.17) }).unwrap();
    let us = |i: usize| average.band_u[i].get::<watt_per_square_meter_kelvin>() * 0.176_110_2;
    assert!((us(1) - 0.083_61).abs() < 5e-6);
    assert!((us(2) - 1.0 / 11.79).abs() < 1e-9);
}

#[test]
fn bands_of_a_stepped_wall_and_of_nothing() {
    let f = unit_4();
    let bands = wall_bands(&f, 1, Basis::Design);
    // Past the step the grade lies at the crawl floor, so no band lies below it there.
    assert_eq!(bands.iter().map(|b| b.above_grade).collect::<Vec<_>>(), [true, true, false, true, true]);
    assert!((bare_band(&bands).unwrap().get::<inch>() - 4.0).abs() < 1e-6);
    assert!(wall_bands(&f, 99, Basis::Design).is_empty() && bare_band(&[]).is_none());
    let none = Films { inside: r_value(0.0), outside: r_value(0.0) };
    assert!(wall_average(&[], none).is_none());
    let mut bare = f.clone();
    bare.walls[0].assembly = None;
    assert!(wall_average(&wall_bands(&bare, 0, Basis::Design), none).is_none());
}
