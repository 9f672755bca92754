//! The program behind `cargo page`: builds the page and serves it on this machine.

pub mod build;
mod functions;
mod group;
pub mod options;
pub mod serve;
pub mod single;
pub mod size;
mod target;

use std::process::ExitCode;

use anyhow::{Context, Result};

use options::{Options, Request, Work};
use serve::Server;

/// Runs the program with the arguments of this process.
#[must_use]
pub fn main() -> ExitCode {
    let options = match Options::parse(std::env::args().skip(1)) {
        Ok(Request::Run(options)) => options,
        Ok(Request::Help) => {
            print!("{}", options::HELP);
            return ExitCode::SUCCESS;
        }
        Err(error) => {
            eprintln!("{error}");
            return ExitCode::from(2);
        }
    };
    match run(&options) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("error: {error:#}");
            ExitCode::FAILURE
        }
    }
}

fn run(options: &Options) -> Result<()> {
    match &options.work {
        Work::SingleFile(path) => {
            single::write(path)?;
            println!("{}: the whole page in one file; open it from disk", path.display());
            Ok(())
        }
        Work::BuildOnly(folder) => {
            build::into_folder(folder)?;
            print!("{}{}", size::by_crate(&build::compiled())?, size::table(folder)?);
            println!("{}: ready for any file server", folder.display());
            Ok(())
        }
        Work::Serve { port, open } => {
            let folder = build::default_folder();
            build::into_folder(&folder)?;
            let server = Server::start(&folder, *port)?;
            println!("{}", server.address());
            println!("Serving on this machine only; press Ctrl+C to stop.");
            if *open && let Err(error) = open::that_detached(server.address()) {
                eprintln!("No browser could be opened ({error}); open the address above yourself.");
            }
            server.wait().context("the server stopped")
        }
    }
}
