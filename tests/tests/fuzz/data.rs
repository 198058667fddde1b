//! Damaged tables through the readers of weather and prices, and damaged settings through those of a repository.

use std::panic::catch_unwind;
use std::sync::LazyLock;

use jiff::civil::Date;
use rand::Rng as _;
use rand::seq::IndexedRandom as _;
use rand_chacha::ChaCha8Rng;
use wythe_climate::hourly::GapPolicy;
use wythe_project::{Baseline, Lock, Memory, Project};
use wythe_takeoff::money::Currency;
use wythe_takeoff::price::{CatalogItem, ListRules};

const PRICES: &str = include_str!("../../../examples/cedar_row/prices/upland_2026.csv");
const MONTHS: &str = include_str!("../../../examples/cedar_row/climate/upland_4a.csv");

/// A year of one kind of day in the column order of an EPW file (35 columns, header of 8 lines).
static YEAR: LazyLock<String> = LazyLock::new(|| {
    let mut out = String::from("LOCATION,Upland,,,,,36.1,-80.0,-5.0,270\n");
    out.extend((0..7).map(|n| format!("HEADER {n},1,1,Data,Sunday,1/1,12/31\n")));
    for hour in 0..8760_u32 {
        let (month, day) = (1 + hour / 730 % 12, 1 + hour / 24 % 28);
        out.push_str(&format!("1999,{month},{day},{},60,?9,12.0,6.0,66,98000{}\n", hour % 24 + 1, ",0".repeat(25)));
    }
    out
});

/// The files that say how plans are checked, each with everything it may hold.
const SETTINGS: [&str; 3] = [
    "edition = 2026\nlanguage = \"0.1\"\nsources = [\"houses\"]\nlibraries = [\"library\"]\ncodes = [\"good_practice\"]\n\
     currency = \"USD\"\nunits = \"us\"\ntoday = 2026-04-01\n[library.stock]\npath = \"../stock\"\n\
     [library.rules]\ngit = \"https://a.example/r\"\nrevision = \"v1\"\n[severity]\nlap_short = \"warning\"\n",
    "form = 1\n[[library]]\nname = \"stock\"\npath = \"../stock\"\nhash = \"sha256:00\"\n[library.files]\n\
     \"laps.wythe\" = \"sha256:00\"\n\"../out.wythe\" = \"sha256:00\"\n",
    "form = 1\n[[finding]]\nfile = \"houses/a.wythe\"\nname = \"lap_short\"\nitem = \"a.ground\"\n\
     title = \"the lap is 4 in\"\ncount = 2\nbecause = \"old\"\nwho = \"lead\"\nuntil = 2026-09-30\n",
];

const CELLS: [&str; 20] = [
    "",
    " ",
    "-",
    "NaN",
    "inf",
    "-1e308",
    "1e309",
    "99999999999999999999",
    "-273.16",
    "2026-02-30",
    "\"",
    "\"a,b",
    "½",
    "\0",
    "\u{202e}",
    "13",
    "0",
    "25:00",
    "=1+1",
    "USD",
];

/// Damages a table and reads it by every reader there is.
pub fn run(dice: &mut ChaCha8Rng) -> Result<(), String> {
    // The long table is dear to read, and its lines are all alike.
    let start = match dice.random_range(0..20) {
        0 => YEAR.as_str(),
        1..10 => PRICES,
        _ => MONTHS,
    };
    let mut bytes = damaged(start, dice).into_bytes();
    if dice.random_bool(0.1) && !bytes.is_empty() {
        let at = dice.random_range(0..bytes.len());
        bytes[at] = dice.random();
    }
    let told = |reader: &str| format!("the reader of {reader} broke down\n{}", String::from_utf8_lossy(&bytes));
    for policy in [GapPolicy::Refuse, GapPolicy::Interpolate { longest: 3 }] {
        catch_unwind(|| drop(wythe_climate::epw::read_epw(&bytes, None, policy))).map_err(|_| told("EPW"))?;
        catch_unwind(|| drop(wythe_climate::tmy::read_tmy(&bytes, policy))).map_err(|_| told("TMY"))?;
    }
    catch_unwind(|| drop(wythe_climate::normals::MonthlyNormals::read_csv(&bytes))).map_err(|_| told("months"))?;
    catch_unwind(|| prices(&bytes)).map_err(|_| told("prices"))
}

/// Damages a settings file and reads it as each of them.
pub fn settings(dice: &mut ChaCha8Rng) -> Result<(), String> {
    let mut bytes = SETTINGS.choose(dice).unwrap().as_bytes().to_vec();
    for _ in 0..dice.random_range(1..6) {
        let at = dice.random_range(0..bytes.len());
        let end = (at + dice.random_range(0..24)).min(bytes.len());
        match dice.random_range(0..4) {
            0 => drop(bytes.drain(at..end)),
            1 => drop(bytes.splice(at..at, bytes[at..end].to_vec()).collect::<Vec<_>>()),
            2 => bytes[at] = dice.random(),
            _ => drop(bytes.splice(at..at, CELLS.choose(dice).unwrap().bytes()).collect::<Vec<_>>()),
        }
        if bytes.is_empty() {
            break;
        }
    }
    let text = String::from_utf8_lossy(&bytes);
    let told = |reader: &str| format!("the reader of {reader} broke down\n{text}");
    catch_unwind(|| drop(Lock::read(&text))).map_err(|_| told("lock files"))?;
    catch_unwind(|| drop(Baseline::read(&text))).map_err(|_| told("baselines"))?;
    // As the manifest, and as the lock file beside a manifest that needs one.
    for (manifest, lock) in [(&*text, SETTINGS[1]), (SETTINGS[0], &*text)] {
        let read = || {
            let files =
                [("wythe.toml", manifest), ("wythe.lock", lock), (".libraries/stock/laps.wythe", "let a = 1 in\n")];
            let mut project = Project::open(Memory::new(files));
            project.add_all();
            project.check_affected();
            let text = project.text(Project::MANIFEST).to_owned();
            project
                .findings()
                .iter()
                .all(|f| f.primary.span.file != Project::MANIFEST || text.get(f.primary.span.range()).is_some())
        };
        let inside = catch_unwind(read).map_err(|_| told("manifests"))?;
        if !inside {
            return Err(format!("a finding lies outside the manifest\n{text}"));
        }
    }
    Ok(())
}

fn prices(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let currency: Currency = "USD".parse().unwrap();
    let day = Date::new(2026, 3, 1).unwrap();
    let catalog = ["foil_board_2in", "ground_liner", "urethane"]
        .map(|product| CatalogItem { product: product.to_owned(), unit: "each".to_owned() });
    let rules = ListRules { currency, dated: Some(day), oldest: Some(day) };
    drop(wythe_takeoff::price::read(text, &catalog, &rules));
}

fn damaged(text: &str, dice: &mut ChaCha8Rng) -> String {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    for _ in 0..dice.random_range(1..8) {
        let at = dice.random_range(0..lines.len());
        match dice.random_range(0..6) {
            0 if lines.len() > 1 => drop(lines.remove(at)),
            1 => {
                let copy = lines[at].clone();
                lines.insert(at, copy);
            }
            2 => lines[at] = lines[at].replace(',', ";"),
            3 => {
                let other = dice.random_range(0..lines.len());
                lines.swap(at, other);
            }
            _ => {
                let mut cells: Vec<&str> = lines[at].split(',').collect();
                let cell = dice.random_range(0..cells.len());
                cells[cell] = CELLS.choose(dice).unwrap();
                lines[at] = cells.join(",");
            }
        }
    }
    lines.join("\n")
}
