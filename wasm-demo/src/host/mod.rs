//! Builds the page and serves it on this machine.
/// x
pub fn main() -> std::process::ExitCode {
    std::process::ExitCode::SUCCESS
}
