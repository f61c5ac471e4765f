"""The document of words says what the tables say."""

import importlib.util
from pathlib import Path

ROOT = Path(__file__).parents[2]


def test_words_are_as_the_tables_have_them() -> None:
    spec = importlib.util.spec_from_file_location("tool", ROOT / "tools" / "write_words_docs.py")
    assert spec
    assert spec.loader
    tool = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(tool)
    found = (ROOT / "docs" / "words.md").read_text("utf-8")
    assert found == tool.written(), "run python tools/write_words_docs.py"
