//! Medians and other shares of a list, and figures over tilt, blur and bend.

use crate::judge::Judged;

/// The value below which this share of the list lies; none of an empty list.
pub(crate) fn at_share(values: &[f64], share: f64) -> Option<f64> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let last = sorted.len().checked_sub(1)?;
    sorted.get((last as f64 * share).round() as usize).copied()
}

/// A figure of scenes: its name, a scene's values, and what they are multiplied by to be shown.
type Figure = (&'static str, fn(&Judged) -> Vec<f64>, f64);

const FIGURES: [Figure; 5] = [
    ("lengths, root mean square, %", |j| j.whole.map(|l| l.rms).into_iter().collect(), 100.0),
    ("worst length, %", |j| j.whole.map(|l| l.worst).into_iter().collect(), 100.0),
    ("outline, in/1000", |j| j.found.iter().map(|scrap| scrap.off_in).collect(), 1_000.0),
    ("area, %", |j| j.found.iter().map(|scrap| scrap.area.abs()).collect(), 100.0),
    ("colour, CIEDE2000", colours, 1.0),
];

fn colours(judged: &Judged) -> Vec<f64> {
    let looks = judged.found.iter().filter_map(|scrap| scrap.look.as_ref());
    looks.flat_map(|look| look.shades.clone()).collect()
}

/// What scenes are sorted by: its name, a scene's value, and where classes end.
type Axis = (&'static str, fn(&Judged) -> f64, &'static [f64]);

const AXES: [Axis; 4] = [
    ("tilt, degrees", |j| j.tilt_deg, &[0.0, 10.0, 20.0, 30.0, 35.0, 45.0, 60.0]),
    ("blur, pixels", |j| j.blur_px, &[0.0, 0.75, 1.0, 1.25, 1.5, 2.5, 5.0]),
    ("bend in r², either way", |j| j.bend.abs(), &[0.0, 0.01, 0.02, 0.03, 0.06, 0.1]),
    ("bend in r⁴, either way", |j| j.second.abs(), &[0.0, 0.003, 0.006, 0.01, 0.02, 0.03]),
];

/// The median and nine of ten of each figure in each class of tilt, blur and bend; classes without scenes
/// are left out.
pub(crate) fn curves(all: &[Judged]) {
    print!("\n| median; nine of ten | scenes");
    for (name, ..) in FIGURES {
        print!(" | {name}");
    }
    println!(" | found |\n|---|{}", "---|".repeat(FIGURES.len() + 2));
    for (name, of, ends) in AXES {
        for pair in ends.windows(2) {
            let class: Vec<&Judged> = all.iter().filter(|j| (pair[0]..pair[1]).contains(&of(j))).collect();
            if class.is_empty() {
                continue;
            }
            print!("| {name}: {} to {} | {}", pair[0], pair[1], class.len());
            for (_, values, scale) in FIGURES {
                let list: Vec<f64> = class.iter().flat_map(|j| values(j)).collect();
                let show = |share| at_share(&list, share).map_or("–".to_owned(), |y| figures(y * scale));
                print!(" | {}; {}", show(0.5), show(0.9));
            }
            let found: usize = class.iter().map(|j| j.found.len()).sum();
            let there: usize = class.iter().map(|j| j.there).sum();
            println!(" | {found} of {there} |");
        }
    }
}

/// A number in two figures or more.
fn figures(value: f64) -> String {
    match value {
        10.0.. => format!("{value:.0}"),
        1.0.. => format!("{value:.1}"),
        0.1.. => format!("{value:.2}"),
        _ => format!("{value:.3}"),
    }
}
