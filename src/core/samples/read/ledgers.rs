//! Reads comments, approvals, sealed samples and concessions.

use crate::model::{
    Action, Approval, Audience, Comment, CommentState, Concession, Entry, Judgement, Model, Sealed, Submission,
};

use crate::words::words;

use crate::read::declared::Declarations;
use crate::read::reader::Reader;
use crate::read::section::Section;

words! {
    SEALED "read.ledgers.sealed" = "the sealed sample";
}

impl Reader {
    /// Comments, approvals and concessions.
    pub fn ledgers(&mut self, declared: &Declarations, model: &mut Model) {
        let samples = &mut model.samples;
        samples.comments = self.each(declared, "comment", |reader, section, entry| reader.comment(section, entry));
        samples.approvals = self.each(declared, "approval", |reader, section, entry| reader.approval(section, entry));
        samples.concessions =
            self.each(declared, "concession", |reader, section, entry| reader.concession(section, entry));
    }

    fn comment(&mut self, section: &Section<'_>, entry: Entry) -> Comment {
        Comment {
            entry,
            own: self.audience(section.span) == Audience::Own,
            about: self.word(section, "about"),
            action: self.meant(section, "action", &Action::ALL),
            state: self.meant(section, "state", &CommentState::ALL),
            text: self.word(section, "text"),
            by: self.word(section, "by"),
            date: self.date(section, "date"),
            sample: self.word(section, "sample"),
            picture: self.word(section, "picture"),
            answer: self.word(section, "answer"),
            answered_in: self.word(section, "answered-in"),
            reason: self.word(section, "reason"),
        }
    }

    fn approval(&mut self, section: &Section<'_>, entry: Entry) -> Approval {
        Approval {
            entry,
            own: self.audience(section.span) == Audience::Own,
            of: self.word(section, "of"),
            kind: self.choice(section, "kind"),
            colourway: self.word(section, "colourway"),
            required: self.flag(section, "required"),
            until: self.date(section, "until"),
            submissions: self.entries_of(section, "submissions", Reader::submission),
            sealed: self.sealed(section),
            note: self.word(section, "note"),
        }
    }

    fn submission(&mut self, section: &Section<'_>) -> Submission {
        Submission {
            number: self.whole(section, "number"),
            date: self.date(section, "date"),
            verdict: self.meant(section, "verdict", &Judgement::ALL),
            corrections: self.word(section, "corrections"),
            lab: section.node("lab").map_or_else(Vec::new, |node| self.labs("lab", node)),
            remark: self.word(section, "remark"),
            lot: self.word(section, "lot"),
            span: section.span,
        }
    }

    fn sealed(&mut self, section: &Section<'_>) -> Option<Sealed> {
        let what = SEALED.into();
        let inner = self.table(section, "sealed", &what)?;
        Some(Sealed {
            tag: self.word(&inner, "tag"),
            date: self.date(&inner, "date"),
            sets: self.list(&inner, "sets"),
            signatories: self.list(&inner, "signatories"),
            place: self.word(&inner, "place"),
            deviations: self.list(&inner, "deviations"),
            until: self.date(&inner, "until"),
            span: inner.span,
        })
    }

    fn concession(&mut self, section: &Section<'_>, entry: Entry) -> Concession {
        Concession {
            entry,
            lifts: self.word(section, "lifts"),
            item: self.word(section, "item"),
            by: self.word(section, "by"),
            reason: self.word(section, "reason"),
            limit: self.word(section, "limit"),
            date: self.date(section, "date"),
            until: self.date(section, "until"),
        }
    }
}
