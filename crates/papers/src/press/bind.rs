//! Sheets to a file.

use super::letters::Letters;
use super::pen::{Drawer, Frame, Inking};
use super::pictures::Pictures;
use super::{POINTS_PER_IN, Part, Role, Sheet, tags};
use crate::PaperProblem;
use crate::paint::FindPicture;
use krilla::configure::{Accessibility, ConfigurationBuilder};
use krilla::destination::XyzDestination;
use krilla::geom::Point as OnPage;
use krilla::metadata::Metadata;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::tagging::{Artifact, ArtifactType, ContentTag, Node, SpanTag, TagGroup, TagTree};
use krilla::{Document, SerializeSettings};
use plane::Region;

/// A document: what it is called, in which language, and its pages.
#[derive(Clone, Debug, Default)]
pub struct Book {
    /// Its title.
    pub title: String,
    /// Who made it; empty for nobody named.
    pub maker: String,
    /// The pages.
    pub sheets: Vec<Sheet>,
    /// How they are inked.
    pub inking: Inking,
}

/// A bookmark found on the way: level, words, page, height from the page's top in points.
struct Mark {
    level: u8,
    words: String,
    page: usize,
    down_pt: f32,
}

/// The book as PDF. Pictures come from `find`; one that isn't found leaves its cloth's mean colour.
///
/// # Errors
/// A page without size, no type, or what the format's own rules refuse.
pub fn bind(book: &Book, letters: &Letters, find: FindPicture<'_>) -> Result<Vec<u8>, PaperProblem> {
    let unbound = |reason: String| PaperProblem::NotBound { reason };
    let configuration = ConfigurationBuilder::new()
        .with_accessibility_validator(Accessibility::UA1)
        .finish()
        .map_err(|problem| unbound(format!("{problem:?}")))?;
    let settings = SerializeSettings { configuration, enable_tagging: true, ..SerializeSettings::default() };
    let mut document = Document::new_with(settings);
    let mut pictures = Pictures::new(find);
    let mut tree = TagTree::new();
    let mut marks = Vec::new();
    for (number, sheet) in book.sheets.iter().enumerate() {
        let [width, height] = sheet.size_in.map(|inches| (inches * POINTS_PER_IN) as f32);
        let size = PageSettings::from_wh(width, height);
        let size = size.ok_or_else(|| unbound(format!("page {} has no size", number + 1)))?;
        let mut page = document.start_page_with(size);
        let mut surface = page.surface();
        let drawer = Drawer { surface: &mut surface, letters, pictures: &mut pictures, inking: book.inking };
        let mut leaf =
            Leaf { drawer, frame: Frame::sheet(sheet.size_in[1]), page: number, marks: &mut marks };
        leaf.all(&sheet.parts).into_iter().for_each(|group| tree.push(Node::Group(group)));
        surface.finish();
        page.finish();
    }
    // A file that is read aloud must have a title (ISO 14289-1, 7.1).
    let title = if book.title.trim().is_empty() { "Untitled" } else { book.title.trim() };
    let mut about =
        Metadata::new().title(title.to_owned()).language("en".to_owned()).creator("Ragbag".to_owned());
    if !book.maker.is_empty() {
        about = about.authors(vec![book.maker.clone()]);
    }
    document.set_metadata(about);
    document.set_outline(outline(&marks));
    document.set_tag_tree(tree);
    document.finish().map_err(|problem| unbound(format!("{problem}: {problem:?}")))
}

/// A page being drawn.
struct Leaf<'m, 'a, 'b, 'f> {
    drawer: Drawer<'a, 'b, 'f>,
    frame: Frame,
    page: usize,
    marks: &'m mut Vec<Mark>,
}

impl Leaf<'_, '_, '_, '_> {
    fn all(&mut self, parts: &[Part]) -> Vec<TagGroup> {
        parts.iter().filter_map(|part| self.part(part)).collect()
    }

    fn part(&mut self, part: &Part) -> Option<TagGroup> {
        match part {
            Part::Words { role, words, .. } => {
                self.mark(part);
                let id = self.drawer.surface.start_tagged(ContentTag::Span(SpanTag::empty()));
                self.draw(part);
                self.drawer.surface.end_tagged();
                Some(tags::words(role, &words.text, id))
            }
            Part::Figure { alt: Some(alt), .. } => {
                let id = self.drawer.surface.start_tagged(ContentTag::Other);
                self.draw(part);
                self.drawer.surface.end_tagged();
                Some(tags::figure(alt, id))
            }
            Part::Group { role, parts } => {
                let mut group = tags::group(*role);
                self.all(parts).into_iter().for_each(|part| group.push(Node::Group(part)));
                Some(group)
            }
            Part::Figure { alt: None, .. } | Part::Rule { .. } | Part::Ground { .. } => {
                self.unread(std::slice::from_ref(part), ArtifactType::Layout);
                None
            }
            Part::Furniture(parts) => {
                self.unread(parts, ArtifactType::PaginationOther);
                None
            }
        }
    }

    fn unread(&mut self, parts: &[Part], kind: ArtifactType) {
        self.drawer.surface.start_tagged(ContentTag::Artifact(Artifact::with_kind(kind)));
        parts.iter().for_each(|part| self.draw(part));
        self.drawer.surface.end_tagged();
    }

    fn mark(&mut self, part: &Part) {
        if let Part::Words { role: Role::Heading { level, mark: Some(words) }, at, .. } = part
            && !words.trim().is_empty()
        {
            let down_pt = ((self.frame.height_in - at.y) * POINTS_PER_IN) as f32;
            self.marks.push(Mark { level: *level, words: words.clone(), page: self.page, down_pt });
        }
    }

    fn draw(&mut self, part: &Part) {
        let frame = self.frame;
        match part {
            Part::Words { at, words, .. } => self.drawer.words(words, *at, frame),
            Part::Figure { at, scale, drawing, .. } => {
                self.drawer.drawing(drawing, Frame { from: drawing.lo, at: *at, scale: *scale, ..frame });
            }
            Part::Rule { points, stroke } => self.drawer.line(&[(points, false)], *stroke, frame, 1.0),
            Part::Ground { points, colour } => {
                let region = Region { outer: points.clone(), holes: Vec::new() };
                self.drawer.area(&region, *colour, 1.0, frame);
            }
            Part::Group { parts, .. } | Part::Furniture(parts) => {
                parts.iter().for_each(|part| self.draw(part));
            }
        }
    }
}

/// Bookmarks as a tree: a mark belongs to the last one before it with a higher level.
fn outline(marks: &[Mark]) -> Outline {
    let mut outline = Outline::new();
    let mut rest = marks;
    while let Some((node, left)) = branch(rest) {
        outline.push_child(node);
        rest = left;
    }
    outline
}

fn branch(marks: &[Mark]) -> Option<(OutlineNode, &[Mark])> {
    let (first, mut rest) = marks.split_first()?;
    let at = XyzDestination::new(first.page, OnPage::from_xy(0.0, first.down_pt));
    let mut node = OutlineNode::new(first.words.clone(), at);
    while rest.first().is_some_and(|next| next.level > first.level) {
        let Some((child, left)) = branch(rest) else { break };
        node.push_child(child);
        rest = left;
    }
    Some((node, rest))
}
