//! A design from wherever it was named: a file, a link, a code, a pipe, or the
//! demo truck.

use crate::failure::Failure;
use cli::tree;
use sharing::{LinkError, Opening, Rounded, Shared, rounded_in_words};
use std::ffi::OsStr;
use std::fs::{self, File};
use std::io::{self, Read, Write as _};
use std::path::Path;

/// Most that is read of a file or a pipe, bytes: far more than any design.
const MOST_BYTES: u64 = 1024 * 1024;
/// Longest name that is repeated in a message, characters.
const LONGEST_SAID: usize = 120;

/// What an argument gave.
pub(crate) struct Given {
    pub(crate) shared: Shared,
    /// The numbers of a file that are finer than they are kept.
    pub(crate) rounded: Vec<Rounded>,
}

impl From<Shared> for Given {
    /// Of a link, whose numbers are whole steps.
    fn from(shared: Shared) -> Self {
        Self { shared, rounded: Vec::new() }
    }
}

/// The design that an argument names; the demo truck where there is none. What a file
/// gives more finely than it is kept is said on standard error.
///
/// # Errors
/// [`Failure`] names the file and says in a sentence why it gives no design.
pub(crate) fn read(named: Option<&OsStr>) -> Result<Shared, Failure> {
    given(named).map(|given| given.shared)
}

/// As [`read`], with what was rounded.
///
/// # Errors
/// As [`read`].
pub(crate) fn given(named: Option<&OsStr>) -> Result<Given, Failure> {
    let given = from_anywhere(named)?;
    if let Some(said) = rounded_in_words(&given.rounded) {
        // Whether anybody reads it changes nothing.
        let _ = writeln!(io::stderr(), "scrubline: {said}");
    }
    Ok(given)
}

fn from_anywhere(named: Option<&OsStr>) -> Result<Given, Failure> {
    let Some(named) = named else {
        return Ok(Shared { design: truck::demo(), opening: Opening::default() }.into());
    };
    if named == "-" {
        return from_reader(io::stdin().lock(), "standard input");
    }
    match fs::metadata(Path::new(named)) {
        Ok(found) if found.is_dir() => Err(Failure::at(said(named), "this is a directory.")),
        Ok(_) => {
            let place = said(named);
            let file = File::open(named).map_err(|error| Failure::at(place.clone(), error))?;
            from_reader(file, &place)
        }
        Err(no_file) => from_argument(named, &no_file),
    }
}

/// An argument that names no file: it is taken as the text itself.
fn from_argument(named: &OsStr, no_file: &io::Error) -> Result<Given, Failure> {
    let text = named.to_str().unwrap_or_default();
    if is_json(text) {
        return design(text, "the argument");
    }
    match by_link(text) {
        Ok(shared) => Ok(shared.into()),
        Err(LinkError::NotALink) if no_file.kind() == io::ErrorKind::PermissionDenied => {
            Err(Failure::at(said(named), "the file may not be read."))
        }
        Err(LinkError::NotALink) => {
            Err(Failure::at(said(named), "there is no such file, and it is no Scrubline link either."))
        }
        Err(error) => Err(Failure::plain(error)),
    }
}

fn from_reader(reader: impl Read, place: &str) -> Result<Given, Failure> {
    let mut bytes = Vec::new();
    let read = reader.take(MOST_BYTES + 1).read_to_end(&mut bytes);
    read.map_err(|error| Failure::at(place, error))?;
    if u64::try_from(bytes.len()).is_ok_and(|length| length > MOST_BYTES) {
        return Err(Failure::at(place, "this is over a megabyte, too long for a Scrubline file."));
    }
    let text = str::from_utf8(&bytes).map_err(|error| {
        Failure::at(place, format_args!("this is not text: byte {} fits no UTF-8.", error.valid_up_to() + 1))
    })?;
    design(text, place)
}

/// The design of a text: a JSON file's, or of a link or code somewhere in it.
fn design(text: &str, place: &str) -> Result<Given, Failure> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.trim().is_empty() {
        return Err(Failure::at(place, "there is nothing in it."));
    }
    if !is_json(text) {
        return by_link(text).map(Given::from).map_err(|error| Failure::at(place, error));
    }
    match tree::parse(text) {
        Ok(tree) => {
            let shared = sharing::from_tree(&tree).map_err(|error| Failure::at(place, error))?;
            Ok(Given { rounded: sharing::rounded(&tree, &shared), shared })
        }
        // A brace may also open a sentence that has a link in it.
        Err(error) => by_link(text)
            .map(Given::from)
            .map_err(|_| Failure::at(place, format_args!("this is not a JSON file: {error}."))),
    }
}

/// The design of a link in a text, whose ledger is then someone else's.
fn by_link(text: &str) -> Result<Shared, LinkError> {
    sharing::find_code(text).map(Shared::came_by_link)
}

fn is_json(text: &str) -> bool {
    text.trim_start().starts_with('{')
}

/// A name as it is repeated in a message: short, and without what steers a screen.
fn said(named: &OsStr) -> String {
    let whole = named.to_string_lossy();
    let mut said: String = whole.chars().take(LONGEST_SAID).flat_map(printable).collect();
    if whole.chars().nth(LONGEST_SAID).is_some() {
        said.push('…');
    }
    said
}

fn printable(letter: char) -> impl Iterator<Item = char> {
    let steers = letter.is_control() || matches!(letter, '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    let escaped = steers.then(|| letter.escape_default());
    escaped.into_iter().flatten().chain((!steers).then_some(letter))
}
