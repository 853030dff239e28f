//! Reads the order of work: steps, stitching on the surface, and what is attached.

use crate::model::{Attach, Chain, Deed, Entry, Means, Model, PathRef, RunRef, Step, Topstitch, UsedThread, Work};
use crate::words::{say, words};

use super::declared::Declarations;
use super::reader::Reader;
use super::rules;
use super::section::Section;

words! {
    MESSAGE "read.work.message" = "`{key}` is one internal line";
    HELP "read.work.help" = "write for example \"SIDE.l:@smile\"";
    NO_THREAD "read.work.no-thread" = "this names no thread";
    ADD_THREAD "read.work.add-thread" = "add `thread`: a role or an article";
    CROSSED "read.work.crossed" = "a stage has at least {least} steps and at most {most}";
    AT_MOST "read.work.at-most" = "write `stage-least` of {most} or fewer, or a larger `stage-most`";
    STEP_WORK "read.work.step-work" = "{id}, as a step of the work,";
}

impl Reader {
    /// Topstitching, attachments, steps and the order of work.
    pub fn work(&mut self, declared: &Declarations, model: &mut Model) {
        model.topstitches = self.each(declared, "topstitch", |reader, section, entry| Topstitch {
            entry,
            on: reader.line(section, "on"),
            mirrored: reader.flag(section, "mirrored"),
            stitch: reader.stitch_use(section, "stitch"),
            note: reader.text(section, "note"),
            means: reader.means(section),
        });
        model.attaches = self.each(declared, "attach", |reader, section, entry| Attach {
            entry,
            edge: reader.chain(section, "edge"),
            on: reader.line(section, "on"),
            mirrored: reader.flag(section, "mirrored"),
            stitch: reader.stitch_use(section, "stitch"),
            note: reader.text(section, "note"),
            means: reader.means(section),
        });
        model.steps = self.each(declared, "step", |reader, section, entry| reader.step(section, entry));
        let works = self.each(declared, "work", |reader, section, _| Work {
            order: reader.list(section, "order"),
            span: section.key_span("order").or(Some(section.span)),
            list: section.node("order").map(|node| node.span),
            stitch: reader.stitch_use(section, "stitch"),
            stage_least: reader.whole(section, "stage-least"),
            stage_most: reader.whole(section, "stage-most"),
        });
        model.work = works.into_values().next().unwrap_or_default();
        self.stage_lengths(&model.work);
        self.work_names(model);
    }

    /// A stage that must have more steps than it may have.
    fn stage_lengths(&mut self, work: &Work) {
        let (Some(least), Some(most)) = (&work.stage_least, &work.stage_most) else { return };
        let (Some(low), Some(high)) = (least.known(), most.known()) else { return };
        if low > high {
            let message = say!(CROSSED, least = *low as usize, most = *high as usize);
            self.findings.push(rules::bad_value(message, least.span, say!(AT_MOST, most = *high as usize)));
        }
    }

    /// How a step is done.
    pub fn means(&mut self, section: &Section<'_>) -> Means {
        Means {
            machine: self.text(section, "machine"),
            tool: self.text(section, "tool"),
            check: self.text(section, "check"),
            never: self.text(section, "do-not"),
            picture: self.word(section, "picture"),
            threads: self.used_threads(section),
        }
    }

    /// Threads of which the step states the length.
    fn used_threads(&mut self, section: &Section<'_>) -> Vec<UsedThread> {
        self.entries_of(section, "threads", Self::used_thread).into_iter().flatten().collect()
    }

    fn used_thread(&mut self, section: &Section<'_>) -> Option<UsedThread> {
        let Some(thread) = self.word(section, "thread") else {
            self.findings.push(rules::bad_value(NO_THREAD, section.span, ADD_THREAD));
            return None;
        };
        Some(UsedThread { thread, length: self.quantity_by(section, "length") })
    }

    /// One internal line.
    fn line(&mut self, section: &Section<'_>, key: &str) -> Option<RunRef> {
        let chain: Chain = self.chain(section, key)?;
        match chain.runs.as_slice() {
            [run] if matches!(run.path, PathRef::Line(_)) => Some(run.clone()),
            _ => {
                let message = say!(MESSAGE, key);
                self.findings.push(rules::bad_value(message, chain.span, HELP));
                None
            }
        }
    }

    fn step(&mut self, section: &Section<'_>, entry: Entry) -> Step {
        let word = self.word(section, "do");
        let deed = match word.as_ref().map(|word| word.value.as_str()) {
            Some("turn") => Deed::Turn,
            Some("fill") => Deed::Fill,
            Some("insert") => Deed::Insert,
            _ => Deed::Other,
        };
        Step {
            entry,
            deed,
            word,
            part: self.word(section, "part"),
            stuffing: self.word(section, "stuffing"),
            trim: self.word(section, "trim"),
            note: self.text(section, "note"),
            means: self.means(section),
        }
    }

    /// Everything the order of work can name shares one name space.
    fn work_names(&mut self, model: &Model) {
        let joints = model.joints.values().map(|one| &one.entry);
        let entries = joints
            .chain(model.edge_finishes.values().map(|one| &one.entry))
            .chain(model.topstitches.values().map(|one| &one.entry))
            .chain(model.attaches.values().map(|one| &one.entry))
            .chain(model.steps.values().map(|one| &one.entry));
        let mut seen: std::collections::BTreeMap<&str, &Entry> = std::collections::BTreeMap::new();
        for entry in entries {
            let id = entry.id.value.as_str();
            if let Some(old) = seen.get(id) {
                let what = say!(STEP_WORK, id);
                let finding = rules::shared_id(what, id, old.span(), entry.span());
                self.findings.push(finding);
            } else {
                seen.insert(id, entry);
            }
        }
    }
}
