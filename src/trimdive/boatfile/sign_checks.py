"""Signs that no name may hold: those that steer a terminal or a printer and cannot be seen."""

import unicodedata
from collections.abc import Iterator

from trimdive.boatfile.boat import Boat
from trimdive.boatfile.checks import pieces
from trimdive.boatfile.messages import Mistake

TURNING = "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"  # turn a text round
PLAIN = "\n\t"  # that a note may hold


def sign_mistakes(boat: Boat) -> list[Mistake]:
    """Return names and notes that hold what cannot be seen."""
    return list(_mistakes(boat))


def _mistakes(boat: Boat) -> Iterator[Mistake]:
    texts = [(("name",), boat.name), (("note",), boat.note or "")]
    texts += [
        ((*path, field), text)
        for path, piece in pieces(boat)
        for field in ("name", "note")
        if isinstance(text := getattr(piece, field, None), str)
    ]
    for path, text in texts:
        found = next((one for one in text if unseen(one)), None)
        if found is not None:
            what = f"it holds a sign that cannot be seen (U+{ord(found):04X})"
            yield Mistake(path, what, "Write it with letters, figures and spaces.")


def unseen(sign: str) -> bool:
    r"""Return whether a sign steers what shows it.

    >>> unseen("\x1b"), unseen("\u202e"), unseen("é"), unseen("\n")
    (True, True, False, False)
    """
    return sign in TURNING or (sign not in PLAIN and unicodedata.category(sign) == "Cc")
