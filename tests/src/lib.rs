//! Tests only.
