"""What a person typed, taken apart: sign, numbers, unit names.

Decimal points and commas, fractions ("9 3/4", "14½"), spaces between thousands, inch and foot
marks and the dashes and spaces of a word processor are all understood. "1,200" is not: it may be
one thousand two hundred or one and a fifth.
"""

import re
from dataclasses import dataclass
from fractions import Fraction

VULGAR = dict(zip("½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞", (
    "1/2", "1/3", "2/3", "1/4", "3/4", "1/5", "2/5", "3/5", "4/5", "1/6", "5/6", "1/8", "3/8",
    "5/8", "7/8",
), strict=True))  # fmt: skip
TIDIED = str.maketrans(
    {
        **{sign: f" {text} " for sign, text in VULGAR.items()},
        **dict.fromkeys("\u00a0\u2000\u2002\u2003\u2007\u2008\u2009\u200a\u202f\t", " "),
        **dict.fromkeys("\u2212\u2010\u2011\u2012\u2013\ufe63\uff0d", "-"),
        **dict.fromkeys("″”“„〃", '"'),
        **dict.fromkeys("′’‘`\u00b4", "'"),
        "\u2044": "/",
        "\u03bc": "µ",
        "º": "°",
        "\u2126": "Ω",
        "\u212a": "K",
        "\u2236": ":",
        "⋅": "·",
    }
)
NUMBER = r"(?:\d[\d.,]*|[.,]\d+)(?:[eE][+-]?\d{1,3})?"
AMOUNT = re.compile(
    rf"\s*(?:(?P<grouped>\d{{1,3}}(?: \d{{3}})+(?:[.,]\d+)?)(?![\d/])"
    rf"|(?:(?P<whole>\d+)[ -]+)?(?P<top>\d+) ?/ ?(?P<bottom>\d+)"
    rf"|(?P<plain>{NUMBER}))\s*"
)
UNIT = re.compile(r"(?:[^\d\s.,+-](?:[^\d]|(?<=[a-zA-Zµ/^])[23])*)?")
ABOUT = r"~|≈|ca\.?|c\.|approx(?:imately|\.)?|about|circa|env\.?|rund|etwa"
INEXACT = re.compile(rf"(?:{ABOUT})\s*(?=[\d.,])", re.IGNORECASE)
PLUS_MINUS = re.compile(r"\s*(?:±|\+/-|\+-)\s*")
AMBIGUOUS = re.compile(r"[1-9]\d{0,2},\d{3}")
POINTED = re.compile(r"[1-9]\d{0,2}(,\d{3})+(\.\d+)?|\d+\.\d*|\.\d+|\d+")
COMMAED = re.compile(r"[1-9]\d{0,2}(\.\d{3}){2,}|[1-9]\d{0,2}(\.\d{3})+,\d+|\d+,\d*|,\d+")


@dataclass(frozen=True, slots=True)
class Amount:
    """A number and the name of its unit as typed; the name may be empty."""

    number: Fraction
    unit: str


@dataclass(frozen=True, slots=True)
class Typed:
    """A quantity taken apart: the amounts add up, then comes the sign."""

    sign: int
    amounts: tuple[Amount, ...]


def tidied(text: str) -> str:
    """Return the text with plain spaces, dashes, quotes and fractions; two primes are one sign.

    >>> tidied("−11½”"), tidied("8.5''")
    ('-11 1/2 "', '8.5"')
    """
    return " ".join(text.translate(TIDIED).replace("''", '"').split())


def without_about(plain: str) -> str:
    """Return a tidied text without a word such as "about" or "ca." before its number.

    >>> without_about("ca. 55 g"), without_about("~1.1 kg"), without_about("about")
    ('55 g', '1.1 kg', 'about')
    """
    return INEXACT.sub("", plain, count=1) if INEXACT.match(plain) else plain


def number(text: str) -> Fraction:
    """Return a number written with a decimal point or a decimal comma.

    Raises:
        ValueError: It is no number, or the comma may part thousands.

    >>> float(number("2,4")), float(number("1,234.5")), float(number("1.234,5"))
    (2.4, 1234.5, 1234.5)
    """
    mantissa, *power = re.split("[eE]", text)
    if AMBIGUOUS.fullmatch(mantissa):
        raise ValueError(text)
    if POINTED.fullmatch(mantissa):
        plain = mantissa.replace(",", "")
    elif COMMAED.fullmatch(mantissa):
        plain = mantissa.replace(".", "").replace(",", ".")
    else:
        raise ValueError(text)
    return Fraction("e".join([plain, *power]))


def taken_apart(text: str) -> Typed | None:
    """Return the sign and the amounts of a tidied text, or None where it is no quantity.

    Raises:
        ValueError: A number may be read in two ways, or not at all.
    """
    signed = re.match(r"([+-]?) ?", text)
    start = signed.end() if signed else 0
    amounts: list[Amount] = []
    while start < len(text):
        found = AMOUNT.match(text, start)
        if not found:
            return None
        unit = UNIT.match(text, found.end())
        start = unit.end() if unit else found.end()
        amounts.append(Amount(_size(found), unit[0].strip() if unit else ""))
    if not amounts:
        return None
    return Typed(-1 if text.startswith("-") else 1, tuple(amounts))


def _size(found: re.Match[str]) -> Fraction:
    """Return the number that was matched: plain, in groups of thousands, or with a fraction."""
    if found["plain"]:
        return number(found["plain"])
    if found["grouped"]:
        return number(found["grouped"].replace(" ", ""))
    if int(found["bottom"]) == 0:
        raise ValueError(found[0])
    return int(found["whole"] or 0) + Fraction(int(found["top"]), int(found["bottom"]))
