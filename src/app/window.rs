//! The engine's part: window, frames, input.

use std::panic::AssertUnwindSafe;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

use bevy::prelude::*;
use bevy::render::RenderPlugin;
use bevy::render::settings::{PowerPreference, RenderCreation, WgpuSettings};
use bevy::window::{PresentMode, WindowCloseRequested, WindowResolution};
use bevy::winit::{UpdateMode, WinitSettings};
use bevy_egui::{EguiContexts, EguiPlugin, EguiPrimaryContextPass, egui};
use session::background::panic_text;
use session::{Liveliness, Options, Pace, Quit, Session, Store, WallClock};
use ui::{Shown, UiState};
use words::Words;

use crate::probe;

/// Time between frames while something moves: about 30 a second.
const MOVING: Duration = Duration::from_millis(33);
/// Time between frames while long work goes on: drawing by software takes most of a core at 30 frames a second.
const WAITING: Duration = Duration::from_millis(200);
/// Time between frames while nothing moves: often enough for a tooltip.
const STILL: Duration = Duration::from_millis(300);
/// Longest time that the drawing moves on by in a frame, s.
const LONGEST_MOTION_S: f64 = 0.25;
/// Time between frames while another window is in front.
const BEHIND: Duration = Duration::from_millis(100);

/// The session, which outlives an engine that breaks down.
#[derive(Clone)]
struct Kept(Arc<Mutex<Session>>);

impl Kept {
    /// The session, whatever became of a frame that had it.
    fn get(&self) -> MutexGuard<'_, Session> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

#[derive(Resource)]
struct Screen {
    session: Kept,
    state: UiState,
}

/// Runs the window until it is closed.
pub fn run(options: &Options) -> Result<(), String> {
    let session = Session::new(options, Store::of_the_system(), Arc::new(WallClock::default()));
    let mut state = UiState::default();
    state.prefill(options.call.as_deref(), options.seed);
    guarded(session, |session| app(Screen { session, state }).run())
}

/// Runs an engine on a session. However it ends, the visit is saved, and the person at the terminal gets a sentence and the way on.
fn guarded(session: Session, engine: impl FnOnce(Kept) -> AppExit) -> Result<(), String> {
    let kept = Kept(Arc::new(Mutex::new(session)));
    // The session is whole between two of its commands; what a frame left half done is saved as far as it went.
    let ran = std::panic::catch_unwind(AssertUnwindSafe(|| engine(kept.clone())));
    let words = Words::default();
    let reason = match ran {
        Ok(AppExit::Success) => return Ok(()),
        Ok(AppExit::Error(code)) => words.fill("screen-engine-ended", &[("code", code.to_string())]),
        Err(reason) => match panic_text(reason.as_ref()) {
            text if text.is_empty() => words.label("screen-engine-stopped"),
            text => text,
        },
    };
    // A plant that broke down once may do so again.
    let saved =
        std::panic::catch_unwind(AssertUnwindSafe(|| kept.get().save_before_closing())).ok().flatten();
    Err(probe::broke_down(reason, saved.as_deref()))
}

fn app(screen: Screen) -> App {
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
        .insert_resource(screen)
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
    let screen = &mut *screen;
    let mut session = screen.session.get();
    let real_s = time.delta_secs_f64();
    if session.clock().is_some_and(|clock| clock.pace == Pace::Running) {
        screen.state.motion.moved_s += real_s.clamp(0.0, LONGEST_MOTION_S);
    }
    session.advance(real_s);
    if session.quit() == Quit::Now {
        exit.write(AppExit::Success);
    }
}

fn keep_record_when_closing(screen: Res<Screen>, mut requests: MessageReader<WindowCloseRequested>) {
    if requests.read().next().is_some() {
        screen.session.get().save_before_closing();
    }
}

fn pace(screen: Res<Screen>, mut settings: ResMut<WinitSettings>) {
    let wait = match screen.session.get().liveliness() {
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
    let screen = &mut *screen;
    let mut session = screen.session.get();
    for command in show(&mut root, &mut screen.state, &session) {
        session.apply(command);
    }
    Ok(())
}

/// Draws what the session shows and returns what was asked for.
fn show(root: &mut egui::Ui, state: &mut UiState, session: &Session) -> Vec<session::Command> {
    let shown = Shown {
        stage: session.stage(),
        notice: session.notice(),
        words: session.words(),
        turn: session.turns(),
    };
    ui::show(root, state, shown)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::path::PathBuf;

    use bevy::time::TimeUpdateStrategy;
    use session::{Command, HandClock};
    use visit::Move;

    fn session(name: &str, call: Option<&str>) -> (Session, PathBuf) {
        let folder = std::env::temp_dir().join(format!("rimebench-window-{name}-{}", std::process::id()));
        let _ = std::fs::remove_dir_all(&folder);
        let options = Options { call: call.map(str::to_owned), seed: Some(3), record_dir: None };
        let mut session = Session::new(&options, Store::in_folder(&folder), Arc::new(HandClock::default()));
        session.wait();
        (session, folder)
    }

    /// An engine without window and graphics adapter.
    fn headless(session: Kept) -> App {
        let mut app = App::new();
        app.add_plugins(MinimalPlugins)
            .insert_resource(TimeUpdateStrategy::ManualDuration(Duration::from_millis(100)))
            .insert_resource(Screen { session, state: UiState::default() })
            .insert_resource(WinitSettings::default())
            .add_systems(Update, (advance, pace).chain());
        app
    }

    /// The engine's clock drives the session, and the panels draw it and give it commands.
    #[test]
    fn frames_of_the_engine_drive_the_session_and_its_panels() {
        let (session, folder) = session("frames", Some("tannery-lane"));
        let kept = Kept(Arc::new(Mutex::new(session)));
        let mut app = headless(kept.clone());
        kept.get().apply(Command::Perform(Move::ReadDataPlate));
        for _ in 0..60 {
            app.update();
        }
        assert_eq!(app.world().resource::<WinitSettings>().focused_mode, reactive(MOVING));
        assert!(app.world().resource::<Screen>().state.motion.moved_s > 0.0);
        assert_eq!(kept.get().visit().map(|visit| visit.notebook().len()), Some(1));
        let (ctx, mut state) = (egui::Context::default(), UiState::default());
        let mut given = Vec::new();
        for key in [None, None, Some(egui::Key::Space), None] {
            let pressed = |key| egui::Event::Key {
                key,
                physical_key: None,
                pressed: true,
                repeat: false,
                modifiers: egui::Modifiers::NONE,
            };
            let input =
                egui::RawInput { events: key.map(pressed).into_iter().collect(), ..Default::default() };
            let _ = ctx.run_ui(input, |ui| given.extend(show(ui, &mut state, &kept.get())));
        }
        assert_eq!(given, [Command::TogglePause]);
        kept.get().apply(Command::Quit);
        app.update();
        assert_eq!(app.should_exit(), Some(AppExit::Success));
        std::fs::remove_dir_all(folder).expect("removed");
    }

    /// A panic in a frame, as when the graphics adapter is lost, costs nothing but the window.
    #[test]
    fn a_panic_in_a_frame_saves_the_visit_and_says_where() {
        let (mut session, folder) = session("panic", Some("tannery-lane"));
        session.apply(Command::Perform(Move::ReadDataPlate));
        let told = guarded(session, |kept| {
            let mut app = headless(kept.clone());
            app.add_systems(Update, move |screen: Res<Screen>| {
                let session = screen.session.get();
                assert!(
                    session.visit().is_none_or(|visit| visit.notebook().is_empty()),
                    "the adapter is lost"
                );
            });
            for _ in 0..200 {
                app.update();
            }
            AppExit::Success
        });
        let told = told.expect_err("the window broke down");
        let record = folder.join("records/tannery-lane-seed3.visit.ron");
        assert!(
            told.contains("the adapter is lost") && told.contains(&record.display().to_string()),
            "{told}"
        );
        let text = std::fs::read_to_string(&record).expect("saved");
        assert_eq!(visit::Record::from_text(&text, "saved").expect("whole").moves().count(), 1);
        std::fs::remove_dir_all(folder).expect("removed");
    }

    /// An engine that ends by itself saves as well.
    #[test]
    fn an_engine_that_ends_with_an_error_saves_the_visit() {
        let (session, folder) = session("ended", Some("tannery-lane"));
        let told = guarded(session, |kept| {
            kept.get().apply(Command::Perform(Move::ReadDataPlate));
            for _ in 0..100 {
                kept.get().advance(0.05);
            }
            AppExit::Error(std::num::NonZeroU8::MIN)
        });
        assert!(told.expect_err("it ended").contains("tannery-lane-seed3.visit.ron"));
        std::fs::remove_dir_all(folder).expect("removed");
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
