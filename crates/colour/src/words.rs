//! Plain words for colours, for a scrap that is entered in ten seconds ("red stripe, about 3 by
//! 5") and for sentences that name a colour.
//!
//! Our own table: what each word brings to mind as dyed cotton, quieter than on a screen. From the
//! mind, no source.

use crate::{Lab, Oklab, Srgb, difference};

/// All words with their colours, by name.
#[must_use]
pub fn words() -> &'static [(&'static str, Srgb)] {
    WORDS
}

/// The colour that `text` names: one of [`words`], in any case, alone or after words such as
/// "light", "pale", "dark", "deep", "bright" and "dusty" ("dark dusty green"). `None` when there
/// is no colour word in it; other words, like "stripe", are passed over. Of two colour words the
/// last counts ("sand brown" is a brown), as in speech.
#[must_use]
pub fn read_words(text: &str) -> Option<Lab> {
    let lower = text.to_lowercase();
    let spoken: Vec<&str> = lower.split(|c: char| !c.is_alphabetic()).collect();
    let (at, colour) = spoken.iter().enumerate().rev().find_map(|(at, word)| Some((at, look_up(word)?)))?;
    let bent = spoken[..at].iter().fold(colour.to_oklab(), |colour, word| bend(colour, word));
    Some(bent.to_linear().to_srgb().to_lab())
}

/// All words, with commas: for whoever named a colour that isn't known.
#[must_use]
pub fn all_words() -> String {
    WORDS.iter().map(|(word, _)| *word).collect::<Vec<_>>().join(", ")
}

/// The word whose colour looks most like `lab`.
#[must_use]
pub fn nearest_word(lab: Lab) -> &'static str {
    WORDS
        .iter()
        .map(|(word, srgb)| (word, difference(lab, srgb.to_lab())))
        .min_by(|a, b| a.1.total_cmp(&b.1))
        .map_or("grey", |(word, _)| word)
}

fn look_up(word: &str) -> Option<Srgb> {
    let word = match word {
        "gray" => "grey",
        "aubergine" | "eggplant" => "plum",
        "ecru" => "calico",
        "burgundy" => "maroon",
        "turquoise" => "aqua",
        "violet" => "purple",
        other => other,
    };
    let at = WORDS.binary_search_by(|(known, _)| (*known).cmp(word)).ok()?;
    WORDS.get(at).map(|(_, srgb)| *srgb)
}

/// What a word in front does to a colour.
fn bend(colour: Oklab, word: &str) -> Oklab {
    let (lighter, stronger) = match word {
        "pale" => (0.5, 0.55),
        "light" => (0.3, 0.8),
        "dark" | "deep" => (-0.3, 0.9),
        "bright" => (0.04, 1.35),
        "dusty" | "faded" | "dull" => (0.06, 0.6),
        _ => return colour,
    };
    let towards = if lighter > 0.0 { 0.97 } else { 0.15 };
    Oklab {
        l: colour.l + (towards - colour.l) * f64::abs(lighter),
        a: colour.a * stronger,
        b: colour.b * stronger,
    }
}

/// In alphabetical order, because they are searched by halves.
const WORDS: &[(&str, Srgb)] = &[
    ("apricot", Srgb::from_number(0xf0b384)),
    ("aqua", Srgb::from_number(0x4fb5b8)),
    ("beige", Srgb::from_number(0xdccbb0)),
    ("black", Srgb::from_number(0x1f1d1e)),
    ("blue", Srgb::from_number(0x2f5fa8)),
    ("brick", Srgb::from_number(0x9e4434)),
    ("brown", Srgb::from_number(0x6f4a30)),
    ("calico", Srgb::from_number(0xeee3cc)),
    ("charcoal", Srgb::from_number(0x3d4044)),
    ("chestnut", Srgb::from_number(0x7d4030)),
    ("chocolate", Srgb::from_number(0x4b2f23)),
    ("copper", Srgb::from_number(0xb06a3f)),
    ("coral", Srgb::from_number(0xe8836b)),
    ("cream", Srgb::from_number(0xf5ead0)),
    ("crimson", Srgb::from_number(0xa61e3b)),
    ("denim", Srgb::from_number(0x4c6488)),
    ("fawn", Srgb::from_number(0xc3a27c)),
    ("forest", Srgb::from_number(0x2b4a36)),
    ("fuchsia", Srgb::from_number(0xc2338b)),
    ("gold", Srgb::from_number(0xc9992f)),
    ("green", Srgb::from_number(0x3f7d46)),
    ("grey", Srgb::from_number(0x8b8c8d)),
    ("indigo", Srgb::from_number(0x33406f)),
    ("ivory", Srgb::from_number(0xf7f1e0)),
    ("khaki", Srgb::from_number(0x98895f)),
    ("lavender", Srgb::from_number(0xb3a6cf)),
    ("lemon", Srgb::from_number(0xf3e16e)),
    ("lilac", Srgb::from_number(0xc0a3c8)),
    ("lime", Srgb::from_number(0xa5c249)),
    ("madder", Srgb::from_number(0xa5372f)),
    ("maroon", Srgb::from_number(0x6b1f2c)),
    ("mauve", Srgb::from_number(0x97748f)),
    ("mint", Srgb::from_number(0xb2d8be)),
    ("mist", Srgb::from_number(0xccd5d6)),
    ("moss", Srgb::from_number(0x6d7542)),
    ("mustard", Srgb::from_number(0xbf912c)),
    ("navy", Srgb::from_number(0x222f52)),
    ("ochre", Srgb::from_number(0xbf8436)),
    ("olive", Srgb::from_number(0x67663a)),
    ("orange", Srgb::from_number(0xe27d2d)),
    ("peach", Srgb::from_number(0xf4c3a1)),
    ("pearl", Srgb::from_number(0xe3ded6)),
    ("pine", Srgb::from_number(0x2c5246)),
    ("pink", Srgb::from_number(0xe59fb0)),
    ("plum", Srgb::from_number(0x5d3150)),
    ("purple", Srgb::from_number(0x664080)),
    ("raspberry", Srgb::from_number(0xa82f56)),
    ("red", Srgb::from_number(0xb5232c)),
    ("rose", Srgb::from_number(0xc9697b)),
    ("rust", Srgb::from_number(0xa4502c)),
    ("sage", Srgb::from_number(0x98a58a)),
    ("salmon", Srgb::from_number(0xeb9a85)),
    ("sand", Srgb::from_number(0xd7c19b)),
    ("scarlet", Srgb::from_number(0xcc2a26)),
    ("shell", Srgb::from_number(0xd8cdc4)),
    ("silver", Srgb::from_number(0xbcbfc2)),
    ("sky", Srgb::from_number(0x97c0de)),
    ("slate", Srgb::from_number(0x5a6a75)),
    ("straw", Srgb::from_number(0xe0cb85)),
    ("tan", Srgb::from_number(0xbf9a70)),
    ("teal", Srgb::from_number(0x1f6a6d)),
    ("terracotta", Srgb::from_number(0xbf6646)),
    ("walnut", Srgb::from_number(0x5a4234)),
    ("wheat", Srgb::from_number(0xe5cfa1)),
    ("white", Srgb::from_number(0xfafaf7)),
    ("wine", Srgb::from_number(0x722437)),
    ("yellow", Srgb::from_number(0xecc83e)),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_is_found_and_is_its_own_nearest() {
        assert!(WORDS.len() >= 60);
        assert!(WORDS.windows(2).all(|w| w[0].0 < w[1].0));
        for &(word, srgb) in words() {
            assert_eq!(read_words(word), Some(srgb.to_lab()), "{word}");
            assert_eq!(nearest_word(srgb.to_lab()), word);
        }
    }

    #[test]
    fn a_word_in_front_bends_the_colour_and_other_words_do_not() {
        let green = read_words("green").unwrap();
        assert_eq!(read_words("Green leaves, 3 by 5"), Some(green));
        let [pale, dark, dusty] =
            ["pale green", "dark green", "dusty green stripe"].map(|text| read_words(text).unwrap());
        assert!(pale.l > green.l + 10.0 && dark.l < green.l - 8.0);
        assert!(dusty.chroma() < green.chroma() - 10.0);
        assert_eq!(read_words("red dots on a dark ground"), read_words("red"));
        assert_eq!(read_words("gray"), read_words("grey"));
        assert_eq!(read_words("stripe, about 3 by 5"), None);
        assert_eq!(read_words(""), None);
    }
}
