"""A weight list as understood, and what taking it over does, as a JSON document in SI."""

from collections.abc import Sequence

from trimdive.text.layout import Document
from trimdive.text.list_words import why_of
from trimdive.text.said import said
from trimdive.text.say import Say
from trimdive.weightlists import Ask, Item, ListPreview, Plan, SumRead
from trimdive.weightlists.places import Move
from trimdive.weightlists.words import FIGURES

ENDS = {"length": "m", "mass": "kg", "volume": "m3", "density": "kg_m3"}


def list_json(say: Say, plan: Plan, moves: Sequence[Move], *, applied: bool) -> Document:
    """Return what ``weights-in --json`` prints."""
    preview = plan.preview
    return {
        "list": preview.name,
        "how": [said(say, one) for one in preview.how],
        **_read(say, preview),
        "parts": [_part(say, item) for item in preview.items],
        "mass_kg": preview.mass,
        "sums": [_sum(say, one) for one in preview.sums],
        "asks": [_ask(say, ask) for ask in preview.asks],
        "new": [item.name for item in plan.new],
        "weighed_anew": [
            {
                "path": change.piece.path, "name": change.piece.name,
                "before_kg": change.piece.mass, "after_kg": change.item.mass,
            }
            for change in plan.changes
        ],
        "moved": [_moved(move) for move in moves],
        "applied": applied,
    }  # fmt: skip


def _read(say: Say, preview: ListPreview) -> Document:
    """Return the columns and the rows, each with what it was taken for."""
    return {
        "columns": [
            {
                "index": one.index, "head": one.head, "use": one.use, "unit": one.unit,
                "why": said(say, one.why),
            }
            for one in preview.columns
        ],
        "rows": [
            {"number": row.number, "use": row.use, "why": why_of(say, row), "text": row.text}
            for row in preview.rows
        ],
    }  # fmt: skip


def _part(say: Say, item: Item) -> Document:
    """Return a row that is a part; its figures by their names with their units."""
    figures = {f"{name}_{ENDS[FIGURES[name]]}": value for name, value in item.figures.items()}
    return {
        "row": item.row, "name": item.name, "mass_kg": item.mass, "quantity": item.quantity,
        **figures, "words": {key: text for key, text in item.words.items() if text},
        "doubts": [said(say, one) for one in item.doubts],
    }  # fmt: skip


def _sum(say: Say, one: SumRead) -> Document:
    """Return a sum that the list states, beside that of its rows."""
    return {
        "row": one.row, "rows": one.rows, "stated_kg": one.stated, "found_kg": one.found,
        "margins_kg": one.beside, "difference_kg": one.difference, "adds_up": one.agrees,
        "hint": said(say, one.hint) if one.hint else "",
    }  # fmt: skip


def _ask(say: Say, ask: Ask) -> Document:
    """Return what is asked, and the answers to give."""
    option = said(say, ask.option) if ask.option else ""
    what, mend = said(say, ask.what), said(say, ask.mend)
    return {"field": ask.field, "what": what, "mend": mend, "option": option}


def _moved(move: Move) -> Document:
    """Return where a piece aboard goes."""
    piece = move.piece
    return {
        "path": piece.path, "name": piece.name, "before_m": move.before, "after_m": move.after
    }  # fmt: skip
