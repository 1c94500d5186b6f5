use super::*;

/// A file, and what each of its faults begins with and holds, all of them and no more.
fn check(file: &str, expected: &[(&str, &str)]) {
    let told = faults(file.as_bytes());
    assert_eq!(told.len(), expected.len(), "{file:?}: {told:#?}");
    for (fault, (begins, holds)) in told.iter().zip(expected) {
        assert!(
            fault.starts_with(begins) && fault.contains(holds),
            "{file:?}: {fault:?}, not {begins:?} {holds:?}"
        );
    }
}

#[test]
fn headers_that_are_none_are_named_all_at_once() {
    check("", &[("it is empty", "--columns")]);
    check("\n\n", &[("it is empty", "")]);
    check("code,length\n", &[("no piece", "")]);
    check("code,length\n,\n", &[("no piece", "")]);
    check(
        "kelp,2 m\n",
        &[("line 1: header 1: \"kelp\"", "label, code"), ("line 1: header 2: \"2 m\"", "label, code")],
    );
    check(
        "\ncode,length,colour,Length m,code\nkelp,1 m,,,\n",
        &[
            ("line 2: header 3: \"colour\" is no column", "certificates"),
            ("line 2: header 4: \"length\" stands there twice", ""),
            ("line 2: header 5: \"code\" stands there twice", ""),
        ],
    );
    check("length,lot\n1 m,a\n", &[("line 1: there is no column \"code\"", "")]);
    check("code,lot\nkelp,a\n", &[("line 1: there is no column \"length\" or \"count\"", "")]);
    check(
        "code,length furlong,lot m\nkelp,1,a\n",
        &[
            ("line 1: header 2: \"length furlong\"", "mm, cm, m, in, ft, yd"),
            ("line 1: header 3: \"lot m\"", "behind \"length\" and \"width\""),
        ],
    );
    check("code,length;lot\nkelp,1 m;a\n", &[("the headers are parted in more than one way", "semicolons")]);
    check("code,length,\nkelp,1 m,\n", &[("line 1: header 3: \"\" is no column", "")]);
}

#[test]
fn every_bad_cell_is_told_with_line_column_and_value() {
    check(
        "code,length,count,width,label,kind,flaws,cost,lot\n\
         kelp,20,,5 mm,L 1,heap,1 m,a lot,ok\n\
         ,,,,,,,,x\n\
         kelp,1 m,3,,,,,,\n\
         kelp,1 m,,112 cm,L-2,,,,\n\
         kelp,-1 m,,112 cm,L-2,,2 m..1 m,\"1,250\",\n\
         kelp,0 m,,,,,0..2 m,12.,\n\
         star,,2.5,,,,,£4,\n\
         star,,0,,,,,-4,\n\
         kelp,1 m,,6 m,,,0.9 m..1.1 m,,\n",
        &[
            ("line 2, length: \"20\" has no unit", "20 mm, 20 cm, 20 m"),
            ("line 2, width: \"5 mm\" is out of range", "20 mm to 5000 mm"),
            ("line 2, label: \"L 1\" holds ' '", "letters, digits, dots and hyphens"),
            ("line 2, kind: \"heap\"", "bolt, remnant, roll, box"),
            ("line 2, flaws: \"1 m\" is no stretch", "1.2 m..1.25 m"),
            ("line 2, cost: \"a lot\" is no amount", "12.50"),
            ("line 3, code: it is empty", "write the code"),
            ("line 3: there is no length and no count", ""),
            ("line 4: there is a length and a count", ""),
            ("line 6, length: \"-1 m\"", "more than 0"),
            ("line 6, flaws: \"2 m..1 m\"", "end behind"),
            ("line 6, cost: \"1,250\" can be read as 1250 or as 1.250", ""),
            ("line 7, length: \"0 m\"", "more than 0"),
            ("line 7, cost: \"12.\"", "12.50"),
            ("line 8, count: \"2.5\" is no count", "whole number"),
            ("line 8, cost: \"£4\"", "currency's code"),
            ("line 9, count: \"0\" is no count", "from 1"),
            ("line 9, cost: \"-4\"", "12.50"),
            ("line 10, width: \"6 m\" is out of range", ""),
            ("line 10, flaws: a flaw that ends at 1100 mm", "not on the piece"),
        ],
    );
    check("code,count,flaws\nstar,5,0..1 mm\n", &[("line 2, flaws: a flaw that ends at 1 mm", "")]);
}

#[test]
fn labels_stand_once() {
    check(
        "code,length,label\nkelp,1 m,A\nkelp,1 m,B\n\nkelp,2 m,A\nkelp,2 m,A\n",
        &[
            ("line 5, label: \"A\" is the label of line 2", ""),
            ("line 6, label: \"A\" is the label of line 2", ""),
        ],
    );
}

#[test]
fn lines_of_another_width_are_never_shifted() {
    check(
        "code,length,lot\nkelp,2,5 m,a\nkelp,1 m\nkelp,1 m,a\n",
        &[("line 2: cells: 4, headers: 3", "quotes"), ("line 3: cells: 2, headers: 3", "")],
    );
    check("code;length\nkelp,2,5 m\n", &[("line 2: cells: 1, headers: 2", "")]);
}

/// Each could be one number to one reader and a thousand times that to another.
#[test]
fn what_can_be_read_in_two_ways_is_read_in_none() {
    check("code,length\nkelp,\"2,500 m\"\n", &[("line 2, length: ", "2500")]);
    check("code;length\nkelp;2,500 m\n", &[("line 2, length: ", "2500")]);
    check(
        "code;length;width;flaws;cost\nkelp;2.500 m;1.120 mm;1.100 m..2 m;1.250\n",
        &[
            ("line 2, length: \"2.500 m\" can be read as 2500 or as 2,5", ""),
            ("line 2, width: \"1.120 mm\" can be read as 1120 or as 1,12", ""),
            ("line 2, flaws: ", "1100 or as 1,1"),
            ("line 2, cost: \"1.250\" can be read as 1250 or as 1,25", ""),
        ],
    );
    check("code;length m\nkelp;1.000\n", &[("line 2, length m: \"1.000\" can be read as 1000 or as 1", "")]);
    check("code;length\nkelp;1.250,5 m\n", &[("line 2, length: ", "1.250,5")]);
    check("code;cost;length\nkelp;1.250,50;1 m\n", &[("line 2, cost: \"1.250,50\"", "")]);
    check("code\tlength\nkelp\t1.250 mm\n", &[("line 2, length: ", "1250")]);
    check("code,count\nstar,\"1,000\"\n", &[("line 2, count: \"1,000\"", "digits alone")]);
    check("code;count\nstar;1.000\n", &[("line 2, count: \"1.000\"", "digits alone")]);
}

#[test]
fn text_that_cannot_be_kept_is_refused() {
    let long = "x".repeat(61);
    check(
        &format!(
            "code,length,lot,place,supplier,certificates\nkelp,1 m,{long},\"a\tb\",\u{202e}x,\"a | | b\"\n"
        ),
        &[
            ("line 2, lot: ", "61 characters: at most 60"),
            ("line 2, place: ", "U+0009"),
            ("line 2, supplier: ", "U+202E"),
            ("line 2, certificates: ", "empty number"),
        ],
    );
    let eleven = ["c"; 11].join("|");
    check(
        &format!("code,length,certificates\nkelp,1 m,{eleven}\n"),
        &[("line 2, certificates: 11 of them", "at most 10")],
    );
    let flaws = vec!["0..1 mm"; 101].join("|");
    check(
        &format!("code,length,flaws\nkelp,1 m,{flaws}\n"),
        &[("line 2, flaws: 101 of them", "at most 100")],
    );
    check(
        "code,length,place\nkelp,1 m,\"rack\nkelp,2 m,b\nkelp,3 m,c\n",
        &[("line 2, place: ", "a quotation mark not closed")],
    );
    check("code,length,lot\nkelp,1 m,Zo\u{fffd}\n", &[("line 2, lot: ", "a letter was lost")]);
}

#[test]
fn files_that_are_no_text_in_utf_8_are_refused_whole() {
    for (bytes, holds) in [
        (b"code,length,lot\nkelp,1 m,a\nkelp,1 m,Zo\xeb\n".as_slice(), "line 3 is not in UTF-8"),
        (b"\xff\xfec\0o\0d\0e\0", "UTF-16"),
        (b"\xfe\xff\0c\0o\0d\0e", "UTF-16"),
        (b"PK\x03\x04rest", "spreadsheet's own file"),
        (b"c\0o\0d\0e\0", "no text"),
    ] {
        let told = faults(bytes);
        assert_eq!(told.len(), 1, "{told:?}");
        assert!(told[0].contains(holds), "{told:?}");
    }
    let told = faults(&vec![b'a'; MOST_BYTES + 1]);
    assert!(told[0].contains("at most 8388608"), "{told:?}");
}

/// Faults of five thousand lines, and not only the first of them.
#[test]
fn nothing_stops_at_the_first_fault() {
    let file = format!("code,length\n{}", "kelp,1\n".repeat(5_000));
    let told = faults(file.as_bytes());
    assert_eq!(told.len(), 5_000);
    assert!(told[4_999].starts_with("line 5001, length: \"1\" has no unit"));
}
