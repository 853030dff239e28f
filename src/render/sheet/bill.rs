//! placeholder
use super::super::sheets::Sheet; use super::pictures::Pictures; use super::view::View;
pub fn fill(_: &View<'_>, _: &mut Pictures) -> Vec<Sheet> { Vec::new() }
