//! Writes the frozen vectors of `seal/` and `closing/`: `cargo run -p slingseal-tests --example make_seal_vectors`. A vector that is there
//! already is never written again, whatever would come out today: what a released device answered must stay answered.
//! Verdicts are written down here by hand, from the rules; nothing here asks the program what it would say.

mod closing;
mod make;
mod vector;

use std::path::Path;

fn main() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("vectors/seal");
    let (mut written, mut kept) = (0, 0);
    for (name, vector) in make::all() {
        // What a change of a rule made wrong stays as it was; what is right now stands beside it under the same name.
        let stem = name.rsplit('/').next().expect("a name");
        let superseded = folder.join("superseded").join(stem).with_extension("toml").exists();
        let name = if superseded { format!("approved/{stem}") } else { name.clone() };
        let path = folder.join(&name).with_extension("toml");
        if path.exists() {
            kept += 1;
            continue;
        }
        let text = toml::to_string(&vector).expect("a vector is a table");
        std::fs::create_dir_all(path.parent().expect("a folder")).expect("the folder can be made");
        std::fs::write(&path, text).expect("the vector can be written");
        written += 1;
    }
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("vectors/closing");
    std::fs::create_dir_all(&folder).expect("the folder can be made");
    for (name, closing) in make::closings() {
        let path = folder.join(name).with_extension("toml");
        if path.exists() {
            kept += 1;
            continue;
        }
        let text = toml::to_string(&closing).expect("a vector is a table");
        std::fs::write(&path, text).expect("the vector can be written");
        written += 1;
    }
    println!("{written} vectors written, {kept} were there and stay as they are");
}
