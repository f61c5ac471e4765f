"""Says in plain words why a text is no boat file: the slips that break TOML, and other files."""

import re

CURLY = "“”„‟«»‘’\u201a"
FIELD = re.compile(r"""\s*(?:\{\s*)?([\w."'-]+)\s*=\s*(.*?)\s*$""")
NUMBER = r"[-+−]?\d[\d.,]*"
COMMA = re.compile(r"([-+−]?\d+,\d+)\s*([^\W\d][^\s#,]*)?\s*(?:#.*)?")
QUANTITY = re.compile(rf"({NUMBER}\s*(?:[^\W\d]|[%°\"'′″])[^#,]*?)\s*(?:#.*)?")
WORDS = re.compile(r"([^\W\d][^#\"'=]*?)\s*(?:#.*)?")
TWICE = "Keep one of them; begin a further piece with its own [[…]] line."
PLAIN = 'Write a field as: length = "850 mm", with text and quantities in quotes.'


def other_file(text: str, name: str) -> tuple[str, str] | None:
    r"""Return what a text is that is no boat file at all, and what to do with it.

    Args:
        text: What stands in the file.
        name: Of the file.

    >>> other_file("x mm,y,z\n0,0,0\n", "lines.csv")[0]
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
        return "it is a table of lines, not a boat file", mend
    mend = "Give a boat file, .toml; trimdive weights-in takes a weight list over into one."
    return "it is a table, not a boat file", mend


def slip(what: str, line: str) -> tuple[str, str]:
    """Return in plain words what TOML refuses in a line, and how to mend it.

    Args:
        what: What the reader of TOML says.
        line: The line that it names.

    >>> slip("Expected newline", "mass = 1.1 kg")
    ("'1.1 kg' stands without quotes", 'Write mass = "1.1 kg".')
    """
    if "digits" in what:
        return "a number there has thousands of digits", "Write a real figure."
    if "overwrite" in what:
        return "this field is written twice", TWICE
    if "mutate" in what or "Cannot declare" in what:
        return "this table is written twice", TWICE
    field = FIELD.match(line)
    if field and field[2]:
        return _value(field[1], field[2]) or _not_toml(what)
    return _not_toml(what)


def _not_toml(what: str) -> tuple[str, str]:
    """Return what the reader of TOML says, where no usual slip explains it."""
    return f"the line is not TOML ({what[:1].lower()}{what[1:]})", PLAIN


def _value(key: str, value: str) -> tuple[str, str] | None:
    """Return the usual slip in the value of a field, and how to mend it."""
    if value[0] in CURLY:
        text = re.sub(r"\s*#.*", "", value).strip(CURLY + " \"'")
        return "the quotes are those of a word processor", f'Write {key} = "{text}".'
    if found := COMMA.fullmatch(value):
        unit = found[2] or "…"
        mend = (
            f'Write {key} = "{found[1]} {unit}", with its unit, or {key} = '
            f"{found[1].replace(',', '.')} where [units] names it."
        )
        return f"'{found[1]}' has a decimal comma but no quotes", mend
    if found := QUANTITY.fullmatch(value):
        text = found[1]
        inches = re.sub(r"\s*[\"″]$", " in", text)
        return f"'{text}' stands without quotes", f'Write {key} = "{inches}".'
    if found := WORDS.fullmatch(value):
        return f"'{found[1]}' stands without quotes", f'Write {key} = "{found[1]}".'
    return None
