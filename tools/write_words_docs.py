"""Writes docs/words.md from the glossary and the list of symbols.

Run it after a word was added: ``python tools/write_words_docs.py``.
"""

from pathlib import Path

from trimdive.data import table

DOCS = Path(__file__).parents[1] / "docs"
HEAD = """\
# Words

<!-- Written by tools/write_words_docs.py from data/glossary.csv and data/nomenclature.csv. -->

What the words mean here, in a line each. `trimdive words WORD` tells them in the terminal, and on
the page they open at the word.

| word | meaning |
| --- | --- |
"""
SYMBOLS = """
## Symbols

In formulas, as `why` tells them; A_B is A with the index B.

| symbol | meaning | unit |
| --- | --- | --- |
"""


def written() -> str:
    """Return the document."""
    words = sorted(table("glossary"), key=lambda one: one["term"].casefold())
    symbols = [one for one in table("nomenclature") if one["symbol"]]
    rows = "".join(f"| {one['term']} | {one['meaning']} |\n" for one in words)
    signs = "".join(f"| {one['symbol']} | {one['meaning']} | {one['unit']} |\n" for one in symbols)
    return HEAD + rows + SYMBOLS + signs


if __name__ == "__main__":
    (DOCS / "words.md").write_text(written(), "utf-8")
