//! Painted drawings: the right size, the right colours in the right places, and what is refused.

use colour::Srgb;
use drawing::svg::{Pictures, SvgOptions};
use drawing::{Drawing, FrontOptions, Item, PictureItem, Placement, Shape, back, front};
use papers::{Fonts, PaperProblem, paint, png};
use plane::{Point, Pose, Region, Turn, Vec2};
use quilt::cloth::{Cloth, ClothId, Facts, Kind, Look, Picture};
use quilt::log::{Mark, Step};
use quilt::table::Table;
use resvg::tiny_skia::{Pixmap, PremultipliedColorU8};
use std::collections::BTreeMap;

const RED: u32 = 0xc8_32_28;
const BLUE: u32 = 0x28_50_b4;

fn square(pixels_per_in: f64) -> Result<Vec<u8>, PaperProblem> {
    let svg = r##"<svg xmlns="http://www.w3.org/2000/svg" width="2in" height="1.5in" viewBox="0 0 2 1.5"><path fill="#28a050" d="M0 0H1V1H0Z"/></svg>"##;
    png(svg, pixels_per_in, &Fonts::none(), &|_| None)
}

fn read(png: &[u8]) -> Pixmap {
    Pixmap::decode_png(png).expect("it is a PNG")
}

fn rgb(pixel: Option<PremultipliedColorU8>) -> [u8; 4] {
    pixel.map(|p| [p.red(), p.green(), p.blue(), p.alpha()]).expect("it is on the picture")
}

#[test]
fn an_inch_has_the_pixels_asked_for() {
    for (pixels_per_in, width, height) in [(100.0, 200, 150), (96.0, 192, 144), (33.3, 67, 50), (1.0, 2, 2)] {
        let picture = read(&square(pixels_per_in).unwrap());
        assert_eq!((picture.width(), picture.height()), (width, height));
    }
    let picture = read(&square(100.0).unwrap());
    assert_eq!(rgb(picture.pixel(50, 50)), [0x28, 0xa0, 0x50, 255]);
    assert_eq!(rgb(picture.pixel(150, 50)), [0; 4]);
}

#[test]
fn too_many_pixels_are_refused_with_what_fits() {
    let problem = square(6_000.0).unwrap_err();
    let PaperProblem::TooLarge { fits, .. } = problem else { panic!("{problem}") };
    // 2 by 1.5 inches at 5,773 pixels an inch are 99.98 million pixels.
    assert_eq!(fits, 5_773.0);
    assert!(problem.to_string().contains("108 million pixels; the most is 100 million"), "{problem}");
    for nonsense in [0.0, -5.0, f64::NAN, f64::INFINITY] {
        assert!(matches!(square(nonsense), Err(PaperProblem::Scale { .. })));
    }
    for bad in ["", "<svg", "<html/>", "<svg xmlns='http://www.w3.org/2000/svg' width='0in' height='0in'/>"] {
        assert!(
            matches!(png(bad, 96.0, &Fonts::none(), &|_| None), Err(PaperProblem::NotSvg { .. })),
            "{bad}"
        );
    }
}

#[test]
fn without_type_only_the_words_are_missing() {
    for fonts in [Fonts::none(), Fonts::from_bytes([b"no type at all".to_vec()])] {
        assert!(fonts.is_empty());
        let svg = r##"<svg xmlns="http://www.w3.org/2000/svg" width="1in" height="1in" viewBox="0 0 1 1"><path fill="#28a050" d="M0 0H1V1H0Z"/><text x=".1" y=".9" font-size=".5">12</text></svg>"##;
        let picture = read(&png(svg, 50.0, &fonts, &|_| None).unwrap());
        assert!(picture.pixels().iter().all(|p| [p.red(), p.green(), p.blue()] == [0x28, 0xa0, 0x50]));
    }
    let problem = Fonts::in_folder(std::path::Path::new("no such folder")).unwrap_err();
    assert!(problem.to_string().contains("no such folder can't be read"), "{problem}");
}

#[test]
fn a_folder_without_type_is_refused_not_taken_for_type() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let problem = Fonts::in_folder(&folder).unwrap_err();
    assert!(matches!(problem, PaperProblem::NoType { .. }), "{problem}");
    assert!(problem.to_string().contains("src holds no type"), "{problem}");
}

/// A cloth of 4 by 2 inches: red where x < 2 on the cloth, blue beyond.
fn red_and_blue() -> (Cloth, Vec<u8>) {
    let svg = format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" width="4in" height="2in" viewBox="0 0 4 2"><path fill="{}" d="M0 0H2V2H0Z"/><path fill="{}" d="M2 0H4V2H2Z"/></svg>"#,
        Srgb::from_number(RED),
        Srgb::from_number(BLUE)
    );
    let bytes = png(&svg, 50.0, &Fonts::none(), &|_| None).unwrap();
    let picture = Picture {
        hash: "0".repeat(64),
        format: "png".to_owned(),
        pixels_per_in: 50.0,
        top_left: Point::new(0.0, 2.0),
        size_px: [200, 100],
    };
    let cloth = Cloth {
        id: ClothId(1),
        name: "red and blue".to_owned(),
        kind: Kind::Scrap,
        outline: Region::rectangle(4.0, 2.0),
        flaws: Vec::new(),
        about: false,
        look: Look::plain(Srgb::new(128, 128, 128).to_lab()),
        grain: Turn::QUARTER,
        print: None,
        place: String::new(),
        facts: Facts::default(),
        picture: Some(picture),
        parts: Vec::new(),
        parent: None,
    };
    (cloth, bytes)
}

/// A patch of the red and blue cloth on the table, the cloths, and the picture's file.
fn patch() -> (Table, BTreeMap<ClothId, Cloth>, Vec<u8>) {
    let (cloth, bytes) = red_and_blue();
    // The patch's corner is (3, 0.5) of the cloth, turned by a quarter: its x runs up the cloth,
    // its y back along it, so it is blue for y < 1 and red beyond.
    let at = Pose::new(Turn::QUARTER, Vec2::new(3.0, 0.5));
    let mut table = Table::new();
    let cut = Region::rectangle(1.0, 2.0).outer;
    table.apply(Mark(1), &Step::Lay { cloth: cloth.id, at, cut }).unwrap();
    (table, BTreeMap::from([(cloth.id, cloth)]), bytes)
}

#[test]
fn the_print_is_seen_where_the_patch_was_cut() {
    let (table, cloths, bytes) = patch();
    let drawn = front(&table, Mark(1), &cloths, &FrontOptions::default()).unwrap();
    let options = SvgOptions { pictures: Pictures::Linked("/pictures/"), id_prefix: "" };
    let svg = drawn.to_svg(&options);
    let address = format!("/pictures/{}.png", "0".repeat(64));
    let find = |wanted: &str| (wanted == address).then(|| bytes.clone());
    let painted = read(&png(&svg, 100.0, &Fonts::none(), &find).unwrap());
    let colour = |x: f64, y: f64| {
        let pixel = painted.pixel(((x - drawn.lo.x) * 100.0) as u32, ((drawn.hi.y - y) * 100.0) as u32);
        let [r, g, b, _] = rgb(pixel);
        u32::from_be_bytes([0, r, g, b])
    };
    for x in [0.1, 0.5, 0.9] {
        assert_eq!((colour(x, 0.2), colour(x, 0.9)), (BLUE, BLUE));
        assert_eq!((colour(x, 1.1), colour(x, 1.8)), (RED, RED));
    }
    // Without the picture its mean colour shows, from behind a paler one.
    let painted = read(&png(&svg, 100.0, &Fonts::none(), &|_| None).unwrap());
    assert_eq!(rgb(painted.pixel(painted.width() / 2, painted.height() / 2)), [128, 128, 128, 255]);
    let svg = back(&table, Mark(1), &cloths, &FrontOptions::default()).unwrap().to_svg(&options);
    let painted = read(&png(&svg, 100.0, &Fonts::none(), &|_| None).unwrap());
    let [r, ..] = rgb(painted.pixel(painted.width() / 2, painted.height() / 2));
    assert!(r > 170, "{r}");
}

#[test]
fn pictures_cut_to_what_is_seen_look_the_same() {
    let (table, cloths, bytes) = patch();
    let find = |_: &Picture| Some(bytes.clone());
    // As fine as the picture, and so coarse that it is averaged.
    for pixels_per_in in [100.0, 50.0, 13.0] {
        let drawn = front(&table, Mark(1), &cloths, &FrontOptions::default()).unwrap();
        let behind = back(&table, Mark(1), &cloths, &FrontOptions::default()).unwrap();
        for (drawn, sign) in [(&drawn, 1.0), (&behind, -1.0)] {
            let painted = read(&paint(drawn, pixels_per_in, &Fonts::none(), &find).unwrap());
            for (x, y) in [(0.25, 0.3), (0.75, 0.8), (0.25, 1.2), (0.75, 1.7)] {
                let at = |from: f64, to: f64| ((to - from) * pixels_per_in) as u32;
                let [r, g, b, _] = rgb(painted.pixel(at(drawn.lo.x, sign * x), at(y, drawn.hi.y)));
                let found = u32::from_be_bytes([0, r, g, b]);
                match (sign > 0.0, y < 1.0) {
                    (true, true) => assert_eq!(found, BLUE, "{pixels_per_in} {x} {y}"),
                    (true, false) => assert_eq!(found, RED, "{pixels_per_in} {x} {y}"),
                    (false, true) => assert!(b > r + 20, "{pixels_per_in} {r} {b}"),
                    (false, false) => assert!(r > b + 20, "{pixels_per_in} {r} {b}"),
                }
            }
        }
    }
    let drawn = front(&table, Mark(1), &cloths, &FrontOptions::default()).unwrap();
    for broken in [None, Some(b"no picture".to_vec()), Some(bytes[..bytes.len() / 2].to_vec())] {
        let painted = read(&paint(&drawn, 40.0, &Fonts::none(), &|_| broken.clone()).unwrap());
        assert_eq!(rgb(painted.pixel(painted.width() / 2, painted.height() / 2)), [128, 128, 128, 255]);
    }
    assert!(matches!(paint(&drawn, 1e5, &Fonts::none(), &find), Err(PaperProblem::TooLarge { .. })));
    assert!(matches!(paint(&drawn, f64::NAN, &Fonts::none(), &find), Err(PaperProblem::Scale { .. })));
}

#[test]
fn one_file_at_two_scales_is_painted_at_both() {
    let (cloth, bytes) = red_and_blue();
    let fine = cloth.picture.unwrap();
    // Half as fine, the same file covers twice the length: it turns blue at 4 inches, not at 2.
    let coarse = Picture { pixels_per_in: 25.0, top_left: Point::new(0.0, 4.0), ..fine.clone() };
    let strip = |picture: &Picture, up: f64| {
        let placement = Placement::shifted(Vec2::new(0.0, up));
        let clip =
            Region { outer: placement.apply_all(&Region::rectangle(4.0, 1.0).outer), holes: Vec::new() };
        let picture = picture.clone().into();
        Item::new(Shape::Picture(PictureItem { picture, placement, clip, opacity: 1.0 }))
    };
    let drawn = Drawing::around("two scales", vec![strip(&fine, 0.0), strip(&coarse, 1.0)], 1.0, 0.0);
    let painted = read(&paint(&drawn, 50.0, &Fonts::none(), &|_| Some(bytes.clone())).unwrap());
    let svg = drawn.to_svg(&SvgOptions { pictures: Pictures::Linked(""), id_prefix: "" });
    let exported = read(&png(&svg, 50.0, &Fonts::none(), &|_| Some(bytes.clone())).unwrap());
    for picture in [painted, exported] {
        let at = |x: f64, y: f64| {
            let [r, g, b, _] = rgb(picture.pixel((x * 50.0) as u32, ((2.0 - y) * 50.0) as u32));
            u32::from_be_bytes([0, r, g, b])
        };
        assert_eq!([at(1.0, 0.5), at(3.0, 0.5), at(1.0, 1.5), at(3.0, 1.5)], [RED, BLUE, RED, RED]);
    }
}

#[test]
fn a_painted_page_has_the_page_s_ground() {
    let square = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)].map(|(x, y)| Point::new(x, y));
    let item = Item::fill(square.to_vec(), drawing::Paint::solid(Srgb::from_number(RED)));
    let drawn = Drawing::around("", vec![item], 1.0, 0.5);
    let painted = read(&paint(&drawn, 50.0, &Fonts::none(), &|_| None).unwrap());
    let [r, g, b, alpha] = rgb(painted.pixel(5, 5));
    let calico = drawing::CALICO;
    assert_eq!(alpha, 255);
    for (seen, wished) in [(r, calico.r), (g, calico.g), (b, calico.b)] {
        assert!(seen.abs_diff(wished) < 12, "{seen} {wished}");
    }
    assert_eq!(rgb(painted.pixel(50, 50)), [0xc8, 0x32, 0x28, 255]);
    // Calico that is there already is not laid twice.
    assert_eq!(drawn.clone().on_calico().on_calico(), drawn.on_calico());
}
