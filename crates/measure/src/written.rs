//! Lengths as people write them: `2.5 m`, `7 1/2 in`, `20 mm`.
