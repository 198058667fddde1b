//! Identifiers: 128 bits made from what a part is called, in the 22 letters IFC writes them in.

use uuid::Uuid;

/// The letters of the alphabet of ISO 16739-1, IfcGloballyUniqueId.
const LETTERS: &[u8; 64] = b"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz_$";

/// The identifier of a part, by its path: `unit_4/wall/south`.
pub(super) fn guid(path: &str) -> String {
    let bits = Uuid::new_v5(&Uuid::NAMESPACE_OID, format!("wythe:{path}").as_bytes()).as_u128();
    (0..22).rev().map(|at| char::from(LETTERS[(bits >> (at * 6)) as usize & 63])).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn identifiers_are_kept_and_told_apart() {
        let south = guid("unit_4/wall/south");
        assert_eq!(south, guid("unit_4/wall/south"));
        assert_ne!(south, guid("unit_4/wall/east"));
        assert_eq!(south.len(), 22);
        // 132 bits hold 128: the first letter is one of four.
        assert!(south.starts_with(['0', '1', '2', '3']));
    }
}
