"""A name is only a name: any piece called anything else, every answer says the same.

Each word of the names in a boat file becomes another word of as many letters, so that lines break
where they broke; put back, what is told must be what was told before: text, JSON, page, drawing.
"""

import random
import re
import shutil
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest
import tomlkit
from tests.conftest import BOATS
from tests.page.conftest import page_of
from typer.testing import CliRunner

from trimdive.cli.app import app

NAMES = ("bittern-as-bought", "plover-as-bought")
MARK = re.compile(r"/[0-9a-f]{8}\"")  # by which a finding is known from one page to the next
QUICK = ("float", "litres", "weigh", "check", "dive", "bench", "what-if", "tub", "draw")
SLOW = ("reach", "kit", "place", "pond")
PLACES = ("right", "board", "scales", "tub", "bench", "pond")
WITHOUT_JSON = ("draw",)
# Fields that name a piece; a mark may be named where a place is measured from.
FIELDS = frozenset(
    {"name", "inside", "like", "tank", "tanks", "cylinder", "from", "works_of", "of", "at", "on",
     "battery", "things", "drops", "off", "after", "to"}
)  # fmt: skip
ENDS = ("stern", "bow")  # what is measured from there is not measured from a mark
LETTERS = "bcdfghjklmnpqrtvwxz"  # no vowels and no plural: none of these is a word
UNITS = frozenset({"mm", "cm", "kg", "lb", "dm", "ml", "nm", "kn", "gm", "gz", "ft", "bg", "bl"})


def pieces(
    table: Mapping[str, object], *, is_boat: bool = False
) -> Iterator[tuple[object, object]]:
    """Yield every field of a boat file that may name a piece: what holds it, and its key."""
    for key, value in table.items():
        if isinstance(value, dict):
            yield from pieces(value)
        elif isinstance(value, list):
            for k, one in enumerate(value):
                if isinstance(one, dict):
                    yield from pieces(one)
                elif isinstance(one, str) and key in FIELDS:
                    yield value, k
        elif isinstance(value, str) and key in FIELDS and not (is_boat and key == "name"):
            yield table, key


def other_words(names: set[str]) -> dict[str, str]:
    """Return another word for each word of some names, as long as it."""
    chance, found, taken = random.Random(7), dict[str, str](), set[str]()
    for word in sorted({word for name in names for word in re.findall(r"[^\W\d_]+", name)}):
        while len(word) > 1:
            new = "".join(chance.choice(LETTERS) for _ in word)
            if new not in taken | UNITS:
                found[word] = new
                taken.add(new)
                break
    return found


def renamed(text: str) -> tuple[str, dict[str, str]]:
    """Return a boat file in which every piece is called otherwise, and which word became which."""
    file = tomlkit.parse(text)
    names = {
        str(value["name"])
        for key, listed in file.items()
        if isinstance(listed, list)
        for value in listed
        if isinstance(value, dict) and "name" in value
    }
    words = other_words(names)
    for holder, key in list(pieces(file, is_boat=True)):
        was = str(holder[key])  # type: ignore[index]
        if was in names and not (key == "from" and was in ENDS):
            holder[key] = re.sub(  # type: ignore[index]
                r"[^\W\d_]+", lambda found: words.get(found[0], found[0]), was
            )
    return tomlkit.dumps(file), words


def put_back(text: str, words: Mapping[str, str]) -> str:
    """Return what was told of the boat with other names, as it would be told of the first."""
    first = {new: old for old, new in words.items()}
    first |= {new.capitalize(): old.capitalize() for new, old in first.items()}
    return re.sub(r"[^\W\d_]+", lambda found: first.get(found[0], found[0]), text)


def both(folder: Path, name: str) -> tuple[Path, Path, dict[str, str]]:
    """Return copies of a demo boat's file, as it is and with other names, and the words."""
    first, second = folder / "a" / "boat", folder / "b" / "boat"
    for there in (first, second):
        shutil.copytree(BOATS / name, there)
    text, words = renamed((first / "boat.toml").read_text("utf-8"))
    (second / "boat.toml").write_text(text, "utf-8")
    assert text != (first / "boat.toml").read_text("utf-8")
    return first / "boat.toml", second / "boat.toml", words


def answer(file: Path, *typed: str) -> tuple[int, list[str]]:
    """Return the exit status of a command, and the lines that it prints."""
    said = CliRunner().invoke(app, [typed[0], str(file), *typed[1:]])
    return said.exit_code, (said.stdout + said.stderr).splitlines()


def assert_same(folder: Path, name: str, command: str) -> None:
    """Check that a command says the same of a boat and of her with other names."""
    first, second, words = both(folder, name)
    for more in ((), ("--json",)) if command not in WITHOUT_JSON else ((),):
        status, lines = answer(first, command, *more)
        other, besides = answer(second, command, *more)
        back = put_back("\n".join(besides), words).replace("/b/", "/a/").splitlines()
        assert (status, lines) == (other, back)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("command", QUICK)
def test_a_command_tells_no_more_of_a_name_than_the_name(
    tmp_path: Path, name: str, command: str
) -> None:
    assert_same(tmp_path, name, command)


@pytest.mark.parametrize("command", SLOW)
def test_a_long_command_tells_no_more(tmp_path: Path, command: str) -> None:
    assert_same(tmp_path, "plover-as-bought", command)


@pytest.mark.parametrize("name", NAMES)
def test_the_page_tells_no_more(tmp_path: Path, name: str) -> None:
    first, second, words = both(tmp_path, name)
    one, other = page_of(first).enter(), page_of(second).enter()
    for place in PLACES:
        text, besides = (page.client.get(f"/{place}").text for page in (one, other))
        back = put_back(besides, words).replace(other.keys.root, one.keys.root)
        text, back = (MARK.sub("", answer) for answer in (text, back))
        assert text.splitlines() == back.splitlines(), place
