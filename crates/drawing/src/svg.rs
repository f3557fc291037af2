//! A scene as SVG.

use crate::geometry::bounded;
use crate::palette::{Theme, css};
use crate::scene::{Form, Label, Path, Run, Scene, Shape, Step};
use crate::text;

/// What a picture is written for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dress {
    /// Inner markup of an `svg` element, dressed by [`css`].
    Page,
    /// A complete file with colours of its own.
    File(Theme),
}

/// A scene as SVG. All text is escaped.
#[must_use]
pub fn write_svg(scene: &Scene, dress: Dress) -> String {
    let mut out = Writer { text: String::with_capacity(160 * scene.shapes.len() + 400 * scene.labels.len()) };
    if let Dress::File(theme) = dress {
        out.head(scene, theme);
    }
    for shape in &scene.shapes {
        out.shape(shape);
    }
    for label in &scene.labels {
        out.label(label);
    }
    if let Dress::File(_) = dress {
        out.put("</svg>\n");
    }
    out.text
}

struct Writer {
    text: String,
}

impl Writer {
    fn put(&mut self, markup: &str) {
        self.text.push_str(markup);
    }

    fn escaped(&mut self, text: &str) {
        for letter in text.chars() {
            match letter {
                '&' => self.put("&amp;"),
                '<' => self.put("&lt;"),
                '>' => self.put("&gt;"),
                '"' => self.put("&quot;"),
                '\'' => self.put("&#39;"),
                // Control characters have no place in XML.
                '\u{0}'..='\u{1f}' | '\u{7f}' | '\u{fffe}' | '\u{ffff}' => self.put(" "),
                letter => self.text.push(letter),
            }
        }
    }

    /// A number to a tenth; what is not a number is 0, what is beyond a million is a million.
    fn number(&mut self, value: f64) {
        #[expect(clippy::cast_possible_truncation, reason = "clamped, and a tenth is all that is seen")]
        let tenths = bounded((value * 10.0).round(), -1e7, 1e7) as i32;
        if tenths < 0 {
            self.put("-");
        }
        self.whole(tenths.unsigned_abs() / 10);
        let tenth = tenths.unsigned_abs() % 10;
        if tenth > 0 {
            self.put(".");
            self.whole(tenth);
        }
    }

    fn whole(&mut self, value: u32) {
        if value >= 10 {
            self.whole(value / 10);
        }
        self.text.push(char::from_digit(value % 10, 10).unwrap_or('0'));
    }

    fn point(&mut self, (x, y): (f64, f64)) {
        self.number(x);
        self.put(" ");
        self.number(y);
    }

    fn attribute(&mut self, name: &str, value: f64) {
        self.put(" ");
        self.put(name);
        self.put("=\"");
        self.number(value);
        self.put("\"");
    }

    fn shape(&mut self, shape: &Shape) {
        match &shape.form {
            Form::Path(path) => {
                if path.steps.is_empty() {
                    return;
                }
                self.put("<path class=\"");
                self.put(shape.ink.class());
                self.put("\" d=\"");
                self.path(path);
                self.put("\"/>");
            }
            Form::Circle { centre, radius } => {
                self.put("<circle class=\"");
                self.put(shape.ink.class());
                self.put("\"");
                self.attribute("cx", centre.0);
                self.attribute("cy", centre.1);
                self.attribute("r", *radius);
                self.put("/>");
            }
        }
    }

    fn path(&mut self, path: &Path) {
        for step in &path.steps {
            match *step {
                Step::Move(to) => {
                    self.put("M");
                    self.point(to);
                }
                Step::Line(to) => {
                    self.put("L");
                    self.point(to);
                }
                Step::Curve(control, to) => {
                    self.put("Q");
                    self.point(control);
                    self.put(" ");
                    self.point(to);
                }
                Step::Close => self.put("Z"),
            }
        }
    }

    fn label(&mut self, label: &Label) {
        self.put("<g role=\"img\" aria-label=\"");
        self.escaped(&label.spoken);
        self.put("\">");
        let height = label.height / f64::from(u32::try_from(label.lines.len()).unwrap_or(1).max(1));
        let mut middle = label.top + height / 2.0;
        for line in &label.lines {
            self.put("<text class=\"");
            self.put(label.ink.class());
            self.put("\"");
            self.attribute("x", label.left + label.width / 2.0);
            self.attribute("y", middle + text::BASELINE * label.size);
            self.attribute("font-size", label.size);
            self.put(">");
            self.runs(line, label.size);
            self.put("</text>");
            middle += height;
        }
        self.put("</g>");
    }

    fn runs(&mut self, line: &[Run], label_size: f64) {
        // Where the baseline stands against the text's own.
        let mut raised = 0.0;
        for run in line {
            match run {
                Run::Text(words) => {
                    self.piece(raised, (0.0, 0.0), 0.0);
                    self.words(words);
                    raised = 0.0;
                }
                Run::Fraction(above, below) => {
                    let size = text::fraction_size(label_size);
                    let (up, down) = (text::RAISED * label_size, -text::LOWERED * label_size);
                    self.piece(raised, (up, 0.0), size);
                    self.words(&text::digits(*above));
                    // The slash leans over both neighbours: it is given air.
                    let air = text::SLASH_AIR * label_size;
                    self.piece(up, (0.0, air), label_size);
                    self.words("\u{2044}");
                    self.piece(0.0, (down, air), size);
                    self.words(&text::digits(*below));
                    raised = down;
                }
            }
        }
    }

    /// Opens a piece of text on a baseline of its own, some way to the right; a
    /// size of 0 is the text's.
    fn piece(&mut self, raised: f64, (to, right): (f64, f64), size: f64) {
        self.put("<tspan");
        if (raised - to).abs() > 0.01 {
            self.attribute("dy", raised - to);
        }
        if right > 0.0 {
            self.attribute("dx", right);
        }
        if size > 0.0 {
            self.attribute("font-size", size);
        }
        self.put(">");
    }

    fn words(&mut self, words: &str) {
        self.escaped(words);
        self.put("</tspan>");
    }

    fn head(&mut self, scene: &Scene, theme: Theme) {
        self.put("<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\"");
        self.attribute("width", scene.width_px);
        self.attribute("height", scene.height_px);
        self.put(" viewBox=\"0 0 ");
        self.point((scene.width_px, scene.height_px));
        for (attribute, id) in [("\" aria-labelledby=\"", "-title"), (" ", "-desc")] {
            self.put(attribute);
            self.escaped(&scene.prefix);
            self.put(id);
        }
        self.put("\"><title id=\"");
        self.escaped(&scene.prefix);
        self.put("-title\">");
        self.escaped(&scene.title);
        self.put("</title><desc id=\"");
        self.escaped(&scene.prefix);
        self.put("-desc\">");
        self.escaped(&scene.description);
        self.put("</desc><style>");
        // Quotes of the style's fonts are escaped too, which XML undoes.
        self.escaped(&css(theme, "svg"));
        self.put("</style><rect width=\"100%\" height=\"100%\" fill=\"");
        self.put(crate::palette::Colour::Paper.on(theme));
        self.put("\"/>");
    }
}
