//! Contracts: the same seed gives the same result, to the bit.

mod bits;
