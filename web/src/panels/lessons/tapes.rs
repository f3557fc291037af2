//! What as many tapes make of one corner: each answer of theirs a dot.

use crate::browser::slices::Slices;
use crate::dom::{Node, el, follow, loose, whole_number};
use crate::format::show_as_read;
use crate::signals::Value;
use crate::state::Page;
use study::{Draws, Figure, Sort, Trial};
use truck::{Edit, Kind, Overlay, Readable, Reading, Side};

/// How many tapes.
const TAPES: usize = 20;
/// The same ones each time.
const SEED: u64 = 7;
/// Half of the strip's width, and how far apart its rows are.
const HALF: f64 = 160.0;
const ROWS: usize = 5;

/// What is shown: an answer of a truck, or how much more it is than of another, and what fills half of the strip.
struct Asked {
    figure: Figure,
    of: usize,
    less: Option<usize>,
    half: f64,
}

impl Asked {
    /// *what of less half*, half in degrees or mm.
    fn read(asked: &str) -> Option<Self> {
        let mut words = asked.split(' ');
        let what = words.next()?;
        let figure = Figure::of_truck(what)?;
        let place = |word: &str| whole_number(word).and_then(|at| usize::try_from(at).ok());
        let (of, less) = (place(words.next()?)?, place(words.next()?));
        let half = f64::from(whole_number(words.next()?)?);
        let half = if figure.sort() == Sort::Angle { half.to_radians() } else { half };
        Some(Self { figure, of, less, half })
    }

    /// What a draw makes of it; `None` where a truck does not stand there.
    fn of_draw(&self, drawn: &Draws, draw: usize) -> Option<f64> {
        let value = |at| drawn.value(draw, at, self.figure)?.number();
        let less = match self.less {
            Some(at) => value(at)?,
            None => 0.0,
        };
        Some(value(self.of)? - less)
    }
}

/// The strip of what is asked for; it is worked out anew with every edit.
#[inline(never)]
pub(super) fn tapes(page: Page, asked: &str) -> Node {
    let Some(asked) = Asked::read(asked) else { return loose() };
    let (sort, half) = (asked.figure.sort(), asked.half);
    let found = Value::new(Vec::<f64>::new());
    let slices = Slices::new();
    let asked = std::rc::Rc::new(asked);
    follow(move || {
        let mut trials = Vec::new();
        page.store.with_committed(|design| {
            trials.push(Trial::new(&design.truck, Overlay::NOTHING));
            for proposal in &design.proposals {
                trials.push(Trial::new(&design.truck, Overlay::from(proposal)));
            }
        });
        let asked = std::rc::Rc::clone(&asked);
        let mut drawn = Draws::new(trials, Side::Left, &[asked.figure], SEED);
        slices.start(Box::new(move || {
            drawn.step(&|trial, figures| trial.values(Side::Left, figures));
            let is_done = drawn.count() >= TAPES;
            if is_done {
                let mut all = Vec::new();
                for draw in 0..TAPES {
                    all.extend(asked.of_draw(&drawn, draw));
                }
                found.set(all);
            }
            is_done
        }));
    });
    let said = move || {
        let [low, high] = found.with(|all| ends(all));
        // Not known yet.
        if low > high {
            return String::new();
        }
        let kind = if sort == Sort::Angle { Kind::Angle } else { Kind::Length };
        let words = |value: f64| show_as_read(kind, value, page.units());
        let (low, high) = (words(low), words(high));
        if low == high { "All say ".to_owned() + &low } else { ["From ", &low, " to ", &high].concat() }
    };
    let spoken = move || Some(said());
    loose()
        .child(
            el("div")
                .attr("role", "img")
                .attr_of("aria-label", spoken)
                .markup_of(move || found.with(|all| strip(all, half))),
        )
        .child(el("figcaption").text_of(said))
}

fn ends(all: &[f64]) -> [f64; 2] {
    let low = all.iter().copied().fold(f64::INFINITY, f64::min);
    [low, all.iter().copied().fold(f64::NEG_INFINITY, f64::max)]
}

/// A dot for each, around the middle of them all.
fn strip(all: &[f64], half: f64) -> String {
    let [low, high] = ends(all);
    let middle = (low + high) / 2.0;
    let mut made = "<svg viewBox=\"-164 0 328 40\"><path d=\"M-160 36H160M0 32v8\"/>".to_owned();
    for (at, value) in all.iter().enumerate() {
        let x = ((value - middle) / half).clamp(-1.0, 1.0) * HALF;
        let y = (6 * (at % ROWS) + 4).to_string();
        made += &["<circle cx=\"", &measure::fixed(x, 1), "\" cy=\"", &y, "\" r=\"3\"/>"].concat();
    }
    made + "</svg>"
}

/// Reads an answer off the truck as the model has it, as well as is usual.
pub(super) fn read_off(page: Page, key: &str) {
    let Some(of) = Readable::from_key(key) else { return };
    let figure = Figure::of_reading(of);
    let truck = &page.store.committed_now().truck;
    let value = Trial::new(truck, Overlay::NOTHING).values(Side::Left, &[figure]);
    if let Some(value) = value.first().and_then(|value| (*value)?.number()) {
        page.edit(&Edit::Read(of, Side::Left, Some(Reading::by(of, value, of.tools()[0]))));
    }
}
