//! A drawing of a figure: elevation (x to the right, z up) beside plan (x to the right, y up), one scale.
//!
//! Roles choose the pen; no colour stands for a verdict. Every label is set where it covers no other label.

mod hull;
mod labels;
mod pen;
mod view;

use crate::DECISION_SUPPORT;
use crate::human::clean;
use plumbhook_sheet::Figure;
use svg::Document;
use svg::node::element::{Rectangle, Text};
use view::{Sides, View};

/// Pixels of the whole drawing, left to right.
const WIDTH: f64 = 960.0;
/// Pixels between things.
const MARGIN: f64 = 24.0;
/// Pixels above the views: the title.
const HEAD: f64 = 64.0;
/// Pixels below the views.
const FOOT: f64 = 44.0;
/// Pixels inside a view that are kept free for labels, on each side.
const ROOM: f64 = 78.0;
/// Most and fewest pixels of a view's height.
const HEIGHT: (f64, f64) = (240.0, 640.0);

/// The figure as one SVG file.
pub fn draw(figure: &Figure) -> String {
    let places: Vec<_> = figure
        .places()
        .filter(|place| place.iter().all(|metres| metres.is_finite()))
        .collect();
    let width = (WIDTH - 3.0 * MARGIN) / 2.0;
    let reach = |axis: usize| {
        let on_axis = places.iter().filter_map(|place| place.get(axis).copied());
        let (least, most) = on_axis.fold((f64::MAX, f64::MIN), |(least, most), at| {
            (least.min(at), most.max(at))
        });
        if least > most {
            (0.0, 0.0)
        } else {
            (least, most)
        }
    };
    let (x, y, z) = (reach(0), reach(1), reach(2));
    let size = |(least, most): (f64, f64)| (most - least).max(1e-3);
    // One scale for both views, so that lengths compare.
    let across = (width - 2.0 * ROOM) / size(x);
    let upward = (HEIGHT.1 - 2.0 * ROOM) / size(z).max(size(y));
    let scale = across.min(upward);
    let tall = size(z).max(size(y)) * scale + 2.0 * ROOM;
    let height = tall.max(HEIGHT.0);
    let views = [
        View::new(
            "Elevation",
            Sides { right: 0, up: 2 },
            (x, z),
            (MARGIN, HEAD, width, height),
            scale,
        ),
        View::new(
            "Plan",
            Sides { right: 0, up: 1 },
            (x, y),
            (2.0 * MARGIN + width, HEAD, width, height),
            scale,
        ),
    ];
    let whole = HEAD + height + FOOT;
    let mut document = Document::new()
        .set("viewBox", (0, 0, rounded(WIDTH), rounded(whole)))
        .set("width", rounded(WIDTH))
        .set("height", rounded(whole))
        .set("font-family", "Helvetica, Arial, sans-serif")
        .add(svg::node::element::Title::new(clean(&figure.title)))
        .add(
            Rectangle::new()
                .set("width", "100%")
                .set("height", "100%")
                .set("fill", pen::PAPER),
        )
        .add(words(&figure.title, MARGIN, 32.0, 17.0));
    for view in views {
        document = document.add(view.draw(figure));
    }
    document = document.add(words(DECISION_SUPPORT, MARGIN, whole - 16.0, 11.0));
    format!("{document}\n")
}

/// A line of text at the left.
fn words(text: &str, x: f64, y: f64, size: f64) -> Text {
    Text::new(clean(text))
        .set("x", rounded(x))
        .set("y", rounded(y))
        .set("font-size", rounded(size))
        .set("fill", pen::INK)
}

/// To a tenth of a pixel: nothing finer is seen, and files compare.
fn rounded(pixels: f64) -> f64 {
    (pixels * 10.0).round() / 10.0 + 0.0
}
