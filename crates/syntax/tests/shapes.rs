//! Lines as an engineer writes them, and what is read from them.

mod sketch;

use plumbhook_syntax::items;
use sketch::sketch_all;

#[track_caller]
fn reads(line: &str, as_items: &str) {
    assert_eq!(sketch_all(&items(line)), as_items, "{line}");
}

#[test]
fn a_mass_with_its_tolerance_is_words_and_one_value() {
    reads("mass 31.5 t +/- 8 %", "mass; {31.5[t] +/- 8[%]}");
    reads("mass 31.5 t ± 8 %", "mass; {31.5[t] +/- 8[%]}");
    reads("mass 31.5t±8%", "mass; {31.5[t] +/- 8[%]}");
    reads("mass at most 34 t", "mass; at; most; 34[t]");
    reads("dynamic unknown", "dynamic; unknown");
}

#[test]
fn labels_stand_before_their_numbers_and_commas_between() {
    reads(
        "cg x 0 +/- 60 mm, y 0 .. 0.20 m, z -0.15 m .. 0.15 m",
        "cg; x; {#0 +/- 60[mm]}; ,; y; {#0 .. 0.2[m]}; ,; z; {-0.15[m] .. 0.15[m]}",
    );
    reads(
        "points A B C ring radius 1.20 m, z 1.62 m, first +x, anticlockwise, lug eye-40",
        "points; A; B; C; ring; radius; 1.2[m]; ,; z; 1.62[m]; ,; first; axis +x; ,; anticlockwise; ,; lug; eye-40",
    );
    reads(
        "rectangle x 4.20 m, y 2.30 m, first +x+y",
        "rectangle; x; 4.2[m]; ,; y; 2.3[m]; ,; first; axis +x+y",
    );
}

#[test]
fn a_point_keeps_its_coordinates_apart() {
    reads("at (32.3 m, 5.4 m)", "at; (32.3[m]; ,; 5.4[m])");
    reads(
        "T2 at (0, -1.75 m, 0.55 m)",
        "T2; at; (#0; ,; -1.75[m]; ,; 0.55[m])",
    );
    reads(
        "(8.0 m, 10.6 m, EL 117.90 m)",
        "(8[m]; ,; 10.6[m]; ,; EL; 117.9[m])",
    );
    reads("(100'-0\", 45'-6\")", "(1200[in]; ,; 546[in])");
    reads("(unknown, 5 m)", "(unknown; ,; 5[m])");
    reads(
        "hook (1 m, 2 m) +/- 20 mm",
        "hook; {(1[m]; ,; 2[m]) +/- 20[mm]}",
    );
}

#[test]
fn ranges_go_between_numbers_names_and_days() {
    reads("S1 .. S4", "{S1 .. S4}");
    reads("L1..L4", "{L1 .. L4}");
    reads("start 0.02 .. 0.06", "start; {#0.02 .. #0.06}");
    reads("start 0.02..0.06", "start; {#0.02 .. #0.06}");
    reads("5..8 t", "{#5 .. 8[t]}");
    reads("-5..-3 m", "{#-5 .. -3[m]}");
    reads(
        "2026-10-01 .. 2026-10-05",
        "{date 2026-10-01 .. date 2026-10-05}",
    );
    reads("EL 41.20 m .. 41.95 m", "EL; {41.2[m] .. 41.95[m]}");
}

#[test]
fn counts_and_sizes() {
    reads(
        "pushes 2 of push-20, clamped",
        "pushes; {2 of push-20}; ,; clamped",
    );
    reads("bolts 16 of 1-1/2 in", "bolts; {16 of 1.5[in]}");
    reads("wheels 8 of 250 mm", "wheels; {8 of 250[mm]}");
    reads("foot 300 mm x 40 mm", "foot; {300[mm] x 40[mm]}");
    reads("box 1 m x 2 m x 3 m", "box; {1[m] x 2[m] x 3[m]}");
    reads("pads 4 of 2.4 m x 1.2 m", "pads; {4 of {2.4[m] x 1.2[m]}}");
}

#[test]
fn quoted_text_dates_slopes_and_marks() {
    reads(
        "quote \"62 tons # at x\" read-as metric",
        "quote; \"62 tons # at x\"; read-as; metric",
    );
    reads(
        "revision C 2026-10-12 stage bid",
        "revision; C; date 2026-10-12; stage; bid",
    );
    reads("fall 1:200", "fall; slope 1:200");
    reads("fall -1:50", "fall; slope -1:50");
    reads("let wall = 600 mm", "let; wall; mark =; 600[mm]");
    reads("let wall=600 mm", "let; wall; mark =; 600[mm]");
    reads("ratio <= 5", "ratio; mark <=; #5");
    reads("now \"\"", "now; \"\"");
}

#[test]
fn values_are_computed_with_products_before_sums() {
    reads("2 * 14.5 t + 300 kg", "{{#2 * 14.5[t]} + 300[kg]}");
    reads("300 kg + 2 * 14.5 t", "{300[kg] + {#2 * 14.5[t]}}");
    reads("10 m - 3 m - 2 m", "{{10[m] - 3[m]} - 2[m]}");
    reads("wall / 2", "{wall / #2}");
    reads("2 * (14.5 t + 300 kg)", "{#2 * {14.5[t] + 300[kg]}}");
    reads(
        "wide wall + 2 * 50 mm, high 3 m",
        "wide; {wall + {#2 * 50[mm]}}; ,; high; 3[m]",
    );
    reads("5 m - -3 m", "{5[m] - -3[m]}");
}

#[test]
fn feet_and_inches_are_read_as_drawings_have_them() {
    reads("12'", "12[ft]");
    reads("12.5'", "12.5[ft]");
    reads("12'-6\"", "150[in]");
    reads("12'6\"", "150[in]");
    reads("12'-6 1/2\"", "150.5[in]");
    reads("12'-6-1/2\"", "150.5[in]");
    reads("12' 6\"", "150[in]");
    reads("12' 6 1/2\"", "150.5[in]");
    reads("12' 6-1/2\"", "150.5[in]");
    reads("12'-1/2\"", "144.5[in]");
    reads("12'-0\"", "144[in]");
    reads("-12'-6\"", "-150[in]");
    reads("12′-6″", "150[in]");
    reads("12′ 6 1/2″", "150.5[in]");
    reads(
        "outside 20'-4\", inside 15'-2\"",
        "outside; 244[in]; ,; inside; 182[in]",
    );
    reads("1'-8\" +/- 4 in", "{20[in] +/- 4[in]}");
    reads("98'-0\" .. 142'-0\"", "{1176[in] .. 1704[in]}");
    reads("24\"", "24[in]");
    reads("1-1/8\"", "1.125[in]");
}

#[test]
fn fractions_stand_before_a_unit() {
    reads("1-1/8 in", "1.125[in]");
    reads("1/4 in", "0.25[in]");
    reads("1-1/8in", "1.125[in]");
    reads("-1-1/8 in", "-1.125[in]");
    reads("slope 1/50", "slope; #0.02");
}

#[test]
fn units_may_be_glued_when_all_the_rest_is_a_unit() {
    reads("14.5t", "14.5[t]");
    reads("12°", "12[deg]");
    reads("12 °", "12[deg]");
    reads("8%", "8[%]");
    reads("24ft", "24[ft]");
    reads("500 psf", "500[psf]");
    reads("140 kPa", "140[kPa]");
}
