//! See the package description.
