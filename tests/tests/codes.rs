//! Published tables against the code packs: a house on the figure passes the rule, a house just short of it breaks it.
//!
//! The tables stand in `tests/reference/codes/`, each with its source in the README there.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use std::fs;
use std::path::Path;

use wythe_project::{Memory, Project, SourcePath};

/// The rows of a table under its head, as text.
fn rows(table: &str) -> Vec<Vec<String>> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("reference/codes").join(table);
    let text = fs::read_to_string(path).unwrap();
    let rows: Vec<_> = text.lines().skip(1).map(|l| l.split(',').map(str::to_owned).collect()).collect();
    assert!(!rows.is_empty(), "{table} is empty");
    rows
}

/// A house of two stretches of wall; what differs from case to case is given.
#[derive(Clone)]
struct House {
    pack: String,
    zone: String,
    closed: bool,
    /// The floor on the outside of the masonry, 30 ft deep, in square feet.
    floor: f64,
    board_r: f64,
    ground_perm: Option<f64>,
    opening: String,
    conditioning: String,
    test: String,
}

impl House {
    fn of(pack: impl Into<String>) -> House {
        House {
            pack: pack.into(),
            zone: "zone_4a".into(),
            closed: true,
            floor: 1200.0,
            board_r: 10.0,
            ground_perm: Some(0.03),
            opening: String::new(),
            conditioning: "supply_air: 60 cfm; return_path: true".into(),
            test: String::new(),
        }
    }

    fn text(&self) -> String {
        let ground = match self.ground_perm {
            None => String::new(),
            Some(perm) => format!(
                "product cover_sheet: Membrane {{ permeance: {perm} perm; controls: [vapor, air]; facing: poly }}
buildup cover for ground {{ face {{ lay cover_sheet by 12\"; tape seam over laps of cover_sheet }} }}\n"
            ),
        };
        let build = if self.ground_perm.is_some() { "build: cover; " } else { "" };
        format!(
            "use code {pack}
unit sheet
product block: Masonry {{ thickness: 7-5/8\"; resistance: R-1.1 }}
product seam: Tape {{ facing: poly; controls: [vapor, air] }}
product foam: Board {{ resistance: R-{r}; controls: [heat]; facing: foil; ignition: tested_exposed }}
product anchor: Fastener {{ length: 4\" }}
{ground}buildup stem for wall {{
    structure: block
    inside {{ set foam from top - 4\" to ground; fasten foam with anchor by 6 per sheet }}
}}
site lot {{ climate_zone: {zone}; termite_hazard: slight }}
foundation house on lot {{
    space: {space}
    walls {{
        build: stem; top: datum; grade: datum - 2'; ground: datum - 2'; footing: datum - 4'
        wall south runs east {long}'; wall east runs north 30'; wall north runs west {long}'; wall west runs south 30'
    }}
    {opening}
    ground {{ {build}outlet: true }}
    conditioning {{ {conditioning} }}
    sill {{ gasket: true; rim_insulated: true; rim_sealed: true }}
}}
{test}\n",
            pack = self.pack,
            r = self.board_r,
            zone = self.zone,
            space = if self.closed { "closed" } else { "vented" },
            long = self.floor / 30.0,
            opening = self.opening,
            conditioning = self.conditioning,
            test = self.test,
        )
    }

    /// The names of what is found.
    fn found(&self) -> Vec<String> {
        let text = self.text();
        let mut project = Project::open(Memory::new([("house.wythe", text.as_str())]));
        let file = project.add(SourcePath::resolve(&SourcePath::root(), "house.wythe").unwrap());
        project.check_affected();
        let found: Vec<String> = project.findings_in(file).iter().map(|f| f.name.as_str().to_owned()).collect();
        let broken = ["unexpected_token", "unknown_name", "unknown_pack", "type_mismatch", "unknown_property"];
        assert!(!found.iter().any(|name| broken.contains(&name.as_str())), "{found:?}\n{text}");
        found
    }

    fn breaks(&self, rule: &str) -> bool {
        self.found().iter().any(|name| name == rule)
    }
}

#[test]
fn crawl_walls_by_edition_and_zone() {
    for row in rows("crawl_walls.csv") {
        let due: f64 = row[2].parse().unwrap();
        let house = House { zone: row[1].clone(), ..House::of(format!("us_energy_{}", row[0])) };
        let on = House { board_r: due.max(0.5), ..house.clone() };
        assert!(!on.breaks("crawl_wall_insulation"), "{row:?}");
        if due > 0.0 {
            let short = House { board_r: due - 0.1, ..house };
            assert!(short.breaks("crawl_wall_insulation"), "{row:?}");
        }
    }
}

#[test]
fn ventilation_by_floor_and_cover() {
    for row in rows("ventilation.csv") {
        let due: f64 = row[2].parse().unwrap();
        let vent = |area: f64| House {
            closed: false,
            floor: row[0].parse().unwrap(),
            ground_perm: (row[1] == "yes").then_some(0.03),
            opening: format!("opening v in south at 2' {{ kind: vent; free_area: {area} in2; size: 16\" x 8\" }}"),
            ..House::of("us_residential_2021")
        };
        assert!(!vent(due).breaks("vent_area"), "{row:?}");
        assert!(vent(due - 0.5).breaks("vent_area"), "{row:?}");
    }
}

#[test]
fn retarder_classes_by_permeance() {
    for row in rows("retarder_classes.csv") {
        let house = House {
            ground_perm: Some(row[0].parse().unwrap()),
            test: format!("test \"class\" {{ expect retarder(house.ground.face) == {} }}", row[1]),
            ..House::of("us_residential_2021")
        };
        assert!(!house.breaks("test_failed"), "{row:?}");
        assert_eq!(house.breaks("closed_ground_retarder"), row[1] != "class_i", "{row:?}");
    }
}

#[test]
fn access_through_a_wall() {
    for row in rows("access.csv") {
        let house = House {
            opening: format!(
                "opening hatch in south at 4' {{ kind: access; size: {} in x {} in; sill: ground + 2\" }}",
                row[0], row[1]
            ),
            ..House::of("us_residential_2021")
        };
        assert_eq!(house.breaks("access_size"), row[2] == "no", "{row:?}");
    }
}

#[test]
fn ways_of_conditioning_by_floor() {
    for row in rows("conditioning.csv") {
        let with = |conditioning: String| House {
            floor: row[0].parse().unwrap(),
            conditioning,
            ..House::of("us_residential_2021")
        };
        let (air, water): (f64, f64) = (row[1].parse().unwrap(), row[2].parse().unwrap());
        let rule = "closed_conditioning";
        assert!(!with(format!("supply_air: {air} cfm; return_path: true")).breaks(rule), "{row:?}");
        assert!(with(format!("supply_air: {} cfm; return_path: true", air - 0.1)).breaks(rule), "{row:?}");
        assert!(with(format!("supply_air: {air} cfm")).breaks(rule), "supply without a way back: {row:?}");
        assert!(!with(format!("exhaust: {air} cfm")).breaks(rule), "{row:?}");
        assert!(!with(format!("dehumidifier: {water} pint per day")).breaks(rule), "{row:?}");
        assert!(with(format!("dehumidifier: {} pint per day", water - 0.5)).breaks(rule), "{row:?}");
    }
}
