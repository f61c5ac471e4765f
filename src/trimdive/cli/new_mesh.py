"""``new --mesh``: what a mesh does not say is asked, or said by options."""

import sys
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from trimdive.cli.mesh_work import AXES
from trimdive.cli.new import (
    Said,
    answer,
    is_scale,
    kind_of,
    material_of,
    plain_name,
    units_of,
)
from trimdive.cli.tape_asked import asked, is_material, one_of
from trimdive.errors import BoatFileError, GeometryError, UnmendedError
from trimdive.geometry.lines.mesh import Mesh
from trimdive.geometry.meshes import (
    REPAIRS,
    Drawn,
    contents_of,
    in_metres,
    likely_axes,
    likely_unit,
    read,
    turned,
)
from trimdive.text.meshed_text import of_mesh
from trimdive.units import name_of, write
from trimdive.units import read as quantity

if TYPE_CHECKING:
    from trimdive.estimates.starter import DrawnHull, HowDrawn, Wish

LONGEST = 3.5  # a mesh longer than this is drawn at full size, or in another unit [m]
WHOLE = 0.0005  # of the length: nearer than this to as drawn is as drawn [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class MeshSaid:
    """What was typed behind the options for a mesh; "" where nothing was."""

    unit: str
    scale: str  # at which it was drawn
    length: str  # how long she is to be
    model: str  # scale of the model
    forward: str
    up: str
    repairs: tuple[str, ...]


def wish_of_mesh(said: Said, file: Path, how: MeshSaid) -> "Wish":
    """Return what the builder wants round a hull that is a mesh.

    Args:
        said: What was typed behind the options of new.
        file: The mesh.
        how: What was typed about it.

    Raises:
        TrimdiveError: An option cannot be read, or the mesh is no hull.
    """
    from trimdive.estimates.starter import Wish, wish_by_mesh

    for key in ("breadth", "height"):
        if said[key]:
            raise BoatFileError("the mesh has it already", f"--{key}", "Leave it out.")
    asks = sys.stdin.isatty()
    name = said["name"] or answer("Her name", file.stem.partition(".")[0], asks)
    scale = said["scale"] or answer("Scale, as 1:48 (empty if none)", "", asks, is_scale)
    drawn = hull_of(file, replace(how, model=scale))
    kind = said["kind"] or answer("Wet or dry hull", "wet", asks, one_of("wet", "dry"))
    usual = "PETG" if drawn.is_wall else "GRP"
    made = said["material"] or answer("Material of hull", usual, asks, is_material)
    wish = Wish(
        name=plain_name(name),
        length=drawn.length,
        kind=kind_of(kind),
        material=material_of(made),
        scale=quantity(scale, "ratio", where="--scale") if scale else None,
        units=units_of(said["units"], said["length"] or "", {}),
        waterline=_length(said, "waterline"),
        wall=_length(said, "wall"),
    )
    return wish_by_mesh(wish, drawn)


def _length(said: Said, key: str) -> float | None:
    """Return a length that was typed behind an option [m]."""
    text = said[key]
    return quantity(text, "length", where=f"--{key}") if text else None


def hull_of(file: Path, said: MeshSaid) -> "DrawnHull":
    """Return the hull in a mesh file.

    Raises:
        TrimdiveError: It is no mesh, it does not close, or what was typed cannot be.
    """
    from trimdive.estimates.starter import drawn_hull

    data = contents_of(file)
    how = _how(read(data, file.name), said)
    try:
        return drawn_hull(_plain(file.name), data, how)
    except UnmendedError as error:
        wanted = [one for one in error.repairs if one not in how.repairs]
        options = " ".join(f"--repair {one}" for one in wanted)
        mend = f"Add {options}; trimdive mesh {file} says more."
        raise GeometryError(error.what, str(file), mend) from None


def _how(drawn: Drawn, said: MeshSaid) -> "HowDrawn":
    """Return how a mesh was drawn: as typed, as the file says, or as answered.

    Raises:
        TrimdiveError: What was typed cannot be, or is missing.
    """
    from trimdive.estimates.starter import HowDrawn

    _check(said)
    asks = sys.stdin.isatty()
    unit = _unit(drawn, said, is_asked=asks)
    mesh = Mesh(vertices=drawn.points * quantity(f"1 {unit}", "length"), triangles=drawn.triangles)
    forward, up = _axes(mesh, said, drawn.name, is_asked=asks)
    lies = turned(mesh, forward, up, drawn.name)
    scale = _scale(float(np.ptp(lies.bounds[:, 0])), said, is_asked=asks)
    in_metres(drawn, quantity(f"1 {unit}", "length"), scale)  # refuses what is no model's size
    return HowDrawn(unit=unit, scale=scale, forward=forward, up=up, repairs=said.repairs)


def _check(said: MeshSaid) -> None:
    """Refuse repairs and axes that there are not, and two answers to one question.

    Raises:
        BoatFileError: The first of it.
    """
    for name in said.repairs:
        if name not in REPAIRS:
            mend = f"Write one of: {', '.join(REPAIRS)}."
            raise BoatFileError(f"there is no repair '{name}'", "--repair", mend)
    for option, name in (("--forward", said.forward), ("--up", said.up)):
        if name:
            _is_axis(name, option)
    if said.scale and said.length:
        what = "--length and --drawn-at both set her size"
        raise BoatFileError(what, "--length", "Leave one of them out.")


def _is_axis(name: str, where: str = "axis") -> None:
    if name not in AXES:
        raise BoatFileError(
            f"there is no axis '{name}'", where, f"Write one of: {', '.join(AXES)}."
        )


def _unit(drawn: Drawn, said: MeshSaid, *, is_asked: bool) -> str:
    """Return the unit of length in the file.

    Raises:
        BoatFileError: Nobody says it.
    """
    if said.unit:
        quantity(f"1 {said.unit}", "length", None, "--mesh-unit")
        return said.unit
    if drawn.unit is not None:
        return name_of(drawn.unit, "length")
    wanted = quantity(said.length, "length", None, "--length") if said.length else None
    likely = likely_unit(np.ptp(drawn.points, axis=0), wanted)
    if is_asked:
        words = f"Unit of length in the mesh ({of_mesh(likely.why)})"
        return asked(words, lambda text: quantity(f"1 {text}", "length"), likely.answer)
    if likely.is_certain or said.length:  # with a length the unit makes no difference
        return likely.answer
    what = f"{drawn.kind} files have no unit of length"
    mend = f"Add --mesh-unit {likely.answer}, if that is it: {of_mesh(likely.why)}."
    raise BoatFileError(what, drawn.name, mend)


def _axes(mesh: Mesh, said: MeshSaid, name: str, *, is_asked: bool) -> tuple[str, str]:
    """Return which axes point forward and up."""
    likely = likely_axes(mesh)
    forward, _, up = likely.answer.partition(", ")
    if said.forward or said.up:
        return said.forward or forward, said.up or up
    if is_asked:
        forward = asked(
            f"Axis that points forward, to the bow ({of_mesh(likely.why)})",
            _is_axis,
            forward or "x",
        )
        up = asked("Axis that points up", lambda text: _two(mesh, forward, text, name), up or "z")
    return forward, up


def _two(mesh: Mesh, forward: str, up: str, name: str) -> None:
    _is_axis(up)
    turned(mesh, forward, up, name)


def _scale(drawn: float, said: MeshSaid, *, is_asked: bool) -> float:
    """Return how many times too large the mesh was drawn.

    Args:
        drawn: Its length as drawn [m].
        said: What was typed.
        is_asked: Whether somebody is there to answer.
    """
    if said.scale:
        return quantity(said.scale, "ratio", None, "--drawn-at")
    model = quantity(said.model, "ratio", None, "--scale") if said.model else 1.0
    full = model if drawn > LONGEST else 1.0
    if said.length:
        wanted = quantity(said.length, "length", None, "--length")
    elif is_asked:
        usual = write(drawn / full, "length", "mm")
        words = f"Length of the model (drawn {write(drawn, 'length', 'mm')} long)"
        text = asked(words, lambda typed: quantity(typed, "length"), usual)
        if text == usual:
            return full
        wanted = quantity(text, "length")
    else:
        return full
    if wanted <= 0:
        raise BoatFileError("she has no length", "--length", "Enter how long she will be.")
    return 1.0 if abs(drawn / wanted - 1) < WHOLE else drawn / wanted


def _plain(name: str) -> str:
    """Return the name of a file as it may stand in a boat file."""
    return "".join(c for c in name if c.isprintable() and c not in '"\\') or "hull.stl"
