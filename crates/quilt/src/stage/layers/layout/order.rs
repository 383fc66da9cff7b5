//! Every order of some numbers, once.

/// All orders of some numbers, each once, the smallest first.
pub(super) fn orders(mut numbers: Vec<usize>) -> Vec<Vec<usize>> {
    numbers.sort_unstable();
    let mut all = vec![numbers.clone()];
    while next_order(&mut numbers) {
        all.push(numbers.clone());
    }
    all
}

/// The next order by size; false after the last.
fn next_order(numbers: &mut [usize]) -> bool {
    let Some(at) = numbers.windows(2).rposition(|pair| pair[0] < pair[1]) else { return false };
    let after = numbers.iter().rposition(|n| *n > numbers[at]).unwrap_or(at + 1);
    numbers.swap(at, after);
    numbers[at + 1..].reverse();
    true
}
