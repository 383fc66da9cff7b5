//! Draws a small finished piece, front and back, in every design of quilting, to be looked at:
//! `cargo run -p papers --example finished -- FOLDER [FOLDER OF TYPE]`.
//!
//! Wedges with a mitred border, a heron of few lines, a binding, a back in one piece or in strips.

mod small;

use colour::Srgb;
use drawing::svg::{Pictures, SvgOptions};
use drawing::{
    Backed, Drawing, Edged, Figured, FrontOptions, Hung, HungBy, Made, Quilted, Stages, finished_back,
    finished_front,
};
use papers::{Fonts, paint};
use plane::fill::Fill;
use plane::{Point, Region, Vec2};
use quilt::cloth::{Cloth, ClothId, Picture};
use quilt::log::Mark;
use quilt::stage::binding::{self, BindingChoice, Finish, FinishPlan};
use quilt::stage::border::{self, BorderChoice};
use quilt::stage::figure::{
    self, Figure, FigureChoice, FigureOrder, FigurePlan, FigureSize, Path, Segment, Shape, Thin,
};
use quilt::stage::layers::{self, Backing, LayersChoice};
use quilt::stage::on_hand::OnHand;
use quilt::stage::quilting::{self, Beside, DesignKind, QuiltingChoice};
use quilt::stage::sleeve::{self, SleeveChoice};
use quilt::stage::{Order, Piece};
use quilt::sums::Join;
use quilt::table::Table;
use small::{Fallible, Pictured, heap, length, wedges};
use std::collections::BTreeMap;
use std::path::PathBuf;

const ALLOWANCE_IN: f64 = 0.25;
const DESIGNS: [(&str, DesignKind); 7] = [
    ("round", DesignKind::RoundSpiral),
    ("cornered", DesignKind::CorneredSpiral),
    ("unbroken", DesignKind::UnbrokenSpiral),
    ("lines", DesignKind::Lines),
    ("crossed", DesignKind::Crossed),
    ("echoes", DesignKind::Echoes),
    ("waves", DesignKind::Waves),
];

fn main() -> Fallible<()> {
    let mut arguments = std::env::args().skip(1).map(PathBuf::from);
    let folder = arguments.next().ok_or("name a folder to draw into")?;
    let fonts = match arguments.next() {
        Some(place) => Fonts::in_folder(&place)?,
        None => Fonts::none(),
    };
    std::fs::create_dir_all(&folder)?;
    let work = Work::new()?;
    let find = |picture: &Picture| work.pictures.get(&picture.hash).cloned();
    for (name, drawing) in work.drawings()? {
        let svg =
            drawing.to_svg(&SvgOptions { pictures: Pictures::Linked("/pictures/"), ..SvgOptions::default() });
        println!("{name}: {:.1} kB", svg.len() as f64 / 1e3);
        let inside = SvgOptions { pictures: Pictures::Inside(&find), ..SvgOptions::default() };
        std::fs::write(folder.join(format!("{name}.svg")), drawing.to_svg(&inside))?;
        let pixels_per_in = 1400.0 / drawing.width_in().max(drawing.height_in());
        std::fs::write(folder.join(format!("{name}.png")), paint(&drawing, pixels_per_in, &fonts, &find)?)?;
    }
    Ok(())
}

/// The piece and what its stages are made of.
struct Work {
    cloths: BTreeMap<ClothId, Cloth>,
    pictures: Pictured,
    border: ClothId,
    back: ClothId,
    binding: ClothId,
    table: Table,
    piece: Mark,
}

impl Work {
    fn new() -> Fallible<Self> {
        let (mut cloths, mut pictures) = heap()?;
        let leaf = r##"<path d="M.04 .2Q.06 .06 .2 .04Q.18 .18 .04 .2Z" fill="#5b7486"/>"##;
        let border = length((&mut cloths, &mut pictures), (20, 0x33_45_54), leaf, [42, 60])?;
        let stripe = r##"<path d="M0 .06H.25M0 .19H.25" stroke="#c2a878" stroke-width=".02"/>"##;
        let back = length((&mut cloths, &mut pictures), (21, 0xd8_c9_a8), stripe, [60, 50])?;
        let bar = r##"<path d="M.06 0V.25M.19 0V.25" stroke="#e9c9a0" stroke-width=".05"/>"##;
        let binding = length((&mut cloths, &mut pictures), (22, 0x8c_3b_30), bar, [42, 18])?;
        let table = wedges(34)?;
        let piece = table.piece().ok_or("nothing was sewn")?.0;
        let mut work = Self { cloths, pictures, border, back, binding, table, piece };
        work.sew_border()?;
        Ok(work)
    }

    fn sew_border(&mut self) -> Fallible<()> {
        let cloth = &self.cloths[&self.border];
        let top = self.table.top(self.piece).ok_or("the piece is gone")?;
        let piece = Piece::of(self.piece, top)?;
        let choice = BorderChoice {
            sewn_in: vec![2.25],
            trimmed_in: Vec::new(),
            order: Order::Mitred,
            first_side: 0,
            join: quilt::stage::JoinKind::default(),
            print: border::PrintLies::default(),
            grain: border::Grain::default(),
        };
        let plan = border::plan(&piece, &choice, Some(cloth), ALLOWANCE_IN)?;
        let first = Mark(1000);
        let steps = plan.steps(&piece, cloth, first).ok_or("the border's cloth is too small")?;
        for (mark, step) in (first.0..).zip(steps) {
            self.table.apply(Mark(mark), &step)?;
        }
        Ok(())
    }

    fn drawings(&self) -> Fallible<Vec<(String, Drawing)>> {
        let outline = self.table.top(self.piece).ok_or("the piece is gone")?.outline_points();
        let bound = binding::plan(&BindingChoice::default(), &outline, ALLOWANCE_IN)?;
        let faced = BindingChoice { finish: Finish::Faced, ..BindingChoice::default() };
        let faced = binding::plan(&faced, &outline, ALLOWANCE_IN)?;
        let before = self.heron(&outline, FigureOrder::BeforeQuilting)?;
        let after = self.heron(&outline, FigureOrder::AfterQuilting)?;
        let hanging = sleeve::plan(&SleeveChoice::default(), &outline, &[], ALLOWANCE_IN)?;
        let (whole, strips) = (self.backing(&outline, true)?, self.backing(&outline, false)?);
        let (mut drawn, drawn_bird) = (Vec::new(), bird());
        for (i, (name, design)) in DESIGNS.into_iter().enumerate() {
            let first = i > 3;
            let (figure, order) = if first {
                (&before, FigureOrder::BeforeQuilting)
            } else {
                (&after, FigureOrder::AfterQuilting)
            };
            let fill = self.quilted(design, &outline, figure)?;
            let stages = Stages {
                quilting: Some(quilted(&fill)),
                backing: Some(Backed {
                    plan: if i % 2 == 0 { &whole } else { &strips },
                    bolts: vec![Srgb::from_number(0xa9_b8_ae)],
                }),
                edge: Some(self.edged(if i == 3 { &faced } else { &bound })),
                figure: Some(Figured { plan: figure, drawn: &drawn_bird, order }),
                hanging: Some(Hung {
                    plan: &hanging,
                    by: if i == 4 { HungBy::Tabs } else { HungBy::Sleeve },
                    made: Made::Of(self.binding),
                    label: ["Wedges and heron", "wool batting, wash cold"].map(str::to_owned).to_vec(),
                }),
            };
            let what = FrontOptions { ground: true, measures: true, ..FrontOptions::default() };
            let front = finished_front(&self.table, self.piece, &self.cloths, &what, &stages)?;
            let back = finished_back(&self.table, self.piece, &self.cloths, &what, &stages)?;
            drawn.extend([(format!("{name}-front"), front), (format!("{name}-back"), back)]);
        }
        Ok(drawn)
    }

    fn quilted(&self, design: DesignKind, outline: &[Point], figure: &FigurePlan) -> Fallible<Fill> {
        let echo_of = figure.keep_out.first().cloned().filter(|_| design == DesignKind::Echoes);
        let beside = Beside { figure: figure.keep_out.clone(), ..Beside::default() };
        let turned = QuiltingChoice { angle_deg: 20.0, crossing_deg: 110.0, ..QuiltingChoice::default() };
        let choice = QuiltingChoice { design, echo_of, ..turned };
        Ok(quilting::lay(&choice, outline, &beside)?)
    }

    fn backing(&self, outline: &[Point], whole: bool) -> Fallible<Backing> {
        let mut choice = LayersChoice::default();
        choice.backing.whole = whole;
        choice.backing.from_stash = false;
        if let Some(bolt) = choice.backing.bolts.first_mut() {
            bolt.usable_in = 20.0;
        }
        let cloth = OnHand::all_of(&self.cloths[&self.back]);
        Ok(layers::backing(&choice, outline, &[cloth])?)
    }

    const fn edged<'a>(&self, plan: &'a FinishPlan) -> Edged<'a> {
        Edged { plan, made: Made::Of(self.binding), join: Join::Diagonal }
    }

    fn heron(&self, outline: &[Point], order: FigureOrder) -> Fallible<FigurePlan> {
        let middle = plane::polygon::centroid(outline).ok_or("no outline")?;
        let at = middle + Vec2::new(0.0, -0.5);
        let mut choice = FigureChoice::usual(bird(), FigureSize::HeightIn(7.0), at);
        choice.order = order;
        choice.answers.insert("neck".to_owned(), Thin::BiasStem { finished_in: 0.3 });
        let cloths: Vec<OnHand> = self.cloths.values().map(OnHand::all_of).collect();
        let outline = Region { outer: outline.to_vec(), holes: Vec::new() };
        Ok(figure::plan(&choice, &outline, &cloths, &quilt::stage::habits::Habits::default())?)
    }
}

fn quilted(fill: &Fill) -> Quilted<'_> {
    Quilted {
        fill,
        front: Srgb::from_number(0xf2_ea_d8),
        back: Srgb::from_number(0x6b_4a_3a),
        stitch_in: 2.8 / 25.4,
    }
}

/// A wading bird of few lines, about 5 units high.
fn bird() -> Figure {
    let shape = |id: &str, cloth: u64, start: (f64, f64), ways: &[[(f64, f64); 3]]| {
        let p = |(x, y): (f64, f64)| Point::new(x, y);
        let segments = ways.iter().map(|[a, b, c]| Segment::Curve(p(*a), p(*b), p(*c))).collect();
        let path = Path { start: p(start), segments };
        Shape { id: id.to_owned(), cloth: Some(ClothId(cloth)), paths: vec![path] }
    };
    let straight = |id: &str, cloth: u64, corners: &[(f64, f64)]| Shape {
        id: id.to_owned(),
        cloth: Some(ClothId(cloth)),
        paths: vec![Path {
            start: Point::new(corners[0].0, corners[0].1),
            segments: corners[1..].iter().map(|&(x, y)| Segment::Line(Point::new(x, y))).collect(),
        }],
    };
    let shapes = vec![
        straight("leg", 7, &[(0.95, 0.0), (1.02, 0.0), (1.22, 1.9), (1.14, 1.9)]),
        straight("other leg", 7, &[(1.5, 0.0), (1.57, 0.0), (1.52, 1.9), (1.44, 1.9)]),
        shape(
            "neck",
            2,
            (2.0, 2.6),
            &[
                [(2.9, 3.2), (1.9, 3.6), (2.1, 4.4)],
                [(2.15, 4.45), (2.2, 4.45), (2.3, 4.4)],
                [(2.1, 3.7), (3.1, 3.2), (2.2, 2.5)],
                [(2.1, 2.5), (2.05, 2.55), (2.0, 2.6)],
            ],
        ),
        shape(
            "body",
            2,
            (0.0, 1.7),
            &[
                [(0.7, 2.6), (1.6, 3.1), (2.3, 2.7)],
                [(2.5, 2.3), (2.0, 1.7), (1.3, 1.6)],
                [(0.8, 1.55), (0.4, 1.7), (0.0, 1.7)],
            ],
        ),
        shape(
            "wing",
            5,
            (0.3, 1.9),
            &[[(0.9, 2.5), (1.5, 2.8), (2.0, 2.5)], [(1.9, 2.1), (1.4, 1.8), (0.3, 1.9)]],
        ),
        shape(
            "head",
            2,
            (1.95, 4.5),
            &[[(2.0, 4.9), (2.5, 4.9), (2.7, 4.6)], [(2.5, 4.3), (2.0, 4.2), (1.95, 4.5)]],
        ),
        straight("beak", 0, &[(2.65, 4.68), (2.62, 4.5), (3.6, 4.5)]),
    ];
    Figure { name: "wading bird".to_owned(), shapes, unit_in: None }
}
