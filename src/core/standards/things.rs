//! What people call the things that cautions are about: words of the trade for types of trim, filling and fabric (common
//! practice).

/// Words for one sort of thing, in the singular and in lower case.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Things {
    /// Words that say it wherever they are: `eye` in "safety eye, 12 mm".
    pub anywhere: &'static [&'static str],
    /// Words that say it only by themselves: a `bag` is of film, a "bag ring" is not.
    pub alone: &'static [&'static str],
}

/// What may come off or come out.
pub const SMALL_PARTS: Things = Things {
    anywhere: &[
        "bead",
        "bell",
        "button",
        "eye",
        "granule",
        "joint",
        "magnet",
        "nose",
        "pellet",
        "pompom",
        "rhinestone",
        "sequin",
        "snap",
        "squeaker",
        "stud",
    ],
    alone: &[],
};

/// What may be a free cord or a loop.
pub const CORDS: Things = Things {
    anywhere: &["cord", "drawstring", "elastic", "lace", "lanyard", "loop", "ribbon", "strap", "string", "webbing"],
    alone: &[],
};

/// What is of film.
pub const FILM: Things = Things { anywhere: &["cellophane", "film", "polybag", "polythene"], alone: &["bag"] };

/// What is pressed on hot.
pub const FUSIBLES: Things = Things { anywhere: &["fusible"], alone: &[] };

impl Things {
    /// Whether a text names one of them: by whole words, in the singular or the plural.
    pub fn are(&self, text: &str) -> bool {
        let text = text.to_lowercase();
        let mut words = text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
        let named =
            |word: &str, list: &[&str]| list.iter().any(|one| word == *one || word.strip_suffix('s') == Some(*one));
        named(text.trim(), self.alone) || words.any(|word| named(word, self.anywhere))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn things_are_named_by_whole_words() {
        assert!(SMALL_PARTS.are("Safety eyes, 12 mm") && SMALL_PARTS.are("snap button"));
        assert!(!SMALL_PARTS.are("eyelet") && !CORDS.are("corduroy") && !CORDS.are("lacework"));
        assert!(CORDS.are("elastic-cord") && FUSIBLES.are("Fusible, woven"));
    }

    #[test]
    fn a_bag_is_of_film_and_what_belongs_to_a_bag_is_not() {
        assert!(FILM.are("Bag") && FILM.are("bags") && FILM.are("polybag, resealable"));
        assert!(!FILM.are("bag ring") && !FILM.are("paper bag") && !FILM.are("filmy"));
    }
}
