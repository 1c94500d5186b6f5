//! Tables of the file, walked by hand so that every mistake is noted and none stops the
//! reading.

use std::ops::Range;

use pennantry_measure::bounds::Bound;
use toml::Spanned;
use toml::de::{DeArray, DeTable, DeValue};

use super::mistake::Notes;
use crate::json::hint;

/// A key, and what its value is, for people.
#[derive(Debug, Clone, Copy)]
pub(super) struct Key {
    pub(super) name: &'static str,
    pub(super) what: &'static str,
}

/// A key with what its value is.
pub(super) const fn key(name: &'static str, what: &'static str) -> Key {
    Key { name, what }
}

/// A value, where it stands and which key it is of.
#[derive(Debug)]
pub(super) struct Node<'d> {
    pub(super) value: &'d DeValue<'d>,
    pub(super) span: Range<usize>,
    pub(super) path: String,
}

/// A table that is being read. What it is asked for, it knows; what it was never asked for
/// is a mistake when it is [finished](Table::finish).
#[derive(Debug)]
pub(super) struct Table<'n, 'd, 'i> {
    pub(super) notes: &'n mut Notes<'i>,
    entries: &'d DeTable<'d>,
    at: usize,
    path: String,
    known: Vec<&'static str>,
}

impl<'n, 'd, 'i> Table<'n, 'd, 'i> {
    /// The whole file.
    pub(super) fn root(entries: &'d DeTable<'d>, notes: &'n mut Notes<'i>) -> Table<'n, 'd, 'i> {
        Table { notes, entries, at: 0, path: String::new(), known: Vec::new() }
    }

    /// The path of a key in this table.
    pub(super) fn path_of(&self, name: &str) -> String {
        if self.path.is_empty() { name.to_owned() } else { format!("{}.{name}", self.path) }
    }

    /// Whether a key is given; does not count as asking for it.
    pub(super) fn has(&self, name: &str) -> bool {
        self.entries.get(name).is_some()
    }

    /// The value of a key, if it is given.
    pub(super) fn optional(&mut self, name: &'static str) -> Option<Node<'d>> {
        if !self.known.contains(&name) {
            self.known.push(name);
        }
        let entry = self.entries.get(name)?;
        Some(Node { value: entry.get_ref(), span: entry.span(), path: self.path_of(name) })
    }

    /// The value of a key; `form` is how to write it.
    pub(super) fn required(&mut self, key: Key, form: &str) -> Option<Node<'d>> {
        let found = self.optional(key.name);
        if found.is_none() {
            self.note_absence(key.name, format!("is missing: write {form} ({})", key.what));
        }
        found
    }

    /// Notes a mistake about a value.
    pub(super) fn note(&mut self, node: &Node<'_>, message: String) {
        self.notes.note(node.span.start, &node.path, message);
    }

    /// Notes a mistake about a value, which is quoted in front of it.
    pub(super) fn note_found(&mut self, node: &Node<'_>, fault: &str) {
        let found = self.quote(node);
        self.note(node, format!("{found} {fault}"));
    }

    /// Notes that a key is not there.
    pub(super) fn note_absence(&mut self, name: &str, message: String) {
        let path = self.path_of(name);
        self.notes.note_absence(self.at, &path, message);
    }

    /// A value as it is written in the file.
    pub(super) fn quote(&self, node: &Node<'_>) -> String {
        match node.value {
            DeValue::Table(_) => "a table".to_owned(),
            DeValue::Array(_) => "a list".to_owned(),
            _ => self.notes.quote(node.span.clone()),
        }
    }

    /// Reads a table within this one.
    pub(super) fn section<T>(
        &mut self,
        key: Key,
        read: impl FnOnce(&mut Table<'_, 'd, 'i>) -> Option<T>,
    ) -> Option<T> {
        let form = format!("[{}]", key.name);
        let node = self.required(key, &format!("{form} and its keys below it"))?;
        self.inner(&node, &on_its_line(&form), read)
    }

    /// Reads a table that is written as one value; `form` is how to write it.
    pub(super) fn inline<T>(
        &mut self,
        key: Key,
        form: &str,
        read: impl FnOnce(&mut Table<'_, 'd, 'i>) -> Option<T>,
    ) -> Option<T> {
        let node = self.required(key, form)?;
        self.inner(&node, form, read)
    }

    /// Reads a list of tables that are each written as one value; `form` is how to write one.
    pub(super) fn rows<T>(
        &mut self,
        key: Key,
        form: &str,
        count: Bound<usize>,
        read: impl FnMut(&mut Table<'_, 'd, 'i>) -> Option<T>,
    ) -> Vec<Option<T>> {
        let how = format!("[{form}] with {} to {} of these in the brackets", count.least, count.most);
        self.tables(key, &how, form, count, read)
    }

    /// Reads a list of tables within this one. The list may be left out where none are allowed.
    pub(super) fn each<T>(
        &mut self,
        key: Key,
        count: Bound<usize>,
        read: impl FnMut(&mut Table<'_, 'd, 'i>) -> Option<T>,
    ) -> Vec<Option<T>> {
        let form = format!("[[{}]]", key.name);
        let how = format!("{form} and its keys below it, {} to {} times", count.least, count.most);
        self.tables(key, &how, &on_its_line(&form), count, read)
    }

    fn tables<T>(
        &mut self,
        key: Key,
        how: &str,
        form: &str,
        count: Bound<usize>,
        mut read: impl FnMut(&mut Table<'_, 'd, 'i>) -> Option<T>,
    ) -> Vec<Option<T>> {
        let found = if count.least == 0 { self.optional(key.name) } else { self.required(key, how) };
        let Some(node) = found else {
            return Vec::new();
        };
        let DeValue::Array(entries) = node.value else {
            self.note_found(&node, &format!("is not a list: write {how} ({})", key.what));
            return Vec::new();
        };
        self.counts(&node, entries, count, key.what);
        // one mistake says that there are too many: those beyond are not looked at
        places(entries, &node)
            .into_iter()
            .take(count.most)
            .map(|entry| self.inner(&entry, form, &mut read))
            .collect()
    }

    /// Whether a list is neither too short nor too long; a mistake if it is.
    pub(super) fn counts(
        &mut self,
        node: &Node<'_>,
        list: &DeArray<'_>,
        count: Bound<usize>,
        what: &str,
    ) -> bool {
        let right = count.holds(list.len());
        if !right {
            let (found, least, most) = (list.len(), count.least, count.most);
            let right = if least == most { format!("{most}") } else { format!("{least} to {most}") };
            let entries = if found == 1 { "entry" } else { "entries" };
            self.note(node, format!("the list has {found} {entries}: write {right} ({what})"));
        }
        right
    }

    fn inner<T>(
        &mut self,
        node: &Node<'d>,
        form: &str,
        read: impl FnOnce(&mut Table<'_, 'd, 'i>) -> Option<T>,
    ) -> Option<T> {
        let DeValue::Table(entries) = node.value else {
            self.note_found(node, &format!("is not a table: write {form}"));
            return None;
        };
        let mut table = Table {
            notes: &mut *self.notes,
            entries,
            at: node.span.start,
            path: node.path.clone(),
            known: Vec::new(),
        };
        let read = read(&mut table);
        table.finish();
        read
    }

    /// Notes every key that was never asked for.
    pub(super) fn finish(self) {
        for (name, value) in self.entries {
            if self.known.contains(&name.get_ref().as_ref()) {
                continue;
            }
            let path = self.path_of(&self.notes.quote(name.span()));
            let kind = if matches!(value.get_ref(), DeValue::Table(_)) { "table" } else { "key" };
            let advice = match hint::nearest(name.get_ref(), self.known.iter().copied()) {
                Some(meant) if self.has(meant) => format!("{meant} is given already: leave this one out"),
                Some(meant) => format!("did you mean {meant}? Otherwise leave it out"),
                None => format!("leave it out; known here are {}", self.known.join(", ")),
            };
            self.notes.note(name.span().start, &path, format!("there is no such {kind}: {advice}"));
        }
    }
}

fn on_its_line(form: &str) -> String {
    format!("{form} on a line of its own and its keys below it")
}

/// The entries of a list, each with its place in the path.
pub(super) fn places<'d>(list: &'d DeArray<'d>, of: &Node<'_>) -> Vec<Node<'d>> {
    let entry = |(entry, place): (&'d Spanned<DeValue<'d>>, usize)| Node {
        value: entry.get_ref(),
        span: entry.span(),
        path: format!("{}[{place}]", of.path),
    };
    list.iter().zip(0..).map(entry).collect()
}
