//! What a stage says, in a maker's sentences and in the wished unit: the same on the command line, on the page and
//! on paper.

use super::stage::StageReport;
use plane::Point;
use quilt::length::{LengthUnit, many};
use quilt::stage::binding::FinishPlan;
use quilt::stage::figure::{FigurePlace, FigurePlan};
use quilt::stage::layers::{LayersPlan, Take};
use quilt::stage::quilting::QuiltingPlan;
use quilt::stage::square_up::{CUTTER, SquareUpPlan};

/// How the sentences of some plans begin.
const NAMED: [&str; 6] = ["Ring: ", "Border: ", "Squaring up: ", "Binding: ", "Facing: ", "Sleeve: "];

/// A report in words.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Told {
    /// Everything in a sentence or two.
    pub sentence: String,
    /// What to cut or to do, one after the other.
    pub list: Vec<String>,
    /// What to look out for.
    pub cautions: Vec<String>,
}

impl StageReport {
    /// What the stage is called, in the trade's words.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        match self {
            Self::Ring(_) => "Ring",
            Self::Border(_) => "Border",
            Self::SquareUp(_) => "Squaring up",
            Self::Layers(_) => "Layers",
            Self::Quilting(_) => "Quilting",
            Self::Binding(FinishPlan::Bound(_)) => "Binding",
            Self::Binding(FinishPlan::Faced(_)) => "Facing",
            Self::Sleeve(_) => "Sleeve and label",
            Self::Figure(_) => "Figure",
        }
    }

    /// What it says, in sentences.
    #[must_use]
    pub fn told(&self, unit: LengthUnit) -> Told {
        match self {
            Self::Ring(plan) => said(&plan.sentence(unit)),
            Self::Border(plan) => said(&plan.sentence(unit)),
            Self::SquareUp(plan) => square_up(plan, unit),
            Self::Layers(plan) => layers(plan, unit),
            Self::Quilting(plan) => quilting(plan, unit),
            Self::Binding(plan) => said(&plan.sentence(unit)),
            Self::Sleeve(plan) => said(&plan.sentence(unit)),
            Self::Figure(plan) => figure(plan, unit),
        }
    }

    /// The same with its name, as lines of text: what is done one after the other is numbered.
    #[must_use]
    pub fn words(&self) -> String {
        let Told { sentence, list, cautions } = self.told(LengthUnit::Inches);
        let first = format!("{}: {sentence}", self.name());
        let list = (1..).zip(list).map(|(no, line)| format!("{no}. {line}"));
        std::iter::once(first).chain(list).chain(cautions).collect::<Vec<_>>().join("\n")
    }
}

/// A plan's own sentences, without the name that stands before them: the first line, then the rest.
fn said(words: &str) -> Told {
    let mut lines = words.lines().map(str::to_owned);
    let first = lines.next().unwrap_or_default();
    let sentence = NAMED.iter().find_map(|name| first.strip_prefix(name)).unwrap_or(&first);
    Told { sentence: capital(sentence), list: lines.collect(), cautions: Vec::new() }
}

fn square_up(plan: &SquareUpPlan, unit: LengthUnit) -> Told {
    let told = said(&plan.sentence(unit));
    let sentence = told.sentence.strip_suffix(CUTTER).map_or(told.sentence.as_str(), str::trim_end);
    Told { sentence: sentence.to_owned(), cautions: vec![CUTTER.to_owned()], ..told }
}

fn layers(plan: &LayersPlan, unit: LengthUnit) -> Told {
    let mut list = Vec::new();
    let back = match (plan.backing.take, plan.backing.pieced.first()) {
        (Take::Pieced, Some(pieced)) => {
            list.extend(pieced.cutting(unit));
            "pieced".to_owned()
        }
        (Take::Pieced, None) => "not there".to_owned(),
        (Take::Whole(cloth), _) => {
            let holds = plan.backing.whole.holds.iter().find(|holds| holds.cloth == cloth);
            holds.map_or_else(|| "whole".to_owned(), |holds| format!("whole, from {}", holds.name))
        }
    };
    list.extend(plan.basting.steps(unit));
    let [wide, high] = plan.sizes.washed_in;
    let sentence =
        format!("The back is {back}. After washing {} by {}.", unit.length(wide, 8), unit.length(high, 8));
    Told { sentence, list, cautions: plan.basting.cautions() }
}

fn quilting(plan: &QuiltingPlan, unit: LengthUnit) -> Told {
    let mut sentence = format!(
        "{} of line, {:.0} stitches, {}; thread {} above and {} below, {}; about {:.0} minutes.",
        unit.run(plan.length_in),
        plan.stitches,
        many(plan.starts, "start", "starts"),
        unit.thread(plan.needle_in),
        unit.thread(plan.bobbin_in),
        many(plan.bobbins as usize, "bobbin", "bobbins"),
        plan.minutes
    );
    if let Some(gap) = plan.widest_gap {
        sentence += &format!(" Widest gap {}.", unit.length(gap.inches, 16));
    }
    Told {
        sentence,
        cautions: plan.cautions.iter().map(|caution| caution.sentence(unit)).collect(),
        ..Told::default()
    }
}

/// The same words with a capital.
pub(crate) fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// Where a figure that doesn't fit could lie, or how much smaller it must be.
pub(super) fn nearest_place(place: &FigurePlace, unit: LengthUnit) -> String {
    place.nearest.map_or_else(
        || match (100.0 * place.largest_scale).floor() {
            percent if percent < 1.0 => "It has no place at any size at this turn.".to_owned(),
            percent => format!("It has no place at this size: {percent:.0} % of it would do."),
        },
        |Point { x, y }| match unit {
            LengthUnit::Inches => format!("The nearest place for its middle is {x:.2}, {y:.2}."),
            LengthUnit::Centimetres => {
                format!("The nearest place for its middle is {}, {}.", unit.length(x, 16), unit.length(y, 16))
            }
        },
    )
}

fn figure(plan: &FigurePlan, unit: LengthUnit) -> Told {
    let sentence = format!(
        "{} by {}, {} and {}; about {:.0} minutes by hand.",
        unit.length(plan.width_in, 8),
        unit.length(plan.height_in, 8),
        many(plan.patches.len(), "patch", "patches"),
        many(plan.lines.len(), "stitched line", "stitched lines"),
        plan.hand.minutes
    );
    let mut cautions: Vec<String> = Vec::new();
    if !plan.place.fits {
        cautions.push(format!("It comes too near the binding there. {}", nearest_place(&plan.place, unit)));
    }
    // What became a line of stitches is settled; the rest is for the maker to decide.
    let (settled, open): (Vec<_>, Vec<_>) = plan.findings.iter().partition(|finding| finding.became_line);
    cautions.extend(open.into_iter().map(|finding| finding.sentence(unit)));
    Told { sentence, list: settled.into_iter().map(|finding| finding.sentence(unit)).collect(), cautions }
}

#[cfg(test)]
mod tests {
    use super::*;
    use quilt::stage::Piece;
    use quilt::stage::border;
    use quilt::stage::habits::Habits;
    use quilt::stage::quilting::{self, Beside, Caution, DesignKind, QuiltingChoice};

    /// A rectangle of 12 by 10, raw: with a seam of 1/4 each strip of a border that is sewn in turn runs
    /// along a whole side or beyond.
    fn raw() -> Vec<Point> {
        plane::Region::rectangle(12.0, 10.0).outer
    }

    #[test]
    fn what_is_done_one_after_the_other_is_numbered() {
        let piece = Piece::of_outline(&raw()).expect("a piece");
        let choice = serde_json::from_str(r#"{ "sewn_in": [2.5] }"#).expect("a choice");
        let report = StageReport::Border(border::plan(&piece, &choice, None, 0.25).expect("a plan"));
        let words = report.words();
        let lines: Vec<&str> = words.lines().collect();
        assert!(lines[0].starts_with("Border: Sides that are no neighbours first"), "{words}");
        assert!(lines[0].contains("The longest strip is cut "), "{words}");
        assert_eq!(lines.len(), 5, "{words}");
        for (no, line) in (1..).zip(&lines[1..]) {
            assert!(line.starts_with(&format!("{no}. Side ")) && line.contains(" by 2 3/4"), "{line}");
        }
    }

    #[test]
    fn what_speaks_against_a_design_stands_apart_from_what_it_says() {
        let choice =
            QuiltingChoice { design: DesignKind::Lines, spacing_in: 4.0, ..QuiltingChoice::default() };
        let plan =
            quilting::plan(&choice, &raw(), &Beside::default(), &Habits::default()).expect("a plan").plan;
        assert!(plan.cautions.iter().any(|caution| matches!(caution, Caution::WideGap { .. })), "{plan:?}");
        let told = StageReport::Quilting(plan).told(LengthUnit::Inches);
        assert!(told.cautions.iter().any(|caution| caution.contains("widest gap")), "{told:?}");
        assert!(told.sentence.contains("inches of line") && !told.sentence.contains("batting"), "{told:?}");
    }
}
