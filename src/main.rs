//! Passes the arguments to the command line and returns its exit code.

use std::process::ExitCode;

fn main() -> ExitCode {
    backtack::render::guard::quiet();
    backtack::cli::main(std::env::args_os(), &Default::default())
}
