"""Where a field stands in the text of a boat file, so that an error can name the line."""

import re

Path = tuple[str | int, ...]  # ("part", 0, "mass"): tables are counted from nought here

LIST_HEAD = re.compile(r"\s*\[\[\s*([^\[\]]+?)\s*\]\]")
HEAD = re.compile(r"\s*\[\s*([^\[\]]+?)\s*\]")
KEY = re.compile(r"""\s*((?:[\w-]+|"[^"]*"|'[^']*')(?:\s*\.\s*(?:[\w-]+|"[^"]*"|'[^']*'))*)\s*=""")
ASIDE = re.compile(r"""\"(?:\\.|[^"\\])*"|'[^']*'|#.*""")  # texts and notes hold no brackets
NAME = re.compile(r"""[\w-]+|"[^"]*"|'[^']*'""")
STEP = re.compile(r"([\w-]+)(?:\[(\d+)\])?")


def dotted(path: Path) -> str:
    """Return a path as it is shown and typed; tables are counted from one.

    >>> dotted(("tank", 1, "bore"))
    'tank[2].bore'
    """
    text = ""
    for step in path:
        text += f"[{step + 1}]" if isinstance(step, int) else f".{step}"
    return text.removeprefix(".")


def path_of(text: str) -> Path:
    """Return the path that a dotted text means.

    Raises:
        ValueError: It is no path.

    >>> path_of("tank[2].bore")
    ('tank', 1, 'bore')
    """
    path: list[str | int] = []
    for part in text.split("."):
        step = STEP.fullmatch(part)
        if not step or step[2] == "0":
            raise ValueError(text)
        path.append(step[1])
        if step[2]:
            path.append(int(step[2]) - 1)
    return tuple(path)


def lines(text: str, *, rows: bool = False) -> dict[Path, int]:
    """Return the line, counted from one, of every table and field in the text of a boat file.

    Args:
        text: Text of a boat file.
        rows: Whether rows {…} of a list are told too.
    """
    found: dict[Path, int] = {}
    count: dict[str, int] = {}
    table: Path = ()
    array: Path = ()
    fence, depth = "", 0
    for number, line in enumerate(text.splitlines(), 1):
        if fence:
            fence = "" if fence in line else fence
            continue
        if depth > 0:
            depth += _brackets(line)
            if rows:
                found.update(_rows(found, array, line, number))
            continue
        if head := LIST_HEAD.match(line):
            count[head[1]] = count.get(head[1], -1) + 1
            table = (*_names(head[1]), count[head[1]])
        elif head := HEAD.match(line):
            table = _names(head[1])
        elif key := KEY.match(line):
            array = (*table, *_names(key[1]))
            found[array] = number
            fence = _opened(line[key.end() :])
            depth = 0 if fence else _brackets(line[key.end() :])
            if rows and line[key.end() :].lstrip().startswith("["):
                found.update(_rows(found, array, line[key.end() :], number))
        if head:
            found[table] = number
    return found


def line_of(text: str, path: Path) -> int | None:
    """Return the line of a field, or of the nearest table that should hold it."""
    return nearest(lines(text, rows=True), path)


def nearest(found: dict[Path, int], path: Path) -> int | None:
    """Return the line of a field, or of the nearest table, among the lines that were found."""
    while path:
        if path in found:
            return found[path]
        path = path[:-1]
    return None


def _names(key: str) -> Path:
    """Return the names in a dotted key, without their quotes."""
    return tuple(name.strip("\"'") for name in NAME.findall(key))


def _brackets(value: str) -> int:
    """Return how many more brackets of lists a line opens than it closes."""
    bare = ASIDE.sub("", value)
    return bare.count("[") - bare.count("]")


def _rows(found: dict[Path, int], array: Path, value: str, number: int) -> dict[Path, int]:
    """Return the line of every row {…} of a list that begins on it, after those found so far."""
    first = next(k for k in range(len(found) + 1) if (*array, k) not in found)
    return {(*array, first + k): number for k in range(ASIDE.sub("", value).count("{"))}


def _opened(value: str) -> str:
    """Return the quotes of a text that goes on below its line, or nothing."""
    fence = value.strip()[:3]
    is_open = fence in ('"""', "'''") and value.count(fence) == 1
    return fence if is_open else ""
