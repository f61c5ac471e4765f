"""The placing card on one sheet: the drawing with its list, not to scale."""

from trimdive.sheets.setting import compiled

FOOTER = "Not to scale. Check each position with a tape before gluing, then try her in the tub."


def placing_sheet(drawn: str, name: str) -> bytes:
    """Return the placing card as a tagged PDF.

    Args:
        drawn: The card as SVG.
        name: Of the boat.
    """
    content = {
        "title": f"{name}: what goes where",
        "alt": f"{name} from the side and from above, each piece with its number, and the list.",
        "footer": FOOTER,
    }
    return compiled("placing.typ", content, drawn=drawn)
