"""Why something is found not to be in order: against which limit, and by which figure."""

from typing import TYPE_CHECKING

from trimdive.why.sureness import EXACT
from trimdive.why.why import Value, Why

if TYPE_CHECKING:
    from trimdive.assess import Assessment

FIGURES = {  # the figure that a check holds against its limit
    "bg-least": "stands-up-by",
    "gm-least": "gm-least",
    "trim-dived": "tips-by",
    "tank-offset": "off-plumb-line",
    "tank-margin": "litres-needed",
    "tank-most": "litres-needed",
    "neutral-band": "lift-left",
    "waterline-band": "dry-mass",
    "void-above": "volume-above",
    "closed-print": "volume-above",
    "foam-above": "volume-above",
    "lift-one": "dry-mass",
    "lift-two": "dry-mass",
    "brief-lift": "dry-mass",
    "weigh-in": "dry-mass",
    "guess-share": "dry-mass",
}


def found_keys(her: "Assessment") -> tuple[str, ...]:
    """Return the keys under which the findings can be asked, in their order."""
    return tuple(f"finding/{k}" for k in range(1, len(her.findings) + 1))


def of_finding(her: "Assessment", number: str) -> Why:
    """Return why something is found, by its number in the list."""
    one = her.findings[int(number) - 1]
    figure = FIGURES.get(one.key, "")
    values = (
        Value(
            symbol="",
            says="the limit",
            text=one.limit.text,
            value=one.limit.value,
            kind="",
            origin="the boat file" if one.key in her.boat.limits else "limits table",
            asks="",
        ),
        *_figure(figure),
    )
    return Why(
        key=f"finding/{number}",
        question="Why is this told, and against which limit?",
        answer=one.what,
        result=one.limit.value,
        kind="",
        says=f"{one.limit.note}. To mend it: {one.mend}",
        formula="",
        values=values,
        heads=(),
        items=(),
        source=one.limit.source,
        sure=EXACT,
    )


def _figure(key: str) -> tuple[Value, ...]:
    """Return the figure behind a check, to be asked in its turn."""
    if not key:
        return ()
    says = "the figure behind it, as she is now"
    return (Value(symbol="", says=says, text="", value=0.0, kind="", origin="", asks=key),)
