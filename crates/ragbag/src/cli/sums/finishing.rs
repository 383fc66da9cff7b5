//! Sums of the finishing: binding, border, back, thread, sleeve, and what comes out in the wash.

use super::bad;
use crate::cli::args::{Finishing, JoinArg};
use crate::cli::exit::Refusal;
use crate::cli::read::{corners, length, number};
use quilt::length::{Length, MeasureProblem, fraction, whole_up, yards};
use quilt::sums::{self, BorderProblem, CutShape, Join, Seams};
use serde_json::{Value, json};

/// The longest line that thread is reckoned for, in inches: a bed-size quilt matchstick-quilted is a
/// tenth of it.
const LONGEST_LINE_IN: f64 = 1e6;

/// The answer in words and as JSON.
pub(super) fn answer(sum: &Finishing) -> Result<(String, Value), Refusal> {
    match sum {
        Finishing::Binding { sides, perimeter, strip_width, usable, join, seam } => {
            let net = match (sides, perimeter) {
                (Some(sides), _) => round(sides)?,
                (None, Some(perimeter)) => length(perimeter, "perimeter")?,
                (None, None) => return Err(Refusal::bad("nothing to bind", "Give --sides or --perimeter.")),
            };
            let join = if *join == JoinArg::Straight { Join::Straight } else { Join::Diagonal };
            let [width, usable] = [length(strip_width, "strip width")?, length(usable, "usable")?];
            binding(net, width, usable, join, length(seam, "seam")?)
        }
        Finishing::Bias { square, strip_width, seam } => {
            bias(length(square, "square")?, length(strip_width, "strip width")?, length(seam, "seam")?)
        }
        Finishing::Border { outline, width, seam } => {
            border(outline, length(width, "width")?, length(seam, "seam")?)
        }
        Finishing::Backing { width, length: long, overage, usable, seam } => {
            let size = [length(width, "width")?, length(long, "length")?];
            backing(size, length(overage, "overage")?, length(usable, "usable")?, length(seam, "seam")?)
        }
        Finishing::Thread { length, stitch_mm, thickness } => thread(length, *stitch_mm, thickness),
        Finishing::Spiral { radius, gap } => {
            let long = sums::spiral_length(length(radius, "radius")?, length(gap, "gap")?).map_err(bad)?;
            Ok((
                format!("The spiral is {long:.0} inches long ({:.1} yards).", long / 36.0),
                json!({ "length_in": long }),
            ))
        }
        Finishing::Sleeve { width, strip, seam } => sleeve(width, strip.as_deref(), length(seam, "seam")?),
        Finishing::Shrink { before, after, percent } => shrink(before.as_deref(), after.as_deref(), *percent),
        Finishing::Cut { finished, seam } => cut(length(finished, "finished")?, length(seam, "seam")?),
    }
}

/// The length round a piece from its sides.
fn round(sides: &str) -> Result<f64, Refusal> {
    let sides: Vec<f64> = sides.split(',').map(|side| length(side, "sides")).collect::<Result<_, _>>()?;
    let (sum, longest) = (sides.iter().sum::<f64>(), sides.iter().copied().fold(0.0, f64::max));
    if sides.len() < 3 {
        return Err(Refusal::bad("sides: a piece has at least three", "Write them as 60,72,60,72."));
    }
    if longest >= sum - longest {
        let why = format!("sides: {} is as long as all the others together", fraction(longest, 16));
        return Err(Refusal::bad(why, "Such sides close no outline: check them."));
    }
    Ok(sum)
}

fn binding(net: f64, width: f64, usable: f64, join: Join, seam: f64) -> Result<(String, Value), Refusal> {
    let strips = sums::binding_strips(net, width, usable, join, seam).map_err(bad)?;
    let handling = sums::binding_strips(net + sums::HANDLING_IN, width, usable, join, seam).map_err(bad)?;
    let words = format!(
        "{}, which give {} inches joined; {} are needed, of which the closing join overlaps {}. With the customary {:.0} inches for handling: {}.",
        count(strips.strips, "strip"),
        fraction(strips.length_got_in, 16),
        fraction(strips.length_needed_in, 16),
        fraction(strips.closing_overlap_in, 16),
        sums::HANDLING_IN,
        handling.strips,
    );
    let value = json!({
        "strips": strips.strips,
        "length_needed_in": strips.length_needed_in,
        "length_got_in": strips.length_got_in,
        "closing_overlap_in": strips.closing_overlap_in,
        "handling_in": sums::HANDLING_IN,
        "strips_with_handling": handling.strips,
    });
    Ok((words, value))
}

fn bias(square: f64, width: f64, seam: f64) -> Result<(String, Value), Refusal> {
    let bias = sums::bias_from_square(square, width, seam).map_err(bad)?;
    let words = format!(
        "{} round the tube, {:.0} inches in one piece.",
        count(bias.strips, "strip"),
        bias.length_in.floor()
    );
    Ok((words, json!({ "strips": bias.strips, "length_in": bias.length_in })))
}

fn border(outline: &str, width: f64, seam: f64) -> Result<(String, Value), Refusal> {
    let border =
        sums::mitred_border(&corners(outline, "outline")?, width, seam).map_err(|why| match why {
            BorderProblem::TooWide { .. } | BorderProblem::Overlaps { .. } => {
                Refusal::refused(why.to_string(), "")
            }
            BorderProblem::Measure(_) | BorderProblem::Outline(_) => bad(why),
        })?;
    let mut words = format!(
        "Finished it is {} round and {:.0} square inches. Cut strips {} wide, mitred:",
        fraction(border.outer_perimeter_in, 8),
        border.area_sq_in,
        fraction(border.cut_width_in, 8)
    );
    for (no, side) in border.sides.iter().enumerate() {
        let [long, short] = [side.cut_long_in, side.cut_short_in].map(|edge| fraction(edge, 8));
        words.push_str(&format!(
            "\n  side {}: {long} along the long edge, {short} along the short one",
            no + 1
        ));
    }
    Ok((words, json!(border)))
}

fn backing(
    [width, long]: [f64; 2],
    overage: f64,
    usable: f64,
    seam: f64,
) -> Result<(String, Value), Refusal> {
    let back = sums::backing(width, long, overage, usable, seam).map_err(bad)?;
    let way = if back.seams == Seams::Along { "along the length" } else { "across the width" };
    let words = format!(
        "{} {way}, each cut {} long: {}.",
        count(back.panels, "panel"),
        fraction(back.panel_length_cut_in, 8),
        yards(back.yards)
    );
    Ok((words, json!(back)))
}

fn thread(line: &str, stitch_mm: f64, thickness: &str) -> Result<(String, Value), Refusal> {
    let line = match line.trim().parse::<Length>() {
        Ok(line) => line.inches(),
        // A line of stitches may be longer than any cloth.
        Err(MeasureProblem::TooLong { inches, .. }) if inches <= LONGEST_LINE_IN => inches,
        Err(why) => return Err(Refusal::bad(format!("length: {why}"), "")),
    };
    let thread = sums::lockstitch(line, number(stitch_mm, "stitch")?, length(thickness, "thickness")?);
    let thread = thread.map_err(bad)?;
    let flat = line * sums::FLAT_RATIO;
    let words = format!(
        "{:.0} yards above and {:.0} below, without waste. The trade's flat ratio says {:.0} in all.",
        whole_up(thread.needle_in / 36.0),
        whole_up(thread.bobbin_in / 36.0),
        whole_up(flat / 36.0)
    );
    let value =
        json!({ "needle_in": thread.needle_in, "bobbin_in": thread.bobbin_in, "flat_ratio_total_in": flat });
    Ok((words, value))
}

fn sleeve(width: &str, strip: Option<&str>, seam: f64) -> Result<(String, Value), Refusal> {
    let width = length(width, "width")?;
    let strip = strip.map_or_else(|| Ok(sums::usual_sleeve_strip(width)), |strip| length(strip, "strip"))?;
    let sleeve = sums::sleeve(width, strip, seam).map_err(bad)?;
    let words = format!(
        "Cut {} {} wide and {} long; hemmed it is {} long and {} deep. A round rod of at most {} goes in.",
        count(sleeve.parts, "strip"),
        fraction(sleeve.cut_width_in, 8),
        fraction(sleeve.cut_length_in, 8),
        fraction(sleeve.finished_length_in, 8),
        fraction(sleeve.flat_in, 8),
        // Rounded down, so that it does go in.
        fraction((sleeve.rod_most_in * 8.0).floor() / 8.0, 8),
    );
    Ok((words, json!(sleeve)))
}

fn shrink(
    before: Option<&str>,
    after: Option<&str>,
    percent: Option<f64>,
) -> Result<(String, Value), Refusal> {
    let read = |text: Option<&str>, what| text.map(|text| length(text, what)).transpose();
    let (before, after, percent) = match (read(before, "before")?, read(after, "after")?, percent) {
        (Some(before), Some(after), None) => {
            (before, after, sums::shrunk_percent(before, after).map_err(bad)?)
        }
        (Some(before), None, Some(percent)) => {
            (before, sums::after_shrinking(before, percent).map_err(bad)?, percent)
        }
        (None, Some(after), Some(percent)) => {
            (sums::before_shrinking(after, percent).map_err(bad)?, after, percent)
        }
        (Some(_), Some(_), Some(_)) => {
            let why = "two of before, after and percent are enough: the third follows";
            return Err(Refusal::bad(why, "Leave one of them out."));
        }
        _ => {
            let why = "two of before, after and percent are needed, and only one is there";
            return Err(Refusal::bad(why, "Give one more: the third follows."));
        }
    };
    let way = if percent < 0.0 { "longer" } else { "shorter" };
    let words = format!(
        "{} before, {} after: {:.2} in the hundred {way}.",
        fraction(before, 16),
        fraction(after, 16),
        percent.abs()
    );
    Ok((words, json!({ "before_in": before, "after_in": after, "percent": percent })))
}

fn cut(finished: f64, seam: f64) -> Result<(String, Value), Refusal> {
    let shapes = [
        (CutShape::HalfSquare, "half_square", "half-square triangles, by the leg"),
        (CutShape::QuarterSquare, "quarter_square", "quarter-square triangles, by the long side"),
        (CutShape::Equilateral, "equilateral", "equilateral triangles, by the height"),
        (CutShape::Hexagon, "hexagon", "hexagons, from flat to flat"),
    ];
    let (mut words, mut value) = (String::new(), serde_json::Map::new());
    for (shape, name, what) in shapes {
        let size = sums::cut_size(shape, finished, seam).map_err(bad)?;
        words.push_str(&format!(
            "{} for {what} (exactly {:.4})\n",
            fraction(size.cut_eighth_in, 8),
            size.cut_in
        ));
        value.insert(name.to_owned(), json!(size));
    }
    Ok((words, Value::Object(value)))
}

fn count(many: u32, what: &str) -> String {
    if many == 1 { format!("1 {what}") } else { format!("{many} {what}s") }
}
