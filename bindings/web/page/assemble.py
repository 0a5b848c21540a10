"""Puts markup, style, script and module into one file: assemble.py MODULE OUT. Same input, same bytes.

The contents' place stays empty; `slingseal check-page` fills it. The policy names each script by its digest, so that nothing that
comes in later runs.
"""

import base64
import gzip
import hashlib
import pathlib
import sys

# The whole file stays below 1.5 MB with the most that a leader may sign: 295,000 bytes, a third more in Base64.
MOST = 1_500_000 - 395_000


def digest(text: str) -> str:
    return "'sha256-" + base64.b64encode(hashlib.sha256(text.encode()).digest()).decode() + "'"


def main(module: str, out: str) -> None:
    folder = pathlib.Path(__file__).parent
    read = lambda name: (folder / name).read_text(encoding="utf-8")
    style, worker = read("page.css"), read("slingseal.js") + read("worker.js")
    script = read("page.js") + read("report.js") + "start();\n"
    for text in (style, worker, script):
        if "</" in text:
            sys.exit("assemble: a script or style must not hold the end of an element")
    policy = "; ".join([
        "default-src 'none'",
        f"script-src {digest(script)} 'wasm-unsafe-eval' blob:",
        "worker-src blob:",
        f"style-src {digest(style)}",
        "img-src data: blob:",
        "media-src blob: mediastream:",
        "connect-src 'none'",
        "form-action 'none'",
        "base-uri 'none'",
    ])
    packed = gzip.compress(pathlib.Path(module).read_bytes(), 9, mtime=0)
    parts = {
        "@POLICY@": policy, "@STYLE@": style, "@SCRIPT@": script, "@WORKER@": worker, "@CONTENTS@": "",
        "@MODULE@": base64.b64encode(packed).decode(),
    }
    page = read("index.html")
    for place, text in parts.items():
        if page.count(place) != 1:
            sys.exit(f"assemble: {place} must stand once in index.html")
        page = page.replace(place, text)
    data = page.encode()
    if len(data) > MOST:
        sys.exit(f"assemble: {len(data)} bytes; at most {MOST} may be")
    pathlib.Path(out).write_bytes(data)
    print(f"{out}: {len(data)} bytes, {len(packed)} of them the module's before Base64")


main(*sys.argv[1:])
