//! Every limit of the travel, and the scrub line.

use super::{Panel, is_guess, labels};
use crate::dom::{Node, el, loose};
use crate::format::readout_style;
use crate::told::write;
use drawing::marked;
use measure::print_length;
use study::{Figure, ScrubLine, TravelLeft};
use truck::Field;

impl Panel {
    /// Every limit of the travel, the nearest first.
    pub(super) fn ends(self) -> Node {
        let style = readout_style(self.page.units());
        let line = |way: &str, figure: Figure, limit: &study::Limit| {
            let length = marked(print_length(limit.travel_mm, style), self.is_guess(figure));
            write(el("li"), &[way, &length, ": ", &limit.by.to_string()].concat())
        };
        self.answers.travel_left.with(|left| {
            let Some(TravelLeft { bump_limits, droop_limits, .. }) = left else { return loose() };
            let mut all = loose();
            for (way, figure, limits) in
                [("bump ", Figure::BUMP, bump_limits), ("droop ", Figure::DROOP, droop_limits)]
            {
                let mut limits = limits.clone();
                study::least_first(&mut limits, |limit| limit.travel_mm);
                for limit in &limits {
                    all = all.child(line(way, figure, limit));
                }
            }
            all
        })
    }

    /// What hangs low at rest, against the scrub line and the rim's edge.
    pub(super) fn scrub_line(self) -> Node {
        let style = readout_style(self.page.units());
        self.answers.standing.with(|now| {
            let Ok(rest) = now.as_ref() else { return loose() };
            let line = ScrubLine::worst(rest);
            let over = |figure: Figure, mm: f64| {
                let length = marked(print_length(mm.abs(), style), is_guess(figure, rest));
                length + if mm < 0.0 { " below" } else { " above" }
            };
            let row = |point: &study::LowPoint| {
                let figures = [Figure::over_line(point.of), Figure::over_rim(point.of)];
                let words = [
                    point.of.label(),
                    ": ",
                    &over(figures[0], point.over_line_mm),
                    " the line, ",
                    &over(figures[1], point.over_rim_mm),
                    " the rim's lowest edge, ",
                    point.load.label(),
                ];
                // A guess is no verdict.
                let below = |figure: Figure, mm: f64| mm < 0.0 && !is_guess(figure, rest);
                let warn = below(figures[0], point.over_line_mm) || below(figures[1], point.over_rim_mm);
                write(el("li").class_if("warn", move || warn), &words.concat())
            };
            let open = |(low, fields): &(study::Low, Vec<Field>)| {
                el("li").text(&[low.label(), ": needs ", &labels(fields)].concat())
            };
            loose().children(line.points.iter().map(row)).children(line.unstated.iter().map(open))
        })
    }
}
