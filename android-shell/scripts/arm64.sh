#!/usr/bin/env bash
# The Rust library for phones, into target/arm64-v8a, where apk.sh takes it from. Needs Google's NDK (r27 or newer) at
# ANDROID_NDK_HOME and `rustup target add aarch64-linux-android`.
set -euo pipefail
shell=$(cd "$(dirname "$0")/.." && pwd)
ndk=${ANDROID_NDK_HOME:?set it to the folder of the NDK}
bin=$(echo "$ndk"/toolchains/llvm/prebuilt/*/bin)
[ -x "$bin/aarch64-linux-android26-clang" ] || { echo "no compiler for Android 8 in $bin; is this an NDK?" >&2; exit 1; }

export CC_aarch64_linux_android=$bin/aarch64-linux-android26-clang AR_aarch64_linux_android=$bin/llvm-ar
export CARGO_TARGET_AARCH64_LINUX_ANDROID_LINKER=$bin/aarch64-linux-android26-clang
# newer phones map pages of 16 KiB
export CARGO_TARGET_AARCH64_LINUX_ANDROID_RUSTFLAGS="-Clink-arg=-Wl,-z,max-page-size=16384"
cd "$shell/.."
cargo build --locked --release -p slingseal-android --target aarch64-linux-android
built=$(cargo metadata --locked --no-deps --format-version 1 | sed -n 's/.*"target_directory":"\([^"]*\)".*/\1/p')
mkdir -p "$shell/target/arm64-v8a"
"$bin/llvm-strip" --strip-unneeded -o "$shell/target/arm64-v8a/libslingseal_android.so" \
  "$built/aarch64-linux-android/release/libslingseal_android.so"
ls -l "$shell/target/arm64-v8a"
