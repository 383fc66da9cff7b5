//! Scraps from an SVG file: every shape of it is one or more cloths, in true size.
//!
//! Read are path, polygon, polyline, rect, circle and ellipse, under any transforms; curves are
//! flattened to 1/1024 inch. Rings of one shape nest: outlines, holes in them, and so on. SVG's y
//! runs down and ours up; the picture stays as it looks. Text and pictures are passed over. What
//! could do something or stand for something else (scripts, document types with entities, `use`)
//! is refused, and so is a file without a true size.

use super::svg_shapes::{rings_of, transform_of};
use super::svg_size::size_of;
use super::{IntakeProblem, look_of, short_name};
use crate::stash::NewCloth;
use colour::Srgb;
use kurbo::Affine;
use plane::{Point, Region, RegionProblem, polygon};
use quilt::cloth::Look;
use roxmltree::{Document, Node, ParsingOptions};

/// Most bytes of a drawing.
const MOST_BYTES: usize = 4 << 20;
/// Most elements, texts and comments of a drawing.
const MOST_NODES: u32 = 50_000;
/// Most elements inside each other.
const MOST_DEPTH: usize = 64;
/// Most scraps of a drawing.
const MOST_SCRAPS: usize = 2_000;

/// Elements that are refused: they could act, or stand for something else.
const REFUSED: [&str; 9] = [
    "script",
    "foreignObject",
    "use",
    "animate",
    "animateTransform",
    "animateMotion",
    "set",
    "iframe",
    "handler",
];

/// Elements whose content is not drawn where it stands.
const NOT_DRAWN: [&str; 10] = [
    "defs",
    "clipPath",
    "mask",
    "pattern",
    "marker",
    "symbol",
    "linearGradient",
    "radialGradient",
    "metadata",
    "filter",
];

/// Reads the scraps of an SVG file. Each lies with its lower left corner at the origin.
///
/// # Errors
/// What is wrong with it, with the line.
pub fn read_svg(bytes: &[u8]) -> Result<Vec<NewCloth>, IntakeProblem> {
    let document = document_of(text_of(bytes)?)?;
    let to_inches = size_of(document.root_element())?;
    let mut scraps = Vec::new();
    for node in drawn_nodes(&document) {
        scraps.extend(read_shape(node, to_inches, scraps.len())?);
        if scraps.len() > MOST_SCRAPS {
            let what = "the number of scraps";
            return Err(IntakeProblem::TooMuch { what, found: scraps.len(), most: MOST_SCRAPS });
        }
    }
    if scraps.is_empty() { Err(IntakeProblem::Nothing) } else { Ok(scraps) }
}

/// The text of a file that isn't too large.
pub(super) fn text_of(bytes: &[u8]) -> Result<&str, IntakeProblem> {
    if bytes.len() > MOST_BYTES {
        let what = "the size of the drawing in bytes";
        return Err(IntakeProblem::TooMuch { what, found: bytes.len(), most: MOST_BYTES });
    }
    std::str::from_utf8(bytes).map_err(|e| IntakeProblem::NotText { at: e.valid_up_to() })
}

/// The elements of an SVG in which nothing acts or stands for something else.
pub(super) fn document_of(text: &str) -> Result<Document<'_>, IntakeProblem> {
    check_depth(text)?;
    let options = ParsingOptions { allow_dtd: false, nodes_limit: MOST_NODES, ..ParsingOptions::default() };
    let document = Document::parse_with_options(text, options).map_err(|e| not_svg(&e))?;
    let root = document.root_element();
    if root.tag_name().name() != "svg" {
        let why = format!("its outermost element is `{}`, not `svg`", root.tag_name().name());
        return Err(IntakeProblem::NotSvg(why));
    }
    document.descendants().filter(Node::is_element).try_for_each(|node| check_harmless(node, root))?;
    Ok(document)
}

/// The elements that are drawn where they stand, lowest first.
pub(super) fn drawn_nodes<'a>(document: &'a Document<'a>) -> impl Iterator<Item = Node<'a, 'a>> {
    document.descendants().filter(|node| node.is_element() && is_drawn(*node))
}

/// Refuses a file whose elements nest too deeply, before a parser sees it.
fn check_depth(text: &str) -> Result<(), IntakeProblem> {
    let (mut depth, mut found, mut rest) = (0_usize, 0, text);
    while let Some(open) = rest.find('<') {
        let (inside, after) = markup(rest.get(open + 1..).unwrap_or_default());
        rest = after;
        if inside.starts_with('/') {
            depth = depth.saturating_sub(1);
        } else if !inside.starts_with(['!', '?']) && !inside.ends_with('/') {
            depth += 1;
            found = found.max(depth);
        }
    }
    let what = "the number of elements inside each other";
    if found > MOST_DEPTH { Err(IntakeProblem::TooMuch { what, found, most: MOST_DEPTH }) } else { Ok(()) }
}

/// What follows a `<`: what stands inside, and what comes after. A `>` in quotes, in a comment or in
/// plain characters ends nothing.
fn markup(text: &str) -> (&str, &str) {
    for (start, end) in [("!--", "-->"), ("![CDATA[", "]]>"), ("?", "?>")] {
        if text.starts_with(start) {
            return text.split_once(end).unwrap_or((text, ""));
        }
    }
    let mut quote = None;
    let end = text.find(|c: char| {
        match quote {
            None if c == '"' || c == '\'' => quote = Some(c),
            Some(open) if c == open => quote = None,
            _ => return quote.is_none() && c == '>',
        }
        false
    });
    end.map_or((text, ""), |end| {
        (text.get(..end).unwrap_or_default(), text.get(end + 1..).unwrap_or_default())
    })
}

fn not_svg(error: &roxmltree::Error) -> IntakeProblem {
    match error {
        roxmltree::Error::DtdDetected => {
            IntakeProblem::NotADrawing { what: "a document type (DOCTYPE)".to_owned(), line: 1 }
        }
        roxmltree::Error::NodesLimitReached => {
            IntakeProblem::NotSvg(format!("it has more than {MOST_NODES} elements, texts and comments"))
        }
        roxmltree::Error::NoRootNode => IntakeProblem::NotSvg("there is no element in it".to_owned()),
        roxmltree::Error::UnclosedRootNode => {
            IntakeProblem::NotSvg("it breaks off before its outermost element is closed".to_owned())
        }
        roxmltree::Error::UnexpectedCloseTag(open, closed, at) => IntakeProblem::NotSvg(format!(
            "line {} closes an element `{closed}`, and `{open}` is the one that is open",
            at.row
        )),
        other => IntakeProblem::NotSvg(format!("line {} isn't written as an SVG is", other.pos().row)),
    }
}

pub(super) fn line_of(node: Node<'_, '_>) -> u32 {
    node.document().text_pos_at(node.range().start).row
}

fn check_harmless(node: Node<'_, '_>, root: Node<'_, '_>) -> Result<(), IntakeProblem> {
    let name = node.tag_name().name();
    let refuse = |what: String| Err(IntakeProblem::NotADrawing { what, line: line_of(node) });
    if REFUSED.contains(&name) {
        return refuse(format!("an element `{name}`"));
    }
    if name == "svg" && node != root {
        return refuse("another svg inside".to_owned());
    }
    for attribute in node.attributes() {
        let acts = attribute.name().len() > 2 && attribute.name().to_lowercase().starts_with("on");
        let calls = attribute.value().trim_start().to_lowercase().starts_with("javascript:");
        if acts || calls {
            return refuse(format!("a script in `{}`", attribute.name()));
        }
    }
    Ok(())
}

fn is_drawn(node: Node<'_, '_>) -> bool {
    node.ancestors().filter(Node::is_element).all(|above| {
        let hidden =
            above.attribute("display") == Some("none") || style(above, "display").as_deref() == Some("none");
        !hidden && !NOT_DRAWN.contains(&above.tag_name().name())
    })
}

/// A property of the `style` attribute.
fn style(node: Node<'_, '_>, property: &str) -> Option<String> {
    let mut pairs = node.attribute("style")?.rsplit(';').filter_map(|pair| pair.split_once(':'));
    pairs.find(|(name, _)| name.trim() == property).map(|(_, value)| value.trim().to_owned())
}

/// The cloths of one shape; none when the element isn't a shape.
fn read_shape(node: Node<'_, '_>, to_inches: Affine, before: usize) -> Result<Vec<NewCloth>, IntakeProblem> {
    let wrong = |why: String| IntakeProblem::Shape {
        shape: node.tag_name().name().to_owned(),
        line: line_of(node),
        why,
    };
    let Some(rings) = rings_of(node, to_inches * transform_of(node)?)? else { return Ok(Vec::new()) };
    let regions = nest(&rings).map_err(|problem| wrong(problem.to_string()))?;
    let look = look_of_fill(node);
    let given = name_of(node);
    let many = regions.len() > 1;
    let mut cloths = Vec::with_capacity(regions.len());
    for (i, region) in regions.into_iter().enumerate() {
        let outline = to_origin(&region);
        let (_, size) = polygon::bounds(&outline.outer).unwrap_or_default();
        if size.x.max(size.y) > super::MOST_IN {
            return Err(wrong(format!("it is more than {} inches long", super::MOST_IN)));
        }
        let name = match &given {
            Some(name) if many => format!("{name} {}", i + 1),
            Some(name) => name.clone(),
            None => format!("scrap {}", before + i + 1),
        };
        cloths.push(NewCloth::scrap(&short_name(&name, "scrap"), outline, look.clone()));
    }
    Ok(cloths)
}

pub(super) fn name_of(node: Node<'_, '_>) -> Option<String> {
    let title =
        node.children().find(|child| child.has_tag_name("title") || child.tag_name().name() == "title");
    let title = title.and_then(|title| title.text()).map(str::trim);
    title.or(node.attribute("id")).filter(|name| !name.is_empty()).map(str::to_owned)
}

/// Rings as regions.
fn nest(rings: &[Vec<Point>]) -> Result<Vec<Region>, RegionProblem> {
    let nested = nested(rings).into_iter();
    let ring = |i: usize| rings.get(i).cloned().unwrap_or_default();
    nested.map(|(outer, holes)| Region::try_new(ring(outer), holes.into_iter().map(ring).collect())).collect()
}

/// Which rings are outlines, the largest first, and which are their holes: those inside an even number
/// of others are outlines, the rest holes in the smallest outline around them.
pub(super) fn nested(rings: &[Vec<Point>]) -> Vec<(usize, Vec<usize>)> {
    let mut order: Vec<usize> = (0..rings.len()).collect();
    let size = |i: &usize| rings.get(*i).map_or(0.0, |ring| polygon::area(ring).abs());
    order.sort_by(|a, b| size(b).total_cmp(&size(a)));
    let contains = |outer: usize, inner: usize| {
        let first = rings.get(inner).and_then(|ring| ring.first());
        first.is_some_and(|&p| rings.get(outer).is_some_and(|ring| polygon::contains(ring, p)))
    };
    let mut outlines: Vec<(usize, Vec<usize>)> = Vec::new();
    for (k, &i) in order.iter().enumerate() {
        let around: Vec<usize> = order.iter().take(k).copied().filter(|&j| contains(j, i)).collect();
        if around.len().is_multiple_of(2) {
            outlines.push((i, Vec::new()));
        } else if let Some((_, holes)) = outlines.iter_mut().rev().find(|(at, _)| around.contains(at)) {
            holes.push(i);
        }
    }
    outlines
}

fn to_origin(region: &Region) -> Region {
    let (lo, _) = polygon::bounds(&region.outer).unwrap_or_default();
    let move_ring = |ring: &Vec<Point>| ring.iter().map(|p| Point::new(p.x - lo.x, p.y - lo.y)).collect();
    Region { outer: move_ring(&region.outer), holes: region.holes.iter().map(move_ring).collect() }
}

/// The fill of the shape, or of what it stands in.
fn look_of_fill(node: Node<'_, '_>) -> Look {
    let fill = node
        .ancestors()
        .filter(Node::is_element)
        .find_map(|above| style(above, "fill").or_else(|| above.attribute("fill").map(str::to_owned)));
    let fill = fill.unwrap_or_default();
    let fill = fill.trim();
    // A plain word means what it means for any other scrap.
    match fill.parse::<svgtypes::Color>() {
        Ok(color) if colour::read_words(fill).is_none() => {
            Look::plain(Srgb::new(color.red, color.green, color.blue).to_lab())
        }
        _ => look_of(fill),
    }
}
