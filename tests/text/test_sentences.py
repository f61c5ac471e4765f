"""Every kind of fact has its words, which take what it holds; and no words are left over.

The kinds are read out of the source: each call of ``fact`` names its kind and what it holds.
"""

import ast
import inspect
import re
from collections import defaultdict
from pathlib import Path

import pytest

from trimdive.text import said

SOURCE = Path(__file__).parents[2] / "src" / "trimdive"


def made() -> dict[str, set[frozenset[str]]]:
    """Return what facts of each kind are made with, read from the source."""
    found: dict[str, set[frozenset[str]]] = defaultdict(set)
    for file in SOURCE.rglob("*.py"):
        text = file.read_text("utf-8")
        for node in ast.walk(ast.parse(text)) if "fact(" in text else ():
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "fact":
                kind, names = node.args[0], [one.arg for one in node.keywords]
                assert isinstance(kind, ast.Constant), f"{file}:{node.lineno}: a kind is written"
                assert None not in names, f"{file}:{node.lineno}: what it holds is written"
                found[str(kind.value)].add(frozenset(map(str, names)))
    return found


MADE = made()
said._all_read()  # pyright: ignore[reportPrivateUsage] - the kinds are listed here


@pytest.mark.parametrize("kind", sorted(MADE))
def test_a_fact_has_words_that_take_what_it_holds(kind: str) -> None:
    _, *taken = inspect.signature(said.SAYINGS[kind]).parameters.values()
    names = {one.name for one in taken}
    needed = {one.name for one in taken if one.default is inspect.Parameter.empty}
    for held in MADE[kind]:
        assert needed <= held <= names


def test_no_words_are_left_over() -> None:
    """What a button entered has words of its own for some mends, and no fact but the mend."""
    entered = {kind for kind in said.SAYINGS if kind.endswith("-by-button")}
    assert set(said.SAYINGS) - entered == set(MADE)
    assert {kind.removesuffix("-by-button") for kind in entered} <= set(MADE)


@pytest.mark.parametrize(
    "kind", sorted(kind for kind in said.SAYINGS if kind.endswith("-by-button"))
)
def test_what_was_entered_is_told_from_what_its_mend_holds(kind: str) -> None:
    _, *taken = inspect.signature(said.SAYINGS[kind]).parameters.values()
    for held in MADE[kind.removesuffix("-by-button")]:
        assert {one.name for one in taken} == held


def test_no_words_name_a_command_of_the_terminal() -> None:
    """The page says the same sentences, where nobody has a terminal."""
    told = []
    for file in (SOURCE / "text" / "sentences").rglob("*.py"):
        for node in ast.walk(ast.parse(file.read_text("utf-8"))):
            text = getattr(node, "value", "") if isinstance(node, ast.Constant) else ""
            if isinstance(text, str) and re.search(r"\btrimdive [a-z]", text):
                told.append(f"{file.name}:{node.lineno}: {text}")
    assert not told
