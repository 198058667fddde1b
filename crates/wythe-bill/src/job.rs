//! A job: one house or many taken off together, so that offcuts of one serve the next.

use std::collections::BTreeMap;
use std::sync::Arc;

use uom::si::f64::Length;
use wythe_findings::{Finding, codes};
use wythe_model::geometry::Plan;
use wythe_model::quantity::{How, Measure, Role, WorkOf};
use wythe_model::{Act, EdgeName, Foundation, Work};
use wythe_takeoff::nest::Sheet;

use crate::board::{BoardPlan, anchors_in_piece, joint_lengths, plans, runs};
use crate::sheet::{FloorLayout, HungPlan, floors, hung};
use crate::takeoff::{Counted, TakeoffLine, lines};
use crate::{Terms, order};

/// One house or many taken off together.
#[derive(Clone, Debug)]
pub struct Job {
    /// The houses.
    pub houses: Vec<Arc<Foundation>>,
    /// Their plans, of the basis of the terms.
    pub plans: Vec<Plan>,
    /// Every piece of work, house by house.
    pub lines: Vec<TakeoffLine>,
    /// The cut list of each board.
    pub boards: Vec<BoardPlan>,
    /// The layout of each sheet on each floor.
    pub floors: Vec<FloorLayout>,
    /// The strips hung on walls and piers, by sheet.
    pub hung: Vec<HungPlan>,
    /// What is bought, by product.
    pub order: Vec<order::OrderItem>,
    /// What could not be counted or planned; the bill is incomplete where there is any.
    pub findings: Vec<Finding>,
    /// The terms it was made under.
    pub terms: Terms,
}

impl Job {
    /// Takes off, cuts, lays out and counts what is bought.
    pub fn of(houses: &[Arc<Foundation>], terms: &Terms) -> Job {
        let prefixed = houses.len() > 1;
        let mut job = Job {
            houses: houses.to_vec(),
            plans: houses.iter().map(|f| Plan::of(f, terms.basis)).collect(),
            lines: Vec::new(),
            boards: Vec::new(),
            floors: Vec::new(),
            hung: Vec::new(),
            order: Vec::new(),
            findings: Vec::new(),
            terms: terms.clone(),
        };
        let prefix = |f: &Foundation| if prefixed { format!("{}.", f.name) } else { String::new() };
        let mut all_runs = Vec::new();
        for (house, f) in houses.iter().enumerate() {
            let (taken, unmeasured) = lines(f, house, terms);
            for lack in unmeasured {
                job.findings.push(
                    Finding::new(codes::UNMEASURED_WORK, lack.origin, format!("not measured on {}", lack.element))
                        .label(lack.lack.words())
                        .item(format!("{}.{}", f.name, lack.element)),
                );
            }
            job.floors.extend(floors(f, &job.plans[house], house, &taken, &mut job.findings));
            all_runs.extend(runs(f, &job.plans[house], house, &prefix(f)));
            job.lines.extend(taken);
        }
        job.boards = plans(all_runs, terms, &mut job.findings);
        let planned: Vec<_> =
            houses.iter().zip(&job.plans).map(|(f, plan)| (f.clone(), plan.clone(), prefix(f))).collect();
        job.hung = hung(&planned, terms, &mut job.findings);
        job.recount();
        let (order, findings) = order::order(&job);
        job.order = order;
        job.findings.extend(findings);
        once(&mut job.findings);
        job
    }

    /// The work a line measures.
    pub fn work_of(&self, line: &TakeoffLine) -> Option<&Work> {
        let f = self.houses.get(line.house)?;
        let face = match line.of {
            WorkOf::Assembly(id) => f.assemblies.get(id.0 as usize)?.faces.iter().find(|x| x.name == line.face)?,
            WorkOf::Joint(number) => &f.joints.get(number)?.face,
        };
        face.works.get(line.work)
    }

    /// Counts anew what the cut list and the roll layouts know better: joints, laps, anchors and their heads.
    fn recount(&mut self) {
        let mut lines = std::mem::take(&mut self.lines);
        let joints: Vec<_> = self.boards.iter().flat_map(|b| joint_lengths(b, &self.houses)).collect();
        let pieces = self.pieces();
        for line in &mut lines {
            let Some(place) = self.work_of(line).map(|w| w.place) else { continue };
            match line.role {
                Role::Joints => {
                    let of = place.and_then(|p| p.of);
                    let found = joints.iter().find(|j| {
                        (j.house, j.element, j.face) == (line.house, line.element, line.face) && Some(j.layer) == of
                    });
                    if let Some(j) = found {
                        let how = How::say("joints in the cut list:").count(j.count);
                        line.recount(Measure::Length(j.length), Counted::CutList, how);
                    }
                }
                Role::Laps if place.is_some_and(|p| p.edge == EdgeName::Laps) => {
                    let of = place.and_then(|p| p.of);
                    let laid = self.floors.iter().find(|l| l.house == line.house && Some(l.layer) == of);
                    if let (Some(laid), "ground") = (laid, line.element.as_str()) {
                        let seams = laid.layout.seams.len() as u64;
                        let how = How::say("seams in the roll layout:").count(seams);
                        line.recount(Measure::Length(laid.layout.seam_length()), Counted::RollLayout, how);
                    }
                }
                Role::Fasteners if line.act == Act::Fasten => {
                    if let Some((count, how)) = self.anchors(line, &pieces) {
                        line.recount(Measure::Count(count), Counted::CutList, how);
                    }
                }
                _ => {}
            }
        }
        // Patches follow the heads they cover.
        let counts: Vec<_> = lines
            .iter()
            .filter(|l| l.role == Role::Fasteners && l.counted == Counted::CutList)
            .map(|l| ((l.house, l.element, l.face), l.product.clone(), l.net))
            .collect();
        for line in lines.iter_mut().filter(|l| l.role == Role::Heads) {
            let Some(of) = self.work_of(line).and_then(|w| w.place?.of) else { continue };
            let key = (line.house, line.element, line.face);
            let mine = counts.iter().filter(|(k, p, _)| *k == key && p.as_ref().is_some_and(|p| p.name == of));
            let (mut pieces, mut head) = (0_u64, None);
            for (_, product, net) in mine {
                if let Measure::Count(n) = net {
                    pieces += n;
                }
                head = product.as_ref().and_then(|p| p.head).or(head);
            }
            if pieces > 0 {
                let width = line.product.as_ref().and_then(|p| p.width).unwrap_or_default();
                let past = head.unwrap_or_default() + Length::new::<uom::si::length::inch>(2.0);
                let patch = past.max(width);
                let how = How::say("patches:").count(pieces).and("of").length(patch);
                line.recount(Measure::Length(patch * pieces as f64), Counted::CutList, how);
            }
        }
        self.lines = lines;
    }

    /// The sizes of the pieces cut for each layer of board on each element.
    fn pieces(&self) -> BTreeMap<Key, Vec<(Length, Length, Sheet)>> {
        let mut out: BTreeMap<Key, Vec<_>> = BTreeMap::new();
        for board in &self.boards {
            for (_, piece) in board.plan.pieces() {
                let Some(run) = board.run_of(piece) else { continue };
                let key = (run.house, run.element.as_str(), run.face.as_str(), run.layer.as_str());
                out.entry(key).or_default().push((piece.length(), piece.height(), board.sheet));
            }
        }
        out
    }

    /// The anchors of a board on one element, piece by piece.
    fn anchors(&self, line: &TakeoffLine, pieces: &BTreeMap<Key, Vec<(Length, Length, Sheet)>>) -> Option<(u64, How)> {
        let (each, _) = self.work_of(line)?.each?;
        let mine = pieces.get(&(line.house, line.element.as_str(), line.face.as_str(), line.layer.as_str()))?;
        let mut count = 0_u64;
        for (length, height, sheet) in mine {
            count += anchors_in_piece(*length, *height, each, *sheet, self.terms.anchor_edge)?;
        }
        Some((count, How::say("pieces in the cut list:").count(mine.len() as u64)))
    }

    /// Whether nothing is missing from the bill.
    pub fn is_complete(&self) -> bool {
        self.findings.iter().all(|f| f.severity < wythe_findings::Severity::Warning)
    }
}

/// House, element, face and layer.
type Key = (usize, &'static str, &'static str, &'static str);

/// Each finding once.
fn once(findings: &mut Vec<Finding>) {
    let mut seen = Vec::new();
    findings.retain(|f| {
        let key = (f.name.clone(), f.primary.span, f.title.clone());
        let new = !seen.contains(&key);
        seen.push(key);
        new
    });
}
