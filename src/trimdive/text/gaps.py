"""What is not entered on the bench: what it is, what is not known for it, and what to write."""

from collections.abc import Callable
from typing import TYPE_CHECKING, NamedTuple

from trimdive.hydrostatics.equilibrium.named import listed
from trimdive.text.sentence import capital

if TYPE_CHECKING:
    from trimdive.bench import NotEntered

ENDS = {"aft_cap": "after cap", "fore_cap": "fore cap"}
WORDS = {  # of fields, where they are not called as they are written
    "wire_length": "length of its wire",
    "throw": "angle wanted",
    "gland": "place of its gland",
    "rod": "rod and shaft beside it",
}
IN_CAPS = "in caps, aft_cap or fore_cap."


class Gap(NamedTuple):
    """Something that is not entered, in words."""

    what: str  # "after cylinder, both caps: rings not entered"
    leaves: str  # what is therefore not known: "whether it stays dry"
    enter: str  # what to write where, as a sentence

    @property
    def short(self) -> str:
        """Return what is not entered and what is therefore not known, in sentences."""
        return f"{capital(self.what)}. Not known: {self.leaves}."

    @property
    def line(self) -> str:
        """Return the same, and what to write into the boat file."""
        return f"{self.short} {self.enter}"


def gap(one: "NotEntered") -> Gap:
    """Return something that is not entered in words."""
    if one.key in CAPS:
        what, leaves, enter = CAPS[one.key]
        where = "both caps" if len(one.lacks) == len(ENDS) else ENDS[one.lacks[0]]
        return Gap(f"{one.of[0]}, {where}: {what} not entered", leaves, enter)
    return GAPS[one.key](one)


CAPS = {
    "caps": (
        "thickness and material",
        "how deep it may go with them (usual ones taken)",
        f'Enter thickness = "12 mm", material = "…" {IN_CAPS}',
    ),
    "thickness": (
        "thickness",
        "how deep it may go with them (a usual one taken)",
        f'Enter thickness = "12 mm" {IN_CAPS}',
    ),
    "material": (
        "material",
        "how deep it may go with them (that of the tube taken)",
        f'Enter material = "…" {IN_CAPS}',
    ),
    "rings": (
        "rings",
        "whether it stays dry",
        f'Enter rings = [{{ number = "342", depth = "4.2 mm", width = "7.1 mm" }}] {IN_CAPS}',
    ),
    "groove": (
        "groove of the ring",
        "whether the ring is squeezed enough (groove of the table taken)",
        'Enter depth = "4.2 mm", width = "7.1 mm" beside the ring, as cut.',
    ),
    "hole": (
        "what seals its holes",
        "whether water comes in there",
        'Enter seal = "lip", "ring", "bellows", "gland" or "cemented" in holes.',
    ),
}


def _cylinder(_: "NotEntered") -> Gap:
    return Gap("no cylinder entered", "what keeps the water out", "Enter each under [[cylinder]].")


def _air(one: "NotEntered") -> Gap:
    return Gap(
        f"{one.of[0]}: free air not entered",
        "pressure inside with its tanks full (a share of its room taken)",
        'Enter air = "2.4 L", or list what is in it.',
    )


def _tube(one: "NotEntered") -> Gap:
    return Gap(
        f"{one.of[0]}: material of its tube not entered",
        "how deep it may go (acrylic taken)",
        'Enter material = "…".',
    )


def _ends(one: "NotEntered") -> Gap:
    return Gap(
        f"{one.of[0]}: how its round ends are made not entered",
        "how deep they may go (flat caps taken)",
        "Ask who made them; test it empty, under water, before anything goes in.",
    )


def _closing(one: "NotEntered") -> Gap:
    return Gap(
        f"{one.of[0]}: what holds its caps not entered",
        "whether pressure inside pushes them off",
        'Enter closing = { by = "rods", count = 3, diameter = "3.3 mm" }, or by = "nothing".',
    )


def _plant(one: "NotEntered") -> Gap:
    if not one.lacks:
        return Gap(
            f"plant of {listed(one.of)} not entered",
            "how fast it fills and empties, and what comes up without power",
            "Enter it under [[plant]].",
        )
    return Gap(
        f"{one.of[0]}: {listed([_of_plant(field) for field in one.lacks])} not entered",
        "whether it is enough for her (usual figures taken)",
        "Measure them, or read them from its sheet.",
    )


def _of_plant(field: str) -> str:
    """Return a field of a plant, or of one of its tables, as it is called."""
    table, _, inner = field.partition(".")
    if inner:
        return f"{inner} of its {table}"
    return table if table in ("vent", "openings") else f"its {table}"


def _battery(one: "NotEntered") -> Gap:
    if not one.lacks:
        return Gap(
            "voltage and capacity of the battery not entered",
            f"whether it feeds {listed(one.of)}, fuse and wire",
            "Enter it under [[battery]].",
        )
    return Gap(
        f"{one.of[0]}: {listed([WORDS.get(field, field) for field in one.lacks])} not entered",
        "whether the wire burns before the fuse blows",
        'Enter fuse = "10 A", wire = "1.5 mm2", wire_length = "350 mm".',
    )


def failsafe_gap(lacks: tuple[str, ...]) -> Gap:
    """Return failures for which no action is set, by their fields, in words."""
    fields = ", ".join(f'{field} = "come up"' for field in lacks)
    return Gap(
        f"no failsafe action set for {listed([field.replace('_', ' ') for field in lacks])}",
        "where she ends then",
        f"Set it on her failsafe and test it, transmitter off; enter {fields}.",
    )


def _failsafe(one: "NotEntered") -> Gap:
    return failsafe_gap(one.lacks)


def _depth(_: "NotEntered") -> Gap:
    return Gap(
        "her depth not entered",
        "whether every part stands it (a usual one taken)",
        'Enter pond_depth = "3 m" under [brief].',
    )


def _linkage(one: "NotEntered") -> Gap:
    return Gap(
        f"linkage of the {one.of[0]}: "
        f"{listed([_of_linkage(field) for field in one.lacks])} not entered",
        "whether the servo holds it and the rod runs clear",
        "Enter throw, area, gland, the rod's ends and the shaft under [[linkage]].",
    )


def _of_linkage(field: str) -> str:
    """Return a field of a linkage, or of what it moves, as it is called."""
    moved, _, inner = field.partition(".")
    return f"{inner} of the {moved}" if inner else WORDS[field]


GAPS: "dict[str, Callable[[NotEntered], Gap]]" = {
    "cylinder": _cylinder,
    "air": _air,
    "tube": _tube,
    "ends": _ends,
    "closing": _closing,
    "plant": _plant,
    "battery": _battery,
    "failsafe-told": _failsafe,
    "depth": _depth,
    "linkage": _linkage,
}
