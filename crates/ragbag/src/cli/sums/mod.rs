//! Sums without a workroom.

mod finishing;

use super::args::Sum;
use super::exit::Refusal;
use super::out::Out;
use super::read::{corners, length, number, pair, turning};
use plane::{Fit, FitAsk, Region, Turn, best_fit};
use quilt::length::{fraction, round_up};
use quilt::own_seam::OwnSeam;
use quilt::sums;
use serde_json::json;

pub(super) fn act(sum: &Sum, out: &Out) -> Result<(), Refusal> {
    match sum {
        Sum::Fit { piece, cloth, turn } => {
            let (piece, cloth) = (corners(piece, "piece")?, corners(cloth, "cloth")?);
            let cloth = Region { outer: cloth, holes: Vec::new() };
            let ask = FitAsk {
                piece: &piece,
                cloth: &cloth,
                turning: turning(*turn),
                base: Turn::NONE,
                margin: &[],
            };
            let fit = best_fit(&ask);
            let pose = fit.pose();
            let value = pose
                .map(|pose| json!({ "turn_deg": pose.turn.to_degrees(), "x": pose.by.x, "y": pose.by.y }));
            let words = pose.map_or_else(
                || undecided_or(fit, "It does not fit.".to_owned()),
                |pose| {
                    let (turn, x, y) = (pose.turn.to_degrees(), pose.by.x, pose.by.y);
                    format!("It fits: turned by {turn:.3} degrees, then moved by {x:.4}, {y:.4} inches.")
                },
            );
            out.say(
                &words,
                &json!({ "fits": pose.is_some(), "decided": fit != Fit::Unknown, "pose": value }),
            );
        }
        Sum::Cover { edge, corners, seam } => {
            let angles: Vec<f64> =
                corners.split(',').filter_map(|a| a.trim().trim_end_matches('°').parse().ok()).collect();
            let [first, second] = angles[..] else {
                let why = format!("corners: `{corners}` is not two angles");
                return Err(Refusal::bad(why, "Write them as 128,135."));
            };
            let need =
                sums::cover_need(length(edge, "edge")?, first, second, length(seam, "seam")?).map_err(bad)?;
            out.say(
                &format!(
                    "Needed along the seam line: {} inches, raw ({need:.3}).",
                    fraction(round_up(need, 8), 8)
                ),
                &json!({ "need_in": need }),
            );
        }
        Sum::Rounds { now, wished, depth, seam } => {
            let depths = pair(depth, ',', "depth")?;
            let rounds = sums::rounds_to_go(
                length(now, "now")?,
                length(wished, "wished")?,
                depths,
                length(seam, "seam")?,
            );
            let rounds = rounds.map_err(bad)?;
            let list: Vec<String> = rounds.cut_depths_in.iter().map(|depth| fraction(*depth, 8)).collect();
            let words = match list.len() {
                0 => "None: it is there.".to_owned(),
                n => format!("{n} more, cut {} deep.", list.join(", then ")),
            };
            out.say(&words, &json!({ "cut_depths_in": rounds.cut_depths_in, "over_in": rounds.over_in }));
        }
        Sum::Weight { grams, grams_per_m2 } => {
            let area =
                sums::area_by_weight(number(*grams, "grams")?, number(*grams_per_m2, "weight of the cloth")?)
                    .map_err(bad)?;
            out.say(&format!("About {area:.0} square inches."), &json!({ "area_in2": area }));
        }
        Sum::OwnSeam { strips, cut, across } => {
            let seam =
                OwnSeam::calibrated(*strips, length(cut, "cut width")?, length(across, "width across")?)
                    .map_err(bad)?;
            let words =
                format!("Each seam eats {} of the two cut edges together.", fraction(seam.whole_in(), 64));
            out.say(&words, &json!({ "seam_eats_in": seam.eats_in(), "whole_in": seam.whole_in() }));
        }
        Sum::Finishing(sum) => {
            let (words, value) = finishing::answer(sum)?;
            out.say(&words, &value);
        }
    }
    Ok(())
}

fn bad(why: impl std::fmt::Display) -> Refusal {
    Refusal::bad(why.to_string(), "")
}

/// What is said when no place was found: that there is none only where that was decided.
pub(super) fn undecided_or(fit: Fit, no: String) -> String {
    if fit == Fit::Unknown {
        "Whether it fits was not decided: there are too many ways to try. Give the cloth fewer corners."
            .to_owned()
    } else {
        no
    }
}
