//! The language server: protocol in, questions out.
