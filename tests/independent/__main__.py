"""Judges from the specification alone: the frozen vectors, then histories as JSON lines on standard input.

    python3 tests/independent tests/vectors/seal [BROKEN-RULE] < histories

Shares nothing with the program. Ends with 1 where anything disagrees, each told in one line.
"""

import pathlib
import sys

import judgement
from histories import run as run_histories
from page import run as run_pages
from vectors import closings as run_closings
from vectors import run as run_vectors


def main() -> int:
    judgement.BROKEN.update(sys.argv[2:])
    vectors, wrong = run_vectors(pathlib.Path(sys.argv[1]))
    pages, stale = run_pages(pathlib.Path(sys.argv[1]).parent / "page")
    closings, untrue = run_closings(pathlib.Path(sys.argv[1]).parent / "closing")
    vectors, wrong = vectors + pages + closings, wrong + stale + untrue
    histories, more = run_histories(sys.stdin)
    for line in (wrong + more)[:40]:
        print(line)
    print(f"{vectors} vectors, {histories} histories, {len(wrong) + len(more)} disagree")
    return 1 if wrong or more else 0


sys.exit(main())
