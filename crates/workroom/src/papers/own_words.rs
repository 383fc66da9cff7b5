//! The maker's own words for a pattern, kept with its quilt: its title, who made it, and what shall be said.

use super::PaperKind;
use crate::asks::{AskError, Asked};
use crate::error::{Result, WorkroomError};
use crate::store::quilts::{self, QuiltKey};
use crate::store::settings;
use crate::workroom::Workroom;
use rusqlite::Connection;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The setting that holds the words of a quilt.
fn setting(quilt: QuiltKey) -> String {
    format!("pattern_words {quilt}")
}

/// So many letters a title and a maker have at most.
const MOST_NAME: usize = 120;
/// So many what stands on the cover, and so many under the title of a paper.
const MOST_COVER: usize = 400;
const MOST_PAPER: usize = 2000;

/// What the maker says in her own words; what is empty isn't said.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct OwnWords {
    /// The title; the quilt's name when empty.
    pub title: String,
    /// Who made it; nobody named when empty.
    pub maker: String,
    /// Some words for the cover.
    pub cover: String,
    /// Under the title of a paper, by the paper's name.
    pub papers: BTreeMap<String, String>,
}

impl OwnWords {
    /// What is said under the title of a paper.
    #[must_use]
    pub fn of(&self, kind: PaperKind) -> Option<&str> {
        self.papers.get(kind.name()).map(|words| words.trim()).filter(|words| !words.is_empty())
    }

    /// Whether nothing is said.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// Holds them against the room that there is for them.
    ///
    /// # Errors
    /// Words too long for their place, or for a paper that there isn't.
    pub fn check(&self) -> Asked<()> {
        let places = [
            ("the title", &self.title, MOST_NAME),
            ("the maker", &self.maker, MOST_NAME),
            ("the words of the cover", &self.cover, MOST_COVER),
        ];
        for (place, words, most) in places {
            fits(place, words, most)?;
        }
        for (name, words) in &self.papers {
            let kind: PaperKind = name
                .parse()
                .map_err(|what| AskError::Nonsense { what, hint: "Nothing was kept.".to_owned() })?;
            fits(&format!("the words of `{kind}`"), words, MOST_PAPER)?;
        }
        Ok(())
    }
}

fn fits(place: &str, words: &str, most: usize) -> Asked<()> {
    let count = words.chars().count();
    if count <= most {
        return Ok(());
    }
    Err(AskError::Nonsense {
        what: format!("{place} would be {count} letters long, and there is room for {most}"),
        hint: "Say it in fewer words; nothing was kept.".to_owned(),
    })
}

/// The words of a quilt, as they are kept.
pub(crate) fn get(c: &Connection, quilt: QuiltKey) -> Result<OwnWords> {
    let damaged = |e| WorkroomError::damaged(format!("the words of a pattern can't be read: {e}"));
    let kept = settings::get(c, &setting(quilt))?;
    kept.map(|json| serde_json::from_str(&json).map_err(damaged)).transpose().map(Option::unwrap_or_default)
}

/// Keeps the words of a quilt.
pub(crate) fn put(c: &Connection, quilt: QuiltKey, words: &OwnWords) -> Result<()> {
    let json = serde_json::to_string(words)
        .map_err(|e| WorkroomError::damaged(format!("the words of a pattern can't be written: {e}")))?;
    settings::put(c, &setting(quilt), &json)
}

impl Workroom {
    /// The maker's own words for a quilt; none where none were given.
    ///
    /// # Errors
    /// No such quilt; words that can't be read.
    pub fn own_words(&self, quilt: &str) -> Asked<OwnWords> {
        let view = self.store.view()?;
        Ok(get(&view, quilts::get(&view, quilt)?)?)
    }

    /// Keeps the maker's own words for a quilt.
    ///
    /// # Errors
    /// As [`OwnWords::check`], or no such quilt; nothing is kept then.
    pub fn set_own_words(&mut self, quilt: &str, words: &OwnWords) -> Asked<()> {
        words.check()?;
        let mut words = words.clone();
        words.papers.retain(|_, said| !said.trim().is_empty());
        let transaction = self.store.begin()?;
        put(&transaction, quilts::get(&transaction, quilt)?, &words)?;
        Ok(transaction.commit()?)
    }
}
