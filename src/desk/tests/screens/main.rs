//! Screens worked as a person works them: by label, by pointer in the drawing, by keyboard.

mod bench;
mod start_and_review;
mod visit_screen;
