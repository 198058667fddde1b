//! What a rule reports when it fails: nothing in the fast instance, a [`Fault`] in the careful one.

use chumsky::DefaultExpected;
use chumsky::error::{EmptyErr, Error, LabelError};
use chumsky::span::SimpleSpan;
use chumsky::util::MaybeRef;

use super::state::Input;
use crate::token::{Kind, Token};

/// What was wanted where a rule failed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Wanted {
    /// A certain token.
    Kind(Kind),
    /// A name in lower case.
    Name,
    /// A name of a type.
    TypeName,
    /// A name of either sort.
    AnyName,
    /// A value.
    Value,
    /// A unit.
    Unit,
    /// A type.
    Type,
    /// A declaration.
    Declaration,
    /// A property, a section or a statement.
    Item,
    /// A verb.
    Verb,
    /// A clause of a layer, or the end of its line.
    Clause,
    /// An edge or a place on a layer.
    Edge,
    /// The end of the line, after something complete.
    LineEnd,
    /// The end of the line, after a value that could go on.
    Operator,
    /// `,` or the closing bracket.
    CommaOr(Kind),
    /// A second comparison in a row.
    SingleComparison,
    /// `to`, after the `from` at this place in the chunk.
    OtherEnd(u32),
    /// A plain name before the `:` of an argument, which starts at this place in the chunk.
    ArgumentName(u32),
    /// `-> Type`, or a body.
    FunctionBody,
    /// `give`
    Give,
    /// `if` only where a value starts.
    IfInBrackets,
    /// What chumsky's own parsers report; none is known to.
    Unknown,
}

/// A failure of the careful instance: where in the chunk, and what was wanted.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Fault {
    /// The token, counted in the chunk.
    pub at: u32,
    /// What was wanted there.
    pub wanted: Wanted,
    /// A second thing that was wanted at the same token.
    pub or: Option<Wanted>,
}

/// What rules need of an error type.
pub(super) trait Failure<'t>: Error<'t, Input<'t>> + 't {
    /// Whether rules recover and report, or give up at once.
    const CAREFUL: bool;

    /// A failure at a token of the chunk.
    fn at(at: usize, wanted: Wanted) -> Self;
}

impl Failure<'_> for EmptyErr {
    const CAREFUL: bool = false;

    #[inline(always)]
    fn at(_: usize, _: Wanted) -> Self {
        EmptyErr::default()
    }
}

impl Failure<'_> for Fault {
    const CAREFUL: bool = true;

    fn at(at: usize, wanted: Wanted) -> Self {
        Fault { at: at as u32, wanted, or: None }
    }
}

impl<'t> Error<'t, Input<'t>> for Fault {
    /// The failure that got further wins: what was tried before it only failed to start.
    fn merge(self, other: Self) -> Self {
        match self.at.cmp(&other.at) {
            std::cmp::Ordering::Less => other,
            std::cmp::Ordering::Greater => self,
            std::cmp::Ordering::Equal if self.wanted == other.wanted => self,
            std::cmp::Ordering::Equal => Fault { or: self.or.or(Some(other.wanted)), ..self },
        }
    }
}

impl<'t> LabelError<'t, Input<'t>, DefaultExpected<'t, Token>> for Fault {
    fn expected_found<I: IntoIterator<Item = DefaultExpected<'t, Token>>>(
        _: I,
        _: Option<MaybeRef<'t, Token>>,
        span: SimpleSpan<usize>,
    ) -> Self {
        Fault { at: span.start as u32, wanted: Wanted::Unknown, or: None }
    }
}
