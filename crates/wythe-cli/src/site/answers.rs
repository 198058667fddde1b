//! `wythe ask`

use std::io::{self, Write as _};
use std::path::PathBuf;

use clap::{Subcommand, ValueEnum};
use wythe_render::drawing::{Theme, to_svg};
use wythe_sheets::ask::{self, Answer, Change, Deed};

use super::asked::{Asked, Known, known};
use crate::args::Format;
use crate::bill::what_if::outcomes;
use crate::exit::Exit;
use crate::output::{complain, out};
use crate::replace::put;

/// Ask what people ask on site; a short plain answer, and where it helps a small drawing.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Examples:\n  wythe ask wall unit_4 south\n  wythe ask may unit_4 frame\n  wythe ask cut unit_4 3 --drawing sheet_3.svg\n  wythe ask rain unit_4 --language es"
)]
pub(crate) struct Ask {
    #[command(subcommand)]
    pub question: Question,
}

#[derive(Subcommand, Debug)]
pub(crate) enum Question {
    /// How long and high is this wall inside, and where does the top of the board land?
    Wall {
        #[command(flatten)]
        asked: Asked,
        /// The wall.
        wall: String,
        #[command(flatten)]
        form: Form,
    },
    /// How many sheets, rolls and tubes for what is left?
    Left {
        #[command(flatten)]
        asked: Asked,
        #[command(flatten)]
        form: Form,
    },
    /// What goes on next here, and what must be seen first?
    Next {
        #[command(flatten)]
        asked: Asked,
        /// A wall, a pier, an opening, or `ground`.
        place: String,
        #[command(flatten)]
        form: Form,
    },
    /// May I cover this, frame, or close the vents today?
    May {
        #[command(flatten)]
        asked: Asked,
        /// What you want to do.
        #[arg(value_enum)]
        deed: DeedAsked,
        #[command(flatten)]
        form: Form,
    },
    /// How do I cut this sheet, and which offcut do I keep?
    Cut {
        #[command(flatten)]
        asked: Asked,
        /// The sheet, by its number in the cut list.
        sheet: usize,
        #[command(flatten)]
        form: Form,
    },
    /// How far does this lap, over or under?
    Lap {
        #[command(flatten)]
        asked: Asked,
        /// A layer or a product; all, if left out.
        what: Option<String>,
        #[command(flatten)]
        form: Form,
    },
    /// What fixes this, how many in this piece, how far from the edge?
    Fix {
        #[command(flatten)]
        asked: Asked,
        /// A layer or a product; all, if left out.
        what: Option<String>,
        /// A piece of the cut list, by its number.
        #[arg(long, value_name = "NUMBER")]
        piece: Option<usize>,
        #[command(flatten)]
        form: Form,
    },
    /// What will the inspector want to see?
    Inspector {
        #[command(flatten)]
        asked: Asked,
        #[command(flatten)]
        form: Form,
    },
    /// What does another board, a higher wall or a wider gap do to price, sheets and R?
    Change {
        #[command(flatten)]
        asked: Asked,
        /// A name of an argument or a property, and its new value.
        #[arg(value_name = "NAME=VALUE")]
        change: crate::bill::vary::Variation,
        /// The price list to use, where there are several.
        #[arg(long, value_name = "NAME")]
        prices: Option<String>,
        #[command(flatten)]
        form: Form,
    },
    /// It rained: what is open, and what must dry?
    Rain {
        #[command(flatten)]
        asked: Asked,
        #[command(flatten)]
        form: Form,
    },
}

/// The form of an answer.
#[derive(clap::Args, Debug, Clone)]
pub(crate) struct Form {
    /// The form of the output.
    #[arg(long, value_enum, default_value_t)]
    pub format: Format,
    /// Where to put the small drawing, if the answer has one.
    #[arg(long, value_name = "FILE")]
    pub drawing: Option<PathBuf>,
}

/// What someone wants to do.
#[derive(ValueEnum, Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum DeedAsked {
    /// Cover the outside: backfill.
    Cover,
    /// Frame the floor.
    Frame,
    /// Close the vents and the space.
    CloseVents,
}

impl DeedAsked {
    const fn deed(self) -> Deed {
        match self {
            DeedAsked::Cover => Deed::Cover,
            DeedAsked::Frame => Deed::Frame,
            DeedAsked::CloseVents => Deed::CloseVents,
        }
    }
}

impl Question {
    /// Its name, the house it is about, and the form of its answer.
    fn parts(&self) -> (&'static str, &Asked, &Form) {
        match self {
            Question::Wall { asked, form, .. } => ("wall", asked, form),
            Question::Left { asked, form } => ("left", asked, form),
            Question::Next { asked, form, .. } => ("next", asked, form),
            Question::May { asked, form, .. } => ("may", asked, form),
            Question::Cut { asked, form, .. } => ("cut", asked, form),
            Question::Lap { asked, form, .. } => ("lap", asked, form),
            Question::Fix { asked, form, .. } => ("fix", asked, form),
            Question::Inspector { asked, form } => ("inspector", asked, form),
            Question::Change { asked, form, .. } => ("change", asked, form),
            Question::Rain { asked, form } => ("rain", asked, form),
        }
    }
}

pub(crate) fn run(args: &Ask) -> io::Result<Exit> {
    let (name, asked, form) = args.question.parts();
    let Some(mut known) = known(asked)? else { return Ok(Exit::Unusable) };
    let answer = match answer(&args.question, &mut known) {
        Ok(answer) => answer,
        Err(why) => {
            complain(&why);
            return Ok(Exit::Unusable);
        }
    };
    if let Some(path) = &form.drawing {
        let Some(drawing) = &answer.drawing else {
            complain(&"this answer has no drawing");
            return Ok(Exit::Unusable);
        };
        if let Err(error) = put(path, to_svg(drawing, Theme::Print)) {
            complain(&format_args!("{}: not written: {error}", path.display()));
            return Ok(Exit::Unusable);
        }
    }
    write(name, &answer, form.format)
}

fn write(name: &str, answer: &Answer, format: Format) -> io::Result<Exit> {
    let mut out = out();
    match format {
        Format::Text => {
            for line in &answer.lines {
                writeln!(out, "{}", wythe_render::terminal::clean(line))?;
            }
        }
        Format::Json => {
            let value = serde_json::json!({ "form": 1, "kind": "answer", "question": name, "answer": answer.lines });
            let text = serde_json::to_string_pretty(&value).map_err(io::Error::other)?;
            writeln!(out, "{text}")?;
        }
    }
    out.flush()?;
    Ok(Exit::Clean)
}

fn answer(question: &Question, known: &mut Known) -> Result<Answer, String> {
    match question {
        Question::Wall { wall, .. } => ask::wall(&known.house(), wall),
        Question::Left { .. } => Ok(ask::left(&known.house())),
        Question::Next { place, .. } => ask::next(&known.house(), place),
        Question::May { deed, .. } => Ok(ask::may(&known.house(), deed.deed())),
        Question::Cut { sheet, .. } => ask::cut(&known.house(), *sheet),
        Question::Lap { what, .. } => ask::lap(&known.house(), what.as_deref()),
        Question::Fix { what, piece, .. } => ask::fix(&known.house(), what.as_deref(), *piece),
        Question::Inspector { .. } => Ok(ask::inspection(&known.house())),
        Question::Rain { .. } => Ok(ask::rain(&known.house())),
        Question::Change { change, prices, .. } => changed(known, change, prices.as_deref()),
    }
}

fn changed(known: &mut Known, change: &crate::bill::vary::Variation, prices: Option<&str>) -> Result<Answer, String> {
    let [value] = change.values.as_slice() else {
        return Err("one value; `wythe what-if` lays several side by side".into());
    };
    let before = crate::bill::worked::worked(&known.plans, &known.houses, prices, None).outcome();
    let way = [vec![value.clone()]];
    let judged = known.plans.judged.clone();
    let found = outcomes(&mut known.plans, &known.houses, prices, std::slice::from_ref(&change.name), &way);
    known.plans.judged = judged;
    let after = found?.into_iter().next().flatten().map(|(worked, _)| worked.outcome());
    let told = Change { name: &change.name, value, before: &before, after: after.as_ref() };
    Ok(ask::change(&known.house(), &told))
}
