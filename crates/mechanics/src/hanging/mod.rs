//! How a suspended load really hangs.
mod elastic;
mod family;
mod numbers;
mod outcome;
mod rigid;
mod search;
#[cfg(test)]
mod scratch;
