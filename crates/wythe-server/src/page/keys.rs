//! Who is admitted: a token opens the page once, and gives it a key for its own questions.

use std::fmt::Write as _;
use std::io;

/// How many tokens may wait, and how many pages may be open. The oldest gives way.
const MOST: usize = 8;

/// The tokens that wait to be used and the keys of the pages that are open.
#[derive(Default)]
pub(crate) struct Keys {
    tokens: Vec<String>,
    open: Vec<String>,
}

impl Keys {
    /// A new token.
    pub(crate) fn token(&mut self) -> io::Result<String> {
        let token = secret()?;
        keep(&mut self.tokens, token.clone());
        Ok(token)
    }

    /// The key of a page, for a token that has not been used; the token is void from here on.
    pub(crate) fn redeem(&mut self, token: &str) -> io::Result<Option<String>> {
        let Some(at) = self.tokens.iter().position(|known| same(known, token)) else { return Ok(None) };
        self.tokens.remove(at);
        let key = secret()?;
        keep(&mut self.open, key.clone());
        Ok(Some(key))
    }

    /// Whether a page with this key is open.
    pub(crate) fn admits(&self, key: &str) -> bool {
        self.open.iter().any(|known| same(known, key))
    }
}

fn keep(all: &mut Vec<String>, one: String) {
    if all.len() == MOST {
        all.remove(0);
    }
    all.push(one);
}

/// 192 bits of the system's randomness, in hexadecimal figures.
pub(crate) fn secret() -> io::Result<String> {
    let mut bytes = [0_u8; 24];
    getrandom::fill(&mut bytes).map_err(|error| io::Error::other(error.to_string()))?;
    Ok(bytes.iter().fold(String::new(), |mut out, byte| {
        let _ = write!(out, "{byte:02x}");
        out
    }))
}

/// Whether two secrets are the same, in a time that does not tell where they differ.
fn same(known: &str, given: &str) -> bool {
    let differences = known.bytes().zip(given.bytes()).fold(0, |sum, (a, b)| sum | (a ^ b));
    known.len() == given.len() && differences == 0
}

#[cfg(test)]
mod tests {
    use super::{Keys, MOST};

    #[test]
    fn a_token_opens_one_page_and_nothing_else() {
        let mut keys = Keys::default();
        let token = keys.token().unwrap();
        assert_eq!(token.len(), 48);
        assert_ne!(token, keys.token().unwrap());
        assert!(!keys.admits(&token), "a token is no key");
        assert_eq!(keys.redeem("").unwrap(), None);
        assert_eq!(keys.redeem(&token[1..]).unwrap(), None);
        let key = keys.redeem(&token).unwrap().unwrap();
        assert!(keys.admits(&key) && !keys.admits("") && !keys.admits(&key[..47]));
        assert_eq!(keys.redeem(&token).unwrap(), None, "it was used");
        assert_eq!(keys.redeem(&key).unwrap(), None, "a key is no token");
    }

    #[test]
    fn the_oldest_gives_way() {
        let mut keys = Keys::default();
        let first = keys.token().unwrap();
        for _ in 0..MOST {
            keys.token().unwrap();
        }
        assert_eq!(keys.redeem(&first).unwrap(), None);
    }
}
