//! Draws a small piece every way there is, to be looked at:
//! `cargo run -p papers --example look -- FOLDER [FOLDER OF TYPE]`.
//!
//! The prints are stripes, dots and checks written here as SVG and painted by this crate; the
//! piece is wedges around a patch of six sides.

use colour::{Lab, Srgb};
use drawing::svg::{Pictures, SvgOptions};
use drawing::{
    Accent, ClothOptions, Drawing, FrontOptions, PlannedCut, Proposal, ProposedPatch, back, cloth_drawing,
    front, overlay, proposal_drawing, table_drawing,
};
use papers::{Fonts, paint, png};
use plane::{Point, Pose, Region, Turn, Vec2};
use quilt::cloth::{Cloth, ClothId, Facts, Kind, Look, Picture, Runs};
use quilt::eye::EyeMark;
use quilt::log::{Mark, Name, Press, Sewing, Step};
use quilt::table::Table;
use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

type Fallible<T> = Result<T, Box<dyn std::error::Error>>;

fn main() -> Fallible<()> {
    let mut arguments = std::env::args().skip(1).map(PathBuf::from);
    let folder = arguments.next().ok_or("name a folder to draw into")?;
    let fonts = match arguments.next() {
        Some(place) => Fonts::in_folder(&place)?,
        None => Fonts::none(),
    };
    std::fs::create_dir_all(&folder)?;
    let (cloths, pictures) = heap()?;
    let table = wedges(46)?;
    let (piece, top) = table.piece().ok_or("nothing was sewn")?;
    let plain = FrontOptions { ground: true, ..FrontOptions::default() };
    let last = *table.patches().keys().last().ok_or("no patches")?;
    let side = top.sides().iter().find_map(quilt::table::Side::name);
    let chalk: BTreeSet<Mark> = (0..76).map(Mark).collect();
    let all = FrontOptions { labels: true, measures: true, ..plain.clone() };
    let checked = front(&table, piece, &cloths, &plain)?;
    let marks = overlay(&eye(), checked.weight);
    let drawings = [
        ("front", front(&table, piece, &cloths, &plain)?),
        ("flat", front(&table, piece, &cloths, &FrontOptions { flat: true, ..all.clone() })?),
        ("measured", front(&table, piece, &cloths, &all)?),
        ("finished", front(&table, piece, &cloths, &FrontOptions { finished: true, ..all.clone() })?),
        (
            "planned",
            front(
                &table,
                piece,
                &cloths,
                &FrontOptions {
                    sewn: Some(chalk),
                    accent: side.map(Accent::Side),
                    highlights: vec![last],
                    ..plain.clone()
                },
            )?,
        ),
        ("back", back(&table, piece, &cloths, &plain)?),
        ("back-measured", back(&table, piece, &cloths, &all)?),
        ("table", table_drawing(&table, &cloths, &all)?),
        ("proposal", proposal_drawing(&table, piece, &cloths, &plain, &proposal(&table)?)?),
        ("eye", checked.with([marks])),
        ("cloth", cloth(&cloths)?),
    ];
    let find = |picture: &Picture| pictures.get(&picture.hash).cloned();
    for (name, drawing) in drawings {
        let svg = drawing.to_svg(&SvgOptions { pictures: Pictures::Inside(&find), ..SvgOptions::default() });
        let pixels_per_in = 1100.0 / drawing.width_in().max(drawing.height_in());
        std::fs::write(folder.join(format!("{name}.svg")), &svg)?;
        let start = std::time::Instant::now();
        std::fs::write(folder.join(format!("{name}.png")), paint(&drawing, pixels_per_in, &fonts, &find)?)?;
        println!("{name}: {:.0} ms", start.elapsed().as_secs_f64() * 1e3);
    }
    Ok(())
}

/// Files of pictures by their hash.
type Pictured = BTreeMap<String, Vec<u8>>;

/// Cloths with prints, and their pictures.
fn heap() -> Fallible<(BTreeMap<ClothId, Cloth>, Pictured)> {
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
        let print = format!(
            r#"<svg xmlns="http://www.w3.org/2000/svg" width="24in" height="16in" viewBox="0 0 24 16"><pattern id="p" width=".25" height=".25" patternUnits="userSpaceOnUse">{motif}</pattern><path fill="{ground}" d="M0 0H24V16H0Z"/><path fill="url(#p)" d="M0 0H24V16H0Z"/></svg>"#
        );
        let hash = format!("{i:064x}");
        let bytes = png(&print, 80.0, &Fonts::none(), &|_| None)?;
        pictures.insert(hash.clone(), bytes);
        let id = ClothId(i as u64);
        cloths.insert(id, a_cloth(id, lab, hash));
    }
    Ok((cloths, pictures))
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
fn wedges(many: u32) -> Fallible<Table> {
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

fn wedge(width: f64, start: f64, end: f64) -> Vec<Point> {
    vec![Point::new(0.0, 0.0), Point::new(width, 0.0), Point::new(width - 0.3, end), Point::new(0.3, start)]
}

fn proposal(table: &Table) -> Fallible<Proposal> {
    let (_, top) = table.piece().ok_or("nothing was sewn")?;
    let side =
        top.sides().into_iter().max_by(|a, b| a.length_in().total_cmp(&b.length_in())).ok_or("no side")?;
    let line = top.line(side.bound).ok_or("no line")?.inward(0.25);
    let seam = [line.point_at(line.along(side.from)), line.point_at(line.along(side.to))];
    let outline = wedge(side.length_in() + 0.6, 2.2, 1.5);
    let turn = line.direction().opposite();
    let pose =
        Pose::carrying(turn, Point::new(side.length_in() / 2.0 + 0.3, 0.25), seam[0].midpoint(seam[1]));
    let at = Pose::new(Turn::from_degrees(20.0), Vec2::new(2.0, 1.0));
    let patch = ProposedPatch { cloth: ClothId(5), at, outline, pose };
    Ok(Proposal { patches: vec![patch], seams: vec![seam], trims: Vec::new() })
}

fn eye() -> Vec<EyeMark> {
    let shape = [(-3.0, -3.0), (-1.0, -3.0), (-2.0, -1.5)].map(|(x, y)| Point::new(x, y));
    let place = Point::new(0.4, 0.3);
    vec![EyeMark::Point(place), EyeMark::Line(place, Point::new(3.0, 2.0)), EyeMark::Polygon(shape.to_vec())]
}

fn cloth(cloths: &BTreeMap<ClothId, Cloth>) -> Fallible<Drawing> {
    let mut cloth = cloths.get(&ClothId(3)).cloned().ok_or("no cloth")?;
    let outer = [(0.4, 0.3), (9.0, 0.0), (11.5, 3.0), (10.4, 7.4), (6.0, 6.2), (1.2, 7.8)];
    cloth.outline.outer = outer.map(|(x, y)| Point::new(x, y)).to_vec();
    cloth.flaws = vec![Region {
        outer: [(8.0, 4.0), (8.9, 4.2), (8.4, 5.0)].map(|(x, y)| Point::new(x, y)).to_vec(),
        holes: Vec::new(),
    }];
    let cut = |x: f64, cut: bool, label: &str| PlannedCut {
        outline: Pose::new(Turn::from_degrees(12.0), Vec2::new(x, 1.2)).apply_all(&wedge(3.0, 2.0, 1.4)),
        label: label.to_owned(),
        cut,
    };
    let cuts = vec![cut(1.4, false, "12"), cut(5.0, true, "14")];
    let what = ClothOptions { labels: true, ground: true, cuts, ..ClothOptions::default() };
    Ok(cloth_drawing(&cloth, cloths, &what))
}
