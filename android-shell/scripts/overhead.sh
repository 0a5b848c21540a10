#!/usr/bin/env bash
# overhead.sh [CALLS]: how long a card's view takes from Kotlin, and the same call in Rust beside it. A measurement, not a
# test: it fails on nothing but a fault. Needs `mvn -f android-shell test-compile` before it; builds the library with
# optimisation, as a phone gets it.
set -euo pipefail
shell=$(cd "$(dirname "$0")/.." && pwd)
calls=${1:-2000}
cd "$shell/.."
# PROFILE=dev measures what the tests run, which is quicker to build and slower to answer
profile=${PROFILE:-release}
cargo build --locked -q --profile "$profile" -p slingseal-android --lib --example card_view
built=$(cargo metadata --locked --no-deps --format-version 1 | sed -n 's/.*"target_directory":"\([^"]*\)".*/\1/p')/${profile/dev/debug}
cd "$shell"
mvn -q --batch-mode dependency:build-classpath -Dmdep.outputFile=target/classpath.txt -Dmdep.includeScope=runtime
out=$(java -Djna.library.path="$built" -cp "target/test-classes:target/classes:$(cat target/classpath.txt)" \
  slingseal.handheld.support.Overhead "$calls")
echo "$out" | sed '$d'
IFS=$'\t' read -r home secret walk calls <<<"$(echo "$out" | tail -1)"
"$built/examples/card_view" "$home" "$secret" "$walk" "$calls"
rm -rf "$(dirname "$home")"
