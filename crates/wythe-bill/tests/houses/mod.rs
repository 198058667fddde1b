//! Houses of the repository on the disk, with their ledgers, for tests of the bill.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]
#![allow(dead_code, reason = "each test uses what it needs")]

use std::path::{Path, PathBuf};
use std::sync::Arc;

use wythe_eval::{Evaluator, lower};
use wythe_model::bid::BidNumbers;
use wythe_model::ledger::{CrewRates, PriceSheet, WorkLog};
use wythe_model::{Foundation, Product};
use wythe_project::{Disk, Project, Sources};
use wythe_sema::DefId;
use wythe_syntax::ast::DeclKind;

fn top() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).ancestors().nth(2).unwrap().to_path_buf()
}

/// The houses taken off by hand.
pub fn hand_folder() -> PathBuf {
    top().join("tests").join("hand").join("takeoff")
}

/// The example repository.
pub fn cedar_row() -> PathBuf {
    top().join("examples").join("cedar_row")
}

/// What a repository declares.
pub struct Declared {
    pub foundations: Vec<Arc<Foundation>>,
    pub rates: Vec<CrewRates>,
    pub prices: Vec<PriceSheet>,
    pub logs: Vec<WorkLog>,
    pub products: Vec<Arc<Product>>,
    pub bids: Vec<BidNumbers>,
}

impl Declared {
    pub fn foundation(&self, name: &str) -> Arc<Foundation> {
        self.foundations.iter().find(|f| f.name.as_str() == name).unwrap_or_else(|| panic!("no {name}")).clone()
    }
}

/// Reads a repository on the disk.
pub fn repository(folder: &Path) -> Declared {
    declared(Disk::new(folder).unwrap())
}

/// Reads a repository.
pub fn declared(sources: impl Sources + 'static) -> Declared {
    let mut project = Project::open(sources);
    project.add_all();
    project.check_affected();
    let program = project.program();
    let mut ev = Evaluator::new(program);
    let mut out = Declared {
        foundations: Vec::new(),
        rates: Vec::new(),
        prices: Vec::new(),
        logs: Vec::new(),
        products: Vec::new(),
        bids: Vec::new(),
    };
    let mut files = program.files();
    files.sort_by_key(|f| project.name(*f));
    for file in files {
        let data = program.module(file).unwrap();
        for (index, decl) in data.module.decls.iter().enumerate() {
            let def = DefId { file, index: index as u32 };
            match decl.kind {
                DeclKind::Foundation { .. } => out.foundations.extend(ev.foundation(def)),
                DeclKind::Rates(_) => out.rates.extend(lower::crew_rates(&mut ev, def)),
                DeclKind::Prices(_) => out.prices.extend(lower::price_sheet(&mut ev, def)),
                DeclKind::Log(_) => out.logs.extend(lower::work_log(&mut ev, def)),
                DeclKind::Let(_) => out.bids.extend(lower::bid(&mut ev, def)),
                DeclKind::Product { .. } => {
                    if let wythe_eval::Value::Product(product) = ev.value(def) {
                        out.products.push(product);
                    }
                }
                _ => {}
            }
        }
    }
    out
}
