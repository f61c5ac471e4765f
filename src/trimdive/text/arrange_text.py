"""``arrange``: the best arrangements side by side, as text and JSON."""

import shlex
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from trimdive.boatfile.ref import ref
from trimdive.edits.carried import piece_at
from trimdive.errors import BalanceError
from trimdive.text import found, words
from trimdive.text.documents import common, finding_document
from trimdive.text.layout import Block, Cells, Document, heading, labelled, line, table
from trimdive.text.marks import WATCH
from trimdive.text.place_text import CONDITIONS, lacking
from trimdive.text.say import Say, listed
from trimdive.text.sentence import capital

if TYPE_CHECKING:
    from trimdive.arranging.layout import Order
    from trimdive.arranging.work import Arranged, Arrangement
    from trimdive.assessment import Assessment

STILL = 5e-5  # a shorter move is none [m]


def _foam(her: "Assessment") -> float:
    return sum(body.volume for body in her.bodies if body.kind == "foam")


def _neutral(her: "Assessment") -> float | None:
    is_so = bool(her.boat.tanks) and her.full.rest.under and her.neutral >= 0
    return her.neutral if is_so else None


def _dived(her: "Assessment") -> float | None:
    return her.dived.trim_angle if her.goes_under else None


def _bg(her: "Assessment") -> float | None:
    return her.dived.bg if her.goes_under else None


def _shared(her: "Assessment") -> int:
    from trimdive.findings import ROOM_KEYS

    return sum(one.key in ROOM_KEYS for one in her.first_findings)


Figure = tuple[str, str, Callable[["Assessment"], float | None], Callable[[Say, float], str]]
FIGURES: tuple[Figure, ...] = (
    ("lead_kg", "lead", lambda her: her.masses.of_kind("lead"), lambda say, v: say.mass(v)),
    ("foam_m3", "foam", _foam, lambda say, v: say.volume(v)),
    ("dry_mass_kg", "dry mass", lambda her: her.floater.mass, lambda say, v: say.mass(v)),
    ("litres_m3", "ballast water", lambda her: her.need.volume,
     lambda say, v: say.volume(v)),
    ("neutral", "neutral at", _neutral, lambda say, v: say.share(v)),
    ("trim_surfaced_rad", "trim surfaced", lambda her: her.surfaced.trim_angle,
     lambda say, v: say.trim(v)),
    ("trim_dived_rad", "trim dived", _dived, lambda say, v: say.trim(v)),
    ("bg_m", "BG dived", _bg, lambda say, v: say.length(v)),
    ("gm_least_m", "least GM", lambda her: her.down.least_gm.state.gm_t,
     lambda say, v: say.length(v)),
    ("share_room", "sharing room", _shared, lambda _, v: f"{v:.0f}"),
    ("put_right", "to put right", lambda her: her.urgent, lambda _, v: f"{v:.0f}"),
)  # fmt: skip


def figures(her: "Assessment") -> dict[str, float | None]:
    """Return the figures that arrangements are compared by [SI]; None where she has none such."""
    told: dict[str, float | None] = {}
    for key, _, figure, _ in FIGURES:
        try:
            told[key] = figure(her)
        except BalanceError:
            told[key] = None
    return told


def places(done: "Arranged", order: "Order | None" = None) -> dict[str, tuple[str, float]]:
    """Return name and middle along her [m] of what may move, by path; as entered without an order.

    Of a thing that goes with a tank no place is told: it goes where that goes.
    """
    one = done.found[0].order if order is None else order
    boat = _of(done, one).her.boat
    told: dict[str, tuple[str, float]] = {}
    for pieces, shifts in ((done.layout.tubes, one.tubes), (done.layout.things, one.things)):
        for thing, far in zip(pieces, shifts.tolist(), strict=True):
            piece = piece_at(boat, ref(thing.path))
            told[thing.path] = (piece.name, piece.x - (far if order is None else 0.0))
    return told


def _of(done: "Arranged", order: "Order") -> "Arrangement":
    return next(one for one in done.found if one.order is order)


def row_of(done: "Arranged", one: "Arrangement", tube: int) -> list[str]:
    """Return the names of what lies in a cylinder, from aft to fore."""
    ends = [
        (thing.ends[0] + float(far), thing.name)
        for thing, far in zip(done.layout.things, one.order.things, strict=True)
        if thing.tube == tube
    ]
    return [name for _, name in sorted(ends)]


def is_in_order(one: "Arrangement") -> bool:
    """Return whether nothing is left to be put right, and all comes out."""
    return one.is_right and not one.wrong and not one.stuck


def verdict(one: "Arrangement") -> str:
    """Return what an arrangement comes to, in two or three words."""
    if not one.is_placed:
        return "not right"
    if one.wrong:
        return words.things(len(one.wrong))
    return "does not all come out" if one.stuck else as_she_is(one.her)


def as_she_is(her: "Assessment") -> str:
    """Return the same of her as she is."""
    if her.urgent:
        return words.things(her.urgent)
    return f"in order, {WATCH}" if her.heels_coming_up else "in order"


def arrange_text(done: "Arranged", given: Path, saved: "Assessment | None") -> Iterator[Block]:
    """Yield what ``arrange`` prints.

    Args:
        done: What came of it.
        given: BOAT as typed.
        saved: Her with one written into her file; None where it was not.
    """
    say = Say(done.before.boat)
    yield line(words.title(done.before))
    yield heading("Arrangements, the best first")
    numbers = [str(k) for k in range(1, len(done.found) + 1)]
    yield table(["", "now", *numbers], _compared(done, say))
    if not any(one.is_placed for one in done.found):
        yield line(
            "None puts her in order. Put right first what no place along her can, such as a closed "
            "tower or a slip in a figure.",
            f"See: trimdive check {shlex.quote(str(given))}",
        )
    yield line("All lead and foam in the hull is laid anew, but for what is kept.")
    for number, one in enumerate(done.found, 1):
        yield from _one(done, say, number, one)
    yield heading(f"Middle of each, from the {say.boat.entered_from}")
    now = places(done)
    columns = [now, *(places(done, one.order) for one in done.found)]
    yield table(
        ["", "now", *numbers],
        [
            [name, *(say.length(say.boat.along(column[path][1])) for column in columns)]
            for path, (name, _) in now.items()
        ],
        right=range(1, len(columns) + 1),
    )
    yield from _notes(done, say)
    yield from _end(done, given, saved)


def told(her: "Assessment", say: Say) -> dict[str, str]:
    """Return the figures that arrangements are compared by, written; by their keys."""
    known = figures(her)
    return {
        key: "–" if (value := known[key]) is None else write(say, value)
        for key, _, _, write in FIGURES
    }


def _compared(done: "Arranged", say: Say) -> Iterator[Cells]:
    """Yield the figures of her as she is and of each arrangement, a row each."""
    columns = [told(her, say) for her in (done.before, *(one.her for one in done.found))]
    for key, label, _, _ in FIGURES:
        yield [label, *(column[key] for column in columns)]


def _one(done: "Arranged", say: Say, number: int, one: "Arrangement") -> Iterator[Block]:
    """Yield one arrangement: what lies behind what, and what is wrong with it."""
    yield heading(f"{number}: {verdict(one)}; from aft to fore")
    rows = [
        (f"{tube.name}:", ", ".join(row_of(done, one, k)))
        for k, tube in enumerate(done.layout.tubes)
    ]
    yield labelled((name, held or "nothing moves in it") for name, held in rows)
    for text in moves(done, say, one):
        yield line(text)
    if text := remains(done, say, one):
        yield line(text)
    if one.is_hurried:
        yield line(
            f"Time ran out while lead and foam were placed: {say.mass(one.laid)} is laid, "
            f"{say.mass(one.might)} might do.",
            "Allow more: --seconds 120.",
        )
    if one.outs:
        yield line(comes_out(one))
    elif not say.boat.hatches:
        yield line("No hatch is entered: whether it comes out was not looked at.")
    yield line(proof(say, number, one))


def moves(done: "Arranged", say: Say, one: "Arrangement") -> Iterator[str]:
    """Yield how far each cylinder moves that does."""
    for tube, far in zip(done.layout.tubes, one.order.tubes, strict=True):
        if abs(far) > STILL:
            yield f"Move {tube.name} {say.along(float(far))}, with all in it."


def remains(done: "Arranged", say: Say, one: "Arrangement") -> str:
    """Return what an arrangement leaves to be put right; "" for nothing."""
    if not one.is_placed:
        return not_placed(done, one)
    left = [capital(found.what(say.boat, wrong)) for wrong in one.wrong]
    return f"Still to put right: {'. '.join(left)}." if left else ""


def not_placed(done: "Arranged", one: "Arrangement") -> str:
    """Return why lead and foam do not put an arrangement right."""
    lacks = [f"{CONDITIONS[s.key]} by {lacking(done.before, s)}" for s in one.shortfalls]
    why = f" They miss {listed(lacks)}." if lacks else ""
    return f"Lead and foam do not put it right.{why}"


def comes_out(one: "Arrangement") -> str:
    """Return whether large things come out."""
    if one.stuck:
        return f"Does not come out: {listed(one.stuck)}."
    first = [name for out in one.outs for name in out.first]
    if first:
        count = len(set(first))
        return f"Every large thing comes out; {count} pieces must be out before."
    return "Every large thing comes out."


def proof(say: Say, number: int, one: "Arrangement") -> str:
    """Return how sure it is that no other order needs less, as far as sums go."""
    but = "" if number == 1 else " but those before it"
    if one.order.proven:
        return f"Proven by the sums: no order{but} needs less lead and foam."
    return f"By the sums another order could still save {say.mass(one.order.gap)}."


def _notes(done: "Arranged", say: Say) -> Iterator[Block]:
    for text in assumed(done, say):
        yield line(text)
    yield line(
        "Shafts, rods and hoses are looked at as far as the boat file tells them.",
        "See at_cap and [[run]] in the boat file; --aft, --fore and --keep here.",
    )


def assumed(done: "Arranged", say: Say) -> Iterator[str]:
    """Yield what was assumed, in sentences."""
    guessed = [thing.name for thing in done.layout.things if thing.is_guessed]
    if guessed:
        yield (
            f"No size is entered for {listed(tuple(guessed))}: each is taken to be as long as its "
            "mass of water would be in the bore. Enter what you measure."
        )
    fixed = [tube.name for tube in done.layout.tubes if tube.ranges == ((0.0, 0.0),)]
    if fixed:
        yield f"{capital(listed(tuple(fixed)))} {'stay' if fixed[1:] else 'stays'} in place."
    yield f"{say.length(done.layout.gap)} is left between things, one behind the other."


def _end(done: "Arranged", given: Path, saved: "Assessment | None") -> Iterator[Block]:
    if saved is not None:
        yield line("Written into the boat file; the previous version is kept beside it.")
        return
    yield line("Nothing is written.", f"To apply one: trimdive arrange {_typed(given)}")


def _typed(given: Path) -> str:
    return f"{shlex.quote(str(given))} --take 1 --apply"


def arrange_json(done: "Arranged", saved: "Assessment | None") -> Document:
    """Return what ``arrange`` tells a program."""
    return {
        **common(saved or done.before),
        "now": {"figures": figures(done.before), "places": _places_json(done, None)},
        "arrangements": [_arrangement_json(done, one) for one in done.found],
        "guessed_lengths": [thing.name for thing in done.layout.things if thing.is_guessed],
        "gap_m": done.layout.gap,
        "written": saved is not None,
    }


def _arrangement_json(done: "Arranged", one: "Arrangement") -> Document:
    return {
        "figures": figures(one.her),
        "places": _places_json(done, one.order),
        "rows": [
            {"cylinder": tube.name, "aft_to_fore": row_of(done, one, k), "moved_m": float(far)}
            for k, (tube, far) in enumerate(zip(done.layout.tubes, one.order.tubes, strict=True))
        ],
        "lead_and_foam_placed": one.is_placed,
        "shortfalls": [{"key": s.key, "kind": s.kind, "value_si": s.value} for s in one.shortfalls],
        "do_not_come_out": list(one.stuck),
        "remains": [finding_document(one.her.boat, wrong) for wrong in one.wrong],
        "laid_kg": one.laid,
        "might_do_kg": one.might,
        "least_kg": one.order.mass,
        "gap_kg": one.order.gap,
        "proven": one.order.proven,
        "in_order": is_in_order(one),
        "watch_the_way_up": is_in_order(one) and one.her.heels_coming_up,
    }


def _places_json(done: "Arranged", order: "Order | None") -> list[Document]:
    return [
        {"name": name, "path": path, "x_m": x} for path, (name, x) in places(done, order).items()
    ]
