//! The price lists, rates, logs and products of a repository.

use std::sync::Arc;

use wythe_bill::cost::{PriceBook, read};
use wythe_eval::{Evaluator, Value, lower};
use wythe_findings::{Finding, codes};
use wythe_model::Product;
use wythe_model::bid::BidNumbers;
use wythe_model::ledger::{CrewRates, PriceSheet, WorkLog};
use wythe_project::{SourcePath, Sources as _};
use wythe_sema::DefId;
use wythe_source::{FileId, Span};
use wythe_syntax::ast::DeclKind;
use wythe_units::UnitSystem;

use crate::output::complain;
use crate::repository::Opened;

/// The ledgers of a repository, in the order of their files.
#[derive(Default)]
pub(crate) struct Ledgers {
    pub prices: Vec<PriceSheet>,
    pub rates: Vec<CrewRates>,
    pub logs: Vec<WorkLog>,
    pub bids: Vec<BidNumbers>,
    pub products: Vec<Arc<Product>>,
}

impl Ledgers {
    /// Works out every ledger of the program.
    pub(crate) fn read(opened: &Opened) -> Ledgers {
        let program = opened.project.program();
        let mut ev = Evaluator::new(program);
        let mut out = Ledgers::default();
        let mut files = program.files();
        files.sort_by_key(|f| opened.project.name(*f));
        for file in files {
            let Some(data) = program.module(file) else { continue };
            for (index, decl) in data.module.decls.iter().enumerate() {
                let def = DefId { file, index: index as u32 };
                match decl.kind {
                    DeclKind::Prices(_) => out.prices.extend(lower::price_sheet(&mut ev, def)),
                    DeclKind::Rates(_) => out.rates.extend(lower::crew_rates(&mut ev, def)),
                    DeclKind::Log(_) => out.logs.extend(lower::work_log(&mut ev, def)),
                    DeclKind::Let(_) if is_bid(opened, file, decl.span) => out.bids.extend(lower::bid(&mut ev, def)),
                    DeclKind::Product { .. } => {
                        if let Value::Product(product) = ev.value(def) {
                            out.products.push(product);
                        }
                    }
                    _ => {}
                }
            }
        }
        out
    }

    /// The rates of a name, or the only ones.
    pub(crate) fn crew(&self, name: Option<&str>) -> Option<&CrewRates> {
        pick(&self.rates, name, "rates", |r| r.name.as_str())
    }

    /// The price list of a name, or the only one, with its file read; and what is wrong in it.
    pub(crate) fn prices(&self, opened: &Opened, name: Option<&str>) -> (Option<PriceBook>, Vec<Finding>) {
        let Some(sheet) = pick(&self.prices, name, "prices", |p| p.name.as_str()) else { return (None, Vec::new()) };
        let unreadable = |why: String| {
            let title = format!("`{}` cannot be read", sheet.file);
            (None, vec![Finding::new(codes::PRICE_FILE_UNREADABLE, sheet.file_origin, title).label(why)])
        };
        let folder = opened.project.entry(sheet.origin.file).map(|e| e.path.folder());
        let Some(path) = folder.and_then(|f| SourcePath::resolve(&f, &sheet.file)) else {
            return unreadable("it lies outside the repository".into());
        };
        let text = match opened.disk.read(&path) {
            Ok(bytes) => match String::from_utf8(bytes) {
                Ok(text) => text,
                Err(_) => return unreadable("it is not UTF-8 text".into()),
            },
            Err(fault) => return unreadable(fault.to_string()),
        };
        let metric = opened.project.manifest().display.system == UnitSystem::Si;
        match read(sheet, path.as_str(), &text, &self.products, metric) {
            Ok((book, findings)) => (Some(book), findings),
            Err(finding) => (None, vec![*finding]),
        }
    }
}

/// Whether a declaration gives a name to a bid; a quick look at the text, so that no other value is worked out.
fn is_bid(opened: &Opened, file: FileId, span: Span) -> bool {
    opened.project.text(file).get(span.range()).is_some_and(|text| text.contains("Bid("))
}

/// One of several: that of the name, or the only one there is; says so where nobody can choose.
fn pick<'a, T>(all: &'a [T], name: Option<&str>, what: &str, name_of: impl Fn(&T) -> &str) -> Option<&'a T> {
    match (name, all) {
        (Some(name), _) => {
            let found = all.iter().find(|x| name_of(x) == name);
            if found.is_none() {
                complain(&format_args!("no {what} are called `{name}`"));
            }
            found
        }
        (None, []) => None,
        (None, [one]) => Some(one),
        (None, [first, ..]) => {
            let names: Vec<&str> = all.iter().map(&name_of).collect();
            complain(&format_args!(
                "there are several {what}: {}; the first is taken, --{what} NAME takes another",
                names.join(", ")
            ));
            Some(first)
        }
    }
}
