//! Runners shared by the checks against sources outside the project.
