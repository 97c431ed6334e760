//! The engine's part: window, frames, input.

use std::time::Duration;

use bevy::prelude::*;
use bevy::render::RenderPlugin;
use bevy::render::settings::{PowerPreference, RenderCreation, WgpuSettings};
use bevy::window::{PresentMode, WindowCloseRequested, WindowResolution};
use bevy::winit::{UpdateMode, WinitSettings};
use bevy_egui::{EguiContexts, EguiPlugin, EguiPrimaryContextPass, egui};
use words::Words;

use crate::screen::{Liveliness, Quit, Session};
use crate::{Options, probe};

/// Time between frames while something moves: about 30 a second.
const MOVING: Duration = Duration::from_millis(33);
/// Time between frames while long work goes on: drawing by software takes most of a core at 30 frames a second.
const WAITING: Duration = Duration::from_millis(200);
/// Time between frames while nothing moves: often enough for a tooltip.
const STILL: Duration = Duration::from_millis(300);
/// Time between frames while another window is in front.
const BEHIND: Duration = Duration::from_millis(100);

#[derive(Resource)]
struct Screen(Session);

/// Runs the window until it is closed.
pub fn run(options: Options) -> Result<(), String> {
    // Whatever else the engine meets, the person at the terminal gets a sentence and the way on.
    let ran = std::panic::catch_unwind(move || app(&options).run());
    match ran {
        Ok(AppExit::Success) => Ok(()),
        Ok(AppExit::Error(code)) => Err(probe::other_failure(
            Words::default().fill("screen-engine-ended", &[("code", code.to_string())]),
        )),
        Err(reason) => Err(probe::other_failure(panic_text(reason.as_ref()))),
    }
}

fn panic_text(reason: &(dyn std::any::Any + Send)) -> String {
    reason
        .downcast_ref::<String>()
        .cloned()
        .or_else(|| reason.downcast_ref::<&str>().map(|text| (*text).to_owned()))
        .unwrap_or_else(|| Words::default().label("screen-engine-stopped"))
}

fn app(options: &Options) -> App {
    let mut app = App::new();
    let window = Window {
        title: Words::default().label("screen-window-title"),
        name: Some("rimebench".to_owned()),
        // A screen of 1366 by 768 less a title bar and a task bar.
        resolution: WindowResolution::new(1366, 690),
        present_mode: PresentMode::AutoVsync,
        resize_constraints: bevy::window::WindowResizeConstraints {
            min_width: 1100.0,
            min_height: 640.0,
            ..default()
        },
        ..default()
    };
    let drawing = RenderPlugin {
        render_creation: RenderCreation::Automatic(Box::new(WgpuSettings {
            power_preference: PowerPreference::LowPower,
            ..default()
        })),
        ..default()
    };
    let plugins = DefaultPlugins
        .set(WindowPlugin { primary_window: Some(window), ..default() })
        .set(drawing)
        .set(bevy::log::LogPlugin { filter: "error".to_owned(), ..default() });
    app.add_plugins(plugins)
        .add_plugins(EguiPlugin::default())
        .insert_resource(ClearColor(Color::srgb_u8(0xf7, 0xf3, 0xe9)))
        .insert_resource(WinitSettings { focused_mode: reactive(MOVING), unfocused_mode: reactive(BEHIND) })
        .insert_resource(Screen(Session::new(options)))
        .add_systems(Startup, camera)
        .add_systems(Update, (advance, keep_record_when_closing, pace).chain())
        .add_systems(EguiPrimaryContextPass, draw);
    app
}

fn reactive(wait: Duration) -> UpdateMode {
    UpdateMode::Reactive {
        wait,
        react_to_device_events: false,
        react_to_user_events: true,
        react_to_window_events: true,
    }
}

fn camera(mut commands: Commands) {
    commands.spawn((Camera2d, Msaa::Off));
}

fn advance(mut screen: ResMut<Screen>, time: Res<Time<Real>>, mut exit: MessageWriter<AppExit>) {
    screen.0.advance(time.delta_secs_f64());
    if screen.0.quit == Quit::Now {
        exit.write(AppExit::Success);
    }
}

fn keep_record_when_closing(mut screen: ResMut<Screen>, mut requests: MessageReader<WindowCloseRequested>) {
    if requests.read().next().is_some() {
        screen.0.save_before_closing();
    }
}

fn pace(screen: Res<Screen>, mut settings: ResMut<WinitSettings>) {
    let wait = match screen.0.liveliness() {
        Liveliness::Moving => MOVING,
        Liveliness::Waiting => WAITING,
        Liveliness::Still => STILL,
    };
    let wanted = reactive(wait);
    if settings.focused_mode != wanted {
        settings.focused_mode = wanted;
    }
}

fn draw(mut contexts: EguiContexts, mut screen: ResMut<Screen>) -> Result {
    let ctx = contexts.ctx_mut()?;
    let mut root = egui::Ui::new(
        ctx.clone(),
        "rimebench".into(),
        egui::UiBuilder::new().layer_id(egui::LayerId::background()).max_rect(ctx.viewport_rect()),
    );
    for command in screen.0.show(&mut root) {
        screen.0.apply(command);
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use bevy::time::TimeUpdateStrategy;

    /// The engine's clock drives the session without a window or a graphics adapter.
    #[test]
    fn quitting_ends_the_engine_and_frames_reach_the_session() {
        let mut app = App::new();
        app.add_plugins(MinimalPlugins)
            .insert_resource(TimeUpdateStrategy::ManualDuration(Duration::from_millis(100)))
            .insert_resource(Screen(Session::new(&Options::default())))
            .insert_resource(WinitSettings::default())
            .add_systems(Update, (advance, pace).chain());
        app.update();
        app.update();
        assert_eq!(app.world().resource::<WinitSettings>().focused_mode, reactive(STILL));
        assert!(app.should_exit().is_none());
        app.world_mut().resource_mut::<Screen>().0.apply(ui::Command::Quit);
        app.update();
        assert_eq!(app.should_exit(), Some(AppExit::Success));
    }

    /// The first update passes no time; the next ones pass what the engine measured.
    #[test]
    fn the_first_frame_passes_no_time() {
        let mut app = App::new();
        app.add_plugins(MinimalPlugins)
            .insert_resource(TimeUpdateStrategy::ManualDuration(Duration::from_millis(100)));
        app.update();
        let first_s = app.world().resource::<Time<Real>>().delta_secs_f64();
        app.update();
        let second_s = app.world().resource::<Time<Real>>().delta_secs_f64();
        assert!(first_s < 0.05, "{first_s}");
        assert!((second_s - 0.1).abs() < 1.0e-6, "{second_s}");
    }
}
