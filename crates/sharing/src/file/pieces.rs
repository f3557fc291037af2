//! The pieces that a schema is made of.

use super::tree::Tree;

/// A text of no more than so many bytes.
pub(super) fn text(description: &str, most: usize) -> Tree {
    let mut said = String::from(description);
    said.push_str(" At most ");
    said.push_str(&most.to_string());
    said.push_str(" bytes of UTF-8.");
    Tree::object([
        ("type", Tree::text("string")),
        ("maxLength", whole(most)),
        ("description", Tree::Text(said)),
    ])
}

/// A number between two that it may be.
pub(super) fn number((low, high): (f64, f64)) -> Tree {
    Tree::object([
        ("type", Tree::text("number")),
        ("minimum", Tree::Number(low)),
        ("maximum", Tree::Number(high)),
    ])
}

/// One of a list of words.
pub(super) fn words<T>(list: &[(T, &'static str)]) -> Tree {
    Tree::object([("enum", Tree::List(list.iter().map(|(_, word)| Tree::text(word)).collect()))])
}

/// A list, of no more than so many.
pub(super) fn list(description: &str, items: Tree, most: Option<usize>) -> Tree {
    let list = Tree::object([
        ("type", Tree::text("array")),
        ("description", Tree::text(description)),
        ("items", items),
    ]);
    match most {
        Some(most) => joined(list, Tree::object([("maxItems", whole(most))])),
        None => list,
    }
}

/// An object of these members and no others.
pub(super) fn object(members: Vec<(&str, Tree)>, required: &[&str]) -> Tree {
    let members = members.into_iter().map(|(key, tree)| (key.to_owned(), tree)).collect();
    let object = Tree::object([
        ("type", Tree::text("object")),
        ("properties", Tree::Object(members)),
        ("additionalProperties", Tree::Bool(false)),
    ]);
    if required.is_empty() {
        return object;
    }
    let required = required.iter().map(|key| Tree::text(key)).collect();
    joined(object, Tree::object([("required", Tree::List(required))]))
}

pub(super) fn whole(value: usize) -> Tree {
    Tree::Number(u16::try_from(value).map_or(f64::from(u16::MAX), f64::from))
}

/// The members of one object and then those of another.
pub(super) fn joined(first: Tree, then: Tree) -> Tree {
    match (first, then) {
        (Tree::Object(mut members), Tree::Object(more)) => {
            members.extend(more);
            Tree::Object(members)
        }
        (first, _) => first,
    }
}
