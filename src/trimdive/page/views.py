"""What the page's templates are given: words and numbers, finished."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from trimdive.drawings.words import figures, state_words
from trimdive.page.shown import name_of
from trimdive.page.track import exact

if TYPE_CHECKING:
    from trimdive.assess import Assessment
    from trimdive.findings import Finding
    from trimdive.page.desk import Desk, Slider
    from trimdive.rest import State

Told = dict[str, object]
STEP = 0.001  # of the slider [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One finding as the page shows it."""

    number: int
    name: str
    what: str
    mend: str
    is_doable: bool
    is_urgent: bool  # must be put right; else only looked at
    takes: str  # numbers of those that go with it
    stays: str  # numbers of those that stay
    shows: tuple[str, ...]  # what shows only then
    limit: str
    source: str  # of the limit; "" where it is common practice


def rows(found: Sequence["Finding"]) -> list[Row]:
    """Return findings as the page shows them, in their order."""
    return [_row(one, k, found) for k, one in enumerate(found)]


def _row(one: "Finding", k: int, found: Sequence["Finding"]) -> Row:
    takes = [i for i, other in enumerate(found, 1) if i != k + 1 and one.about in other.follows]
    stays = [i for i in range(1, len(found) + 1) if i != k + 1 and i not in takes]
    is_own = one.limit.source.endswith("no source")
    return Row(
        number=k + 1,
        name=name_of(one),
        what=sentence(one.what),
        mend=one.mend,
        is_doable=bool(one.edits),
        is_urgent=one.weight == "put right",
        takes=numbers(takes),
        stays=numbers(stays),
        shows=tuple(sentence(text) for text in one.hidden),
        limit=f"{one.limit.text}: {one.limit.note}",
        source="" if is_own else one.limit.source,
    )


def sentence(text: str) -> str:
    """Return a text as a sentence; a file's or a part's own name keeps its letters.

    >>> sentence("she leans"), sentence("lines.csv:9: 59.8?")
    ('She leans.', 'lines.csv:9: 59.8?')
    """
    if text.split(" ")[0].isalpha():
        text = text[:1].upper() + text[1:]
    return text if text.endswith((".", "?", "!")) else f"{text}."


def numbers(found: Sequence[int]) -> str:
    """Return numbers in a sentence, neighbours drawn together.

    >>> numbers([2]), numbers([2, 3]), numbers([2, 4, 5, 6, 9])
    ('2', '2 and 3', '2, 4 to 6 and 9')
    """
    spans: list[list[int]] = []
    for one in found:
        if spans and spans[-1][1] == one - 1:
            spans[-1][1] = one
        else:
            spans.append([one, one])
    texts = [
        text
        for low, high in spans
        for text in ([f"{low} to {high}"] if high > low + 1 else map(str, sorted({low, high})))
    ]
    return " and ".join([", ".join(texts[:-1]), texts[-1]] if len(texts) > 1 else texts)


def lowest_filling(her: "Assessment") -> float:
    """Return the filling at which she is neutral, or full where she will not go under [-]."""
    low, high = float(her.blown_water.sum()), float(her.full_water.sum())
    if not her.full.rest.under or high <= low:
        return 1.0
    return min(max((float(her.dived.rest.waters.sum()) - low) / (high - low), 0.0), 1.0)


def standing(her: "Assessment", slider: "Slider") -> tuple[float, "State"]:
    """Return filling and state at the slider; untouched it stands where she is wholly under."""
    if slider.filling is None or not her.boat.tanks:
        return lowest_filling(her), her.lowest
    return slider.filling, her.moment(slider.filling, up=slider.up).state


def state_told(her: "Assessment", slider: "Slider") -> Told:
    """Return how she lies at the slider, for the browser, and in words and figures."""
    filling, state = standing(her, slider)
    return {
        "lie": exact(her, state, filling),
        "words": state_words(her, state),
        "figures": [_figure(*figure) for figure in figures(her, state)],
    }


def _figure(name: str, value: str, says: str) -> dict[str, str]:
    """Return a figure with its number and unit, to be written large, apart from what follows."""
    number, space, rest = value.partition(" ")
    unit, _, word = rest.partition(" ")
    return {"name": name, "large": f"{number}{space}{unit}", "word": word, "says": says}


def page_told(desk: "Desk") -> Told:
    """Return all that the page's template shows."""
    her = desk.her
    found = rows(her.findings)
    warm = her.boat.units.write(her.water.celsius, "temperature")
    told = state_told(her, desk.slider)
    return {
        "boat": her.boat,
        "scale": f"1:{her.boat.scale:g}" if her.boat.scale else "",
        "water": f"{her.water.kind} water, {warm}",
        "file": desk.path.name,
        "shown": desk.shown,
        "told": told,
        "start": told["lie"],
        "filling": round(standing(her, desk.slider)[0] / STEP) * STEP,
        "is_touched": desk.slider.filling is not None,
        "step": STEP,
        "urgent": [row for row in found if row.is_urgent],
        "count": len(found),
        "undo": desk.steps[desk.at].says if desk.at else "",
        "redo": desk.steps[desk.at + 1].says if desk.at + 1 < len(desk.steps) else "",
        "is_saved": desk.is_saved,
        "revision": desk.revision,
        "note": desk.note,
        "wrong": desk.wrong,
        "is_keeping": desk.is_keeping,
        "trouble": desk.trouble,
    }
