//! Rimebench
fn main() {
    #[cfg(feature = "window")]
    desktop::run();
}
