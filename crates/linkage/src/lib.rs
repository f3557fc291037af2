//! linkage
