"""What a list does not tell and a boat file needs, with the answers to give."""

from collections.abc import Iterable, Sequence

from trimdive.fact import fact
from trimdive.weightlists.alike import is_lead
from trimdive.weightlists.records import Answers, Ask, ColumnRead, Item
from trimdive.weightlists.words import FIGURES

VOLUMES = ("material", "inside")  # words that tell how much water a part pushes aside
VOLUME_FIGURES = ("volume", "density", "hung")


def list_asks(columns: Sequence[ColumnRead], unsaid: set[str], is_doubtful: bool) -> list[Ask]:
    """Return what is asked about the whole list: units, and of how many pieces a mass is."""
    found = [_unit_ask(columns, kind) for kind in sorted(unsaid)]
    if is_doubtful:
        what, mend, option = fact("pieces-not-entered"), fact("write-pieces"), fact("type-pieces")
        found.append(Ask(field="mass_of", what=what, mend=mend, option=option))
    return found


def _unit_ask(columns: Sequence[ColumnRead], kind: str) -> Ask:
    """Return what is asked of the unit of some bare figures, with the unit that is likely."""
    first = next(c for c in columns if FIGURES.get(c.use) == kind and c.has_guessed_unit)
    return Ask(
        field=f"{kind}_unit",
        what=fact("unit-not-entered", head=first.head, unit=first.unit),
        mend=fact("write-unit", head=first.head, unit=first.unit),
        option=fact("type-unit", kind=kind, unit=first.unit)
        if kind in ("mass", "length")
        else None,
    )


def missing(items: Sequence[Item], answers: Answers) -> list[Ask]:
    """Return what is asked before some items can become parts of a boat file."""
    asks = _end_ask(items), _along_ask(items, answers), _height_ask(items, answers)
    return [ask for ask in (*asks, _volume_ask(items, answers)) if ask]


def _end_ask(items: Sequence[Item]) -> Ask | None:
    """Return what is asked of the end from which places are measured."""
    arms = _rows(item for item in items if item.words.get("is_arm"))
    behind = _rows(item for item in items if item.figures.get("x", 0.0) < 0.0)
    if arms:
        what, mend = fact("arm-from-nowhere", rows=arms, of=len(items)), fact("write-end")
        return Ask(field="measured_from", what=what, mend=mend, option=fact("type-end"))
    if behind:
        what, mend = fact("place-below-zero", rows=behind, of=len(items)), fact("write-zero")
        return Ask(field="measured_from", what=what, mend=mend, option=fact("type-zero"))
    return None


def _along_ask(items: Sequence[Item], answers: Answers) -> Ask | None:
    """Return what is asked of parts without a place along the boat."""
    rows = _rows(i for i in items if not i.figures.keys() & {"x", "x_aft", "x_fore"})
    if not rows or answers.x:
        return None
    what = fact("no-place-along", rows=rows, of=len(items))
    return Ask(field="x", what=what, mend=fact("write-x"), option=fact("type-x"))


def _height_ask(items: Sequence[Item], answers: Answers) -> Ask | None:
    """Return what is asked of parts without a height."""
    rows = _rows(i for i in items if not i.figures.keys() & {"z", "z_bottom", "z_top"})
    if not rows or answers.z:
        return None
    what = fact("no-height", rows=rows, of=len(items))
    return Ask(field="z", what=what, mend=fact("write-z"), option=fact("type-z"))


def _volume_ask(items: Sequence[Item], answers: Answers) -> Ask | None:
    """Return what is asked of parts that tell nothing of their volume."""
    rows = _rows(item for item in items if not tells_volume(item) and not is_lead(item))
    if not rows or answers.material or answers.inside:
        return None
    what, mend = fact("no-volume", rows=rows, of=len(items)), fact("write-material")
    return Ask(field="material", what=what, mend=mend, option=fact("type-material"))


def _rows(items: Iterable[Item]) -> tuple[int, ...]:
    """Return the rows of some parts."""
    return tuple(item.row for item in items)


def tells_volume(item: Item) -> bool:
    """Return whether an item tells how much water it pushes aside."""
    has_word = any(item.words.get(word) for word in VOLUMES)
    return has_word or any(name in item.figures for name in VOLUME_FIGURES)
