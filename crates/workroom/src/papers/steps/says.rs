//! A card in words: in whole sentences for a large card and for whoever reads no page, and in short for a small one.

use super::act::{Act, Called, Slide};
use super::card::Card;
use super::iron::{
    ends_briefly, is_told_together, not_yet, pressed_together, pressed_together_briefly, way_briefly,
};
use super::scraps::CutOut;
use crate::papers::PapersWish;
use quilt::log::{Mark, Press};

/// What is cut, in sentences: equal patches of one cloth in one.
pub(super) fn cutting(card: &Card, wish: &PapersWish) -> Vec<String> {
    let mut told: Vec<(String, Vec<Mark>)> = Vec::new();
    for (cut, size) in card.cuts.iter().zip(&card.sizes_in) {
        let from = from(cut);
        let how = if wish.by_template {
            format!("from {from}, by template, the printed side of template and cloth up")
        } else {
            format!("from {from}, {}", at_least(*size, wish))
        };
        match told.iter_mut().find(|(known, _)| *known == how) {
            Some((_, patches)) => patches.push(cut.patch),
            None => told.push((how, vec![cut.patch])),
        }
    }
    told.into_iter().map(|(how, marks)| format!("Cut {} {how}.", patches(&marks))).collect()
}

/// The same in short, for cards without pictures of the scraps.
pub(super) fn cutting_briefly(card: &Card, wish: &PapersWish) -> Vec<String> {
    if !wish.by_template {
        return cutting(card, wish);
    }
    let each = card.cuts.iter().map(|cut| {
        let no = cut.no.map_or_else(String::new, |no| format!(" ({no})"));
        format!("{} from {}{no}", cut.patch, cut.name)
    });
    let all: Vec<String> = each.collect();
    if all.is_empty() { Vec::new() } else { vec![format!("Cut {}.", all.join(", "))] }
}

/// The cloth that a patch is cut from, with its number in the stash.
pub(super) fn from(cut: &CutOut) -> String {
    let no = cut.no.map_or_else(String::new, |no| format!(" (no. {no})"));
    format!("{}{no}", cut.name)
}

/// A size by eye: along the edge that is sewn, and square to it.
pub(super) fn at_least(size_in: [f64; 2], wish: &PapersWish) -> String {
    format!("at least {}", size(size_in, wish))
}

/// The same without saying that it is the least.
pub(super) fn size(size_in: [f64; 2], wish: &PapersWish) -> String {
    let [along, square] = size_in.map(|inches| wish.length(inches, 8));
    format!("{along} by {square}")
}

/// What is done once all is cut, in sentences.
pub(super) fn doing(card: &Card, wish: &PapersWish) -> Vec<String> {
    let length = |inches: f64| wish.length(inches, 8);
    let mut said = Vec::new();
    let mut joins: Vec<String> = Vec::new();
    let (several, mut line) = (card.trims.len() > 1, 0);
    for (i, act) in card.acts.iter().enumerate() {
        if let Act::Join { what, to, along_in, seam_in } = act {
            joins.push(format!("{} to {}, along {}", what.words(), to.words(), length(*along_in)));
            let more = matches!(card.acts.get(i + 1), Some(Act::Join { .. }));
            if !more {
                said.push(joined(&std::mem::take(&mut joins), &length(*seam_in)));
            }
            continue;
        }
        if !is_told_together(card, act) {
            line += usize::from(matches!(act, Act::Trim { .. }));
            said.push(sentence(act, several.then_some(line), &length));
        }
    }
    said.extend(card.pressed_later().map(|_| not_yet(card)));
    said.extend(pressed_together(card));
    said
}

/// The seams of a unit in one sentence.
fn joined(joins: &[String], seam: &str) -> String {
    match joins {
        [one] => format!("Sew {one}; seam {seam}. Press it."),
        several => {
            format!("Sew them together, each seam {seam}, pressed before the next: {}.", several.join("; "))
        }
    }
}

/// An act in a sentence; of several cuts across the piece, `line` is the number of this one on the picture.
fn sentence(act: &Act, line: Option<usize>, length: &dyn Fn(f64) -> String) -> String {
    match act {
        Act::Join { .. } => String::new(),
        Act::Onto { what, long_in, seam_in, slide, open_in } => format!(
            "Lay {} right sides together on the red edge, {} long, middle on middle{}. Sew; seam {}.{}",
            what.words(),
            length(*long_in),
            slide.map_or_else(String::new, |slide| format!("; then {}", slid(slide, length))),
            length(*seam_in),
            open_in.map_or_else(String::new, |open| format!(" {}", stopped(open, length))),
        ),
        Act::Close => "Sew the bit of the seam that was left open, in red, up to its end.".to_owned(),
        Act::Frame { strips, seam_in } => format!(
            "Sew the {strips} strips on, each to its red edge, stopping {} from both raw edges at each corner; \
             then sew the mitres from there out.",
            length(*seam_in)
        ),
        Act::Pressed(Press::Over) => "Press the seam towards what you have just sewn on.".to_owned(),
        Act::Pressed(Press::Back) => "Press the seam away from what you have just sewn on.".to_owned(),
        Act::Pressed(Press::Open) => "Press the seam open.".to_owned(),
        Act::TrimEnds { both } => {
            let ends = if *both { "at its ends" } else { "at its end" };
            format!("Trim what sticks out {ends} in line with the edge beside it.")
        }
        Act::Trim { apart, marks } => {
            let verb = if *apart { "Slice it apart" } else { "Trim" };
            let line = line.map_or_else(String::new, |no| format!(" {no}"));
            let mark = |(at_in, patch): (f64, Option<Mark>)| {
                let of = patch.map_or_else(String::new, |patch| format!(" of patch {patch}"));
                format!("{} along the edge{of}", length(at_in))
            };
            match marks {
                Some([from, to]) => {
                    format!("{verb} along the black line{line}: from {} to {}.", mark(*from), mark(*to))
                }
                None => {
                    format!("{verb} along the black line{line}, in line with the edge that it runs on from.")
                }
            }
        }
        Act::Measured => {
            "Nothing to sew: the red edges were measured on the real piece, and it is drawn as it lies from \
                          here on."
                .to_owned()
        }
        Act::Aside => "Put this part aside: it isn't sewn on.".to_owned(),
        Act::Turned(words) => words.clone(),
    }
}

fn slid(slide: Slide, length: &dyn Fn(f64) -> String) -> String {
    let way = if slide.towards { "towards" } else { "away from" };
    format!("slide it {} {way} the red dot", length(slide.by_in))
}

fn stopped(open_in: f64, length: &dyn Fn(f64) -> String) -> String {
    format!("Stop {} before the red dot: that bit stays open for a later step.", length(open_in))
}

/// What is done once all is cut, in short: what is the same on every card is said once, before them.
pub(super) fn briefly(card: &Card, wish: &PapersWish, usual_seam_in: f64) -> Vec<String> {
    let length = |inches: f64| wish.length(inches, 8);
    let unusual = |seam_in: f64| {
        let differs = (seam_in - usual_seam_in).abs() > plane::READING;
        if differs { format!("; seam {}", length(seam_in)) } else { String::new() }
    };
    let mut said: Vec<String> = Vec::new();
    let mut joins: Vec<String> = Vec::new();
    let (several, mut line) = (card.trims.len() > 1, 0);
    for (i, act) in card.acts.iter().enumerate() {
        match act {
            Act::Join { what, to, along_in, seam_in } => {
                joins.push(format!("{} to {} along {}", what.brief(), to.brief(), length(*along_in)));
                if !matches!(card.acts.get(i + 1), Some(Act::Join { .. })) {
                    let each = if joins.len() > 1 { "Press each" } else { "Press" };
                    let all = std::mem::take(&mut joins).join(", ");
                    said.push(format!("Sew {all}{}. {each}.", unusual(*seam_in)));
                }
            }
            Act::Onto { what, long_in, seam_in, slide, open_in } => {
                let mut words = format!("Sew {} to the red edge, {}", what.own(card), length(*long_in));
                words.push_str(&unusual(*seam_in));
                words.push('.');
                if let Some(slide) = slide {
                    words.push_str(&format!(" Off the middle: {}.", slid(*slide, &length)));
                }
                if let Some(open) = open_in {
                    words.push_str(&format!(" {}", stopped(*open, &length)));
                }
                said.push(words);
            }
            Act::Pressed(_) | Act::TrimEnds { .. } if is_told_together(card, act) => {}
            Act::Pressed(way) => {
                let ends = card.own_ironed().and_then(|own| own.both_ends);
                said.push(format!("Press {}{}.", way_briefly(*way), ends_briefly(ends)));
            }
            Act::TrimEnds { .. } => {}
            Act::Trim { apart, marks: Some([from, to]) } => {
                line += 1;
                let verb = if *apart { "Slice apart" } else { "Trim" };
                let verb = if several { format!("{verb} {line}") } else { verb.to_owned() };
                let mark = |(at_in, patch): &(f64, Option<Mark>)| {
                    let of = patch.map_or_else(|| "the edge".to_owned(), |patch| format!("{patch}"));
                    format!("{} along {of}", length(*at_in))
                };
                said.push(format!("{verb}: {} to {}.", mark(from), mark(to)));
            }
            Act::Close
            | Act::Frame { .. }
            | Act::Trim { .. }
            | Act::Measured
            | Act::Aside
            | Act::Turned(_) => {
                said.push(sentence(act, None, &length));
            }
        }
    }
    said.extend(card.pressed_later().map(|_| not_yet(card)));
    said.extend(pressed_together_briefly(card));
    said
}

/// `patch 4`, `patches 4, 5`, `37 patches, 4 to 51`.
pub(super) fn patches(marks: &[Mark]) -> String {
    match marks {
        [one] => format!("patch {one}"),
        [first, .., last] if marks.len() > 6 => format!("{} patches, {first} to {last}", marks.len()),
        several => {
            let all: Vec<String> = several.iter().map(Mark::to_string).collect();
            format!("patches {}", all.join(", "))
        }
    }
}

impl Called {
    /// In a sentence.
    fn words(&self) -> String {
        match self.patches.as_slice() {
            [] => "it".to_owned(),
            several if !self.is_new => format!("the part with {}", patches(several)),
            [one] => format!("patch {one}"),
            few if few.len() <= 6 => format!("the unit of {}", patches(few)),
            many => format!("the part with {}", patches(many)),
        }
    }

    /// By the patch that is touched, where it is one.
    fn brief(&self) -> String {
        match (self.edge_of, self.patches.as_slice()) {
            (Some(patch), few) if few.len() <= 6 => patch.to_string(),
            _ => self.words(),
        }
    }

    /// As what has just been made, where it is all of the card's patches.
    fn own(&self, card: &Card) -> String {
        let unit = self.patches.len() > 1 && self.patches.len() == card.cuts.len();
        match self.patches.as_slice() {
            [one] if self.is_new => one.to_string(),
            patches if unit && card.cuts.iter().all(|cut| patches.contains(&cut.patch)) => {
                "the unit".to_owned()
            }
            _ => self.words(),
        }
    }
}
