"""From what was typed after ``mesh`` to what stands in the file."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from trimdive.errors import BoatFileError
from trimdive.fact import Fact, fact
from trimdive.geometry.meshes import (
    REPAIRS,
    Drawn,
    Likely,
    MeshReport,
    Trouble,
    advised,
    binary_stl,
    contents_of,
    in_metres,
    likely_axes,
    likely_unit,
    likely_walls,
    mended,
    read,
    report,
    tried,
    turned,
)
from trimdive.units import name_of, write_fine
from trimdive.units import read as quantity

if TYPE_CHECKING:
    from trimdive.geometry.lines.mesh import Mesh

AXES = ("x", "-x", "y", "-y", "z", "-z")


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What was typed; empty where nothing was."""

    unit: str
    scale: str
    forward: str
    up: str
    long: str
    repairs: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """What stands in a mesh file, after the repairs that were asked for."""

    drawn: Drawn
    asked: Asked
    mesh: "Mesh"
    report: MeshReport
    troubles: tuple[Trouble, ...]
    did: tuple[Fact, ...]  # what the repairs did
    unit: Likely  # as typed, as the file says, or likely
    axes: Likely
    walls: Likely


def in_words(value: float, kind: str) -> str:
    """Return a length or volume as text."""
    return write_fine(value, kind, {"length": "mm", "volume": "cm³"}[kind])


def looked(file: Path, asked: Asked, step: Callable[[str], None]) -> Looked:
    """Return what stands in a file.

    Raises:
        TrimdiveError: It is no mesh, or what was typed cannot be.
    """
    _check(asked)
    drawn = read(contents_of(file), file.name)
    unit = _unit(drawn, asked)
    scale = quantity(asked.scale, "ratio", None) if asked.scale else 1.0
    mesh = in_metres(drawn, quantity(f"1 {unit.answer}", "length", None), scale)
    axes = _axes(mesh, asked)
    if asked.forward or asked.up:
        mesh = turned(mesh, asked.forward or "x", asked.up or "z", file.name)
    step("repairs")
    after = mended(mesh, asked.repairs, file.name)
    found = report(after.mesh, file.name, step)
    answers = tried(after.mesh, found, file.name)
    return Looked(
        drawn=drawn,
        asked=asked,
        mesh=after.mesh,
        report=found,
        troubles=advised(found, answers, asked.repairs),
        did=after.did,
        unit=unit,
        axes=axes,
        walls=likely_walls(found),
    )


def _check(asked: Asked) -> None:
    """Refuse repairs and axes that there are not.

    Raises:
        BoatFileError: There is no such repair or axis.
    """
    for name in asked.repairs:
        if name not in REPAIRS:
            mend = f"Write one of: {', '.join(REPAIRS)}."
            raise BoatFileError(f"there is no repair '{name}'", "--repair", mend)
    for option, name in (("--forward", asked.forward), ("--up", asked.up)):
        if name and name not in AXES:
            what = f"there is no axis '{name}'"
            raise BoatFileError(what, option, f"Write one of: {', '.join(AXES)}.")


def _unit(drawn: Drawn, asked: Asked) -> Likely:
    """Return the unit as typed, else as the file says, else the likely one."""
    if asked.unit:
        return Likely(answer=asked.unit, why=fact("as-typed"), is_certain=True, is_given=True)
    wanted = quantity(asked.long, "length", None) if asked.long else None
    likely = likely_unit(np.ptp(drawn.points, axis=0), wanted)
    if drawn.unit is None:
        return likely
    answer = name_of(drawn.unit, "length")
    return Likely(answer=answer, why=fact("as-file-says"), is_certain=True, is_given=True)


def _axes(mesh: "Mesh", asked: Asked) -> Likely:
    """Return the axes as typed, else the likely ones."""
    if asked.forward or asked.up:
        answer = f"{asked.forward or 'x'}, {asked.up or 'z'}"
        return Likely(answer=answer, why=fact("as-typed"), is_certain=True, is_given=True)
    return likely_axes(mesh)


def written(found: Looked, out: Path, *, replace: bool) -> None:
    """Write the mesh as mended, as binary STL in millimetres.

    Raises:
        BoatFileError: A file is there already, or it cannot be written.
    """
    if out.exists() and not replace:
        raise BoatFileError("it is there already", str(out), "Name another, or add --replace.")
    try:
        out.write_bytes(binary_stl(found.mesh))
    except OSError as error:
        reason = (error.strerror or "it cannot be written").lower()
        raise BoatFileError(reason, str(out), "Name another file after --out.") from None
