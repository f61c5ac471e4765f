"""Figures as they stand in the page that is served, of the demo boats."""

import re
from html import unescape

from tests.answers.patterns import Found, in_line
from tests.cli.boats import BOATS
from tests.page.conftest import page_of

HIDDEN = re.compile(r"<(script|style|svg)\b.*?</\1>", re.DOTALL)


def _pieces(html: str) -> list[str]:
    """Return the texts of a page, in order, without what no reader sees."""
    seen = unescape(re.sub(r"<[^>]+>", "\0", HIDDEN.sub(" ", html)))
    return [text for piece in seen.split("\0") if (text := " ".join(piece.split()))]


def served(name: str) -> Found:
    """Yield the figures of a demo boat's page: the large ones, the pond's and the bench's."""
    page = page_of(BOATS / name / "boat.toml").enter()
    first = _pieces(page.client.get("/").text)
    after = {
        head: first[first.index(head) + 2 :] for head in ("trim", "light or heavy", "BG")
    }  # beside each stands "why?"
    size, end, *_ = after["trim"]
    yield "trim, low", "page served", "level" if end == "level" else f"{size} {end}"
    mass, word, *_ = after["light or heavy"]
    yield "weight, low", "page served", mass if mass == "neutral" else f"{mass} {word}"
    yield "BG, low", "page served", after["BG"][0]
    for place in ("bench", "pond", "right"):
        for text in _pieces(page.client.get(f"/{place}").text):
            yield from in_line(f"page served, {place}", text)
