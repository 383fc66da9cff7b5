//! Taking a checked bundle in: pictures first, then everything else in one transaction.

use super::form::Document;
use super::read::{CheckedEntry, read};
use crate::deed::Deed;
use crate::error::{Result, WorkroomError};
use crate::papers::own_words;
use crate::quilts::{Head, check_name, tell_sewn};
use crate::stash::{Fact, Left};
use crate::store::deeds::Change;
use crate::store::{entries, quilts, wishes};
use crate::workroom::Workroom;
use std::collections::BTreeSet;

/// What came of an import.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ImportReport {
    /// The quilt's name here.
    pub quilt: String,
    /// Its heads.
    pub heads: Vec<Head>,
    /// How many steps it has.
    pub steps: usize,
    /// How many cloths came that were not known here.
    pub cloths: usize,
    /// How many pictures it has.
    pub pictures: usize,
}

impl Workroom {
    /// Takes in a quilt from the bytes of a bundle, under its own name or another. Its log is the
    /// same to the bit, and its cloths keep their names; a cloth that is known here already stays
    /// as it is here. Unpicking gives back what came sewn with the quilt, but for the parts of a
    /// known cloth that came or were cut here before: those the ledger has already.
    ///
    /// # Errors
    /// A file that is damaged, too large, or of a newer version; a name that is taken.
    pub fn import(&mut self, bytes: &[u8], name: Option<&str>) -> Result<ImportReport> {
        let bundle = read(bytes)?;
        let name = name.unwrap_or(&bundle.document.name).to_owned();
        check_name(&name)?;
        if quilts::find(&*self.store.view()?, &name)?.is_some() {
            return Err(WorkroomError::QuiltTaken(name));
        }
        for (format, bytes) in bundle.pictures.values() {
            self.keep_picture(bytes, format)?;
        }
        let pictures = bundle.pictures.len();
        self.deed("import", |deed| {
            let mut report = take_in(deed, &bundle.document, &bundle.entries, &name)?;
            report.pictures = pictures;
            Ok(report)
        })
    }
}

fn take_in(
    deed: &mut Deed<'_>,
    document: &Document,
    steps: &[CheckedEntry],
    name: &str,
) -> Result<ImportReport> {
    let key = quilts::insert(deed.c, name)?;
    deed.changed(Change::Quilt { quilt: key });
    let wish = serde_json::to_string(&document.wish)
        .map_err(|e| WorkroomError::damaged(format!("a wish can't be written: {e}")))?;
    wishes::put_text(deed.c, key, Some(&wish))?;
    own_words::put(deed.c, key, &document.words)?;
    for step in steps {
        let id = entries::insert(deed.c, step.parent, &step.bytes)?;
        debug_assert_eq!(id, step.id, "checked when the bundle was read");
    }
    let mut heads = Vec::new();
    for head in &document.heads {
        check_name(&head.name)?;
        let step = |text: &Option<String>| {
            text.as_ref().map(|t| t.parse()).transpose().map_err(WorkroomError::damaged)
        };
        let row = deed.put_head(key, None, &head.name, step(&head.tip)?, step(&head.sewn)?)?;
        heads.push(Head::of(name, row));
    }
    let mut new = BTreeSet::new();
    for form in &document.cloths {
        if deed.stash.get(form.cloth.id).is_some() {
            continue;
        }
        let left = match &form.left {
            None => Left::Nothing,
            Some(region) if *region == form.cloth.outline => Left::Whole,
            Some(region) => Left::Part(region.clone()),
        };
        deed.fact(&Fact::Came { cloth: form.cloth.clone(), left })?;
        new.insert(form.cloth.id);
    }
    for supply in &document.supplies {
        if !deed.stash.had_supply(supply.id) {
            deed.fact(&Fact::Supplied { supply: supply.clone() })?;
        }
    }
    tell_sewn(deed, key, &new)?;
    Ok(ImportReport { quilt: name.to_owned(), heads, steps: steps.len(), cloths: new.len(), pictures: 0 })
}
