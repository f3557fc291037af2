//! `scrubline link`: a design as the text behind a page's address.

use crate::arguments::Link;
use crate::failure::Failure;
use crate::source;
use crate::trucks::{Choice, Chosen};
use std::io::Write;

/// Writes the code, or the whole link.
pub(crate) fn run(asked: &Link, out: &mut impl Write) -> Result<(), Failure> {
    let mut shared = source::read(asked.asked.design.as_deref())?;
    if let Some(text) = &asked.asked.proposal {
        shared.opening.proposal = Choice::named(&shared.design, text)?.proposal();
    }
    let code = sharing::to_code(&shared);
    match &asked.page {
        Some(page) => writeln!(out, "{}", sharing::link(page, &code))?,
        None => writeln!(out, "{code}")?,
    }
    Ok(())
}
