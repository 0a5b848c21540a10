#!/usr/bin/env bash
# apk.sh JAR-NAME: resources + dex + libraries -> aligned, signed APK, then checked; prints its size.
# Debian packages: zip, unzip, zipalign, apksigner, aapt. The dexer comes from Maven (com.android.tools:r8).
# The library for arm64-v8a is put in where a cross build left one in target/arm64-v8a/.
set -euo pipefail
shell=$(cd "$(dirname "$0")/.." && pwd)
target=$shell/target
work=$target/apk
jar=$target/$1.jar
oldest_api=26
# android-all has no java.lang.Object and the like: the JDK fills in
jdk=${JAVA_HOME:-$(dirname "$(dirname "$(readlink -f "$(command -v javac)")")")}

rm -rf "$work/dex" "$work/stage" "$work"/*.apk
mkdir -p "$work/dex" "$work/stage" "$work/jna"
(cd "$work/jna" && unzip -qo "$work/tools/jna.aar" classes.jar 'jni/arm64-v8a/*')

java -Xmx2g -cp "$work/tools/r8.jar" com.android.tools.r8.R8 \
  --release --min-api $oldest_api --lib "$jdk" --lib "$work/tools/android-all.jar" \
  --pg-conf "$shell/keep.pro" --pg-map-output "$work/mapping.txt" \
  --output "$work/dex" "$jar" "$work"/libs/*.jar "$work/jna/classes.jar"

cp "$target/resources/resources.apk" "$work/unaligned.apk"
(cd "$work/dex" && zip -q -X -9 "$work/unaligned.apk" classes*.dex)

abi=arm64-v8a
mkdir -p "$work/stage/lib/$abi"
cp "$work/jna/jni/$abi/libjnidispatch.so" "$work/stage/lib/$abi/"
ours=$target/$abi/libslingseal_android.so
if [ -f "$ours" ]; then
  cp "$ours" "$work/stage/lib/$abi/"
else
  echo "NOTE: no ARM64 library: this APK installs but cannot start; cross-build it with the NDK first, into target/arm64-v8a" >&2
fi
(cd "$work/stage" && zip -q -X -9 -r "$work/unaligned.apk" lib)

zipalign -p -f 4 "$work/unaligned.apk" "$work/aligned.apk"

# A throw-away key, made here: an APK for people is signed with a key that its owner keeps.
keys=$work/throwaway.keystore
[ -f "$keys" ] || keytool -genkeypair -keystore "$keys" -storetype PKCS12 -storepass throwaway -alias throwaway \
  -keyalg RSA -keysize 2048 -validity 10000 -dname 'CN=Throw-away test key' >/dev/null 2>&1
apksigner sign --ks "$keys" --ks-pass pass:throwaway --ks-key-alias throwaway --min-sdk-version $oldest_api \
  --out "$work/slingseal.apk" "$work/aligned.apk"
"$shell/scripts/check-apk.sh" "$work/slingseal.apk"
