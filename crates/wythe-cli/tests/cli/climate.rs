//! `wythe heat` and `wythe moisture`, on a small closed house with a mild and damp year.

use crate::plans::Plans;

const HOUSE: &str = "\
pub product block: Masonry { thickness: 7-5/8\"; resistance: R-1.04; permeance: 2.4 perm; source: \"invented\" }
pub product board: Board { thickness: 2\"; resistance: R-11.9 +- R-0.7; permeance: 0.04 perm; controls: [heat] }
pub product liner: Membrane { thickness: 12 mil; permeance: 0.03 perm; size: 12' x 100' }
pub product tape: Tape { width: 4\" }
pub buildup stem for wall {
    structure: block
    inside { set board from top - 4\" to ground }
}
pub buildup cover for ground {
    face { lay liner by 12\"; tape tape over laps of liner }
}
site lot { climate_zone: zone_4a; soil { conductivity: 0.8 .. 2.0 W per m K }; climate: monthly(\"here.csv\") }
pub foundation small on lot {
    walls {
        build: stem
        top: datum; grade: datum - 8\"; ground: datum - 32\"; footing: datum - 40\"
        wall south runs east 30'
        wall east runs north 20'
        wall north runs west 30'
        wall west runs south 20'
    }
    ground { build: cover; outlet: true }
    conditioning { supply_air: 15 cfm; return_path: true }
}
";

fn months() -> String {
    let rows = (1..=12).map(|m| {
        let t = 12.0 - 9.0 * (std::f64::consts::TAU * (f64::from(m) - 1.0) / 12.0).cos();
        format!("{m},{t:.1},75\n")
    });
    format!("month,temperature_c,relative_humidity_pct\n{}", rows.collect::<String>())
}

fn plans() -> Plans {
    let plans = Plans::new(&[("small.wythe", HOUSE)]);
    plans.write("here.csv", months());
    plans
}

fn json(text: &str) -> serde_json::Value {
    serde_json::from_str(text).unwrap()
}

#[test]
fn heat_as_text_and_json() {
    let plans = plans();
    let text = plans.run(&["heat", "small", "--repository", "."]);
    assert_eq!(text.code, 0, "{}", text.err);
    for part in
        ["heated basement, ISO 13370 7.3", "R-11.90", "bare band of south", "sill plate", "assumed", "No structure"]
    {
        assert!(text.out.contains(part), "no `{part}` in\n{}", text.out);
    }
    let run = plans.run(&["heat", "small.wythe", "--format", "json"]);
    let json = json(&run.out);
    assert_eq!(json["kind"], "heat");
    // The inside of 30 x 20 ft in 7-5/8 in block: 344.75 x 224.75 in.
    let floor =
        json["parts"].as_array().unwrap().iter().find(|p| p["part"].as_str().unwrap().contains("floor")).unwrap();
    let square_meters = 344.75 * 224.75 * 0.0254 * 0.0254;
    assert!((floor["area"]["si"].as_f64().unwrap() - square_meters).abs() < 1e-6);
    assert_eq!(json["walls"].as_array().unwrap().len(), 4);
    let soil = json["ground"][0]["soil"].as_str().unwrap();
    assert!(soil.contains(" to "), "{soil}");
}

#[test]
fn moisture_by_month_hour_and_range() {
    let plans = plans();
    let csv = plans.run(&["moisture", "small", "--start", "2026-05-01", "--format", "csv"]);
    assert_eq!(csv.code, 0, "{}", csv.err);
    // Three states of twelve months under the head.
    assert_eq!(csv.out.lines().count(), 37, "{}", csv.out);
    let hours = plans.run(&["moisture", "small", "--start", "2026-05-01", "--hours", "--format", "csv"]);
    assert_eq!(hours.out.lines().count(), 1 + 3 * 8760);
    let asked =
        ["moisture", "small", "--range", "--samples", "8", "--seed", "3", "--start", "2026-05-01", "--format", "json"];
    let (first, again) = (plans.run(&asked), plans.run(&asked));
    assert_eq!((first.code, &first.out), (0, &again.out));
    let json = json(&first.out);
    assert_eq!(json["closing"].as_array().unwrap().len(), 1);
    let wood = json["ranges"].as_array().unwrap().iter().find(|r| r["outcome"] == "highest wood moisture").unwrap();
    let at = |key: &str| wood[key].as_f64().unwrap();
    assert!(at("p05") <= at("p50") && at("p50") <= at("p95"));
    assert!(json["varied"].as_array().unwrap().iter().any(|v| v["input"] == "soil conductivity"));
}

#[test]
fn weather_at_fault_is_told_with_its_line() {
    let plans = plans();
    plans.write("here.csv", months().replacen(",75\n", ",175\n", 1));
    let run = plans.run(&["moisture", "small"]);
    assert_eq!(run.code, 1);
    assert!(run.out.contains("W0702") && run.out.contains("here.csv:2"), "{}", run.out);
    plans.write("small.wythe", HOUSE.replace("; climate: monthly(\"here.csv\")", ""));
    let run = plans.run(&["moisture", "small"]);
    assert!(run.code == 1 && run.out.contains("W0700"), "{}", run.out);
    // Heat does without weather.
    let run = plans.run(&["heat", "small"]);
    assert!(run.code == 0 && !run.out.contains("bare band of south"), "{}", run.out);
}

fn follows(schema: &str, document: &serde_json::Value) {
    let schema: serde_json::Value = serde_json::from_str(schema).unwrap();
    let validator = jsonschema::validator_for(&schema).unwrap();
    let faults: Vec<_> = validator.iter_errors(document).map(|e| format!("{}: {e}", e.instance_path)).collect();
    assert_eq!(faults, [""; 0]);
    // Strict enough to refuse a figure that is none, and a field it does not know.
    let table = document["parts"].as_array().map_or("months", |_| "parts");
    let mut wrong = document.clone();
    let row = wrong[table][0].as_object_mut().unwrap();
    row.values_mut().filter(|v| v.is_object()).for_each(|v| v["si"] = serde_json::Value::Null);
    assert!(!validator.is_valid(&wrong));
    let mut wrong = document.clone();
    wrong[table][0]["more"] = 1.into();
    assert!(!validator.is_valid(&wrong));
}

#[test]
fn json_of_heat_and_moisture_follows_its_schema() {
    let plans = plans();
    let heat = json(&plans.run(&["heat", "small", "--format", "json"]).out);
    follows(include_str!("../../../../spec/schema/heat.schema.json"), &heat);
    let asked = ["moisture", "small", "--hours", "--range", "--samples", "3", "--format", "json"];
    let moisture = json(&plans.run(&asked).out);
    follows(include_str!("../../../../spec/schema/moisture.schema.json"), &moisture);
    assert!(moisture["states"][1]["sill_mold"].as_f64().unwrap() < 1.0);
    // Without the hours, on a vented house, and where a house has no weather, the form is the same.
    plans.write(
        "small.wythe",
        HOUSE.replace("foundation small on lot {", "foundation small on lot {\n    space: vented"),
    );
    let vented = json(&plans.run(&["moisture", "small", "--format", "json"]).out);
    follows(include_str!("../../../../spec/schema/moisture.schema.json"), &vented);
    plans.write("small.wythe", HOUSE.replace("; climate: monthly(\"here.csv\")", ""));
    let heat = json(&plans.run(&["heat", "small", "--format", "json"]).out);
    follows(include_str!("../../../../spec/schema/heat.schema.json"), &heat);
}

// The CSV of months and hours is for plots: figures bare, the unit in the header.
#[test]
fn csv_for_plots_has_bare_figures() {
    let plans = plans();
    let run = plans.run(&["moisture", "small", "--format", "csv"]);
    let mut lines = run.out.lines();
    let head: Vec<&str> = lines.next().unwrap().split(',').collect();
    assert!(head.contains(&"air (degF)") && head.contains(&"humidity (%)") && head.contains(&"mold"), "{head:?}");
    let air = head.iter().position(|h| *h == "air (degF)").unwrap();
    for line in lines {
        let figure: f64 = line.split(',').nth(air).unwrap().parse().unwrap();
        assert!((-20.0..120.0).contains(&figure), "{line}");
    }
}

// What stands first says how wet it gets, that the balances close, and when it may be closed.
#[test]
fn moisture_begins_with_what_matters() {
    let plans = plans();
    let run = plans.run(&["moisture", "small", "--start", "2026-05-01"]);
    let first: String = run.out.lines().take(14).collect::<Vec<_>>().join(" ");
    for part in ["framing reaches", "balances of heat and water close", "safe to close, framing up May 1"] {
        assert!(first.contains(part), "no `{part}` in\n{}", run.out);
    }
}

// Altitude thins the air, and the pressure it gives is told among what was assumed.
#[test]
fn pressure_follows_from_the_altitude() {
    let plans = plans();
    assert!(plans.run(&["moisture", "small"]).out.contains("1013 hPa of sea level: the site states no altitude"));
    plans.write("small.wythe", HOUSE.replace("; climate:", "; altitude: 5280'; climate:"));
    let run = plans.run(&["moisture", "small"]);
    // The standard atmosphere at 1609 m: 101325 · (1 − 2.25577e−5 · 1609.344)^5.2559 = 83 428 Pa.
    assert!(run.out.contains("834 hPa at 1609 m above the sea"), "{}", run.out);
    plans.write("small.wythe", HOUSE.replace("; climate:", "; altitude: 90000'; climate:"));
    let run = plans.run(&["moisture", "small"]);
    assert!(run.code == 1 && run.out.contains("W0702"), "{}", run.out);
}
