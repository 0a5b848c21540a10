#!/usr/bin/env bash
# shrunk.sh JAR-NAME: what the shrinker leaves, run. The same shrinker, over the same input, under the same keep file as for the
# APK, but to class files; then a home is opened and a walk made to its verdict through them (support/Walked.kt), over the
# library for this machine. Needs what `mvn -Papk package` laid out. It proves the shrinking, not the dexing, and not ART.
set -euo pipefail
shell=$(cd "$(dirname "$0")/.." && pwd)
target=$shell/target work=$target/apk out=$target/apk/shrunk
jdk=${JAVA_HOME:-$(dirname "$(dirname "$(readlink -f "$(command -v javac)")")")}
rm -rf "$out"
mkdir -p "$out"
(cd "$target/test-classes" && zip -q -r "$out/walked.jar" slingseal/handheld/support/Walked*.class slingseal/handheld/support/CountedKt.class)
# the program's start is the one thing kept beside what the APK keeps
echo '-keep class slingseal.handheld.support.Walked { public static void main(java.lang.String[]); }' > "$out/keep.pro"
java -Xmx2g -cp "$work/tools/r8.jar" com.android.tools.r8.R8 \
  --release --classfile --lib "$jdk" --lib "$work/tools/android-all.jar" \
  --pg-conf "$shell/keep.pro" --pg-conf "$out/keep.pro" --pg-map-output "$out/mapping.txt" \
  --output "$out/shrunk.jar" "$out/walked.jar" "$target/$1.jar" "$work"/libs/*.jar "$work/jna/classes.jar"
# what ran must be what was shrunken and renamed: none of the screens, nothing of Kotlin's library, goes by its old name
unzip -Z1 "$out/shrunk.jar" > "$out/names"
renamed=$(grep -cE '^[a-zA-Z].* -> ' "$out/mapping.txt")
for old in slingseal/handheld/Screens.class kotlin/collections/CollectionsKt.class; do
  ! grep -qx "$old" "$out/names" || { echo "$old was not renamed" >&2; exit 1; }
done
# JNA's own native part, which the APK has from JNA's package for Android
case $(uname -m) in x86_64) there=linux-x86-64 ;; aarch64) there=linux-aarch64 ;; *) echo "no JNA for this machine" >&2; exit 1 ;; esac
(cd "$out" && unzip -qoj "$work/tools/jna-desktop.jar" "com/sun/jna/$there/libjnidispatch.so" -d jna)
echo "shrunk: $(grep -c '\.class$' "$out/names") classes, $renamed in the map"
java -cp "$out/shrunk.jar" -Djna.boot.library.path="$out/jna" -Djna.nosys=true -Djna.library.path="$target/host" \
  slingseal.handheld.support.Walked "$shell/../bindings/desk/demo/bag.toml"
