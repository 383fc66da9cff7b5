//! Opening a bundle: nothing in it is believed before it is checked, and nothing is unpacked
//! beyond a limit, whatever the file says of its own sizes.

use super::form::{ClothForm, Document, FORMAT, PictureForm, Preface};
use super::gather::shown_by;
use super::{BUNDLE_VERSION, BundleProblem, DOCUMENT};
use crate::intake::MOST_CORNERS;
use crate::pictures::{MOST_PICTURE_BYTES, check_picture, hash_of};
use plane::Region;
use quilt::cloth::Picture;
use quilt::log::{Entry, StepId};
use quilt::supply::Supply;
use std::collections::{BTreeMap, BTreeSet};
use std::io::{Cursor, Read};
use zip::ZipArchive;

/// Most bytes of the file itself.
pub(super) const MOST_FILE_BYTES: u64 = 512 << 20;
/// Most bytes of the document, unpacked.
const MOST_DOCUMENT_BYTES: u64 = 64 << 20;
/// Most bytes of all pictures together, unpacked.
const MOST_ALL_BYTES: u64 = 512 << 20;
/// Most files in it.
const MOST_FILES: usize = 4_096;
/// Most heads of the quilt.
const MOST_HEADS: usize = 1_000;

/// One step, checked.
pub(super) struct CheckedEntry {
    pub(super) id: StepId,
    pub(super) parent: Option<StepId>,
    pub(super) bytes: Vec<u8>,
}

/// A bundle whose every part has been checked.
pub(super) struct Bundle {
    pub(super) document: Document,
    pub(super) entries: Vec<CheckedEntry>,
    /// Format and bytes by hash.
    pub(super) pictures: BTreeMap<String, (String, Vec<u8>)>,
}

/// Opens and checks a bundle.
pub(super) fn read(bytes: &[u8]) -> Result<Bundle, BundleProblem> {
    if bytes.len() as u64 > MOST_FILE_BYTES {
        return Err(BundleProblem::TooLarge { what: "the file".to_owned(), most: MOST_FILE_BYTES });
    }
    let mut zip = ZipArchive::new(Cursor::new(bytes))?;
    if zip.len() > MOST_FILES {
        return Err(BundleProblem::TooMany { found: zip.len(), most: MOST_FILES });
    }
    let mut document = read_document(&mut zip)?;
    let entries = check_entries(&document)?;
    check_cloths(&mut document)?;
    document.wish.check().map_err(|why| BundleProblem::Damaged(format!("the wish: {why}")))?;
    document
        .words
        .check()
        .map_err(|why| BundleProblem::Damaged(format!("the words of the pattern: {why}")))?;
    let pictures = read_pictures(&mut zip, &document)?;
    Ok(Bundle { document, entries, pictures })
}

/// Unpacks one file, no further than the limit.
fn unpack(
    zip: &mut ZipArchive<Cursor<&[u8]>>,
    at: usize,
    what: &str,
    most: u64,
) -> Result<Vec<u8>, BundleProblem> {
    let file = zip.by_index(at)?;
    let mut bytes = Vec::new();
    file.take(most + 1)
        .read_to_end(&mut bytes)
        .map_err(|e| BundleProblem::Damaged(format!("{what} can't be unpacked: {e}")))?;
    if bytes.len() as u64 > most {
        return Err(BundleProblem::TooLarge { what: what.to_owned(), most });
    }
    Ok(bytes)
}

fn read_document(zip: &mut ZipArchive<Cursor<&[u8]>>) -> Result<Document, BundleProblem> {
    let at = zip.index_for_name(DOCUMENT).ok_or_else(|| BundleProblem::Missing(DOCUMENT.to_owned()))?;
    let bytes = unpack(zip, at, DOCUMENT, MOST_DOCUMENT_BYTES)?;
    let unclear = |e: serde_json::Error| BundleProblem::Damaged(format!("{DOCUMENT} can't be read: {e}"));
    let preface: Preface = serde_json::from_slice(&bytes).map_err(unclear)?;
    if preface.format != FORMAT {
        return Err(BundleProblem::Damaged(format!(
            "{DOCUMENT} is a `{}`, not a `{FORMAT}`",
            preface.format
        )));
    }
    if preface.version > BUNDLE_VERSION {
        return Err(BundleProblem::Newer { found: preface.version, known: BUNDLE_VERSION });
    }
    serde_json::from_slice(&bytes).map_err(unclear)
}

/// Every entry's name follows from its bytes and its parent, which comes before it.
fn check_entries(document: &Document) -> Result<Vec<CheckedEntry>, BundleProblem> {
    let mut parents: BTreeMap<StepId, Option<StepId>> = BTreeMap::new();
    let mut checked = Vec::with_capacity(document.entries.len());
    for form in &document.entries {
        let parent = form.parent.as_deref().map(step_of).transpose()?;
        if parent.is_some_and(|parent| !parents.contains_key(&parent)) {
            return Err(BundleProblem::Damaged(format!("step {} comes before its parent", form.id)));
        }
        let bytes = form.stored.clone().into_bytes();
        let id = step_of(&form.id)?;
        if StepId::of(parent, &bytes) != id {
            return Err(BundleProblem::Damaged(format!("the bytes of step {id} have changed")));
        }
        let entry = Entry::from_bytes(&bytes)
            .map_err(|e| BundleProblem::Damaged(format!("step {id} can't be read: {e}")))?;
        if let Some(picture) = shown_by(&entry.step)
            && !is_listed(&document.pictures, picture)
        {
            return Err(BundleProblem::Damaged(format!("step {id}: its picture is not in the list")));
        }
        parents.insert(id, parent);
        checked.push(CheckedEntry { id, parent, bytes });
    }
    check_heads(document, &parents)?;
    Ok(checked)
}

/// Every head's tip is there, its sewn step lies on its path, and what is sewn on all of them lies
/// on one path.
fn check_heads(document: &Document, parents: &BTreeMap<StepId, Option<StepId>>) -> Result<(), BundleProblem> {
    if document.heads.len() > MOST_HEADS {
        return Err(BundleProblem::TooMany { found: document.heads.len(), most: MOST_HEADS });
    }
    let mut names = BTreeSet::new();
    let mut furthest = None;
    for head in &document.heads {
        let tip = head.tip.as_deref().map(step_of).transpose()?;
        let sewn = head.sewn.as_deref().map(step_of).transpose()?;
        let there = tip.is_none_or(|tip| parents.contains_key(&tip));
        let further = lies_on(furthest, sewn, parents);
        let one_path = further || lies_on(sewn, furthest, parents);
        if !there || !lies_on(sewn, tip, parents) || !one_path || !names.insert(&head.name) {
            return Err(BundleProblem::Damaged(format!("the head `{}` does not fit the steps", head.name)));
        }
        if further {
            furthest = sewn;
        }
    }
    if names.is_empty() { Err(BundleProblem::Missing("a head".to_owned())) } else { Ok(()) }
}

fn step_of(text: &str) -> Result<StepId, BundleProblem> {
    text.parse().map_err(BundleProblem::Damaged)
}

fn lies_on(step: Option<StepId>, tip: Option<StepId>, parents: &BTreeMap<StepId, Option<StepId>>) -> bool {
    let mut at = tip;
    while at != step {
        match at {
            Some(here) => at = parents.get(&here).copied().flatten(),
            None => return false,
        }
    }
    true
}

/// Whether the list of pictures names one.
fn is_listed(list: &[PictureForm], picture: &Picture) -> bool {
    list.iter().any(|p| p.hash == picture.hash && p.format == picture.format)
}

/// A sound region, counter-clockwise and with its holes clockwise, or why it isn't one.
fn sound(region: &Region) -> Result<Region, String> {
    let corners = region.outer.len() + region.holes.iter().map(Vec::len).sum::<usize>();
    if corners > MOST_CORNERS {
        return Err(format!("it has {corners} corners; at most {MOST_CORNERS} can be read"));
    }
    let read = Region::try_new(region.outer.clone(), region.holes.clone());
    read.or_else(|problem| untouched(region).ok_or(problem)).map_err(|e| e.to_string())
}

/// A region whose outline runs along a hole that touches it: the hole told apart, as files of before
/// that have it. `None` for anything that crosses itself.
fn untouched(region: &Region) -> Option<Region> {
    let mut parts = plane::union(std::slice::from_ref(region));
    let part = parts.pop().filter(|part| parts.is_empty() && (part.area() - region.area()).abs() < 1e-6)?;
    Region::try_new(part.outer, part.holes).ok()
}

/// Puts the windings of all outlines right.
fn make_sound(form: &mut ClothForm) -> Result<(), String> {
    let cloth = &mut form.cloth;
    for region in cloth.flaws.iter_mut().chain([&mut cloth.outline]).chain(&mut form.left) {
        *region = sound(region)?;
    }
    for part in &mut cloth.parts {
        let shows = Region { outer: std::mem::take(&mut part.shows), holes: Vec::new() };
        part.shows = sound(&shows)?.outer;
    }
    Ok(())
}

/// Every cloth has sound outlines and colours, and comes once.
fn check_cloths(document: &mut Document) -> Result<(), BundleProblem> {
    let mut seen = BTreeSet::new();
    for form in &mut document.cloths {
        let sound = make_sound(form);
        let cloth = &form.cloth;
        let damaged = |why: &str| BundleProblem::Damaged(format!("cloth {}: {why}", cloth.id));
        sound.map_err(|why| damaged(&why))?;
        if cloth.look.shades.is_empty() {
            return Err(damaged("it has no colour"));
        }
        if !seen.insert(cloth.id) {
            return Err(damaged("it is there twice"));
        }
        if let Some(picture) = &cloth.picture
            && !is_listed(&document.pictures, picture)
        {
            return Err(damaged("its picture is not in the list"));
        }
    }
    let nothing = |supply: &&Supply| !(0.0..=1e7).contains(&supply.goods().1);
    match document.supplies.iter().find(nothing) {
        Some(supply) => {
            Err(BundleProblem::Damaged(format!("supply {}: its amount makes no sense", supply.id)))
        }
        None => Ok(()),
    }
}

/// Every picture of the list is there and is what its name says; nothing else is.
fn read_pictures(
    zip: &mut ZipArchive<Cursor<&[u8]>>,
    document: &Document,
) -> Result<BTreeMap<String, (String, Vec<u8>)>, BundleProblem> {
    let mut wanted: BTreeMap<String, (&str, &str)> = document
        .pictures
        .iter()
        .map(|p| (format!("pictures/{}.{}", p.hash, p.format), (p.hash.as_str(), p.format.as_str())))
        .collect();
    let mut found = BTreeMap::new();
    let mut left_bytes = MOST_ALL_BYTES;
    for at in 0..zip.len() {
        let name = zip.name_for_index(at).transpose()?.unwrap_or_default().into_owned();
        if name == DOCUMENT {
            continue;
        }
        let (hash, format) = wanted.remove(&name).ok_or(BundleProblem::Stranger(name.clone()))?;
        let bytes = unpack(zip, at, &name, left_bytes.min(MOST_PICTURE_BYTES as u64))?;
        left_bytes -= bytes.len() as u64;
        if hash_of(&bytes) != hash {
            return Err(BundleProblem::Damaged(format!("the bytes of {name} have changed")));
        }
        check_picture(&bytes, format).map_err(|why| BundleProblem::Damaged(format!("{name}: {why}")))?;
        found.insert(hash.to_owned(), (format.to_owned(), bytes));
    }
    match wanted.into_keys().next() {
        Some(name) => Err(BundleProblem::Missing(name)),
        None => Ok(found),
    }
}
