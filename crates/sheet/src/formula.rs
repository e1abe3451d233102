//! A formula, read back from the very expression that computed it.

/// The expression of a [`crate::step!`] and the symbol of its result.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Formula {
    /// Symbol of the result.
    pub out: &'static str,
    /// The Rust expression, as written.
    pub expression: &'static str,
}

/// The expression as a tree; only what [`crate::step!`] is used with.
enum Tree {
    Symbol(String),
    Number(String),
    Binary(char, Box<Tree>, Box<Tree>),
    /// `f(a)` or `a.f()`.
    Call(String, Box<Tree>),
    Group(Box<Tree>),
}

impl Formula {
    /// The formula in plain text: "`T_leg` = W / (n * sin(alpha))" with the signs of print.
    pub fn text(&self) -> String {
        format!("{} = {}", self.out, self.filled(&|_| None))
    }

    /// The right side with values in place of the symbols that `value` knows.
    pub fn filled(&self, value: &dyn Fn(&str) -> Option<String>) -> String {
        write(&Reader::new(self.expression).sum(), value)
    }
}

fn write(tree: &Tree, value: &dyn Fn(&str) -> Option<String>) -> String {
    match tree {
        Tree::Symbol(symbol) => value(symbol).unwrap_or_else(|| symbol.clone()),
        Tree::Number(number) => number.clone(),
        Tree::Binary('*', left, right) => {
            format!("{} x {}", write(left, value), write(right, value))
        }
        Tree::Binary(op, left, right) => {
            format!("{} {op} {}", write(left, value), write(right, value))
        }
        Tree::Call(name, inner) => match inner.as_ref() {
            Tree::Group(bare) => format!("{name}({})", write(bare, value)),
            other => format!("{name}({})", write(other, value)),
        },
        Tree::Group(inner) => format!("({})", write(inner, value)),
    }
}

struct Reader {
    chars: Vec<char>,
    at: usize,
}

impl Reader {
    fn new(text: &str) -> Self {
        Self {
            chars: text.chars().filter(|c| !c.is_whitespace()).collect(),
            at: 0,
        }
    }

    fn peek(&self) -> Option<char> {
        self.chars.get(self.at).copied()
    }

    fn take(&mut self, wanted: &[char]) -> Option<char> {
        let next = self.peek().filter(|c| wanted.contains(c))?;
        self.at += 1;
        Some(next)
    }

    fn sum(&mut self) -> Tree {
        let mut left = self.product();
        while let Some(op) = self.take(&['+', '-']) {
            left = Tree::Binary(op, Box::new(left), Box::new(self.product()));
        }
        left
    }

    fn product(&mut self) -> Tree {
        let mut left = self.atom();
        while let Some(op) = self.take(&['*', '/']) {
            left = Tree::Binary(op, Box::new(left), Box::new(self.atom()));
        }
        left
    }

    fn group(&mut self) -> Tree {
        let inner = self.sum();
        self.take(&[')']);
        Tree::Group(Box::new(inner))
    }

    fn atom(&mut self) -> Tree {
        let mut tree = if self.take(&['(']).is_some() {
            self.group()
        } else {
            let word = self.word();
            if self.take(&['(']).is_some() {
                let inner = self.group();
                Tree::Call(word, Box::new(inner))
            } else if word.starts_with(|c: char| c.is_ascii_digit()) {
                Tree::Number(word)
            } else {
                Tree::Symbol(word)
            }
        };
        // `angle.sin()` is shown as sin(angle); a method's argument is shown after it.
        while self.peek() == Some('.') {
            self.at += 1;
            let method = self.word();
            if self.take(&['(']).is_some() {
                if self.take(&[')']).is_none() {
                    let argument = self.group();
                    tree = Tree::Call(
                        method,
                        Box::new(Tree::Binary(',', Box::new(tree), Box::new(argument))),
                    );
                    continue;
                }
                tree = Tree::Call(method, Box::new(tree));
            }
        }
        tree
    }

    fn word(&mut self) -> String {
        let start = self.at;
        let digits = self.peek().is_some_and(|c| c.is_ascii_digit());
        while self
            .peek()
            .is_some_and(|c| c.is_alphanumeric() || c == '_' || (digits && c == '.'))
        {
            self.at += 1;
        }
        // An unknown sign is taken as a word of its own: the reader always moves on.
        if self.at == start && self.peek().is_some_and(|c| c != ')') {
            self.at += 1;
        }
        self.chars[start..self.at].iter().collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn formula(expression: &'static str) -> Formula {
        Formula {
            out: "T",
            expression,
        }
    }

    #[test]
    fn the_expression_that_computes_is_the_formula_that_is_shown() {
        assert_eq!(
            formula("W / (n * horizontal_angle.sin())").text(),
            "T = W / (n x sin(horizontal_angle))"
        );
        assert_eq!(formula("a + b - 2.5 * c").text(), "T = a + b - 2.5 x c");
    }

    #[test]
    fn numbers_are_put_in_where_they_are_known() {
        let filled = formula("W / n").filled(&|s| (s == "W").then(|| "31.5 t".to_owned()));
        assert_eq!(filled, "31.5 t / n");
    }

    #[test]
    fn an_unfinished_expression_ends() {
        for odd in ["", "(", "a +", ")", "a..b", "f(", "&x"] {
            let _ = formula(odd).text();
        }
    }
}
