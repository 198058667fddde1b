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

// What a rule asks of a year of hours is worked out once: not again after an edit that moves the house within its file,
// and again after one that changes its space or its weather.
#[test]
fn an_unchanged_house_is_not_worked_out_again() {
    let mut project = project(CLIMATE, RULE, Some(&months(0.0)));
    assert_eq!(project.moisture_runs(), 1);
    let text = house(CLIMATE, RULE);
    project.set_text(path("houses/small.wythe"), format!("// A note over all.\n\n{text}"));
    project.check_affected();
    assert_eq!(project.moisture_runs(), 1);
    project.set_text(path("houses/small.wythe"), text.replace("15 cfm", "18 cfm"));
    project.check_affected();
    assert_eq!(project.moisture_runs(), 2);
    project.set_text(path("weather/here.csv"), months(1.0));
    project.check_affected();
    assert_eq!(project.moisture_runs(), 3);
    assert_eq!(told(&project), [], "{:?}", project.findings());
}

const MAPPED: &str = "; altitude: 2400'; climate: hourly(\"../weather/here.csv\", WeatherColumns(time: \"valid\", \
                      temperature: \"tmpf\", temperature_unit: fahrenheit, dew_point: \"dwpf\", \
                      dew_point_unit: fahrenheit, wind: \"sknt\", wind_unit: knot))";

/// A year of hours as some station might write it, each line through an edit.
fn hours(edit: impl Fn(usize, String) -> Option<String>) -> String {
    let days = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
    let mut out = String::from("valid,tmpf,dwpf,sknt\n");
    let mut n = 0;
    for (month, days) in (1..).zip(days) {
        for (day, hour) in (1..=days).flat_map(|day| (0..24).map(move |hour| (day, hour))) {
            let t = 54.0 - 17.0 * (std::f64::consts::TAU * f64::from(n) / 8760.0).cos();
            let line = format!("2013-{month:02}-{day:02} {hour:02}:00,{t:.1},{:.1},6\n", t - 9.0);
            n += 1;
            out.extend(edit(n as usize + 1, line));
        }
    }
    out
}

// An hourly CSV of no known format is read by the columns that the site names, and each fault of it is told with the
// line: a value that cannot be, hours that lack, a column that is not there.
#[test]
fn an_hourly_file_is_read_by_the_columns_named() {
    assert_eq!(told(&project(MAPPED, RULE, Some(&hours(|_, line| Some(line))))), []);
    let faults = |csv: &str| {
        let project = project(MAPPED, RULE, Some(csv));
        let found = project.findings().into_iter().find(|f| f.name.as_str() == "weather_faulty").expect("a fault");
        format!("{} {}", found.title, found.cause.unwrap_or_default())
    };
    let hot = faults(&hours(|n, line| Some(if n == 700 { line.replace(":00,", ":00,2") } else { line })));
    assert!(hot.contains("weather/here.csv:700:") && hot.contains("temperature is"), "{hot}");
    let gap = faults(&hours(|n, line| (!(800..820).contains(&n)).then_some(line)));
    assert!(gap.contains("weather/here.csv:799:") && gap.contains("20 hours are missing"), "{gap}");
    let stamp = faults(&hours(|n, line| Some(if n == 9 { line.replace(":00,", ":20,") } else { line })));
    assert!(stamp.contains("weather/here.csv:9:") && stamp.contains("full hour"), "{stamp}");
    let column = faults(&hours(|_, line| Some(line)).replace("tmpf", "temp"));
    assert!(column.contains("weather/here.csv:1: has no column tmpf"), "{column}");
    let celsius = faults(&hours(|_, line| Some(line)).lines().fold(String::new(), |out, line| {
        let cold = line.split(',').map(|f| f.parse::<f64>().map_or(f.to_owned(), |v| format!("{:.1}", v / 9.0 - 6.0)));
        out + &cold.collect::<Vec<_>>().join(",") + "\n"
    }));
    assert!(celsius.contains("°C read as °F") || celsius.contains("outside"), "{celsius}");
}

#[test]
fn a_mapping_says_enough_or_is_told() {
    let names = |climate: &str| {
        let project = project(climate, RULE, Some(&hours(|_, line| Some(line))));
        project.findings().into_iter().map(|f| (f.name.as_str(), f.title)).collect::<Vec<_>>()
    };
    let dry = names(&MAPPED.replace("dew_point: \"dwpf\", ", ""));
    assert!(dry.iter().any(|(n, t)| *n == "missing_argument" && t.contains("`dew_point`")), "{dry:?}");
    let timeless = names(&MAPPED.replace("time: \"valid\"", "month: \"valid\""));
    assert!(timeless.iter().any(|(n, t)| *n == "missing_argument" && t.contains("`time`")), "{timeless:?}");
    let first = names(&MAPPED.replace("time: \"valid\"", "time: \"valid\", first_hour: 2"));
    assert!(first.iter().any(|(n, _)| *n == "impossible_value"), "{first:?}");
    let unit = names(&MAPPED.replace("wind_unit: knot", "wind_unit: furlong"));
    assert!(unit.iter().any(|(n, _)| *n == "unknown_name" || *n == "unknown_member"), "{unit:?}");
}

// Months may stand in the site itself. They give what a file with the same figures gives, and their faults are told there.
#[test]
fn months_may_be_stated_in_place() {
    let list = |f: &dyn Fn(f64) -> String| (1..=12).map(|m| f(f64::from(m))).collect::<Vec<_>>().join(", ");
    let t = |m: f64| 12.0 - 9.0 * (std::f64::consts::TAU * (m - 1.0) / 12.0).cos();
    let temperatures = list(&|m| format!("{:.1} °C", t(m)));
    let humidities = list(&|_| "75 %".to_owned());
    let site = |t: &str, h: &str| format!("; climate: normals(temperature: [{t}], relative_humidity: [{h}])");
    let strict = RULE.replace("mold_index < 1", "peak_humidity < 20 %");
    let stated = told(&project(&site(&temperatures, &humidities), &strict, None));
    assert_eq!(stated, told(&project(CLIMATE, &strict, Some(&months(0.0)))));
    let short = told(&project(&site("9 °C", &humidities), RULE, None));
    assert!(short.iter().any(|(n, t)| *n == "weather_faulty" && t.contains("temperature has 1 values")), "{short:?}");
    let damp = told(&project(&site(&temperatures, &humidities.replacen("75", "130", 1)), RULE, None));
    assert!(damp.iter().any(|(n, t)| *n == "weather_faulty" && t.contains("relative humidity is 130")), "{damp:?}");
}

// The mold index of the sill plate is a value like others.
#[test]
fn a_rule_may_ask_for_the_sill_plate() {
    let rule = |limit: &str| {
        format!(
            "rule dry {{\n title: \"the sill stays clean\"\n require mold_index(sill_plate) {limit}\n \
             otherwise \"the sill reaches {{mold_index(sill_plate)}}\"\n}}"
        )
    };
    assert_eq!(told(&project(CLIMATE, &rule("< 1"), Some(&months(0.0)))), []);
    let wet = told(&project(CLIMATE, &rule("> 5"), Some(&months(0.0))));
    assert!(wet.len() == 1 && wet[0].1.contains("the sill reaches 0"), "{wet:?}");
}
