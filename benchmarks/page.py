"""The page's answer to an edited mass, beside working the same boat out from nothing.

Both are ours and give all numbers, findings, the dive table and the drawings of *Bittern*. The one
is the whole request, from its bytes received to its answer made; the other begins with the file
read and nothing kept of an earlier boat, compiled code aside.
"""

import gc
from functools import lru_cache
from pathlib import Path
from shutil import copytree
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter

from starlette.testclient import TestClient

from benchmarks.timing import Row
from trimdive.assessment import assess
from trimdive.page.app import app
from trimdive.page.desk import Desk, opened
from trimdive.page.guard import Keys
from trimdive.page.shown import Shown

BOATS = Path(__file__).parents[1] / "boats"
HOST = "127.0.0.1:8123"
OWN = {"origin": f"http://{HOST}", "sec-fetch-site": "same-origin", "hx-request": "true"}
FIELD = "part[3].mass"  # a tank's works
EDITS = 21
SCRATCH = 5  # times that she is worked out from nothing
KEPT = type(lru_cache(maxsize=1)(len))  # what keeps what was worked out
TENTH = 0.1  # wanted of an edit [s]


def _forget() -> None:
    """Take away what is kept of boats worked out before."""
    for one in gc.get_objects():
        if isinstance(one, KEPT) and str(one.__module__).startswith("trimdive."):
            one.cache_clear()
    gc.collect()  # the rest lies with the boats themselves


def _from_nothing(file: Path) -> float:
    """Return how long a boat takes of which nothing is kept [s]."""
    _forget()
    start = perf_counter()
    Shown(her=assess(file)).at_once()
    return perf_counter() - start


def _edited(client: TestClient, desk: Desk, grams: int) -> tuple[float, int]:
    """Return how long the answer to one edited mass takes [s], and its size [bytes]."""
    typed = {"field": FIELD, "typed": f"{grams} g", "revision": str(desk.revision)}
    start = perf_counter()
    answer = client.post("/edit", data=typed, headers=OWN)
    took = perf_counter() - start
    if f"{grams} g" not in desk.written()[0]:
        raise AssertionError("the mass was not taken")
    return took, len(answer.content)


def _times(file: Path) -> tuple[list[float], int]:
    """Return how long each edit took [s], and how large the largest answer was [bytes]."""
    desk, keys = opened(file), Keys()
    client = TestClient(app(desk, HOST, keys), base_url=f"http://{HOST}{keys.root}")
    client.get("/")
    _edited(client, desk, 700)
    found = [_edited(client, desk, 701 + k) for k in range(EDITS)]
    return [took for took, _ in found], max(size for _, size in found)


def rows() -> tuple[list[list[str]], list[str]]:
    """Return the lines of the table, and what else is worth telling."""
    lines: list[list[str]] = []
    answer: list[str] = []
    for name in ("bittern", "bittern-as-bought"):
        with TemporaryDirectory() as folder:
            file = Path(copytree(BOATS / name, Path(folder) / name)) / "boat.toml"
            scratch = [_from_nothing(file) for _ in range(SCRATCH)]
            times, size = _times(file)
        row = Row(
            what=f"a mass edited on the page, {name}",
            beside="ours, from nothing",
            time=median(times),
            other=median(scratch),
            least=1.0,
        )
        lines.append(row.cells)
        answer.append(
            f"{name}: {1e3 * median(times):.0f} ms (median; least {1e3 * min(times):.0f}, most "
            f"{1e3 * max(times):.0f}) of {1e3 * TENTH:.0f} ms wanted from an edit to its answer of "
            f"{size / 1000:.0f} kB; {1e3 * median(scratch):.0f} ms from nothing."
        )
    return lines, answer
