//! Every text that could be read in two ways, and how it is settled: blanks decide, position decides, never a guess.

mod sketch;

use plumbhook_syntax::{Fault, Item, Node, coordinates, items, joined};
use sketch::{sketch, sketch_all};

#[track_caller]
fn reads(line: &str, as_items: &str) {
    assert_eq!(sketch_all(&items(line)), as_items, "{line}");
}

/// The one fault of a line: the text it covers, and the sentence.
#[track_caller]
fn refuses(line: &str, piece: &str, because: &str) -> Fault {
    let all = items(line);
    let faults: Vec<_> = all.iter().flat_map(Item::faults).collect();
    let [(place, fault)] = faults[..] else {
        panic!("{line}: {} has not one fault", sketch_all(&items(line)));
    };
    assert_eq!(place.of(line), piece, "{line}");
    let said = fault.say();
    assert!(said.contains(because), "{line}: {said}");
    fault.clone()
}

#[test]
fn a_word_or_number_swallows_nothing_that_is_glued_to_it() {
    reads("mass\t31.5\tt", "mass; 31.5[t]");
    reads("mass\u{a0}31.5\u{a0}t", "mass; 31.5[t]");
    reads("mass 31.5 t#weighed", "mass; 31.5[t]");
    reads("mass 31.5#t", "mass; #31.5");
    reads("S1#", "S1");
    reads("a=b", "a; mark =; b");
    reads("\u{3000}mass 3 t", "mass; 3[t]");
}

#[test]
fn a_comment_is_no_item_and_a_hash_in_quotes_is_no_comment() {
    reads("mass 3 t # 4 t", "mass; 3[t]");
    reads("# mass 3 t", "");
    reads("note \"bolt #5\"", "note; \"bolt #5\"");
    reads("note \"bolt\"#5", "note; \"bolt\"");
}

#[test]
fn x_makes_sizes_only_between_numbers() {
    reads("x 0 .. 3 m", "x; {#0 .. 3[m]}");
    reads("wheels 8, x 3 m", "wheels; #8; ,; x; 3[m]");
    reads("4 x of", "#4; x; of");
    reads("300 mm × 40 mm", "{300[mm] x 40[mm]}");
    reads("300×40 mm", "{#300 x 40[mm]}");
    reads("class 6x36", "class; 6x36");
    let fault = refuses("foot 300x40 mm", "300x40", "write `300 x 40`");
    assert_eq!(fault.rewrites(), ["300 x 40".into()]);
    refuses("× 40 mm", "×", "between two sizes");
    refuses("a × 40 mm", "×", "between two sizes");
}

#[test]
fn of_counts_only_behind_a_plain_number() {
    reads("2 of push-20", "{2 of push-20}");
    reads("110 % of expected", "110[%]; of; expected");
    reads("gantry HG of gantry-2", "gantry; HG; of; gantry-2");
    reads("2 of", "#2; of");
    reads("2 of 3 of a", "{2 of #3}; of; a");
    reads("2 of, 3", "#2; of; ,; #3");
    reads("8 of 250 mm +/- 2 mm", "{8 of {250[mm] +/- 2[mm]}}");
}

#[test]
fn a_hyphen_inside_a_token_is_the_names() {
    reads("bow-17", "bow-17");
    reads("box-14x6", "box-14x6");
    reads("3-leg", "3-leg");
    reads("38-long-6", "38-long-6");
    reads("tag 0412-3", "tag; 0412-3");
    reads("1-1/8", "1-1/8");
    let fault = refuses("wide 5-8 m", "5-8 m", "range or a difference");
    assert_eq!(fault.rewrites(), ["5 .. 8 m".into(), "5 - 8 m".into()]);
}

#[test]
fn a_sign_is_glued_and_an_operator_has_a_blank_on_each_side() {
    reads("5 m -3 m", "5[m]; -3[m]");
    reads("5 m - 3 m", "{5[m] - 3[m]}");
    reads("−3 m", "-3[m]");
    reads("5 m − 3 m", "{5[m] - 3[m]}");
    reads("+3 m", "3[m]");
    refuses("5 m - ", "5 m -", "one of them is missing");
    refuses("- 3 m", "-", "one of them is missing");
    refuses("* 3 m", "*", "one of them is missing");
    refuses("5 m * , 3 m", "5 m *", "one of them is missing");
    refuses("5 m *3", "*", "a blank on each side");
    refuses("(5 m, 2 m)- 3", "-", "a blank on each side");
    refuses("(5 m, 2 m)-3", "-", "a blank on each side");
    refuses("5−3", "−", "a blank on each side");
    let fault = refuses("mass 2*14.5 t", "2*14.5", "write `2 * 14.5`");
    assert_eq!(fault.rewrites(), ["2 * 14.5".into()]);
    refuses("mass 2+ 3 t", "2+", "a blank on each side");
    refuses("up +w", "+w", "or to an axis");
    refuses("up +x+x", "+x+x", "or to an axis");
    refuses("up +x-", "+x-", "or to an axis");
}

#[test]
fn a_unit_stands_only_directly_behind_a_number() {
    // A count slot finds ten inches here, a number and a word, and refuses.
    reads("10 in 3 groups", "10[in]; #3; groups");
    reads("t 5", "t; #5");
    reads("in 3 m", "in; 3[m]");
    reads("8, t", "#8; ,; t");
    refuses("above %", "%", "directly after a number");
}

#[test]
fn several_units_by_one_word_are_never_guessed() {
    reads("mass 5 ton", "mass; 5[ton?]");
    reads("mass 5T", "mass; 5[ton?]");
    reads("mass 5 t", "mass; 5[t]");
    let line = "mass 62 tons";
    let Node::Ambiguous { unit, raw, .. } = items(line)[1].node else {
        panic!("{}", sketch_all(&items(line)));
    };
    assert_eq!(raw, "62 tons");
    assert!(unit.readings.len() > 1);
}

#[test]
fn a_whole_number_before_a_fraction_is_left_to_the_slot_where_a_count_could_stand() {
    reads("bolts 16 1/2 in", "bolts; #16; 0.5[in]");
    reads("thick 1 1/2 in", "thick; #1; 0.5[in]");
    // Where no count can stand it is one quantity.
    reads("0 +/- 1 1/2 in", "{#0 +/- 1.5[in]}");
    reads("0 .. 1 1/2 in", "{#0 .. 1.5[in]}");
    reads("16 of 1 1/2\"", "{16 of 1.5[in]}");
    reads("(1 1/2 in, 2 m)", "(1.5[in]; ,; 2[m])");
    reads("3 in x 1 1/2in", "{3[in] x 1.5[in]}");
    reads("4 m + 1 1/2 in", "{4[m] + 1.5[in]}");
    reads("0 +/- 1 1/2", "{#0 +/- #1}; #0.5");
}

#[test]
fn a_slot_that_takes_no_count_can_join_the_two() {
    let join = |line: &str| {
        let all = items(line);
        joined(line, &all[0], &all[1]).map(|item| (sketch(&item), item.raw(line).to_owned()))
    };
    let both = |sketch: &str, raw: &str| Some((sketch.to_owned(), raw.to_owned()));
    assert_eq!(join("1 1/2 in"), both("1.5[in]", "1 1/2 in"));
    assert_eq!(join("6 1/2\""), both("6.5[in]", "6 1/2\""));
    assert_eq!(join("-1 1/2 in"), both("-1.5[in]", "-1 1/2 in"));
    assert_eq!(join("-0 1/2 in"), both("-0.5[in]", "-0 1/2 in"));
    assert_eq!(join("1 1/2 ton"), both("1.5[ton?]", "1 1/2 ton"));
    for line in [
        "1.5 1/2 in",
        "1 3/2 in",
        "1 -1/2 in",
        "1 2 in",
        "1 in 1/2 in",
        "1 1-1/2 in",
    ] {
        assert_eq!(join(line), None, "{line}");
    }
}

#[test]
fn a_tolerance_belongs_to_the_value_on_its_left_and_never_means_both_signs() {
    reads("z 0.74 m +/- 60 mm", "z; {0.74[m] +/- 60[mm]}");
    refuses("+/- 60 mm", "+/- 60 mm", "never means both signs");
    refuses("at most, ± 60 mm", "± 60 mm", "never means both signs");
    refuses("5 m +/-", "5 m +/-", "stands an amount");
    refuses("5 m +/- , 3", "5 m +/-", "stands an amount");
    refuses("5 m +/- -3 mm", "5 m +/- -3 mm", "no sign of its own");
    refuses("5 m +/- +3 mm", "5 m +/- +3 mm", "no sign of its own");
    refuses(
        "5 m +/- 2 mm +/- 3 mm",
        "+/- 3 mm",
        "never means both signs",
    );
    refuses(
        "5 m +/- (1 mm, 2 mm)",
        "5 m +/- (1 mm, 2 mm)",
        "stands an amount",
    );
    refuses("2026-10-12 +/- 2 h", "+/- 2 h", "never means both signs");
}

#[test]
fn a_tolerance_behind_sizes_holds_for_each_of_them() {
    reads("3 m x 2 m +/- 5 mm", "{{3[m] x 2[m]} +/- 5[mm]}");
    reads(
        "3 m +/- 9 mm x 2 m +/- 5 mm",
        "{{3[m] +/- 9[mm]} x {2[m] +/- 5[mm]}}",
    );
    reads("3 m +/- 9 mm x 2 m", "{{3[m] +/- 9[mm]} x 2[m]}");
    let line = "3 m x 2 m +/- 5 mm";
    let Node::Tolerance { of, .. } = &items(line)[0].node else {
        panic!()
    };
    assert_eq!(of.raw(line), "3 m x 2 m");
}

#[test]
fn a_tolerance_behind_a_calculation_is_refused_where_it_matters_what_it_belongs_to() {
    let fault = "the last value or to the whole";
    refuses("2 * 14.5 t +/- 100 kg", "2 * 14.5 t +/- 100 kg", fault);
    refuses("14.5 t + 300 kg +/- 5 %", "14.5 t + 300 kg +/- 5 %", fault);
    refuses("3 m + 2 * 5 m +/- 5 mm", "3 m + 2 * 5 m +/- 5 mm", fault);
    refuses("3 m / 2 +/- 5 %", "3 m / 2 +/- 5 %", fault);
    reads("2 * 14.5 t +/- 5 %", "{{#2 * 14.5[t]} +/- 5[%]}");
    reads(
        "14.5 t + 300 kg +/- 50 kg",
        "{{14.5[t] + 300[kg]} +/- 50[kg]}",
    );
    reads("(2 * 14.5 t) +/- 100 kg", "{{#2 * 14.5[t]} +/- 100[kg]}");
    reads("2 * (14.5 t +/- 100 kg)", "{#2 * {14.5[t] +/- 100[kg]}}");
    refuses(
        "(3 m) + 2 * 5 m +/- 5 mm",
        "(3 m) + 2 * 5 m +/- 5 mm",
        fault,
    );
}

#[test]
fn a_range_has_two_sides_and_no_tolerance() {
    refuses(
        "0 .. 5 m +/- 1 mm",
        "0 .. 5 m +/- 1 mm",
        "takes no tolerance",
    );
    refuses(
        "5 m +/- 1 mm .. 6 m",
        "5 m +/- 1 mm .. 6 m",
        "takes no tolerance",
    );
    refuses("5 t ..", "5 t ..", "two sides");
    refuses("5 t .., 3", "5 t ..", "two sides");
    refuses("1 .. 2 .. 3", "1 .. 2 .. 3", "two sides");
    refuses("..", "..", "two sides");
    refuses("\"a\" .. 5", "..", "two sides");
    refuses("1 .. (2 m, 3 m)", "1 .. (2 m, 3 m)", "two sides");
}

#[test]
fn a_comma_parts_a_list_only_with_a_blank_behind_it() {
    let fault = refuses("mass 137,000 lb", "137,000 lb", "thousands, decimals");
    assert_eq!(
        fault.rewrites(),
        [
            "137000 lb".into(),
            "137.000 lb".into(),
            "137, 000 lb".into()
        ]
    );
    let fault = refuses("mass -3,5 t", "-3,5 t", "thousands, decimals");
    assert_eq!(fault.rewrites(), ["-3.5 t".into(), "-3, 5 t".into()]);
    let fault = refuses("1,234,567.5lb", "1,234,567.5lb", "thousands, decimals");
    assert_eq!(
        fault.rewrites(),
        ["1234567.5lb".into(), "1, 234, 567.5lb".into()]
    );
    refuses("(12,13)", "12,13", "write `12.13` or `12, 13`");
    reads("x 0,y 3", "x; #0; ,; y; #3");
    reads("(5 m,3 m)", "(5[m]; ,; 3[m])");
    reads("24, 25", "#24; ,; #25");
}

#[test]
fn thousands_are_not_parted_by_blanks() {
    let fault = refuses(
        "mass 137\u{202f}000 lb",
        "137\u{202f}000 lb",
        "write `137000 lb`",
    );
    assert_eq!(fault.rewrites(), ["137000 lb".into()]);
    // With an ordinary blank they are two numbers, and one is left over.
    reads("mass 137 000 lb", "mass; #137; 0[lb]");
    reads("8\u{a0}12 m", "#8; 12[m]");
    reads("1234\u{a0}000 m", "#1234; 0[m]");
    let fault = refuses(
        "1\u{a0}234\u{a0}567.5 lb",
        "1\u{a0}234\u{a0}567.5 lb",
        "`1234567.5 lb`",
    );
    assert_eq!(fault.rewrites(), ["1234567.5 lb".into()]);
    refuses("137\u{a0}000lb", "137\u{a0}000lb", "`137000lb`");
}

#[test]
fn digits_keep_their_text() {
    let line = "tag 0412";
    assert_eq!(
        items(line)[1].node,
        Node::Number {
            value: 412.0,
            raw: "0412"
        }
    );
    let line = "-0.50 m";
    assert!(matches!(
        items(line)[0].node,
        Node::Quantity { raw: "-0.50 m", .. }
    ));
}

#[test]
fn a_date_in_another_form_lists_the_days_it_may_mean() {
    let fault = refuses(
        "on 01/02/2026",
        "01/02/2026",
        "`2026-01-02` or `2026-02-01`",
    );
    assert_eq!(fault.rewrites().len(), 2);
    refuses("on 2026-02-30", "2026-02-30", "no such day");
    refuses("on 40.40.2026", "40.40.2026", "is no day");
    reads("on 2026-02-28", "on; date 2026-02-28");
}

#[test]
fn a_quotation_mark_opens_text_at_the_start_of_a_token_and_is_an_inch_mark_behind_a_digit() {
    reads("wide 24\"", "wide; 24[in]");
    reads("\"24\"", "\"24\"");
    reads("(24\", 12\")", "(24[in]; ,; 12[in])");
    refuses("quote\"62 tons\"", "\"62 tons\"", "a blank is missing");
    refuses("\"62 tons\"long", "\"62 tons\"", "a blank is missing");
    refuses("bow-17\"", "bow-17\"", "a blank is missing");
    refuses("note \"62 tons", "\"62 tons", "closing quotation mark");
    refuses("note \"", "\"", "closing quotation mark");
    refuses("3\"long", "3\"long", "is none");
}

#[test]
fn feet_and_inches_that_drawings_do_not_have_are_refused() {
    refuses("12'-14\"", "12'-14\"", "less than 12 inches");
    refuses("100' 45\"", "100' 45\"", "less than 12 inches");
    refuses("12'-6", "12'-6", "with an inch mark");
    refuses("12.5'-6\"", "12.5'-6\"", "with an inch mark");
    refuses("137'000", "137'000", "with an inch mark");
    refuses("12°30'", "12°30'", "with an inch mark");
    refuses("12'-6 9/8\"", "12'-6", "with an inch mark");
    reads("100', 45\"", "100[ft]; ,; 45[in]");
}

#[test]
fn numbers_that_are_none_are_refused() {
    refuses("5.", "5.", "is none");
    refuses("1.2.3", "1.2.3", "is none");
    refuses("5$", "5$", "is none");
    refuses("1/0 in", "1/0", "no fraction");
    refuses("1-9/8 in", "1-9/8", "no fraction");
    refuses("1-9/8in", "1-9/8in", "no fraction");
    refuses("2/3/4", "2/3/4", "no fraction");
    refuses("1:0", "1:0", "has no size");
    refuses("1:30:00", "1:30:00", "is none");
    let fault = refuses("long .5 m", ".5 m", "write `0.5 m`");
    assert_eq!(fault.rewrites(), ["0.5 m".into()]);
    let digits = "9".repeat(400);
    refuses(&digits, &digits, "too large");
}

#[test]
fn look_alikes_and_what_cannot_be_seen_are_named() {
    refuses("5 – 8", "–", "`..` for a range");
    refuses("bow\u{2011}", "\u{2011}", "U+2011");
    refuses("ma\u{200b} 3", "\u{200b}", "U+200B");
    refuses("a \0", "\0", "U+0000");
    refuses("“", "“", "write `\"`");
    refuses("12’-6\"", "12’-6\"", "write `'` for feet");
    refuses("½", "½", "in digits");
    refuses("a ; b", ";", "means nothing here");
    refuses("a ≤ 5", "≤", "`at most`");
}

#[test]
fn brackets_are_points_or_group_one_value() {
    reads("(5 m)", "5[m]");
    reads("(A)", "(A)");
    refuses("(5 m, 3 m", "(5 m, 3 m", "closing bracket");
    refuses("5 m)", ")", "closes nothing");
    refuses("()", "()", "coordinate is missing");
    refuses("(5 m,, 3 m)", "(5 m,, 3 m)", "coordinate is missing");
    refuses("(5 m, )", "(5 m, )", "coordinate is missing");
    let line = "(8.0 m, 10.6 m, EL 117.90 m)";
    let Node::Point(inside) = &items(line)[0].node else {
        panic!()
    };
    let lengths: Vec<usize> = coordinates(inside).map(<[Item]>::len).collect();
    assert_eq!(lengths, [1, 1, 2]);
}

#[test]
fn a_fault_deep_inside_keeps_its_place() {
    refuses("at (5 m, 1,5 m)", "1,5 m", "thousands, decimals");
    refuses("5 m + 1/0 in", "1/0", "no fraction");
    refuses("0 .. 5.", "5.", "is none");
}

#[test]
fn depth_and_length_are_bounded_and_say_so() {
    let deep = format!("{}5 m{}", "(".repeat(17), ")".repeat(17));
    refuses(&deep, &deep[16..deep.len() - 16], "16 brackets");
    let sixteen = format!("{}5 m{}", "(".repeat(16), ")".repeat(16));
    reads(&sixteen, "5[m]");
    let open = "(".repeat(60_000);
    assert_eq!(sketch_all(&items(&open)), "BAD");
    let long = format!("1{}", " + 1".repeat(100));
    refuses(&long, &long, "64 operators");
    let line = "x".repeat(1_000_000);
    refuses(&line, &line, "1000000 bytes");
    assert_eq!(sketch_all(&items(&format!("  # {line}"))), "");
    assert_eq!(sketch_all(&items(&"(".repeat(100_000))), "BAD");
}

#[test]
fn a_line_made_to_be_slow_is_read_in_one_go() {
    for piece in [
        "1\u{a0}",
        "1\u{a0}000",
        "000.5\u{a0}",
        "1,",
        "1 .. ",
        "+/- 1 ",
        "1 x ",
        "1 of ",
        "( ) ",
        "(1, ",
        "\" ",
        "1/2 ",
        "12' ",
        "1 + ",
        "- ",
        "|",
        "\0",
    ] {
        let line = piece.repeat(65_536 / piece.len());
        assert!(!items(&line).is_empty(), "{piece}");
    }
}

#[test]
fn words_of_the_language_stay_words() {
    reads("at least 300 mm", "at; least; 300[mm]");
    reads("x unknown within shape", "x; unknown; within; shape");
    reads("within expected", "within; expected");
    reads("A/1 H/1", "A/1; H/1");
    reads("hall-crane.main", "hall-crane.main");
}
