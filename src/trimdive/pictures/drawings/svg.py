"""SVG as text: strict XML with nothing fetched, no scripts and no style sheets.

Ink stands in the attributes, so that several drawings can share one page and none inks another.
"""

from html import escape

from trimdive.geometry.lines.mesh import Floats


def number(value: float) -> str:
    """Return a number as short as two decimals allow.

    Raises:
        ValueError: It is no number; a drawing must not hold one.

    >>> number(12.50), number(-0.001), number(3.0)
    ('12.5', '0', '3')
    """
    if not abs(value) < 1e12:
        raise ValueError(f"{value} cannot be drawn")
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def clean(words: str) -> str:
    """Return text with what XML forbids taken out and the rest escaped."""
    kept = "".join(c for c in words if c in "\t\n" or (c >= " " and not "\ud800" <= c <= "\udfff"))
    return escape(kept.replace("\ufffe", "").replace("\uffff", ""), quote=True)


def tag(name: str, *inside: str, **attributes: str | float) -> str:
    """Return an element; attributes take ``_`` for ``-``, and end in ``_`` where Python needs it.

    >>> tag("g", "<a/>", class_="hull", stroke_width=0.5)
    '<g class="hull" stroke-width="0.5"><a/></g>'
    """
    written = "".join(
        f' {key.rstrip("_").replace("_", "-")}="'
        f'{clean(value) if isinstance(value, str) else number(value)}"'
        for key, value in attributes.items()
        if value != ""
    )
    return f"<{name}{written}>{''.join(inside)}</{name}>" if inside else f"<{name}{written}/>"


def way(points: Floats, *, closed: bool = True) -> str:
    """Return the path data of a line through points, shape (n, 2) [mm]."""
    steps = " ".join(f"{number(float(x))},{number(float(y))}" for x, y in points)
    return f"M{steps}{'Z' if closed else ''}" if len(points) else ""


def ways(loops: list[Floats]) -> str:
    """Return the path data of several closed lines."""
    return " ".join(way(loop) for loop in loops)
