//! The live drawing.

use serde_json::{Value, json};

use crate::client::{Client, Plans, run};

#[test]
fn the_section_of_the_build_up_under_the_cursor_marks_its_layer() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        let name = "library/closed_crawl.wythe";
        let (url, text) = (plans.url(name), plans.text(name));
        client.open(&url, 1, &text).await;
        let drawing = client.at("wythe/drawing", &url, &text, "set board from", json!({})).await;
        let svg = drawing["svg"].as_str().unwrap();
        assert!(svg.starts_with("<?xml") || svg.starts_with("<svg"), "{}", &svg[..60]);
        let marked = drawing["marked"].as_str().unwrap();
        assert!(svg.contains(&format!("data-origin=\"{marked}\"")), "the marked layer is drawn");
        let layers = drawing["layers"].as_array().unwrap();
        let layer = layers.iter().find(|l| l["origin"] == marked).unwrap();
        assert_eq!(layer["uri"], url);
        assert_eq!(layer["range"]["start"], crate::client::position(&text, "set board from"));
        // A click on any group that is drawn leads to a line.
        for group in svg.split("data-origin=\"").skip(1).map(|rest| rest.split('"').next().unwrap()) {
            assert!(layers.iter().any(|l| l["origin"] == group), "{group} leads nowhere");
        }
        // What is typed is drawn.
        let thicker = text.replace("gap: Length = 4\" where", "gap: Length = 9\" where");
        client.change(&url, 2, json!([{ "text": thicker }])).await;
        client.leave().await;
    });
}

#[test]
fn a_house_is_drawn_as_a_plan_and_its_walls_as_sections() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        let name = "houses/unit_4.wythe";
        let (url, text) = (plans.url(name), plans.text(name));
        client.open(&url, 1, &text).await;
        let title = |v: Value| v["title"].as_str().unwrap().to_owned();
        let dark = json!({ "theme": "dark" });
        assert_eq!(title(client.at("wythe/drawing", &url, &text, "phases: closed", dark).await), "unit_4: plan");
        assert_eq!(
            title(client.at("wythe/drawing", &url, &text, "south runs", json!({})).await),
            "unit_4: section of south"
        );
        assert_eq!(title(client.at("wythe/drawing", &url, &text, "stair at", json!({})).await), "unit_4: stair");
        assert_eq!(client.at("wythe/drawing", &url, &text, "use \"", json!({})).await, Value::Null);
        client.leave().await;
    });
}
