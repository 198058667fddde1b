//! Currencies known without declaration, by ISO 4217 code, and their decimal places.

use crate::Nominal;

/// Code, name, plural, and digits of the minor unit (ISO 4217 list one; from memory).
pub(crate) const CURRENCIES: [(&str, &str, &str, u8); 16] = [
    ("USD", "US dollar", "US dollars", 2),
    ("EUR", "euro", "euros", 2),
    ("GBP", "pound sterling", "pounds sterling", 2),
    ("CAD", "Canadian dollar", "Canadian dollars", 2),
    ("AUD", "Australian dollar", "Australian dollars", 2),
    ("NZD", "New Zealand dollar", "New Zealand dollars", 2),
    ("CHF", "Swiss franc", "Swiss francs", 2),
    ("SEK", "Swedish krona", "Swedish kronor", 2),
    ("NOK", "Norwegian krone", "Norwegian kroner", 2),
    ("DKK", "Danish krone", "Danish kroner", 2),
    ("PLN", "zloty", "zlotys", 2),
    ("CZK", "Czech koruna", "Czech koruny", 2),
    ("MXN", "Mexican peso", "Mexican pesos", 2),
    ("JPY", "yen", "yen", 0),
    ("CNY", "yuan renminbi", "yuan renminbi", 2),
    ("INR", "Indian rupee", "Indian rupees", 2),
];

/// Decimal places money of this currency is shown with.
pub fn currency_decimals(currency: Nominal) -> u8 {
    let code = currency.name().as_str();
    CURRENCIES.iter().find(|row| row.0 == code).map_or(2, |row| row.3)
}
