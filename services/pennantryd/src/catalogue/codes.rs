//! Codes of the lists' entries, and values that name one.

use pennantry_calc::shop::FabricRole;
use pennantry_measure::Length;

use super::node::{Key, Node, Table, key};
use crate::json::hint;

/// The names given in a list, in its order, each once.
#[derive(Debug)]
pub(super) struct Codes {
    list: &'static str,
    key: &'static str,
    seen: Vec<(Option<String>, usize)>,
}

impl Codes {
    pub(super) fn new(list: &'static str, key: &'static str) -> Codes {
        Codes { list, key, seen: Vec::new() }
    }

    /// Keeps the name of the next entry, and notes one that an entry before it has.
    pub(super) fn keep(&mut self, table: &mut Table<'_, '_, '_>) {
        let node = table.optional(self.key);
        let text = node.as_ref().and_then(|node| node.value.as_str()).map(str::to_owned);
        let before = self.seen.iter().find(|(seen, _)| text.is_some() && *seen == text).map(|(_, at)| *at);
        if let (Some(node), Some(at)) = (&node, before) {
            let (line, key) = (table.notes.line(at), self.key);
            table.note_found(
                node,
                &format!("is on line {line} already: each {key} stands once in {}", self.list),
            );
        }
        self.seen.push((text, node.map_or(0, |node| node.span.start)));
    }

    fn place(&self, code: &str) -> Option<usize> {
        self.seen.iter().position(|(seen, _)| seen.as_deref() == Some(code))
    }

    /// Whether every entry has a name: if not, a name that is not found may be theirs.
    fn complete(&self) -> bool {
        self.seen.iter().all(|(seen, _)| seen.is_some())
    }

    /// The place of the entry that a value names, or a mistake.
    pub(super) fn find(&self, table: &mut Table<'_, '_, '_>, node: &Node<'_>, code: &str) -> Option<usize> {
        let found = self.place(code);
        if found.is_none() && self.complete() {
            let names = self.seen.iter().filter_map(|(seen, _)| seen.as_deref());
            let advice = match hint::nearest(code, names) {
                Some(meant) => format!("did you mean \"{meant}\"?"),
                None => format!("name one that is there, or add it to [[{}]]", self.list),
            };
            let quoted = table.quote(node);
            let message = format!("{quoted} is no {} in [[{}]]: {advice}", self.key, self.list);
            table.notes.note_absence(node.span.start, &node.path, message);
        }
        found
    }

    /// The place of the entry that a key names.
    pub(super) fn named(&self, table: &mut Table<'_, '_, '_>, key: Key, form: &str) -> Option<usize> {
        let node = table.required(key, form)?;
        let code = table.text_of(&node, key, form)?;
        self.find(table, &node, code)
    }
}

/// The fabrics, as others refer to them.
#[derive(Debug)]
pub(super) struct Fabrics {
    pub(super) codes: Codes,
    /// Widths that can be used once they are washed, in their order.
    pub(super) widths: Vec<Option<Length>>,
    /// What they are there for, in their order.
    pub(super) roles: Vec<Option<FabricRole>>,
}

impl Fabrics {
    pub(super) fn new() -> Fabrics {
        Fabrics { codes: Codes::new("fabrics", "code"), widths: Vec::new(), roles: Vec::new() }
    }

    /// The place of the fabric that a value names; a mistake where it is there for
    /// something else.
    pub(super) fn find(
        &self,
        table: &mut Table<'_, '_, '_>,
        node: &Node<'_>,
        code: &str,
        role: FabricRole,
    ) -> Option<usize> {
        let place = self.codes.find(table, node, code)?;
        let found = self.roles.get(place).copied().flatten();
        if found.is_some_and(|found| found != role) {
            table.note_found(
                node,
                match role {
                    FabricRole::Cloth => {
                        "is a web that fuses layers: choose a fabric whose role is \"cloth\""
                    }
                    FabricRole::Web => "is a cloth: choose a fabric whose role is \"web\"",
                },
            );
        }
        Some(place)
    }

    /// The place of the fabric that a key names.
    pub(super) fn named(&self, table: &mut Table<'_, '_, '_>, key: Key, role: FabricRole) -> Option<usize> {
        let form = "the code of a fabric in quotes";
        let node = table.required(key, form)?;
        let code = table.text_of(&node, key, form)?;
        self.find(table, &node, code, role)
    }

    /// The width that can be used, where it is known.
    pub(super) fn width(&self, place: usize) -> Option<Length> {
        self.widths.get(place).copied().flatten()
    }
}

/// The code of an entry, which no entry before it has.
pub(super) fn code(table: &mut Table<'_, '_, '_>, codes: &mut Codes) -> Option<String> {
    let fits = |text: &str| {
        let letter = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-';
        (1..=40).contains(&text.len()) && text.bytes().all(letter)
    };
    let form = "1 to 40 lower-case letters, digits and hyphens in quotes, such as \"kelp-2\"";
    let read = table.pattern(key("code", "what enquiries call it"), form, fits);
    codes.keep(table);
    read.map(str::to_owned)
}

/// The name of an entry.
pub(super) fn name(table: &mut Table<'_, '_, '_>) -> Option<String> {
    table.words(key("name", "what people call it"))
}

/// All entries, if all could be read.
pub(super) fn all<T>(list: Vec<Option<T>>) -> Option<Vec<T>> {
    list.into_iter().collect()
}
