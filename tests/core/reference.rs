//! The reference of tables and keys: every one has its entry, the page in docs is the page that is printed.

use backtack_core::grammar::keys::{Form, Key, kinds};
use backtack_core::grammar::reference::{Entry, entry, markdown};
use backtack_core::rules;

const PAGE: &str = include_str!("../../docs/reference.md");

#[test]
fn the_page_is_what_the_grammar_says() {
    let told = "write it again: cargo run -q -- explain --reference > docs/reference.md";
    assert!(PAGE == markdown(), "docs/reference.md is not what the grammar says; {told}");
}

/// The names of all keys below a name, with those of inner tables.
fn names(keys: &[Key], above: &str, out: &mut Vec<String>) {
    for key in keys {
        let own = format!("{above}.{}", key.name);
        let mut form = &key.form;
        while let Form::Open(one) = form {
            form = one;
        }
        if let Form::Table(inner) | Form::Either(_, inner) | Form::Tables(inner) | Form::Mixed(inner) = form {
            names(inner, &own, out);
        }
        out.push(own);
    }
}

#[test]
fn every_table_and_key_has_an_entry() {
    for kind in kinds() {
        assert_eq!(entry(kind.name).unwrap().doc, kind.doc);
        assert!(PAGE.contains(&format!("\n## {}\n", kind.name)), "{}", kind.name);
        let mut all = Vec::new();
        names(&kind.keys, kind.name, &mut all);
        for name in all {
            let found = entry(&name).unwrap_or_else(|unknown| panic!("{unknown:?}"));
            assert_eq!(found.path.replace(".ID", ""), name);
            assert!(!found.doc.is_empty() && !found.takes.is_empty(), "{found:?}");
        }
    }
}

fn found(path: &str) -> Entry {
    entry(path).unwrap()
}

#[test]
fn an_entry_says_what_a_key_takes() {
    assert_eq!(found("fabric.width").takes, "a length");
    assert_eq!(found("fabric.width").units, "mm, cm, m, um, in, ft, yd");
    assert!(found("fabric.width").varies && !found("fabric.splice").varies);
    assert_eq!(found("fabric.splice").takes, "\"none\" or \"allowed\"");
    assert_eq!(found("piece").takes, "[piece.ID], one for each; the ID has no hyphen");
    assert_eq!(found("work").takes, "[work], once");
    assert_eq!(found("piece.cut.block.width").path, "piece.cut.ID.block.width");
    assert_eq!(found("piece.ID.cut.ID.block"), found("piece.cut.block"));
    assert_eq!(found("piece.cut").takes, "a table for each name of your own");
    assert_eq!(found("sample.readings").takes.matches("a length").count(), 1);
    let own = found("severity").keys;
    assert_eq!(own.len(), 1);
    assert_eq!(own[0].takes, "\"must\", \"should\", \"note\" or \"off\"");
}

#[test]
fn a_wrong_name_is_told_the_nearest() {
    let near = |path: &str| entry(path).unwrap_err().near;
    assert_eq!(near("peace").as_deref(), Some("piece"));
    assert_eq!(near("allowance").as_deref(), Some("piece.allowance"));
    assert_eq!(near("alowance").as_deref(), Some("piece.allowance"));
    assert_eq!(near("piece.alowance").as_deref(), Some("piece.allowance"));
    assert_eq!(near("piece.cut.blok").as_deref(), Some("piece.cut.block"));
    assert_eq!(near("zzzzzzzz"), None);
    assert_eq!(near("piece.zzzzzzzz"), None);
    assert!(entry("").is_err() && entry("piece.").is_err() && entry("piece.allowance.all").is_err());
    assert_eq!(entry("piece.zzz").unwrap_err().what, "piece has no key zzz");
}

/// Otherwise `explain` could not tell them apart.
#[test]
fn no_rule_is_called_as_a_table_is() {
    for rule in rules::all() {
        assert!(kinds().iter().all(|kind| kind.name != rule.code), "{}", rule.code);
    }
}
