//! The command line: arguments declare, one place runs them, one place prints.
//!
//! Data goes to stdout, talk and progress to stderr. With `--json` every answer is one JSON value;
//! its fields are told in `docs/JSON.md`.

mod args;
mod carry;
mod centres;
mod change;
mod cutting;
mod exit;
mod files;
mod finish;
mod lines;
mod look;
mod next;
mod out;
mod papers;
mod photo;
mod quilts;
mod read;
mod serve;
mod sew;
mod stash;
mod sums;
mod templates;
mod thread;

use args::{Arguments, Command, ScrapWay};
use clap::Parser;
use exit::{Exit, Refusal};
use out::Out;
use std::process::ExitCode;

/// Reads the arguments, does what they say, and says how it went.
pub(crate) fn run() -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(error) => {
            // Help and version are answers; the rest are refusals. A closed pipe is no trouble.
            let _ = error.print();
            return if error.use_stderr() { Exit::BadInput.into() } else { ExitCode::SUCCESS };
        }
    };
    let out = Out::new(arguments.json);
    match act(&arguments, &out) {
        Ok(()) => ExitCode::SUCCESS,
        Err(refusal) => {
            out.refuse(&refusal);
            refusal.exit.into()
        }
    }
}

fn act(arguments: &Arguments, out: &Out) -> Result<(), Refusal> {
    match &arguments.command {
        Command::Sums { sum } => sums::act(sum, out),
        Command::Openapi => serve::openapi(out),
        Command::Serve { port, demo } => serve::serve(arguments, *port, *demo, out),
        Command::Demo { bed_size } => serve::demo(arguments, *bed_size, out),
        Command::Add { way, spots } => stash::add(arguments, way, spots, out),
        Command::Cards(cards) => photo::cards(cards, out),
        Command::Scrap { way: ScrapWay::Photo(asked) } => photo::photo(arguments, asked, out),
        Command::Scrap { way: ScrapWay::CardSide { side } } => {
            photo::card_side(arguments, side.as_deref(), out)
        }
        Command::Scrap { way: ScrapWay::Outline(asked) } => photo::outline(arguments, asked, out),
        Command::Remeasure(asked) => photo::remeasure(arguments, asked, out),
        Command::CatchUp(asked) => photo::catch_up(arguments, asked, out),
        Command::Heap { search } => stash::list(arguments, search.as_deref(), out),
        Command::Cut { cloth, piece, keep, anyway } => {
            stash::cut(arguments, *cloth, piece, [*keep, *anyway], out)
        }
        Command::Fit { cloth, piece, turn, rough } => stash::fit(arguments, *cloth, piece, *turn, rough, out),
        Command::Change(change) => change::change(arguments, change, out),
        Command::SamePrint { cloths } => change::same_print(arguments, cloths, out),
        Command::GiveAway { cloth } => change::give_away(arguments, *cloth, out),
        Command::Leftovers { width, area } => change::leftovers(arguments, width.as_deref(), *area, out),
        Command::Strips { what } => stash::strips(arguments, what, out),
        Command::Quilt { name } => quilts::new(arguments, name, out),
        Command::Quilts => quilts::list(arguments, out),
        Command::Rename { name } => quilts::rename(arguments, name, out),
        Command::Drop { what_if } => quilts::drop(arguments, what_if, out),
        Command::Wish(wish) => quilts::wish(arguments, wish, out),
        Command::Log => quilts::log(arguments, out),
        Command::Next { side, count } => next::next(arguments, side.as_deref(), *count, out),
        Command::Take { no, bend } => next::take(arguments, *no, bend, out),
        Command::Refuse { no } => next::refuse(arguments, *no, out),
        Command::ForgetRefusals => next::forget_refusals(arguments, out),
        Command::Grow(grow) => next::grow(arguments, grow, out),
        Command::WhatIfs { count, grow } => next::what_ifs(arguments, *count, grow, out),
        Command::Start { cloth, piece } => sew::start(arguments, *cloth, piece, out),
        Command::Sew(sewing) => sew::sew(arguments, sewing, out),
        Command::Join { with, onto, slide, press } => sew::join(arguments, with, onto, slide, *press, out),
        Command::Close { seam } => sew::close(arguments, seam, out),
        Command::Sewn { step } => sew::sewn(arguments, *step, out),
        Command::Instead { cloth, size, patch, anyway } => {
            sew::instead(arguments, *cloth, size.as_deref(), *patch, *anyway, out)
        }
        Command::Trim(cut) => sew::trim(arguments, cut, out),
        Command::Slice(cut) => sew::slice(arguments, cut, out),
        Command::PutIn { cut, cloth, width } => sew::put_in(arguments, cut, *cloth, width, out),
        Command::Unpick { step } => sew::unpick(arguments, *step, out),
        Command::Resew => sew::resew(arguments, out),
        Command::Undo => sew::undo(arguments, out),
        Command::Measure { sides } => sew::measure(arguments, sides, out),
        Command::TrueUp { sides, plan } => sew::true_up(arguments, *sides, *plan, out),
        Command::Note { words } => sew::note(arguments, words, out),
        Command::Choose { stage, words } => sew::choose(arguments, *stage, words, out),
        Command::Finish { plan, look, what_if } => {
            finish::finish(arguments, plan, *look, what_if.as_deref(), out)
        }
        Command::Make { plan, look } => finish::make(arguments, plan, *look, out),
        Command::JoinCentres(asked) => centres::join(arguments, asked, out),
        Command::Habits { changes } => thread::habits(arguments, changes, out),
        Command::Shop { cloth_by, usable, spool_m } => {
            thread::shop(arguments, *cloth_by, usable.as_deref(), *spool_m, out)
        }
        Command::Threads { spool } => thread::threads(arguments, spool, out),
        Command::Enough { per_hour } => finish::enough(arguments, *per_hour, out),
        Command::Eye(asked) => match &asked.photo {
            Some(picture) => photo::eye(arguments, picture, asked, out),
            None => look::eye(arguments, out),
        },
        Command::Sides => look::sides(arguments, out),
        Command::Audit => look::audit(arguments, out),
        Command::Draw(draw) => look::draw(arguments, draw, out),
        Command::Papers(asked) => papers::papers(arguments, asked, out),
        Command::Cutting(asked) => cutting::cutting(arguments, asked, out),
        Command::Booklet(asked) => papers::booklet(arguments, asked, out),
        Command::Wording(asked) => papers::wording(arguments, asked, out),
        Command::Designs(designs) => lines::designs(arguments, designs, out),
        Command::Templates(asked) => templates::templates(arguments, asked, out),
        Command::Lines(asked) => lines::lines(arguments, asked, out),
        Command::Export { file, over } => carry::export(arguments, file, *over, out),
        Command::Import { file, name } => carry::import(arguments, file, name.as_deref(), out),
    }
}
