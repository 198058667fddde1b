//! The cut list of boards, the strips of sheets, and the layout of rolls on the floor, as tables.

use std::collections::BTreeMap;

use wythe_bill::Job;
use wythe_bill::board::{BoardPlan, cut_patterns};
use wythe_takeoff::nest::SheetSource;
use wythe_takeoff::roll::{RollNote, SeamKind};

use super::{Cell, Document, Shower, Table};

/// The cut lists and layouts of a job.
pub fn cut_list(job: &Job, show: &Shower<'_>) -> Document {
    let names: Vec<&str> = job.houses.iter().map(|f| f.name.as_str()).collect();
    let mut document = Document::new("cut_list", format!("Cut list of {}", names.join(", ")));
    document.complete = job.is_complete();
    if !document.complete {
        document.remarks.push("INCOMPLETE: a stretch could not be planned; see the findings.".into());
    }
    for board in &job.boards {
        document.remarks.push(summary(board, show));
    }
    for plan in &job.hung {
        document.remarks.push(format!(
            "{}: {} rolls hung on walls and piers, {} proven least.",
            plan.product.name, plan.plan.bought, plan.plan.bound
        ));
    }
    for floor in &job.floors {
        let layout = &floor.layout;
        let degrees = layout.direction.get::<uom::si::angle::degree>();
        let mut text = format!(
            "{} on the floor of {}: {} strips at {:.0} degrees from east, {} rolls ({} by area at least), seams {}, lap {}.",
            floor.product.name,
            job.houses[floor.house].name,
            layout.strips.len(),
            degrees,
            floor.rolls(),
            layout.bound,
            show.length(layout.seam_length()).shown(),
            show.length(floor.lap).shown(),
        );
        for note in &layout.notes {
            match note {
                RollNote::FloorNarrowerThanLap => text.push_str(" The floor is narrower than one lap."),
                RollNote::SingleStrip => text.push_str(" One strip covers the floor."),
                _ => {}
            }
        }
        document.remarks.push(text);
    }
    pieces(job, show, &mut document);
    offcuts(job, show, &mut document);
    strips(job, show, &mut document);
    rolls(job, show, &mut document);
    document
}

fn summary(board: &BoardPlan, show: &Shower<'_>) -> String {
    let plan = &board.plan;
    let gap = plan.gap().value * 100.0;
    let proof = if plan.is_proven_least() {
        "proven least".to_owned()
    } else {
        format!("at least {}; gap {gap:.1} %", plan.bound)
    };
    format!(
        "{}: {} sheets of {} x {} ({proof}), {} pieces, yield {:.1} %.",
        board.product.name,
        plan.bought,
        show.length(board.sheet.width).shown(),
        show.length(board.sheet.length).shown(),
        plan.pieces().count(),
        plan.yield_ratio().value * 100.0,
    )
}

fn pieces(job: &Job, show: &Shower<'_>, document: &mut Document) {
    let mut table = Table::new(
        "pieces",
        "Board",
        &[
            ("board", "board"),
            ("sheet", ">sheet"),
            ("number", ">piece"),
            ("pattern", ">pattern"),
            ("run", "for"),
            ("at", ">from its start"),
            ("length", ">length"),
            ("height", ">height"),
            ("across", "cut"),
            ("x", ">along sheet"),
            ("y", ">across sheet"),
            ("cut_out", "cut out"),
        ],
    );
    for board in &job.boards {
        let patterns = cut_patterns(&board.plan);
        let pattern_of: BTreeMap<usize, usize> =
            patterns.iter().flat_map(|p| p.sheets.iter().map(|s| (s.number, p.number))).collect();
        for (sheet, piece) in board.plan.pieces() {
            let cut: Vec<String> = board
                .notches(piece)
                .iter()
                .map(|n| {
                    let size = format!("{} x {}", show.length(n.width).shown(), show.length(n.height).shown());
                    format!("{} {size} at {}, {} up", n.opening, show.length(n.at).shown(), show.length(n.up).shown())
                })
                .collect();
            table.row(vec![
                Cell::text(board.product.name.as_str()),
                Cell::Count(sheet.number as u64),
                Cell::Count(piece.number as u64),
                pattern_of.get(&sheet.number).map_or(Cell::Empty, |p| Cell::Count(*p as u64)),
                Cell::text(&piece.mark),
                show.length(piece.at),
                show.length(piece.length()),
                show.length(piece.height()),
                Cell::text(if piece.turned { "across" } else { "along" }),
                show.length(piece.x),
                show.length(piece.y),
                Cell::text(cut.join("; ")),
            ]);
        }
    }
    document.tables.push(table);
}

fn offcuts(job: &Job, show: &Shower<'_>, document: &mut Document) {
    let mut table = Table::new(
        "offcuts",
        "Offcuts to keep",
        &[("board", "board"), ("sheet", ">sheet"), ("length", ">length"), ("width", ">width"), ("source", "source")],
    );
    for board in &job.boards {
        for sheet in &board.plan.sheets {
            let source = match &sheet.source {
                SheetSource::Bought => "",
                SheetSource::OnHand(name) => name,
            };
            for offcut in sheet.offcuts.iter().filter(|o| o.kept) {
                table.row(vec![
                    Cell::text(board.product.name.as_str()),
                    Cell::Count(sheet.number as u64),
                    show.length(offcut.along),
                    show.length(offcut.across),
                    Cell::text(source),
                ]);
            }
        }
    }
    document.tables.push(table);
}

fn strips(job: &Job, show: &Shower<'_>, document: &mut Document) {
    let mut table = Table::new(
        "hung_strips",
        "Sheet on walls and piers",
        &[
            ("sheet", "sheet"),
            ("roll", ">roll"),
            ("number", ">strip"),
            ("run", "for"),
            ("length", ">length"),
            ("width", ">height"),
        ],
    );
    for plan in &job.hung {
        for (roll, piece) in plan.plan.pieces() {
            table.row(vec![
                Cell::text(plan.product.name.as_str()),
                Cell::Count(roll.number as u64),
                Cell::Count(piece.number as u64),
                Cell::text(&piece.mark),
                show.length(piece.length()),
                show.length(piece.height()),
            ]);
        }
    }
    document.tables.push(table);
}

fn rolls(job: &Job, show: &Shower<'_>, document: &mut Document) {
    let mut table = Table::new(
        "floor_strips",
        "Sheet on the floor",
        &[
            ("house", "house"),
            ("sheet", "sheet"),
            ("strip", ">strip"),
            ("roll", ">roll"),
            ("at", ">from its start"),
            ("length", ">length"),
            ("start_x", ">starts east"),
            ("start_y", ">starts north"),
        ],
    );
    let mut seams = Table::new(
        "seams",
        "Seams on the floor",
        &[("house", "house"), ("sheet", "sheet"), ("seam", ">seam"), ("kind", "kind"), ("length", ">length")],
    );
    for floor in &job.floors {
        let house = job.houses[floor.house].name.as_str();
        for piece in &floor.layout.pieces {
            let strip = floor.layout.strips.iter().find(|s| s.number == piece.strip);
            let corner = strip.map(|s| s.corners[0]);
            table.row(vec![
                Cell::text(house),
                Cell::text(floor.product.name.as_str()),
                Cell::Count(piece.strip as u64),
                Cell::Count(piece.roll as u64),
                show.length(piece.at),
                show.length(piece.length),
                corner.map_or(Cell::Empty, |c| show.length(c.x)),
                corner.map_or(Cell::Empty, |c| show.length(c.y)),
            ]);
        }
        for (number, seam) in floor.layout.seams.iter().enumerate() {
            let kind = match seam.kind {
                SeamKind::Side => "side by side",
                SeamKind::End => "end to end",
            };
            seams.row(vec![
                Cell::text(house),
                Cell::text(floor.product.name.as_str()),
                Cell::Count(number as u64 + 1),
                Cell::text(kind),
                show.length(seam.length),
            ]);
        }
    }
    document.tables.extend([table, seams]);
}
