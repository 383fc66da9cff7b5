//! The one way text gets into the file.

/// Appends `text` so that it is the same text again when read, in an attribute or between tags.
/// Characters that XML 1.0 can't carry at all become U+FFFD.
pub(super) fn push(out: &mut String, text: &str) {
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\t' | '\n' | '\r' => {
                out.push_str("&#");
                super::number::push(out, f64::from(u32::from(c)));
                out.push(';');
            }
            '\u{0}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => out.push('\u{fffd}'),
            c => out.push(c),
        }
    }
}
