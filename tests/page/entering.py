"""A form of a piece on the page, without a browser: what it holds, and what is wrong in it."""

from dataclasses import dataclass, field
from html.parser import HTMLParser


@dataclass
class Form(HTMLParser):
    """What a form of a piece holds, as a browser would send it, and what is said in it."""

    html: str
    held: dict[str, str] = field(default_factory=dict[str, str])
    choices: dict[str, list[str]] = field(default_factory=dict[str, list[str]])
    wrong: dict[str, str] = field(default_factory=dict[str, str])  # beside which field
    top: list[str] = field(default_factory=list[str])
    open_folds: list[str] = field(default_factory=list[str])
    is_there: bool = False
    _is_within: bool = False
    _select: str = ""
    _wrong: str | None = None

    def __post_init__(self) -> None:
        super().__init__()
        start, end = self.html.find("<piece-form"), self.html.rfind("</piece-form>")
        if start >= 0:  # reading the rest of the page takes as long as the page's own answer
            self.feed(self.html[start : end + len("</piece-form>")] if end >= 0 else self.html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Take in a field, a choice, a fold, or the beginning of what is wrong."""
        found = {key: value or "" for key, value in attrs}
        if tag == "piece-form":
            self._is_within = self.is_there = True
        if not self._is_within:
            return
        if tag == "details" and "open" in found:
            self.open_folds.append(found["id"])
        if tag == "select":
            self._select = found["name"]
            self.choices[self._select] = []
        if tag == "option" and self._select:
            self.choices[self._select].append(found["value"])
            if "selected" in found or len(self.choices[self._select]) == 1:
                self.held[self._select] = found["value"]
        is_sent = found.get("type") != "checkbox" or "checked" in found
        if tag == "input" and "name" in found and is_sent:
            self.held[found["name"]] = found.get("value", "")
        if tag in ("p", "div") and found.get("class") == "wrong":
            self._wrong = found.get("id", "").removeprefix("wrong-entry-")

    def handle_endtag(self, tag: str) -> None:
        """Leave a choice, the form, or what is wrong."""
        if tag == "select":
            self._select = ""
        if tag == "piece-form":
            self._is_within = False
        if tag in ("p", "div"):
            self._wrong = None

    def handle_data(self, data: str) -> None:
        """Take in what is said to be wrong."""
        if self._wrong:
            self.wrong[self._wrong] = self.wrong.get(self._wrong, "") + data
        elif self._wrong is not None and data.strip():
            self.top.append(data.strip())

    def typed(self, **more: str) -> dict[str, str]:
        """Return what it holds, with some fields typed; "__" stands for "." in their names."""
        new = {f"entry:{key.replace('__', '.')}": text for key, text in more.items()}
        return self.held | new

    @property
    def fields(self) -> dict[str, str]:
        """Return what its fields hold, by their paths."""
        start = "entry:"
        return {k.removeprefix(start): v for k, v in self.held.items() if k.startswith(start)}
