//! Screens worked as a person works them: by label, by pointer in the drawing, by keyboard.

mod bench;
mod hints_screen;
mod review_screen;
mod start_screen;
mod visit_screen;
