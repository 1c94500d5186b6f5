//! The lists of the file: methods, fabrics, bindings, trimmings and designs.

use pennantry_calc::shop::{
    Binding, Construction, Design, Direction, Fabric, Method, Shape, SizeAt, Trimming,
};
use pennantry_measure::Length;
use pennantry_measure::bounds::{self, Bound};
use toml::de::DeValue;

use super::field::{Digits, mm, within};
use super::node::{Key, Node, Table, key, places};
use crate::json::hint;

const CONSTRUCTIONS: [(&str, Construction); 5] = [
    ("single-pinked", Construction::SinglePinked),
    ("single-plain", Construction::SinglePlain),
    ("double-turned", Construction::DoubleTurned),
    ("double-pinked", Construction::DoublePinked),
    ("double-fused", Construction::DoubleFused),
];

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
    fn keep(&mut self, table: &mut Table<'_, '_, '_>) {
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
    fn find(&self, table: &mut Table<'_, '_, '_>, node: &Node<'_>, code: &str) -> Option<usize> {
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
}

/// What designs refer to.
#[derive(Debug)]
pub(super) struct Known {
    pub(super) fabrics: Codes,
    pub(super) bindings: Codes,
    /// Usable widths of the fabrics, in their order.
    pub(super) widths: Vec<Option<Length>>,
}

fn code(table: &mut Table<'_, '_, '_>, codes: &mut Codes) -> Option<String> {
    let fits = |text: &str| {
        let letter = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-';
        (1..=40).contains(&text.len()) && text.bytes().all(letter)
    };
    let form = "1 to 40 lower-case letters, digits and hyphens in quotes, such as \"kelp-2\"";
    let read = table.pattern(key("code", "what enquiries call it"), form, fits);
    codes.keep(table);
    read.map(str::to_owned)
}

fn swatch(table: &mut Table<'_, '_, '_>) -> Option<String> {
    let fits = |text: &str| {
        text.strip_prefix('#')
            .is_some_and(|hex| hex.len() == 6 && hex.bytes().all(|byte| byte.is_ascii_hexdigit()))
    };
    let form = "\"#\" and six hexadecimal digits in quotes, such as \"#2f5d50\"";
    table.pattern(key("swatch", "the colour that stands for it on a screen"), form, fits).map(str::to_owned)
}

pub(super) fn method(table: &mut Table<'_, '_, '_>, made: &mut Codes) -> Option<Method> {
    let construction = table.choice(key("construction", "which construction this is"), &CONSTRUCTIONS);
    made.keep(table);
    let seam = table.length(key("seam_mm", "seam beyond the finished sides"), mm(0, 100));
    let clearance = table.length(key("clearance_mm", "cloth between neighbours in a row"), mm(0, 100));
    let row_gap = table.length(key("row_gap_mm", "cloth between rows"), mm(0, 500));
    let per_pennant =
        table.minutes(key("minutes_per_pennant", "bench time for each pennant"), within(0, 240));
    Some(Method {
        construction: construction?,
        seam: seam?,
        clearance: clearance?,
        row_gap: row_gap?,
        per_pennant: per_pennant?,
    })
}

pub(super) fn fabric(table: &mut Table<'_, '_, '_>, known: &mut Known, digits: Digits) -> Option<Fabric> {
    let code = code(table, &mut known.fabrics);
    let name = table.words(key("name", "what people call it"));
    let swatch = swatch(table);
    let fibre = table.words(key("fibre", "what it is made of"));
    let width =
        table.length(key("usable_width_mm", "width between the selvedges that can be used"), mm(100, 3_000));
    known.widths.push(width);
    let ways = [("one-way", Direction::OneWay), ("two-way", Direction::TwoWay)];
    let direction = table.choice(key("direction", "whether pieces may lie head to tail"), &ways);
    let price = table.rate(key("price_per_metre", "price of a metre before tax"), digits, within(0, 100_000));
    let cut_step = table.length(key("cut_step_mm", "step in which it is cut off the bolt"), mm(1, 5_000));
    Some(Fabric {
        code: code?,
        name: name?,
        swatch: swatch?,
        fibre: fibre?,
        usable_width: width?,
        direction: direction?,
        price: price?,
        cut_step: cut_step?,
    })
}

pub(super) fn binding(table: &mut Table<'_, '_, '_>, codes: &mut Codes, digits: Digits) -> Option<Binding> {
    let code = code(table, codes);
    let name = table.words(key("name", "what people call it"));
    let swatch = swatch(table);
    let width = table.length(key("width_mm", "width as sold, flat, fold to fold"), mm(5, 200));
    let price = table.rate(key("price_per_metre", "price of a metre before tax"), digits, within(0, 100_000));
    Some(Binding { code: code?, name: name?, swatch: swatch?, width: width?, price: price? })
}

pub(super) fn trimming(table: &mut Table<'_, '_, '_>, codes: &mut Codes) -> Option<Trimming> {
    let code = code(table, codes);
    let name = table.words(key("name", "what people call it"));
    Some(Trimming { code: code?, name: name? })
}

pub(super) fn design(
    table: &mut Table<'_, '_, '_>,
    codes: &mut Codes,
    made: &Codes,
    known: &Known,
    lengths: Bound<Length>,
) -> Option<Design> {
    let code = code(table, codes);
    let name = table.words(key("name", "what people call it"));
    let shapes = [("triangle", Shape::Triangle)];
    let shape = table.choice(key("shape", "this version cuts triangles only"), &shapes);
    let width = table.length(key("width_mm", "width of the pennant"), bounds::WIDTH);
    let drop = table.length(key("drop_mm", "drop of the pennant"), bounds::DROP);
    let sizes = [("top-edge", SizeAt::TopEdge), ("binding-edge", SizeAt::BindingEdge)];
    let size_at = table.choice(key("size_at", "where width, drop and gap are taken"), &sizes);
    let gap = table.length(key("gap_mm", "the usual gap"), bounds::GAP);
    let tail = table.length(key("tail_mm", "the least tail"), bounds::TAIL);
    let construction = table.choice(key("construction", "the usual construction"), &CONSTRUCTIONS);
    let constructions = constructions(table, made);
    let binding = binding_of(table, &known.bindings);
    let fabrics = fabrics_of(table, known, width);
    let usual =
        table.length(key("usual_mm", "the usual flagged length, within what the shop makes"), lengths);

    if let (Some(width), Some(gap)) = (width, gap)
        && width + gap <= Length::ZERO
        && let Some(node) = table.optional("gap_mm")
    {
        table.note_found(
            &node,
            &format!("hangs pennants {width} wide on top of each other: write more than {}", -width),
        );
    }
    if let (Some(usual), Some(offered)) = (construction, &constructions)
        && !offered.contains(&usual)
        && let Some(node) = table.optional("construction")
    {
        table.note_found(
            &node,
            "is not among the constructions of this design: add it there, or choose one of them",
        );
    }
    Some(Design {
        code: code?,
        name: name?,
        shape: shape?,
        width: width?,
        drop: drop?,
        size_at: size_at?,
        gap: gap?,
        tail: tail?,
        construction: construction?,
        constructions: constructions?,
        binding: binding?,
        fabrics: fabrics?,
        usual: usual?,
    })
}

fn binding_of(table: &mut Table<'_, '_, '_>, bindings: &Codes) -> Option<usize> {
    let key = key("binding", "the usual binding");
    let form = "the code of a binding in quotes";
    let node = table.required(key, form)?;
    let code = table.text_of(&node, key, form)?;
    bindings.find(table, &node, code)
}

fn constructions(table: &mut Table<'_, '_, '_>, made: &Codes) -> Option<Vec<Construction>> {
    let key = key("constructions", "every construction it can be had in");
    let form = "a list of names in square brackets, such as [\"single-pinked\", \"double-turned\"]";
    texts(table, key, form, Bound { least: 1, most: 5 }, |table, node, text| {
        let construction = table.choice_of(node, key, &CONSTRUCTIONS)?;
        made.find(table, node, text)?;
        Some(construction)
    })
}

fn fabrics_of(table: &mut Table<'_, '_, '_>, known: &Known, width: Option<Length>) -> Option<Vec<usize>> {
    let key = key("fabrics", "the usual fabrics in the order in which they take turns");
    let form = "a list of codes in square brackets, such as [\"kelp\", \"gorse\"]";
    texts(table, key, form, Bound { least: 1, most: 26 }, |table, node, text| {
        let place = known.fabrics.find(table, node, text)?;
        if let (Some(pennant), Some(Some(usable))) = (width, known.widths.get(place))
            && pennant > *usable
        {
            let fault =
                format!("can be used {usable} wide and the pennant takes {pennant}: choose a wider fabric");
            table.note_found(node, &fault);
        }
        Some(place)
    })
}

/// A list of texts, each once.
fn texts<'d, T>(
    table: &mut Table<'_, 'd, '_>,
    key: Key,
    form: &str,
    count: Bound<usize>,
    mut read: impl FnMut(&mut Table<'_, 'd, '_>, &Node<'d>, &str) -> Option<T>,
) -> Option<Vec<T>> {
    let node = table.required(key, form)?;
    let DeValue::Array(list) = node.value else {
        table.note_found(&node, &format!("is not a list: write {form} ({})", key.what));
        return None;
    };
    let counts = table.counts(&node, list, count, key.what);
    let mut seen: Vec<&str> = Vec::new();
    let mut entries = Vec::new();
    for entry in places(list, &node).into_iter().take(count.most) {
        let Some(text) = table.text_of(&entry, key, "a name in quotes") else {
            entries.push(None);
            continue;
        };
        if seen.contains(&text) {
            table.note_found(&entry, "is in this list already: leave one of the two out");
        }
        seen.push(text);
        entries.push(read(table, &entry, text));
    }
    entries.into_iter().collect::<Option<Vec<T>>>().filter(|_| counts)
}
