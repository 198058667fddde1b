//! Reads monthly and hourly weather.
