#!/usr/bin/env bash
# library.sh [ABI]: the Rust library for phones, into target/ABI, where apk.sh takes it from. arm64-v8a where none is named.
# Needs Google's NDK (r27 or newer) at ANDROID_NDK_HOME, or what is laid out like it, and the ABI's Rust target
# (`rustup target add aarch64-linux-android`, x86_64-linux-android, armv7-linux-androideabi), or std's source to build it from.
set -euo pipefail
shell=$(cd "$(dirname "$0")/.." && pwd)
abi=${1:-arm64-v8a}
case $abi in
  arm64-v8a) target=aarch64-linux-android compiler=aarch64-linux-android26-clang ;;
  x86_64) target=x86_64-linux-android compiler=x86_64-linux-android26-clang ;;
  armeabi-v7a) target=armv7-linux-androideabi compiler=armv7a-linux-androideabi26-clang ;;
  *) echo "no ABI $abi; it is arm64-v8a, x86_64 or armeabi-v7a" >&2; exit 1 ;;
esac
ndk=${ANDROID_NDK_HOME:?set it to the folder of the NDK}
bin=$(echo "$ndk"/toolchains/llvm/prebuilt/*/bin)
[ -x "$bin/$compiler" ] || { echo "no compiler for Android 8 in $bin; is this an NDK?" >&2; exit 1; }

under=${target//-/_} upper=${target//-/_}
upper=${upper^^}
export "CC_$under=$bin/$compiler" "AR_$under=$bin/llvm-ar" "CARGO_TARGET_${upper}_LINKER=$bin/$compiler"
# newer phones map pages of 16 KiB
export "CARGO_TARGET_${upper}_RUSTFLAGS=-Clink-arg=-Wl,-z,max-page-size=16384"
cd "$shell/.."
cargo build --locked --profile packaged -p slingseal-android --target "$target"
built=$(cargo metadata --locked --no-deps --format-version 1 | sed -n 's/.*"target_directory":"\([^"]*\)".*/\1/p')
mkdir -p "$shell/target/$abi"
"$bin/llvm-strip" --strip-unneeded -o "$shell/target/$abi/libslingseal_android.so" \
  "$built/$target/packaged/libslingseal_android.so"
ls -l "$shell/target/$abi"
