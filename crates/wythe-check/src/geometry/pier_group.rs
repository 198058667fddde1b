//! Piers at fault, gathered: those of one grid share a place and make one finding.

use wythe_model::Pier;
use wythe_source::Span;

use super::Site;
use crate::place::list;

/// Piers of one declaration.
pub(super) struct Group<'a> {
    /// Where they are declared.
    pub origin: Span,
    /// The piers, in order.
    pub piers: Vec<&'a Pier>,
}

impl Group<'_> {
    /// Their names in a row.
    pub fn names(&self) -> String {
        let names: Vec<_> = self.piers.iter().map(|p| p.name).collect();
        list(&names)
    }

    /// `lies` or `lie`.
    pub fn verb<'b>(&self, one: &'b str, more: &'b str) -> &'b str {
        if self.piers.len() == 1 { one } else { more }
    }
}

/// The piers at fault, gathered by where they are declared.
pub(super) fn gather<'a>(site: &Site<'a>, at_fault: impl Fn(&Pier) -> bool) -> Vec<Group<'a>> {
    let mut groups: Vec<Group<'a>> = Vec::new();
    for pier in site.f.piers.iter().filter(|p| at_fault(p)) {
        match groups.iter_mut().find(|g| g.origin == pier.origin) {
            Some(group) => group.piers.push(pier),
            None => groups.push(Group { origin: pier.origin, piers: vec![pier] }),
        }
    }
    groups
}
