//! oracle
