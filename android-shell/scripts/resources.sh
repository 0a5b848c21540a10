#!/usr/bin/env bash
# aapt2 compile and link: R.java, the resources for Robolectric, and the base of the APK.
# Debian packages: aapt (brings aapt2), android-framework-res.
set -euo pipefail
shell=$(cd "$(dirname "$0")/.." && pwd)
out=$shell/target/resources
framework=${ANDROID_FRAMEWORK_RES:-/usr/share/android-framework-res/framework-res.apk}
[ -f "$framework" ] || { echo "no $framework; install the package android-framework-res" >&2; exit 1; }
mkdir -p "$out" "$shell/target/generated-sources/r"
rm -f "$out/res.zip" "$out/resources.apk"
aapt2 compile --dir "$shell/src/main/res" -o "$out/res.zip"
# attributes newer than the framework that is installed: a package of that name and number, beside it
aapt2 compile --dir "$shell/newer/res" -o "$out/newer.zip"
aapt2 link -x --manifest "$shell/newer/AndroidManifest.xml" -o "$out/newer.apk" "$out/newer.zip"
aapt2 link -I "$framework" -I "$out/newer.apk" \
  --manifest "$shell/src/main/AndroidManifest.xml" \
  --java "$shell/target/generated-sources/r" \
  --warn-manifest-validation `# this aapt2 is older than the element <queries>, which the voice needs since API 30` \
  --auto-add-overlay --no-version-vectors \
  -o "$out/resources.apk" "$out/res.zip"
