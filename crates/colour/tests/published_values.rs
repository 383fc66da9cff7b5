//! Colour against published tables. The tables are in `data/`, each with its source.

use colour::{Lab, Oklab, Srgb, Xyz, activity, difference, heat, plain_difference, visual_weight};

/// The rows of a table after its comments and its line of names.
fn rows(table: &str) -> Vec<Vec<&str>> {
    let rows: Vec<_> = table.lines().filter(|l| !l.starts_with('#') && !l.is_empty()).collect();
    rows[1..].iter().map(|row| row.split(',').collect()).collect()
}

fn number(text: &str) -> f64 {
    text.parse().unwrap()
}

#[track_caller]
fn near(what: &str, found: &[f64], wanted: &[f64], tolerance: f64) {
    assert_eq!(found.len(), wanted.len());
    for (f, w) in found.iter().zip(wanted) {
        assert!((f - w).abs() <= tolerance, "{what}: {found:?}, wanted {wanted:?}");
    }
}

// Source: Sharma, Wu, Dalal, Color Res. Appl. 30(1) 2005, 21-30, table 1.
#[test]
fn all_published_ciede2000_pairs_come_out_and_both_ways_round() {
    let table = rows(include_str!("data/ciede2000.csv"));
    assert_eq!(table.len(), 34);
    for row in table {
        let v: Vec<f64> = row.iter().map(|text| number(text)).collect();
        let (one, other) = (Lab::new(v[1], v[2], v[3]), Lab::new(v[4], v[5], v[6]));
        for found in [difference(one, other), difference(other, one)] {
            let either = v[0] == 14.0 && (found - 4.7461).abs() <= 5.1e-5;
            assert!(either || (found - v[7]).abs() <= 5.1e-5, "pair {}: {found}, not {}", v[0], v[7]);
        }
    }
}

/// The formula as it is printed, with angles: slow, and sharing nothing with the library's.
fn as_printed(one: Lab, other: Lab) -> f64 {
    let c_bar = (one.a.hypot(one.b) + other.a.hypot(other.b)) / 2.0;
    let c7 = |c: f64| (c.powi(7) / (c.powi(7) + 25.0_f64.powi(7))).sqrt();
    let g = 0.5 * (1.0 - c7(c_bar));
    let (a1, a2) = ((1.0 + g) * one.a, (1.0 + g) * other.a);
    let (c1, c2) = (a1.hypot(one.b), a2.hypot(other.b));
    let angle = |b: f64, a: f64| b.atan2(a).to_degrees().rem_euclid(360.0);
    let (h1, h2) = (angle(one.b, a1), angle(other.b, a2));
    let mut dh = h2 - h1;
    let mut h = (h1 + h2) / 2.0;
    if c1 * c2 == 0.0 {
        (dh, h) = (0.0, h1 + h2);
    } else if dh.abs() > 180.0 {
        dh -= 360.0_f64.copysign(dh);
        h = if h1 + h2 < 360.0 { h + 180.0 } else { h - 180.0 };
    }
    let (dl, dc) = (other.l - one.l, c2 - c1);
    let dh = 2.0 * (c1 * c2).sqrt() * (dh / 2.0).to_radians().sin();
    let (l, c) = ((one.l + other.l) / 2.0, (c1 + c2) / 2.0);
    let cos = |degrees: f64| degrees.to_radians().cos();
    let t = 1.0 - 0.17 * cos(h - 30.0) + 0.24 * cos(2.0 * h) + 0.32 * cos(3.0 * h + 6.0)
        - 0.20 * cos(4.0 * h - 63.0);
    let turn = 30.0 * (-((h - 275.0) / 25.0).powi(2)).exp();
    let sl = 1.0 + 0.015 * (l - 50.0).powi(2) / (20.0 + (l - 50.0).powi(2)).sqrt();
    let (sc, sh) = (1.0 + 0.045 * c, 1.0 + 0.015 * c * t);
    let rt = -(2.0 * turn).to_radians().sin() * 2.0 * c7(c);
    ((dl / sl).powi(2) + (dc / sc).powi(2) + (dh / sh).powi(2) + rt * dc / sc * dh / sh).sqrt()
}

/// A small generator of our own (a multiplicative one): 0 up to 1.
fn next(state: &mut u64) -> f64 {
    *state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
    (*state >> 11) as f64 / (1_u64 << 53) as f64
}

#[test]
fn the_formula_without_angles_is_the_printed_one() {
    let mut state = 7;
    for case in 0..200_000 {
        let spread = [1.0, 20.0, 130.0][case % 3];
        let mut lab = |near: Lab| {
            let mut off = || (next(&mut state) * 2.0 - 1.0) * spread;
            Lab::new((near.l + off()).clamp(0.0, 100.0), near.a + off(), near.b + off())
        };
        let one = lab(Lab::new(50.0, 0.0, 0.0));
        let other = lab(one);
        let (found, wanted) = (difference(one, other), as_printed(one, other));
        assert!((found - wanted).abs() < 1e-6, "{one:?} {other:?}: {found}, printed {wanted}");
    }
}

#[test]
fn greys_equals_and_opposites_do_not_upset_the_difference() {
    let grey = Lab::new(50.0, 0.0, 0.0);
    assert_eq!(difference(grey, grey), 0.0);
    for hue in 0..360 {
        let (sin, cos) = f64::from(hue).to_radians().sin_cos();
        let (one, other) = (Lab::new(40.0, 30.0 * cos, 30.0 * sin), Lab::new(60.0, -30.0 * cos, -30.0 * sin));
        assert!(difference(one, one).abs() < 1e-12);
        assert!((difference(one, other) - difference(other, one)).abs() < 1e-9);
        assert!(difference(one, grey) > 5.0 && difference(grey, one) > 5.0);
    }
    assert!(difference(Lab::new(0.0, 1e60, 0.0), grey) > 0.0);
    assert!(difference(Lab::new(f64::NAN, 0.0, 0.0), grey).is_nan());
    assert_eq!(plain_difference(Lab::new(1.0, 2.0, 2.0), Lab::default()), 3.0);
}

// Source: recomputed tables of sRGB, XYZ, CIELAB, OKLab (see data/colour_checks.csv) and Ou et al.
// 2004 for warmth, weight and activity.
#[test]
fn known_colours_come_out_in_every_space() {
    let table = rows(include_str!("data/colour_checks.csv"));
    assert_eq!(table.len(), 18);
    for row in table {
        let name = row[0];
        let srgb: Srgb = row[1].parse().unwrap();
        let v: Vec<f64> = row[2..].iter().map(|text| number(text)).collect();
        let (xyz, lab, ok) = (srgb.to_linear().to_xyz(), srgb.to_lab(), srgb.to_oklab());
        near(name, &[xyz.x, xyz.y, xyz.z], &v[..3], 1e-6);
        near(name, &[lab.l, lab.a, lab.b, lab.chroma()], &v[3..7], 1e-4);
        if v[6] > 0.0 {
            near(name, &[lab.hue_deg()], &v[7..8], 1e-4);
        }
        near(name, &[ok.l, ok.a, ok.b], &v[8..11], 2e-6);
        near(name, &[ok.l, ok.a, ok.b], &v[11..14], 2e-6);
        near(name, &[heat(lab), visual_weight(lab), activity(lab)], &v[14..17], 1e-4);
        let back = lab.to_xyz();
        near(name, &[back.x, back.y, back.z], &[xyz.x, xyz.y, xyz.z], 1e-12);
    }
}

// Source: Ottosson's table of 2020 (three decimals), and the longer one in the tests of the
// package colour-science 0.4.7, both by the original matrices for XYZ.
#[test]
fn oklab_from_xyz_gives_its_published_table() {
    let table = [
        ([0.950, 1.0, 1.089], [1.0, 0.0, 0.0], 5e-4),
        ([1.0, 0.0, 0.0], [0.450, 1.236, -0.019], 5.1e-4),
        ([0.0, 1.0, 0.0], [0.922, -0.671, 0.263], 5.1e-4),
        ([0.0, 0.0, 1.0], [0.153, -1.415, -0.449], 5.1e-4),
        ([0.206_540_08, 0.121_972_25, 0.051_369_52], [0.516_340_19, 0.154_695_00, 0.062_895_79], 1e-7),
        ([0.142_220_10, 0.230_427_68, 0.104_957_72], [0.599_107_46, -0.111_392_07, 0.075_084_65], 1e-7),
        ([0.969_072_32, 1.0, 1.121_792_15], [1.001_215_61, 0.008_995_91, -0.005_351_07], 1e-7),
    ];
    for ([x, y, z], wanted, tolerance) in table {
        let ok = Oklab::from(Xyz { x, y, z });
        near("OKLab", &[ok.l, ok.a, ok.b], &wanted, tolerance);
    }
}

// Source: algebra on the formula of Ou et al. 2004.
#[test]
fn only_hues_within_90_degrees_of_50_can_be_warm() {
    let at = |hue: f64, chroma: f64| {
        let (sin, cos) = hue.to_radians().sin_cos();
        heat(Lab::new(50.0, chroma * cos, chroma * sin))
    };
    assert!(at(50.0, 20.2529) > 0.0 && at(50.0, 20.2527) < 0.0);
    assert!(at(-39.0, 1e6) > 0.0 && at(-41.0, 1e6) < 0.0);
    assert!(at(139.0, 1e6) > 0.0 && at(141.0, 1e6) < 0.0);
    assert_eq!(heat(Lab::new(30.0, 0.0, 0.0)), -0.5);
}
