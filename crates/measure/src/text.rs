//! Characters that a reader cannot see, in what people give as words.
//!
//! A mark that turns the direction of writing moves the text beside it on a bill or a sheet,
//! and one of no width makes two words look alike. Which they are is from the Unicode
//! Standard: the marks of direction of its Annex 9, format characters (general category Cf)
//! of no width, and the separators of lines and paragraphs. Joiners (U+200C, U+200D) and
//! variation selectors are letters' parts in some scripts and in emoji: they stay, but alone
//! they show nothing.

/// Whether a character shows nothing, or moves what stands beside it; control characters do.
///
/// ```
/// use pennantry_measure::text::is_hidden;
/// assert!(is_hidden('\u{202e}') && is_hidden('\u{200b}') && is_hidden('\n'));
/// assert!(!is_hidden('é') && !is_hidden(' ') && !is_hidden('\u{200d}'));
/// ```
pub fn is_hidden(c: char) -> bool {
    c.is_control()
        || matches!(c,
            // soft hyphen, and a separator of vowels that once was a space
            '\u{ad}' | '\u{180e}'
            // marks of direction
            | '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}'
            // of no width
            | '\u{200b}' | '\u{2060}'..='\u{2065}' | '\u{206a}'..='\u{206f}' | '\u{feff}'
            // separators of lines and paragraphs, and anchors of notes
            | '\u{2028}' | '\u{2029}' | '\u{fff9}'..='\u{fffb}')
}

/// Whether nothing of a text can be seen.
///
/// ```
/// use pennantry_measure::text::is_blank;
/// assert!(is_blank(" \u{a0}") && is_blank("\u{200d}\u{fe0f}") && is_blank(""));
/// assert!(!is_blank("a\u{200d}"));
/// ```
pub fn is_blank(text: &str) -> bool {
    let joins = |c: char| matches!(c, '\u{200c}' | '\u{200d}' | '\u{fe00}'..='\u{fe0f}');
    text.chars().all(|c| c.is_whitespace() || is_hidden(c) || joins(c))
}

/// The first hidden character of a text, as it is written in words, such as `U+202E`.
///
/// ```
/// use pennantry_measure::text::hidden;
/// assert_eq!(hidden("a\u{202e}b").as_deref(), Some("U+202E"));
/// assert_eq!(hidden("ab"), None);
/// ```
pub fn hidden(text: &str) -> Option<String> {
    text.chars().find(|c| is_hidden(*c)).map(|c| format!("U+{:04X}", u32::from(c)))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Unicode Standard Annex 9, table of explicit and implicit directional formatting characters.
    const DIRECTION: [char; 12] = [
        '\u{61c}', '\u{200e}', '\u{200f}', '\u{202a}', '\u{202b}', '\u{202c}', '\u{202d}', '\u{202e}',
        '\u{2066}', '\u{2067}', '\u{2068}', '\u{2069}',
    ];

    #[test]
    fn every_mark_of_direction_and_every_one_of_no_width_is_hidden() {
        for c in DIRECTION
            .into_iter()
            .chain(['\u{0}', '\t', '\u{7f}', '\u{9b}', '\u{200b}', '\u{2060}', '\u{feff}'])
        {
            assert!(is_hidden(c) && is_blank(&c.to_string()), "{c:?}");
            assert_eq!(hidden(&format!("a{c}b")), Some(format!("U+{:04X}", u32::from(c))));
        }
    }

    #[test]
    fn what_people_write_is_not() {
        for words in [
            "Joyeux Noël",
            "שלום",
            "سلام",
            "नमस्ते",
            "誕生日",
            "e\u{301}",
            "\u{1f469}\u{200d}\u{1f467}",
            "❤\u{fe0f}",
            "5–7’’",
        ] {
            assert_eq!((hidden(words), is_blank(words)), (None, false), "{words}");
        }
    }
}
