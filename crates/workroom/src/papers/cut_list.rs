//! The pieces of a cloth in lines: equal ones are told once.

use super::PapersWish;
use crate::cutting::CutPiece;

/// A line for each kind of piece: its numbers, what it is for, and its size over all.
pub(super) fn lines(pieces: &[CutPiece], wish: &PapersWish) -> Vec<String> {
    let mut kinds: Vec<(String, String, Vec<&CutPiece>)> = Vec::new();
    for piece in pieces {
        let [long, wide] = piece.size_in();
        let size = format!("{} by {}", wish.up(long, 8), wish.up(wide, 8));
        let kind = stem(&piece.name);
        match kinds.iter_mut().find(|(of, is, _)| of == kind && *is == size) {
            Some((_, _, equal)) => equal.push(piece),
            None => kinds.push((kind.to_owned(), size, vec![piece])),
        }
    }
    kinds.into_iter().map(|(kind, size, equal)| line(&kind, &size, &equal)).collect()
}

fn line(kind: &str, size: &str, equal: &[&CutPiece]) -> String {
    if let [piece] = equal {
        return format!("{}: {size}, {}", piece.no, held(&piece.name));
    }
    let numbers = runs(&equal.iter().map(|piece| piece.no).collect::<Vec<_>>());
    let many = if kind.ends_with("ch") { "es" } else { "s" };
    format!("{numbers}: {size}, {}", held(&format!("{} {kind}{many}", equal.len())))
}

/// How long a name may be that isn't broken over two lines, in letters.
const HELD: usize = 16;

/// A short name, so that it isn't broken over two lines.
fn held(words: &str) -> String {
    if words.chars().count() > HELD { words.to_owned() } else { words.replace(' ', "\u{a0}") }
}

/// A name without the number at its end.
fn stem(name: &str) -> &str {
    match name.rsplit_once(' ') {
        Some((stem, last)) if last.bytes().all(|byte| byte.is_ascii_digit()) => stem,
        _ => name,
    }
}

/// Numbers with the runs among them: `1–4, 7`.
pub(super) fn runs(numbers: &[usize]) -> String {
    let mut sorted = numbers.to_vec();
    sorted.sort_unstable();
    let mut found: Vec<[usize; 2]> = Vec::new();
    for number in sorted {
        match found.last_mut() {
            Some([_, last]) if *last + 1 == number => *last = number,
            _ => found.push([number, number]),
        }
    }
    let words = found.iter().map(|[from, to]| match to - from {
        0 => from.to_string(),
        1 => format!("{from}, {to}"),
        _ => format!("{from}\u{2013}{to}"),
    });
    words.collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use plane::Region;

    fn piece(no: usize, name: &str, [long, wide]: [f64; 2]) -> CutPiece {
        let outline = Region::rectangle(long, wide).outer;
        CutPiece { no, name: name.to_owned(), mark: None, outline, was_laid: false, by_its_edges: false }
    }

    #[test]
    fn equal_pieces_are_told_once_with_all_their_numbers() {
        let mut pieces: Vec<CutPiece> =
            (1..=16).map(|no| piece(no, &format!("patch {}", 100 + no), [5.25, 1.75])).collect();
        pieces.push(piece(17, "label", [4.5, 3.5]));
        pieces.push(piece(18, "patch 9", [5.25, 2.0]));
        let told = lines(&pieces, &PapersWish::default());
        let told: Vec<String> = told.iter().map(|line| line.replace('\u{a0}', " ")).collect();
        assert_eq!(
            told,
            [
                "1\u{2013}16: 5 1/4 by 1 3/4, 16 patches",
                "17: 4 1/2 by 3 1/2, label",
                "18: 5 1/4 by 2, patch 9"
            ]
        );
    }

    #[test]
    fn numbers_in_a_row_are_a_run() {
        assert_eq!(runs(&[3, 1, 2, 7, 9, 8, 12, 13]), "1\u{2013}3, 7\u{2013}9, 12, 13");
    }
}
