//! The window.
use bevy::prelude::*;
use bevy_egui::{EguiContexts, EguiPlugin, EguiPrimaryContextPass};
/// Opens the window.
pub fn run() {
    App::new()
        .add_plugins(DefaultPlugins)
        .add_plugins(EguiPlugin::default())
        .add_systems(Startup, |mut c: Commands| {
            c.spawn(Camera2d);
        })
        .add_systems(EguiPrimaryContextPass, ui)
        .run();
}
fn ui(mut ctx: EguiContexts) -> Result {
    bevy_egui::egui::Window::new("hello").show(ctx.ctx_mut()?, |ui| {
        ui.label("hi");
    });
    Ok(())
}
