//! Parties, destinations and age grades as a specification writes them, and who gets to see them.

use backtack_core::grammar::keys;
use backtack_core::read::{self, Loaded};
use backtack_core::source::Tally;
use backtack_core::standards::market::Market;
use backtack_core::units::Age;

const STYLE: &str = "[style]\nowner = \"us\"\nfactory = \"maker\"\ndestinations = [\"united kingdom\", \"US\"]\n[party.us]\nname = \
                     \"Example Works\"\nrole = [\"owner\", \"manufacturer\"]\naddress = [\"1 Sample Lane\", \"Sampletown\"]\nnumber = { \
                     value = \"REG-4711\", audience = \"own\" }\nfor = \"EU\"\n";
const MAKER: &str = "[party.maker]\nname = \"Hidden Sewing\"\nrole = \"factory\"\naddress = \"5 Secret Yard\"\n";

fn said(text: &str) -> Vec<String> {
    let loaded = read::texts(&[("style.toml", text)]);
    loaded.findings.iter().map(|one| one.message.english()).collect()
}

fn files() -> Loaded {
    read::texts(&[("style.toml", STYLE), ("private/maker.toml", MAKER)])
}

#[test]
fn a_party_is_read_whole() {
    let loaded = files();
    assert_eq!(said(STYLE), [""; 0]);
    let party = &loaded.model.parties["us"];
    assert_eq!(party.roles.iter().map(|role| role.value.word()).collect::<Vec<_>>(), ["owner", "manufacturer"]);
    assert_eq!(party.address.as_ref().unwrap().known().unwrap(), &["1 Sample Lane", "Sampletown"]);
    assert_eq!(party.markets.iter().map(|one| one.value.code).collect::<Vec<_>>(), ["EU"]);
    let sold: Vec<String> = loaded.model.style.destinations.iter().map(|one| one.value.printed()).collect();
    assert_eq!(sold, ["United Kingdom (GB)", "United States (US)"]);
}

/// As of anything else: a file below `private/` stays at home, and so does a value for the own edition.
#[test]
fn what_is_private_of_a_party_stays_in_the_own_edition() {
    let shown = backtack_core::editions::factory_edition(&files());
    let text: String = shown.iter().map(|(_, bytes)| String::from_utf8_lossy(bytes).into_owned()).collect();
    assert!(text.contains("Example Works") && text.contains("1 Sample Lane"), "{text}");
    for hidden in ["Hidden Sewing", "Secret Yard", "REG-4711"] {
        assert!(!text.contains(hidden), "{text}");
    }
    let theirs =
        read::closure("", shown.iter().map(|(path, bytes)| (path.as_str(), bytes.as_slice())), &Tally::default());
    assert_eq!(theirs.model.parties.keys().collect::<Vec<_>>(), ["us"]);
    assert!(theirs.model.parties["us"].number.as_ref().is_some_and(|number| number.known().is_none()));
}

#[test]
fn countries_go_by_code_or_name() {
    assert_eq!(Market::all().count(), 250);
    let codes: Vec<&str> = Market::all().skip(1).map(|market| market.code).collect();
    assert!(codes.is_sorted_by(|a, b| a < b), "each once, in order");
    assert!(codes.iter().all(|code| code.len() == 2 && code.chars().all(|c| c.is_ascii_uppercase())));
    for (text, code) in
        [("NO", "NO"), ("norway", "NO"), ("United States of America", "US"), ("eu", "EU"), ("Turkey", "TR")]
    {
        assert_eq!(Market::of(text).map(|market| market.code), Some(code), "{text}");
    }
    // A name leads to one country only.
    for market in Market::all() {
        for name in market.names() {
            assert_eq!(Market::of(name), Some(market), "{name}");
        }
    }
    assert_eq!(Market::of("UK"), None);
}

#[test]
fn ages_are_months_or_years() {
    let months = |text: &str| Age::parse(text).map(Age::months);
    for (text, wanted) in [("36 months", 36), ("3 years", 36), ("0 months", 0), ("1 month", 1), (" 18months ", 18)] {
        assert_eq!(months(text), Some(wanted), "{text}");
    }
    for wrong in ["3+", "3", "three years", "3.5 years", "121 years", "-1 years", "years", "99999999999 years", "3 y"] {
        assert_eq!(months(wrong), None, "{wrong}");
    }
    assert_eq!(
        (Age::parse("3 years"), Age::parse("1 years").unwrap().to_string()),
        (Age::parse("36 months"), "1 year".into())
    );
    assert_eq!(said("[style]\nage = { from = \"8 years\", to = \"36 months\" }"), ["the age ends before it begins"]);
}

/// The words of the grammar are those the model has.
#[test]
fn words_of_the_grammar_are_those_of_the_model() {
    use backtack_core::model::Product;
    use backtack_core::parties::{PartyRole, keys::ROLES};
    assert_eq!(PartyRole::ALL.map(PartyRole::word), *ROLES);
    assert_eq!(Product::ALL.map(Product::word), *keys::PRODUCTS);
}
