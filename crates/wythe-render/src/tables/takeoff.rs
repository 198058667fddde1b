//! The takeoff as tables: by wall, by product, by phase or by house.

use std::collections::BTreeMap;

use wythe_bill::takeoff::role_word;
use wythe_bill::{Counted, Job, TakeoffLine};
use wythe_model::SurfaceKind;
use wythe_model::quantity::Measure;

use super::{Cell, Document, Shower, Table};

/// How the lines of a takeoff are put together.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum By {
    /// Line by line, element by element.
    Wall,
    /// One row a product.
    Product,
    /// One row a phase and product.
    Phase,
    /// One row a house and product.
    House,
}

/// The takeoff of a job.
pub fn takeoff(job: &Job, by: By, show: &Shower<'_>) -> Document {
    let names: Vec<&str> = job.houses.iter().map(|f| f.name.as_str()).collect();
    let mut document = Document::new("takeoff", format!("Takeoff of {}", names.join(", ")));
    document.complete = job.is_complete();
    if !document.complete {
        document.remarks.push("INCOMPLETE: some work could not be measured or planned; see the findings.".into());
    }
    document.remarks.push(faces(job));
    match by {
        By::Wall => lines(job, show, &mut document),
        By::Product => {}
        By::Phase => phases(job, show, &mut document),
        By::House => houses(job, show, &mut document),
    }
    products(job, show, &mut document);
    document
}

/// Which face lengths are taken on, said on every takeoff.
fn faces(job: &Job) -> String {
    let mut said: Vec<String> = Vec::new();
    for f in &job.houses {
        let text = f.measured.word().to_owned();
        if !said.contains(&text) {
            said.push(text);
        }
    }
    format!(
        "Walls are measured on the {}; layers are counted on the face they lie on, corners cut on the miter, openings \
         taken off. Net is what lies in place; gross adds the allowance for waste; the order is in whole units.",
        said.join(" or ")
    )
}

fn counted(line: &TakeoffLine) -> &'static str {
    match line.counted {
        Counted::Geometry => "",
        Counted::CutList => "cut list",
        Counted::RollLayout => "roll layout",
    }
}

fn lines(job: &Job, show: &Shower<'_>, document: &mut Document) {
    let several = job.houses.len() > 1;
    let mut table = Table::new(
        "lines",
        "By wall, pier, opening and ground",
        &[
            ("house", "house"),
            ("element", "element"),
            ("face", "face"),
            ("phase", "phase"),
            ("work", "work"),
            ("layer", "layer"),
            ("product", "product"),
            ("part", "part"),
            ("net", ">net"),
            ("counted", "counted by"),
            ("how", "how"),
            ("place", "place"),
        ],
    );
    for line in &job.lines {
        let house = if several { job.houses[line.house].name.as_str() } else { "" };
        let product = line.product.as_ref().map_or("", |p| p.name.as_str());
        table.row(vec![
            Cell::text(house),
            Cell::text(line.element.as_str()),
            Cell::text(line.face.as_str()),
            Cell::text(line.phase.map_or("", |p| p.as_str())),
            Cell::text(line.act.word()),
            Cell::text(line.layer.as_str()),
            Cell::text(product),
            Cell::text(role_word(line.role)),
            show.measure(line.net),
            Cell::text(counted(line)),
            show.how(&line.how),
            Cell::text(show.place(line.origin)),
        ]);
    }
    document.tables.push(table);
    walls(job, show, document);
}

/// How long and high each wall is inside.
fn walls(job: &Job, show: &Shower<'_>, document: &mut Document) {
    let mut table = Table::new(
        "walls",
        "Walls",
        &[("house", "house"), ("wall", "wall"), ("outside", ">outside"), ("inside", ">inside"), ("bare", ">bare band")],
    );
    for (f, plan) in job.houses.iter().zip(&job.plans) {
        for (index, (wall, drawn)) in f.walls.iter().zip(&plan.walls).enumerate() {
            let bands = wythe_model::quantity::wall_bands(f, index, job.terms.basis);
            let bare = wythe_model::quantity::bare_band(&bands);
            table.row(vec![
                Cell::text(if job.houses.len() > 1 { f.name.as_str() } else { "" }),
                Cell::text(wall.name.as_str()),
                show.length(drawn.outside.length()),
                show.length(drawn.inside.length()),
                bare.map_or(Cell::Empty, |b| show.length(b)),
            ]);
        }
    }
    document.tables.push(table);
}

/// What each house takes of each product, net and with the allowance for waste; what is bought is bought for all.
fn houses(job: &Job, show: &Shower<'_>, document: &mut Document) {
    let mut table = Table::new(
        "houses",
        "By house",
        &[("house", "house"), ("product", "product"), ("net", ">net"), ("gross", ">gross")],
    );
    let mut sums: BTreeMap<(usize, &str, u8), (Measure, f64)> = BTreeMap::new();
    for line in &job.lines {
        let Some(product) = &line.product else { continue };
        let waste = job.terms.waste_of(product.class).value;
        let entry = sums.entry((line.house, product.name.as_str(), sort(line.net)));
        let sum = entry.or_insert_with(|| (scaled(line.net, 0.0), waste));
        sum.0 = sum.0.plus(line.net).unwrap_or(sum.0);
    }
    for ((house, product, _), (net, waste)) in sums {
        let name = job.houses.get(house).map_or("", |f| f.name.as_str());
        let gross = show.measure(scaled(net, 1.0 + waste));
        table.row(vec![Cell::text(name), Cell::text(product), show.measure(net), gross]);
    }
    document.tables.push(table);
}

fn scaled(measure: Measure, by: f64) -> Measure {
    match measure {
        Measure::Area(a) => Measure::Area(a * by),
        Measure::Length(l) => Measure::Length(l * by),
        Measure::Volume(v) => Measure::Volume(v * by),
        Measure::Count(n) => Measure::Count((n as f64 * by - 1e-9).ceil().max(0.0) as u64),
    }
}

fn phases(job: &Job, show: &Shower<'_>, document: &mut Document) {
    let mut table = Table::new(
        "phases",
        "By phase",
        &[("phase", "phase"), ("work", "work"), ("product", "product"), ("net", ">net")],
    );
    let order: Vec<&str> = {
        let mut all: Vec<&str> = Vec::new();
        for phase in job.houses.iter().flat_map(|f| &f.phases).filter_map(|p| p.name) {
            if !all.contains(&phase.as_str()) {
                all.push(phase.as_str());
            }
        }
        all
    };
    let mut sums: BTreeMap<(usize, &str, &str, u8), Measure> = BTreeMap::new();
    for line in &job.lines {
        let phase =
            line.phase.map_or(usize::MAX, |p| order.iter().position(|o| *o == p.as_str()).unwrap_or(usize::MAX));
        let product = line.product.as_ref().map_or(line.layer.as_str(), |p| p.name.as_str());
        let key = (phase, line.act.word(), product, sort(line.net));
        let sum = sums.get(&key).and_then(|m| m.plus(line.net)).unwrap_or(line.net);
        sums.insert(key, sum);
    }
    for ((phase, work, product, _), net) in sums {
        let phase = order.get(phase).copied().unwrap_or("");
        table.row(vec![Cell::text(phase), Cell::text(work), Cell::text(product), show.measure(net)]);
    }
    document.tables.push(table);
}

const fn sort(measure: Measure) -> u8 {
    match measure {
        Measure::Area(_) => 0,
        Measure::Length(_) => 1,
        Measure::Volume(_) => 2,
        Measure::Count(_) => 3,
    }
}

fn products(job: &Job, show: &Shower<'_>, document: &mut Document) {
    let mut table = Table::new(
        "products",
        "By product",
        &[
            ("product", "product"),
            ("class", "class"),
            ("elements", ">on"),
            ("net", ">net"),
            ("allowance", ">waste"),
            ("gross", ">gross"),
            ("order", ">order"),
            ("pack", "pack"),
            ("left", ">left"),
            ("basis", "counted by"),
        ],
    );
    for item in &job.order {
        let mut elements: Vec<(usize, SurfaceKind, &str)> = job
            .lines
            .iter()
            .filter(|l| l.product.as_ref().is_some_and(|p| p.name == item.product.name))
            .map(|l| (l.house, l.kind, l.element.as_str()))
            .collect();
        elements.sort_unstable();
        elements.dedup();
        for (at, (net, gross)) in item.net.iter().zip(&item.gross).enumerate() {
            let first = at == 0;
            let only = |cell: Cell| if first { cell } else { Cell::Empty };
            table.row(vec![
                Cell::text(item.product.name.as_str()),
                Cell::text(item.product.class.name()),
                only(Cell::Count(elements.len() as u64)),
                show.measure(*net),
                only(show.share(job.terms.waste_of(item.product.class))),
                show.measure(*gross),
                only(Cell::Count(item.packs())),
                only(Cell::text(super::order::pack(item))),
                only(Cell::Number(item.left().value, 2)),
                only(Cell::text(item.basis.words())),
            ]);
        }
    }
    document.tables.push(table);
}
