//! What can be typed about papers.

use super::quilting::UnitArg;
use crate::cli::exit::Refusal;
use clap::Args;
use papers::Paper;
use papers::press::Inking;
use std::path::PathBuf;
use workroom::papers::{Hand, OwnWords, PaperKind, PapersWish};

#[derive(Debug, Args)]
pub(crate) struct PapersArgs {
    /// The quilt; the one used last when not said.
    pub(crate) what: Option<String>,
    /// Only these; all there are when not said.
    #[arg(long, value_name = "PAPER", num_args = 1.., value_delimiter = ',')]
    pub(crate) only: Vec<PaperKind>,
    /// The folder they are written into; made when it isn't there.
    #[arg(long, value_name = "DIR")]
    pub(crate) out: PathBuf,
    #[command(flatten)]
    pub(crate) how: HowArgs,
}

#[derive(Debug, Args)]
pub(crate) struct BookletArgs {
    /// The quilt; the one used last when not said.
    pub(crate) what: Option<String>,
    /// Only these; all that belong into a booklet when not said.
    #[arg(long, value_name = "PAPER", num_args = 1.., value_delimiter = ',')]
    pub(crate) only: Vec<PaperKind>,
    /// The file it is written to.
    #[arg(long, value_name = "FILE")]
    pub(crate) out: PathBuf,
    /// Own words for this booklet alone; `ragbag wording` keeps them.
    #[command(flatten)]
    pub(crate) own: OwnArgs,
    #[command(flatten)]
    pub(crate) how: HowArgs,
}

#[derive(Debug, Args)]
pub(crate) struct WordingArgs {
    /// The quilt; the one used last when not said.
    pub(crate) what: Option<String>,
    #[command(flatten)]
    pub(crate) own: OwnArgs,
}

#[derive(Debug, Args)]
pub(crate) struct OwnArgs {
    /// The title; the quilt's name when empty.
    #[arg(long)]
    pub(crate) title: Option<String>,
    /// Who made it, as it shall stand on the cover.
    #[arg(long)]
    pub(crate) maker: Option<String>,
    /// Some words for the cover.
    #[arg(long)]
    pub(crate) words: Option<String>,
    /// Words under the title of a paper: `steps=Take your time.` Empty ones are taken away.
    #[arg(long, value_name = "PAPER=WORDS")]
    pub(crate) under: Vec<String>,
}

impl OwnArgs {
    /// Whether anything is said.
    pub(crate) fn is_empty(&self) -> bool {
        self.title.is_none() && self.maker.is_none() && self.words.is_none() && self.under.is_empty()
    }

    /// What was said before, changed by what is said now.
    pub(crate) fn over(&self, before: OwnWords) -> Result<OwnWords, Refusal> {
        let mut own = before;
        let said =
            [(&self.title, &mut own.title), (&self.maker, &mut own.maker), (&self.words, &mut own.cover)];
        for (now, place) in said {
            if let Some(words) = now {
                place.clone_from(words);
            }
        }
        for under in &self.under {
            let (paper, words) = under.split_once('=').ok_or_else(|| {
                Refusal::bad(
                    format!("`{under}` doesn't say under which paper's title it shall stand"),
                    "Write it as PAPER=WORDS, for example steps=\"Take your time.\"",
                )
            })?;
            own.papers.insert(paper.to_owned(), words.to_owned());
        }
        own.check()?;
        Ok(own)
    }
}

#[derive(Debug, Args)]
pub(crate) struct CuttingArgs {
    /// The quilt; the one used last when not said.
    pub(crate) what: Option<String>,
    /// Seek new places for planned patches too, on their own print.
    #[arg(long)]
    pub(crate) anew: bool,
    /// As though there were no heap: everything as lengths to buy.
    #[arg(long, conflicts_with = "anew")]
    pub(crate) buy_all: bool,
    /// Room for the blade between pieces.
    #[arg(long, value_name = "LENGTH", default_value = "0")]
    pub(crate) kerf: String,
    /// Room to the edges of the cloth.
    #[arg(long, value_name = "LENGTH", default_value = "0")]
    pub(crate) edge: String,
    /// Usable width of bolts; the shop's when not said.
    #[arg(long, value_name = "LENGTH")]
    pub(crate) bolt: Option<String>,
    /// How many rounds it is sought; the same rounds give the same plan.
    #[arg(long, default_value_t = 200, value_parser = clap::value_parser!(u32).range(0..=1_000_000))]
    pub(crate) rounds: u32,
    /// Stop seeking each part after so many seconds.
    #[arg(long)]
    pub(crate) seconds: Option<f64>,
    /// Where chance begins.
    #[arg(long, default_value_t = 1)]
    pub(crate) seed: u64,
    /// A file; its ending tells: .pdf with words and lists, .svg or .png with the cloths side by side.
    #[arg(long, value_name = "FILE")]
    pub(crate) to: Option<PathBuf>,
    /// A file for machines that cut, .svg or .dxf: cut lines, seam lines and marks in true size, on layers of their own.
    #[arg(long, value_name = "FILE")]
    pub(crate) lines: Option<PathBuf>,
    /// What a unit of that file is.
    #[arg(long, default_value = "inch")]
    pub(crate) unit: UnitArg,
    #[command(flatten)]
    pub(crate) how: HowArgs,
}

#[derive(Debug, Args)]
pub(crate) struct TemplatesArgs {
    /// The quilt; the one used last when not said.
    pub(crate) what: Option<String>,
    /// The file; its ending tells: .svg or .dxf.
    #[arg(long, value_name = "FILE")]
    pub(crate) to: PathBuf,
    /// What a unit of the file is.
    #[arg(long, default_value = "inch")]
    pub(crate) unit: UnitArg,
    /// How wide the machine's bed is: templates lie in rows no wider.
    #[arg(long, default_value = "12", value_name = "LENGTH")]
    pub(crate) width: String,
    /// Mirrored, for cloth that lies wrong side up.
    #[arg(long)]
    pub(crate) mirrored: bool,
    /// Even of more pieces than is worth it.
    #[arg(long)]
    pub(crate) anyway: bool,
}

#[derive(Debug, Args)]
pub(crate) struct HowArgs {
    /// The size of the paper: a4, letter, a3, a5, legal, tabloid, or WIDTHxHEIGHT, as in 24x96 for a roll.
    #[arg(long, default_value = "a4", value_name = "SIZE")]
    pub(crate) paper: Paper,
    /// Cloth as a pale tint instead of pictures.
    #[arg(long)]
    pub(crate) ink_saving: bool,
    /// Lengths in centimetres.
    #[arg(long)]
    pub(crate) cm: bool,
    /// Cuts told for the blade in the left hand.
    #[arg(long)]
    pub(crate) left_handed: bool,
    /// For those who cut by template; by eye when not said.
    #[arg(long)]
    pub(crate) by_template: bool,
    /// Several step cards a page.
    #[arg(long)]
    pub(crate) small_cards: bool,
    /// True-size sheets mirrored.
    #[arg(long)]
    pub(crate) mirrored: bool,
    /// True-size sheets even of what is better done without.
    #[arg(long)]
    pub(crate) anyway: bool,
}

impl HowArgs {
    /// As the workroom takes it.
    pub(crate) fn wish(&self) -> PapersWish {
        PapersWish {
            paper: self.paper,
            inking: if self.ink_saving { Inking::Saving } else { Inking::Colour },
            centimetres: self.cm,
            hand: if self.left_handed { Hand::Left } else { Hand::Right },
            by_template: self.by_template,
            small_cards: self.small_cards,
            mirrored: self.mirrored,
            anyway: self.anyway,
            ..PapersWish::default()
        }
    }
}
