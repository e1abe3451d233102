//! The one owner of texts, configuration, snapshots and kept results; the one check().
