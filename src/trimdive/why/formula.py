"""Formulas in symbols, as plain text and as pieces to be typeset.

A_B stands for A with the index B, {a|b} for a over b, √{a} for the root of a. Only fractions and
roots have braces.
"""

import re
from dataclasses import dataclass
from typing import Literal

SYMBOL = re.compile(
    r"(?P<with>[A-Za-zΔ∇ρθφ]+)_(?P<index>[A-Za-z0-9]+)|(?<![^\W\d])(?P<alone>[A-Za-zΔ∇ρθφ])(?![^\W\d])"
)
Kind = Literal["plain", "symbol", "over", "root"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bit:
    """A piece of a formula."""

    kind: Kind
    text: str  # plain text, or the letter of a symbol
    index: str  # of a symbol, or ""
    upper: "tuple[Bit, ...]"  # over the line, or under the root
    lower: "tuple[Bit, ...]"  # under the line


def bits(formula: str) -> tuple[Bit, ...]:
    """Return a formula as pieces.

    >>> [bit.kind for bit in bits("x_G = {Σ m_i|m}")]
    ['symbol', 'plain', 'over']
    """
    found: list[Bit] = []
    rest = formula
    while "{" in rest:
        before, _, after = rest.partition("{")
        inner, rest = _closed(after)
        is_root = before.endswith("√")
        found += _symbols(before.removesuffix("√"))
        if is_root:
            found.append(Bit(kind="root", text="", index="", upper=bits(inner), lower=()))
            continue
        upper, lower = _parted(inner)
        found.append(Bit(kind="over", text="", index="", upper=bits(upper), lower=bits(lower)))
    return (*found, *_symbols(rest))


def _closed(text: str) -> tuple[str, str]:
    """Return what stands before the brace that closes, and what after it."""
    depth = 1
    for k, letter in enumerate(text):
        depth += (letter == "{") - (letter == "}")
        if depth == 0:
            return text[:k], text[k + 1 :]
    raise AssertionError(f"a brace is open: {text}")


def _parted(text: str) -> tuple[str, str]:
    """Return what stands over the line and under it; the line is outside any brace."""
    depth = 0
    for k, letter in enumerate(text):
        depth += (letter == "{") - (letter == "}")
        if letter == "|" and depth == 0:
            return text[:k], text[k + 1 :]
    raise AssertionError(f"no line in {text}")


def _symbols(text: str) -> list[Bit]:
    found: list[Bit] = []
    at = 0
    for one in SYMBOL.finditer(text):
        found += _plain(text[at : one.start()])
        letter, index = one["with"] or one["alone"], one["index"] or ""
        found.append(Bit(kind="symbol", text=letter, index=index, upper=(), lower=()))
        at = one.end()
    return [*found, *_plain(text[at:])]


def _plain(text: str) -> list[Bit]:
    return [Bit(kind="plain", text=text, index="", upper=(), lower=())] if text else []


def as_text(formula: str) -> str:
    """Return a formula on one line.

    >>> as_text("KG = {m z_G + ρ w z_w|m + ρ w}"), as_text("v = √{{2 m_x g|ρ A}}")
    ('KG = (m z_G + ρ w z_w) / (m + ρ w)', 'v = √((2 m_x g) / (ρ A))')
    """
    return "".join(map(_text, bits(formula)))


def _text(bit: Bit) -> str:
    if bit.kind == "symbol":
        return f"{bit.text}_{bit.index}" if bit.index else bit.text
    upper, lower = ("".join(map(_text, side)) for side in (bit.upper, bit.lower))
    if bit.kind == "root":
        return f"√({upper})"
    if bit.kind == "over":
        return f"{_held(upper)} / {_held(lower)}"
    return bit.text


def _held(text: str) -> str:
    return f"({text})" if " " in text else text
