//! A plans repository: manifest, files, and the memoised pipeline from text to results.
