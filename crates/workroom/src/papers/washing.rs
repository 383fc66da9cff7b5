//! How a piece is washed, by what is known of its cloths.

use quilt::cloth::Cloth;
use quilt::length::many;

/// The advice, by its tenderest cloth and by what may bleed or shrink (common practice, no source).
pub(super) fn washing(cloths: &[Cloth]) -> Vec<String> {
    let named = |which: &dyn Fn(&Cloth) -> bool| -> Vec<&str> {
        let mut names: Vec<&str> =
            cloths.iter().filter(|cloth| which(cloth)).map(|cloth| cloth.name.as_str()).collect();
        names.sort_unstable();
        names.dedup();
        names
    };
    let some = |names: &[&str]| match names {
        few if few.len() <= 4 => few.join(", "),
        [first, second, third, rest @ ..] => format!("{first}, {second}, {third} and {} more", rest.len()),
        _ => String::new(),
    };
    let fibre = |cloth: &Cloth| cloth.facts.fibre.to_lowercase();
    let is_tender =
        |cloth: &Cloth| ["wool", "silk", "rayon", "viscose"].iter().any(|word| fibre(cloth).contains(word));
    let is_plain = |cloth: &Cloth| {
        ["cotton", "linen"].iter().any(|word| fibre(cloth).contains(word)) && !is_tender(cloth)
    };
    let mut said = Vec::new();
    let tender = named(&is_tender);
    let unknown = named(&|cloth| !is_tender(cloth) && !is_plain(cloth));
    said.push(if !tender.is_empty() {
        format!("By hand in cool water with wool soap, no wringing: it has {} in it.", some(&tender))
    } else if unknown.is_empty() {
        "Cotton and linen: a gentle wash at 30 degrees, short spin, no bleach.".to_owned()
    } else {
        format!(
            "A cold, gentle wash or by hand: the fibres of {} aren't known.",
            many(unknown.len(), "cloth", "cloths")
        )
    });
    let bleeds = named(&|cloth| cloth.facts.bleeds == Some(true));
    if !bleeds.is_empty() {
        said.push(format!(
            "By itself, with a cloth that catches dye, and never left lying wet: {} may bleed.",
            some(&bleeds)
        ));
    }
    let doubtful = named(&|cloth| cloth.facts.bleeds.is_none() && cloth.facts.washed != Some(true));
    if bleeds.is_empty() && !doubtful.is_empty() {
        said.push(format!(
            "The first time by itself, with a cloth that catches dye: whether {} bleed isn't known.",
            many(doubtful.len(), "cloth", "cloths")
        ));
    }
    let unwashed = named(&|cloth| cloth.facts.washed == Some(false));
    if !unwashed.is_empty() {
        said.push(format!("It will shrink a little and crinkle: {} went in unwashed.", some(&unwashed)));
    }
    said.push("Dry it flat, away from the sun; a wet quilt that hangs pulls at its seams.".to_owned());
    said
}

#[cfg(test)]
mod tests {
    use super::*;
    use plane::{Region, Turn};
    use quilt::cloth::{ClothId, Facts, Kind, Look};

    fn cloth(name: &str, fibre: &str, washed: Option<bool>, bleeds: Option<bool>) -> Cloth {
        Cloth {
            id: ClothId(1),
            name: name.to_owned(),
            kind: Kind::Scrap,
            outline: Region::rectangle(3.0, 3.0),
            flaws: Vec::new(),
            about: false,
            look: Look::plain(colour::Lab::new(50.0, 0.0, 0.0)),
            grain: Turn::NONE,
            print: None,
            place: String::new(),
            facts: Facts { fibre: fibre.to_owned(), washed, bleeds },
            picture: None,
            parts: Vec::new(),
            parent: None,
        }
    }

    #[test]
    fn washing_goes_by_the_tenderest_cloth_and_names_what_bleeds() {
        let plain = cloth("check", "cotton", Some(true), Some(false));
        assert_eq!(
            washing(std::slice::from_ref(&plain)).len(),
            2,
            "washed before, fast, cotton: nothing to fear"
        );
        let silk = washing(&[plain.clone(), cloth("gown", "silk", Some(false), Some(true))]);
        assert!(
            silk[0].starts_with("By hand") && silk[0].contains("gown") && !silk[0].contains("check"),
            "{silk:?}"
        );
        assert!(silk.iter().any(|said| said.contains("gown may bleed")), "{silk:?}");
        assert!(silk.iter().any(|said| said.contains("shrink") && said.contains("gown")), "{silk:?}");
        let unknown = washing(&[plain, cloth("odd bit", "", None, None)]);
        assert!(unknown[0].contains("fibres of 1 cloth"), "{unknown:?}");
        assert!(unknown[1].contains("1 cloth bleed"), "{unknown:?}");
    }
}
