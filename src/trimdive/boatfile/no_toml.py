"""Says in plain words why a text is no boat file: the slips that break TOML, and other files."""

import re

from trimdive.errors import BoatFileError

CURLY = "“”„‟«»‘’\u201a"
FIELD = re.compile(r"""\s*(?:\{\s*)?([\w."'-]+)\s*=\s*(.*?)\s*$""")
NUMBER = r"[-+−]?\d[\d.,]*"
COMMA = re.compile(r"([-+−]?\d+,\d+)\s*([^\W\d][^\s#,]*)?\s*(?:#.*)?")
QUANTITY = re.compile(rf"({NUMBER}\s*(?:[^\W\d]|[%°\"'′″])[^#,]*?)\s*(?:#.*)?")
WORDS = re.compile(r"([^\W\d][^#\"'=]*?)\s*(?:#.*)?")


def other_file(text: str, name: str) -> BoatFileError | None:
    r"""Return the error for a text that is no boat file at all, or None.

    Args:
        text: What stands in the file.
        name: Of the file.

    >>> other_file("x mm,y,z\n0,0,0\n", "lines.csv").what
    'it is a table of lines, not a boat file'
    """
    head = next((line for line in text.splitlines() if line.strip() and line[:1] != "#"), "")
    cells = re.split(r"[,;\t]", head)
    if "=" in head or head.lstrip()[:1] == "[" or len(cells) < 2:
        return None
    if cells[0].split()[:1] == ["x"]:
        mend = (
            f'Name it in a boat file, under [[region]]: surface = "lines" and file = "{name}"; '
            "then give that boat file."
        )
        return BoatFileError("it is a table of lines, not a boat file", name, mend)
    mend = "Give a boat file, .toml; trimdive weights-in takes a weight list over into one."
    return BoatFileError("it is a table, not a boat file", name, mend)


def slip(what: str, line: str, where: str) -> BoatFileError:
    """Return the error for what TOML refuses in a line, in plain words.

    Args:
        what: What the reader of TOML says.
        line: The line that it names.
        where: File and line.

    >>> slip("Expected newline", "mass = 1.1 kg", "boat.toml:3").mend
    'Write mass = "1.1 kg".'
    """
    if "digits" in what:
        return BoatFileError(
            "a number there has thousands of digits", where, "Write a real figure."
        )
    if "overwrite" in what or "mutate" in what or "Cannot declare" in what:
        kind = "field" if "overwrite" in what else "table"
        mend = "Keep one of them; begin a further piece with its own [[…]] line."
        return BoatFileError(f"this {kind} is written twice", where, mend)
    field = FIELD.match(line)
    found = _in_value(field[1], field[2], where) if field and field[2] else None
    mend = 'Write a field as: length = "850 mm", with text and quantities in quotes.'
    wrong = f"the line is not TOML ({what[:1].lower()}{what[1:]})"
    return found or BoatFileError(wrong, where, mend)


def _in_value(key: str, value: str, where: str) -> BoatFileError | None:
    """Return the usual slip in the value of a field, or None."""
    if value[0] in CURLY:
        text = re.sub(r"\s*#.*", "", value).strip(CURLY + " \"'")
        what = "the quotes are those of a word processor"
        return BoatFileError(what, where, f'Write {key} = "{text}".')
    if found := COMMA.fullmatch(value):
        unit, number = found[2] or "…", found[1].replace(",", ".")
        mend = (
            f'Write {key} = "{found[1]} {unit}", with its unit, or {key} = {number} where [units] '
            "names it."
        )
        return BoatFileError(f"'{found[1]}' has a decimal comma but no quotes", where, mend)
    if found := QUANTITY.fullmatch(value) or WORDS.fullmatch(value):
        text = re.sub(r"\s*[\"″]$", " in", found[1])
        return BoatFileError(
            f"'{found[1]}' stands without quotes", where, f'Write {key} = "{text}".'
        )
    return None
