//! Between how `vision` tells a look and how `quilt` does.

use plane::Turn;
use quilt::cloth::{Look, Runs, Shade};

/// A seen look in the words of cloth. What wasn't seen at all is calico.
pub(super) fn as_cloth(seen: &vision::Look) -> Look {
    let shades: Vec<Shade> =
        seen.shades.iter().map(|shade| Shade { lab: shade.lab, share: shade.share }).collect();
    if shades.is_empty() {
        return crate::intake::look_of("calico");
    }
    let runs = match seen.runs {
        vision::Runs::AnyWay => Runs::AnyWay,
        vision::Runs::BothWays { deg } => Runs::BothWays(Turn::from_degrees(deg)),
        vision::Runs::OneWay { deg } => Runs::OneWay(Turn::from_degrees(deg)),
    };
    Look { shades, busy: seen.busy, runs, repeat_in: seen.repeat_in }
}

/// A look of the heap as if it had been seen. The heap doesn't know how large what is printed is:
/// that is taken over, so that it decides nothing.
pub(super) fn as_seen(look: &Look, motif_in: f64) -> vision::Look {
    let shades: Vec<vision::Shade> =
        look.shades.iter().map(|shade| vision::Shade { lab: shade.lab, share: shade.share }).collect();
    let runs = match look.runs {
        Runs::AnyWay => vision::Runs::AnyWay,
        Runs::BothWays(turn) => vision::Runs::BothWays { deg: turn.to_degrees() },
        Runs::OneWay(turn) => vision::Runs::OneWay { deg: turn.to_degrees() },
    };
    vision::Look {
        lightness: look.mean().l,
        shades,
        busy: look.busy,
        runs,
        repeat_in: look.repeat_in,
        motif_in,
        print_size: vision::PrintSize::of(motif_in),
    }
}

/// The word for the colour there is most of, and the next where it has a good share.
pub(super) fn colour_of(look: &Look) -> String {
    let shown = look.shades.iter().take(2).enumerate();
    let shown = shown.filter(|(i, shade)| *i == 0 || shade.share >= SHOWS);
    let mut words: Vec<&str> = shown.map(|(_, shade)| colour::nearest_word(shade.lab)).collect();
    words.dedup();
    words.join(" and ")
}

/// From this share on a second colour is named.
const SHOWS: f64 = 0.25;

#[cfg(test)]
mod tests {
    use super::*;
    use vision::same_print;

    #[test]
    fn a_look_goes_there_and_back() {
        for text in ["rust", "navy and white stripe", "green trees"] {
            let look = crate::intake::look_of(text);
            let back = as_cloth(&as_seen(&look, 0.5));
            assert_eq!((&back.shades, back.busy, back.repeat_in), (&look.shades, look.busy, look.repeat_in));
            let turned = match (back.runs, look.runs) {
                (Runs::AnyWay, Runs::AnyWay) => 0.0,
                (Runs::BothWays(a), Runs::BothWays(b)) | (Runs::OneWay(a), Runs::OneWay(b)) => {
                    a.inverse().then(b).to_degrees()
                }
                other => panic!("{text}: {other:?}"),
            };
            assert!(turned.abs() < 1e-9, "{text}: {turned}");
        }
    }

    #[test]
    fn what_was_not_seen_is_calico() {
        let nothing = vision::Look { shades: Vec::new(), ..as_seen(&crate::intake::look_of("red"), 0.0) };
        assert_eq!(as_cloth(&nothing), crate::intake::look_of("calico"));
    }

    #[test]
    fn the_size_of_what_is_printed_decides_nothing_against_the_heap() {
        let look = crate::intake::look_of("red and white stripe");
        let likeness = |motif_in| same_print(&as_seen(&look, motif_in), &as_seen(&look, motif_in));
        assert_eq!((likeness(0.1), likeness(3.0)), (1.0, 1.0));
    }
}
