//! The threads of the order of work: what each is called in the stages, what is bought for it, and its colour by colourway.

use crate::model::StitchUse;

use super::article::value;
use super::bill::colour;
use super::cell::Cell;
use super::data::ThreadRow;
use super::view::View;
use crate::words::Phrase;

/// A row for each thread, in the order in which steps first sew with it.
pub(super) fn threads(view: &View<'_>) -> Vec<ThreadRow> {
    let mut all: Vec<&str> = Vec::new();
    for id in &view.model.work.order {
        let own = stitch(view, &id.value);
        let sewn = own.and_then(|own| view.stitch(own).thread.as_ref()).map(|thread| thread.value.as_str());
        let told = view.model.means_of(&id.value).into_iter().flat_map(|means| &means.threads);
        for thread in sewn.into_iter().chain(told.map(|one| one.thread.value.as_str())) {
            if !all.contains(&thread) {
                all.push(thread);
            }
        }
    }
    all.into_iter().map(|thread| row(view, thread)).collect()
}

/// What a step is stitched with; none of what is not stitched, and of an opening that states no stitch.
fn stitch<'a>(view: &View<'a>, id: &str) -> Option<&'a StitchUse> {
    let model = view.model;
    if let Some(joint) = model.joints.get(id) {
        let closed = joint.kind == crate::model::JointKind::Opening && joint.stitch.kind.is_none();
        return Some(&joint.stitch).filter(|_| !closed);
    }
    let finish = model.edge_finishes.get(id).map(|one| &one.stitch);
    let attach = model.attaches.get(id).map(|one| &one.stitch);
    finish.or(attach).or_else(|| model.topstitches.get(id).map(|one| &one.stitch))
}

fn row(view: &View<'_>, thread: &str) -> ThreadRow {
    let mut articles: Vec<Phrase> = Vec::new();
    let mut colours: Vec<Cell> = Vec::new();
    let name = view.material(thread);
    for way in view.model.ways() {
        let Some((article, shade)) = view.model.resolve(thread, way) else {
            colours.push(Cell::Dash);
            continue;
        };
        // What is called by its article has the supplier's number beside it.
        let title = (article.entry.title() != name).then(|| Phrase::from(article.entry.title()));
        let told = Phrase::list([title.unwrap_or_default(), value(view, article, "article")]);
        if !articles.contains(&told) {
            articles.push(told);
        }
        colours.push(colour(view, &article.entry.id.value, shade));
    }
    ThreadRow { name: name.into(), article: Phrase::row(articles, " / "), colours }
}
