"""What finds a figure in what is told, by figure; and how often each was found at all.

A pattern that finds nothing in any boat compares nothing: the walk counts them, and fails.
"""

import re
from collections import Counter
from collections.abc import Iterator

Found = Iterator[tuple[str, str, str]]  # figure with its state, place, text
NUMBER = r"[^,;.]+(?:\.\d+[^,;.]*)*"  # a quantity with its unit and way, up to a stop or comma
MATCHED: Counter[str] = Counter()  # how often each pattern, row, key or check was met

FULL = re.compile(r"(\S+ \S+ (?:light|heavy)|neutral) with tanks? full")
LINES = {  # figure: what finds it in a paragraph
    "weight, full": FULL,
    "neutral": re.compile(r"tanks? (\d+ %) full[;:]"),
    "need": re.compile(r"She needs (.+?) of ballast water"),
    "need at": re.compile(r"with its centre (.+?) from the"),
    "lack": re.compile(r"They lack (.+?)\."),
    "offset": re.compile(r"from the \w+, (.+? too far \w+)\b"),
    "offset alone": re.compile(r"by itself that gives (.+?) dived"),
    "least GM": re.compile(r"least GM (.+?) at"),
    "least GM at": re.compile(r"least GM .+? at (\d+ %)"),
    "largest trim": re.compile(r"largest trim (.+?) at"),
    "largest trim at": re.compile(r"largest trim .+? at (\d+ %)"),
    "largest heel": re.compile(r"largest heel (.+?) at"),
    "largest heel at": re.compile(r"largest heel .+? at (\d+ %)"),
    "lolls": re.compile(r"(?:Going down, f|^f)rom (\d+ % to \d+ %) full she will not stand"),
    "lolls by": re.compile(r"(?:Going down, f|^f)rom .*: she lolls by up to (.+?), to either"),
    "hovers": re.compile(r"sinks by herself deeper than (.+?)\.$"),
    "returns": re.compile(r"Deeper than (.+?) (?:blown tanks do not|she does not)"),
    "may go": re.compile(r"She may go to (.+?) by calculation"),
    "may go because": re.compile(r"by calculation.*; the limit: (.+?)\.(?: Test|$)"),
}
ROWS = {  # label of a row: figure; the text is in its second cell
    "trim, tanks blown": "trim, blown",
    "heel, tanks blown": "heel, blown",
    "GM, tanks blown": "GM, blown",
    "BG, dived and upright": "BG, upright",
    "BG, held under": "BG, upright",
    "light or heavy, tanks full": "weight, full",
    "litres needed": "need",
    "  their centre": "need at",
    "mass, tanks empty": "mass",
    "  its centre": "mass at",
    "on the surface: trim": "trim, blown",
    "on the surface: heel": "heel, blown",
    "dived: trim": "trim, low",
    "dived: heel": "heel, low",
    "dived: BG": "BG, low",
    "least GM on the way down": "least GM",
    "dry mass": "mass",
}
COLUMNS = {  # rows of how she floats: figure; blown in the second cell, low in the third
    "trim": "trim",
    "heel": "heel",
    "BG": "BG",
    "GM": "GM",
    "GM lengthways": "GM_L",
    "light or heavy": "weight",
    "still out of the water": "out",
}
WHYS = {
    "trim": "size of trim, low",
    "bg": "BG, low",
    "bg-upright": "BG, upright",
    "light-or-heavy": "weight, low",
    "neutral-filling": "neutral",
    "litres-needed": "need",
    "gm-empty": "GM, blown",
    "gm-least": "least GM",
    "dry-mass": "mass",
}
FINDINGS = {  # check: what finds figures in what it says
    "neutral-band": (("weight, full", FULL), ("trim, low", re.compile(r"trim ([^,]+)"))),
    "tank-margin": (
        ("room", re.compile(r"hold (.+?);")),
        ("need", re.compile(r"needs? (.+?)(?: of water)?(?:: .+)?$")),
    ),
    "trim-dived": (
        ("trim, low", re.compile(r"at neutral: trim (.+?)(?:, though level on the surface)?$")),
    ),
    "gm-least": tuple((key, LINES[key]) for key in ("least GM", "lolls", "lolls by")),
    "tank-offset": (
        ("size of offset", re.compile(r"\((.+?) now\)")),
        ("offset", re.compile(r"tank water (.+? too far \w+)$")),
    ),
    "lift-one": (("lifted", re.compile(r"weighs (.+?);")),),
}  # fmt: skip


def wanted() -> set[str]:
    """Return the names of all that is looked for."""
    names = {f"line {figure}" for figure in LINES} | {f"row {label}" for label in ROWS}
    names |= {f"column {label}" for label in COLUMNS} | {f"why {key}" for key in WHYS}
    return names | {f"finding {key}: {n}" for key, some in FINDINGS.items() for n, _ in some}


def in_line(place: str, text: str) -> Found:
    """Yield the figures in a paragraph."""
    for figure, pattern in LINES.items():
        if match := pattern.search(text):
            MATCHED[f"line {figure}"] += 1
            yield figure, place, match[1]


def in_row(place: str, row: tuple[str, ...]) -> Found:
    """Yield the figure of a row that is known by its label."""
    if figure := ROWS.get(row[0]):
        MATCHED[f"row {row[0]}"] += 1
        yield figure, place, row[1]


def in_columns(place: str, row: tuple[str, ...]) -> Found:
    """Yield the figures of a row with her tanks blown and lying low."""
    if len(row) > 2 and (figure := COLUMNS.get(row[0])):
        MATCHED[f"column {row[0]}"] += 1
        yield f"{figure}, blown", place, row[1]
        yield f"{figure}, low", place, row[2]


def in_finding(key: str, what: str) -> Found:
    """Yield the figures in what a check says."""
    for figure, pattern in FINDINGS.get(key, ()):
        if match := pattern.search(what):
            MATCHED[f"finding {key}: {figure}"] += 1
            yield figure, f"finding {key}", match[1]


def in_why(key: str, answer: str) -> Found:
    """Yield the figure that is asked why."""
    MATCHED[f"why {key}"] += 1
    yield WHYS[key], f"why {key}", answer
