//! A small piece with its heap of prints, for the examples to draw.
//!
//! The prints are stripes, dots and checks written here as SVG and painted by this crate; the
//! piece is wedges around a patch of six sides.
#![allow(dead_code, reason = "each example uses its own part of this")]

use colour::{Lab, Srgb};
use papers::{Fonts, png};
use plane::{Point, Pose, Region, Turn, Vec2};
use quilt::cloth::{Cloth, ClothId, Facts, Kind, Look, Picture, Runs};
use quilt::log::{Mark, Name, Press, Sewing, Step};
use quilt::table::Table;
use std::collections::BTreeMap;

/// What may go wrong in an example.
pub(crate) type Fallible<T> = Result<T, Box<dyn std::error::Error>>;

/// Files of pictures by their hash.
pub(crate) type Pictured = BTreeMap<String, Vec<u8>>;

/// Cloths with prints, and their pictures.
pub(crate) fn heap() -> Fallible<(BTreeMap<ClothId, Cloth>, Pictured)> {
    let mut cloths = BTreeMap::new();
    let mut pictures = BTreeMap::new();
    let grounds =
        [0xc9_7b_5a, 0xb5_4d_3c, 0xe0_c3_9a, 0xd9_8f_80, 0xa9_a0_98, 0x8f_a5_ac, 0x4f_66_73, 0x2f_4f_48];
    for (i, ground) in grounds.into_iter().enumerate() {
        let ground = Srgb::from_number(ground);
        let lab = ground.to_lab();
        let ink = Lab::new(if lab.l > 55.0 { lab.l - 28.0 } else { lab.l + 30.0 }, lab.a * 0.9, lab.b * 0.7)
            .to_srgb();
        let motif = match i % 4 {
            0 => format!(r#"<path d="M0 .05H.25M0 .17H.25" stroke="{ink}" stroke-width=".03"/>"#),
            1 => format!(r#"<circle cx=".125" cy=".125" r=".05" fill="{ink}"/>"#),
            2 => format!(
                r#"<path d="M0 0H.125V.125H0ZM.125 .125H.25V.25H.125Z" fill="{ink}" fill-opacity=".5"/>"#
            ),
            _ => format!(r#"<path d="M.02 .2Q.1 .02 .22 .05Q.16 .2 .02 .2Z" fill="{ink}"/>"#),
        };
        let hash = format!("{i:064x}");
        pictures.insert(hash.clone(), print(ground, &motif, [24, 16], 80)?);
        let id = ClothId(i as u64);
        cloths.insert(id, a_cloth(id, lab, hash));
    }
    Ok((cloths, pictures))
}

/// A print that repeats every quarter of an inch.
pub(crate) fn print(
    ground: Srgb,
    motif: &str,
    [width, height]: [u32; 2],
    pixels_per_in: u32,
) -> Fallible<Vec<u8>> {
    let print = format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" width="{width}in" height="{height}in" viewBox="0 0 {width} {height}"><pattern id="p" width=".25" height=".25" patternUnits="userSpaceOnUse">{motif}</pattern><path fill="{ground}" d="M0 0H{width}V{height}H0Z"/><path fill="url(#p)" d="M0 0H{width}V{height}H0Z"/></svg>"#
    );
    Ok(png(&print, f64::from(pixels_per_in), &Fonts::none(), &|_| None)?)
}

/// A length of such a print, in one colour, whose middle is its origin.
pub(crate) fn length(
    (cloths, pictures): (&mut BTreeMap<ClothId, Cloth>, &mut Pictured),
    (id, ground): (u64, u32),
    motif: &str,
    [width, height]: [u32; 2],
) -> Fallible<ClothId> {
    let (hash, ground, pixels_per_in) = (format!("{id:064x}"), Srgb::from_number(ground), 40);
    pictures.insert(hash.clone(), print(ground, motif, [width, height], pixels_per_in)?);
    let half = Vec2::new(f64::from(width) / 2.0, f64::from(height) / 2.0);
    let mut cloth = a_cloth(ClothId(id), ground.to_lab(), hash);
    cloth.kind = Kind::Length;
    cloth.outline = Region::rectangle(2.0 * half.x, 2.0 * half.y).moved(Pose::new(Turn::NONE, -half));
    if let Some(picture) = &mut cloth.picture {
        picture.pixels_per_in = f64::from(pixels_per_in);
        picture.top_left = Point::new(-half.x, half.y);
        picture.size_px = [width * pixels_per_in, height * pixels_per_in];
    }
    cloths.insert(cloth.id, cloth);
    Ok(ClothId(id))
}

fn a_cloth(id: ClothId, lab: Lab, hash: String) -> Cloth {
    let picture = Picture {
        hash,
        format: "png".to_owned(),
        pixels_per_in: 80.0,
        top_left: Point::new(-12.0, 8.0),
        size_px: [1920, 1280],
    };
    Cloth {
        id,
        name: format!("print {id}"),
        kind: Kind::Scrap,
        outline: Region::rectangle(12.0, 8.0).moved(Pose::new(Turn::NONE, Vec2::new(-6.0, -4.0))),
        flaws: Vec::new(),
        about: false,
        look: Look { runs: Runs::AnyWay, ..Look::plain(lab) },
        grain: Turn::QUARTER,
        print: None,
        place: String::new(),
        facts: Facts::default(),
        picture: Some(picture),
        parts: Vec::new(),
        parent: None,
    }
}

/// Wedges sewn around a hexagon, always on the longest side; two loose patches lie beside it.
pub(crate) fn wedges(many: u32) -> Fallible<Table> {
    let mut table = Table::new();
    let hexagon = (0..6).map(|i| {
        let (sin, cos) = (f64::from(i) * 60.0_f64).to_radians().sin_cos();
        Point::new(1.4 * cos, 1.4 * sin)
    });
    let lay = |cloth: u32, cut: Vec<Point>| Step::Lay {
        cloth: ClothId(u64::from(cloth % 8)),
        at: Pose::carrying(
            Turn::from_degrees(f64::from(cloth) * 37.0),
            plane::polygon::centroid(&cut).unwrap_or_default(),
            Point::ORIGIN,
        ),
        cut,
    };
    let mut mark = 1;
    table.apply(Mark(1), &lay(0, hexagon.collect()))?;
    for i in 0..many {
        let top = table.top(Mark(1)).ok_or("the piece is gone")?;
        let mut sides = top.sides();
        sides.sort_by(|a, b| b.length_in().total_cmp(&a.length_in()));
        let pick = f64::from((i * 7919) % 13) / 13.0;
        let cut = wedge(sides[0].length_in() + 1.6, 1.15 + 0.6 * pick, 1.15 + 0.6 * (1.0 - pick));
        mark += 2;
        table.apply(Mark(mark - 1), &lay(i * 8 / many + (i % 3), cut))?;
        let press = [Press::Over, Press::Over, Press::Over, Press::Open, Press::Back][i as usize % 5];
        let sewn = sides.iter().filter_map(quilt::table::Side::name).any(|onto| {
            let join = Sewing::Join {
                onto,
                with: Name::new(Mark(mark - 1), 0),
                slide_in: 0.0,
                allowance_in: 0.25,
                stop: None,
                flush: [true, true],
                press,
            };
            table.apply(Mark(mark), &Step::Sew(join)).is_ok()
        });
        if !sewn {
            break;
        }
    }
    for (i, side) in [3.0, 2.0, 4.5].into_iter().enumerate() {
        table.apply(Mark(mark + 1 + i as u32), &lay(i as u32 * 3, wedge(side, 2.0, 1.5)))?;
    }
    Ok(table)
}

pub(crate) fn wedge(width: f64, start: f64, end: f64) -> Vec<Point> {
    vec![Point::new(0.0, 0.0), Point::new(width, 0.0), Point::new(width - 0.3, end), Point::new(0.3, start)]
}
