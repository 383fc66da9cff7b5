//! What templates and foundation sheets share: the centre as a pattern, and what of it isn't worth the paper.

use super::PapersWish;
use crate::asks::{AskError, Asked};
use crate::quilts::Head;
use crate::workroom::Workroom;
use drawing::{Drawing, Item, Paint, Stroke, TextItem};
use plane::{Point, Region, largest_disc, polygon, union};
use quilt::cloth::{Cloth, ClothId};
use quilt::foundation::Pieces;
use quilt::log::RunKind;
use quilt::pattern::{Template, templates};
use std::collections::BTreeMap;

/// Up to so many pieces a pattern is worth its paper, however large (the maker's own rule of thumb).
const MOST_PIECES: usize = 60;
/// Up to so many inches across it is, however many pieces.
const MOST_IN: f64 = 12.0;

/// The centre as a pattern.
pub(super) struct Pattern {
    pub(super) templates: Vec<Template>,
    pub(super) pieces: Pieces,
    pub(super) cloths: BTreeMap<ClothId, Cloth>,
    pub(super) allowance_in: f64,
}

impl Pattern {
    /// What a cloth is called.
    pub(super) fn cloth(&self, cloth: ClothId) -> &str {
        self.cloths.get(&cloth).map_or("cloth", |cloth| cloth.name.as_str())
    }

    /// The centre from the right side in pale colours, each piece with a name, and heavy lines round groups.
    pub(super) fn map(&self, title: &str, names: &[String], groups: &[Vec<usize>]) -> Drawing {
        let all: Vec<Point> = self.templates.iter().flat_map(|template| template.shows.clone()).collect();
        let (low, high) = polygon::bounds(&all).unwrap_or_default();
        let weight = ((high.x - low.x).max(high.y - low.y) / 12.0).max(0.2);
        let region = |template: &Template| Region { outer: template.shows.clone(), holes: Vec::new() };
        let mut items = Vec::new();
        for template in &self.templates {
            let mean = self.cloths.get(&template.cloth).map(|cloth| cloth.look.mean().to_srgb());
            let paint = mean.map_or(Paint::Calico, |colour| Paint::Colour(colour, 0.55));
            items.push(Item::fill(template.shows.clone(), paint));
        }
        items.extend(self.templates.iter().map(|one| Item::closed(one.shows.clone(), Stroke::Leader)));
        for group in groups {
            let shown: Vec<Region> = group.iter().map(|no| region(&self.templates[*no])).collect();
            items.extend(union(&shown).into_iter().map(|whole| Item::closed(whole.outer, Stroke::Outline)));
        }
        for (template, name) in self.templates.iter().zip(names) {
            let Some(disc) = largest_disc(&region(template), 0.02) else { continue };
            let size = (0.36 * weight).min(1.1 * disc.radius);
            let text = TextItem::level(disc.centre, size, name.clone());
            items.push(Item::text(TextItem { rim: true, bold: true, ..text }));
        }
        Drawing::around(title, items, weight, 0.1 * weight)
    }
}

impl Workroom {
    /// The centre as a pattern: without ring, border and what was squared up, since these are cut by
    /// measure. `what` are the papers that are asked for, in words.
    pub(super) fn pattern(&mut self, head: &Head, what: &str, wish: &PapersWish) -> Asked<Pattern> {
        let tip = head.tip.ok_or(AskError::NothingOnTable)?;
        let path = self.path(tip)?;
        let later = |kind| matches!(kind, RunKind::Ring | RunKind::Border | RunKind::SquareUp);
        let centre =
            path.iter().take_while(|step| !step.entry.run.as_ref().is_some_and(|run| later(run.kind)));
        let tip = centre.last().map(|step| step.id).ok_or(AskError::NothingOnTable)?;
        let table = self.table_at(tip)?;
        let (_, top) = table.piece().ok_or(AskError::NothingOnTable)?;
        let across_in = polygon::diameter(&top.outline_points());
        let count = top.faces().len();
        if count > MOST_PIECES && across_in > MOST_IN && !wish.anyway {
            let unit = if wish.centimetres { "" } else { " inches" };
            let [across, most] = [across_in, MOST_IN].map(|inches| wish.length(inches, 4) + unit);
            return Err(AskError::CantBe {
                what: format!(
                    "{what} of {count} pieces, {across} across, would be a pile of paper: up to {MOST_PIECES} pieces, or up to {most} across, it is worth it"
                ),
                hint: "Hand on the step cards or the guide by rounds, which need no template; or ask with --anyway."
                    .to_owned(),
            });
        }
        let allowance_in = self.wish(&head.quilt)?.allowance_in;
        let (templates, pieces) = templates(&table, top, allowance_in);
        let cloths = self.every_cloth()?;
        Ok(Pattern { templates, pieces, cloths, allowance_in })
    }
}
