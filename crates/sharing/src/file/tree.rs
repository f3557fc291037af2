//! The shape of JSON, and its one printer.

/// Anything that JSON can say. Objects keep their order.
#[derive(Clone, Debug, PartialEq)]
pub enum Tree {
    /// `{ … }`
    Object(Vec<(String, Self)>),
    /// `[ … ]`
    List(Vec<Self>),
    /// A number. JSON has no others than finite ones.
    Number(f64),
    /// Text.
    Text(String),
    /// `true` or `false`
    Bool(bool),
    /// `null`
    Null,
}

/// An object as it is written.
///
/// Member by member, by the same two functions: a list of members of each length would be compiled for itself.
#[derive(Debug, Default)]
pub(super) struct Object(Vec<(String, Tree)>);

impl Object {
    /// One more member, behind the others.
    #[inline(never)]
    pub(super) fn add(&mut self, key: &str, tree: Tree) {
        self.0.push((key.to_owned(), tree));
    }

    /// One more member that is text.
    #[inline(never)]
    pub(super) fn add_text(&mut self, key: &str, text: &str) {
        self.add(key, Tree::text(text));
    }

    /// One more member that is a number, or nothing.
    #[inline(never)]
    pub(super) fn add_number(&mut self, key: &str, value: Option<f64>) {
        self.add(key, value.map_or(Tree::Null, Tree::Number));
    }

    /// One more member where it has members itself.
    pub(super) fn add_unless_empty(&mut self, key: &str, object: Self) {
        if !object.0.is_empty() {
            self.add(key, object.into());
        }
    }
}

impl From<Object> for Tree {
    fn from(object: Object) -> Self {
        Self::Object(object.0)
    }
}

/// Decimals that are printed; numbers of a design have two.
const DECIMALS: u8 = 4;
/// Width of a line into which a list or object without inner ones is put, characters.
const LINE: usize = 80;

/// A tree as JSON text, indented by two spaces, ending with a line end.
///
/// The same tree always gives the same text. Numbers are rounded to four
/// decimals; one that is not finite is `null`.
#[must_use]
pub fn print_json(tree: &Tree) -> String {
    let mut out = String::new();
    print(tree, 0, &mut out);
    out.push('\n');
    out
}

impl Tree {
    pub(super) fn text(text: &str) -> Self {
        Self::Text(text.to_owned())
    }

    pub(super) fn object<const N: usize>(members: [(&str, Self); N]) -> Self {
        Self::Object(members.into_iter().map(|(key, tree)| (key.to_owned(), tree)).collect())
    }

    fn has_inner(&self) -> bool {
        matches!(self, Self::Object(_) | Self::List(_))
    }
}

fn print(tree: &Tree, depth: usize, out: &mut String) {
    match tree {
        Tree::Object(members) => {
            let flat = !members.iter().any(|(_, tree)| tree.has_inner());
            block(members, flat, ['{', '}'], depth, out, |(key, tree), out| {
                quote(key, out);
                out.push_str(": ");
                print(tree, depth + 1, out);
            });
        }
        Tree::List(items) => {
            let flat = !items.iter().any(Tree::has_inner);
            block(items, flat, ['[', ']'], depth, out, |tree, out| print(tree, depth + 1, out));
        }
        Tree::Number(value) => out.push_str(&number_text(*value)),
        Tree::Text(text) => quote(text, out),
        Tree::Bool(true) => out.push_str("true"),
        Tree::Bool(false) => out.push_str("false"),
        Tree::Null => out.push_str("null"),
    }
}

/// The items between brackets, on one line where they are flat and fit it.
fn block<T>(
    items: &[T],
    flat: bool,
    [open, close]: [char; 2],
    depth: usize,
    out: &mut String,
    print: impl Fn(&T, &mut String),
) {
    out.push(open);
    if flat {
        let mut line = String::new();
        for (place, item) in items.iter().enumerate() {
            line.push_str(if place > 0 { ", " } else { "" });
            print(item, &mut line);
        }
        if line.chars().count() <= LINE {
            let space = if line.is_empty() || open == '[' { "" } else { " " };
            for piece in [space, &line, space] {
                out.push_str(piece);
            }
            out.push(close);
            return;
        }
    }
    for (place, item) in items.iter().enumerate() {
        out.push_str(if place > 0 { "," } else { "" });
        new_line(depth + 1, out);
        print(item, out);
    }
    new_line(depth, out);
    out.push(close);
}

fn new_line(depth: usize, out: &mut String) {
    out.push('\n');
    for _ in 0..depth {
        out.push_str("  ");
    }
}

/// A number in as few decimals as say it.
pub(super) fn number_text(value: f64) -> String {
    shortest(value, DECIMALS)
}

/// The same with so many decimals at most.
pub(super) fn shortest(value: f64, decimals: u8) -> String {
    measure::without_zeros(&measure::fixed(value, decimals)).to_owned()
}

fn quote(text: &str, out: &mut String) {
    out.push('"');
    for letter in text.chars() {
        match letter {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            '\n' => out.push_str("\\n"),
            '\u{0}'..='\u{1f}' | '\u{7f}' => {
                let code = u32::from(letter);
                out.push_str("\\u00");
                for digit in [code >> 4, code & 15] {
                    out.push(char::from_digit(digit, 16).unwrap_or('0'));
                }
            }
            _ => out.push(letter),
        }
    }
    out.push('"');
}
