//! How large the page is to download.

use std::fmt::Write as _;
use std::fs;
use std::io::Write as _;
use std::path::Path;

use std::collections::BTreeMap;

use anyhow::{Context, Result};
use flate2::{Compression, write::GzEncoder};
use wasmparser::{Parser, Payload};

use super::functions::Functions;

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

/// Lines of [`by_crate`]; smaller ones are added up.
const LARGEST: usize = 12;

/// The code of the wasm by the crate that its functions are from; generic and inlined code counts where it ended up.
///
/// # Errors
/// When the file is no wasm.
pub fn by_crate(wasm: &Path) -> Result<String> {
    let bytes = fs::read(wasm).with_context(|| format!("{}: cannot be read", wasm.display()))?;
    let mut sizes: BTreeMap<String, usize> = BTreeMap::new();
    let Functions { imported, names, bodies } = Functions::of(&bytes)?;
    for (index, size) in (imported..).zip(bodies) {
        let name = names.get(&index).map_or_else(|| "unnamed".into(), |name| crate_of(name));
        *sizes.entry(name).or_default() += size;
    }
    for payload in Parser::new(0).parse_all(&bytes) {
        if let Payload::DataSection(section) = payload? {
            *sizes.entry("(data)".into()).or_default() += section.range().len();
        }
    }
    let mut sizes: Vec<(String, usize)> = sizes.into_iter().collect();
    sizes.sort_by(|a, b| b.1.cmp(&a.1).then_with(|| a.0.cmp(&b.0)));
    let rest = sizes.split_off(LARGEST.min(sizes.len()));
    let mut text = String::from("Before wasm-bindgen, by crate:\n");
    for (name, size) in &sizes {
        writeln!(text, "{size:>9} bytes  {name}")?;
    }
    writeln!(text, "{:>9} bytes  {} others", rest.iter().map(|(_, size)| size).sum::<usize>(), rest.len())?;
    Ok(text)
}

/// The crate in a function's name: the first word of its path.
fn crate_of(name: &str) -> String {
    let name = format!("{:#}", rustc_demangle::demangle(name));
    let path = name.trim_start_matches(['<', '&', '[', '(', '*']);
    let path = ["mut ", "const ", "dyn "].iter().fold(path, |path, word| path.trim_start_matches(word));
    let word = path.split(|c: char| !(c.is_alphanumeric() || c == '_')).next().unwrap_or_default();
    match word {
        _ if word.starts_with("__wb") || word.starts_with("wasm_bindgen") => "wasm_bindgen".into(),
        // `<T as Trait>::function`
        _ if word.starts_with(|c: char| c.is_ascii_uppercase()) => "(generic)".into(),
        _ => word.to_owned(),
    }
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

#[cfg(test)]
mod tests {
    use super::crate_of;

    #[test]
    fn a_function_belongs_to_a_crate() {
        assert_eq!(crate_of("_ZN8mistcoat4math3exp17h0123456789abcdefE"), "mistcoat");
        assert_eq!(crate_of("<mistcoat::job::Job as core::fmt::Debug>::fmt"), "mistcoat");
        assert_eq!(crate_of("<&mut std::io::Stdout as std::io::Write>::write"), "std");
        assert_eq!(crate_of("memcpy"), "memcpy");
        assert_eq!(crate_of("<T as core::convert::Into<U>>::into"), "(generic)");
        assert_eq!(crate_of("__wbindgen_describe___wbg_log_0123"), "wasm_bindgen");
    }
}
