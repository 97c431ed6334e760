//! Looks for a display and a graphics adapter before the engine does, which would end in a panic.

use std::path::Path;

use words::Words;

/// A refusal, and on a line of its own the way to work without a window.
fn refusal(told: String) -> String {
    [told, Words::default().label("screen-headless")].join("\n")
}

/// Whether a window can be opened at all.
pub fn display() -> Result<(), String> {
    find_display().map_err(refusal)
}

/// Whether something can draw into it.
pub fn graphics() -> Result<(), String> {
    let instance = wgpu::Instance::new(wgpu::InstanceDescriptor {
        backends: wgpu::Backends::all(),
        ..wgpu::InstanceDescriptor::new_without_display_handle()
    });
    let request = instance.request_adapter(&wgpu::RequestAdapterOptions {
        power_preference: wgpu::PowerPreference::LowPower,
        ..Default::default()
    });
    match bevy::tasks::block_on(request) {
        Ok(_) => Ok(()),
        Err(reason) => {
            let reason = reason.to_string();
            Err(refusal(Words::default().fill("screen-no-graphics", &[("reason", reason)])))
        }
    }
}

/// The message for a window that failed for another reason, with the place where the visit was saved.
pub fn broke_down(reason: String, saved: Option<&Path>) -> String {
    let words = Words::default();
    let told = words.fill("screen-no-window", &[("reason", reason)]);
    match saved {
        Some(path) => {
            [told, words.fill("screen-broke-down-saved", &[("path", path.display().to_string())])].join("\n")
        }
        None => refusal(told),
    }
}

#[cfg(all(unix, not(target_os = "macos")))]
fn find_display() -> Result<(), String> {
    let variable = |name: &str| std::env::var(name).ok().filter(|value| !value.is_empty());
    let wayland = variable("WAYLAND_DISPLAY").or_else(|| variable("WAYLAND_SOCKET"));
    match (wayland, variable("DISPLAY")) {
        (None, None) => Err(Words::default().label("screen-no-display")),
        // The engine takes Wayland where it is offered.
        (Some(_), _) => Ok(()),
        (None, Some(name)) => match x11rb::connect(None) {
            Ok(_) => Ok(()),
            Err(reason) => Err(Words::default()
                .fill("screen-no-display-answers", &[("display", name), ("reason", reason.to_string())])),
        },
    }
}

#[cfg(not(all(unix, not(target_os = "macos"))))]
fn find_display() -> Result<(), String> {
    Ok(())
}
