#!/usr/bin/env bash
# Builds the library for this machine and generates its Kotlin side from it. Nothing of this is committed.
set -euo pipefail
shell=$(cd "$(dirname "$0")/.." && pwd)
cd "$shell/.."
# debug profile: the tests run the same code, and it is built in a fraction of the time
if [ "${WHOLE_WORKSPACE:-}" = 1 ]; then
  # right after `cargo test --workspace`: the same packages, so the same features, so nothing is built a second time
  cargo build --locked -q --workspace --lib --bins --tests
else
  cargo build --locked -q -p slingseal-android -p slingseal-android-generator
fi
# wherever cargo was told to build
built=$(cargo metadata --locked --no-deps --format-version 1 | sed -n 's/.*"target_directory":"\([^"]*\)".*/\1/p')/debug
library=$built/libslingseal_android.so
mkdir -p "$shell/target/host"
# a new file, never the old one written over: a test that still runs has it mapped
cp -u --remove-destination "$library" "$shell/target/host/"
"$built/slingseal-android-generator" generate \
  --language kotlin --no-format --out-dir "$shell/target/generated-sources/uniffi" "$library"
