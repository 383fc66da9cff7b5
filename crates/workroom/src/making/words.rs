//! What is wrong with a value, in a maker's words instead of those of the library that read it.

/// A library's sentence in plain words. What isn't known here is said in general: no word of the
/// library's comes through.
pub(super) fn plainly(why: &str) -> String {
    let why = why.lines().next().unwrap_or_default().trim();
    let told = missing(why)
        .or_else(|| unknown(why))
        .or_else(|| misfit(why))
        .or_else(|| length(why))
        .or_else(|| untagged(why))
        .or_else(|| one_word(why));
    told.unwrap_or_else(|| "what is written there can't be understood".to_owned())
}

fn missing(why: &str) -> Option<String> {
    why.strip_prefix("missing field ").map(|name| format!("{name} is missing"))
}

fn unknown(why: &str) -> Option<String> {
    let rest = why.strip_prefix("unknown variant ").or_else(|| why.strip_prefix("unknown field "))?;
    let (given, known) = rest.split_once(", ")?;
    let known = known.trim_start_matches("expected ").trim_start_matches("one of ");
    Some(if known.starts_with('`') {
        format!("{given} is not known here; known are {known}")
    } else {
        format!("{given} is not known here")
    })
}

fn misfit(why: &str) -> Option<String> {
    let rest = why.strip_prefix("invalid type: ").or_else(|| why.strip_prefix("invalid value: "))?;
    let (given, wanted) = rest.rsplit_once(", expected ")?;
    Some(format!("{} stands where {} belongs", given_as(given), wanted_as(wanted)))
}

fn length(why: &str) -> Option<String> {
    let (given, wanted) = why.strip_prefix("invalid length ")?.split_once(", expected ")?;
    let digits: String = wanted.chars().filter(char::is_ascii_digit).collect();
    let are = if given == "1" { "is" } else { "are" };
    Some(format!("{given} {are} given where a list of {digits} belongs"))
}

fn untagged(why: &str) -> Option<String> {
    let name = why.strip_prefix("data did not match any variant of untagged enum ")?;
    Some(if name == "ClothName" {
        "a cloth is named by its number, or by its name in quotes".to_owned()
    } else {
        "what is written there is none of the ways to say it".to_owned()
    })
}

fn one_word(why: &str) -> Option<String> {
    let wanted = why.starts_with("wanted ") || why.starts_with("expected ");
    wanted.then(|| "one word in quotes, or one { word = { … } }, belongs there".to_owned())
}

fn given_as(given: &str) -> String {
    let (kind, value) = given.split_once(' ').unwrap_or((given, ""));
    match kind {
        "string" => format!("the word {value}"),
        "integer" => format!("the number {}", value.trim_matches('`')),
        "floating" => format!("the number {}", value.trim_start_matches("point ").trim_matches('`')),
        "boolean" => value.trim_matches('`').to_owned(),
        "map" => "a table { … }".to_owned(),
        "sequence" => "a list [ … ]".to_owned(),
        _ => "something else".to_owned(),
    }
}

fn wanted_as(wanted: &str) -> String {
    let first = wanted.split_whitespace().next().unwrap_or_default();
    let whole = ["u8", "u16", "u32", "u64", "usize", "i8", "i16", "i32", "i64", "isize"];
    if whole.contains(&first) || wanted.starts_with("a nonzero") {
        return "a whole number of 0 or more".to_owned();
    }
    if ["f32", "f64"].contains(&first) {
        return "a number".to_owned();
    }
    let digits: String = wanted.chars().filter(char::is_ascii_digit).collect();
    match wanted {
        "a string" | "a borrowed string" | "string" => "a word in quotes".to_owned(),
        "a boolean" => "true or false".to_owned(),
        "a map" => "a table { … }".to_owned(),
        "a sequence" => "a list [ … ]".to_owned(),
        _ if wanted.starts_with("an array of") || wanted.starts_with("a tuple of") => {
            format!("a list of {digits}")
        }
        _ if wanted.starts_with("struct") || wanted.starts_with("internally") => "a table { … }".to_owned(),
        _ => "something else".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::plainly;

    #[test]
    fn no_word_of_the_library_comes_through() {
        for (why, told) in [
            ("missing field `slice_in`", "`slice_in` is missing"),
            (
                "unknown variant `odd`, expected one of `a`, `b`",
                "`odd` is not known here; known are `a`, `b`",
            ),
            ("unknown field `odd`, there are no fields", "`odd` is not known here"),
            ("invalid type: string \"x\", expected f64", "the word \"x\" stands where a number belongs"),
            (
                "invalid type: floating point `2.5`, expected usize",
                "the number 2.5 stands where a whole number of 0 or more belongs",
            ),
            (
                "invalid value: integer `-1`, expected u8",
                "the number -1 stands where a whole number of 0 or more belongs",
            ),
            (
                "invalid type: integer `3`, expected struct FigurePlanned",
                "the number 3 stands where a table { … } belongs",
            ),
            ("invalid length 1, expected an array of length 2", "1 is given where a list of 2 belongs"),
            (
                "data did not match any variant of untagged enum ClothName",
                "a cloth is named by its number, or by its name in quotes",
            ),
            ("a panicking struct variant f64", "what is written there can't be understood"),
        ] {
            assert_eq!(plainly(why), told);
        }
    }
}
