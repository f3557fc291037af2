//! truck
