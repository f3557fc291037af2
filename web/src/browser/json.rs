//! JSON text to the one tree that `sharing` validates, by the browser's own reader.

use sharing::Tree;
use wasm_bindgen::{JsCast, JsValue};

/// Longest file that is read, bytes.
const LONGEST: usize = 1 << 20;
/// Deepest nesting that is followed.
const DEEPEST: u32 = 12;

/// The tree of a JSON text.
///
/// # Errors
/// A plain sentence why there is none.
pub(crate) fn tree(text: &str) -> Result<Tree, String> {
    if text.len() > LONGEST {
        return Err("This file is too long to be a design.".to_owned());
    }
    let value = js_sys::JSON::parse(text).map_err(|_| "This file is not JSON text.".to_owned())?;
    convert(&value, 0)
}

fn convert(value: &JsValue, depth: u32) -> Result<Tree, String> {
    if depth > DEEPEST {
        return Err("This file is nested too deeply to be a design.".to_owned());
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
    if let Some(list) = value.dyn_ref::<js_sys::Array>() {
        return list.iter().map(|item| convert(&item, depth + 1)).collect::<Result<_, _>>().map(Tree::List);
    }
    let Some(object) = value.dyn_ref::<js_sys::Object>() else { return Ok(Tree::Null) };
    let entries = js_sys::Object::entries(object);
    let mut pairs = Vec::new();
    for entry in entries.iter() {
        let pair: js_sys::Array = entry.unchecked_into();
        let key = pair.get(0).as_string().unwrap_or_default();
        pairs.push((key, convert(&pair.get(1), depth + 1)?));
    }
    Ok(Tree::Object(pairs))
}
