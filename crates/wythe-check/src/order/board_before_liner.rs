//! `board_before_liner`: a board is set straight on the masonry and the liner meant to lie behind it is hung over it.

use wythe_findings::{Finding, codes};
use wythe_model::{Act, Class, Control};

use super::context::{Context, with_fix};
use super::history::{Found, History, Life};
use super::words::{done, line};

/// A board and the liner hung over it, as lives of a history, where nothing but masonry and coats lies behind them.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Swapped {
    pub board: usize,
    pub liner: usize,
}

/// The boards of an inside face that stand where the liner should.
pub(crate) fn swapped(history: &History) -> Vec<Swapped> {
    if history.face.name.as_str() != "inside" {
        return Vec::new();
    }
    let lives = &history.lives;
    let mut out = Vec::new();
    for (board, life) in lives.iter().enumerate().filter(|(_, l)| l.act == Act::Set && l.class() == Some(Class::Board))
    {
        if lives[..board].iter().any(|behind| is_liner(behind) && behind.is_live_at(life.work)) {
            continue;
        }
        let over = |liner: &&usize| is_liner(&lives[**liner]) && life.is_live_at(lives[**liner].work);
        let later: Vec<usize> = (board + 1..lives.len()).collect();
        if let Some(&liner) = later.iter().filter(over).find(|l| lives[**l].range.meets(life.range)) {
            out.push(Swapped { board, liner });
        }
    }
    out
}

fn is_liner(life: &Life) -> bool {
    life.act == Act::Hang && life.product.is_some_and(|p| p.controls.has(Control::Vapor) && !p.sacrificial)
}

pub(super) fn check(context: &Context, out: &mut Vec<Finding>) {
    let (works, history) = (context.works(), &context.history);
    for Swapped { board, liner } in context.swapped.iter().copied() {
        let (board, liner) = (&history.lives[board], &history.lives[liner]);
        let title = format!("`{}` is {} before `{}`, which goes behind it", board.name, done(board.act), liner.name);
        let finding = Finding::new(codes::BOARD_BEFORE_LINER, works[board.work].origin, title)
            .label("stands against the masonry with nothing between")
            .related(works[liner.work].origin, format!("`{}` comes only here, over the board", liner.name));
        let last = last_of_liner(history, liner, board);
        let mend = match last {
            Some(last) if last != liner.work => format!(
                "the order that works: `{}`, what follows of it up to `{}`, then `{}`",
                line(&works[liner.work]),
                line(&works[last]),
                line(&works[board.work])
            ),
            _ => format!("the order that works: `{}`, then `{}`", line(&works[liner.work]), line(&works[board.work])),
        };
        let fix = last.and_then(|last| context.reorder(board.work, last));
        out.push(context.placed(with_fix(finding.mend(mend), fix)));
    }
}

/// The last work on the liner that the board can be moved behind; none where the board is worked on before that.
fn last_of_liner(history: &History, liner: &Life, board: &Life) -> Option<usize> {
    let is = |found: Found, wanted: &Life| match found {
        Found::Live(life) | Found::Later(life) => history.lives[life].work == wanted.work,
        Found::Fasteners(fasten) => history.fastened_by(fasten).is_some_and(|l| history.lives[l].work == wanted.work),
        _ => false,
    };
    let of = |wanted: &'_ Life| {
        history.references.iter().filter(|r| is(r.found, wanted)).map(|r| r.work).collect::<Vec<_>>()
    };
    let first_on_board = of(board).into_iter().min().unwrap_or(usize::MAX);
    if first_on_board < liner.work {
        return None;
    }
    of(liner).into_iter().filter(|w| *w > liner.work && *w < first_on_board).max().or(Some(liner.work))
}
