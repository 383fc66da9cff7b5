//! Pictures of cloth, by their content: the same picture is kept once, under its own hash.

use crate::error::{Result, WorkroomError};
use crate::store::{durable, pictures};
use crate::workroom::Workroom;
use quilt::cloth::Picture;
use sha2::{Digest, Sha256};
use std::cell::RefCell;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// The formats that are kept, each with the bytes such a file begins with.
const FORMATS: [(&str, &[u8]); 3] =
    [("png", b"\x89PNG\r\n\x1a\n"), ("jpg", b"\xff\xd8\xff"), ("webp", b"RIFF")];

/// Most bytes of one picture.
pub const MOST_PICTURE_BYTES: usize = 32 << 20;

impl Workroom {
    /// Keeps a picture and returns its hash, 64 hexadecimal digits. The file is safe before the
    /// database knows of it. `format` is `png`, `jpg` or `webp`.
    ///
    /// # Errors
    /// Bytes that are not of that format, or too many; trouble with the folder.
    pub fn keep_picture(&mut self, bytes: &[u8], format: &str) -> Result<String> {
        check_picture(bytes, format).map_err(WorkroomError::Picture)?;
        let hash = hash_of(bytes);
        let path = file_of(&self.store.pictures(), &hash, format);
        let transaction = self.store.begin()?;
        if pictures::format(&transaction, &hash)?.is_none() || !path.is_file() {
            durable::write(&path, bytes)?;
            pictures::insert(&transaction, &hash, format, bytes.len())?;
        }
        transaction.commit()?;
        Ok(hash)
    }

    /// Where a picture's file lies; `None` when it was never kept.
    ///
    /// # Errors
    /// Trouble with the store.
    pub fn picture_file(&self, hash: &str) -> Result<Option<PathBuf>> {
        let format = pictures::format(&*self.store.view()?, hash)?;
        Ok(format.map(|format| file_of(&self.store.pictures(), hash, &format)))
    }

    /// A picture's bytes, checked against its hash, and its format; `None` when it was never
    /// kept.
    ///
    /// # Errors
    /// A file that is gone or has changed.
    pub fn picture(&self, hash: &str) -> Result<Option<(Vec<u8>, String)>> {
        let Some(format) = pictures::format(&*self.store.view()?, hash)? else { return Ok(None) };
        let path = file_of(&self.store.pictures(), hash, &format);
        let bytes = std::fs::read(&path).map_err(|e| WorkroomError::file(&path, e))?;
        if hash_of(&bytes) == hash {
            Ok(Some((bytes, format)))
        } else {
            Err(WorkroomError::damaged(format!("the picture {} has changed", path.display())))
        }
    }
}

/// Pictures as a drawing asks for them; those that are gone or damaged are noted, and it is drawn without them.
#[derive(Debug)]
pub struct PictureFinder<'a> {
    room: &'a Workroom,
    lost: RefCell<BTreeSet<String>>,
}

impl<'a> PictureFinder<'a> {
    /// Looks in a workroom.
    #[must_use]
    pub fn new(room: &'a Workroom) -> Self {
        Self { room, lost: RefCell::default() }
    }

    /// A picture's bytes.
    #[must_use]
    pub fn find(&self, picture: &Picture) -> Option<Vec<u8>> {
        let found = self.room.picture(&picture.hash).ok().flatten().map(|(bytes, _)| bytes);
        if found.is_none() {
            self.lost.borrow_mut().insert(picture.hash.clone());
        }
        found
    }

    /// The hashes of those that could not be had.
    #[must_use]
    pub fn lost(self) -> BTreeSet<String> {
        self.lost.into_inner()
    }
}

pub(crate) fn file_of(folder: &Path, hash: &str, format: &str) -> PathBuf {
    folder.join(format!("{hash}.{format}"))
}

/// SHA-256 in hexadecimal.
pub(crate) fn hash_of(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect()
}

/// What is wrong with a picture, if anything.
pub(crate) fn check_picture(bytes: &[u8], format: &str) -> std::result::Result<(), String> {
    let Some((_, begins)) = FORMATS.iter().find(|(known, _)| *known == format) else {
        return Err(format!("`{format}` is none of png, jpg and webp"));
    };
    if bytes.len() > MOST_PICTURE_BYTES {
        return Err(format!("it has {} bytes; at most {MOST_PICTURE_BYTES} can be kept", bytes.len()));
    }
    if bytes.starts_with(begins) { Ok(()) } else { Err(format!("its bytes are not those of a {format}")) }
}
