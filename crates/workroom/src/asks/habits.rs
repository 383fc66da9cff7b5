//! The maker's own habits: stitches, thread, minutes and what an hour is worth, kept in the workroom.

use super::error::{AskError, Asked};
use crate::workroom::Workroom;
use quilt::stage::enough::Shop;
use quilt::stage::habits::Habits;
use serde_json::{Map, Value};

/// The setting that holds them.
const HABITS: &str = "habits";

/// The setting that holds how the shop sells.
const SHOP: &str = "shop";

impl Workroom {
    /// The maker's own habits, or the usual ones.
    ///
    /// # Errors
    /// When the setting can't be read.
    pub fn habits(&self) -> Asked<Habits> {
        Ok(self.setting(HABITS)?.unwrap_or_default())
    }

    /// How the maker's shop sells, or as is usual.
    ///
    /// # Errors
    /// When the setting can't be read.
    pub fn shop(&self) -> Asked<Shop> {
        Ok(self.setting(SHOP)?.unwrap_or_default())
    }

    /// Sets how the maker's shop sells.
    ///
    /// # Errors
    /// A number that makes no sense; nothing is set then.
    pub fn set_shop(&mut self, shop: &Shop) -> Asked<()> {
        shop.check().map_err(|problem| AskError::Nonsense {
            what: problem.to_string(),
            hint: "Nothing was set.".to_owned(),
        })?;
        Ok(self.set(SHOP, shop)?)
    }

    /// Sets habits by name: `bobbin_yd`, `minutes_per_pin`. Without a value one is as usual again.
    ///
    /// # Errors
    /// A name that there isn't, or a number that makes no sense; nothing is set then.
    pub fn set_habits(&mut self, changes: &[(String, Option<f64>)]) -> Asked<Habits> {
        let usual = Habits::default();
        let mut habits = self.habits()?;
        let mut numbers = numbers(&habits);
        let usual = self::numbers(&usual);
        for (name, value) in changes {
            let known: Vec<&str> = numbers.keys().map(String::as_str).collect();
            let none = || AskError::Nonsense {
                what: format!("there is no habit called `{name}`"),
                hint: format!("There are {}.", known.join(", ")),
            };
            let as_usual = usual.get(name).ok_or_else(none)?.clone();
            numbers.insert(name.clone(), value.map_or(as_usual, Value::from));
        }
        let unread = |_| AskError::Nonsense { what: "a habit is no number".to_owned(), hint: String::new() };
        let all = Value::Object(numbers);
        habits.thread = serde_json::from_value(all.clone()).map_err(unread)?;
        habits.rates = serde_json::from_value(all).map_err(unread)?;
        habits.check().map_err(|problem| AskError::Nonsense {
            what: problem.to_string(),
            hint: "Nothing was set.".to_owned(),
        })?;
        self.set(HABITS, &habits)?;
        Ok(habits)
    }
}

/// Every number of the habits by its name.
#[must_use]
pub fn numbers(habits: &Habits) -> Map<String, Value> {
    let of = |value: Result<Value, serde_json::Error>| match value {
        Ok(Value::Object(map)) => map,
        _ => Map::new(),
    };
    let mut all = of(serde_json::to_value(habits.thread));
    all.extend(of(serde_json::to_value(&habits.rates)));
    all
}
