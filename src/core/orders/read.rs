//! Reads orders and their lines.

use crate::model::{Entry, Model, Order, OrderLine, Table};
use crate::source::Spanned;
use crate::words::{say, words};

use crate::grammar::keys::Form;
use crate::read::declared::Declarations;
use crate::read::reader::{Reader, is_id};
use crate::read::rules;
use crate::read::section::Section;
use crate::read::tree::Kind;

words! {
    ORDER_LINE "read.orders.order-line" = "line";
    TABLE_EACH "read.orders.table-each" = "a table for each line";
    LINE "read.orders.line" = "{what}, line {id}";
}

impl Reader {
    /// Orders.
    pub fn orders(&mut self, declared: &Declarations, model: &mut Model) {
        model.orders = self.each(declared, "order", |reader, section, entry| reader.order(section, entry));
    }

    fn order(&mut self, section: &Section<'_>, entry: Entry) -> Order {
        Order {
            number: self.text(section, "number"),
            po: self.text(section, "po"),
            date: self.date(section, "date"),
            style: self.text(section, "style"),
            revision: self.text(section, "revision"),
            cut_extra: self.quantity(section, "cut-extra"),
            over: self.quantity(section, "over"),
            short: self.quantity(section, "short"),
            surplus: self.text(section, "surplus"),
            lines: self.lines(section),
            note: self.text(section, "note"),
            entry,
        }
    }

    /// `[order.ID.line.ID]`.
    fn lines(&mut self, section: &Section<'_>) -> Table<OrderLine> {
        let mut lines = Table::new();
        let Some(node) = section.node("line") else { return lines };
        let Kind::Table(fields) = &node.kind else {
            self.refuse::<()>("line", TABLE_EACH, node);
            return lines;
        };
        let keys = match section.key("line").map(|key| &key.form) {
            Some(Form::Open(inner)) => match inner.as_ref() {
                Form::Table(keys) => keys.as_slice(),
                _ => &[],
            },
            _ => &[],
        };
        for (id, (place, node)) in fields {
            let Kind::Table(inner) = &node.kind else {
                self.refuse::<()>(id, crate::read::tree::A_TABLE, node);
                continue;
            };
            if !is_id(id, true) {
                self.findings.push(rules::bad_id(id, ORDER_LINE, true, *place));
            }
            let what = say!(LINE, what = section.what, id);
            let line = Section { fields: inner, keys, what: &what, span: *place };
            self.report_unknown(&line, false);
            let entry = self.entry(&line, &Spanned::new(id.clone(), *place), true);
            lines.insert(id.clone(), self.line_of_order(&line, entry));
        }
        lines
    }

    fn line_of_order(&mut self, section: &Section<'_>, entry: Entry) -> OrderLine {
        OrderLine {
            entry,
            size: self.word(section, "size"),
            colourway: self.word(section, "colourway"),
            destination: self.market(section, "destination"),
            date: self.date(section, "date"),
            quantity: self.products(section, "quantity"),
            over: self.quantity(section, "over"),
            short: self.quantity(section, "short"),
            samples: self.products(section, "samples"),
            tests: self.products(section, "tests"),
            note: self.text(section, "note"),
        }
    }
}
