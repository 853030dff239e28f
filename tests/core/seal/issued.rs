//! What is written, held against what was sealed under its name.

use backtack_core::model::Issued;
use backtack_core::revision::seal::verified;

const BAG: &[u8] = include_bytes!("../../sealed/bag.sealed");

/// The files of the sealed bag with its sealed file beside them, one of them changed.
fn issued(change: impl Fn(&str, String) -> String) -> Issued {
    let sealed = verified(BAG).unwrap();
    let files: Vec<(String, Vec<u8>)> = sealed
        .files
        .iter()
        .map(|(path, bytes)| match std::str::from_utf8(bytes) {
            Ok(text) if path.ends_with(".toml") => (path.to_string(), change(path, text.to_string()).into_bytes()),
            _ => (path.to_string(), bytes.to_vec()),
        })
        .collect();
    let folder = if sealed.inner.folder.is_empty() { String::new() } else { format!("{}/", sealed.inner.folder) };
    let beside = (format!("{folder}revisions/{}.sealed", sealed.title.revision), BAG.to_vec());
    let files: Vec<(&str, &[u8])> =
        files.iter().chain([&beside]).map(|(path, bytes)| (path.as_str(), bytes.as_slice())).collect();
    let loaded = crate::closure(&sealed.inner.folder, files);
    assert!(loaded.closure.iter().all(|(path, _)| !path.ends_with(".sealed")), "it is no part of the specification");
    loaded.model.issued.unwrap()
}

#[test]
fn what_was_sealed_is_what_is_written() {
    let issued = issued(|_, text| text);
    assert_eq!((issued.names.len(), issued.lost.len()), (1, 0));
    let same = issued.same.unwrap();
    assert_eq!((same.changed, same.broken), (Vec::<String>::new(), None));
}

#[test]
fn a_remark_is_no_change_and_a_value_is_one() {
    let remark = issued(|_, text| format!("# for us only\n{text}"));
    assert_eq!(remark.same.unwrap().changed, Vec::<String>::new());
    let changed = issued(|path, text| match path.ends_with("style.toml") {
        true => text.replacen("name = \"", "name = \"New ", 1),
        false => text,
    });
    let changed = changed.same.unwrap().changed;
    assert!(changed.len() == 1 && changed[0].ends_with("style.toml"), "{changed:?}");
}
