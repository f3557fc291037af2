//! A link in whatever it was pasted with.

use crate::generate::{edited, shared, typed_in};
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::TestRunner;
use sharing::{LONGEST_TEXT, LinkError, Shared, find_code, link, to_code};
use truck::{Edit, demo};

const PAGE: &str = "https://example.org/pickups/";

fn short() -> Shared {
    shared(edited(&demo(), [Edit::Title("Blue one".to_owned())]))
}

fn long() -> Shared {
    shared(typed_in().new_tree(&mut TestRunner::deterministic()).unwrap().current())
}

#[test]
fn in_text_brackets_quotes_and_tags() {
    for given in [short(), long(), shared(demo())] {
        let code = to_code(&given);
        let address = link(PAGE, &code);
        for text in [
            address.clone(),
            code.clone(),
            format!("  {code}\n"),
            format!("#{code}"),
            format!("/#{code}"),
            format!("Look at this: {address}. What do you think?"),
            format!("({address})"),
            format!("<{address}>"),
            format!("\"{address}\","),
            format!("'{code}'!"),
            format!("[url={address}]my truck[/url]"),
            format!("[my truck]({address})"),
            format!("<a href=\"{address}\">{address}</a>"),
            format!("{address}…"),
            format!("issue #12 and https://example.org/#section\n{address}"),
            format!("14 1/2 inch, 1234567 miles: {code}"),
            address.replace('#', "%23"),
            format!("see {} and {address}", link("https://example.org/", &code[..code.len() - 2])),
        ] {
            assert_eq!(find_code(&text).as_ref(), Ok(&given), "{text}");
        }
    }
}

#[test]
fn wrapped_as_mail_and_forums_do() {
    let given = long();
    let code = to_code(&given);
    let address = link(PAGE, &code);
    let wrap = |text: &str, width: usize, with: &str| {
        let lines: Vec<_> =
            text.as_bytes().chunks(width).map(|line| std::str::from_utf8(line).unwrap()).collect();
        lines.join(with)
    };
    for with in ["\n", "\r\n", "=\n", "=\r\n", "\n> ", "\n>> ", " ", "\n    ", "\u{ad}", "\u{200b}"] {
        for width in [70, 76, 40] {
            for text in [&address, &code] {
                let wrapped = wrap(text, width, with);
                assert_eq!(find_code(&wrapped).as_ref(), Ok(&given), "{wrapped}");
                let followed = format!("Here it is:\n{wrapped}\nSee you on Sunday, 9 o'clock");
                assert_eq!(find_code(&followed).as_ref(), Ok(&given), "{followed}");
            }
        }
    }
}

#[test]
fn what_is_said_where_there_is_none() {
    let code = to_code(&long());
    let cut = &code[..code.len() - 30];
    for (text, error) in [
        (String::new(), LinkError::NotALink),
        ("A two-inch drop, 1 1/2 turns on the bars".to_owned(), LinkError::NotALink),
        ("https://example.org/page#section".to_owned(), LinkError::NotALink),
        ("1234567 miles on it, and see issue #12".to_owned(), LinkError::NotALink),
        ("12345 miles on it. ".repeat(2000), LinkError::NotALink),
        (link(PAGE, cut), LinkError::CutOff),
        (format!("{}…", link(PAGE, cut)), LinkError::CutOff),
        (cut.to_owned(), LinkError::CutOff),
        ("x".repeat(LONGEST_TEXT + 1), LinkError::TooLong),
        (link(PAGE, &"1".repeat(20_000)), LinkError::TooLong),
    ] {
        let start: String = text.chars().take(60).collect();
        assert_eq!(find_code(&text), Err(error), "{start}");
    }
}

#[test]
fn addresses() {
    for (page, expected) in [
        ("https://example.org", "https://example.org/#1a"),
        ("https://example.org/", "https://example.org/#1a"),
        ("https://example.org?x=1#old", "https://example.org/#1a"),
        (" https://example.org/#1old ", "https://example.org/#1a"),
        ("https://example.org/sub", "https://example.org/sub/#1a"),
        ("https://example.org/sub/", "https://example.org/sub/#1a"),
        ("https://example.org/sub/index.html", "https://example.org/sub/#1a"),
        ("https://example.org/sub/index.html?y#/#z", "https://example.org/sub/#1a"),
        ("https://example.org/sketch.html", "https://example.org/sketch.html?/#1a"),
        ("https://example.org/sketch.html?/#1old", "https://example.org/sketch.html?/#1a"),
        ("file:///tmp/sketch.html", "file:///tmp/sketch.html?/#1a"),
        ("http://127.0.0.1:8080", "http://127.0.0.1:8080/#1a"),
        ("", "/#1a"),
    ] {
        let address = link(page, "1a");
        assert_eq!(address, expected, "{page}");
        assert_eq!(address.matches("/#").count(), 1, "{page}");
        assert_eq!(link(&address, "1a"), address, "{page}");
    }
}

/// A page's worth of text that is built to be slow is still read at once.
#[test]
fn hostile_text_is_bounded() {
    for piece in ["#", "#1", "1234567 ", "#111111111 ", "1a\n", "%23", "#1=\n"] {
        let text = piece.repeat(LONGEST_TEXT / piece.len());
        assert!(find_code(&text).is_err(), "{piece}");
    }
}
