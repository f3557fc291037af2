//! sharing
