"""``tub`` once something was read: how readings agree, what was wrong, and her figures now."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from trimdive.text import words
from trimdive.text.diagnosis import diagnosis
from trimdive.text.documents import common
from trimdive.text.layout import Block, Cells, Document, heading, line, table
from trimdive.text.said import said
from trimdive.text.say import Say
from trimdive.text.tub_uncertainty import label_of, size, uncertainty_document, written
from trimdive.trials.correction import meanings
from trimdive.uncertainty import ANY

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.boatfile.tub import FromTub
    from trimdive.trials.correction import Carrier, Found, Net, Story
    from trimdive.trials.readings import Fit
    from trimdive.trials.readings.predicted import Row

MOST = 6  # carriers that are told
LIES = {
    "level": "Level",
    "bow": "Down by the bow",
    "stern": "Down by the stern",
    "right": "On her waterline",
    "low": "Low",
    "high": "High",
    "neutral": "Neutral",
    "heavy": "Too heavy",
    "light": "Too light to go under",
    "upright": "Upright",
    "leans": "Heeled",
}
SHOWN_FROM = 0.5  # of its ±: what is less than this is not told as wrong [-]
NOTES = {  # what a piece stands for, by the key that it has
    "weight": "weight",
    "volume-below": "volume under the waterline",
    "volume-above": "volume above the waterline",
    "tank-room": "room of the tank",
}
TOWARD = ("farther forward", "farther aft")
MOVES = {
    "along": TOWARD,
    "across": ("farther to port", "farther to starboard"),
    "height": ("higher", "lower"),
}


def readings_text(story: "Story") -> Iterator[Block]:
    """Yield what ``tub`` prints of a boat with readings."""
    her, found = story.her, story.fit
    yield line(words.title(her))
    yield line()
    yield line(agreement(story))
    yield from _odd(story)
    yield heading("What was read")
    head = ["", "read", "±", "by the list", "by the tub"]
    yield table(head, _rows(her, found), right=(1, 2, 3, 4), gap=1)
    yield from _scatter(her, found)
    yield heading("What was wrong in the list")
    yield line(_net(story, story.heavy, ("too heavy", "too light")))
    if her.boat.tanks:
        yield line(_net(story, story.above, ("more", "less")))
    yield from _likely(story)
    yield heading("Her figures")
    head = ["", "by the list", "±", "by the tub", "±"]
    rows = (_figure(story.corrected, one) for one in story.figures)
    yield table(head, rows, right=(1, 2, 3, 4), gap=1)
    yield from _meaning(story)
    yield from _applied(story)


def agreement(story: "Story") -> str:
    """Return how well readings and list agree, in words."""
    found = story.fit
    count = len(story.her.boat.readings_now)
    dates = sorted({one.date for one in story.her.boat.readings_now})
    when = " to ".join(f"{date:%Y-%m-%d}" for date in dict.fromkeys((dates[0], dates[-1])))
    who = "They {} with each other and" if count > 1 else "It {}"
    does = {"well": "agree well", "poorly": "agree poorly", "not": "do not agree"}[found.agreement]
    if count == 1:
        does = {"well": "agrees well", "poorly": "agrees poorly", "not": "does not agree"}[
            found.agreement
        ]
    word = f"{who.format(does)} with the list's ±"
    chance = max(round(found.chance * 100), 0)
    cases = f"{chance} of 100 cases" if chance else "fewer than 1 of 100 cases"
    return (
        f"{count} {'reading' if count == 1 else 'readings'}, {when}. {word}: as far apart or "
        f"farther in {cases} (chi-square {found.chi:.1f} of {len(found.rows)})."
    )


def _odd(story: "Story") -> Iterator[Block]:
    """Yield the reading that disagrees, where one does."""
    found = story.fit
    if found.odd is None:
        if found.agreement != "well":
            yield line("No one reading stands out; some ± may be too small.")
        return
    label = next(row_words(story.her, row) for row in found.rows if row.group == found.odd)
    text = f"What does not fit: {label}. Read it again"
    if found.wider:
        yield line(
            f"{text}. If it reads the same again, it is right, and something in the list is about "
            f"{found.wider:.0f} times as far off as its ± says: see below where it most likely "
            "is, and weigh that again."
        )
        return
    yield line(f"{text}, or remove it from the file: no list, however wrong, explains it.")


def _rows(her: "Assessment", found: "Fit") -> Iterator[Cells]:
    for one, by_list, by_tub in zip(found.rows, found.by_list, found.by_tub, strict=True):
        mark = " !" if one.group == found.odd else ""
        figures = (size(her, one.kind, float(value)) for value in (one.read, by_list, by_tub))
        read, listed, tub = figures
        yield [
            f"{row_words(her, one)}{mark}",
            read,
            size(her, one.kind, one.half),
            listed,
            tub,
        ]


def _scatter(her: "Assessment", found: "Fit") -> Iterator[Block]:
    """Yield how far repeated readings lie apart."""
    for k, group in enumerate(found.groups):
        if group.count > 1:
            row = next(row for row in found.rows if row.group == k)
            apart = size(her, row.kind, group.scatter)
            yield line(
                f"{row_words(her, row)}: the mean of {group.count}, which scatter by {apart} "
                "(standard deviation)."
            )


def _net(story: "Story", net: "Net", ways: tuple[str, str]) -> str:
    """Return in words what the list has too little of, and where."""
    boat = story.her.boat
    is_weight = ways[0] == "too heavy"
    about = f"± {words.mass(boat, net.half) if is_weight else _volume(story, net.half)}"
    what = "weight as she floats" if is_weight else "volume above the waterline, less tank water"
    is_size = abs(net.size) > SHOWN_FROM * net.half
    far = story.fit.her.floater.length / 4
    is_turn = abs(net.moment) > SHOWN_FROM * net.turn
    text = f"{_much(story, net, ways)} {about}"
    if not is_size and not is_turn:
        return f"The readings show nothing wrong in {what} ({text})."
    place = net.moment / net.size if net.size else 2 * far
    if is_size and abs(place) < 2 * far:
        way = words.way(place)[0]
        where = f"{boat.units.write(abs(place), 'length')} {way} of amidships"
        if is_weight:
            return (
                f"She is about {words.mass(boat, abs(net.size))} "
                f"{ways[0] if net.size > 0 else ways[1]} as she floats ({about}), {where}."
            )
        more = ways[0] if net.size > 0 else ways[1]
        return (
            f"Volume above the waterline less tank water: about {_volume(story, net.size)} {more} "
            f"than the list has (± {_volume(story, net.half)}), {where}."
        )
    turn = words.mass(boat, abs(net.moment) / far)
    toward = TOWARD[0] if net.moment > 0 else TOWARD[1]
    moved = boat.units.write(far, "length")
    size_text = f"; in all {text}" if is_size else ""
    return f"In {what} it is as if {turn} were {moved} {toward}{size_text}."


def _much(story: "Story", net: "Net", ways: tuple[str, str]) -> str:
    """Return so much too heavy or light, or more or less volume, in words."""
    is_weight = ways[0] == "too heavy"
    text = words.mass(story.her.boat, abs(net.size)) if is_weight else _volume(story, net.size)
    return f"{text} {ways[0] if net.size > 0 else ways[1]}"


def _volume(story: "Story", mass: float) -> str:
    """Return the water that a mass pushes aside, in words.

    Args:
        story: For units and water.
        mass: The mass [kg].
    """
    return story.her.boat.units.write(abs(mass) / story.fit.her.floater.density, "volume")


def _likely(story: "Story") -> Iterator[Block]:
    """Yield what most likely carries what was wrong."""
    found = story.carriers[:MOST]
    if not found:
        return
    yield heading("Where it most likely is")
    yield table(["", "most likely", "±"], (_carrier(story.her, one) for one in found), (2,))
    yield line("Each has only its share of it; weigh or measure the first ones again.")


def _carrier(her: "Assessment", one: "Carrier") -> Cells:
    kind = {"mass": "mass", "volume": "volume", "litres": "volume"}.get(one.source.what, "length")
    change = size(her, kind, abs(one.change))
    if one.source.what in MOVES:
        text = f"is {change} {MOVES[one.source.what][0 if one.change > 0 else 1]}"
    elif one.source.what == "litres":
        text = f"holds {change} {'more' if one.change > 0 else 'less'}"
    else:
        verb = "weighs" if one.source.what == "mass" else "displaces"
        text = f"{verb} {change} {'more' if one.change > 0 else 'less'}"
    return [one.thing.name, text, f"± {size(her, kind, one.half)}"]


def _figure(her: "Assessment", one: "Found") -> Cells:
    before = one.before
    label = label_of(her, before)
    after = her.uncertainty.figure(before.key, before.place)
    return [
        label,
        written(her, before),
        _off(her, before.kind, before.half),
        written(her, after),
        _off(her, before.kind, one.half),
    ]


def _off(her: "Assessment", kind: str, half: float) -> str:
    """Return how far a figure may be off.

    Args:
        her: The boat.
        kind: Of the quantity.
        half: How far [SI].
    """
    return "any" if kind == "angle" and half > ANY else size(her, kind, half)


def _meaning(story: "Story") -> Iterator[Block]:
    """Yield what it means how she lies."""
    found = meanings(story.corrected)
    yield heading("What that means")
    if not found:
        yield line("She floats as she should.")
    for one in found:
        says = diagnosis(one)
        not_cure = f" Not: {says.not_cure}." if says.not_cure else ""
        yield line(
            f"{LIES[one.surfaced]} on the surface, {LIES[one.dived].lower()} dived: {says.cause}. "
            f"Fix: {says.cure}.{not_cure}"
        )


def row_words(her: "Assessment", row: "Row") -> str:
    """Return what a figure is that was read."""
    return said(Say(her.boat), row.what)


def note_of(piece: "FromTub") -> str:
    """Return the note that a piece has in the boat file."""
    return f"{NOTES[piece.note]}; made by tub --apply, and made again by it"


def _is_written(story: "Story") -> bool:
    """Return whether a correction of these readings stands in the file."""
    return any(not piece.past for piece in story.her.boat.from_tub)


def _applied(story: "Story") -> Iterator[Block]:
    """Yield whether the file holds the correction."""
    yield heading("The boat file")
    if not _is_written(story):
        yield line(
            "The list is not corrected yet.",
            "trimdive tub BOAT --apply writes what was wrong into the file as [[from_tub]], so "
            "that float, litres, place and all others count with it.",
        )
    elif story.still_fits:
        yield line("The correction that stands in the file fits list and readings.")
    else:
        yield line(
            "The correction that stands in the file no longer fits: list or readings have changed.",
            "Make it again: trimdive tub BOAT --apply.",
        )


def readings_json(story: "Story") -> Document:
    """Return what ``tub --json`` prints of a boat with readings."""
    found = story.fit
    rows = zip(found.rows, found.by_list.tolist(), found.by_tub.tolist(), strict=True)
    return {
        **common(story.her),
        "uncertainty": uncertainty_document(story.today),
        "readings": [
            {"label": row_words(story.her, one), "kind": one.kind, "read": one.read,
             "half": one.half, "by_list": by_list, "by_tub": by_tub,
             "count": found.groups[one.group].count, "scatter": found.groups[one.group].scatter,
             "chance": float(found.apart[one.group]), "odd": one.group == found.odd}
            for one, by_list, by_tub in rows
        ],
        "chi_square": found.chi,
        "chance": found.chance,
        "agreement": found.agreement,
        "heavy": _net_document(story, story.heavy),
        "above": _net_document(story, story.above) if story.her.boat.tanks else None,
        "carriers": [
            {"name": one.thing.name, "path": one.thing.path, "what": one.source.what,
             "change": one.change, "half": one.half, "share": one.share}
            for one in story.carriers
        ],
        "figures": _figures_document(story),
        "meanings": [
            {"surfaced": one.surfaced, "dived": one.dived, "cause": says.cause, "cure": says.cure,
             "not_cure": says.not_cure or None}
            for one in meanings(story.corrected)
            for says in (diagnosis(one),)
        ],
        "pieces": [
            {"mass_kg": one.mass, "volume_m3": one.volume, "tank": one.tank, "room_m3": one.room,
             "x_m": one.x, "y_m": one.y, "z_m": one.z,
             "note": NOTES[one.note]}
            for one in story.pieces
        ],
        "in_file": _is_written(story),
        "in_file_fits": story.still_fits if _is_written(story) else None,
    }  # fmt: skip


def _net_document(story: "Story", net: "Net") -> Document:
    return {
        "pull_kg": net.size,
        "half_kg": net.half,
        "moment_kg_m": net.moment,
        "half_kg_m": net.turn,
        "about_x_m": story.today.midships,
    }


def _figures_document(story: "Story") -> list[Document]:
    return [
        {
            "key": one.before.key,
            "place": one.before.place or None,
            "kind": one.before.kind,
            "by_list": one.before.value,
            "half_by_list": one.before.half,
            "by_tub": one.value,
            "half_by_tub": one.half,
        }
        for one in story.figures
    ]
