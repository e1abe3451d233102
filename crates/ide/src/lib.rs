//! Questions about a snapshot, without a protocol type.
