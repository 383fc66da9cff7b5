//! The papers: all that is printed of a quilt, gathered from its log, the stash and what was chosen.
//!
//! Each paper has a module of its own: it gathers what it tells, as plain values, and says it in blocks or
//! sheets of [`papers`]. What isn't there yet to be told (no binding chosen, nothing sewn) is an answer, not a
//! fault: [`Workroom::papers`] leaves that paper out and says why.

mod binding;
mod booklet;
mod cautions;
mod corners;
mod cover;
mod cut_list;
mod cutting;
mod ends;
mod figure;
mod fold;
mod foundation;
mod kind;
mod layers;
mod machine;
mod materials;
mod mitre;
mod overview;
pub(crate) mod own_words;
mod pad;
mod pattern;
mod places;
mod print;
mod quilting;
mod record;
mod ring_border;
mod round;
mod rounds;
mod sheets;
mod shopping;
mod sleeve;
mod steps;
mod taken;
mod templates;
mod thread;
mod tracings;
mod washing;
mod wish;

pub use kind::PaperKind;
pub use own_words::OwnWords;
pub use print::Printed;
pub use wish::{Hand, PapersWish};

use crate::asks::{AskError, Asked};
use crate::cutting::CuttingPlan;
use crate::quilts::Head;
use crate::workroom::Workroom;
use papers::flow::Block;

/// One paper: what it is, and what stands on it.
#[derive(Clone, Debug)]
pub struct Paper {
    /// Which.
    pub kind: PaperKind,
    /// What stands on it, in its order.
    pub blocks: Vec<Block>,
    /// The facts that are printed, by name, for whoever reads them without a page.
    pub facts: serde_json::Value,
}

impl Paper {
    /// What stands over it.
    #[must_use]
    pub fn title(&self) -> Option<&str> {
        self.blocks.iter().find_map(|block| match block {
            Block::Heading { level: 1, words } => Some(words.as_str()),
            _ => None,
        })
    }
}

/// A paper that couldn't be made, and why.
#[derive(Debug)]
pub struct LeftOut {
    /// Which.
    pub kind: PaperKind,
    /// Why.
    pub why: AskError,
}

/// The papers of a quilt, and those left out.
#[derive(Debug, Default)]
pub struct Papers {
    /// In their order.
    pub made: Vec<Paper>,
    /// With the reason.
    pub left_out: Vec<LeftOut>,
}

impl Workroom {
    /// One paper of a head.
    ///
    /// # Errors
    /// No such quilt or head, or what isn't there yet to be told.
    pub fn paper(&mut self, head: &Head, kind: PaperKind, wish: &PapersWish) -> Asked<Paper> {
        match kind {
            PaperKind::Overview => overview::overview(self, head, wish),
            PaperKind::Materials => materials::materials(self, head, wish),
            PaperKind::Cutting => cutting::cutting(self, head, wish),
            PaperKind::Steps => steps::steps(self, head, wish),
            PaperKind::Rounds => rounds::rounds(self, head, wish),
            PaperKind::Record => record::record(self, head, wish),
            PaperKind::Shopping => shopping::shopping(self, head, wish),
            PaperKind::Thread => thread::thread(self, head, wish),
            PaperKind::RingBorder => ring_border::ring_border(self, head, wish),
            PaperKind::Layers => layers::layers(self, head, wish),
            PaperKind::Figure => figure::figure(self, head, wish),
            PaperKind::Quilting => quilting::quilting(self, head, wish),
            PaperKind::Binding => binding::binding(self, head, wish),
            PaperKind::Sleeve => sleeve::sleeve(self, head, wish),
            PaperKind::Templates => templates::templates(self, head, wish),
            PaperKind::Foundation => foundation::foundation(self, head, wish),
            PaperKind::Cautions => cautions::cautions(self, head, wish),
        }
    }

    /// A cutting plan as a paper, as it was laid.
    ///
    /// # Errors
    /// A cloth of it that is no longer there.
    pub fn cutting_paper(&mut self, plan: &CuttingPlan, wish: &PapersWish) -> Asked<Paper> {
        cutting::cutting_of(self, plan, wish)
    }

    /// Several papers of a head; `seen` is called before each with how many are done, and stops them by
    /// answering no.
    pub fn papers(
        &mut self,
        head: &Head,
        kinds: &[PaperKind],
        wish: &PapersWish,
        seen: &mut dyn FnMut(usize, PaperKind) -> bool,
    ) -> Papers {
        let mut papers = Papers::default();
        for (done, kind) in kinds.iter().enumerate() {
            if !seen(done, *kind) {
                break;
            }
            match self.paper(head, *kind, wish) {
                Ok(paper) => papers.made.push(paper),
                Err(why) => papers.left_out.push(LeftOut { kind: *kind, why }),
            }
        }
        papers
    }
}
