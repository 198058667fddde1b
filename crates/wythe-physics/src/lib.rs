//! Heat, moist air, vapour, mould and drying over typed quantities.
