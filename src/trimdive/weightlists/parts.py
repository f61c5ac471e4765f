"""From a list that is understood to pieces of a boat file: new parts, and masses that change."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from math import ceil, log10

from trimdive.boatfile import Boat, append, set_value
from trimdive.errors import ListError
from trimdive.units import number_in, unit_named, usual_names
from trimdive.weightlists.alike import alike, is_lead, same_ask
from trimdive.weightlists.asks import missing, tells_volume
from trimdive.weightlists.fields import material_key
from trimdive.weightlists.records import Item, ListPreview
from trimdive.weightlists.words import FIGURES

LONGEST = 80  # letters in a name in a boat file
FIELDS = (
    "x",
    "x_aft",
    "x_fore",
    "y",
    "z",
    "z_bottom",
    "z_top",
    "volume",
    "density",
    "hung",
    "soaked",
)
MARK = "<parts>"  # stands where the parts of the list go
FINER = 1e-3  # of what the last part of a figure makes, so that its unit may be another [-]
SAME = 1e-6  # masses that differ by less are one mass [-]

Fields = dict[str, str | float | int | bool | list[str]]
Remark = Callable[[Item, str], str]  # of a row, and of the name that its part has


@dataclass(frozen=True, slots=True, kw_only=True)
class Aboard:
    """A piece that the boat file holds already."""

    path: str
    name: str
    kind: str
    mass: float | None  # of all its pieces; None where it is worked out [kg]
    is_by_ends: bool  # weighed by one end after the other
    share: float  # of that mass that the boat file writes: a half for one of a pair [-]
    is_pair: bool  # two, to port and starboard
    known: str  # how that mass is known


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A piece aboard whose mass the list knows otherwise."""

    piece: Aboard
    item: Item


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """What taking over a list does to a boat file."""

    new: tuple[Item, ...]
    changes: tuple[Change, ...]
    same: tuple[Item, ...]  # aboard already, with the same mass
    preview: ListPreview


def parts_of(preview: ListPreview, taken: Iterable[str] = ()) -> tuple[Fields, ...]:
    """Return the parts of a list as fields of a boat file, ready to be appended.

    Args:
        preview: The list as it was understood.
        taken: Names that are given already.

    Raises:
        ListError: Something is still missing.
    """
    _stop(preview, preview.items)
    return tuple(_pieces(preview, preview.items, taken))


def _stop(preview: ListPreview, items: Sequence[Item]) -> None:
    """Refuse a list that does not tell enough.

    Raises:
        ListError: It is so.
    """
    about_all = [
        ask
        for ask in preview.asks
        if ask.field.endswith("_unit") or "mass" in ask.field or ask.field == "same"
    ]
    for ask in [*about_all, *missing(items, preview.answers)]:
        what = f"'{ask.field}' is still asked for"
        raise ListError(what, preview.name, "Write it into the list, or answer it.")


def _pieces(preview: ListPreview, items: Sequence[Item], taken: Iterable[str]) -> list[Fields]:
    """Return the fields of each part."""
    names = {name.casefold() for name in taken}
    found: list[Fields] = []
    for item in items:
        name = _own_name(item.name, names)
        names.add(name.casefold())
        found.append(_fields(preview, item, name))
    return found


def _own_name(name: str, taken: set[str]) -> str:
    """Return the name, with a number behind it where another piece has it already."""
    name = name if len(name) <= LONGEST else f"{name[: LONGEST - 1].rstrip()}…"
    own, k = name, 1
    while own.casefold() in taken:
        k += 1
        own = f"{name[: LONGEST - 5]} {k}"
    return own


def _fields(preview: ListPreview, item: Item, name: str) -> Fields:
    """Return a part as fields of a boat file."""
    answers, length = preview.answers, preview.length_unit
    fields: Fields = {"name": name, "mass": mass_text(item, preview.mass_unit)}
    for word in ("known", "spread", "material", "inside", "from"):
        if item.words.get(word):
            fields[word] = item.words[word]
    if answers.known and "known" not in fields:
        fields["known"] = answers.known
    for field in FIELDS:
        if field in item.figures:
            kind = FIGURES[field]
            unit = {"length": length, "mass": preview.mass_unit}.get(kind) or usual_names(kind)[0]
            unit = "cm3" if kind == "volume" else "g/cm3" if kind == "density" else unit
            fields[field] = quantity(item.figures[field], kind, unit)
    if item.words.get("aboard") == "no":
        fields["aboard"] = False
    if not fields.keys() & {"x", "x_aft", "x_fore"}:
        fields["x"] = _answer(answers.x, answers.length_unit)
    if not fields.keys() & {"z", "z_bottom", "z_top"}:
        fields["z"] = _answer(answers.z, answers.length_unit)
    if not tells_volume(item):
        if is_lead(item):
            fields["material"] = "lead"
        elif answers.inside:
            fields["inside"] = answers.inside
        else:
            fields["material"] = material_key(answers.material)
    return fields


def _answer(text: str, unit: str) -> str:
    """Return an answer with its unit."""
    return text if not text[-1:].isdigit() else f"{text} {unit}".strip()


def quantity(value: float, kind: str, unit: str) -> str:
    """Return an SI value as text for a boat file, to nine figures.

    >>> quantity(0.31, "mass", "g")
    '310 g'
    """
    name = unit_named(unit, kind).name
    return f"{number_in(value, kind, name):.9g} {name}"


def mass_text(item: Item, unit: str, share: float = 1.0) -> str:
    """Return the mass of a row as text for a boat file, no finer than it was typed.

    Args:
        item: The row.
        unit: To write it in.
        share: Of that mass that is written: a half for one of a pair [-].
    """
    if not item.fine:
        return quantity(item.mass * share, "mass", unit)
    name = unit_named(unit, "mass").name
    decimals = ceil(-log10(number_in(item.fine * FINER, "mass", name)))
    number = round(number_in(item.mass, "mass", name), decimals) * share
    return f"{number:.9g} {name}"


def aboard(boat: Boat) -> tuple[Aboard, ...]:
    """Return every piece of a resolved boat that has a name and a mass."""
    kinds: Mapping[str, Sequence[object]] = {
        "region": boat.regions,
        "coat": boat.coats,
        "cylinder": boat.cylinders,
        "tank": boat.tanks,
        "part": boat.parts,
        "lead": boat.lead,
        "foam": boat.foam,
    }
    found: list[Aboard] = []
    for kind, pieces in kinds.items():
        for k, piece in enumerate(pieces, 1):
            share = 0.5 if getattr(piece, "pair", None) == "each" else 1.0
            mass = getattr(piece, "mass", None)
            found.append(
                Aboard(
                    path=f"{kind}[{k}]",
                    name=str(getattr(piece, "name", "")),
                    kind=kind,
                    mass=None if mass is None else mass / share,
                    is_by_ends=getattr(piece, "by_ends", None) is not None,
                    share=share,
                    is_pair=getattr(piece, "pair", None) is not None,
                    known=str(getattr(piece, "known", "") or ""),
                )
            )
    return tuple(found)


def plan_of(preview: ListPreview, boat: Boat) -> Plan:
    """Return what taking over a list does: what is aboard by name is weighed again, the rest added.

    Args:
        preview: The list as it was understood.
        boat: The resolved boat.
    """
    pieces = list(aboard(boat))
    new: list[Item] = []
    same: list[Item] = []
    changes: list[Change] = []
    for item in preview.items:
        piece = same_piece(item, pieces)
        if piece is None:
            new.append(item)
            continue
        pieces.remove(piece)
        is_worked_out = piece.mass is None and item.words.get("known") == "worked out"
        near = max(SAME * item.mass, FINER * item.fine)
        is_same = piece.mass is not None and abs(piece.mass - item.mass) <= near
        if is_worked_out or is_same:
            same.append(item)
        else:
            changes.append(Change(piece=piece, item=item))
    asks = [ask for ask in preview.asks if ask.field.endswith("_unit") or ask.field == "mass_of"]
    found = alike(new, pieces) if preview.answers.same != "no" else []
    if preview.answers.same == "yes":
        changes += [Change(piece=piece, item=item) for item, piece in found]
        new = [item for item in new if item not in [one for one, _ in found]]
    elif found:
        asks.append(same_ask(found))
    asks += missing(new, preview.answers)
    return Plan(
        new=tuple(new),
        changes=tuple(changes),
        same=tuple(same),
        preview=replace(preview, asks=tuple(asks)),
    )


def same_piece(item: Item, pieces: Sequence[Aboard]) -> Aboard | None:
    """Return the piece aboard that a row of a list means, or None."""
    named = [piece for piece in pieces if piece.name.casefold() == item.name.casefold()]
    of_kind = [piece for piece in named if piece.kind == item.words.get("group")]
    return next(iter(of_kind or named), None)


def taken_over(text: str, plan: Plan, boat: Boat, remark: Remark) -> str:
    """Return the text of a boat file with a list taken over; every other line stays as it is.

    Args:
        text: Text of the boat file.
        plan: What to do.
        boat: The boat in that text, resolved.
        remark: What is written above a part: what of its row only a comment can hold.

    Raises:
        ListError: Something is still missing.
    """
    _stop(plan.preview, plan.new)
    for change in plan.changes:
        if change.piece.is_by_ends:
            what = f"row {change.item.row}: '{change.piece.name}' was weighed by its two ends"
            mend = "Mend the two readings in the boat file, or take the row out of the list."
            raise ListError(what, plan.preview.name, mend)
        mass = mass_text(change.item, plan.preview.mass_unit, change.piece.share)
        text = set_value(text, f"{change.piece.path}.mass", mass)
        known = change.item.words.get("known") or plan.preview.answers.known
        if known:
            text = set_value(text, f"{change.piece.path}.known", known)
    names = [piece.name for piece in aboard(boat)]
    pieces = _pieces(plan.preview, plan.new, names)
    remarks = [
        remark(item, str(fields["name"])) for item, fields in zip(plan.new, pieces, strict=True)
    ]
    return _with_parts(text, pieces, remarks) if pieces else text


def _with_parts(text: str, pieces: Sequence[Fields], remarks: Sequence[str]) -> str:
    """Return the text with parts behind its last part, each below its comment."""
    blocks = [
        (f"# {' '.join(remark.split())}\n" if remark else "") + append("", "part", fields).lstrip()
        for fields, remark in zip(pieces, remarks, strict=True)
    ]
    held = append(text.replace("\r\n", "\n"), "part", {"name": MARK})
    place = append("", "part", {"name": MARK}).lstrip()
    whole = held.replace(place, "\n".join(blocks), 1)
    return whole.replace("\n", "\r\n") if "\r\n" in text else whole
