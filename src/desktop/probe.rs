//! Looks for a display and a graphics adapter before the engine does, which would end in a panic.

/// The way to work without a window, at the end of every refusal.
const HEADLESS: &str = "Rimebench also works without a window: `rimebench play --help` works a call from a file of \
                        moves, `rimebench --help` lists the rest.";

/// Whether a window can be opened at all.
pub fn display() -> Result<(), String> {
    find_display().map_err(|reason| format!("No window can be opened here: {reason}\n{HEADLESS}"))
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
        Err(reason) => Err(format!(
            "No graphics adapter was found ({reason}). The window needs Vulkan, Metal or Direct3D 12; on \
             Linux without a graphics card the package mesa-vulkan-drivers brings one that works on the \
             processor.\n{HEADLESS}"
        )),
    }
}

/// The message for a window that failed to open for another reason.
pub fn other_failure(reason: &str) -> String {
    format!("The window could not be opened: {reason}\n{HEADLESS}")
}

#[cfg(all(unix, not(target_os = "macos")))]
fn find_display() -> Result<(), String> {
    let variable = |name: &str| std::env::var(name).ok().filter(|value| !value.is_empty());
    let wayland = variable("WAYLAND_DISPLAY").or_else(|| variable("WAYLAND_SOCKET"));
    match (wayland, variable("DISPLAY")) {
        (None, None) => {
            Err("neither DISPLAY nor WAYLAND_DISPLAY is set, so there is no screen to open it on.".to_owned())
        }
        // The engine takes Wayland where it is offered.
        (Some(_), _) => Ok(()),
        (None, Some(name)) => match x11rb::connect(None) {
            Ok(_) => Ok(()),
            Err(reason) => Err(format!("DISPLAY is {name}, and no display answers there ({reason}).")),
        },
    }
}

#[cfg(not(all(unix, not(target_os = "macos"))))]
fn find_display() -> Result<(), String> {
    Ok(())
}
