#!/usr/bin/env bash
# check-apk.sh APK: signature, alignment, and a parser that shares nothing with the build.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
apk=$1
apksigner verify --verbose --min-sdk-version 26 "$apk" | grep -E '^(Verifies|Verified using v[23] )'
zipalign -c -p 4 "$apk" && echo "zipalign: ok"
python3 "$here/check_apk.py" "$apk"
echo "size: $(stat -c %s "$apk") bytes"
