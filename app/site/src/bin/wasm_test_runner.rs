//! The program that `cargo test --target wasm32-unknown-unknown` hands each test module to. It comes from the
//! same locked version as the bindings, so nothing has to be installed by hand.

fn main() -> anyhow::Result<()> {
    wasm_bindgen_cli::wasm_bindgen_test_runner::run_cli_with_args(std::env::args_os())
}
