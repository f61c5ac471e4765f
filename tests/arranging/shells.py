"""Demo boats with what lies in their cylinders out of place, and no lead or foam."""

import shutil
from collections.abc import Mapping
from pathlib import Path

from tests.conftest import BOATS

from trimdive.boatfile import load, remove, set_value


def copied(name: str, folder: Path) -> Path:
    """Return the boat file of a copy of a demo boat."""
    shutil.copytree(BOATS / name, folder / name)
    return folder / name / "boat.toml"


def placed(text: str, file: Path, at: Mapping[str, float]) -> str:
    """Return the text with cylinders and what lies in them elsewhere: middles [m], by path."""
    boat = load(file).boat
    for path, x in at.items():
        table, number = path.removesuffix("]").split("[")
        field, value = "x", x
        if table == "tank" and boat.tanks[int(number) - 1].kind == "piston":
            tank = boat.tanks[int(number) - 1]
            field, value = "water_end", tank.water_end + x - tank.x
        text = set_value(text, f"{path}.{field}", f"{value * 1e3:.1f} mm")
    return text


def bare(text: str, file: Path) -> str:
    """Return the text without lead and foam."""
    boat = load(file).boat
    for kind, pieces in (("lead", boat.lead), ("foam", boat.foam)):
        for k in range(len(pieces), 0, -1):
            text = remove(text, f"{kind}[{k}]")
    return text


def inside(file: Path) -> dict[str, tuple[str, float]]:
    """Return of everything in cylinders its cylinder's name and its middle along her [m]."""
    boat = load(file).boat
    pieces = [(f"tank[{k}]", one) for k, one in enumerate(boat.tanks, 1)]
    parts = [(f"part[{k}]", one) for k, one in enumerate(boat.parts, 1)]
    return {path: (one.inside, one.x) for path, one in (*pieces, *parts) if one.inside}


def empty_shell(name: str, folder: Path) -> Path:
    """Return the boat file of a demo boat of which nothing in her cylinders has its place.

    All of it lies at the middle of its cylinder; there is no lead and no foam.
    """
    file = copied(name, folder)
    homes = {one.name: one.x for one in load(file).boat.cylinders}
    at = {path: homes[home] for path, (home, _) in inside(file).items()}
    file.write_text(bare(placed(file.read_text("utf-8"), file, at), file), "utf-8")
    return file


def shuffled(name: str, folder: Path, shift: float) -> Path:
    """Return the boat file of a demo boat with her cylinder shifted [m], what lies in it turned.

    Each thing in it lies where another lay: the foremost aft, the aftmost forward.
    """
    file = copied(name, folder)
    listed = inside(file)
    order = sorted(listed, key=lambda path: listed[path][1])
    at = {path: listed[other][1] + shift for path, other in zip(order, order[::-1], strict=True)}
    at["cylinder[1]"] = load(file).boat.cylinders[0].x + shift
    file.write_text(placed(file.read_text("utf-8"), file, at), "utf-8")
    return file
