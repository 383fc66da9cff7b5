//! What a maker has chosen of the later stages, as the log keeps it.

use super::binding::BindingChoice;
use super::figure::FigureChoice;
use super::layers::LayersChoice;
use super::quilting::{QuiltingChoice, ThreadColour};
use super::sleeve::SleeveChoice;
use crate::cloth::ClothId;
use crate::log::Stage;
use serde::{Deserialize, Serialize};

/// One choice. Stages that sew (a ring, a border, squaring up) are steps of their own and need none.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Chosen {
    /// Backing, batting, basting.
    Layers(LayersChoice),
    /// Quilting lines and thread.
    Quilting(QuiltingChoice),
    /// Binding or facing.
    Binding(BindingChoice),
    /// Sleeve, tabs and label.
    Sleeve(SleeveChoice),
    /// The appliquéd figure.
    Figure(FigureChoice),
}

impl Chosen {
    /// What it is about, in the maker's words.
    #[must_use]
    pub const fn what(&self) -> &'static str {
        match self {
            Self::Layers(_) => "the layers",
            Self::Quilting(_) => "the quilting",
            Self::Binding(_) => "the binding",
            Self::Sleeve(_) => "sleeve and label",
            Self::Figure(_) => "the figure",
        }
    }

    /// The cloths that it names.
    #[must_use]
    pub fn cloths(&self) -> Vec<ClothId> {
        match self {
            Self::Layers(choice) => choice.backing.cloth.into_iter().collect(),
            Self::Binding(choice) => choice.cloth.into_iter().collect(),
            Self::Figure(choice) => choice.figure.shapes.iter().filter_map(|shape| shape.cloth).collect(),
            Self::Quilting(_) | Self::Sleeve(_) => Vec::new(),
        }
    }

    /// The threads that it names.
    #[must_use]
    pub fn threads(&self) -> Vec<&ThreadColour> {
        match self {
            Self::Quilting(choice) => choice.thread.iter().chain(&choice.below).collect(),
            _ => Vec::new(),
        }
    }
}

/// The last choice of each stage.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ChosenLast<'a> {
    /// Backing, batting, basting.
    pub layers: Option<&'a LayersChoice>,
    /// Quilting lines and thread.
    pub quilting: Option<&'a QuiltingChoice>,
    /// Binding or facing.
    pub binding: Option<&'a BindingChoice>,
    /// Sleeve, tabs and label.
    pub sleeve: Option<&'a SleeveChoice>,
    /// The figure.
    pub figure: Option<&'a FigureChoice>,
}

impl<'a> ChosenLast<'a> {
    /// Of the decisions on a table; a later one of a stage takes the place of an earlier.
    #[must_use]
    pub fn of(stages: &'a [Stage]) -> Self {
        let mut last = Self::default();
        for stage in stages {
            let Stage::Planned(chosen) = stage else { continue };
            match &**chosen {
                Chosen::Layers(choice) => last.layers = Some(choice),
                Chosen::Quilting(choice) => last.quilting = Some(choice),
                Chosen::Binding(choice) => last.binding = Some(choice),
                Chosen::Sleeve(choice) => last.sleeve = Some(choice),
                Chosen::Figure(choice) => last.figure = Some(choice),
            }
        }
        last
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::log::Step;

    #[test]
    fn a_choice_is_kept_to_the_bit_and_the_last_of_each_counts() {
        let first = QuiltingChoice { spacing_in: 0.1 + 0.2, ..QuiltingChoice::default() };
        let second = QuiltingChoice { spacing_in: 0.75, ..first.clone() };
        let planned = |choice| Stage::Planned(Box::new(Chosen::Quilting(choice)));
        let stages = [planned(first), Stage::Binding("navy".to_owned()), planned(second.clone())];
        let steps: Vec<Step> = stages.iter().cloned().map(Step::Choose).collect();
        let text = serde_json::to_string(&steps).expect("text");
        assert_eq!(serde_json::from_str::<Vec<Step>>(&text).expect("steps"), steps);
        let last = ChosenLast::of(&stages);
        assert_eq!((last.quilting, last.binding), (Some(&second), None));
    }
}
