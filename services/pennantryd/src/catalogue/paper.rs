//! What the shop has on paper: who makes the strings, and certificates of its cloth.

use pennantry_calc::shop::{CertificateKind, FireCertificate, FireStandard, Maker};
use pennantry_measure::bounds::Bound;

use super::codes::all;
use super::node::{Table, key};
use super::post::{COUNTRY_FORM, is_country};

const CERTIFICATES: Bound<usize> = Bound { least: 0, most: 20 };
const COUNTRIES: Bound<usize> = Bound { least: 0, most: 300 };
const KINDS: [(&str, CertificateKind); 2] =
    [("tested", CertificateKind::Tested), ("treated", CertificateKind::Treated)];

/// Who makes the strings. Each key may be left out: what it says is then missing.
pub(super) fn maker(table: &mut Table<'_, '_, '_>) -> Option<Maker> {
    let name = table.maybe(key("name", "who makes the strings"), Table::words);
    let postal = table.maybe(key("postal_address", "where letters to the maker go"), Table::address);
    let electronic =
        table.maybe(key("electronic_address", "the maker's e-mail or web address"), Table::address);
    let person = key("responsible_person", "who answers for the strings in the European Union, with address");
    let responsible = table.maybe(person, Table::address);
    let warned = key("warned_countries", "countries in whose language the offer shows its warnings");
    let warned = table.or(warned, Vec::new(), |table, key| {
        let form = "countries in square brackets, such as [\"IE\", \"MT\"]";
        table.texts(key, form, COUNTRIES, |table, node, text| {
            let country = is_country(text).then(|| text.to_owned());
            table.accept(node, key, COUNTRY_FORM, country, "is not that")
        })
    });
    Some(Maker {
        name: name?,
        postal_address: postal?,
        electronic_address: electronic?,
        responsible_person: responsible?,
        warned_countries: warned?,
    })
}

/// Papers about how a cloth burns. They may be left out: then there are none on file.
pub(super) fn certificates(table: &mut Table<'_, '_, '_>) -> Option<Vec<FireCertificate>> {
    let key = key("fire_certificates", "papers about how it burns");
    if !table.has(key.name) {
        table.optional(key.name);
        return Some(Vec::new());
    }
    let form = "{ standard = \"BS 5867-2 type B\", edition = \"2008\", lot = \"4711\", kind = \"tested\" }";
    all(table.rows(key, form, CERTIFICATES, certificate))
}

fn certificate(table: &mut Table<'_, '_, '_>) -> Option<FireCertificate> {
    let standard = table.choice(key("standard", "the standard and class that it names"), &FireStandard::ALL);
    let edition = table.words(key("edition", "the edition of that standard"));
    let lot = table.words(key("lot", "the lot of cloth that it was issued for"));
    let kind = table.choice(key("kind", "whether that lot was tested, or only treated"), &KINDS);
    Some(FireCertificate { standard: standard?, edition: edition?, lot: lot?, kind: kind? })
}
