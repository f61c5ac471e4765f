"""What is asked of ``sheets``: stations, gaps and paper, as they are typed."""

from typing import TYPE_CHECKING, Literal, cast

from trimdive.errors import BoatFileError
from trimdive.findings import limit_of
from trimdive.records import record
from trimdive.text.sentence import several
from trimdive.units import read

if TYPE_CHECKING:
    from collections.abc import Mapping

    from trimdive.boatfile import Boat
    from trimdive.geometry.solids.hull import Hull

KINDS = ("shell", "frame", "both")
Paper = Literal["a4", "a3", "letter"]
PAPERS: tuple[Paper, ...] = ("a4", "a3", "letter")
COUNT = 6  # stations where none are asked for [-]
MOST = 0.05  # by which a printer makes 100 mm longer or shorter, at most [-]
RULER = 0.1  # what a ruler on a sheet is [m]
STATIONS = 60  # at most [-]


@record
class Asked:
    """What is wanted on paper."""

    kinds: tuple[str, ...]  # "shell" and "frame", or one of them
    stations: tuple[float, ...]  # from the stern [m]
    gap: float  # between shell board and skin: filler and paint [m]
    glue: float  # between frame and skin [m]
    thick: float  # of a frame [m]
    clear: float  # around a cylinder in a frame [m]
    notch: float  # radius of the notches of a frame [m]
    paper: Paper
    printed: tuple[float, float]  # how long the printer makes a length, across and up [-]


def asked(boat: "Boat", hull: "Hull", typed: "Mapping[str, str]") -> Asked:
    """Return what is asked for.

    Args:
        boat: For the units, and the end from which stations are measured.
        hull: Her hull.
        typed: What was typed, by the option's word: at, kind, gap, glue, thick, clear, notch,
            paper, printed.

    Raises:
        BoatFileError: Something is no kind, no paper, or no station.
        UnitError: A figure cannot be read.
    """
    kind, paper = _one_of("kind", typed["kind"], KINDS), _one_of("paper", typed["paper"], PAPERS)
    typed = {**typed, "clear": typed["clear"] or limit_of("gap-cylinder", boat).text}
    sizes = {
        word: _size(boat, word, typed[word]) for word in ("gap", "glue", "thick", "clear", "notch")
    }
    return Asked(
        kinds=("shell", "frame") if kind == "both" else (kind,),
        stations=_stations(boat, hull, typed["at"]),
        paper=cast("Paper", paper),
        printed=_printed(typed["printed"]),
        **sizes,
    )


def _one_of(word: str, typed: str, known: tuple[str, ...]) -> str:
    found = typed.strip().lower()
    if found not in known:
        raise BoatFileError(
            f"'{typed}' is none", f"--{word}", f"Write {', '.join(known[:-1])} or {known[-1]}."
        )
    return found


def _size(boat: "Boat", word: str, typed: str) -> float:
    found = read(typed, "length", boat.units.length, where=f"--{word}")
    if found < 0:
        raise BoatFileError(f"'{typed}' is below zero", f"--{word}", "Write 0 or more.")
    return found


def _stations(boat: "Boat", hull: "Hull", typed: str) -> tuple[float, ...]:
    """Return stations as they are typed, or evenly along her [m]."""
    low, high = (float(at) for at in hull.envelope.bounds[:, 0])
    if not typed.strip():
        return tuple(low + (high - low) * (k + 1) / (COUNT + 1) for k in range(COUNT))
    texts = several(typed)
    if len(texts) > STATIONS:
        raise BoatFileError(
            f"these are {len(texts)} stations", "--at", f"Ask for {STATIONS} at once."
        )
    found: list[float] = []
    for text in texts:
        x = boat.along(read(text, "length", boat.units.length, where="--at"))
        if not low < x < high:
            ends = sorted((boat.along(low), boat.along(high)))
            spans = " to ".join(boat.units.write(at, "length") for at in ends)
            what = f"{text.strip()} from the {boat.entered_from} is beyond the hull"
            raise BoatFileError(what, "--at", f"She reaches from {spans}.")
        found.append(x)
    return tuple(found)


def _printed(typed: str) -> tuple[float, float]:
    """Return how long the printer makes a length, across and up [-]."""
    if not typed.strip():
        return 1.0, 1.0
    texts = several(typed)
    if len(texts) != 2:
        mend = 'Measure both rulers of a sheet: --printed "99.6 mm, 100.2 mm", across and up.'
        raise BoatFileError("the printer is told by two lengths", "--printed", mend)
    found = [read(one, "length", "mm", where="--printed") / RULER for one in texts]
    for share, text in zip(found, texts, strict=True):
        if abs(share - 1.0) > MOST:
            what = f"a ruler of 100 mm that prints as {text.strip()} is no printer's stretch"
            raise BoatFileError(what, "--printed", "Print at 100 %, not fitted to the page.")
    return cast("tuple[float, float]", tuple(found))
