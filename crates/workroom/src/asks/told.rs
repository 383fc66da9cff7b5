//! What a stage says, in a maker's sentences: the same on the command line and on the page.

use super::stage::StageReport;
use quilt::length::{fraction, many, round_up};
use quilt::stage::binding::{BindingPlan, Corner, FacingPlan, FinishPlan};
use quilt::stage::border::BorderPlan;
use quilt::stage::figure::FigurePlan;
use quilt::stage::layers::{LayersPlan, Take};
use quilt::stage::quilting::QuiltingPlan;
use quilt::stage::ring::RingPlan;
use quilt::stage::sleeve::SleevePlan;
use quilt::stage::square_up::SquareUpPlan;

/// Inches in a yard.
const YARD_IN: f64 = 36.0;

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
    pub fn told(&self) -> Told {
        match self {
            Self::Ring(plan) => ring(plan),
            Self::Border(plan) => border(plan),
            Self::SquareUp(plan) => square_up(plan),
            Self::Layers(plan) => layers(plan),
            Self::Quilting(plan) => quilting(plan),
            Self::Binding(FinishPlan::Bound(plan)) => binding(plan),
            Self::Binding(FinishPlan::Faced(plan)) => facing(plan),
            Self::Sleeve(plan) => sleeve(plan),
            Self::Figure(plan) => figure(plan),
        }
    }

    /// The same with its name, as lines of text: what is done one after the other is numbered.
    #[must_use]
    pub fn words(&self) -> String {
        let Told { sentence, list, cautions } = self.told();
        let first = format!("{}: {sentence}", self.name());
        let list = (1..).zip(list).map(|(no, line)| format!("{no}. {line}"));
        std::iter::once(first).chain(list).chain(cautions).collect::<Vec<_>>().join("\n")
    }
}

fn ring(plan: &RingPlan) -> Told {
    let breaks = plan.sides.iter().filter(|side| !side.goes_on).count();
    let sentence = format!(
        "{} slices of {} cut ({} when unpicked); a set of {} is used up, {} when unpicked. Shows {}.",
        plan.slices_whole,
        fraction(plan.slice_in, 8),
        plan.slices_unpicked,
        fraction(plan.set_used_whole_in, 8),
        fraction(plan.set_used_unpicked_in, 8),
        fraction(plan.shows_in, 8)
    );
    let meets: Vec<String> =
        plan.sides.iter().filter(|side| side.meets_itself).map(|side| (side.side + 1).to_string()).collect();
    let mut cautions = Vec::new();
    if breaks > 0 {
        cautions.push(format!("The pattern breaks at {}.", many(breaks, "corner", "corners")));
    }
    if !meets.is_empty() {
        cautions.push(format!("One cloth meets itself at the end of side {}.", meets.join(", ")));
    }
    Told { sentence, cautions, ..Told::default() }
}

fn border(plan: &BorderPlan) -> Told {
    let list = plan.strips.iter().map(|strip| {
        let long = fraction(round_up(strip.cut_bar_in, 8), 8);
        format!("Side {}: cut {long} by {}.", strip.side + 1, fraction(strip.cut_wide_in, 8))
    });
    let joins = match plan.cutting.as_ref().map(|cutting| cutting.joins) {
        None => String::new(),
        Some(0) => ", no joins".to_owned(),
        Some(joins) => format!(", {}", many(joins, "join", "joins")),
    };
    let sentence = format!(
        "{}, the longest cut {}; {:.0} square inches of cloth{joins}.",
        many(plan.strips.len(), "strip", "strips"),
        fraction(round_up(plan.cut_longest_in, 8), 8),
        plan.cut_sq_in
    );
    let missing = plan.cutting.as_ref().map_or(0.0, |cutting| cutting.missing_in);
    let cautions = (missing > 0.0).then(|| {
        format!("The cloth hasn't room for all strips: {} are missing along them.", fraction(missing, 8))
    });
    Told { sentence, list: list.collect(), cautions: cautions.into_iter().collect() }
}

fn square_up(plan: &SquareUpPlan) -> Told {
    let agree = |all: bool| if all { "agree" } else { "differ" };
    let trueness = if plan.trueness.diagonals_in.is_empty() {
        String::new()
    } else {
        let (diagonals, sides) = (plan.trueness.diagonals_agree, plan.trueness.sides_agree);
        format!(" Diagonals {}, opposite sides {}.", agree(diagonals), agree(sides))
    };
    let sentence =
        format!("{} take {:.1} % off.{trueness}", many(plan.cuts, "cut", "cuts"), plan.lost_percent);
    let mut cautions = Vec::new();
    if !plan.gone.is_empty() {
        cautions.push(format!("{} cut away wholly.", is_are(plan.gone.len())));
    }
    if !plan.thin.is_empty() {
        let thin = many(plan.thin.len(), "patch gets", "patches get");
        cautions.push(format!("{thin} thinner than they may."));
    }
    cautions.push("Close the cutter's guard after every cut, and cut away from yourself.".to_owned());
    Told { sentence, cautions, ..Told::default() }
}

fn is_are(patches: usize) -> String {
    many(patches, "patch is", "patches are")
}

fn layers(plan: &LayersPlan) -> Told {
    let mut list = Vec::new();
    let back = match (plan.backing.take, plan.backing.pieced.first()) {
        (Take::Pieced, Some(pieced)) => {
            list.extend(pieced.cutting.iter().cloned());
            "pieced".to_owned()
        }
        (Take::Pieced, None) => "not there".to_owned(),
        (Take::Whole(cloth), _) => {
            let holds = plan.backing.whole.holds.iter().find(|holds| holds.cloth == cloth);
            holds.map_or_else(|| "whole".to_owned(), |holds| format!("whole, from {}", holds.name))
        }
    };
    list.extend(plan.basting.steps.iter().cloned());
    let [wide, high] = plan.sizes.washed_in;
    let sentence =
        format!("The back is {back}. After washing {} by {}.", fraction(wide, 8), fraction(high, 8));
    Told { sentence, list, cautions: plan.basting.cautions.clone() }
}

fn quilting(plan: &QuiltingPlan) -> Told {
    let mut sentence = format!(
        "{:.0} inches of line, {:.0} stitches, {}; thread {:.0} yards above and {:.0} below, {}; about {:.0} minutes.",
        plan.length_in,
        plan.stitches,
        many(plan.starts, "start", "starts"),
        plan.needle_in / YARD_IN,
        plan.bobbin_in / YARD_IN,
        many(plan.bobbins as usize, "bobbin", "bobbins"),
        plan.minutes
    );
    if let Some(gap) = plan.widest_gap {
        sentence += &format!(" Widest gap {}.", fraction(gap.inches, 16));
    }
    Told { sentence, cautions: plan.cautions.iter().map(ToString::to_string).collect(), ..Told::default() }
}

fn binding(plan: &BindingPlan) -> Told {
    let sentence = format!(
        "{} needed, {} at least.",
        fraction(round_up(plan.length_needed_in, 8), 8),
        many(plan.strips_least, "strip", "strips")
    );
    Told { sentence, list: plan.corners.iter().map(Corner::sentence).collect(), ..Told::default() }
}

fn facing(plan: &FacingPlan) -> Told {
    let sentence = format!(
        "{} {} wide, {:.0} square inches.",
        many(plan.strips.len(), "strip", "strips"),
        fraction(plan.cut_width_in, 8),
        plan.area_cut_in2
    );
    Told { sentence, ..Told::default() }
}

/// Its own sentence, without the name that stands before it.
fn sleeve(plan: &SleevePlan) -> Told {
    let sentence = plan.sentence();
    let sentence = sentence.strip_prefix("Sleeve: ").unwrap_or(&sentence);
    Told { sentence: capital(sentence), ..Told::default() }
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

fn figure(plan: &FigurePlan) -> Told {
    let sentence = format!(
        "{} by {}, {} and {}; about {:.0} minutes by hand.",
        fraction(plan.width_in, 8),
        fraction(plan.height_in, 8),
        many(plan.patches.len(), "patch", "patches"),
        many(plan.lines.len(), "stitched line", "stitched lines"),
        plan.hand.minutes
    );
    let mut cautions: Vec<String> = Vec::new();
    if !plan.place.fits {
        cautions.push("It comes too near the binding there.".to_owned());
    }
    // What became a line of stitches is settled; the rest is for the maker to decide.
    let (settled, open): (Vec<_>, Vec<_>) = plan.findings.iter().partition(|finding| finding.became_line);
    cautions.extend(open.into_iter().map(ToString::to_string));
    Told { sentence, list: settled.into_iter().map(ToString::to_string).collect(), cautions }
}

#[cfg(test)]
mod tests {
    use super::*;
    use quilt::stage::Piece;
    use quilt::stage::border;
    use quilt::stage::quilting::{self, Caution, DesignKind, QuiltingChoice};
    use quilt::stage::thread::ThreadChoice;

    /// A rectangle of 12 by 10, raw: with a seam of 1/4 each strip of a border that is sewn in turn runs
    /// along a whole side or beyond.
    fn raw() -> Vec<plane::Point> {
        plane::Region::rectangle(12.0, 10.0).outer
    }

    #[test]
    fn what_is_done_one_after_the_other_is_numbered() {
        let piece = Piece::of_outline(&raw()).expect("a piece");
        let choice = serde_json::from_str(r#"{ "sewn_in": [2.5] }"#).expect("a choice");
        let report = StageReport::Border(border::plan(&piece, &choice, None, 0.25).expect("a plan"));
        let words = report.words();
        let lines: Vec<&str> = words.lines().collect();
        assert!(lines[0].starts_with("Border: 4 strips, the longest cut "), "{words}");
        assert_eq!(lines.len(), 5, "{words}");
        for (no, line) in (1..).zip(&lines[1..]) {
            assert!(line.starts_with(&format!("{no}. Side ")) && line.ends_with(" by 2 3/4."), "{line}");
        }
    }

    #[test]
    fn what_speaks_against_a_design_stands_apart_from_what_it_says() {
        let choice =
            QuiltingChoice { design: DesignKind::Lines, spacing_in: 4.0, ..QuiltingChoice::default() };
        let plan = quilting::plan(&choice, &raw(), &ThreadChoice::default()).expect("a plan").plan;
        assert!(plan.cautions.iter().any(|caution| matches!(caution, Caution::WideGap { .. })), "{plan:?}");
        let told = StageReport::Quilting(plan).told();
        assert!(told.cautions.iter().any(|caution| caution.contains("widest gap")), "{told:?}");
        assert!(told.sentence.contains("inches of line") && !told.sentence.contains("batting"), "{told:?}");
    }
}
