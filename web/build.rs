//! Asks the linker to leave in the program what refers to what: the build of the page cuts it in parts by that.
fn main() {
    println!("cargo::rerun-if-changed=build.rs");
    if std::env::var("CARGO_CFG_TARGET_FAMILY").is_ok_and(|family| family == "wasm") {
        println!("cargo::rustc-link-arg=--emit-relocs");
    }
}
