#!/usr/bin/env bash
# apk.sh JAR-NAME: resources + dex + libraries -> aligned, signed APK, then checked; prints its size and its digest.
# Debian packages: zip, unzip, zipalign, apksigner, aapt. The dexer comes from Maven (com.android.tools:r8).
# The libraries are those that library.sh left in target/ABI; without the one for arm64-v8a nothing is packed.
# The same inputs give the same bytes: fixed times, one order. The key comes from the environment:
#   SLINGSEAL_KEYSTORE (file), SLINGSEAL_KEYSTORE_PASS, SLINGSEAL_KEY_ALIAS; without them a throw-away one is made, and said.
set -euo pipefail
shell=$(cd "$(dirname "$0")/.." && pwd)
target=$shell/target
work=$target/apk
jar=$target/$1.jar
oldest_api=26
# every entry of the APK carries it; a ZIP knows no time zone
when=202601010000 TZ=UTC
export TZ
# android-all has no java.lang.Object and the like: the JDK fills in
jdk=${JAVA_HOME:-$(dirname "$(dirname "$(readlink -f "$(command -v javac)")")")}
library=libslingseal_android.so
if [ ! -f "$target/arm64-v8a/$library" ]; then
  echo "no ARM64 library, so no APK: one without it installs and cannot start; make it first (android-shell/scripts/library.sh)" >&2
  exit 1
fi

rm -rf "$work/dex" "$work/stage" "$work"/*.apk
mkdir -p "$work/dex" "$work/stage" "$work/jna"
(cd "$work/jna" && unzip -qo "$work/tools/jna.aar" classes.jar 'jni/*')

java -Xmx2g -cp "$work/tools/r8.jar" com.android.tools.r8.R8 \
  --release --min-api $oldest_api --lib "$jdk" --lib "$work/tools/android-all.jar" \
  --pg-conf "$shell/keep.pro" --pg-map-output "$work/mapping.txt" \
  --output "$work/dex" "$jar" "$work"/libs/*.jar "$work/jna/classes.jar"

# Everything is laid out, dated and ordered, and packed by one tool in one go.
(cd "$work/stage" && unzip -qo "$target/resources/resources.apk")
cp "$work"/dex/classes*.dex "$work/stage/"
for abi in arm64-v8a x86_64 armeabi-v7a; do
  [ -f "$target/$abi/$library" ] || continue
  mkdir -p "$work/stage/lib/$abi"
  cp "$target/$abi/$library" "$work/jna/jni/$abi/libjnidispatch.so" "$work/stage/lib/$abi/"
done
cd "$work/stage"
find . -exec touch -h -t $when {} +
find . -type f | LC_ALL=C sort | sed 's|^\./||' > "$work/entries"
# the platform maps the table of resources as it lies: not deflated (since API 30 it must not be)
grep -v '^resources\.arsc$' "$work/entries" | zip -q -X -D -9 "$work/unaligned.apk" -@
zip -q -X -D -0 "$work/unaligned.apk" resources.arsc
zipalign -p -f 4 "$work/unaligned.apk" "$work/aligned.apk"
echo "before signing: $(sha256sum < "$work/aligned.apk" | cut -c1-64)"

if [ -n "${SLINGSEAL_KEYSTORE:-}" ]; then
  keys=$SLINGSEAL_KEYSTORE alias=${SLINGSEAL_KEY_ALIAS:?name the key in the keystore}
  export SLINGSEAL_KEYSTORE_PASS=${SLINGSEAL_KEYSTORE_PASS:?give the password of the keystore}
  echo "signed with the key $alias of the keystore that SLINGSEAL_KEYSTORE names"
else
  keys=$work/throwaway.keystore alias=throwaway
  export SLINGSEAL_KEYSTORE_PASS=throwaway
  echo "signed with a THROW-AWAY key: for trials; an APK for people is signed with a key that its owner keeps (SLINGSEAL_KEYSTORE)"
  [ -f "$keys" ] || keytool -genkeypair -keystore "$keys" -storetype PKCS12 -storepass throwaway -alias throwaway \
    -keyalg RSA -keysize 2048 -validity 10000 -dname 'CN=Throw-away test key' >/dev/null 2>&1
fi
# With an RSA key the signature is the same each time (PKCS #1 v1.5); with an EC key it is not.
apksigner sign --ks "$keys" --ks-pass env:SLINGSEAL_KEYSTORE_PASS --ks-key-alias "$alias" --min-sdk-version $oldest_api \
  --out "$work/slingseal.apk" "$work/aligned.apk"
"$shell/scripts/check-apk.sh" "$work/slingseal.apk"
