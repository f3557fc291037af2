//! study
