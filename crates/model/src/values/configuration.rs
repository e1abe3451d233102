//! How a machine is set up: labelled items, as its charts name them.

use crate::declare::Shape;
use crate::{Cursor, Fail, Value};
use plumbhook_syntax::Node;
use plumbhook_units::Dimension;

/// `boom 36.2 m, counterweight 54 t, tracks out, zone all-round`.
#[derive(Clone, Debug)]
pub struct Configuration(pub Vec<Setting>);

/// One item of it.
#[derive(Clone, Debug)]
pub struct Setting {
    /// What is set: `boom`.
    pub label: Box<str>,
    /// As written: `36.2 m`.
    pub written: Box<str>,
    value: Set,
}

#[derive(Clone, Debug)]
enum Set {
    Amount(f64, Dimension),
    Words,
}

impl Setting {
    /// Whether both set the same to the same; 36.2 m is 3620 cm.
    pub fn same(&self, other: &Self) -> bool {
        let value = match (&self.value, &other.value) {
            (Set::Amount(a, of), Set::Amount(b, also)) => {
                of == also && (a - b).abs() <= 1e-9 * a.abs().max(b.abs())
            }
            (Set::Words, Set::Words) => self.written == other.written,
            _ => false,
        };
        self.label == other.label && value
    }
}

impl Configuration {
    /// In words.
    pub fn words(&self) -> String {
        let all: Vec<String> = self
            .0
            .iter()
            .map(|setting| format!("{} {}", setting.label, setting.written))
            .collect();
        all.join(", ")
    }

    /// What keeps both from being one configuration, in words; empty where they are. An item that one of them does
    /// not mention is as open as one that differs.
    pub fn differences(&self, other: &Self) -> Vec<String> {
        let of = |all: &Self, label: &str| {
            let setting = all.0.iter().find(|setting| &*setting.label == label);
            setting.map(|setting| setting.written.clone())
        };
        let mut differences = Vec::new();
        for setting in &self.0 {
            match other.0.iter().find(|also| also.label == setting.label) {
                Some(also) if setting.same(also) => {}
                Some(also) => differences.push(format!(
                    "{} {}, not {}",
                    setting.label, also.written, setting.written
                )),
                None => differences.push(format!("no word of {}", setting.label)),
            }
        }
        let unasked = other
            .0
            .iter()
            .filter(|also| of(self, &also.label).is_none());
        differences.extend(unasked.map(|also| format!("{} {} too", also.label, also.written)));
        differences
    }

    /// Reads items up to the end of the line.
    pub fn read_part(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        let mut settings: Vec<Setting> = Vec::new();
        loop {
            let (label, place) = line.name("what is set, as `boom 36.2 m`")?;
            if settings.iter().any(|setting| &*setting.label == label) {
                return Err(line.broken_at(place, format!("`{label}` is set twice"), ""));
            }
            settings.push(setting(line, label)?);
            if !line.comma() {
                return Ok(Self(settings));
            }
        }
    }
}

fn setting(line: &mut Cursor<'_, '_>, label: &str) -> Result<Setting, Fail> {
    let mut value = Set::Words;
    let mut place: Option<plumbhook_syntax::Place> = None;
    let mut count = 0;
    while let Some(item) = line.peek() {
        match &item.node {
            Node::Comma => break,
            Node::Word("unknown") => return Err(Fail::Unknown),
            Node::Quantity {
                value: amount,
                unit,
                ..
            } => {
                value = Set::Amount(unit.to_si(*amount), unit.dimension);
            }
            Node::Number { value: number, .. } => value = Set::Amount(*number, Dimension::NONE),
            Node::Word(_) | Node::Text(_) => value = Set::Words,
            _ => return Err(line.broken("this sets nothing", "as `boom 36.2 m` or `tracks out`")),
        }
        place = Some(place.map_or(item.place, |first| first.to(item.place)));
        count += 1;
        line.take();
    }
    let Some(place) = place else {
        let say = format!("what `{label}` is set to is missing");
        return Err(line.broken(say, "as `boom 36.2 m` or `tracks out`"));
    };
    // Several items are words together: `zone over rear`.
    if count > 1 {
        value = Set::Words;
    }
    Ok(Setting {
        label: label.into(),
        written: place.of(line.text).into(),
        value,
    })
}

impl Value for Configuration {
    const SHAPE: Shape = Shape::said(
        "what is set and to what, separated by commas: `boom 36.2 m, counterweight 54 t, tracks out, zone all-round`",
    );

    fn read(line: &mut Cursor<'_, '_>) -> Result<Self, Fail> {
        Self::read_part(line)
    }
}
