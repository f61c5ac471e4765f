"""A boat brought in: a boat file, a folder as zip, a table of lines, a mesh; or why not."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from io import BytesIO
from pathlib import PurePosixPath
from zipfile import ZipFile, ZipInfo

import numpy as np

from trimdive.assessment import Assessment
from trimdive.boatfile import parse
from trimdive.errors import BoatFileError, TrimdiveError, UnmendedError, fence
from trimdive.estimates.starter import HowDrawn, Wish, drawn_hull, starter, wish_by_mesh
from trimdive.geometry.lines.table import read_table
from trimdive.geometry.meshes import (
    Drawn,
    in_metres,
    is_printed,
    likely_axes,
    likely_unit,
    report,
    turned,
)
from trimdive.geometry.meshes import read as read_mesh
from trimdive.geometry.meshes.guess import UNITS
from trimdive.geometry.solids.surfaces import files_of
from trimdive.page.apart import Progress
from trimdive.page.newboat import METRIC
from trimdive.page.reading import Done
from trimdive.page.shelf import BOAT_FILE, folder_name
from trimdive.page.shown import Shown
from trimdive.text.first_boat import first_boat
from trimdive.text.meshed_text import of_mesh, taken_as
from trimdive.units import name_of, read

unheard: Progress = lambda _: None  # noqa: E731 - nobody is told

MOST_FILES = 500  # in a zip [-]
MOST_STATIONS = 200  # of a table of lines [-]
LARGEST = 256 * 2**20  # of all that a zip holds, unpacked [bytes]
LARGEST_TEXT = 4 * 2**20  # of a boat file or a table of lines [bytes]
MESHES = (".stl", ".obj", ".ply", ".3mf", ".glb", ".step", ".stp")
KINDS = (
    "a boat file (.toml), a zipped folder, a table of lines (.csv) or a mesh (.stl, .obj, .3mf …)"
)
REPAIRED = {
    "weld": "its points welded",
    "drop": "flat, doubled and loose triangles dropped",
    "flip": "its triangles turned outward",
    "cap": "its small holes capped",
    "union": "its bodies joined",
}
DEEP = 0.75  # waterline of a hull of which nothing else is known, of its height [-]
AGAIN = (  # she was planned round the guess: another unit afterwards leaves all else as it was
    "Where her unit is wrong, add the file again with its unit chosen beside it, and "
    "take this boat's folder off the shelf; do not set the unit on the drawing board."
)
THICK = "3 mm"  # her skin, likewise


@dataclass(frozen=True, slots=True, kw_only=True)
class Brought:
    """A boat that was brought in."""

    name: str
    text: str  # of the boat file
    files: Mapping[str, bytes]  # beside it
    says: str  # what was done


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrived:
    """A boat that was brought in, and calculated."""

    brought: Brought
    her: Assessment


def arrived(name: str, data: bytes, unit: str = "", progress: Progress = unheard) -> Arrived:
    """Return the boat in a file, with what the page shows of her at once.

    Args:
        name: Of the file.
        data: What it holds.
        unit: Of a mesh that tells none; "" where it is to be guessed.
        progress: Is told what is done.

    Raises:
        TrimdiveError: It is none that is known, is too large, or holds a mistake.
    """
    found = brought(name, data, unit, progress)
    with fence("she cannot be calculated", name, "Check the figures in the file."):
        her = Assessment(boat=parse(found.text, BOAT_FILE), files=dict(found.files))
        Shown(her=her).at_once()
    return Arrived(brought=found, her=her)


def brought(name: str, data: bytes, unit: str = "", progress: Progress = unheard) -> Brought:
    """Return the boat in a file.

    Args:
        name: Of the file.
        data: What it holds.
        unit: Of a mesh that tells none; "" where it is to be guessed.
        progress: Is told what is done.

    Raises:
        TrimdiveError: It is none that is known, is too large, or holds a mistake.
    """
    with fence("it cannot be read", name, f"Choose {KINDS}."):
        return _brought(name, data, unit, progress)


def _brought(name: str, data: bytes, unit: str, progress: Progress) -> Brought:
    _, kind = _parted(name)
    if not data:
        raise BoatFileError("the file is empty", name, f"Choose {KINDS}.")
    if kind == ".toml":
        return _boat(name, _text(name, data), {})
    if kind == ".zip":
        return _folder(name, data, progress)
    if kind == ".csv":
        return _lines(name, _text(name, data))
    if kind.removesuffix(".gz") in MESHES:
        return _mesh(name, data, unit, progress)
    raise BoatFileError("no boat can be read from a file of this kind", name, f"Choose {KINDS}.")


def _parted(name: str) -> tuple[str, str]:
    """Return a file's name without its ending, and the ending in small letters.

    >>> _parted("Upper Hull.STL.gz"), _parted("boat.toml")
    (('Upper Hull', '.stl.gz'), ('boat', '.toml'))
    """
    path = PurePosixPath(name)
    if path.suffix.lower() != ".gz":
        return path.stem, path.suffix.lower()
    inner = PurePosixPath(path.stem)
    return inner.stem, f"{inner.suffix.lower()}.gz"


def _text(name: str, data: bytes) -> str:
    if len(data) > LARGEST_TEXT:
        raise BoatFileError("it is larger than 4 MB", name, f"Choose {KINDS}.")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        what = f"byte 0x{data[error.start]:02x} is not UTF-8"
        raise BoatFileError(what, name, "Save it as UTF-8 text.") from None


def _boat(name: str, text: str, there: Mapping[str, bytes]) -> Brought:
    """Return a boat with only those files beside her that she names."""
    boat = parse(text, name)
    needed = files_of(boat)
    for one in needed:
        if one not in there:
            mend = "Zip her folder with everything in it, and add the zip."
            raise BoatFileError(f"she needs '{one}' beside her boat file", name, mend)
    plans = [name for one in (*boat.plans, *boat.photos) for name in (one.file, one.marks)]
    files = {one: there[one] for one in (*needed, *plans) if one in there}
    return Brought(name=boat.name, text=text, files=files, says=f"{boat.name} is on the shelf.")


def _folder(name: str, data: bytes, progress: Progress) -> Brought:
    try:
        with ZipFile(BytesIO(data)) as packed:
            members = [one for one in packed.infolist() if not one.is_dir()]
            if len(members) > MOST_FILES:
                what = f"it holds {len(members)} files, more than any boat needs"
                raise BoatFileError(what, name, "Zip the folder of one boat alone.")
            top = _boat_file(name, members)
            there = _unpacked(name, packed, members, top.parent, progress)
    except TrimdiveError:
        raise
    except Exception:  # whatever a broken zip provokes
        what, mend = "it is no zip that can be read", "Zip her folder again, without a password."
        raise BoatFileError(what, name, mend) from None
    return _boat(f"{name}: {top.name}", _text(name, there.pop(top.name)), there)


def _boat_file(name: str, members: list[ZipInfo]) -> PurePosixPath:
    """Return where the boat file lies: alone of its name, or nearest to the top."""
    paths = [PurePosixPath(one.filename) for one in members]
    found = sorted((p for p in paths if p.name == BOAT_FILE), key=lambda one: len(one.parts))
    if not found:
        what = f"there is no {BOAT_FILE} in it"
        raise BoatFileError(what, name, "Zip the folder in which her boat file lies.")
    if len(found) > 1 and len(found[0].parts) == len(found[1].parts):
        raise BoatFileError("there is more than one boat in it", name, "Zip one folder alone.")
    return found[0]


def _unpacked(
    name: str, packed: ZipFile, members: list[ZipInfo], folder: PurePosixPath, progress: Progress
) -> dict[str, bytes]:
    """Return what lies in a folder of a zip, by its name from there, within limits."""
    found: dict[str, bytes] = {}
    left = LARGEST
    for number, one in enumerate(members, 1):
        path = PurePosixPath(one.filename)
        if ".." in path.parts or not path.is_relative_to(folder):
            continue
        with packed.open(one) as stream:  # read no further than allowed, whatever it says it holds
            data = stream.read(left + 1)
        left -= len(data)
        if left < 0:
            raise BoatFileError("unpacked it is larger than 256 MB", name, "Zip her boat alone.")
        found[str(path.relative_to(folder))] = data
        progress(Done("unpacked", number / len(members)))
    return found


def _lines(name: str, text: str) -> Brought:
    """Return a boat that is only a hull by a table of lines; the rest are guesses."""
    table = read_table(text, name)
    if len(table.stations) > MOST_STATIONS:
        what = f"it has {len(table.stations)} stations, more than {MOST_STATIONS}"
        raise BoatFileError(what, name, "Keep every second one, or fewer.")
    points = np.vstack([one.points for one in table.stations])
    places = [one.x for one in table.stations]
    length, high = max(places) - min(places), float(points[:, 1].max())
    is_round = table.layout == "radii"
    file = f"{folder_name(PurePosixPath(name).stem)}.csv"
    surface = 'surface = "round"' if is_round else 'surface = "lines"'
    rows = [surface, f'file = "{file}"', *([f"z = {_mm(high)}"] if is_round else [])]
    top = 2 * high if is_round else high
    return _hull(name, rows, length, top, {file: text.encode()})


def _mesh(name: str, data: bytes, said: str, progress: Progress) -> Brought:
    """Return a first boat round a hull by a mesh; unit and axes as told, or likely.

    Where no boat that floats and dives can be planned into it, she is a hull and no more.
    """
    drawn = read_mesh(data, name)
    progress(Done("read"))
    unit, also = _unit_of(name, drawn, said)
    mesh = in_metres(drawn, read(f"1 {unit}", "length"), 1.0)
    forward, _, up = likely_axes(mesh).answer.partition(", ")
    mesh = turned(mesh, forward or "x", up or "z", name)
    is_wall = is_printed(report(mesh, name, is_deep=False))
    size = np.ptp(mesh.vertices, axis=0)
    progress(Done("measured"))
    stem, kind = _parted(name)
    file = f"{folder_name(stem)}{kind}"
    how = HowDrawn(unit=unit, forward=forward or "x", up=up or "z")
    try:
        planned, repairs = _as_mended(name, file, data, how, progress)
    except TrimdiveError as error:
        ails = f" No boat was planned into it: {_ailment(error, file)}"
    else:
        mended = "".join(f" Repaired: {REPAIRED[one]}." for one in repairs)
        return replace(planned, says=planned.says + mended + also)
    rows = [
        'surface = "mesh"',
        f'file = "{file}"',
        f'file_unit = "{unit}"',
        f'forward = "{forward or "x"}"',
        f'up = "{up or "z"}"',
        'x_aft = "0 mm"',
        'z_bottom = "0 mm"',
        'y = "0 mm"',
        *(["closed_walls = true"] if is_wall else []),
    ]
    made = _hull(name, rows, float(size[0]), float(size[2]), {file: data}, is_wall=is_wall)
    return replace(made, says=made.says + ails + also)


def _unit_of(name: str, drawn: Drawn, said: str) -> tuple[str, str]:
    """Return the unit of a mesh, and what is to be said of it: of a guess, and what to do then.

    Raises:
        BoatFileError: What was said is no unit of a mesh.
    """
    if said and said not in UNITS:
        units = ", ".join(UNITS)
        raise BoatFileError(f"'{said}' is no unit of a mesh", name, f"Choose one of {units}.")
    if drawn.unit is not None:
        return name_of(drawn.unit, "length"), ""
    if said:
        return said, ""
    likely = likely_unit(np.ptp(drawn.points, axis=0), None)
    guess = (
        ""
        if likely.is_certain
        else f" Her unit is a guess ({likely.answer}): {of_mesh(likely.why)}."
    )
    return likely.answer, f"{guess} {AGAIN}"


def _ailment(error: TrimdiveError, file: str) -> str:
    """Return what stands in the way of a first boat, without naming the file again."""
    return str(error).removeprefix(f"{file}: ")


def _as_mended(
    name: str, file: str, data: bytes, how: HowDrawn, progress: Progress
) -> tuple[Brought, tuple[str, ...]]:
    """Return a first boat round a mesh, and the repairs without which there is none.

    Raises:
        TrimdiveError: None can be planned, whatever is mended.
    """
    try:
        return _planned(name, file, data, how, progress), how.repairs
    except UnmendedError as error:
        if not set(error.repairs) - set(how.repairs):
            raise
        return _as_mended(name, file, data, replace(how, repairs=error.repairs), progress)


def _planned(name: str, file: str, data: bytes, how: HowDrawn, progress: Progress) -> Brought:
    """Return a first boat planned round a mesh.

    Raises:
        TrimdiveError: None that floats and dives can be planned into it.
    """
    drawn = drawn_hull(file, data, how)
    progress(Done("mended" if how.repairs else "looked through"))
    plain = _parted(name)[0].replace('"', "'").replace("\\", "") or "Hull"
    made = starter(
        wish_by_mesh(
            Wish(
                name=plain,
                length=drawn.length,
                material="PETG" if drawn.is_wall else "GRP",
                units=dict(METRIC),
            ),
            drawn,
        )
    )
    says = (
        f"{plain} is on the shelf, a first boat round her hull. "
        f"{taken_as(drawn, made.boat.units)} "
        "Where an axis is wrong, set it on the drawing board. All else is guessed: weigh "
        "it in."
    )
    return Brought(name=plain, text=first_boat(made), files=drawn.files, says=says)


def _mm(value: float) -> str:
    return f'"{value * 1e3:.1f} mm"'


def _hull(
    name: str,
    rows: list[str],
    length: float,
    high: float,
    files: Mapping[str, bytes],
    *,
    is_wall: bool = False,
) -> Brought:
    """Return a boat of one region, its skin and waterline guessed."""
    plain = _parted(name)[0].replace('"', "'").replace("\\", "") or "Hull"
    lines = [
        f"# Only a hull, from {plain}: material, skin and waterline are guesses.",
        "format = 1",
        f'name = "{plain}"',
        f"length = {_mm(length)}",
        "",
        "[units]",
        'length = "mm"',
        'mass = "g"',
        'volume = "cm3"',
        "",
        "[waterline]",
        f"height = {_mm(DEEP * high)}",
        "",
        "[[region]]",
        'name = "hull"',
        *rows,
        'material = "GRP"',
        *([] if is_wall else [f'thickness = "{THICK}"']),
    ]
    says = (
        f"{plain} is on the shelf, a hull and no more: set her skin and waterline on the "
        "drawing board, then enter the rest at the Scales."
    )
    return Brought(name=plain, text="\n".join(lines) + "\n", files=files, says=says)
