//! The report: one line a scene if asked for, then the tables.

use crate::curve::{at_share, curves};
use crate::judge::{FoundScrap, Judged, Lengths};
use crate::looks::LookJudged;
use std::collections::BTreeMap;

/// One scene in a line.
pub(crate) fn line(judged: &Judged) -> String {
    let length = |lengths: Option<Lengths>| {
        lengths.map_or("-".to_owned(), |l| format!("{:.2} % worst {:.2} %", l.rms * 100.0, l.worst * 100.0))
    };
    let offs: Vec<f64> = judged.found.iter().map(|scrap| scrap.off_in).collect();
    format!(
        "{}: tilt {:.0}, blur {:.1}, bend {:.3}; cards {}/{}; lengths {} (among cloth {}); found {}/{}, false {}; \
         off {:.4} in{}",
        judged.seed,
        judged.tilt_deg,
        judged.blur_px,
        judged.bend,
        judged.cards_found,
        judged.cards_there,
        length(judged.whole),
        length(judged.among),
        judged.found.len(),
        judged.there,
        judged.false_ones,
        at_share(&offs, 0.5).unwrap_or(f64::NAN),
        judged.refused.as_ref().map_or(String::new(), |why| format!("; refused: {why}")),
    )
}

/// All tables.
pub(crate) fn report(all: &[Judged]) {
    cards_and_lengths(all);
    outlines(all);
    looks(all);
    times(all);
    curves(all);
}

fn row(name: &str, value: impl std::fmt::Display) {
    println!("| {name} | {value} |");
}

/// Per cent, or a dash.
fn percent(value: Option<f64>) -> String {
    value.map_or("-".to_owned(), |share| format!("{:.3} %", share * 100.0))
}

fn cards_and_lengths(all: &[Judged]) {
    println!("\n| cards and lengths | |\n|---|---|");
    let sum = |of: fn(&Judged) -> usize| all.iter().map(of).sum::<usize>();
    row("scenes refused", format!("{} of {}", sum(|j| usize::from(j.refused.is_some())), all.len()));
    row("cards found", format!("{} of {}", sum(|j| j.cards_found), sum(|j| j.cards_there)));
    row("cards that aren't there", sum(|j| j.cards_false));
    let corners: Vec<f64> = all.iter().flat_map(|j| j.corners_px.clone()).collect();
    let square = corners.iter().map(|c| c * c).sum::<f64>() / corners.len().max(1) as f64;
    row("corners off, root mean square, pixels", format!("{:.3}", square.sqrt()));
    row("corners off, worst, pixels", format!("{:.2}", at_share(&corners, 1.0).unwrap_or(f64::NAN)));
    type Of = fn(&Judged) -> Option<Lengths>;
    let fields: [(&str, Of); 3] = [
        ("over the whole picture", |j| j.whole),
        ("where the map says that it holds", |j| j.held),
        ("among cloth and cards", |j| j.among),
    ];
    let holds: Vec<f64> = all.iter().filter(|j| j.whole.is_some()).map(|j| j.holds_share).collect();
    row("share of the picture where it says so, median", percent(at_share(&holds, 0.5)));
    row("share of the picture where it says so, one of ten has less", percent(at_share(&holds, 0.1)));
    for (name, of) in fields {
        let lengths: Vec<Lengths> = all.iter().filter_map(of).collect();
        let rms: Vec<f64> = lengths.iter().map(|l| l.rms).collect();
        let worst: Vec<f64> = lengths.iter().map(|l| l.worst).collect();
        for (figure, list) in [("root mean square", &rms), ("worst length", &worst)] {
            for (scene, share) in [("median", 0.5), ("nine of ten", 0.9), ("worst", 1.0)] {
                row(&format!("lengths {name}, {figure}, {scene} scene"), percent(at_share(list, share)));
            }
        }
    }
}

fn outlines(all: &[Judged]) {
    println!("\n| outlines | |\n|---|---|");
    let there: usize = all.iter().map(|j| j.there).sum();
    let found: Vec<&FoundScrap> = all.iter().flat_map(|j| &j.found).collect();
    let hundred = |count: usize, of: usize| {
        format!("{:.1} of 100 ({count} of {of})", 100.0 * count as f64 / of.max(1) as f64)
    };
    let false_ones: usize = all.iter().map(|j| j.false_ones).sum();
    row("scraps found", hundred(found.len(), there));
    row("outlines that are no scrap", hundred(false_ones, found.len() + false_ones));
    let offs: Vec<f64> = found.iter().map(|scrap| scrap.off_in).collect();
    let inches = |share: f64| at_share(&offs, share).map_or("-".to_owned(), |off| format!("{off:.4} in"));
    row("outline off, root mean square, median", inches(0.5));
    row("outline off, root mean square, nine of ten", inches(0.9));
    row("outline off, root mean square, worst", inches(1.0));
    let areas: Vec<f64> = found.iter().map(|scrap| scrap.area.abs()).collect();
    row("area off, median", percent(at_share(&areas, 0.5)));
    row("area off, nine of ten", percent(at_share(&areas, 0.9)));
    let bias = found.iter().map(|scrap| scrap.area).sum::<f64>() / found.len().max(1) as f64;
    row("area off, mean with its sign", percent(Some(bias)));
    row("area within 1 %", hundred(areas.iter().filter(|off| **off <= 0.01).count(), areas.len()));
    let [there, seen, named] = [0, 1, 2].map(|k| all.iter().map(|j| j.cut_off[k]).sum::<usize>());
    row("scraps that leave the picture: there, found, marked", format!("{there}, {seen}, {named}"));
    row("whole scraps marked as cut off", hundred(found.iter().filter(|s| s.cut_off).count(), found.len()));
    row("whole scraps marked doubtful", hundred(found.iter().filter(|s| s.doubtful).count(), found.len()));
}

fn looks(all: &[Judged]) {
    let looks: Vec<&LookJudged> = all.iter().flat_map(|j| &j.found).filter_map(|s| s.look.as_ref()).collect();
    if looks.is_empty() {
        return;
    }
    println!("\n| looks | |\n|---|---|");
    let shades: Vec<f64> = looks.iter().flat_map(|look| look.shades.clone()).collect();
    let means: Vec<f64> = looks.iter().map(|look| look.mean).collect();
    let turned = |kind: usize| -> Vec<f64> {
        looks.iter().filter(|look| look.runs[0] == kind).filter_map(|look| look.turned_deg).collect()
    };
    let (both, one) = (turned(1), turned(2));
    for (name, list) in [
        ("main colours off, CIEDE2000", &shades),
        ("mean colour off, CIEDE2000", &means),
        ("both ways and told so: direction off, degrees", &both),
        ("one way and told so: direction off, degrees", &one),
    ] {
        for (which, share) in [("median", 0.5), ("nine of ten", 0.9)] {
            row(&format!("{name}, {which}"), format!("{:.2}", at_share(list, share).unwrap_or(f64::NAN)));
        }
    }
    for (name, list) in [("both ways", &both), ("one way", &one)] {
        let within = list.iter().filter(|deg| **deg <= 5.0).count();
        row(&format!("{name} and told so: within 5 degrees"), format!("{within} of {}", list.len()));
    }
    let runs: Vec<[usize; 2]> = looks.iter().map(|look| look.runs).collect();
    confusion("it runs", ["any way", "both ways", "one way"], &runs);
    let sizes: Vec<[usize; 2]> = looks.iter().filter_map(|look| look.size).collect();
    confusion("its print is", ["small", "medium", "large"], &sizes);
}

/// How often each print was told wrong, to know where to look.
pub(crate) fn wrong(all: &[Judged]) {
    let mut prints: BTreeMap<&str, [usize; 3]> = BTreeMap::new();
    for look in all.iter().flat_map(|j| &j.found).filter_map(|scrap| scrap.look.as_ref()) {
        let counts = prints.entry(&look.print).or_default();
        counts[0] += 1;
        counts[1] += usize::from(look.runs[0] != look.runs[1]);
        counts[2] += usize::from(look.size.is_some_and(|[is, told]| is != told));
    }
    println!("\n| print | scraps | ways up told wrong | size told wrong |\n|---|---|---|---|");
    for (name, [count, runs, size]) in prints {
        println!("| {name} | {count} | {runs} | {size} |");
    }
}

/// What is against what was told; each class weighs the same in the mean.
fn confusion(name: &str, classes: [&str; 3], pairs: &[[usize; 2]]) {
    println!(
        "\n| {name} | told {} | told {} | told {} | right |\n|---|---|---|---|---|",
        classes[0], classes[1], classes[2]
    );
    let mut right = Vec::new();
    for (is, class) in classes.iter().enumerate() {
        let told = [0, 1, 2].map(|told| pairs.iter().filter(|pair| **pair == [is, told]).count());
        let all: usize = told.iter().sum();
        let share = told[is] as f64 / all as f64;
        if all > 0 {
            right.push(share);
        }
        println!("| {class} | {} | {} | {} | {:.2} |", told[0], told[1], told[2], share);
    }
    let mean = right.iter().sum::<f64>() / right.len().max(1) as f64;
    println!("| all classes alike | | | | {mean:.2} |");
}

fn times(all: &[Judged]) {
    println!("\n| milliseconds, median | |\n|---|---|");
    let names = ["decoding", "cards", "flattening", "drawing flat, light", "outlines", "looks"];
    for (k, name) in names.into_iter().enumerate() {
        let list: Vec<f64> = all.iter().filter(|j| j.refused.is_none()).map(|j| j.times_ms[k]).collect();
        row(name, format!("{:.0}", at_share(&list, 0.5).unwrap_or(f64::NAN)));
    }
}
