//! One display list in true units, what is drawn from it, and SVG.
//!
//! * Coordinates are inches, x to the right, **y up**; regions are filled by the even-odd rule.
//! * A [`Drawing`] is a list of [`Item`]s: areas, pictures, lines, words, groups. Lines say what
//!   they *mean* ([`Stroke`]), not how they look, so that page and paper agree.
//! * Exporters know the display list and nothing else; none of them knows what cloth is.
//! * Nothing here reads a file or a clock. The same drawing gives the same bytes.
//! * Coordinates that aren't finite are written as 0; nothing panics.

mod allowance;
mod back;
mod backing;
mod cloth;
mod cutting;
mod display;
mod edged;
mod edges;
mod figured;
mod finished;
mod fraction;
mod front;
mod hung;
mod ink;
mod item;
mod labels;
mod lines;
mod looks;
mod made;
mod options;
mod overlay;
mod placement;
mod problem;
mod proposal;
mod quilted;
mod scene;
mod seams;
mod shows;
mod side_by_side;
mod stages;
mod stroke;
pub mod svg;
mod table;
mod template;
mod there;
mod thread;
mod words;

pub use back::back;
pub use cloth::{ClothOptions, PlannedCut, cloth_drawing};
pub use display::Drawing;
pub use finished::{finished_back, finished_front};
pub use fraction::fraction;
pub use front::front;
pub use ink::{CALICO, CHALK, INK, MADDER, Paint, WRONG_SIDE_SHARE, wrong_side};
pub use item::{Anchor, Item, PictureItem, Shape, Tag, TextItem};
pub use lines::lines_drawing;
pub use options::{Accent, FrontOptions, Photographed};
pub use overlay::overlay;
pub use placement::Placement;
pub use problem::DrawingProblem;
pub use proposal::{Proposal, ProposedPatch, proposal_drawing};
pub use side_by_side::side_by_side;
pub use stages::{Backed, Edged, Figured, Hung, HungBy, Made, Quilted, Stages};
pub use stroke::{Pass, Stroke};
pub use table::{table_back, table_drawing};
pub use template::{TemplateWords, pattern_lines, pattern_words};
pub use thread::ThreadItem;
pub use words::{FONT_FAMILY, words_in_lines, words_width_in};
