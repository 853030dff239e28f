//! How drawings refer to pictures: the name of a virtual file each.

use std::collections::BTreeMap;

use crate::model::{self, Model};

use super::package::Picture;
use super::view::View;

/// The picture at a path, as drawings refer to it.
pub fn placed(model: &Model, path: &str) -> Option<Picture> {
    let number = model.pictures.keys().position(|one| one == path)?;
    Some(Picture { file: name(number, model.pictures.get(path)?) })
}

/// The virtual file of a picture by its place among all.
fn name(number: usize, picture: &model::Picture) -> String {
    format!("pictures/{:03}.{}", number + 1, picture.medium.ending())
}

/// The picture of a comment among all of the own edition, with its width and height.
pub fn commented(own: &BTreeMap<String, model::Picture>, path: &str) -> Option<(Picture, [f64; 2])> {
    let number = own.keys().position(|one| one == path)?;
    let picture = own.get(path)?;
    Some((Picture { file: format!("comments/{}", name(number, picture)) }, [picture.width, picture.height]))
}

/// Every picture that the sheets may show, by the name of its virtual file: those of the specification, and those of comments
/// of the own edition.
pub fn all<'a>(view: &View<'a>) -> Vec<(String, &'a model::Picture)> {
    let drawn = view.model.pictures.values().enumerate().map(|(at, picture)| (name(at, picture), picture));
    let of_comments = view.samples.comments.iter().filter_map(|comment| {
        let path = comment.picture.as_ref()?;
        Some((commented(view.commented, path)?.0.file, view.commented.get(path)?))
    });
    drawn.chain(of_comments).collect()
}
