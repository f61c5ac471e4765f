"""``weights-in``: a weight list as it was understood, as text and as JSON."""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from trimdive.cli.layout import Block, heading, labelled, line, table
from trimdive.fact import Fact, fact
from trimdive.text.list_words import (
    aboard_words,
    ask_typed,
    closed,
    column_words,
    rows_named,
    rows_text,
    shown,
    sum_sentence,
    why_of,
)
from trimdive.text.said import said
from trimdive.text.say import Say
from trimdive.text.sentence import capital
from trimdive.units import write
from trimdive.weightlists.alike import is_lead
from trimdive.weightlists.asks import tells_volume
from trimdive.weightlists.sheet import letter

if TYPE_CHECKING:
    from trimdive.cli.lists_work import ListRead
    from trimdive.weightlists import Item, ListPreview, RowRead

MANY = 4  # rows of which the same is said go on one line
ROW_WIDTH = 30  # letters of a row that are shown
EACH_WHY = ("total", "subtotal", "none", "not understood", "note")
TITLES = {"total": "a total", "subtotal": "a subtotal", "none": "left out", "note": "a note"}


def list_text(read: "ListRead", *, applied: bool) -> Iterator[Block]:
    """Yield what ``weights-in`` prints."""
    preview, say = read.preview, Say(read.loaded.boat)
    yield line(f"{preview.name}: {'; '.join(said(say, one) for one in preview.how)}.")
    yield heading("Columns")
    yield table(["head", "", "understood as"], _columns(say, preview))
    yield heading("Rows")
    ends = {item.words.get("from", "") for item in preview.items if _has_place(item)}
    x = f"from {ends.pop()}" if len(ends) == 1 and "" not in ends else "x"
    has_across = any(item.figures.get("y") for item in preview.items)
    across = ["across"] if has_across else []
    heads = ["name", "row", "mass", x, *across, "height", "known", ""]
    rows = _items(say, preview, has_end=x == "x", has_across=has_across)
    yield table(heads, rows, right=range(1, len(heads) - 2))
    yield from _other_rows(say, preview)
    yield heading("Sums")
    yield from _sums(say, preview)
    if not applied:
        yield from _outlook(say, read)


def _columns(say: Say, preview: "ListPreview") -> Iterator[Sequence[str]]:
    for column in preview.columns:
        if column.why.kind == "column-empty":
            continue
        head = column.head or "(no heading)"
        yield [head, letter(column.index), column_words(say, column)]


def _has_place(item: "Item") -> bool:
    """Return whether an item tells its place along the boat."""
    return bool(item.figures.keys() & {"x", "x_aft", "x_fore"})


def _items(
    say: Say, preview: "ListPreview", *, has_end: bool, has_across: bool
) -> Iterator[Sequence[str]]:
    for item in preview.items:
        yield [
            item.name,
            str(item.row),
            shown(item.mass, preview.mass_unit),
            _along(item, preview, has_end=has_end),
            *([_across(item, preview)] if has_across else []),
            _place(item, ("z", "z_bottom", "z_top"), preview) or preview.answers.z or "?",
            item.words.get("known", "") or preview.answers.known or "guess",
            said(say, fact("row-part", pieces=item.quantity, doubts=item.doubts)),
        ]


def _along(item: "Item", preview: "ListPreview", *, has_end: bool) -> str:
    """Return the place along the boat, with the end where rows differ in it."""
    text = _place(item, ("x", "x_aft", "x_fore"), preview)
    end = item.words.get("from", "")
    return f"{text} ({end})" if text and end and has_end else text or preview.answers.x or "?"


def _across(item: "Item", preview: "ListPreview") -> str:
    """Return how far to which side a part lies, in the list's own unit."""
    y = item.figures.get("y", 0.0)
    side = "port" if y > 0 else "stbd"
    return f"{write(abs(y), 'length', preview.length_unit)} {side}" if y else "–"


def _place(item: "Item", names: Sequence[str], preview: "ListPreview") -> str:
    """Return a place or a height in the list's own unit, or nothing."""
    figures = [item.figures[name] for name in names if name in item.figures]
    return write(figures[0], "length", preview.length_unit) if figures else ""


def _other_rows(say: Say, preview: "ListPreview") -> Iterator[Block]:
    """Yield every row that is no part, and why."""
    quiet = [r for r in preview.rows if r.use in ("blank", "heads")]
    rest = [r for r in preview.rows if r.use not in ("part", "blank", "heads", "not understood")]
    if rest:
        yield heading("Rows that are not parts")
        yield labelled(_alike(say, rest))
    if preview.not_understood:
        yield heading("Rows not understood: not added")
        yield labelled(_alike(say, preview.not_understood))
    if quiet:
        kinds = {"heads: row": "heads", "blank:": "blank"}
        texts = [
            _quiet(say, text, [r for r in quiet if r.use == use]) for text, use in kinds.items()
        ]
        yield line("\n" + "; ".join(filter(None, texts)) + ".")


def _quiet(say: Say, text: str, rows: "Sequence[RowRead]") -> str:
    """Return rows that need no word each, and what is to be said of some of them."""
    by_why: dict[str, list[int]] = {}
    for row in rows:
        by_why.setdefault(why_of(say, row) if row.use == "blank" else "", []).append(row.number)
    return "; ".join(
        f"{why or text.removesuffix(':')}: {rows_text(numbers)}"
        if text[-1] == ":"
        else f"{text} {rows_text(numbers)}"
        for why, numbers in by_why.items()
    )


def _alike(say: Say, rows: "Sequence[RowRead]") -> Iterator[tuple[str, str]]:
    """Yield each row with what it was taken for; many of one kind on one line."""
    by_why: dict[tuple[str, Fact | None], list[RowRead]] = {}
    for row in rows:
        by_why.setdefault((row.use, row.why), []).append(row)
    done: set[tuple[str, Fact | None]] = set()
    for row in rows:
        same = by_why[row.use, row.why]
        if len(same) < MANY:
            yield f"{row.number}:", _row(say, row)
        elif (row.use, row.why) not in done:
            done.add((row.use, row.why))
            numbers = rows_text(one.number for one in same)
            yield f"{numbers}:", f"{len(same)} rows, the first {_row(say, row)}"


def _row(say: Say, row: "RowRead") -> str:
    """Return one row and what it was taken for."""
    text = row.text if len(row.text) <= ROW_WIDTH else f"{row.text[:ROW_WIDTH]}…"
    title = TITLES.get(row.use, row.use if row.use != "not understood" else "")
    return f"{text}: {', '.join(filter(None, [title, why_of(say, row)]))}"


def _sums(say: Say, preview: "ListPreview") -> Iterator[Block]:
    """Yield what went in beside what the list states."""
    whole = shown(preview.mass, preview.mass_unit)
    yield line(f"{_parts(len(preview.items))} in, {whole} together.")
    for one in preview.sums:
        yield line(sum_sentence(say, one, preview.mass_unit))
    if not preview.sums:
        yield line("The list gives no total of its own.")


def _parts(count: int) -> str:
    return "1 part goes" if count == 1 else f"{count} parts go"


def _counts(count: int) -> str:
    return "mass counts as a guess" if count == 1 else "masses count as guesses"


def _outlook(say: Say, read: "ListRead") -> Iterator[Block]:
    """Yield what --apply would do, or what is still to be said."""
    plan, unit = read.plan, read.preview.mass_unit
    if plan.preview.asks:
        yield heading("Still needed")
        for ask in plan.preview.asks:
            yield labelled([("-", f"{closed(said(say, ask.what))} {ask_typed(say, ask)}")])
    yield heading(f"With --apply, in {read.loaded.path}")
    yield line(f"{aboard_words(plan)}.")
    for change in plan.changes:
        before = "worked out"
        if change.piece.mass is not None:
            before = write(change.piece.mass, "mass", unit)
        after = write(change.item.mass, "mass", unit)
        yield line(f"{change.piece.name} ({change.piece.path}): mass {before} -> {after}")
    yield from _moves(read)
    wet = [item.row for item in plan.new if is_lead(item) and not tells_volume(item)]
    if wet:
        yield line(
            f"{capital(rows_named(wet))}: lead in the wet. Where it lies "
            "in a cylinder, write that into a column 'inside'."
        )
    remarks = any(item.words.get("group") or item.words.get("note") for item in plan.new)
    if remarks:
        yield line("Groups and notes become comments in the boat file.")
    guesses = [i for i in plan.new if not (i.words.get("known") or read.preview.answers.known)]
    if guesses:
        yield line(f"{len(guesses)} {_counts(len(guesses))}; if weighed, add --known weighed.")


def _moves(read: "ListRead") -> Iterator[Block]:
    """Yield where pieces aboard go, or that they stay."""
    plan = read.plan
    if not read.with_places:
        if plan.changes or plan.same:
            yield line(
                "What is aboard already keeps its place; only its mass is taken from the list. "
                "With --places its place is taken too."
            )
        return
    moves, boat = read.placed.moves, read.loaded.boat
    if not moves:
        yield line("No part aboard moves: all positions in the list agree.")
        return
    yield line(f"{len(moves)} {'piece moves' if len(moves) == 1 else 'pieces move'}:")
    says = boat.units.write
    rows: list[Sequence[str]] = []
    for move in moves:
        was = (boat.along(move.before[0]), *move.before[1:])
        to = (boat.along(move.after[0]), *move.after[1:])
        cells = [
            says(b, "length")
            if says(a, "length") == says(b, "length")
            else f"{says(a, 'length')} -> {says(b, 'length')}"
            for a, b in zip(was, to, strict=True)
        ]
        rows.append([move.piece.name or move.piece.path, *cells])
    heads = ["", f"from {boat.entered_from}", "to port", "height"]
    yield table(heads, rows, right=(1, 2, 3))
