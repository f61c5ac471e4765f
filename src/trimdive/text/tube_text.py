"""``tube``: what tubes that are sold do for a bore and a depth."""

from collections.abc import Iterator
from math import floor
from typing import TYPE_CHECKING

from trimdive.text.layout import Block, Cells, heading, line, table

if TYPE_CHECKING:
    from trimdive.bench import Offer

SHORT = {"polycarbonate": "polycarb.", "aluminium 6063": "alu. 6063"}  # in a narrow table


def tube_text(offers: "tuple[Offer, ...]", depth: float, inside: float) -> Iterator[Block]:
    """Yield what tubes do for a wanted bore and depth."""
    does = [one for one in offers if one.does]
    first = does[0] if does else None
    text = (
        f"{first.size} of {first.material} is enough, {first.bore * 1e3:.1f} mm inside."
        if first
        else f"Nothing in the table with such a bore is safe to {depth:.1f} m."
    )
    yield line(f"For {inside * 1e3:.0f} mm inside and {depth:.1f} m: {text}")
    head = ["size", "of", "outside×wall", "inside", "bears", "weighs", "lifts", "lead"]
    for title, some in (("", does), ("Too weak", [one for one in offers if not one.does])):
        if some:
            yield from [heading(title)] if title else []
            yield table(head, [_offer(one) for one in some], right=(2, 3, 4, 5, 6, 7), gap=1)
    yield line(
        "Widths in mm. lifts: buoyancy less weight; lead: what sinks it. * sizes from memory."
    )
    yield line(
        "With caps a twelfth of the diameter thick, of the same material. What is sold differs: "
        "measure the wall where it is thinnest before it is cut."
    )


def _offer(one: "Offer") -> Cells:
    sinks = one.lift < 0
    return [
        f"{one.size}{' *' if one.status == 'from memory' else ''}",
        SHORT.get(one.material, one.material),
        f"{one.outside * 1e3:.1f}×{one.wall * 1e3:.2f}",
        f"{one.bore * 1e3:.1f}",
        f"{floor(10 * one.bears.depth) / 10:.1f} m",
        f"{one.mass * 1e3:.0f} g",
        "sinks" if sinks else f"{one.lift * 1e3:.0f} g",
        "none" if sinks else f"{one.lead * 1e3:.0f} g",
    ]
