//! Names of fibres as labels have them.

/// Generic names of textile fibres in English, in lower case: Regulation (EU) No 1007/2011, Annex I (from memory).
pub const FIBRES: &[&str] = &[
    "acetate",
    "acrylic",
    "alpaca",
    "angora",
    "aramid",
    "cashmere",
    "chlorofibre",
    "cotton",
    "cupro",
    "elastane",
    "elastodiene",
    "elastolefin",
    "flax",
    "fluorofibre",
    "hemp",
    "jute",
    "linen",
    "lyocell",
    "melamine",
    "metal",
    "modacrylic",
    "modal",
    "mohair",
    "nylon",
    "polyamide",
    "polycarbamide",
    "polyester",
    "polyethylene",
    "polyimide",
    "polylactide",
    "polypropylene",
    "polyurethane",
    "polyvinyl",
    "ramie",
    "rayon",
    "silk",
    "sisal",
    "spandex",
    "triacetate",
    "trivinyl",
    "viscose",
    "wool",
];

/// Letters from which on a word is long enough to say what it is meant for.
const LONG: usize = 5;

/// The fibre that a word is nearly, where it is none and no other is about as near.
pub fn meant(word: &str) -> Option<&'static str> {
    let word = word.to_lowercase();
    if word.chars().count() < LONG || FIBRES.contains(&word.as_str()) {
        return None;
    }
    let far = |fibre: &str| strsim::damerau_levenshtein(&word, fibre);
    let near = FIBRES.iter().copied().min_by_key(|fibre| far(fibre))?;
    let others = FIBRES.iter().filter(|fibre| **fibre != near && far(fibre) <= 2).count();
    (far(near) <= 1 + word.chars().count() / 9 && others == 0).then_some(near)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn misspelt_fibres_are_known_and_other_words_are_none() {
        assert_eq!(
            (meant("polyestr"), meant("Cottn"), meant("viskose")),
            (Some("polyester"), Some("cotton"), Some("viscose"))
        );
        assert_eq!((meant("polyester"), meant("quartz"), meant("sand"), meant("feathers")), (None, None, None, None));
    }
}
