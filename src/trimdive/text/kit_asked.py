"""Reads which waters, gear and pockets a kit is for."""

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, cast

from trimdive.assessment import Assessment
from trimdive.errors import AskError, BoatError
from trimdive.placing.kit import Combination, Kit, Space, kit, pockets
from trimdive.text.sentence import several
from trimdive.text.water_asked import water_of
from trimdive.text.whatif_asked import typed_after
from trimdive.units import read
from trimdive.water import waters as known_waters

if TYPE_CHECKING:
    from trimdive.ballast.dive.whatif import Made

GEAR = re.compile(r"\s*(?P<name>.+?)\s*=\s*(?P<mass>[^@]+?)\s*(?:@\s*(?P<x>.+?)\s*)?")
MEND = 'Write it as "battery = 310 g @ 640 mm", or "battery = 310 g, 120 cm3".'
MOST = 60  # combinations


def made(
    her: Assessment, waters: str | None, gear: Sequence[str], without: Sequence[str],
    places: Mapping[str, str | None], seconds: float,
) -> Kit:  # fmt: skip
    """Return the kit that is asked for.

    Args:
        her: The boat.
        waters: Their names, parted by commas.
        gear: Other things in parts' places.
        without: Parts left at home.
        places: Of pockets, as typed.
        seconds: Time that it may take [s].

    Raises:
        TrimdiveError: A name, a figure or a place cannot be.
    """
    boats = [("", her), *_geared(her, gear, without)]
    chosen = _waters(her, waters)
    planned = [
        Combination(
            water_name=name,
            water=(there := (one if name == _own(her) else _in_water(one, name))).water,
            gear=words,
            her=there,
        )
        for words, one in boats
        for name in chosen
    ]
    if len(planned) > MOST:
        what = f"{len(planned)} combinations are more than can be proven"
        raise AskError(what, "--waters, --with", f"Plan {MOST} or fewer.")
    space = Space(hull=her.hull, bodies=her.bodies, waterline=her.waterline, scene=her.scene)
    middle = float(her.floater.gravity[0] + her.floater.tree.centre[0])
    return kit(her, planned, pockets(space, middle, _places(her, places)), seconds)


def _own(her: Assessment) -> str:
    """Return what her own water is called, by its name where the table has it."""
    for name, water in known_waters().items():
        if (water.kind, water.celsius, water.salt) == (
            her.water.kind, her.water.celsius, her.water.salt,
        ):  # fmt: skip
            return name
    return "her own water"


def _in_water(her: Assessment, name: str) -> Assessment:
    other = water_of(name)
    return her.in_water(other.kind, other.celsius, other.salt)


def _waters(her: Assessment, typed: str | None) -> tuple[str, ...]:
    """Return the waters planned, her own first: as typed, as the brief has them, or of her kind.

    Raises:
        AskError: One is no water.
        UnitError: A figure in one cannot be read.
    """
    own = _own(her)
    if typed is not None:
        names = several(typed)
        if not names:
            raise AskError("it names no water", "--waters", 'Write it as "pond, sea".')
    elif her.boat.brief and her.boat.brief.waters:
        names = list(her.boat.brief.waters)
    else:
        names = [name for name, water in known_waters().items() if water.kind == her.water.kind]
    for name in names:
        try:
            water_of(name)
        except BoatError as error:
            raise AskError(error.what, "--waters", error.mend) from None
    return tuple(dict.fromkeys([own, *names]))


def _geared(
    her: Assessment, gear: Sequence[str], without: Sequence[str]
) -> Iterator[tuple[str, Assessment]]:
    """Yield every other set of gear in words, and her with it.

    Raises:
        AskError: There is no such part, or the other thing is not told.
        UnitError: A quantity cannot be read.
    """
    from trimdive.ballast.dive.whatif import with_another
    from trimdive.ballast.dive.whatif import without as left_out

    for text in gear:
        typed = GEAR.fullmatch(text)
        if not typed:
            raise AskError(f"'{text}' names no other thing", "--with", MEND)
        name = typed["name"]
        mass, _, volume = typed["mass"].partition(",")
        with typed_after("--with"):
            _, boat, _ = with_another(
                cast("Made", her), name, _read(her, mass, "mass"),
                _read(her, volume, "volume") if volume.strip() else None,
                _place(her, name, typed["x"]),
            )  # fmt: skip
        at = f" at {typed['x']}" if typed["x"] else ""
        yield f"{name} of {mass.strip()}{at}", Assessment(boat=boat, files=her.files)
    for name in without:
        with typed_after("--without"):
            _, boat, _ = left_out(cast("Made", her), name)
        yield f"no {name}", Assessment(boat=boat, files=her.files)


def _read(her: Assessment, text: str, kind: str) -> float:
    return read(text.strip(), kind, her.boat.units.own.get(kind), where="--with")


def _place(her: Assessment, name: str, x: str | None) -> tuple[float, float, float] | None:
    """Return the place of another thing [m]; None where the old one was."""
    from trimdive.ballast.dive.changed import piece_named

    if x is None:
        return None
    path, _ = piece_named(her.boat, name)
    old = next(entry.place for entry in her.masses.entries if entry.path == path)
    at = her.boat.along(_read(her, x, "length"))
    low, high = her.hull.envelope.bounds[:, 0]
    if not low <= at <= high:
        what = f"{x.strip()} is outside her"
        raise AskError(what, "--with", f"Measure it again, from the {her.boat.entered_from}.")
    return at, float(old[1]), float(old[2])


def _places(her: Assessment, typed: Mapping[str, str | None]) -> dict[str, float]:
    """Return the places of pockets that are told [m]."""
    unit = her.boat.units.own.get("length")
    return {
        name: her.boat.along(read(text, "length", unit, where=f"--{name}"))
        for name, text in typed.items()
        if text is not None
    }
