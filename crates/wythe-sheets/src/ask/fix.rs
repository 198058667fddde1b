//! What fixes this, how many in this piece, how far from the edge?

use wythe_bill::board::anchors_in_piece;
use wythe_model::{Act, Class};
use wythe_source::Symbol;

use super::{Answer, unknown};
use crate::House;
use crate::small::fastened_piece;
use crate::words::say;

/// The answer for a layer or a product, or for all; with a piece of the cut list, for that piece too.
///
/// # Errors
/// In words, where nothing of that name is fastened or there is no such piece.
pub fn fix(house: &House<'_>, asked: Option<&str>, piece: Option<usize>) -> Result<Answer, String> {
    let (w, f, telling) = (house.words, house.f(), house.telling());
    let mut lines: Vec<String> = Vec::new();
    let mut known: Vec<Symbol> = Vec::new();
    let mut each: Vec<(Symbol, f64)> = Vec::new();
    for assembly in &f.assemblies {
        for face in &assembly.faces {
            for work in face.works.iter().filter(|x| x.act == Act::Fasten) {
                let Some(product) = telling.product_of(Some(face), work.layer) else { continue };
                for name in [work.layer, product.name] {
                    if !known.contains(&name) {
                        known.push(name);
                    }
                }
                if asked.is_some_and(|a| work.layer.as_str() != a && product.name.as_str() != a) {
                    continue;
                }
                if let Some((count, _)) = work.each {
                    each.push((product.name, count));
                }
                let mut line = telling.step(face, assembly.kind, work, &house.first_levels());
                if let Some(with) = &work.product {
                    if let Some(length) = with.length {
                        line = format!("{line} {}", say!(w, "ask-fix-length", length = telling.span(length)));
                    }
                    if let Some(bite) = with.embedment {
                        line = format!("{line} {}", say!(w, "ask-fix-bite", bite = telling.span(bite)));
                    }
                }
                if product.class == Class::Board {
                    line =
                        format!("{line} {}", say!(w, "ask-fix-edge", edge = telling.span(house.job.terms.anchor_edge)));
                }
                if !lines.contains(&line) {
                    lines.push(line);
                }
            }
        }
    }
    if lines.is_empty() {
        return match asked {
            Some(name) => Err(unknown(house, name, &known)),
            None => Ok(Answer::of(vec![say!(w, "ask-fix-none")])),
        };
    }
    let mut drawing = None;
    if let Some(number) = piece {
        let all = || house.job.boards.iter().flat_map(|b| b.plan.pieces().map(move |(_, p)| (b, p)));
        let Some((board, found)) = all().find(|(_, p)| p.number == number) else {
            return Err(say!(w, "ask-fix-unknown-piece", number = number, last = all().count()));
        };
        let count = each.iter().find(|(p, _)| *p == board.product.name).map_or(0.0, |(_, n)| *n);
        let edge = house.job.terms.anchor_edge.min(found.length().min(found.height()) / 2.0);
        if let Some(count) =
            anchors_in_piece(found.length(), found.height(), count, board.sheet, house.job.terms.anchor_edge)
        {
            let size = format!("{} x {}", telling.length(found.length()), telling.length(found.height()));
            let place = found.mark.replace('_', " ");
            lines.insert(
                0,
                say!(
                    w,
                    "ask-fix-piece",
                    number = number,
                    size = size,
                    place = place,
                    count = count,
                    edge = telling.span(edge)
                ),
            );
            drawing = Some(fastened_piece(house, found.length(), found.height(), count, edge));
        }
    }
    lines.push(say!(w, "care-fasten"));
    Ok(Answer { lines, drawing })
}
