//! Content hashes, so that what has not changed is not built again.
//!
//! A stamp is a file under `target/xtask` that holds the hash of the sources of the last good
//! build. Hashes are FNV-1a over 64 bits: against accidents, not against malice.

use crate::place;
use crate::tools::Outcome;
use std::fs;
use std::path::{Path, PathBuf};

/// The hash of a set of files and folders: of their paths and their bytes, in order of path.
/// Folders named in `skipped` are passed over, wherever they are; what doesn't exist counts as
/// nothing.
pub(crate) fn hash(paths: &[PathBuf], skipped: &[&str]) -> Outcome<String> {
    let mut files = Vec::new();
    for path in paths {
        collect(path, skipped, &mut files)?;
    }
    files.sort();
    let mut hash = 0xcbf2_9ce4_8422_2325_u64;
    for file in files {
        let bytes = fs::read(&file)?;
        feed(&mut hash, file.to_string_lossy().as_bytes());
        feed(&mut hash, &(bytes.len() as u64).to_le_bytes());
        feed(&mut hash, &bytes);
    }
    Ok(format!("{hash:016x}"))
}

/// Every file under a path, which may be a file itself.
pub(crate) fn collect(path: &Path, skipped: &[&str], into: &mut Vec<PathBuf>) -> Outcome<()> {
    if path.is_file() {
        into.push(path.to_owned());
        return Ok(());
    }
    let Ok(entries) = fs::read_dir(path) else { return Ok(()) };
    for entry in entries {
        let entry = entry?;
        if !skipped.iter().any(|name| entry.file_name().to_string_lossy() == *name) {
            collect(&entry.path(), skipped, into)?;
        }
    }
    Ok(())
}

/// Whether the last good build named so had these sources.
pub(crate) fn is_fresh(name: &str, hash: &str) -> bool {
    fs::read_to_string(file(name)).is_ok_and(|kept| kept == hash)
}

/// Remembers a good build.
pub(crate) fn keep(name: &str, hash: &str) -> Outcome<()> {
    fs::create_dir_all(place::memory())?;
    Ok(fs::write(file(name), hash)?)
}

fn file(name: &str) -> PathBuf {
    place::memory().join(format!("{name}.stamp"))
}

fn feed(hash: &mut u64, bytes: &[u8]) {
    for byte in bytes {
        *hash = (*hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Values: the published test vectors of FNV-1a, 64 bits, from memory.
    #[test]
    fn the_hash_is_fnv_1a() {
        for (text, expected) in [("", 0xcbf2_9ce4_8422_2325), ("a", 0xaf63_dc4c_8601_ec8c)] {
            let mut hash = 0xcbf2_9ce4_8422_2325_u64;
            feed(&mut hash, text.as_bytes());
            assert_eq!(hash, expected, "{text}");
        }
    }

    #[test]
    fn a_changed_byte_and_a_changed_name_change_the_hash() {
        let dir = place::memory().join("stamp-test");
        fs::create_dir_all(dir.join("skipped")).unwrap();
        let write = |name: &str, text: &str| fs::write(dir.join(name), text).unwrap();
        write("a", "one");
        write("skipped/x", "1");
        let hash = || hash(std::slice::from_ref(&dir), &["skipped"]).unwrap();
        let first = hash();
        write("skipped/x", "2");
        assert_eq!(hash(), first, "what is skipped doesn't count");
        write("a", "two");
        let second = hash();
        assert_ne!(second, first);
        fs::rename(dir.join("a"), dir.join("b")).unwrap();
        assert_ne!(hash(), second);
        fs::remove_dir_all(&dir).unwrap();
    }
}
