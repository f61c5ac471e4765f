"""Every reader of what others write, fed with files spoilt at random.

A reader answers with what it read or with an error of the project's own; nothing else may come out
of it, and nothing may take long. Run as a script it tries as many as it is told to, and prints what
came out: ``python -m tests.fuzz.readers 100000``.
"""

import datetime
import gzip
import io
import random
import re
import resource
import signal
import sys
import time
import warnings
import zipfile
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from traceback import extract_tb

import openpyxl
import trimesh

from trimdive.boatfile import load, parse
from trimdive.errors import TrimdiveError
from trimdive.estimates.tape import parse as parse_tape
from trimdive.geometry.lines.table import read_table
from trimdive.geometry.meshes import read as read_mesh
from trimdive.page.bringing import brought
from trimdive.text.tub_typed import EXAMPLES, reading_of
from trimdive.units import read
from trimdive.weightlists import Answers, understood

ROOT = Path(__file__).parents[2]
BOATS = ROOT / "boats"
SAMPLES = ROOT / "tests" / "meshes" / "samples"
LONGEST = 10  # that one input may take [s]
LOADED = load(BOATS / "plover" / "boat.toml")
TODAY = datetime.date(2026, 1, 2)
KINDS = ("length", "mass", "volume", "density", "angle", "temperature", "pressure", "time", "force")
FIGURES = (
    "0", "-0", "-1", "1e308", "1e-308", "9e999", "nan", "inf", "0.12", "12000", "9" * 400,
    "1/0", "4 15/16", "3 lb 4 oz", "9 3/4 in", "1,5", "1.234,5", "½", "٣", "−5", "0x10", "1_0",
)  # fmt: skip
SCRAPS = (
    b"\0", b"\xff\xfe", b"\xef\xbb\xbf", b"\r", b"\n\n", b"\x1b[2J", b"[[", b"]]", b'"""', b"'",
    b"{", b"}" * 50, b"[" * 2000, b"<a>" * 500, b";", b"\t", b"=", b"&lol;", b"../", b"\\", b"#",
)  # fmt: skip


def _texts(*names: str) -> list[bytes]:
    return [(ROOT / name).read_bytes() for name in names]


def _meshes() -> list[tuple[str, bytes]]:
    """Return small meshes in every kind of file that is read."""
    box = trimesh.creation.box((0.3, 0.1, 0.08))
    found = [("box.stl", box.export(file_type="stl"))]
    found += [(f"box.{kind}", box.export(file_type=kind)) for kind in ("obj", "ply", "glb")]
    found += [("assembly.3mf", (SAMPLES / "assembly.3mf").read_bytes())]
    text = box.export(file_type="stl_ascii")
    found += [("text.stl", text), ("box.stl.gz", gzip.compress(text.encode()))]
    return [(name, one.encode() if isinstance(one, str) else one) for name, one in found]


def _books() -> list[tuple[str, bytes]]:
    """Return small weight lists as text and as a workbook."""
    rows = [("Part", "Mass g", "x mm", "z mm"), ("battery", 520, 612, 30), ("lead", 130, 330, 5)]
    text = "\n".join(",".join(map(str, row)) for row in rows).encode()
    book, data = openpyxl.Workbook(), io.BytesIO()
    for row in rows:
        book.active.append(row)  # type: ignore[union-attr]
    book.save(data)
    return [
        ("list.csv", text),
        ("list.tsv", text.replace(b",", b"\t")),
        ("list.xlsx", data.getvalue()),
    ]


def _zipped() -> bytes:
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w", zipfile.ZIP_DEFLATED) as packed:
        for one in (BOATS / "grebe").iterdir():
            packed.write(one, f"grebe/{one.name}")
    return data.getvalue()


def _text(data: bytes) -> str:
    return data.decode("utf-8", "replace")


@dataclass(frozen=True)
class Reader:
    """What reads, and what it is fed with."""

    name: str
    good: list[tuple[str, bytes]]
    reads: Callable[[str, bytes], object]


def readers() -> list[Reader]:
    """Return all of them."""
    boats = _texts(
        "boats/grebe/boat.toml", "boats/plover/boat.toml", "docs/examples/boat-file.toml"
    )
    tables = _texts("boats/grebe/lines.csv", "boats/bittern/lines.csv")
    page = (ROOT / "docs" / "tape.md").read_text("utf-8")
    tapes = [re.findall(r"```toml\n(.*?)```", page, flags=re.DOTALL)[0].encode()]
    typed = [b"14 in", b"3 lb 4 oz", b"9 3/4 in", b"85 g", b"1:36", b"14 \xc2\xb0C", b"0.2 bar"]
    return [
        Reader("boat file", [("boat.toml", one) for one in boats], lambda n, d: parse(_text(d), n)),
        Reader("lines", [("lines.csv", o) for o in tables], lambda n, d: read_table(_text(d), n)),
        Reader("mesh", _meshes(), lambda n, d: read_mesh(d, n)),
        Reader("list", _books(), lambda n, d: understood(d, n, Answers())),
        Reader("tape", [("tape.toml", o) for o in tapes], lambda n, d: parse_tape(_text(d), n)),
        Reader("reading", [("", one.encode()) for one in EXAMPLES], _reading),
        Reader("unit", [("", one) for one in typed], _unit),
        Reader("brought", [*_meshes(), ("grebe.zip", _zipped())], brought),
    ]


def _reading(_: str, data: bytes) -> object:
    return reading_of(_text(data), LOADED.boat, TODAY)


def _unit(_: str, data: bytes) -> object:
    text = _text(data)
    return read(text, KINDS[len(text) % len(KINDS)], "mm")


def spoilt(data: bytes, chance: random.Random) -> bytes:
    """Return a file with one to four things wrong."""
    for _ in range(chance.choice((1, 1, 1, 3))):
        at = chance.randrange(len(data) + 1)
        to = min(len(data), at + chance.choice((1, 2, 8, 60)))
        scrap = chance.choice(SCRAPS)
        figure = chance.choice(FIGURES).encode()
        words = _numbers(data)
        choice = chance.randrange(8)
        if choice == 0:
            data = data[:at]
        elif choice == 1:
            data = data[:at] + data[to:]
        elif choice == 2:
            data = data[:at] + scrap + data[at:]
        elif choice == 3:
            data = data[:at] + data[at:to] * chance.choice((2, 50)) + data[to:]
        elif choice == 4:
            data = data[:at] + bytes(chance.randrange(256) for _ in range(to - at)) + data[to:]
        elif choice == 5 and at < len(data):
            data = data[:at] + bytes([data[at] ^ (1 << chance.randrange(8))]) + data[at + 1 :]
        elif words:
            start, end = chance.choice(words)
            data = data[:start] + figure + data[end:]
    return data


def _numbers(data: bytes) -> list[tuple[int, int]]:
    return [found.span() for found in re.finditer(rb"[-+]?\d+(?:\.\d+)?", data[:60_000])]


class TooLongError(BaseException):
    """One input took too long."""


@dataclass
class Figures:
    """What came out of a run."""

    tried: Counter[str] = field(default_factory=Counter)
    refused: Counter[str] = field(default_factory=Counter)
    wrong: dict[str, bytes] = field(default_factory=dict)  # what was raised and where: an input
    slowest: float = 0.0  # [s]


def run(count: int, seed: int) -> Figures:
    """Feed the readers in turn with so many spoilt files."""
    chance, found, kinds = random.Random(seed), Figures(), readers()

    for number in range(count):
        reader = kinds[number % len(kinds)]
        name, good = chance.choice(reader.good)
        data = spoilt(good, chance)
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            tried(found, reader.name, partial(reader.reads, name, data), data, LONGEST)
    return found


def tried(
    found: Figures, name: str, work: Callable[[], object], data: bytes, longest: float
) -> None:
    """Do a work, and take down what comes out of it.

    Args:
        found: Where it is taken down.
        name: Of what does it.
        work: To be done.
        data: What it is fed with, for whoever looks after it.
        longest: That it may take [s].
    """

    def late(*_: object) -> None:
        raise TooLongError

    signal.signal(signal.SIGALRM, late)
    began = time.perf_counter()
    signal.setitimer(signal.ITIMER_REAL, longest)
    try:
        work()
    except TrimdiveError as error:
        found.refused[name] += 1
        if not (error.what and error.mend):
            found.wrong[f"{name}: an error that says nothing"] = data
    except BaseException as error:
        last = extract_tb(error.__traceback__)[-1]
        at = f"{Path(last.filename).name}:{last.lineno}"
        found.wrong[f"{name}: {type(error).__name__} at {at}"] = data
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
    found.tried[name] += 1
    found.slowest = max(found.slowest, time.perf_counter() - began)


def printed(found: Figures, seed: int) -> int:
    """Print what came out of a run; return 1 where something is wrong."""
    for name, tries in found.tried.items():
        print(f"{name:10} {tries:7} tried {found.refused[name]:7} refused in a sentence")
    used = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"slowest {found.slowest:.2f} s, most memory {used:.0f} MB, seed {seed}")
    for says, data in found.wrong.items():
        print(f"WRONG {says}: {data[:400]!r}")
    return 1 if found.wrong else 0


def main() -> int:
    """Run as a script: how many, and which seed."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    return printed(run(count, seed), seed)


if __name__ == "__main__":
    raise SystemExit(main())
