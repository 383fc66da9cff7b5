//! The cards as a plain list with the times at which they were sewn, for those who film their work.

use super::{cards, title};
use crate::asks::{AskError, Asked};
use crate::papers::PapersWish;
use crate::quilts::{Head, Moment};
use crate::workroom::Workroom;
use quilt::log::{Entry, Mark};
use std::collections::BTreeMap;

impl Workroom {
    /// The steps of a head, as its cards have them, a line each: when it was told to be sewn, how long after the
    /// first of that day, and what was done. Steps without a known time say so.
    ///
    /// # Errors
    /// Nothing on the table.
    pub fn steps_with_times(&mut self, head: &Head, wish: &PapersWish) -> Asked<String> {
        let log = self.log(&head.quilt, &head.name)?;
        let times = self.times(&log)?;
        let entries: Vec<Entry> = log.entries();
        if entries.is_empty() {
            return Err(AskError::NothingOnTable);
        }
        let sewn: BTreeMap<Mark, &Moment> = (entries.iter().zip(&times))
            .filter_map(|(entry, times)| Some((entry.mark, times.sewn.as_ref()?)))
            .collect();
        let done: Vec<Mark> = entries.iter().take(log.sewn).map(|entry| entry.mark).collect();
        let cloths = self.every_cloth()?;
        let cards = cards(self, head, &entries, &cloths, wish, |_, _, _| Ok(()))?;
        let mut lines = vec![
            format!("{}: the steps, and when they were told to be sewn.", wish.title_of(&head.quilt)),
            "Time of day, time since the first step of that day, step.".to_owned(),
        ];
        let mut first: Option<&Moment> = None;
        for (card, ()) in &cards {
            let what = format!("Step {}: {}", card.no, title(card));
            let last = card.entries.last();
            match last.and_then(|mark| sewn.get(mark).copied()) {
                Some(moment) => {
                    if first.is_none_or(|first| first.day() != moment.day()) {
                        first = Some(moment);
                        lines.extend([String::new(), moment.day().to_owned()]);
                    }
                    let since = first.map_or(0, |first| moment.seconds - first.seconds);
                    let clock = moment.local.split(' ').nth(1).unwrap_or_default();
                    lines.push(format!("{clock}  {}  {what}", elapsed(since)));
                }
                None if last.is_some_and(|mark| done.contains(mark)) => {
                    lines.push(format!("no time   -        {what}"));
                }
                None => lines.push(format!("not sewn  -        {what}")),
            }
        }
        Ok(lines.join("\n") + "\n")
    }
}

/// Hours, minutes and seconds.
fn elapsed(seconds: i64) -> String {
    let seconds = seconds.max(0);
    format!("{}:{:02}:{:02}", seconds / 3600, seconds / 60 % 60, seconds % 60)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn time_that_has_gone_by_is_told_as_on_a_film() {
        assert_eq!(
            [0, 59, 61, 3_725, 36_000].map(elapsed),
            ["0:00:00", "0:00:59", "0:01:01", "1:02:05", "10:00:00"]
        );
    }
}
