//! Damaged tables through the readers of weather and prices.

use std::panic::catch_unwind;
use std::sync::LazyLock;

use jiff::civil::Date;
use rand::Rng as _;
use rand::seq::IndexedRandom as _;
use rand_chacha::ChaCha8Rng;
use wythe_climate::hourly::GapPolicy;
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
        catch_unwind(|| drop(wythe_climate::epw::read_epw(&bytes, policy))).map_err(|_| told("EPW"))?;
        catch_unwind(|| drop(wythe_climate::tmy::read_tmy(&bytes, policy))).map_err(|_| told("TMY"))?;
    }
    catch_unwind(|| drop(wythe_climate::normals::MonthlyNormals::read_csv(&bytes))).map_err(|_| told("months"))?;
    catch_unwind(|| prices(&bytes)).map_err(|_| told("prices"))
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
