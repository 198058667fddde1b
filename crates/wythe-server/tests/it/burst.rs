//! Order: a burst of changes and requests gives what a patient client gets, and what was typed leaves no trace.

use rand::{Rng as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;
use serde_json::{Value, json};

use crate::client::{Client, Plans, at_byte, run};

const HOUSE: &str = "houses/unit_4.wythe";

/// A hand that types: edits of a text, each told as a client tells it.
struct Hand {
    text: String,
    rng: ChaCha8Rng,
}

impl Hand {
    fn new(text: &str, seed: u64) -> Hand {
        Hand { text: text.to_owned(), rng: ChaCha8Rng::seed_from_u64(seed) }
    }

    fn place(&mut self) -> usize {
        let mut at = self.rng.random_range(0..=self.text.len());
        while !self.text.is_char_boundary(at) {
            at -= 1;
        }
        at
    }

    /// The next edit, made and told.
    fn edit(&mut self) -> Value {
        const PIECES: [&str; 20] = [
            "3' 4\"",
            " ",
            "\n",
            "wall ",
            "{",
            "}",
            "(",
            ")",
            "\"",
            "set board from top to ground\n",
            "gap",
            ": ",
            "½",
            "😀",
            "let a = 2 * 3'\n",
            "// x\n",
            "pub ",
            "R-10",
            ".",
            "",
        ];
        let start = self.place();
        let mut end = (start + self.rng.random_range(0..12)).min(self.text.len());
        while !self.text.is_char_boundary(end) {
            end += 1;
        }
        let piece = PIECES[self.rng.random_range(0..PIECES.len())];
        let range = json!({ "start": at_byte(&self.text, start), "end": at_byte(&self.text, end) });
        self.text.replace_range(start..end, piece);
        json!([{ "range": range, "text": piece }])
    }

    /// Half of the edits are taken back at once, so that the text stays much of a house.
    fn edit_and_back(&mut self) -> Vec<Value> {
        let before = self.text.clone();
        let edit = self.edit();
        if self.rng.random_range(0..10) < 9 {
            self.text = before.clone();
            return vec![edit, json!([{ "text": before }])];
        }
        vec![edit]
    }
}

/// What is asked after an edit.
fn question(hand: &mut Hand, url: &str) -> (&'static str, Value) {
    let at = hand.place();
    let place = json!({ "textDocument": { "uri": url }, "position": at_byte(&hand.text, at) });
    let file = json!({ "textDocument": { "uri": url } });
    match hand.rng.random_range(0..6) {
        0 => ("textDocument/hover", place),
        1 => ("textDocument/completion", place),
        2 => ("textDocument/definition", place),
        3 => ("textDocument/documentSymbol", file),
        4 => ("textDocument/foldingRange", file),
        _ => ("textDocument/diagnostic", file),
    }
}

async fn session(plans: &Plans, patient: bool, steps: usize) -> (Vec<Value>, Value) {
    let mut client = Client::in_folder(&plans.root()).await;
    let url = plans.url(HOUSE);
    let mut hand = Hand::new(&plans.text(HOUSE), 7);
    client.open(&url, 0, &hand.text).await;
    let (mut ids, mut answers) = (Vec::new(), Vec::new());
    let mut version = 0;
    for step in 0..steps {
        for edit in hand.edit_and_back() {
            version += 1;
            client.change(&url, version, edit).await;
        }
        if step % 10 == 0 {
            let (method, params) = question(&mut hand, &url);
            let id = client.post(method, params).await;
            if patient {
                answers.push(client.answer(id).await["result"].clone());
            } else {
                ids.push(id);
            }
        }
    }
    for id in ids {
        answers.push(client.answer(id).await["result"].clone());
    }
    let found = client.found(&url).await;
    client.listen().await;
    assert_eq!(client.published[&url], found, "what was sent is what is found");
    client.leave().await;
    (answers, found)
}

#[test]
fn a_burst_of_a_thousand_changes_is_a_patient_session() {
    run(async {
        let plans = Plans::copy();
        let patient = session(&plans, true, 550).await;
        let hasty = session(&plans, false, 550).await;
        assert_eq!(patient.0.len(), 55);
        for (a, b) in patient.0.iter().zip(&hasty.0) {
            assert_eq!(a, b);
        }
        assert_eq!(patient.1, hasty.1);
    });
}

#[test]
fn ten_thousand_edits_leave_what_a_fresh_start_finds() {
    run(async {
        let plans = Plans::copy();
        let mut client = Client::in_folder(&plans.root()).await;
        let names = [HOUSE, "library/closed_crawl.wythe", "library/phases.wythe"];
        let mut hands = Vec::new();
        for (n, name) in names.iter().enumerate() {
            let hand = Hand::new(&plans.text(name), n as u64);
            client.open(&plans.url(name), 0, &hand.text).await;
            hands.push(hand);
        }
        let mut version = 0;
        for round in 0..4 {
            for step in 0..1250 {
                let n = (step / 50) % 3;
                for edit in hands[n].edit_and_back() {
                    version += 1;
                    client.change(&plans.url(names[n]), version, edit).await;
                }
                if step % 50 == 0 {
                    client
                        .request("textDocument/foldingRange", json!({ "textDocument": { "uri": plans.url(HOUSE) } }))
                        .await;
                }
            }
            let mut fresh = Client::in_folder(&plans.root()).await;
            for (name, hand) in names.iter().zip(&hands) {
                fresh.open(&plans.url(name), 0, &hand.text).await;
            }
            for name in names.iter().copied().chain(["houses/unit_1.wythe", "houses/units_test.wythe"]) {
                let url = plans.url(name);
                assert_eq!(client.found(&url).await, fresh.found(&url).await, "{name} after round {round}");
            }
            fresh.leave().await;
        }
        assert!(version >= 9_000, "{version} changes");
        client.leave().await;
    });
}
