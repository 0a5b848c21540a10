//! Makes vectors of check pages: `cargo run -p slingseal-web --example make_page_vectors`. One that is there stays as it is.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::string_slice,
    clippy::disallowed_methods,
    reason = "a test fails by panicking, and measures"
)]

#[allow(dead_code, reason = "the tests ask more of it")]
#[path = "../tests/support/cast.rs"]
mod cast;

use std::path::Path;

use cast::{Cast, at};
use slingseal_message::trust::{CheckPage, Role};

fn main() {
    let cast = Cast::new();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/vectors/page");
    std::fs::create_dir_all(&folder).expect("a folder");
    let good = cast.page(at(0), 24, &[]);
    let (seal, tag) = (cast.seal(at(-600), true), cast.tag());
    let both = [seal.clone(), tag.clone()];
    let refusal = cast.seal(at(-60), false);
    let void = cast.void(at(-30));
    let mut torn = good.clone();
    let last = torn.len() - 1;
    torn[last] ^= 1;
    let long = CheckPage { until: at(8 * 86_400), ..cast.plain(at(0), 24, &[]) };
    // Name, what it holds, the page, its age in seconds, what is shown.
    type Case<'a> = (&'a str, &'a str, Vec<u8>, i64, &'a [String]);
    let cases: Vec<Case<'_>> = vec![
        ("good", "A page of today, a sound seal and its tag.", good.clone(), 60, &both),
        ("last_second", "The last second of the page's day.", good.clone(), 86_400 - 1_200, &both),
        (
            "past_its_day",
            "A page past its day: WAIT, whatever is sealed.",
            cast.page(at(-7_200), 1, &[]),
            60,
            &both,
        ),
        (
            "refusal_inside",
            "The page knows a later inspection that found the load not fit.",
            cast.page(at(0), 24, &[refusal]),
            60,
            &both,
        ),
        (
            "void_inside",
            "The page knows that the seal was taken back.",
            cast.page(at(0), 24, &[void]),
            60,
            &both,
        ),
        (
            "tag_alone",
            "A tag alone, judged by the inspection inside.",
            cast.page(at(0), 24, &[seal]),
            60,
            &both[1..],
        ),
        ("clock_before_it", "A clock behind the time at which the page was made.", good, -900, &both),
        ("torn", "One bit of the signature is wrong.", torn, 60, &both),
        (
            "no_leader",
            "Signed by an inspector who is no leader.",
            cast.signed_by(&cast.plain(at(0), 24, &[]), &[Role::Inspector], 1_000_000),
            60,
            &both,
        ),
        (
            "leader_ran_out",
            "Signed after the leader's credential had run out.",
            cast.signed_by(&cast.plain(at(0), 24, &[]), &[Role::Leader], -1),
            60,
            &both,
        ),
        (
            "too_long",
            "It claims to hold for eight days.",
            cast.signed_by(&long, &[Role::Leader], 1_000_000),
            60,
            &both,
        ),
        ("stranger", "Signed by a leader of an authority that is not on it.", cast.stranger(), 60, &both),
    ];
    for (name, about, page, now, shown) in cases {
        // What a change of a rule made wrong stays as it was; what is right now stands beside it.
        let moved = folder.join("superseded").join(format!("{name}.toml")).exists();
        let name = if moved { format!("approved_{name}") } else { name.to_owned() };
        let file = folder.join(format!("{name}.toml"));
        if file.exists() {
            continue;
        }
        std::fs::write(&file, cast::vector(about, &page, at(now), shown)).expect("a file");
        println!("{name}");
    }
}
