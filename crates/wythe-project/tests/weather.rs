//! Weather that rules and tests ask for: read from inside the repository, once, and again when it changes.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use wythe_project::{Memory, Project, SourcePath};

fn path(text: &str) -> SourcePath {
    SourcePath::resolve(&SourcePath::root(), text).unwrap()
}

const PRODUCTS: &str = "\
pub product block: Masonry { thickness: 7-5/8\"; resistance: R-1.04; permeance: 2.4 perm }
pub product board: Board { thickness: 2\"; resistance: R-11.9; permeance: 0.04 perm; controls: [heat] }
pub product liner: Membrane { thickness: 12 mil; permeance: 0.03 perm; size: 12' x 100' }
pub product tape: Tape { width: 4\" }
pub buildup stem for wall {
    structure: block
    inside { set board from top - 4\" to ground }
}
pub buildup cover for ground {
    face { lay liner by 12\"; tape tape over laps of liner }
}
";

fn house(climate: &str, rule: &str) -> String {
    format!(
        "use \"../products.wythe\": stem, cover
site lot {{ climate_zone: zone_4a {climate} }}
{rule}
foundation small on lot {{
    walls {{
        build: stem
        top: datum; grade: datum - 8\"; ground: datum - 32\"; footing: datum - 40\"
        wall south runs east 30'
        wall east runs north 20'
        wall north runs west 30'
        wall west runs south 20'
    }}
    ground {{ build: cover; outlet: true }}
    conditioning {{ supply_air: 15 cfm; return_path: true }}
}}
"
    )
}

const RULE: &str = "rule dry {
    title: \"framing stays clean and dry\"
    require in_service.mold_index < 1 and in_service.wood_moisture < 19 % and in_service.condensation < 10 h
    otherwise \"mold index {in_service.mold_index}, most humid day {in_service.peak_humidity}\"
}";

/// Months of a mild and damp place, warmer by so many °C.
fn months(warmer: f64) -> String {
    let rows = (1..=12).map(|m| {
        let t = 12.0 + warmer - 9.0 * (std::f64::consts::TAU * (f64::from(m) - 1.0) / 12.0).cos();
        format!("{m},{t:.1},75\n")
    });
    format!("month,temperature_c,relative_humidity_pct\n{}", rows.collect::<String>())
}

fn project(climate: &str, rule: &str, csv: Option<&str>) -> Project {
    let memory = Memory::new([("products.wythe", PRODUCTS)]);
    let mut memory = memory;
    memory.put(path("wythe.toml"), b"edition = 2026\n".to_vec());
    memory.put(path("houses/small.wythe"), house(climate, rule).into_bytes());
    if let Some(csv) = csv {
        memory.put(path("weather/here.csv"), csv.as_bytes().to_vec());
    }
    let mut project = Project::open(memory);
    project.add(path("houses/small.wythe"));
    project.check_affected();
    project
}

/// The names of findings of rules and of weather.
fn told(project: &Project) -> Vec<(&'static str, String)> {
    let names = ["dry", "weather_missing", "weather_unreadable", "weather_faulty", "rule_failed_to_run"];
    let all = project.findings().into_iter().map(|f| (f.name.as_str(), f.title));
    all.filter(|(name, _)| names.contains(name)).collect()
}

const CLIMATE: &str = "; climate: monthly(\"../weather/here.csv\")";

#[test]
fn a_rule_on_moisture_holds_for_a_closed_house() {
    let project = project(CLIMATE, RULE, Some(&months(0.0)));
    assert_eq!(told(&project), [], "{:?}", project.findings());
}

#[test]
fn a_rule_on_moisture_tells_what_it_found() {
    let strict = RULE.replace("mold_index < 1", "peak_humidity < 20 %");
    let project = project(CLIMATE, &strict, Some(&months(0.0)));
    let told = told(&project);
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(told[0].0 == "dry" && told[0].1.contains("mold index 0"), "{told:?}");
}

#[test]
fn weather_is_asked_for_by_rules_alone() {
    assert_eq!(told(&project("", "", None)), []);
    assert_eq!(told(&project(CLIMATE, "", None)), []);
}

#[test]
fn weather_that_fails_is_told_where_it_is_named() {
    let told_of = |climate: &str, csv: Option<&str>| told(&project(climate, RULE, csv));
    let names = |told: &[(&'static str, String)]| told.iter().map(|(name, _)| *name).collect::<Vec<_>>();
    assert!(names(&told_of("", None)).contains(&"weather_missing"));
    assert!(names(&told_of(CLIMATE, None)).contains(&"weather_unreadable"));
    assert!(names(&told_of("; climate: monthly(\"../../out.csv\")", None)).contains(&"weather_unreadable"));
    let damp = months(0.0).replace(",75\n", ",175\n");
    let told = told_of(CLIMATE, Some(&damp));
    assert!(names(&told).contains(&"weather_faulty"), "{told:?}");
}

#[test]
fn a_changed_weather_file_is_read_again() {
    let mut project = project(CLIMATE, RULE, Some("month\n"));
    assert!(told(&project).iter().any(|(name, _)| *name == "weather_faulty"));
    project.set_text(path("weather/here.csv"), months(0.0));
    project.check_affected();
    assert!(told(&project).iter().all(|(name, _)| *name != "weather_faulty"), "{:?}", told(&project));
}
