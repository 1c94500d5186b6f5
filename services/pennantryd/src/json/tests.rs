use pennantry_contract::{table, v1};

use super::*;

fn enquiry(body: &str) -> Result<v1::Enquiry, Unreadable> {
    read(&table::ENQUIRY, body.as_bytes())
}

/// The first fault as "path REASON message".
fn fault(body: impl AsRef<[u8]>) -> String {
    let fault = read::<v1::Enquiry>(&table::ENQUIRY, body.as_ref()).expect_err("is refused");
    format!("{} {} {}", fault.path, fault.reason.as_str(), fault.message)
}

/// Each body with its fault, in words: the beginning is enough.
fn faults(cases: &[(&str, &str)]) {
    for (body, wanted) in cases {
        let found = fault(body);
        assert!(found.starts_with(wanted), "{body}\n  gave   {found}\n  wanted {wanted}");
    }
}

#[test]
fn json_is_read_before_its_meaning() {
    faults(&[
        ("", " MALFORMED_JSON the body is empty; send one JSON object, {…}"),
        (" \n\t", " MALFORMED_JSON the body is empty"),
        ("\u{feff}{}", " MALFORMED_JSON the body starts with a byte order mark"),
        ("{", " MALFORMED_JSON the body ends too soon, at line 1, column 1"),
        ("{\"gapMm\":\n 2x}", " MALFORMED_JSON this is not JSON at line 2, column 3: expected `,` or `}`"),
        ("{\"gapMm\":20,}", " MALFORMED_JSON this is not JSON at line 1, column 13: trailing comma"),
        ("{'gapMm':20}", " MALFORMED_JSON this is not JSON at line 1, column 2: key must be a string"),
        ("{\"gapMm\":NaN}", "gapMm MALFORMED_JSON this is not JSON at line 1, column 10"),
        ("{\"gapMm\":020}", "gapMm MALFORMED_JSON this is not JSON at line 1, column 11: invalid number"),
        ("{} {}", " MALFORMED_JSON there is more after the end of the JSON value, from line 1, column 4 on"),
        ("{\"lettering\":\"\\ud800\"}", "lettering MALFORMED_JSON this is not JSON at line 1, column"),
        ("{\"\\ud800\":1}", " MALFORMED_JSON this is not JSON at line 1, column"),
        (
            "{\"lettering\":\"a\nb\"}",
            "lettering MALFORMED_JSON this is not JSON at line 2, column 0: control",
        ),
        // a fault of the text stands before one of meaning, wherever it is
        ("{\"nonsense\":1,\"gapMm\":20", " MALFORMED_JSON the body ends too soon"),
        ("null", " WRONG_TYPE the body is null; one JSON object, {…}, is wanted"),
        ("[]", " WRONG_TYPE the body is a list"),
        ("\"gapMm\"", " WRONG_TYPE the body is the text \"gapMm\""),
    ]);
}

#[test]
fn bytes_that_are_not_utf8_are_found() {
    let found = fault(b"{\"lettering\":\n \"\xc3\x28\"}");
    assert!(found.starts_with(" MALFORMED_JSON the body is not UTF-8 from line 2, column 3 on"), "{found}");
}

/// Case B20: common practice, no source for the depth; the library alone would go to 127.
#[test]
fn nesting_ends_at_its_bound() {
    let nested = |depth: usize| format!("{{\"gapMm\":{}{}}}", "[".repeat(depth), "]".repeat(depth));
    // the object itself is the first of the 32
    assert!(fault(nested(31)).starts_with("gapMm WRONG_TYPE this is a list"), "{}", fault(nested(31)));
    for depth in [32, 128, 129, 200, 30_000] {
        let found = fault(nested(depth));
        assert!(found.contains(" TOO_DEEP lists and objects are nested deeper than 32 at line 1"), "{found}");
    }
    // never closed, and inside a key that is not there
    assert!(fault("[".repeat(60_000)).contains("TOO_DEEP"));
    assert!(fault(format!("{{\"x\":{}1{}}}", "{\"a\":".repeat(129), "}".repeat(129))).contains("TOO_DEEP"));
}

#[test]
fn keys_are_known_or_named() {
    faults(&[
        (
            r#"{"pennantcount":9}"#,
            "pennantcount UNKNOWN_FIELD there is no key \"pennantcount\" here; did you mean \"pennantCount\"? \
             allowed here: designCode, flaggedMm, overallMm,",
        ),
        (
            r#"{"colorOrder":{}}"#,
            "colorOrder UNKNOWN_FIELD there is no key \"colorOrder\" here; did you mean \"colourOrder\"?",
        ),
        (
            r#"{"widthMm":190}"#,
            "widthMm UNKNOWN_FIELD there is no key \"widthMm\" here; did you mean \"pennant.widthMm\"?",
        ),
        (r#"{"ft":{}}"#, "ft UNKNOWN_FIELD there is no key \"ft\" here; did you mean \"fit\"?"),
        (
            r#"{"penantCuont":9}"#,
            "penantCuont UNKNOWN_FIELD there is no key \"penantCuont\" here; did you mean \"pennantCount\"?",
        ),
        (r#"{"zebra":null}"#, "zebra UNKNOWN_FIELD there is no key \"zebra\" here; allowed here: designCode"),
        (r#"{"":1}"#, " UNKNOWN_FIELD there is no key \"\" here; allowed here:"),
        (
            r#"{"finish":{"ends":[{},{"loop":1}]}}"#,
            "finish.ends[1].loop UNKNOWN_FIELD there is no key \"loop\" here; allowed here: style, loopMm, slips, breakawayN",
        ),
        (r#"{"a\nb":1}"#, "a\\nb UNKNOWN_FIELD there is no key \"a\\nb\" here;"),
    ]);
    let long = fault(format!("{{\"{}\":1}}", "k".repeat(60_000)));
    assert!(long.len() < 700, "a long key is cut: {}", long.len());
    let catalogue = read::<v1::GetCatalogueRequest>(&table::GET_CATALOGUE_REQUEST, b"{\"a\":1}");
    assert_eq!(catalogue.unwrap_err().message, "there is no key \"a\" here; allowed here: no key at all");
}

#[test]
fn a_key_stands_once() {
    faults(&[
        (r#"{"gapMm":20,"gapMm":20}"#, "gapMm REPEATED_FIELD \"gapMm\" is there twice; give it once"),
        (r#"{"gap_mm":20,"gapMm":20}"#, "gapMm REPEATED_FIELD"),
        (r#"{"gapMm":20,"g\u0061pMm":20}"#, "gapMm REPEATED_FIELD"),
        // the library alone would take these three
        (r#"{"gapMm":null,"gapMm":20}"#, "gapMm REPEATED_FIELD"),
        (r#"{"gapMm":20,"gapMm":null}"#, "gapMm REPEATED_FIELD"),
        (r#"{"flaggedMm":null,"flaggedMm":6200}"#, "flaggedMm REPEATED_FIELD"),
        (r#"{"pennant":{"widthMm":1,"dropMm":2,"widthMm":1}}"#, "pennant.widthMm REPEATED_FIELD"),
    ]);
}

#[test]
fn one_thing_is_said_in_one_way() {
    faults(&[
        (
            r#"{"flaggedMm":6200,"quantity":1,"overallMm":6800}"#,
            "overallMm TWO_LENGTHS \"flaggedMm\" and \"overallMm\" say one thing in two ways; \
             give at most one of flaggedMm, overallMm, bindingMm, hang",
        ),
        (r#"{"hang":{"spanMm":1},"bindingMm":1}"#, "bindingMm TWO_LENGTHS"),
        (
            r#"{"discount":{"minorUnits":"500","percent":10}}"#,
            "discount.percent TWO_LENGTHS \"minorUnits\" and \"percent\" say one thing in two ways; \
             give at most one of percent, minorUnits",
        ),
    ]);
    // null is absence, also here
    let read = enquiry(r#"{"flaggedMm":6200,"overallMm":null}"#).unwrap();
    assert_eq!(read.length, Some(v1::enquiry::Length::FlaggedMm(6200.0)));
}

#[test]
fn types_are_named_as_they_came() {
    faults(&[
        (
            r#"{"gapMm":"6.2 m"}"#,
            "gapMm WRONG_TYPE this is the text \"6.2 m\"; a number of millimetres, with a point for decimals and \
             no unit, -1000 to 2000, is wanted",
        ),
        (r#"{"gapMm":"12,5"}"#, "gapMm WRONG_TYPE this is the text \"12,5\""),
        (r#"{"gapMm":true}"#, "gapMm WRONG_TYPE this is true; a number"),
        (r#"{"gapMm":{}}"#, "gapMm WRONG_TYPE this is an object; a number"),
        (
            r#"{"pennantCount":"nine"}"#,
            "pennantCount WRONG_TYPE this is the text \"nine\"; a whole number, 1 to 20000, is wanted",
        ),
        (
            r#"{"pennantCount":9.5}"#,
            "pennantCount WRONG_TYPE this is 9.5; a whole number is wanted, 1 to 20000",
        ),
        (r#"{"lettering":7}"#, "lettering WRONG_TYPE this is 7; text in quotes is wanted"),
        (
            r#"{"workings":"true"}"#,
            "workings WRONG_TYPE this is the text \"true\"; true or false, without quotes, is wanted",
        ),
        (
            r#"{"pennant":190}"#,
            "pennant WRONG_TYPE this is 190; an object, {…}, with keys among shape, widthMm, dropMm, sizeAt, footMm, notchMm, shoulderMm, riseMm, is wanted",
        ),
        (
            r#"{"colourOrder":{"fabricCodes":"KELP"}}"#,
            "colourOrder.fabricCodes WRONG_TYPE this is the text \"KELP\"; a list is wanted, [\"…\", …]",
        ),
        (
            r#"{"colourOrder":{"fabricCodes":["A","B",3]}}"#,
            "colourOrder.fabricCodes[2] WRONG_TYPE this is 3; text in quotes is wanted",
        ),
        (r#"{"finish":{"ends":[[]]}}"#, "finish.ends[0] WRONG_TYPE this is a list; an object"),
        (r#"{"finish":{"ends":{}}}"#, "finish.ends WRONG_TYPE this is an object; a list is wanted, [{…}, …]"),
    ]);
}

#[test]
fn numbers_that_no_type_holds_are_out_of_range() {
    faults(&[
        (r#"{"pennantCount":-1}"#, "pennantCount OUT_OF_RANGE -1 is out of range; allowed is 1 to 20000"),
        (
            r#"{"quantity":4294967296}"#,
            "quantity OUT_OF_RANGE 4294967296 is out of range; allowed is 1 to 10000",
        ),
        (r#"{"quantity":1e308}"#, "quantity OUT_OF_RANGE"),
        (r#"{"quantity":"9007199254740993"}"#, "quantity OUT_OF_RANGE"),
        (r#"{"pennant":{"widthMm":1e400}}"#, "pennant.widthMm OUT_OF_RANGE the number at line 1, column"),
    ]);
}

/// Case B35, from the reference cases: never silently the zero value.
#[test]
fn enums_are_known_by_name_or_number() {
    faults(&[
        (
            r#"{"fit":{"parity":"PARITY_OD"}}"#,
            "fit.parity UNKNOWN_VALUE there is no value \"PARITY_OD\" here; did you mean PARITY_ODD? \
             allowed are PARITY_ODD (1), PARITY_EVEN (2)",
        ),
        (
            r#"{"pennant":{"shape":"HEXAGON"}}"#,
            "pennant.shape UNKNOWN_VALUE there is no value \"HEXAGON\" here; allowed are SHAPE_TRIANGLE (1)",
        ),
        (r#"{"pennant":{"shape":99}}"#, "pennant.shape UNKNOWN_VALUE there is no value 99 here; allowed are"),
        (r#"{"pennant":{"shape":-1}}"#, "pennant.shape UNKNOWN_VALUE"),
        (r#"{"pennant":{"shape":1.5}}"#, "pennant.shape UNKNOWN_VALUE"),
        (r#"{"pennant":{"shape":1e300}}"#, "pennant.shape UNKNOWN_VALUE"),
        (r#"{"pennant":{"shape":""}}"#, "pennant.shape UNKNOWN_VALUE there is no value \"\" here"),
        (r#"{"pennant":{"shape":[]}}"#, "pennant.shape WRONG_TYPE this is a list; one of SHAPE_TRIANGLE (1)"),
        (r#"{"near":{"jurisdictions":["JURISDICTION_EU",9]}}"#, "near.jurisdictions[1] UNKNOWN_VALUE"),
    ]);
    let read =
        enquiry(r#"{"pennant":{"shape":2,"sizeAt":"SIZE_AT_BINDING_EDGE"}}"#).unwrap().pennant.unwrap();
    assert_eq!((read.shape, read.size_at), (Some(2), Some(2)));
}

/// The standard mapping: null is absence for every field, never for an entry of a list.
/// The library alone refuses it for lists and for fields without presence.
#[test]
fn null_is_absence() {
    let all_null = table::ENQUIRY
        .fields
        .iter()
        .map(|field| format!("{:?}:null", field.json_name))
        .collect::<Vec<_>>()
        .join(",");
    assert_eq!(enquiry(&format!("{{{all_null}}}")).unwrap(), v1::Enquiry::default());

    let alone = |body: &str| serde_json::from_str::<v1::Enquiry>(body).is_ok();
    let taken = [
        (r#"{"designCode":null}"#, true),                   // text with presence
        (r#"{"gapMm":null}"#, true),                        // double with presence
        (r#"{"pennantCount":null}"#, true),                 // whole number with presence
        (r#"{"workings":null}"#, true),                     // bool with presence
        (r#"{"construction":null}"#, true),                 // enum with presence
        (r#"{"pennant":null}"#, true),                      // message
        (r#"{"overallMm":null}"#, true),                    // member of a oneof
        (r#"{"hang":{"spanMm":null}}"#, false),             // double without presence
        (r#"{"destination":{"countryCode":null}}"#, false), // text without presence
        (r#"{"colourOrder":{"fabricCodes":null}}"#, false), // list of texts
        (r#"{"near":{"jurisdictions":null}}"#, false),      // list of enums
        (r#"{"finish":{"ends":null}}"#, false),             // list of messages
    ];
    for (body, by_the_library) in taken {
        assert_eq!(alone(body), by_the_library, "{body}");
        assert!(enquiry(body).is_ok(), "{body}");
    }
    faults(&[
        (
            r#"{"colourOrder":{"fabricCodes":["A",null]}}"#,
            "colourOrder.fabricCodes[1] WRONG_TYPE an entry of a list cannot be null; leave the entry out",
        ),
        (r#"{"finish":{"ends":[null]}}"#, "finish.ends[0] WRONG_TYPE an entry"),
    ]);
}

#[test]
fn what_the_standard_lets_in_is_read() {
    let wanted = v1::Enquiry { pennant_count: Some(9), gap_mm: Some(20.0), ..Default::default() };
    for body in [
        r#"{"pennantCount":9,"gapMm":20}"#,
        r#"{"pennant_count":9,"gap_mm":20.0}"#,
        r#"{"pennantCount":"9","gapMm":"20"}"#,
        r#"{"pennantCount":9.0,"gapMm":2e1}"#,
        r#"{"pennantCount":0.9e1,"gapMm":"2e1"}"#,
        "\r\n{ \"gapMm\" : 20 , \"pennantCount\" : 9 }\r\n",
    ] {
        assert_eq!(enquiry(body).as_ref(), Ok(&wanted), "{body}");
    }
    // zero is an answer, absence is a question: case B9
    assert_eq!(enquiry(r#"{"gapMm":-0.0}"#).unwrap().gap_mm, Some(0.0));
    assert_eq!(enquiry(r#"{"near":{"youngestMonths":-0}}"#).unwrap().near.unwrap().youngest_months, Some(0));
    assert_eq!(enquiry("{}").unwrap(), v1::Enquiry::default());
    assert_eq!(enquiry(r#"{"near":{}}"#).unwrap().near, Some(v1::Near::default()));
    // read here, refused in checking
    assert!(enquiry(r#"{"gapMm":"NaN"}"#).unwrap().gap_mm.unwrap().is_nan());
    assert_eq!(enquiry(r#"{"gapMm":"-Infinity"}"#).unwrap().gap_mm, Some(f64::NEG_INFINITY));
    assert_eq!(enquiry(r#"{"gapMm":1e308}"#).unwrap().gap_mm, Some(1e308));
    assert_eq!(enquiry(r#"{"gapMm":9007199254740993}"#).unwrap().gap_mm, Some(9_007_199_254_740_992.0));
}

/// Case B8: 64 bit numbers are strings on the way out and exact both ways in.
#[test]
fn sixty_four_bits_stay_exact() {
    let money = |body: &str| read::<v1::Money>(&table::MONEY, body.as_bytes()).map(|money| money.minor_units);
    for body in [r#"{"minorUnits":"9007199254740993"}"#, r#"{"minorUnits":9007199254740993}"#] {
        assert_eq!(money(body), Ok(9_007_199_254_740_993), "{body}");
    }
    assert_eq!(money(r#"{"minorUnits":-1e3}"#), Ok(-1000));
    for body in [r#"{"minorUnits":9007199254740993.0}"#, r#"{"minorUnits":9223372036854775808}"#] {
        assert_eq!(money(body).unwrap_err().reason, ViolationReason::OutOfRange, "{body}");
    }
    let out = write(&v1::Money { currency_code: "GBP".to_owned(), minor_units: 9_007_199_254_740_993 });
    assert_eq!(out.unwrap(), br#"{"currencyCode":"GBP","minorUnits":"9007199254740993"}"#);
}

#[test]
fn zeros_are_printed_and_absence_is_kept() {
    let hook = v1::Hook { at_mm: 0.0, in_gap: false, shift_mm: -0.0 };
    assert_eq!(write(&hook).unwrap(), br#"{"atMm":0.0,"inGap":false,"shiftMm":-0.0}"#);
    assert_eq!(write(&v1::Pennant::default()).unwrap(), b"{}");
    assert_eq!(write(&v1::ColourOrder::default()).unwrap(), br#"{"fabricCodes":[]}"#);
    let near = v1::Near { youngest_months: Some(0), ..Default::default() };
    assert_eq!(write(&near).unwrap(), br#"{"youngestMonths":0,"jurisdictions":[]}"#);
}

/// Case B21: no answer holds null for a number.
#[test]
fn what_is_not_finite_is_not_written() {
    for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        let layout = v1::Layout { gap_mm: value, ..Default::default() };
        let quote = v1::Quote { layout: Some(layout), ..Default::default() };
        let error = write(&quote).expect_err("has no JSON");
        assert_eq!(error.to_string(), "a message cannot be written as JSON: a number is not finite");
    }
    let unnamed = v1::PlanBand { kind: 99, ..Default::default() };
    assert!(write(&unnamed).is_err(), "an enum's number without a name");
}

/// "null" as a word of a text is not the null that the fast way leaves out.
#[test]
fn the_word_null_is_only_a_word() {
    let read = enquiry(r#"{"lettering":"null and void","designCode":"null"}"#).unwrap();
    assert_eq!(
        (read.lettering.as_deref(), read.design_code.as_deref()),
        (Some("null and void"), Some("null"))
    );
}
