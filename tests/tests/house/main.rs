//! The rules of the house, kept by reading the repository itself: what may lean on what, what is deliberately
//! absent from where, and that everything a user can meet has its words.
#![allow(clippy::expect_used, reason = "a test may fail")]

mod absent;
mod layout;
mod manifests;
mod repository;
mod signatures;
mod sources;
mod words;
