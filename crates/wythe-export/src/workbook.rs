//! Documents as a workbook: one worksheet a table, figures as figures, money worked out by formulas of its own.

use jiff::civil::Date;
use rust_xlsxwriter::{
    Color, DocProperties, ExcelDateTime, Format, FormatAlign, FormatBorder, Formula, Workbook, Worksheet, XlsxError,
};
use wythe_render::tables::{Cell, Document, Table};
use wythe_units::UnitSystem;

/// What can go wrong: a table larger than a worksheet.
pub type WorkbookError = XlsxError;

/// The most letters a worksheet's name may have.
const NAME: usize = 31;
/// The widest a column is made, in letters.
const WIDEST: usize = 60;

/// The documents as a workbook: what holds of the whole on a first sheet, then every table that has rows. The day
/// stands in the file's properties; without one, a fixed day.
///
/// # Errors
/// Where a table is larger than a worksheet can be.
pub fn workbook(
    title: &str,
    documents: &[Document],
    system: UnitSystem,
    day: Option<Date>,
) -> Result<Vec<u8>, WorkbookError> {
    let mut book = Workbook::new();
    let (year, month, of_month) =
        day.map_or((2000, 1, 1), |d| (d.year().max(1900) as u16, d.month() as u8, d.day() as u8));
    let stamp = ExcelDateTime::from_ymd(year, month, of_month)?;
    book.set_properties(&DocProperties::new().set_title(title).set_creation_datetime(&stamp));
    let mut names: Vec<String> = Vec::new();
    about(book.add_worksheet(), title, documents, &mut names)?;
    for document in documents {
        for table in document.tables.iter().filter(|t| !t.rows.is_empty()) {
            let name = sheet_name(document, table, &names);
            let sheet = book.add_worksheet();
            sheet.set_name(&name)?;
            names.push(name);
            write(sheet, table, system)?;
        }
    }
    book.save_to_buffer()
}

/// The first sheet: what the workbook is about and what to heed.
fn about(
    sheet: &mut Worksheet,
    title: &str,
    documents: &[Document],
    names: &mut Vec<String>,
) -> Result<(), WorkbookError> {
    let name = "about".to_owned();
    sheet.set_name(&name)?;
    names.push(name);
    sheet.set_column_width(0, 110)?;
    let wrapped = Format::new().set_text_wrap().set_align(FormatAlign::Top);
    sheet.write_string_with_format(0, 0, title, &Format::new().set_bold().set_font_size(16))?;
    let mut row = 2;
    for document in documents {
        sheet.write_string_with_format(row, 0, &document.title, &Format::new().set_bold())?;
        row += 1;
        for remark in &document.remarks {
            sheet.write_string_with_format(row, 0, remark, &wrapped)?;
            row += 1;
        }
        row += 1;
    }
    sheet.write_string_with_format(
        row,
        0,
        "Quantities for estimating only. Nothing here sizes structure; local code and licensed practice come first.",
        &wrapped,
    )?;
    sheet.set_print_fit_to_pages(1, 0);
    Ok(())
}

/// A name no other worksheet has, without what such names may not hold.
fn sheet_name(document: &Document, table: &Table, taken: &[String]) -> String {
    let whole =
        if document.kind == table.key { table.key.to_owned() } else { format!("{} {}", document.kind, table.key) };
    let plain: String = whole.replace('_', " ").chars().filter(|c| !"[]:*?/\\'".contains(*c)).take(NAME).collect();
    let free = |name: &String| !taken.iter().any(|t| t.eq_ignore_ascii_case(name));
    let numbered = (2..).map(|n| format!("{} {n}", plain.chars().take(NAME - 5).collect::<String>()));
    std::iter::once(plain.clone()).chain(numbered).find(free).unwrap_or(plain)
}

/// How a column of a table is laid out on the worksheet.
struct Layout {
    /// Its first column on the worksheet.
    at: u16,
    head: String,
    /// Whether the units differ by row and stand in a column of their own.
    units: bool,
}

fn write(sheet: &mut Worksheet, table: &Table, system: UnitSystem) -> Result<(), WorkbookError> {
    let head = Format::new()
        .set_bold()
        .set_text_wrap()
        .set_align(FormatAlign::Top)
        .set_background_color(Color::RGB(0xEE_EE_EE))
        .set_border_bottom(FormatBorder::Thin);
    let layouts = layouts(table, system);
    let mut widths: Vec<usize> = Vec::new();
    let mut see = |column: u16, text: usize| {
        let column = usize::from(column);
        if widths.len() <= column {
            widths.resize(column + 1, 8);
        }
        widths[column] = widths[column].max(text.min(WIDEST));
    };
    for layout in &layouts {
        sheet.write_string_with_format(0, layout.at, &layout.head, &head)?;
        see(layout.at, layout.head.chars().count().min(24));
        if layout.units {
            sheet.write_string_with_format(0, layout.at + 1, "unit", &head)?;
        }
    }
    let column = |key: &str| table.columns.iter().position(|c| c.key == key);
    let product = [column("packs"), column("price"), column("cost")];
    for (number, cells) in table.rows.iter().enumerate() {
        let row = number as u32 + 1;
        for (index, (cell, layout)) in cells.iter().zip(&layouts).enumerate() {
            // What a price comes to follows the price: who changes one sees the other change.
            if let [Some(packs), Some(price), Some(cost)] = product
                && index == cost
                && let Cell::Money { amount, .. } = cell
            {
                let at = |of: usize| format!("{}{}", letters(layouts[of].at), row + 1);
                let formula = Formula::new(format!("={}*{}", at(packs), at(price))).set_result(amount.clone());
                sheet.write_formula_with_format(row, layout.at, formula, &Format::new().set_num_format("#,##0.00"))?;
            } else {
                put(sheet, row, layout, cell, system)?;
            }
            see(layout.at, cell.shown().chars().count() + 2);
        }
    }
    let rows = table.rows.len() as u32;
    for (width, at) in widths.iter().zip(0_u16..) {
        sheet.set_column_width(at, (*width).min(WIDEST) as f64)?;
    }
    if let (Some(last), true) = (layouts.last(), rows > 0) {
        sheet.autofilter(0, 0, rows, last.at + u16::from(last.units))?;
    }
    sheet.set_freeze_panes(1, 0)?;
    sheet.set_landscape();
    sheet.set_repeat_rows(0, 0)?;
    sheet.set_print_fit_to_pages(1, 0);
    sheet.set_header(format!("&L{}&R&P / &N", table.key.replace('_', " ")));
    Ok(())
}

fn layouts(table: &Table, system: UnitSystem) -> Vec<Layout> {
    let mut at = 0;
    let mut out = Vec::new();
    for (index, column) in table.columns.iter().enumerate() {
        let mut units: Vec<&str> = Vec::new();
        let mut money = None;
        let mut counts = false;
        for cell in table.rows.iter().filter_map(|r| r.get(index)) {
            match cell {
                Cell::Quantity { si, unit, .. } => {
                    let unit = figure(*si, unit, system).1;
                    if !units.contains(&unit) {
                        units.push(unit);
                    }
                }
                Cell::Count(_) => counts = true,
                Cell::Money { currency, .. } => money = Some(currency.clone()),
                _ => {}
            }
        }
        let mixed = units.len() > 1 || (counts && !units.is_empty());
        let words = if column.head.is_empty() { column.key.replace('_', " ") } else { column.head.to_owned() };
        let head = match (mixed, units.first(), money) {
            (false, Some(unit), _) if !unit.is_empty() => format!("{words}, {unit}"),
            (_, _, Some(currency)) => format!("{words}, {currency}"),
            _ => words,
        };
        out.push(Layout { at, head, units: mixed });
        at += if mixed { 2 } else { 1 };
    }
    out
}

fn put(sheet: &mut Worksheet, row: u32, layout: &Layout, cell: &Cell, system: UnitSystem) -> Result<(), WorkbookError> {
    let at = layout.at;
    match cell {
        Cell::Empty => {}
        Cell::Text(text) => {
            sheet.write_string(row, at, text)?;
        }
        Cell::Count(n) => {
            sheet.write_number(row, at, *n as f64)?;
            if layout.units {
                sheet.write_string(row, at + 1, "pc")?;
            }
        }
        Cell::Number(n, _) if !n.is_finite() => {}
        Cell::Number(n, places) => {
            let format = if *places == 0 { "0".to_owned() } else { format!("0.{}", "0".repeat(*places)) };
            sheet.write_number_with_format(row, at, *n, &Format::new().set_num_format(format))?;
        }
        Cell::Quantity { si, unit, .. } => {
            let (value, unit) = figure(*si, unit, system);
            if value.is_finite() {
                let format = Format::new().set_num_format(if unit == "%" { "0.0" } else { "#,##0.00" });
                sheet.write_number_with_format(row, at, value, &format)?;
            }
            if layout.units {
                sheet.write_string(row, at + 1, unit)?;
            }
        }
        Cell::Money { amount, .. } => match amount.parse::<f64>() {
            Ok(value) => {
                sheet.write_number_with_format(row, at, value, &Format::new().set_num_format("#,##0.00"))?;
            }
            Err(_) => {
                sheet.write_string(row, at, amount)?;
            }
        },
        Cell::Mark(mark) => {
            sheet.write_string(row, at, if *mark { "yes" } else { "no" })?;
        }
    }
    Ok(())
}

/// A figure in the unit an estimator counts in. Factors are exact: foot of 0.3048 m, yard of 3 ft; R and U by the
/// International Table Btu and the degree Fahrenheit.
fn figure<'a>(si: f64, unit: &'a str, system: UnitSystem) -> (f64, &'a str) {
    const FOOT: f64 = 0.3048;
    const R: f64 = 0.176_110_183_675_9;
    match (unit, system) {
        ("m", UnitSystem::Us) => (si / FOOT, "ft"),
        ("m2", UnitSystem::Us) => (si / (FOOT * FOOT), "ft2"),
        ("m3", UnitSystem::Us) => (si / (27.0 * FOOT * FOOT * FOOT), "yd3"),
        ("m2 K/W", UnitSystem::Us) => (si / R, "ft2 h F/Btu"),
        ("W/(m2 K)", UnitSystem::Us) => (si * R, "Btu/(h ft2 F)"),
        ("s", _) => (si / 3600.0, "h"),
        ("1", _) => (si * 100.0, "%"),
        (unit, _) => (si, unit),
    }
}

/// The letters of a column: A, B, to Z, AA.
fn letters(column: u16) -> String {
    let mut out = String::new();
    let mut left = u32::from(column) + 1;
    while left > 0 {
        left -= 1;
        out.insert(0, char::from(b'A' + (left % 26) as u8));
        left /= 26;
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_in_the_units_an_estimator_counts_in() {
        assert!((figure(0.3048, "m", UnitSystem::Us).0 - 1.0).abs() < 1e-12);
        assert!((figure(0.764_554_857_984, "m3", UnitSystem::Us).0 - 1.0).abs() < 1e-12);
        assert!((figure(1.0, "m2 K/W", UnitSystem::Us).0 - 5.678_263_34).abs() < 1e-6);
        assert_eq!(figure(2.5, "m", UnitSystem::Si), (2.5, "m"));
    }

    #[test]
    fn worksheets_have_names_of_their_own() {
        let document = Document::new("order", "Order");
        let table = Table::new("order", "", &[("a", "a")]);
        let taken = vec!["order".to_owned()];
        assert_eq!(sheet_name(&document, &table, &[]), "order");
        assert_eq!(sheet_name(&document, &table, &taken), "order 2");
        assert_eq!([0, 25, 26, 701, 702].map(letters), ["A", "Z", "AA", "ZZ", "AAA"]);
    }

    #[test]
    fn the_same_documents_give_the_same_bytes_and_a_text_is_never_a_formula() {
        let mut document = Document::new("takeoff", "Takeoff of <script>");
        let mut table = Table::new("lines", "", &[("what", "what"), ("net", "net")]);
        table.row(vec![Cell::text("=1+1"), Cell::Quantity { shown: "1 ft".into(), si: 0.3048, unit: "m" }]);
        document.tables.push(table);
        let make = || workbook("T", std::slice::from_ref(&document), UnitSystem::Us, None).unwrap();
        assert_eq!(make(), make());
        assert_eq!(&make()[..2], b"PK");
    }
}
