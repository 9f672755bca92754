//! Writes the library's public interface into `docs/api.txt`.

use mistcoat_tests::api;
use std::process::ExitCode;

fn main() -> ExitCode {
    let written =
        api::interface().and_then(|text| std::fs::write(api::page(), text).map_err(|e| e.to_string()));
    match written {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("docs/api.txt: {error}");
            ExitCode::FAILURE
        }
    }
}
