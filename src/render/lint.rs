//! placeholder while the engine is brought up
