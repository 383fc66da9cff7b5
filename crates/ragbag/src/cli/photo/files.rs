//! The files of photographs: one, or all of a folder.

use super::Refusal;
use std::path::{Path, PathBuf};
use workroom::file_trouble;
use workroom::photo::{MOST_PHOTO_BYTES, PhotoProblem};

/// Endings of picture files in a folder. Those that can't be read are among them, so that they are told.
const ENDINGS: [&str; 11] =
    ["jpg", "jpeg", "png", "webp", "heic", "heif", "avif", "gif", "bmp", "tif", "tiff"];

/// Most pictures at once.
const MOST: usize = 2_000;

/// The pictures that are meant: files as they are named, folders by what lies in them, in the order of
/// their names.
pub(super) fn all(named: &[PathBuf]) -> Result<Vec<PathBuf>, Refusal> {
    let mut files = Vec::new();
    for path in named {
        if path.is_dir() {
            files.extend(in_folder(path)?);
        } else {
            files.push(path.clone());
        }
    }
    if files.len() > MOST {
        let why = format!("{} pictures at once; at most {MOST} are read", files.len());
        return Err(Refusal::bad(why, "Name some of them."));
    }
    Ok(files)
}

fn in_folder(folder: &Path) -> Result<Vec<PathBuf>, Refusal> {
    let trouble = |why: std::io::Error| {
        let why = format!("{} can't be read: {}", folder.display(), file_trouble(&why));
        Refusal::bad(why, "Check the folder's name.")
    };
    let mut files = Vec::new();
    for entry in std::fs::read_dir(folder).map_err(trouble)? {
        let path = entry.map_err(trouble)?.path();
        let ending = path.extension().map(|ending| ending.to_string_lossy().to_lowercase());
        if path.is_file() && ending.is_some_and(|ending| ENDINGS.contains(&&*ending)) {
            files.push(path);
        }
    }
    if files.is_empty() {
        let why = format!("there is no picture in {}", folder.display());
        return Err(Refusal::bad(why, "Pictures are known by their endings: .jpg, .jpeg, .png, .webp."));
    }
    files.sort();
    Ok(files)
}

/// The name and the bytes of a picture.
pub(super) fn read(file: &Path) -> Result<(String, Vec<u8>), Refusal> {
    let trouble = |why: std::io::Error| {
        let why = format!("{} can't be read: {}", file.display(), file_trouble(&why));
        Refusal::bad(why, "Check the name of the picture.")
    };
    let name = file.file_name().unwrap_or(file.as_os_str()).to_string_lossy().into_owned();
    let known = std::fs::metadata(file).map_err(trouble)?;
    if !known.is_file() {
        return Err(Refusal::bad(format!("{} is no file", file.display()), "Name a picture."));
    }
    if known.len() > MOST_PHOTO_BYTES {
        let (megabytes, most) = (known.len().div_ceil(1 << 20), MOST_PHOTO_BYTES >> 20);
        let problem = PhotoProblem::TooManyBytes { name, megabytes, most };
        return Err(Refusal::from(workroom::asks::AskError::from(problem)));
    }
    Ok((name, std::fs::read(file).map_err(trouble)?))
}
