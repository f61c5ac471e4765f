"""The terminal: ``trimdive float BOAT`` and its sisters. It shows answers and works out none."""

import sys
from io import TextIOWrapper

from trimdive.cli import kept

INTERRUPTED = 130  # exit status after Ctrl-C, as shells have it


def main() -> None:
    """Run the command that was typed."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="replace")  # a terminal without "³" shows "?", no more
    words = sys.argv[1:]
    try:
        place = kept.place_of(words)
        status = kept.shown(place)
        if status is not None:
            sys.exit(status)
        with kept.keeping(place, words):
            from trimdive.cli.app import app

            app(prog_name="trimdive")
    except KeyboardInterrupt:
        sys.exit(INTERRUPTED)
