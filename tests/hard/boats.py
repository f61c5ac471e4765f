"""A small boat of two files, whose every state can be told from either of them."""

import re
from pathlib import Path

from tests.cli.boats import SMALL

from trimdive.boatfile import load
from trimdive.page.desk import Desk, opened
from trimdive.page.shelf import Shelf
from trimdive.page.workshop import Workshop

TABLE = """\
x mm,keel,10,50,80,deck,deck half
0,0,5,10,10,100,10
150,0,40,58,60,100,58
300,0,42,60,60,100,60
450,0,40,58,60,100,58
600,0,5,10,10,100,10
"""
END = "# the end\n"
PRISM = re.compile(r'surface = "prism".*?z_top = "100 mm"\n', re.DOTALL)
NUMBER = re.compile(r"state (\d+)")


def text_of(number: int) -> str:
    """Return the boat file of a state."""
    text = PRISM.sub('surface = "lines"\nfile = "lines.csv"\n', SMALL)
    return f"# state {number}\n{text}{END}"


def table_of(number: int) -> bytes:
    """Return the table of lines of the same state."""
    return f"# state {number}\n{TABLE}".encode()


def state_of(folder: Path) -> int:
    """Return the state in which a boat lies on disk; boat and table are of one state, and whole.

    Raises:
        AssertionError: They are not.
    """
    text, table = load(folder / "boat.toml").text, (folder / "lines.csv").read_bytes()
    found = NUMBER.search(text)
    assert found, f"{folder.name}: no state in the boat file"
    number = int(found[1])
    assert text.startswith(text_of(number)), f"{folder.name}: the boat file is not whole"
    assert table == table_of(number), f"{folder.name}: boat {number}, table {table[:20]!r}"
    return number


def whole(file: Path) -> bool:
    """Return whether a file that was kept holds all of one state."""
    data = file.read_bytes()
    found = NUMBER.search(data[:30].decode("utf-8", "replace"))
    if not found:
        return False
    number = int(found[1])
    return data == (table_of(number) if file.suffix == ".csv" else text_of(number).encode())


def workshop_of(shelf: Shelf, file: Path) -> Workshop:
    """Return the workshop with a boat of the shelf shown, which saves herself."""
    found = Workshop(desk=opened(file), shelf=shelf)
    found.desk.is_keeping = True
    return found


def change(desk: Desk, number: int, who: str = "") -> None:
    """Change boat and table together, as a request does; whoever does may sign it."""
    text = text_of(number) + (f"# {who}\n" if who else "")
    with desk.working():
        desk.edit(f"state {number}", text, {"lines.csv": table_of(number)})
