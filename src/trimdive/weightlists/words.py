"""The words of weight lists in several languages: heads of columns, totals, ends, materials.

Sources: data/list_headers.csv, list_words.csv, list_places.csv and list_sums.csv, common practice.
"""

import difflib
import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache, lru_cache

from trimdive.data import table
from trimdive.units.table import candidates

KINDS = ("mass", "length", "volume", "density", "percent")
FIGURES = {  # what columns of figures hold, and the kind of quantity
    **dict.fromkeys(("mass", "mass_each", "mass_all", "soaked", "hung", "spread"), "mass"),
    **dict.fromkeys(("x", "x_bow", "x_stern", "arm", "x_aft", "x_fore"), "length"),
    **dict.fromkeys(("y", "y_starboard", "z", "z_bottom", "z_top"), "length"),
    "volume": "volume",
    "density": "density",
}
TABLES = ("list_words", "list_places", "list_sums")
MASSES = ("mass_all", "mass", "mass_each")
PLACES = ("x", "x_bow", "x_stern", "arm", "x_aft", "x_fore")
UNIT_IN = (
    re.compile(r"(?<=\s)(mm|cm|g|kg|oz|lbs?)(?=\s)"),
    re.compile(r"[\[(<{]\s*(?:in\s+)?([^\[\](){}<>]{1,12}?)\s*[\])>}]"),
    re.compile(
        r"(?:,|/|:|\bin\b|\ben\b|_|\s)\s*([^\s,/:_\[\]()]{1,6}(?:/[a-zµ]{1,3}[³3])?)\.?\s*$"
    ),
)
REMEMBERED = 4096  # cells whose meaning is kept: words repeat
PLUS_MINUS = re.compile(r"±|\+/-|\+-")
MASS_KINDS = ("mass_each", "mass_all", "soaked", "hung", "spread")
NUMBER_SIGNS = ("#", "№", "n°", "nº", "no.", "no")
SIMILAR = 0.8  # how like a misspelt head must be [-]
SHORTEST = 6  # letters of a word that may be misspelt


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """What the head of a column means."""

    column: str  # as in data/list_headers.csv; "" where it is not understood
    unit: str  # its unit, or ""
    word: str  # the word by which it was understood
    is_near: bool = False  # that word is only like the one that stands there


@lru_cache(maxsize=REMEMBERED)
def folded(text: str) -> str:
    """Return the text in small letters, without accents and signs.

    >>> folded("Qté. (Stück)")
    'qte stuck'
    """
    parts = unicodedata.normalize("NFKD", text.replace("∑", "σ").casefold())
    plain = "".join(sign for sign in parts if not unicodedata.combining(sign))
    return " ".join(re.sub(r"[\W_]+", " ", plain).split())


@cache
def heads() -> dict[str, str]:
    """Return what the words upon columns mean."""
    return {entry["word"]: entry["column"] for entry in table("list_headers")}


@cache
def words(kind: str) -> dict[str, str]:
    """Return the words of one kind that stand in cells or heads, and what they mean."""
    rows = (entry for name in TABLES for entry in table(name))
    return {entry["word"]: entry["value"] for entry in rows if entry["kind"] == kind}


@lru_cache(maxsize=REMEMBERED)
def meaning(text: str, kind: str) -> str:
    """Return what a cell means by the words of one kind, or nothing.

    >>> meaning("gewogen", "known"), meaning("Zwischensumme Rumpf", "total")
    ('weighed', 'subtotal')
    """
    known, plain = words(kind), folded(text)
    if plain in known:
        return known[plain]
    return known.get(longest(plain, known), "")


@lru_cache(maxsize=REMEMBERED)
def unit_name(text: str, kind: str) -> str:
    """Return the unit of a kind that a word means, or nothing; "Gramm" is understood as g."""
    plain = text.strip(" .")
    plain = words("unit").get(folded(plain), plain)
    found = candidates(plain, kind) if plain else ()
    return found[0].name if len(found) == 1 else ""


@lru_cache(maxsize=REMEMBERED)
def unit_kind(text: str) -> tuple[str, str]:
    """Return the kind and the name of a unit, or two empty texts."""
    for kind in KINDS:
        name = unit_name(text, kind)
        if name:
            return kind, name
    return "", ""


@lru_cache(maxsize=REMEMBERED)
def head_of(text: str) -> Head:
    """Return what a head means, and its unit.

    >>> head_of("Gewicht [g]").column, head_of("Gewicht [g]").unit, head_of("x (mm)").unit
    ('mass', 'g', 'mm')
    """
    kind, unit = unit_kind(text)
    if unit and folded(text) not in heads():
        return Head(column="mass" if kind == "mass" else "", unit=unit, word=text)
    bare, unit = without_unit(text)
    plain = folded("number" if bare.strip() in NUMBER_SIGNS else bare)
    if not plain and PLUS_MINUS.search(bare):
        return Head(column="spread", unit=unit, word="±")
    if plain in heads():
        column = heads()[plain]
        if column in MASSES and ("%" in text or unit_kind(unit)[0] == "density"):
            column = "aside" if "%" in text else "density"
        return Head(column=column, unit=unit, word=plain)
    from trimdive.weightlists.axes import place_of

    place = place_of(bare, unit)
    if place:
        return place
    word = longest(plain, [one for one in heads() if heads()[one] != "from"])
    column = heads()[word].partition("/")[0] if word else ""
    if word:
        is_share = "%" in text and column in MASSES
        column = "aside" if is_share else _finer(column, plain)
        is_density = column in MASSES and unit_kind(unit)[0] == "density"
        return Head(column="density" if is_density else column, unit=unit, word=word)
    tail = next((end for end in ("gewicht", "masse") if plain.endswith(end)), "")
    if tail:
        return Head(column="mass", unit=unit, word=tail)
    near = [w for w in heads() if len(w) >= SHORTEST]
    like = difflib.get_close_matches(plain, near, n=1, cutoff=SIMILAR)
    if like and len(plain) >= SHORTEST:
        return Head(column=heads()[like[0]], unit=unit, word=like[0], is_near=True)
    return Head(column="", unit=unit, word="")


def _finer(column: str, plain: str) -> str:
    """Return which mass it is, or from which end a place is measured, where the head says so."""
    held = plain.split()
    if column == "mass":
        found = [heads().get(word, "") for word in held]
        return next((use for use in found if use in MASS_KINDS), column)
    if column in ("x", "arm"):
        ends = {words("end")[word] for word in held if word in words("end")}
        ends = ends if not {"fore", "forward", "aft", "fwd"} & set(held) else set[str]()
        return f"x_{ends.pop()}" if len(ends) == 1 else column
    return column


def head_score(row: Iterable[str]) -> int:
    """Return how many different columns the cells of a row would head, mass among them."""
    found = {head_of(cell).column for cell in row if cell.strip() and len(cell) <= 60}
    found -= {""}
    return len(found) + (2 if found & set(MASSES) else 0)


def without_unit(text: str) -> tuple[str, str]:
    """Return a head without its unit, and the unit."""
    for form in UNIT_IN:
        for found in form.finditer(text):
            _, unit = unit_kind(found[1])
            if unit:
                return f"{text[: found.start()]} {text[found.end() :]}", unit
    return text, ""


def longest(plain: str, known: Iterable[str]) -> str:
    """Return the longest of the known words that stands in a folded text as whole words."""
    held = f" {plain} "
    inside = [word for word in known if word != "m" and f" {word} " in held]
    return max(inside, key=lambda word: (len(word.split()), len(word)), default="")
