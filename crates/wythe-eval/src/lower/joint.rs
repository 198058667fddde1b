//! Joints between faces.

use std::sync::Arc;

use wythe_model::{Face, FaceKey, Joint, SurfaceKind};
use wythe_syntax::ast::{Block, FaceRef, Ident};

use crate::lower::assembly::works;
use crate::{Evaluator, Frame, Value};

/// A joint from its block.
pub fn joint<'p>(
    ev: &mut Evaluator<'p>,
    frame: &mut Frame<'p>,
    name: Ident,
    first: FaceRef,
    second: FaceRef,
    block: &Block,
) -> Value {
    let (Some(first), Some(second)) = (key(first), key(second)) else { return Value::Broken };
    let face = Face { name: name.name, origin: name.span, works: works(ev, frame, block) };
    Value::Joint(Arc::new(Joint { name: name.name, origin: name.span, first, second, face }))
}

fn key(face: FaceRef) -> Option<FaceKey> {
    let kind = SurfaceKind::of_word(face.kind.name.as_str())?;
    Some(FaceKey { kind, face: face.surface.name })
}
