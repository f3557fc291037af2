//! JSON text into the tree that a design is read from.

use serde::de::{Deserialize, Deserializer, MapAccess, SeqAccess, Visitor};
use sharing::Tree;
use std::fmt;

/// The tree of a JSON text.
///
/// Keys keep their order and may be there twice: whether they may is for the
/// design's reader to say. Nesting beyond 128 levels is refused.
///
/// # Errors
/// The text is no JSON; line and column are in the message.
pub fn parse(text: &str) -> Result<Tree, serde_json::Error> {
    serde_json::from_str::<Read>(text).map(|read| read.0)
}

struct Read(Tree);

impl<'de> Deserialize<'de> for Read {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(TreeVisitor).map(Self)
    }
}

struct TreeVisitor;

impl<'de> Visitor<'de> for TreeVisitor {
    type Value = Tree;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("JSON")
    }

    fn visit_bool<E>(self, value: bool) -> Result<Tree, E> {
        Ok(Tree::Bool(value))
    }

    #[expect(clippy::cast_precision_loss, reason = "beyond 2^53 lies outside every limit of a design")]
    fn visit_i64<E>(self, value: i64) -> Result<Tree, E> {
        Ok(Tree::Number(value as f64))
    }

    #[expect(clippy::cast_precision_loss, reason = "beyond 2^53 lies outside every limit of a design")]
    fn visit_u64<E>(self, value: u64) -> Result<Tree, E> {
        Ok(Tree::Number(value as f64))
    }

    fn visit_f64<E>(self, value: f64) -> Result<Tree, E> {
        Ok(Tree::Number(value))
    }

    fn visit_str<E>(self, text: &str) -> Result<Tree, E> {
        Ok(Tree::Text(text.to_owned()))
    }

    fn visit_string<E>(self, text: String) -> Result<Tree, E> {
        Ok(Tree::Text(text))
    }

    fn visit_unit<E>(self) -> Result<Tree, E> {
        Ok(Tree::Null)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Tree, A::Error> {
        let mut items = Vec::new();
        while let Some(Read(item)) = list.next_element()? {
            items.push(item);
        }
        Ok(Tree::List(items))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut object: A) -> Result<Tree, A::Error> {
        let mut members = Vec::new();
        while let Some((key, Read(member))) = object.next_entry()? {
            members.push((key, member));
        }
        Ok(Tree::Object(members))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What RFC 8259 lets a text hold, and that order and repeated keys survive.
    #[test]
    fn every_kind_of_value_arrives_in_order() {
        let tree = parse(r#"{"b": [true, null, -1, 2.5e1], "a": "\u00bd", "b": {}}"#).unwrap();
        let list = Tree::List(vec![Tree::Bool(true), Tree::Null, Tree::Number(-1.0), Tree::Number(25.0)]);
        let expected = Tree::Object(vec![
            ("b".to_owned(), list),
            ("a".to_owned(), Tree::Text("½".to_owned())),
            ("b".to_owned(), Tree::Object(vec![])),
        ]);
        assert_eq!(tree, expected);
    }

    #[test]
    fn what_is_no_json_is_refused_with_its_place() {
        for text in ["", "{", "[1,]", "{\"a\" 1}", "nul", "1 2"] {
            let error = parse(text).unwrap_err();
            assert_eq!(error.line(), 1, "{text}");
        }
        let deep = "[".repeat(100_000);
        assert!(parse(&deep).is_err());
    }
}
