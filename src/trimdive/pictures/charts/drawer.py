"""Draws charts in a process of its own: should the library that draws them die, nothing else does.

One such process serves all charts, one after another, and is begun again when it has ended.
"""

import atexit
import json
import math
import subprocess
import sys
import threading
from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from typing import cast

from trimdive.errors import GeometryError

LARGEST = 1e9  # of a figure on a chart [of what it shows]
MOST = 200_000  # figures and words of one chart [-]
LONGEST = 60.0  # that one chart may take [s]
MEND = "Check her figures: one of them is far from usual."
WORK = """
import json, sys
import vl_convert
for line in sys.stdin:
    try:
        drawn = vl_convert.vegalite_to_svg(vl_spec=json.loads(line))
    except Exception as error:
        drawn = None
    print(json.dumps(drawn), flush=True)
"""


@dataclass(slots=True)
class Drawer:
    """What holds the process."""

    running: subprocess.Popen[str] | None = None
    lock: threading.Lock = field(default_factory=threading.Lock)

    def drawn(self, chart: Mapping[str, object]) -> str:
        """Return a chart as SVG.

        Raises:
            GeometryError: It holds what cannot be drawn.
        """
        refuse_odd(chart)
        line = json.dumps(chart, allow_nan=False, default=float)
        with self.lock:
            answer = self._answer(line) or self._answer(line)  # it may have died before
        found = json.loads(answer) if answer else None
        if not isinstance(found, str):
            raise GeometryError("this chart cannot be drawn", "the chart", MEND)
        return found

    def _answer(self, line: str) -> str:
        """Return what the process says to a line; "" where it ended over it, or took too long."""
        running = self._begun()
        if running.stdin is None or running.stdout is None:
            raise AssertionError("both ends of the process are open")
        late = threading.Timer(LONGEST, running.kill)
        late.start()
        try:
            running.stdin.write(line + "\n")
            running.stdin.flush()
            answer = running.stdout.readline()
        except OSError:
            answer = ""
        finally:
            late.cancel()
        if not answer:
            self.end()
        return answer

    def _begun(self) -> subprocess.Popen[str]:
        if self.running is None or self.running.poll() is not None:
            self.end()
            self.running = subprocess.Popen(
                [sys.executable, "-c", WORK],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
                text=True,
                encoding="utf-8",
            )
        return self.running

    def end(self) -> None:
        """End the process."""
        running, self.running = self.running, None
        if running is not None:
            with suppress(OSError):
                running.communicate(timeout=5)
            running.kill()
            running.wait()


DRAWER = Drawer()
atexit.register(DRAWER.end)


def refuse_odd(chart: object) -> None:
    """Refuse a chart with figures that no chart can show, or with too many.

    Raises:
        GeometryError: One is not finite or is too large, or there are too many.
    """
    for count, one in enumerate(_leaves(chart)):
        if count > MOST:
            raise GeometryError("this chart has too many points", "the chart", MEND)
        if isinstance(one, float) and not math.isfinite(one):
            raise GeometryError("this chart holds a figure without end", "the chart", MEND)
        if isinstance(one, int | float) and abs(one) > LARGEST:
            raise GeometryError("this chart holds a figure too large", "the chart", MEND)


def _leaves(value: object) -> Iterator[object]:
    if isinstance(value, Mapping):
        for one in cast("Mapping[str, object]", value).values():
            yield from _leaves(one)
    elif isinstance(value, Sequence) and not isinstance(value, str):
        for one in cast("Sequence[object]", value):
            yield from _leaves(one)
    else:
        yield value
