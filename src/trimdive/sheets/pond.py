"""The card for the pond on one sheet: all words come as data, this file only has them set."""

from collections.abc import Mapping

from trimdive.sheets.setting import compiled


def pond_sheet(data: Mapping[str, object]) -> bytes:
    """Return the card as a tagged PDF.

    Args:
        data: Its words, as ``pond.paper`` gives them.
    """
    return compiled("pond.typ", data)
