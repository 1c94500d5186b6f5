//! R20: certificates of fire tests, in a public room.

use super::rules::{Limit, Rule};
use super::{Case, Outcome, Told, listed};
use crate::shop::{Binding, BindingSource, CertificateKind, FabricRole, FireCertificate, FireStandard, Shop};

/// A cloth that hangs, with the papers on file about it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Hung<'c> {
    pub(super) name: &'c str,
    pub(super) papers: &'c [FireCertificate],
}

/// Every cloth in the strings, letters, web and binding among them, each once.
pub(super) fn hung<'c>(case: &Case<'c>) -> Vec<Hung<'c>> {
    let cloth = case.worked.cloth.iter().filter_map(|used| of_fabric(case.shop, used.fabric));
    let binding =
        case.shop.bindings.get(case.order.binding).and_then(|binding| of_binding(case.shop, binding));
    let mut all: Vec<Hung<'c>> = Vec::new();
    for hung in cloth.chain(binding) {
        if !all.contains(&hung) {
            all.push(hung);
        }
    }
    all
}

fn of_fabric(shop: &Shop, place: usize) -> Option<Hung<'_>> {
    shop.fabrics.get(place).map(|fabric| Hung { name: &fabric.name, papers: &fabric.fire_certificates })
}

/// A binding that is cut from a cloth is that cloth.
fn of_binding<'c>(shop: &'c Shop, binding: &'c Binding) -> Option<Hung<'c>> {
    match binding.source {
        BindingSource::Bought { .. } => {
            Some(Hung { name: &binding.name, papers: &binding.fire_certificates })
        }
        BindingSource::Cloth { fabric, .. } => of_fabric(shop, fabric),
    }
}

impl Hung<'_> {
    /// Whether a test by one of some standards is on file.
    fn is_tested(&self, by: &[FireStandard]) -> bool {
        let tested = |paper: &&FireCertificate| paper.kind == CertificateKind::Tested;
        self.papers.iter().filter(tested).any(|paper| by.contains(&paper.standard))
    }

    /// What is on file, in words.
    pub(super) fn on_file(&self) -> String {
        if self.papers.is_empty() {
            return format!("{}: no certificate on file", self.name);
        }
        let papers: Vec<String> = self.papers.iter().map(paper).collect();
        format!("{}: {}", self.name, listed(&papers))
    }
}

/// `tested by NFPA 701, edition 2019, lot 4711`.
fn paper(paper: &FireCertificate) -> String {
    let what = match (paper.standard, paper.kind) {
        (FireStandard::Nfpa705, _) => "a match held to it in the field, which is no certificate, by",
        (_, CertificateKind::Tested) => "tested by",
        (_, CertificateKind::Treated) => "treated and not tested, for",
    };
    format!("{what} {}, edition {}, lot {}", paper.standard.name(), paper.edition, paper.lot)
}

/// R20: every cloth has a certificate that is accepted there. Where it was not told where it
/// hangs it may be a public room: that is a duty and no more.
pub(super) fn certificates(case: &Case<'_>, rule: &Rule) -> Option<(Outcome, Told)> {
    let Limit::Standards(accepted) = rule.limit else { return None };
    let outcome = match case.is_public() {
        Some(false) => return None,
        Some(true) => Outcome::Restrict,
        None => Outcome::Duty,
    };
    let lacking: Vec<Hung<'_>> = hung(case).into_iter().filter(|hung| !hung.is_tested(accepted)).collect();
    if lacking.is_empty() {
        return None;
    }
    let names: Vec<String> = lacking.iter().map(|hung| hung.name.to_owned()).collect();
    let standards: Vec<&str> = accepted.iter().map(|standard| standard.name()).collect();
    let standards = standards.join(" or ");
    let measured: Vec<String> = lacking.iter().map(Hung::on_file).collect();
    let decide = "the venue, its insurer and the fire officer there decide";
    let text = match outcome {
        Outcome::Duty => format!(
            "Where it hangs was not told. A hall or another public room may want every cloth tested for how it burns, \
             and not every cloth of this string was: local rules decide, and {decide}."
        ),
        _ => format!(
            "Public rooms want every cloth tested for how it burns, and not every cloth of this string was. One that \
             was treated, or that a match was held to, does not count. Local rules decide, and {decide}."
        ),
    };
    let elsewhere = match outcome {
        Outcome::Duty => "say where it hangs if that is no public room; otherwise ",
        _ => "",
    };
    Some((
        outcome,
        Told {
            measured: measured.join("; "),
            limit: format!("a certificate of a test by {standards} for every cloth and the binding"),
            remedy: format!(
                "{elsewhere}get a certificate of a test by {standards}, for the lots that are used, of {}; {}",
                listed(&names),
                offered(case.shop, accepted)
            ),
            text,
        },
    ))
}

/// What the shop has that would do.
fn offered(shop: &Shop, accepted: &[FireStandard]) -> String {
    let tested = |hung: &Hung<'_>| hung.is_tested(accepted);
    let names = |found: Vec<Hung<'_>>| -> Vec<String> {
        found.into_iter().map(|hung| hung.name.to_owned()).collect()
    };
    let cloths = shop.fabrics.iter().filter(|fabric| fabric.role == FabricRole::Cloth);
    let cloths =
        cloths.map(|fabric| Hung { name: &fabric.name, papers: &fabric.fire_certificates }).filter(tested);
    let bindings = shop.bindings.iter().filter_map(|binding| {
        let papers = of_binding(shop, binding)?.papers;
        Some(Hung { name: &binding.name, papers }).filter(tested)
    });
    let (cloths, bindings) = (names(cloths.collect()), names(bindings.collect()));
    match (cloths.as_slice(), bindings.as_slice()) {
        ([], []) => String::from("nothing that this shop has is tested so"),
        (cloths, []) => format!("tested so at this shop: {}, and no binding", listed(cloths)),
        ([], bindings) => format!("tested so at this shop: no cloth, and as binding {}", listed(bindings)),
        (cloths, bindings) => {
            format!("tested so at this shop: {}, and as binding {}", listed(cloths), listed(bindings))
        }
    }
}
