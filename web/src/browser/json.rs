//! JSON text to the one tree that `sharing` validates, by the browser's own reader.

use crate::browser::files;
use crate::shelf::MOST_VALUES;
use sharing::Tree;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::File;

/// Longest file that is read, bytes: forty designs and some.
const LONGEST: u32 = 4 << 20;
/// Deepest nesting that is followed.
const DEEPEST: u32 = 12;

/// Why a file gives no tree.
#[derive(Clone, Copy, Debug)]
pub(crate) enum NoTree {
    Unread,
    TooLong,
    TooDeep,
    NotJson,
}

impl NoTree {
    pub(crate) const fn in_words(self) -> &'static str {
        match self {
            Self::Unread => "This file cannot be read.",
            Self::TooLong => "This file is too long to be a design.",
            Self::TooDeep => "This file is nested too deeply to be a design.",
            Self::NotJson => "This file is not JSON text.",
        }
    }
}

/// The tree of a JSON file.
#[inline(never)]
pub(crate) fn load(file: &File, then: impl FnOnce(Result<Tree, NoTree>) + 'static) {
    if file.size() > f64::from(LONGEST) {
        return then(Err(NoTree::TooLong));
    }
    files::load(file, move |read| {
        then(read.ok_or(NoTree::Unread).and_then(|text| tree(&text)));
    });
}

fn tree(text: &str) -> Result<Tree, NoTree> {
    if text.len() > LONGEST as usize {
        return Err(NoTree::TooLong);
    }
    let value = js_sys::JSON::parse(text).map_err(|_| NoTree::NotJson)?;
    convert(&value, 0, &mut MOST_VALUES.clone())
}

/// Counts before it reads: a file that is too long is refused before it has taken any time.
fn convert(value: &JsValue, depth: u32, left: &mut u32) -> Result<Tree, NoTree> {
    if depth > DEEPEST {
        return Err(NoTree::TooDeep);
    }
    if let Some(number) = value.as_f64() {
        return Ok(Tree::Number(number));
    }
    if let Some(text) = value.as_string() {
        return Ok(Tree::Text(text));
    }
    if let Some(truth) = value.as_bool() {
        return Ok(Tree::Bool(truth));
    }
    let mut count = |items: &js_sys::Array| {
        *left = left.checked_sub(items.length()).ok_or(NoTree::TooLong)?;
        Ok(())
    };
    if let Some(list) = value.dyn_ref::<js_sys::Array>() {
        count(list)?;
        let mut items = Vec::new();
        for item in list.iter() {
            items.push(convert(&item, depth + 1, left)?);
        }
        return Ok(Tree::List(items));
    }
    let Some(object) = value.dyn_ref::<js_sys::Object>() else { return Ok(Tree::Null) };
    let entries = js_sys::Object::entries(object);
    count(&entries)?;
    let mut pairs = Vec::new();
    for entry in entries.iter() {
        let pair: js_sys::Array = entry.unchecked_into();
        let key = pair.get(0).as_string().unwrap_or_default();
        pairs.push((key, convert(&pair.get(1), depth + 1, left)?));
    }
    Ok(Tree::Object(pairs))
}
