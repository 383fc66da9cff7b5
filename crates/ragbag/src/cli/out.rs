//! The one place that prints.

use super::exit::Refusal;
use serde_json::{Value, json};
use std::io::Write;

/// Where answers go: words or JSON on stdout, talk on stderr.
pub(crate) struct Out {
    json: bool,
}

impl Out {
    pub(crate) const fn new(json: bool) -> Self {
        Self { json }
    }

    /// An answer, in words or as JSON.
    pub(crate) fn say(&self, words: &str, value: &Value) {
        let text = if self.json { value.to_string() } else { words.trim_end().to_owned() };
        // A reader that has gone away is no trouble.
        let _ = writeln!(std::io::stdout(), "{text}");
    }

    /// Something said while it works.
    pub(crate) fn talk(words: &str) {
        let _ = writeln!(std::io::stderr(), "{words}");
    }

    /// Why nothing was done.
    pub(crate) fn refuse(&self, refusal: &Refusal) {
        if self.json {
            let error = json!({ "error": { "message": refusal.message, "hint": refusal.hint } });
            let _ = writeln!(std::io::stdout(), "{error}");
        }
        Self::talk(&format!("ragbag: {}", refusal.message));
        if let Some(hint) = &refusal.hint {
            Self::talk(&format!("  {hint}"));
        }
    }
}
