//! What was chosen of a later stage, in a sentence of the story.

use quilt::cloth::{Cloth, ClothId};
use quilt::length::LengthUnit;
use quilt::stage::Chosen;
use quilt::stage::binding::{BindingChoice, Finish};
use quilt::stage::figure::{FigureChoice, FigureOrder, FigureSize};
use quilt::stage::layers::{Basting, Guiding, LayersChoice};
use quilt::stage::quilting::{DesignKind, QuiltingChoice};
use std::collections::BTreeMap;

/// The sentence, with the names of the cloths that it counts on, and lengths in the unit of a unit.
pub(crate) fn decided(chosen: &Chosen, cloths: &BTreeMap<ClothId, Cloth>, unit: LengthUnit) -> String {
    let how = match chosen {
        Chosen::Layers(choice) => layers(choice, unit),
        Chosen::Quilting(choice) => quilting(choice, unit),
        Chosen::Binding(choice) => binding(choice, cloths, unit),
        Chosen::Figure(choice) => figure(choice, unit),
        Chosen::Sleeve(choice) => {
            let [wide, high] = choice.label_in;
            format!("the label {} by {}", unit.length(wide, 8), unit.length(high, 8))
        }
    };
    format!("Decide on {}: {how}.", chosen.what())
}

fn layers(choice: &LayersChoice, unit: LengthUnit) -> String {
    let held = match (choice.basting, choice.guiding) {
        (Some(Basting::Pins(pins)), _) => format!("pinned every {}", unit.length(pins.spacing_in, 8)),
        (Some(Basting::Spray(_)), _) => "held by spray".to_owned(),
        (Some(Basting::Thread(rows)), _) => {
            format!("basted in rows {} apart", unit.length(rows.spacing_in, 8))
        }
        (Some(Basting::Frame), _) | (None, Guiding::Frame(_)) => "held by the frame".to_owned(),
        (None, Guiding::ByHand) => "pinned".to_owned(),
    };
    let guided = match choice.guiding {
        Guiding::ByHand => "quilted on the table",
        Guiding::Frame(_) => "quilted on the frame",
    };
    format!(
        "back and batting {} larger all round, {held}, {guided}",
        unit.length(choice.backing_overage_in(), 8)
    )
}

fn quilting(choice: &QuiltingChoice, unit: LengthUnit) -> String {
    let design = match choice.design {
        DesignKind::RoundSpiral => "a round spiral",
        DesignKind::CorneredSpiral => {
            return turns(&format!("a spiral of {} sides", choice.sides), choice, unit);
        }
        DesignKind::UnbrokenSpiral => "an unbroken spiral",
        DesignKind::Lines => "straight lines",
        DesignKind::Crossed => "crossed lines",
        DesignKind::Echoes => "echoes",
        DesignKind::Waves => "waves",
    };
    turns(design, choice, unit)
}

fn turns(design: &str, choice: &QuiltingChoice, unit: LengthUnit) -> String {
    let thread = choice.thread.as_ref().map_or_else(String::new, |thread| format!(", in {}", thread.name));
    format!("{design}, rows {} apart{thread}", unit.length(choice.spacing_in, 16))
}

fn binding(choice: &BindingChoice, cloths: &BTreeMap<ClothId, Cloth>, unit: LengthUnit) -> String {
    let from = choice.cloth.and_then(|cloth| cloths.get(&cloth));
    let from = from.map_or_else(String::new, |cloth| format!(", cut from {}", cloth.name));
    match choice.finish {
        Finish::Bound => format!("strips {} wide{from}", unit.length(choice.strip_width_in, 8)),
        Finish::Faced => format!("a facing, strips {} wide{from}", unit.length(choice.facing_width_in, 8)),
    }
}

fn figure(choice: &FigureChoice, unit: LengthUnit) -> String {
    let size = match choice.size {
        FigureSize::WidthIn(width) => format!(", {} wide", unit.length(width, 8)),
        FigureSize::HeightIn(height) => format!(", {} high", unit.length(height, 8)),
        FigureSize::AsDrawn => String::new(),
    };
    let order = match choice.order {
        FigureOrder::BeforeQuilting => "before the quilting",
        FigureOrder::AfterQuilting => "after the quilting",
    };
    format!("{}{size}, sewn on {order}", choice.figure.name)
}

#[cfg(test)]
mod tests {
    use super::*;
    use colour::Lab;
    use quilt::stage::quilting::ThreadColour;
    use quilt::stage::sleeve::SleeveChoice;

    #[test]
    fn a_choice_is_told_with_its_numbers() {
        let told = |chosen: Chosen| decided(&chosen, &BTreeMap::new(), LengthUnit::Inches);
        let thread = ThreadColour { name: "pale".to_owned(), lab: Lab { l: 90.0, a: 0.0, b: 0.0 } };
        let quilting = QuiltingChoice { thread: Some(thread), ..QuiltingChoice::default() };
        assert_eq!(
            told(Chosen::Quilting(quilting)),
            "Decide on the quilting: an unbroken spiral, rows 1/2 apart, in pale."
        );
        assert_eq!(
            told(Chosen::Layers(LayersChoice::default())),
            "Decide on the layers: back and batting 3 larger all round, pinned, quilted on the table."
        );
        let faced = BindingChoice { finish: Finish::Faced, ..BindingChoice::default() };
        assert_eq!(told(Chosen::Binding(faced)), "Decide on the binding: a facing, strips 3 wide.");
        assert_eq!(
            told(Chosen::Sleeve(SleeveChoice::default())),
            "Decide on sleeve and label: the label 4 by 3."
        );
        let label = Chosen::Sleeve(SleeveChoice::default());
        assert_eq!(
            decided(&label, &BTreeMap::new(), LengthUnit::Centimetres),
            "Decide on sleeve and label: the label 10.2 cm by 7.6 cm."
        );
    }
}
