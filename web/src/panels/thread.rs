//! What goes into a thread: text with its numbers, a table, a picture that speaks for itself.

use crate::derive::{Answers, selected_name};
use crate::panels::compare;
use crate::state::{Page, Selected};
use drawing::{Caption, dangers, overlay_in_words};
use leptos::prelude::untrack;

/// How many rows of the table a picture and a text hold: the first say most.
const KEY_ROWS: usize = 9;

/// How a forum marks text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Markup {
    /// Not at all: what any board, mail or message takes.
    Plain,
    /// In square brackets.
    Bracketed,
}

/// As measured and what is selected, with the numbers that matter most.
pub(crate) fn caption(page: Page, answers: &Answers) -> Caption {
    untrack(|| {
        let compared = compare::compared(page, answers);
        let chosen = match page.selected() {
            Selected::AsMeasured => None,
            Selected::Proposal(id) => page
                .store
                .shown()
                .with(|design| design.proposals.iter().position(|found| found.id == id).map(|at| at + 1)),
        };
        let columns: Vec<usize> = std::iter::once(0).chain(chosen).collect();
        let title = page.store.committed_now().title;
        let name = selected_name(page);
        Caption {
            title: if title.is_empty() { name } else { title + ": " + &name },
            columns: columns.iter().map(|at| compared.columns[*at].clone()).collect(),
            rows: compared
                .rows
                .iter()
                .take(KEY_ROWS)
                .map(|row| (row.name.clone(), columns.iter().map(|at| row.cells[*at].said()).collect()))
                .collect(),
        }
    })
}

/// A post: what it is, what is changed, what that gives and takes, where it answers somebody's `changed` from theirs to
/// mine, and the link on a line of its own.
pub(crate) fn post(page: Page, answers: &Answers, link: &str, changed: &[String], markup: Markup) -> String {
    let caption = caption(page, answers);
    let (bold, end, item) = match markup {
        Markup::Plain => ("", "", ""),
        Markup::Bracketed => ("[b]", "[/b]", "[*]"),
    };
    let mut lines = vec![[bold, &in_words(&caption.title), end].concat()];
    let changes = page.selected_now().proposal().and_then(|id| {
        let design = page.store.committed_now();
        design.proposal(id).map(|found| overlay_in_words(&found.into(), untrack(|| page.units())))
    });
    lines.extend(changes.filter(|words| !words.is_empty()));
    // It goes with the plan wherever that goes.
    lines.extend(dangers(&page.store.committed_now(), page.selected_now()).iter().map(|said| in_words(said)));
    lines.push(String::new());
    lines.extend((markup == Markup::Bracketed).then(|| "[list]".to_owned()));
    for (name, values) in &caption.rows {
        lines.push([item, name, ": ", &values.join(" → ")].concat());
    }
    lines.extend((markup == Markup::Bracketed).then(|| "[/list]".to_owned()));
    lines.push(String::new());
    if !changed.is_empty() {
        lines.push("Against what was sent:".to_owned());
        lines.extend(changed.iter().map(|line| in_words(line)));
        lines.push(String::new());
    }
    // A page that is on this machine only has a code and no address.
    let address = link.contains(':');
    lines.push(
        if address { "Open it, drag it, answer with yours:" } else { "To be pasted into Scrubline:" }
            .to_owned(),
    );
    // Bare and on a line of its own, it is found by every board; in marks, some take the marks for a part of it.
    lines.push(link.to_owned());
    lines.join("\n") + "\n"
}

/// A text from outside as words and nothing more, on whatever board, in whatever mail it is put: what
/// may be markup there becomes a space, and what may be an address or a call to somebody falls apart.
fn in_words(text: &str) -> String {
    let mut words = String::new();
    let (mut before, mut last) = (' ', ' ');
    for letter in text.chars() {
        // A heading and an item of a list are markup only where a line begins.
        let markup = matches!(
            letter,
            '\0'..=' ' | '[' | ']' | '<' | '>' | '{' | '}' | '*' | '_' | '`' | '~' | '|' | '\\' | '^'
        ) || words.is_empty() && matches!(letter, '#' | '+' | '-' | '=');
        let letter = if markup { ' ' } else { letter };
        // As in 2.5 and 1:25.
        let number = before.is_ascii_digit() && letter.is_ascii_digit();
        let joins = matches!(last, '.' | ':') && !number || matches!(last, '@' | '&');
        if letter != ' ' && (joins || (last, letter) == ('/', '/')) {
            words.push(' ');
        }
        if letter != ' ' || last != ' ' {
            words.push(letter);
            (before, last) = (last, letter);
        }
    }
    words
}

/// The whole comparison as a table of comma-separated values (RFC 4180), marked as UTF-8.
pub(crate) fn table(page: Page, answers: &Answers) -> String {
    let compared = untrack(|| compare::compared(page, answers));
    let mut out = "\u{feff}".to_owned();
    for name in &compared.columns {
        out = out + "," + &quoted(name);
    }
    for row in &compared.rows {
        out = out + "\r\n" + &quoted(&row.name);
        for cell in &row.cells {
            out = out + "," + &quoted(&cell.said());
        }
    }
    out + "\r\n"
}

/// A cell in quotes. What a table program would take for a formula begins with an apostrophe.
fn quoted(text: &str) -> String {
    let formula = text.starts_with(['=', '+', '-', '@', '\t', '\r']);
    ["\"", if formula { "'" } else { "" }, &text.replace('"', "\"\""), "\""].concat()
}

#[cfg(test)]
mod tests {
    use super::in_words;

    #[test]
    fn a_title_is_words_on_every_board() {
        for (typed, posted) in [
            // What people write stays as it is.
            ("Juniper pickup, '87: 2.5 in & 10 lb/in (front), 1:25 scale!", None),
            ("Ford's \"low\" one; 9 13/16 in - done? Nº 2 #3", None),
            // Board markup, Markdown, HTML.
            ("[b]Low[/b] [url=x]y[/url]", Some("b Low /b url=x y /url ")),
            ("**Low** _down_ ~~not~~ `so` ||there||", Some("Low down not so there ")),
            ("![a](b) [c](d)", Some("! a (b) c (d)")),
            ("# Low", Some("Low")),
            ("- low", Some("low")),
            ("<img src=x onerror=y>", Some("img src=x onerror=y ")),
            ("<script>x</script>", Some("script x /script ")),
            ("&lt;b&gt;", Some("& lt;b& gt;")),
            ("one\ntwo\r\n\tthree", Some("one two three")),
            // Addresses, and somebody called.
            ("see http://example.org/a", Some("see http: / /example. org/a")),
            ("www.example.org", Some("www. example. org")),
            ("www.2fast.example", Some("www. 2fast. example")),
            ("ht[tps:/]/example[.]org", Some("ht tps: / /example . org")),
            ("mailto:me@example.org", Some("mailto: me@ example. org")),
            ("//example", Some("/ /example")),
            ("@everyone look", Some("@ everyone look")),
        ] {
            assert_eq!(in_words(typed), posted.unwrap_or(typed), "{typed}");
        }
    }
}
