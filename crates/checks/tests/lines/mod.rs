//! The lines of the example's files, and what can be done to one.

/// A line that says something: neither blank, nor a comment, nor a header.
#[derive(Debug, Clone)]
pub(crate) struct Line {
    file: usize,
    number: usize,
    /// As it stands.
    pub(crate) text: String,
    /// Its first word; `|` for a row.
    pub(crate) key: String,
    /// Whether another line of the same entry has the same key.
    pub(crate) has_twin: bool,
    /// Whether it is a row of a table, other than the one that names its columns.
    pub(crate) is_row: bool,
}

/// The files of a case, by name.
pub(crate) type Files = Vec<(&'static str, String)>;

/// Every line that says something.
pub(crate) fn lines(files: &Files) -> Vec<Line> {
    let mut all = Vec::new();
    for (file, (_, text)) in files.iter().enumerate() {
        let mut entry: Vec<Line> = Vec::new();
        for (number, text) in text.lines().enumerate() {
            let says = text.trim();
            if says.is_empty() || says.starts_with('#') {
                continue;
            }
            if !text.starts_with(' ') {
                all.append(&mut entry);
                continue;
            }
            let key = says
                .split_whitespace()
                .next()
                .unwrap_or_default()
                .to_owned();
            let twin = entry.iter_mut().find(|line| line.key == key);
            let has_twin = twin.is_some();
            let is_row = key == "|" && has_twin;
            if let Some(twin) = twin.filter(|_| key != "|") {
                twin.has_twin = true;
            }
            entry.push(Line {
                file,
                number,
                text: text.to_owned(),
                key,
                has_twin,
                is_row,
            });
        }
        all.append(&mut entry);
    }
    all
}

/// Keys with a name between the key and the value.
const NAMED: [&str; 11] = [
    "revision", "hook", "hole", "cavity", "datum", "spot", "part", "density", "hold", "fixed",
    "slewing",
];

impl Line {
    /// The line taken away, its value `unknown`, and broken, each with its word.
    pub(crate) fn changes(&self) -> [(&'static str, Option<String>); 3] {
        [
            ("taken away", None),
            ("unknown", Some(self.unknown())),
            ("broken", Some(self.broken())),
        ]
    }

    fn unknown(&self) -> String {
        if self.key == "|" {
            let cells = self.text.matches('|').count().saturating_sub(1);
            return format!("    |{}", " unknown |".repeat(cells));
        }
        let words: Vec<&str> = self.text.split_whitespace().collect();
        let name = words.get(1).filter(|_| NAMED.contains(&self.key.as_str()));
        format!("  {} {} unknown", self.key, name.unwrap_or(&""))
    }

    fn broken(&self) -> String {
        match self.text.rfind('|').filter(|_| self.key == "|") {
            Some(end) => format!("{} ?junk |", &self.text[..end]),
            None => format!("{} ?junk", self.text),
        }
    }

    /// The files with this line in place of what stands there; `None` takes it out.
    pub(crate) fn put(&self, files: &Files, with: Option<&str>) -> Files {
        let mut files = files.clone();
        let text = &files[self.file].1;
        let kept = text.lines().enumerate().filter_map(|(number, line)| {
            if number == self.number {
                with
            } else {
                Some(line)
            }
        });
        files[self.file].1 = kept.flat_map(|line| [line, "\n"]).collect();
        files
    }
}
