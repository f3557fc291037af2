//! A design as a link: text after `/#`, letters and digits only.
//!
//! ```text
//! code    = version payload check
//! version = "1"                      later versions: another digit
//! payload = blocks of base58         what the version says, see `v1`
//! check   = four base58 characters   CRC-32 of what stands before them
//! ```
//!
//! Version first and check last hold for every version to come, so that a link
//! that is cut off is told from one that is newer than the reader.

mod base58;
mod check;
mod find;

pub use find::find_code;

use crate::link_error::LinkError;
use crate::shared::Shared;
use crate::v1;

/// Longest text that is searched for a link, bytes.
pub const LONGEST_TEXT: usize = 64 * 1024;
/// Longest code that is read, characters. The longest that is ever written, of three plans with every
/// change at every place beside the fullest ledger, is a fortieth below: about one more kind of change.
pub const LONGEST_CODE: usize = 8000;

/// Version 1, the first.
const VERSION_1: char = '1';

/// The code of a design: what stands behind `#` in a link. Letters and digits only.
///
/// What is written is [`Shared::kept`], and of it only what differs from the
/// defaults of the version.
#[must_use]
pub fn to_code(shared: &Shared) -> String {
    let mut code = String::from(VERSION_1);
    base58::push(&mut code, &v1::write(&shared.kept()));
    check::push(&mut code);
    code
}

/// The design of a bare code.
///
/// # Errors
/// [`LinkError`] says in a sentence why the text is no code that can be read.
pub fn from_code(code: &str) -> Result<Shared, LinkError> {
    if code.len() > LONGEST_CODE {
        return Err(LinkError::TooLong);
    }
    let body = check::body(code).ok_or_else(|| failure(code))?;
    let Some(payload) = body.strip_prefix(VERSION_1) else {
        return Err(LinkError::Newer);
    };
    v1::read(&base58::bytes(payload).ok_or(LinkError::Unreadable)?)
}

/// A page's address with a code behind it.
///
/// `page` is the address of the page, with or without a query or fragment, which
/// are dropped. The code always follows `/#`: forums cut the fragment off an
/// address without a path. A page that is a file of another name than
/// `index.html` keeps it, with an empty query to bring the slash.
#[must_use]
pub fn link(page: &str, code: &str) -> String {
    let page = page.trim();
    let page = page.split(['?', '#']).next().unwrap_or(page);
    let host = match page.split_once(':') {
        Some((scheme, rest)) if rest.starts_with("//") => scheme.len() + "://".len(),
        _ => 0,
    };
    let file_at =
        page.bytes().skip(host).rposition(|byte| byte == b'/').map_or(page.len(), |slash| host + slash + 1);
    let (folder, file) = page.split_at(file_at);
    let mut link = String::from(folder);
    if !matches!(file, "" | "index.html" | "index.htm") {
        link.push_str(file);
        if file.ends_with(".html") || file.ends_with(".htm") {
            link.push('?');
        }
    }
    if !link.ends_with('/') {
        link.push('/');
    }
    link.push('#');
    link.push_str(code);
    link
}

/// What is said of a text whose check characters do not fit.
///
/// A code without a single letter hardly exists; a number in a sentence does.
fn failure(text: &str) -> LinkError {
    let starts = text.starts_with(|first: char| matches!(first, '1'..='9'));
    let letters = text.bytes().any(|byte| byte.is_ascii_alphabetic());
    if starts && letters && text.bytes().all(|byte| byte.is_ascii_alphanumeric()) {
        LinkError::CutOff
    } else {
        LinkError::NotALink
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn checked(body: &str) -> String {
        let mut code = String::from(body);
        check::push(&mut code);
        code
    }

    #[test]
    fn another_version_with_a_fitting_check_is_newer() {
        assert_eq!(from_code(&checked("2")), Err(LinkError::Newer));
        assert_eq!(from_code(&checked("9anything0atAll")), Err(LinkError::Newer));
        assert_eq!(find_code(&checked("https://example.org/#")), Err(LinkError::NotALink));
        assert_eq!(find_code(&["/#", &checked("2abc")].concat()), Err(LinkError::Newer));
    }

    #[test]
    fn a_payload_that_is_no_base58_is_unreadable() {
        for body in ["10", "1z", "1zz", "1zzzzzz"] {
            assert_eq!(from_code(&checked(body)), Err(LinkError::Unreadable), "{body}");
        }
    }
}
