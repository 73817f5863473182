use super::reading::{Head, Role, Starts};
use krilla::geom::Rect;
use krilla::tagging::{BBox, Identifier, ListNumbering, Node, TableHeaderScope, Tag, TagGroup, TagTree};
use std::num::NonZeroU16;

/// A part as it has been written: what it is, what it says, and what of the pages belongs to it.
pub(super) struct Written {
    pub role: Role,
    /// Its words.
    pub text: String,
    /// The index of the page on which it begins.
    pub page: usize,
    pub marks: Vec<Identifier>,
    /// The places in it that lead elsewhere.
    pub links: Vec<Identifier>,
}

/// What is read, in order, as the tree that a PDF keeps.
pub(super) fn tag_tree(parts: Vec<Written>) -> TagTree {
    let mut tree = TagTree::new().with_lang(Some("en-GB".to_owned()));
    let mut together: Vec<Written> = Vec::new();
    for part in parts {
        if together.last().is_some_and(|last| !go_together(last, &part)) {
            put(&mut tree, std::mem::take(&mut together));
        }
        together.push(part);
    }
    put(&mut tree, together);
    tree
}

/// Whether two parts are of one list or one table.
fn go_together(one: &Written, other: &Written) -> bool {
    match (&one.role, &other.role) {
        (Role::Label | Role::Item, Role::Label | Role::Item) => true,
        (Role::Cell(..), Role::Cell(starts, _)) => *starts != Starts::Table,
        _ => false,
    }
}

fn put(tree: &mut TagTree, parts: Vec<Written>) {
    match parts.first().map(|part| &part.role) {
        None => {}
        Some(Role::Label | Role::Item) => tree.push(list(parts)),
        Some(Role::Cell(..)) => tree.push(table(parts)),
        Some(_) => parts.into_iter().for_each(|part| tree.push(alone(part))),
    }
}

fn alone(part: Written) -> TagGroup {
    match &part.role {
        Role::Heading(depth) => {
            let depth = NonZeroU16::new(*depth).unwrap_or(NonZeroU16::MIN);
            let title = Some(part.text.clone());
            TagGroup::with_children(Tag::Hn(depth, title), inside(part))
        }
        Role::Picture(words, [left, top, right, bottom]) => {
            let area = Rect::from_ltrb(*left, *top, *right, *bottom);
            let area = area.map(|area| BBox::new(part.page, area));
            let tag = Tag::Figure(Some(words.clone())).with_bbox(area);
            TagGroup::with_children(tag, inside(part))
        }
        _ => TagGroup::with_children(Tag::P, inside(part)),
    }
}

/// What is in a part; all of it leads where the part does.
fn inside(part: Written) -> Vec<Node> {
    let marks = part.marks.into_iter().map(Node::from).collect();
    if part.links.is_empty() {
        return marks;
    }
    let mut link = TagGroup::with_children(Tag::Link, marks);
    part.links.into_iter().for_each(|found| link.push(found));
    vec![link.into()]
}

fn list(parts: Vec<Written>) -> TagGroup {
    let labelled = parts.iter().any(|part| part.role == Role::Label);
    let numbering = if labelled { ListNumbering::Disc } else { ListNumbering::None };
    let mut list = TagGroup::new(Tag::L(numbering));
    let mut item: Option<TagGroup> = None;
    let mut before = Role::Item;
    for part in parts {
        let role = part.role.clone();
        if role == Role::Label || before != Role::Label {
            item.take().into_iter().for_each(|item| list.push(item));
        }
        let of_item = item.get_or_insert_with(|| TagGroup::new(Tag::LI));
        if role == Role::Label {
            of_item.push(TagGroup::with_children(Tag::Lbl, inside(part)));
        } else {
            of_item.push(TagGroup::with_children(Tag::LBody, inside(part)));
        }
        before = role;
    }
    if let Some(item) = item {
        list.push(item);
    }
    list
}

fn table(parts: Vec<Written>) -> TagGroup {
    let mut table = TagGroup::new(Tag::Table);
    let mut row: Option<TagGroup> = None;
    for part in parts {
        let Role::Cell(starts, head) = part.role else { continue };
        if starts != Starts::Cell {
            row.take().into_iter().for_each(|row| table.push(row));
        }
        let of_row = row.get_or_insert_with(|| TagGroup::new(Tag::TR));
        let cell = match head {
            Head::Column => TagGroup::with_children(Tag::TH(TableHeaderScope::Column), inside(part)),
            Head::Row => TagGroup::with_children(Tag::TH(TableHeaderScope::Row), inside(part)),
            Head::None => TagGroup::with_children(Tag::TD, inside(part)),
        };
        of_row.push(cell);
    }
    if let Some(row) = row {
        table.push(row);
    }
    table
}
