//! A scene as SVG: its elements, and a file of them.

use crate::geometry::bounded;
use crate::palette::{Colour, Theme, css};
use crate::path::{Path, Step};
use crate::scene::{Form, Label, Run, Scene, Shape};
use crate::text;
use std::borrow::Cow;

/// An element of a picture. A page keeps it and sets only what differs in the next picture.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Element {
    /// `path`, or `g`, `text` and `tspan` of a label.
    pub tag: &'static str,
    /// Names and values, not escaped.
    pub attributes: Vec<(&'static str, Cow<'static, str>)>,
    /// Text inside, not escaped.
    pub text: String,
    /// Elements inside, where there is no text.
    pub inside: Vec<Self>,
}

/// The shapes of a scene and its labels, each from the first, beneath, to the last, on top;
/// dressed by [`css`].
#[must_use]
pub fn elements(scene: &Scene) -> [Vec<Element>; 2] {
    [
        scene.shapes.iter().map(Element::of_shape).collect(),
        scene.labels.iter().map(Element::of_label).collect(),
    ]
}

/// A scene as a complete SVG file with colours of its own. All text is escaped.
#[must_use]
pub fn write_svg(scene: &Scene, theme: Theme) -> String {
    let id = |end: &str| scene.prefix.clone() + end;
    let named = |tag, end: &str, text: &str| {
        let mut element = Element { tag, text: text.to_owned(), ..Element::default() };
        element.set("id", id(end));
        element
    };
    let mut paper = Element { tag: "rect", ..Element::default() };
    paper.set("width", "100%");
    paper.set("height", "100%");
    paper.set("fill", Colour::Paper.on(theme));
    let style = Element { tag: "style", text: css(theme, "svg"), ..Element::default() };
    let mut file = Element { tag: "svg", ..Element::default() };
    file.set("xmlns", "http://www.w3.org/2000/svg");
    file.set("role", "img");
    file.number("width", scene.width_px);
    file.number("height", scene.height_px);
    file.set("viewBox", "0 0 ".to_owned() + &point((scene.width_px, scene.height_px)));
    file.set("aria-labelledby", id("-title ") + &id("-desc"));
    file.inside = vec![named("title", "-title", &scene.title), named("desc", "-desc", &scene.description)];
    file.inside.extend([style, paper]);
    file.inside.extend(elements(scene).into_iter().flatten());
    let mut out = String::new();
    write(&mut out, &file);
    out.push('\n');
    out
}

fn write(out: &mut String, element: &Element) {
    out.push('<');
    out.push_str(element.tag);
    for (name, value) in &element.attributes {
        out.push(' ');
        out.push_str(name);
        out.push_str("=\"");
        escape(out, value);
        out.push('"');
    }
    out.push('>');
    escape(out, &element.text);
    for inside in &element.inside {
        write(out, inside);
    }
    out.push_str("</");
    out.push_str(element.tag);
    out.push('>');
}

fn escape(out: &mut String, text: &str) {
    for letter in text.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            // Control characters have no place in XML.
            '\u{0}'..='\u{1f}' | '\u{7f}' | '\u{fffe}' | '\u{ffff}' => out.push(' '),
            letter => out.push(letter),
        }
    }
}

impl Element {
    fn set(&mut self, name: &'static str, value: impl Into<Cow<'static, str>>) {
        self.put(name, value.into());
    }

    #[inline(never)]
    fn put(&mut self, name: &'static str, value: Cow<'static, str>) {
        self.attributes.push((name, value));
    }

    fn number(&mut self, name: &'static str, value: f64) {
        let mut out = String::new();
        number(&mut out, value);
        self.set(name, out);
    }
}

/// A number to a tenth; what is not a number is 0, what is beyond a million is a million.
fn number(out: &mut String, value: f64) {
    #[expect(clippy::cast_possible_truncation, reason = "clamped, and a tenth is all that is seen")]
    let tenths = bounded((value * 10.0).round(), -1e7, 1e7) as i32;
    // From the last digit to the first: a picture holds some thousand numbers.
    let mut text = [0; 10];
    let mut at = text.len();
    let mut put = |digit: u8| {
        at -= 1;
        text[at] = digit;
    };
    let (mut left, last) = tenth(tenths.unsigned_abs());
    if last != b'0' {
        put(last);
        put(b'.');
    }
    loop {
        let (more, digit) = tenth(left);
        put(digit);
        left = more;
        if left == 0 {
            break;
        }
    }
    if tenths < 0 {
        put(b'-');
    }
    out.push_str(std::str::from_utf8(&text[at..]).unwrap_or_default());
}

/// A tenth of a number, and its last digit. A product takes a fraction of the time of a division, which a
/// compiler that minds size would put here.
#[expect(clippy::cast_possible_truncation, reason = "a tenth of 32 bits, and a single digit")]
const fn tenth(value: u32) -> (u32, u8) {
    let tenth = ((value as u64 * 0xcccc_cccd) >> 35) as u32;
    (tenth, b'0' + (value - tenth * 10) as u8)
}

fn put(out: &mut String, before: &str, (x, y): (f64, f64)) {
    out.push_str(before);
    number(out, x);
    out.push(' ');
    number(out, y);
}

fn point(at: (f64, f64)) -> String {
    let mut out = String::new();
    put(&mut out, "", at);
    out
}

impl Element {
    /// A shape as a path; a circle is two arcs.
    #[must_use]
    pub fn of_shape(shape: &Shape) -> Self {
        let mut out = String::new();
        match &shape.form {
            Form::Path(path) => outline(&mut out, path),
            Form::Circle { centre, radius } => {
                put(&mut out, "M", (centre.0 - radius, centre.1));
                for way in [2.0, -2.0] {
                    put(&mut out, "a", (*radius, *radius));
                    put(&mut out, " 0 1 0 ", (way * radius, 0.0));
                }
            }
        }
        let mut element = Self { tag: "path", ..Self::default() };
        element.set("class", shape.ink.class());
        element.set("d", out);
        element
    }

    /// A label as a group that stands at its box's upper left corner: moved, it is not set anew.
    #[must_use]
    pub fn of_label(label: &Label) -> Self {
        let mut group = Self { tag: "g", ..Self::default() };
        group.set("role", "img");
        group.set("aria-label", label.spoken.clone());
        group.set("transform", "translate(".to_owned() + &point((label.left, label.top)) + ")");
        let height = label.height / f64::from(u32::try_from(label.lines.len()).unwrap_or(1).max(1));
        let mut middle = height / 2.0;
        for line in &label.lines {
            let mut text = Self { tag: "text", ..Self::default() };
            text.set("class", label.ink.class());
            text.number("x", label.width / 2.0);
            text.number("y", middle + text::BASELINE * label.size);
            text.number("font-size", label.size);
            match line.as_slice() {
                [Run::Text(words)] => text.text.clone_from(words),
                runs => text.inside = pieces(runs, label.size),
            }
            group.inside.push(text);
            middle += height;
        }
        group
    }
}

fn outline(out: &mut String, path: &Path) {
    for step in &path.steps {
        match *step {
            Step::Move(to) => put(out, "M", to),
            Step::Line(to) => put(out, "L", to),
            Step::Curve(control, to) => {
                put(out, "Q", control);
                put(out, " ", to);
            }
            Step::Close => out.push('Z'),
        }
    }
}

/// The pieces of a line with fractions, each on a baseline of its own.
fn pieces(line: &[Run], label_size: f64) -> Vec<Element> {
    let mut pieces = Vec::new();
    // Where the baseline stands against the text's own.
    let mut raised = 0.0;
    // A piece `to` above the baseline, with air on its left; a size of 0 is the text's.
    let mut piece = |to: f64, air: f64, size: f64, words: String| {
        let mut piece = Element { tag: "tspan", text: words, ..Element::default() };
        for (name, value) in [("dy", raised - to), ("dx", air), ("font-size", size)] {
            if value.abs() > 0.01 {
                piece.number(name, value);
            }
        }
        raised = to;
        pieces.push(piece);
    };
    for run in line {
        match run {
            Run::Text(words) => piece(0.0, 0.0, 0.0, words.clone()),
            Run::Fraction(above, below) => {
                let size = text::fraction_size(label_size);
                // The slash leans over both neighbours: it is given air.
                let air = text::SLASH_AIR * label_size;
                piece(text::RAISED * label_size, 0.0, size, text::digits(*above));
                piece(0.0, air, label_size, "\u{2044}".to_owned());
                piece(-text::LOWERED * label_size, air, size, text::digits(*below));
            }
        }
    }
    pieces
}
