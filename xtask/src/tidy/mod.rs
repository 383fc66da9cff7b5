//! What the project keeps about its own shape, as tests: arrows between crates point down only,
//! every source says what it is, files stay small, no dependency is built twice without a reason
//! on record, and nothing names a registry's host or a machine's folder.

mod arrows;
mod locks;
mod sources;
