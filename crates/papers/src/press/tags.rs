//! The order in which a document is read aloud.

use super::{GroupRole, Role};
use krilla::tagging::{Identifier, ListNumbering, Node, TableHeaderScope, Tag, TagGroup, TagKind};
use std::num::NonZeroU16;

/// The group for words.
pub(super) fn words(role: &Role, said: &str, leaf: Identifier) -> TagGroup {
    let kind: TagKind = match role {
        // A heading that says nothing is none.
        Role::Heading { .. } if said.trim().is_empty() => Tag::P.into(),
        Role::Words | Role::Caption => Tag::P.into(),
        Role::Heading { level, .. } => {
            let level = NonZeroU16::new(u16::from(*level)).unwrap_or(NonZeroU16::MIN);
            Tag::Hn(level, Some(said.to_owned())).into()
        }
    };
    let mut group = TagGroup::new(kind);
    group.push(Node::Leaf(leaf));
    group
}

/// The group for a figure.
pub(super) fn figure(alt: &str, leaf: Identifier) -> TagGroup {
    let mut group = TagGroup::new(Tag::Figure(Some(alt.to_owned())));
    group.push(Node::Leaf(leaf));
    group
}

/// The group for what belongs together.
pub(super) fn group(role: GroupRole) -> TagGroup {
    let kind: TagKind = match role {
        GroupRole::Section => Tag::Section.into(),
        GroupRole::Table => Tag::Table.into(),
        GroupRole::Row => Tag::TR.into(),
        GroupRole::Head => Tag::TH(TableHeaderScope::Column).into(),
        GroupRole::Cell => Tag::TD.into(),
        GroupRole::List => Tag::L(ListNumbering::None).into(),
        GroupRole::Item => Tag::LI.into(),
    };
    TagGroup::new(kind)
}
