//! How large the page is to download.

use std::fmt::Write as _;
use std::fs;
use std::io::Write as _;
use std::path::Path;

use anyhow::{Context, Result};
use flate2::{Compression, write::GzEncoder};

/// One line for each file of the built page, and the sum: bytes as stored, and gzipped as most servers send them.
///
/// # Errors
/// When a file cannot be read.
pub fn table(folder: &Path) -> Result<String> {
    let mut names = fs::read_dir(folder)
        .with_context(|| format!("{}: cannot be read", folder.display()))?
        .map(|entry| Ok(entry?.path()))
        .collect::<Result<Vec<_>>>()?;
    names.retain(|path| path.is_file());
    names.sort();
    let mut text = String::new();
    let (mut all, mut all_gzipped) = (0, 0);
    for path in names {
        let bytes = fs::read(&path)?;
        let gzipped = gzip(&bytes)?.len();
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        writeln!(text, "{:>9} bytes  {gzipped:>8} gzipped  {name}", bytes.len())?;
        all += bytes.len();
        all_gzipped += gzipped;
    }
    writeln!(text, "{all:>9} bytes  {all_gzipped:>8} gzipped  in all")?;
    Ok(text)
}

/// Gzip at the best level.
///
/// # Errors
/// Never for memory; the writer's interface carries the error.
pub fn gzip(bytes: &[u8]) -> Result<Vec<u8>> {
    let mut encoder = GzEncoder::new(Vec::new(), Compression::best());
    encoder.write_all(bytes)?;
    Ok(encoder.finish()?)
}
