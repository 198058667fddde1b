//! From a table of results to a table for paper: chosen columns, units in the heads, no column that says nothing.

use wythe_render::tables::{Cell, Table};

use crate::model::{Column, Grid};
use crate::words::clean;

/// The units that may stand in a head, longest first, with how a head writes them.
const UNITS: [(&str, &str); 29] = [
    ("Btu/(h ft2 degF)", "Btu/(h·ft²·°F)"),
    ("Btu/(h ft degF)", "Btu/(h·ft·°F)"),
    ("Btu/(h degF)", "Btu/(h·°F)"),
    ("ng/(s m2 Pa)", "ng/(s·m²·Pa)"),
    ("W/(m2 K)", "W/(m²·K)"),
    ("W/(m K)", "W/(m·K)"),
    ("m2 K/W", "m²·K/W"),
    ("pint/day", "pint/day"),
    ("L/day", "L/day"),
    ("g/m2", "g/m²"),
    ("degF", "°F"),
    ("degC", "°C"),
    ("W/K", "W/K"),
    ("L/s", "L/s"),
    ("perm", "perm"),
    ("kWh", "kWh"),
    ("cfm", "cfm"),
    ("mil", "mil"),
    ("ft2", "ft²"),
    ("yd3", "yd³"),
    ("m2", "m²"),
    ("m3", "m³"),
    ("lb", "lb"),
    ("kg", "kg"),
    ("mm", "mm"),
    ("m", "m"),
    ("h", "h"),
    ("%", "%"),
    ("L", "L"),
];

/// A unit as people write it: `ft2` with a raised two, degrees with their sign.
pub(crate) fn pretty(text: &str) -> String {
    let mut out = clean(text);
    for (plain, written) in UNITS {
        if plain != written && out.contains(plain) {
            out = out.replace(plain, written);
        }
    }
    out
}

/// The table with these columns, by key, each with its own head if one is given; all columns if none is named.
pub(crate) fn grid(table: &Table, title: &str, wanted: &[(&str, &str)]) -> Grid {
    let mut picked: Vec<(usize, String)> = Vec::new();
    if wanted.is_empty() {
        let rest = table.columns.iter().enumerate().filter(|(_, c)| c.key != "house");
        picked.extend(rest.map(|(at, c)| (at, c.head.to_owned())));
    }
    for (key, head) in wanted {
        if let Some(at) = table.columns.iter().position(|c| c.key == *key) {
            let own = table.columns[at].head;
            picked.push((at, if head.is_empty() { own } else { head }.to_owned()));
        }
    }
    let says = |at: usize| table.rows.iter().any(|row| !row[at].shown().is_empty());
    picked.retain(|(at, _)| says(*at));
    let mut grid = Grid { title: title.to_owned(), columns: Vec::new(), rows: vec![Vec::new(); table.rows.len()] };
    for (at, head) in picked {
        let cells: Vec<&Cell> = table.rows.iter().map(|row| &row[at]).collect();
        let mut fields: Vec<String> = cells.iter().map(|cell| clean(&cell.shown())).collect();
        let unit = shared_unit(&cells, &mut fields);
        let head = if unit.is_empty() { head } else { format!("{head}, {unit}") };
        let head = head.trim_start_matches(", ").to_owned();
        grid.columns.push(Column { head, right: table.columns[at].right });
        for (row, field) in grid.rows.iter_mut().zip(fields) {
            row.push(pretty(&field));
        }
    }
    grid
}

/// The unit that every figure of a column has, taken out of its fields.
fn shared_unit(cells: &[&Cell], fields: &mut [String]) -> String {
    let figures = || cells.iter().filter(|c| !matches!(c, Cell::Empty));
    if figures().count() == 0 {
        return String::new();
    }
    if let Some(Cell::Money { currency, .. }) = figures().next() {
        if !figures().all(|c| matches!(c, Cell::Money { currency: other, .. } if other == currency)) {
            return String::new();
        }
        let tail = format!(" {currency}");
        fields.iter_mut().for_each(|f| *f = f.replacen(&tail, "", 1));
        return currency.clone();
    }
    if !figures().all(|c| matches!(c, Cell::Quantity { .. })) {
        return String::new();
    }
    for (plain, written) in UNITS {
        let (end, within) = (format!(" {plain}"), format!(" {plain} ("));
        let has = |f: &String| f.is_empty() || f.ends_with(&end) || f.contains(&within);
        if fields.iter().all(has) {
            for field in fields.iter_mut() {
                *field = match field.strip_suffix(&end) {
                    Some(number) => number.to_owned(),
                    None => field.replacen(&within, " (", 1),
                };
            }
            return written.to_owned();
        }
    }
    String::new()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn quantity(shown: &str) -> Cell {
        Cell::Quantity { shown: shown.into(), si: 1.0, unit: "m2" }
    }

    #[test]
    fn a_unit_all_share_goes_to_the_head() {
        let columns = [("house", "house"), ("a", ">area"), ("u", ">U"), ("c", ">cost"), ("e", "nothing")];
        let mut table = Table::new("t", "", &columns);
        let usd = |amount: &str| Cell::Money { amount: amount.into(), currency: "USD".into() };
        let u = quantity("0.13 Btu/(h ft2 degF) (0.12 to 0.14)");
        table.row(vec![Cell::text("x"), quantity("13.1 ft2"), u, usd("4.00")]);
        table.row(vec![Cell::text("x"), quantity("2 ft2"), quantity("0.20 Btu/(h ft2 degF)"), usd("5.50")]);
        let grid = grid(&table, "T", &[]);
        let heads: Vec<&str> = grid.columns.iter().map(|c| c.head.as_str()).collect();
        assert_eq!(heads, ["area, ft²", "U, Btu/(h·ft²·°F)", "cost, USD"]);
        assert_eq!(grid.rows, [["13.1", "0.13 (0.12 to 0.14)", "4.00"], ["2", "0.20", "5.50"]]);
    }

    #[test]
    fn unlike_units_stay_with_their_figures() {
        let mut table = Table::new("t", "", &[("a", ">net")]);
        table.row(vec![quantity("13.1 ft2")]);
        table.row(vec![quantity("4' 2\"")]);
        let grid = grid(&table, "", &[("a", "size")]);
        assert_eq!(grid.columns[0].head, "size");
        assert_eq!(grid.rows, [["13.1 ft²"], ["4' 2\""]]);
    }
}
