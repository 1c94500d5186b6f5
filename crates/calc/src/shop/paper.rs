//! What the shop has on paper: who makes the strings, and certificates of its cloth.

/// Who makes the strings and answers for them. What is not stated is missing.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Maker {
    /// Name of the maker.
    pub name: Option<String>,
    /// Postal address, in one line.
    pub postal_address: Option<String>,
    /// E-mail or web address.
    pub electronic_address: Option<String>,
    /// Who answers for them in the European Union, with address.
    pub responsible_person: Option<String>,
    /// Countries in whose language the offer shows its warnings, ISO 3166-1 codes.
    pub warned_countries: Vec<String>,
}

/// How a design is offered.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Offer {
    /// Whether the offer shows a picture of it.
    pub pictured: bool,
    /// Whether it is offered for children.
    pub for_children: bool,
    /// Whether a file for children's products in the United States is complete for it.
    pub us_children_file: bool,
}

/// A paper about how a cloth burns.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FireCertificate {
    /// The standard it names.
    pub standard: FireStandard,
    /// The edition of that standard.
    pub edition: String,
    /// The lot of cloth it was issued for.
    pub lot: String,
    /// What it certifies.
    pub kind: CertificateKind,
}

/// What a certificate certifies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CertificateKind {
    /// That the lot was tested and passed.
    Tested,
    /// That the lot was treated, which no test has followed.
    Treated,
}

/// A standard, with the class reached, by which cloth is tested for how it burns.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FireStandard {
    /// BS 5867-2, type B.
    Bs5867TypeB,
    /// BS 5867-2, type C.
    Bs5867TypeC,
    /// DIN 4102-1, class B1.
    Din4102ClassB1,
    /// EN 13773, class 1.
    En13773Class1,
    /// EN 13501-1, class B.
    En13501ClassB,
    /// NFPA 701.
    Nfpa701,
    /// NFPA 705: the match held to a strip in the field, which is a look and no certificate.
    Nfpa705,
    /// CAN/ULC-S109.
    CanUlcS109,
    /// AS 1530.2.
    As1530Part2,
}

impl FireStandard {
    /// Every one, as it is written.
    pub const ALL: [(&'static str, FireStandard); 9] = [
        ("BS 5867-2 type B", FireStandard::Bs5867TypeB),
        ("BS 5867-2 type C", FireStandard::Bs5867TypeC),
        ("DIN 4102-1 B1", FireStandard::Din4102ClassB1),
        ("EN 13773 class 1", FireStandard::En13773Class1),
        ("EN 13501-1 class B", FireStandard::En13501ClassB),
        ("NFPA 701", FireStandard::Nfpa701),
        ("NFPA 705", FireStandard::Nfpa705),
        ("CAN/ULC-S109", FireStandard::CanUlcS109),
        ("AS 1530.2", FireStandard::As1530Part2),
    ];

    /// How it is written.
    ///
    /// ```
    /// use pennantry_calc::shop::FireStandard;
    /// assert_eq!(FireStandard::Bs5867TypeB.name(), "BS 5867-2 type B");
    /// ```
    pub fn name(self) -> &'static str {
        FireStandard::ALL.iter().find(|(_, standard)| *standard == self).map_or("", |(name, _)| name)
    }
}
