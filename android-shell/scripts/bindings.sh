#!/usr/bin/env bash
# Builds the library for this machine and generates its Kotlin side from it. Nothing of this is committed.
set -euo pipefail
shell=$(cd "$(dirname "$0")/.." && pwd)
cd "$shell/.."
# debug profile: the tests run the same code, and it is built in a fraction of the time
cargo build --locked -q -p slingseal-android -p slingseal-android-generator
# wherever cargo was told to build
built=$(cargo metadata --locked --no-deps --format-version 1 | sed -n 's/.*"target_directory":"\([^"]*\)".*/\1/p')/debug
library=$built/libslingseal_android.so
mkdir -p "$shell/target/host"
cp -u "$library" "$shell/target/host/"
"$built/slingseal-android-generator" generate \
  --language kotlin --no-format --out-dir "$shell/target/generated-sources/uniffi" "$library"
