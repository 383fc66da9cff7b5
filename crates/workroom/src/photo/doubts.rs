//! Doubts and cautions in sentences.

use super::source::Source;
use quilt::length::fraction;
use vision::flatten::{HOLDS, WhyLeftOut};
use vision::{Doubt, Found};

/// A residual from here on is told, in inches.
const COARSE_IN: f64 = 1.0 / 64.0;
/// Less of the picture than this holds: that is told.
const LITTLE_HOLDS: f64 = 0.9;
/// More of the cards' white than this at the camera's limit is told.
const BURNT: f64 = 0.25;
/// From here on outlines lose their figures, in pixels an inch.
const COARSE_PER_IN: f64 = 60.0;

/// What speaks against an outline, a sentence each.
pub(super) fn of(found: &Found) -> Vec<String> {
    let cut_off = found.cut_off.then_some("It runs out of the picture: there is more of it than was seen.");
    let doubts = found.doubts.iter().map(|doubt| match doubt {
        Doubt::LittleContrast => "It looks much like the ground it lies on: the edge may be off.",
        Doubt::EdgeUnclear => {
            "Along much of it no clear edge was found: hold the outline against the picture."
        }
        Doubt::Ragged => "Its edge is frayed, or bent finer than the outline follows.",
        Doubt::Touching => "It touched a neighbour and was told apart by the look of both.",
        Doubt::Hole => "It has a hole; a part of the print that looks like the ground would seem one too.",
        Doubt::AtCard => "It lies at a measuring card, which may hide a part of it.",
        Doubt::Small => "It is so small that it may be a crumb or a mark.",
    });
    cut_off.into_iter().chain(doubts).map(str::to_owned).collect()
}

/// What should be known before a picture is trusted, a sentence each.
pub(super) fn cautions(source: &Source) -> Vec<String> {
    let (map, cards) = (&source.map, source.map.used().len());
    let mut told = Vec::new();
    if cards == 1 {
        told.push("There is one card only: lengths hold near it, and less the farther away.".to_owned());
    } else if cards == 2 {
        told.push("There are two cards only: three or more, around the cloth, hold better.".to_owned());
    }
    let holds = map.share_that_holds();
    if holds < LITTLE_HOLDS {
        told.push(format!(
            "Lengths are likely right to {:.1} % in {:.0} % of the picture; lay cards where it doesn't hold.",
            100.0 * HOLDS,
            100.0 * holds
        ));
    }
    if map.residual_in() > COARSE_IN {
        told.push(format!(
            "The cards agree to {:.1}/64 inch only: press them flat, and mix no two printings.",
            64.0 * map.residual_in()
        ));
    }
    let per_in = source.pixels_per_in();
    if per_in < COARSE_PER_IN {
        told.push(format!(
            "The picture has {per_in:.0} pixels an inch; from {COARSE_PER_IN:.0} on outlines are surer: go nearer."
        ));
    }
    match &source.light {
        None => told.push("No white margin of a card shows: colours are as the camera saw them.".to_owned()),
        Some(light) if light.burnt() > BURNT => told.push(
            "The cards' white is too bright for the camera: colours come out darker than they are."
                .to_owned(),
        ),
        Some(_) => {}
    }
    told
}

/// Why a card was left out, in a sentence.
pub(super) fn why_left_out(why: WhyLeftOut) -> String {
    match why {
        WhyLeftOut::OtherSide { side_in } => format!(
            "its side is {} where the others' is as told: it is of another printing",
            fraction(side_in, 64)
        ),
        WhyLeftOut::NotFlat { off_in } if off_in.is_finite() => {
            format!(
                "its corners lie {:.1}/64 inch off: it is curled, half covered, or not flat",
                64.0 * off_in
            )
        }
        WhyLeftOut::Blurred { blur_px } => {
            format!("its edges are smeared over {blur_px:.1} pixels, more than the others'")
        }
        WhyLeftOut::NotFlat { .. } => "it is curled, half covered, or not flat".to_owned(),
    }
}
