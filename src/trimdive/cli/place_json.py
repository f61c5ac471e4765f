"""``place`` as one JSON document: SI, keys with their units, as docs/json.md has them."""

from pathlib import Path
from typing import TYPE_CHECKING

from trimdive.cli.as_json import state_document
from trimdive.text.documents import changes, common, finding_document
from trimdive.text.found import what
from trimdive.text.layout import Document
from trimdive.text.place_text import cure_words, mend_words

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.edits.pieces import Placed
    from trimdive.edits.placing import Placement
    from trimdive.edits.work import Work


def _piece_document(one: "Placed") -> Document:
    return {
        "action": one.action,
        "kind": one.kind,
        "name": one.name,
        "path": one.path or None,
        "mass_kg": one.mass,
        "mass_before_kg": one.before,
        "volume_m3": one.volume,
        "length_m": one.size[0],
        "breadth_m": one.size[1],
        "height_m": one.size[2],
        "x_m": float(one.place[0]),
        "y_m": float(one.place[1]),
        "z_m": float(one.place[2]),
        "pair": one.pair,
        "moved_m": [float(far) for far in one.place - one.was],
    }


def _placement(found: "Placement | None") -> Document | None:
    if found is None:
        return None
    return {
        "pieces": [_piece_document(one) for one in found.things],
        "aims": [
            {"aim": a.aim, "value": a.value, "bound": a.bound, "proven": a.proven}
            for a in found.aims
        ],
        "rounds": found.rounds,
        "surfaced": state_document(found.after, found.after.surfaced),
        "dived": state_document(found.after, found.after.lowest),
        "left": [what(found.after.boat, one) for one in found.left],
        "remains": [finding_document(found.after.boat, one) for one in found.left],
    }


def place_json(done: "Work", saved: "Assessment | None", drawn: Path | None = None) -> Document:
    """Return what ``place --json`` prints."""
    from trimdive.edits.placing import Hindered

    alone = done.hindered or done.alone
    lacks = alone.shortfalls if isinstance(alone, Hindered) else ()
    return {
        **common(saved or done.her),
        "nothing_to_place": done.done,
        "shortfalls": [{"key": s.key, "kind": s.kind, "value_si": s.value} for s in lacks],
        "mends": [
            {
                "key": m.finding.key,
                "subject": m.finding.subject,
                "words": mend_words(m, done.her),
                "edits": changes(m.edits),
            }
            for m in done.mends
        ],
        "placement": _placement(done.found),
        "cures": [
            {"words": cure_words(done.her, c), "placement": _placement(c.found)} for c in done.cures
        ],
        "card": str(drawn) if drawn else None,
        "written": saved is not None,
    }
