//! Where the browser of the browser tests is.

use std::path::{Path, PathBuf};

/// How to get it on the systems that CI runs on.
pub const INSTALL: &str = "apt-get install --yes chromium";

const NAMES: [&str; 5] = ["chromium", "chromium-browser", "google-chrome-stable", "google-chrome", "chrome"];
const MAC: &str = "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome";

/// The program named by the variable `CHROME`, else the first of the usual names on the search path.
#[must_use]
pub fn find() -> Option<PathBuf> {
    if let Some(path) = std::env::var_os("CHROME").map(PathBuf::from).filter(|path| path.is_file()) {
        return Some(path);
    }
    let path = std::env::var_os("PATH").unwrap_or_default();
    let folders: Vec<PathBuf> = std::env::split_paths(&path).collect();
    NAMES
        .iter()
        .flat_map(|name| folders.iter().map(move |folder| folder.join(name)))
        .chain([Path::new(MAC).to_path_buf()])
        .find(|path| path.is_file())
}
