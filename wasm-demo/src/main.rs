//! Builds the page and serves it on this machine.

#[cfg(not(target_arch = "wasm32"))]
fn main() -> std::process::ExitCode {
    mistcoat_page::host::main()
}

/// The page's wasm has no program of its own; cargo builds the binary for it all the same.
#[cfg(target_arch = "wasm32")]
fn main() {}
