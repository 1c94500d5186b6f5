//! The comments of the contract, by what they stand in front of.

use std::collections::HashMap;

use pennantry_contract::reasons::Kind;
use tonic::Code;

use crate::contract_source::Source;

/// Comments by full name, such as `pennantry.v1.Enquiry.gap_mm`.
pub struct Notes(HashMap<String, String>);

impl Notes {
    /// Reads them.
    pub fn read(source: &Source) -> Notes {
        let mut found = HashMap::new();
        let at = |place: i32| usize::try_from(place).unwrap();
        for file in &source.commented.file {
            for location in &file.source_code_info.as_ref().unwrap().location {
                // fields of google/protobuf/descriptor.proto: messages 4, enums 5, services 6
                let name = match location.path[..] {
                    [4, message] => file.message_type[at(message)].name().to_owned(),
                    [4, message, 2, field] => {
                        let message = &file.message_type[at(message)];
                        format!("{}.{}", message.name(), message.field[at(field)].name())
                    }
                    [5, of] => file.enum_type[at(of)].name().to_owned(),
                    [5, of, 2, value] => {
                        let of = &file.enum_type[at(of)];
                        format!("{}.{}", of.name(), of.value[at(value)].name())
                    }
                    [6, service] => file.service[at(service)].name().to_owned(),
                    [6, service, 2, method] => {
                        let service = &file.service[at(service)];
                        format!("{}.{}", service.name(), service.method[at(method)].name())
                    }
                    _ => continue,
                };
                found.insert(format!("{}.{name}", file.package()), paragraphs(location.leading_comments()));
            }
        }
        Notes(found)
    }

    /// The comment in front of something.
    pub fn of(&self, full_name: &str) -> &str {
        self.0.get(full_name).unwrap_or_else(|| panic!("{full_name} has no comment"))
    }

    /// What is said of a method, but for its errors.
    pub fn of_method(&self, full_name: &str) -> &str {
        self.of(full_name).split("Errors: ").next().unwrap_or_default().trim_end()
    }

    /// The errors that a method's comment names, each with what is said of it.
    pub fn errors(&self, full_name: &str) -> Vec<(Code, String)> {
        let Some((_, told)) = self.of(full_name).split_once("Errors: ") else { return Vec::new() };
        let mut found: Vec<(Code, String)> = Vec::new();
        for word in told.split_inclusive(' ') {
            let bare = word.trim_end_matches(|letter: char| !letter.is_ascii_uppercase());
            match Kind::ALL.iter().map(|kind| kind.grpc_code()).find(|code| written(*code) == bare) {
                Some(code) => found.push((code, String::new())),
                None => found.last_mut().unwrap_or_else(|| panic!("{told}: no error first")).1 += word,
            }
        }
        for (_, text) in &mut found {
            *text = text.trim().trim_end_matches([';', '.', ',']).to_owned();
        }
        found
    }
}

/// A code as comments write it: `NOT_FOUND`.
fn written(code: Code) -> String {
    let mut out = String::new();
    for letter in format!("{code:?}").chars() {
        if letter.is_uppercase() && !out.is_empty() {
            out.push('_');
        }
        out.extend(letter.to_uppercase());
    }
    out
}

/// A comment's lines as paragraphs.
fn paragraphs(comment: &str) -> String {
    let lines: Vec<&str> = comment.lines().map(str::trim).collect();
    let joined = lines.split(|line| line.is_empty()).map(|lines| lines.join(" "));
    joined.filter(|text| !text.is_empty()).collect::<Vec<_>>().join("\n\n")
}
