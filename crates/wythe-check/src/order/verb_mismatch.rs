//! `verb_mismatch`: a product of a class its verb does not take.

use wythe_findings::{Finding, codes};
use wythe_model::{Act, Class};

use super::context::Context;

/// The classes a verb takes.
const fn takes(act: Act) -> &'static [Class] {
    match act {
        Act::Coat => &[Class::Coating],
        Act::Drain => &[Class::Drain],
        Act::Fill => &[Class::Aggregate, Class::Concrete],
        Act::Lay => &[Class::Membrane, Class::Board, Class::Aggregate],
        Act::Hang => &[Class::Membrane],
        Act::Set => &[Class::Board, Class::Equipment, Class::Lumber, Class::Masonry],
        Act::Fasten => &[Class::Fastener],
        Act::Cap => &[Class::Tape, Class::Coating, Class::Masonry, Class::Concrete, Class::Membrane],
        Act::Tape => &[Class::Tape],
        Act::Seal => &[Class::Sealant],
        Act::Lap | Act::Remove => &[],
    }
}

pub(super) fn check(context: &Context, out: &mut Vec<Finding>) {
    for work in context.works() {
        let Some(product) = work.product.as_deref() else { continue };
        let classes = takes(work.act);
        if classes.is_empty() || classes.contains(&product.class) {
            continue;
        }
        let names: Vec<&str> = classes.iter().map(|c| c.name()).collect();
        let finding = Finding::new(
            codes::VERB_MISMATCH,
            work.origin,
            format!("`{}` does not take a {}", work.act.word(), product.class.name()),
        )
        .label(format!("`{}` takes {}", work.act.word(), names.join(" or ")))
        .related(product.origin, format!("`{}` is a {}", product.name, product.class.name()))
        .mend(match verb_for(product.class) {
            Some(verb) => format!("`{verb} {}`", work.layer),
            None => "another product".to_owned(),
        });
        out.push(context.placed(finding));
    }
}

const fn verb_for(class: Class) -> Option<&'static str> {
    match class {
        Class::Coating => Some("coat"),
        Class::Membrane => Some("hang"),
        Class::Board | Class::Equipment => Some("set"),
        Class::Tape => Some("tape"),
        Class::Sealant => Some("seal"),
        Class::Drain => Some("drain"),
        Class::Aggregate => Some("fill"),
        Class::Fastener | Class::Masonry | Class::Concrete | Class::Lumber => None,
    }
}
