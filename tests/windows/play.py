"""A leader's and an inspector's day on Windows, typed under Wine. usage: play.py FOLDER, with program/slingseal.exe in it"""

import json
import os
import pathlib
import re
import signal
import stat
import subprocess
import sys
import time
import urllib.request

WINE = "/usr/lib/wine/wine64"
WORK = pathlib.Path(sys.argv[1])
ROOT = pathlib.Path(__file__).resolve().parents[2]
PROGRAM = WORK / "program" / "slingseal.exe"
# A user's folder as people have it: a blank, letters of other alphabets.
DAY = WORK / "Piloto Ñandú 飛行"
os.umask(0o022)
DAY.mkdir()
PIN = "417293"
ENVIRONMENT = dict(os.environ, SLINGSEAL_PIN=PIN, LC_ALL="C.UTF-8", LANG="C.UTF-8")


def win(path):
    """As Windows writes it: Wine shows the whole file system as drive Z."""
    return "Z:" + str(path).replace("/", "\\")


def start(home, *words, environment=None, **more):
    named = ["--home", win(DAY / home)] if home else []
    return subprocess.Popen(
        [WINE, str(PROGRAM), *named, *words],
        cwd=DAY,
        env=environment or ENVIRONMENT,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        **more,
    )


def run(home, *words, lines=None, code=0, environment=None):
    child = start(home, *words, environment=environment, stdin=subprocess.PIPE)
    out, err = child.communicate((lines or "").encode(), timeout=300)
    out, err = out.decode(), err.decode()
    assert child.returncode == code, f"{words}: {child.returncode} and not {code}\n{out}\n{err}"
    return out.replace("\r\n", "\n")


def proved(what):
    print(f"  holds: {what}", flush=True)


def sound():
    """How a sound bag is answered, card by card: as bindings/desk/tests/support/bag.rs has it."""
    values = {2: ["tag.read.weighed weighed"], 6: ["grab.links.link 3"], 8: ["chain.through.passes 1"]}
    for card in range(14, 38):
        side = (card - 14) // 6 + 1
        if (card - 14) % 6 == 4:
            values[card] = [f"side-{side}.lacing.crossing 1"]
        if (card - 14) % 6 == 5:
            values[card] = [f"side-{side}.knot.parts-left 4", f"side-{side}.knot.parts-right 4"]
    lines = []
    for card in range(1, 39):
        lines += [f"value {value}" for value in values.get(card, [])] + ["good"]
    return lines


# The demo, whole; and its verdict.
told = run(None, "demo", "--out", win(DAY / "demo"))
demo = pathlib.PurePosixPath("demo/demo") if (DAY / "demo/demo").is_dir() else pathlib.PurePosixPath("demo")
desk, inspector, hookup = (str(demo / name) for name in ("desk", "inspector", "hookup"))
tag = win(DAY / demo / "tag-km-015.txt")
assert f"PIN {PIN}" in told
seals = sorted((DAY / demo).glob("seal-km-014*.txt"))
run(hookup, "verify", win(seals[0]), "--tag", win(DAY / demo / "tag-km-014.txt"))
proved("demo plays to its end, and its load is GO with exit 0")

# An inspection, one answer a line, under a folder of other letters.
answers = sound() + ["fit", "seal"]
said = run(inspector, "inspect", tag, "--out", win(DAY / "sellos Ñ"), lines="\n".join(answers) + "\n")
assert said.strip().splitlines()[-1].startswith("sealed "), said[-300:]
files = {path.name for path in (DAY / "sellos Ñ").iterdir()}
assert {"txt", "png", "svg"} <= {name.rsplit(".", 1)[1] for name in files}, files
proved("an inspection goes one answer a line and seals, into folders of other letters")

# A bundle to the desk; the same verdict there.
bundle = win(DAY / "tarde.bundle")
run(inspector, "bundle", "write", "--out", bundle)
assert "1 record new" in run(desk, "bundle", "read", bundle)
assert "known" in run(desk, "bundle", "read", bundle)
assert "KM-015" in run(desk, "records", "list")
proved("a bundle is written, read, and known the second time")

# A walk that is killed between two answers loses none of them.
walk = start(inspector, "inspect", tag, stdin=subprocess.PIPE)
taken = 0
# The first line tells where it stands; then one for each answer.
assert walk.stdout.readline().startswith(b"ok")
for line in answers[:30]:
    walk.stdin.write((line + "\n").encode())
    walk.stdin.flush()
    assert walk.stdout.readline().startswith(b"ok"), line
    taken += 1
walk.kill()
walk.wait()
kept = json.loads(run(inspector, "--json", "inspect", tag, lines="pause\n").splitlines()[0])
done = sum(line == "good" for line in answers[:30])
assert kept["progress"]["cards_done"] == done, (kept["progress"], done)
rest = run(inspector, "inspect", tag, lines="\n".join(["resume"] + answers[30:]) + "\n")
assert rest.strip().splitlines()[-1].startswith("sealed "), rest[-300:]
assert "every chain" in run(inspector, "records", "verify")
proved(f"a walk that is killed after {taken} answers goes on at the next, and the audit holds")

# The leader's page, and verbs beside it on the same home.
served = start(desk, "serve", "--port", "0")
link = next(
    found.group(0)
    for found in (re.search(rb"http://127\.0\.0\.1:\S+", line) for line in iter(served.stdout.readline, b""))
    if found
).decode()
opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor())
base = link.split("/open")[0]
opener.open(link, timeout=60).read()
page = opener.open(base + "/", timeout=60).read().decode()
assert "KM-015" in page, page[:400]
assert "KM-014" in run(desk, "records", "list")
story = opener.open(base + "/load/KM-015", timeout=60).read().decode()
assert "KM-015" in story
proved("the leader's page is served on loopback while other verbs work on its home")

# Ctrl-C ends it in order: Wine makes CTRL_C_EVENT of the signal, as a console does of the keys.
served.send_signal(signal.SIGINT)
assert served.wait(timeout=60) == 0, served.stderr.read().decode()
assert "every chain" in run(desk, "records", "verify")
proved("Ctrl-C ends the page in order, with exit 0")

# The home's access list, as Wine shows it: nobody but its user (and who rules the machine). What lies beside is open.
assert stat.S_IMODE((DAY / "tarde.bundle").stat().st_mode) & 0o004, "there is nothing to tell it from"
for path in [DAY / desk, *(path for path in (DAY / desk).iterdir() if path.is_file())]:
    rights = stat.S_IMODE(path.stat().st_mode)
    assert rights & 0o007 == 0, f"{path}: {rights:o}"
assert (DAY / desk / "device.secret").stat().st_size == 32
proved("the home and the device secret in it are closed to other users")

# Without --home: the profile's folder for a program's data.
run(None, "key", "show")
home = list((WORK / "prefix").glob("drive_c/users/*/AppData/Local/slingseal/slingseal.db"))
assert len(home) == 1, home
proved("without --home everything lies in %LOCALAPPDATA%\\slingseal")

# A line says what to do, in the reader's language, and nothing panics.
refused = start("nueva", "--language", "es", "tag", "read", win(DAY / "no está.txt"))
_, err = refused.communicate(timeout=60)
assert refused.returncode == 1 and len(err.decode().strip().splitlines()) == 1, err.decode()
proved("what is wrong is told in one line, with a path of other letters in it")
