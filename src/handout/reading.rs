use super::Page;

/// What a part of a page is to someone who has it read to them.
#[derive(Clone, Debug, PartialEq)]
pub enum Role {
    /// Nothing: lines between rows, the feet of pages, headings said again on a further page.
    Aside,
    /// A heading: how deep, from 1.
    Heading(u16),
    /// A paragraph.
    Text,
    /// What stands before the words of an item of a list: it begins the item.
    Label,
    /// The words of an item of a list; without a label before them they begin one.
    Item,
    /// A cell of a table: what begins with it, and what it is the head of.
    Cell(Starts, Head),
    /// A drawing: its words, and where it is: left, top, right and bottom, points.
    Picture(String, [f32; 4]),
}

/// What begins with a cell of a table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Starts {
    /// A table, and its first row.
    Table,
    /// A row.
    Row,
    /// The cell alone.
    Cell,
}

/// What a cell of a table is the head of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Head {
    /// The cells under it.
    Column,
    /// The cells beside it.
    Row,
    /// Nothing.
    None,
}

/// Marks of a page that are read together; the parts of a page are in the order in which it is read.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// The index of the first of its marks; they end where the next part begins.
    pub begin: usize,
    /// What it is.
    pub role: Role,
    /// Whether it goes on with the part of the same kind that an earlier page ended in.
    pub goes_on: bool,
}

impl Page {
    /// What is marked from here on is read so.
    pub fn begin(&mut self, role: Role) {
        self.parts.push(Part { begin: self.marks.len(), role, goes_on: false });
    }

    /// What is marked from here on goes on with what an earlier page ended in.
    pub(super) fn go_on(&mut self, role: Role) {
        self.parts.push(Part { begin: self.marks.len(), role, goes_on: true });
    }

    /// How what is marked now is read, and whether any of it is marked yet, for another page to go on with; what is not is left
    /// to that page.
    pub(super) fn break_off(&mut self) -> (Role, bool) {
        let (role, marks) = (self.role(), self.marks.len());
        (role, self.parts.pop_if(|part| part.begin == marks).is_none())
    }

    /// How what is marked now is read.
    pub(super) fn role(&self) -> Role {
        self.parts.last().map_or(Role::Aside, |part| part.role.clone())
    }
}

/// Puts the headings of some pages a step deeper, where the pages become part of something longer.
pub(super) fn deepen(pages: &mut [Page]) {
    for part in pages.iter_mut().flat_map(|page| &mut page.parts) {
        if let Role::Heading(depth) = &mut part.role {
            *depth += 1;
        }
    }
}
