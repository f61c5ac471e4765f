"""What the template of a form is given: its fields in groups, what is typed, what is wrong."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from trimdive.boatfile.filled import YES, count_of, filled, rows_in
from trimdive.boatfile.form import FormField, surface_of, whole_form
from trimdive.boatfile.kinds import READ
from trimdive.boatfile.tub import FIGURE
from trimdive.page.entries.along import PLANT, kinds_then
from trimdive.page.entries.choices import Choices, bare
from trimdive.page.entries.draft import FIELD, SURFACE, Draft
from trimdive.page.entries.groups import (
    LABELS,
    SURFACES,
    SWITCHED,
    TITLES,
    TOP,
    hint,
    is_on_top,
    label,
    name_of,
)
from trimdive.text.sentence import capital

if TYPE_CHECKING:
    from trimdive.page.desk import Desk

MOST_SHOWN = 4  # figures of a fold that stand beside its title [-]


@dataclass(slots=True, kw_only=True)
class Shown:
    """A field of a form, or several that belong together."""

    path: str  # of the field in its piece; "" for a group that is none
    label: str
    hint: str = ""
    kind: str = "text"  # text, yes, choice; group, table, rows
    value: str = ""
    options: list[tuple[str, str]] = field(default_factory=list)  # of a choice: what is sent, shown
    suggests: str = ""  # name of the list of words that are suggested
    decides: bool = False  # which other fields there are
    unit: str = ""  # of its figure: "mm", or "with unit: V" where the file names none
    is_needed: bool = False
    wrong: str = ""
    inner: "list[Shown]" = field(default_factory=list)  # fields of a group or table
    rows: "list[Shown]" = field(default_factory=list)  # of a table with several
    about: str = ""  # what a group holds, in a few words
    is_open: bool = False  # whether it is unfolded

    @property
    def name(self) -> str:
        """Return how what is typed is sent."""
        return f"{FIELD}{self.path}"

    def all(self) -> "Iterator[Shown]":
        """Yield it and whatever is in it."""
        yield self
        for one in (*self.inner, *self.rows):
            yield from one.all()


def form_view(desk: "Desk", draft: Draft) -> dict[str, object]:
    """Return all that the template of a form shows."""
    groups = groups_of(desk, draft)
    for group in groups:
        for one in group.all():
            one.wrong = draft.wrong.get(one.path, "") if one.path else ""
        is_asked = bool(draft.unfolds) and group.path == draft.unfolds
        group.is_open = group.is_open or is_asked or any(one.wrong for one in group.all())
    seen = {one.path for group in groups for one in group.all() if one.path}
    there = {bare(path) for path in seen}  # a list of words is told anew, without gaps
    aside = {
        key: text for key, text in draft.typed.items() if bare(key) not in there and key[-1:] != "."
    }
    named = draft.typed.get("name", "").strip()
    kind = name_of(draft.of.table)
    is_one = not draft.table.is_list
    title = f"New {kind}" if draft.is_new else capital(kind) if is_one else named or str(draft.of)
    return {
        "draft": draft,
        "title": title,
        "kind": kind,
        "groups": groups,
        "usual": filled(draft.fields, draft.was),
        "aside": {f"{FIELD}{key}": text for key, text in aside.items()},
        "suggested": Choices(desk.own.her, draft.of.table, desk.on_disk).lists(groups),
    }


def groups_of(desk: "Desk", draft: Draft) -> list[Shown]:
    """Return the fields of a form: those on top first, then the folds."""
    choices = Choices(desk.own.her, draft.of.table, desk.on_disk)
    aside, table = draft.aside, draft.of.table
    fields = [one for one in draft.fields if one.key not in (*aside, *draft.deciding)]
    every = {one.key: one for one in draft.fields}
    count = sum(one.kind not in ("table", "rows") for one in fields)
    top = _deciding(desk, draft, every)
    first = [one for one in fields if is_on_top(table, one, count)]
    order = TOP.get(table, ())
    first.sort(key=lambda one: order.index(one.key) if one.key in order else len(order))
    top += [shown for one in first for shown in _shown(one, draft, choices, one.key)]
    found = [Shown(path="", label="", kind="group", inner=top, is_open=True)]
    for key, title in TITLES.items():
        inner = [one for one in fields if one.group == key and one not in first]
        held = [each for one in inner if one.kind not in ("table", "rows")
                for each in _shown(one, draft, choices, one.key)]  # fmt: skip
        if held:
            found.append(Shown(path="", label=title, kind="group", inner=held, about=_about(held)))
    for one in fields:
        if one.kind in ("table", "rows"):
            found += _shown(one, draft, choices, one.key)
    return found


def _deciding(desk: "Desk", draft: Draft, every: dict[str, FormField]) -> list[Shown]:
    """Return the fields that say which kind it is: they are asked first."""
    found: list[Shown] = []
    if len(draft.table.models) > 1:
        surfaces = [(surface_of(m), SURFACES.get(surface_of(m), "")) for m in draft.table.models]
        value = draft.typed.get(SURFACE, "")
        found.append(_choice(SURFACE, LABELS[SURFACE], value, surfaces))
    for key in draft.deciding:
        if key == READ:
            kinds = [("", ""), *((kind, kind) for kind in FIGURE)]
            found.append(_choice(READ, LABELS[READ], draft.typed.get(READ, ""), kinds))
        elif key in every and key not in draft.aside:
            one = every[key]
            kinds = [(each, each) for each in one.options if each]
            usual = draft.typed.get(key, "") or kinds[0][0]
            found.append(_choice(key, label(one), usual, kinds, says=hint(one)))
    if then := kinds_then(desk, draft):
        value = draft.typed.get(PLANT, "")
        kinds = [(one, one) for one in then]
        found.append(_choice(PLANT, LABELS[PLANT], value if value in then else then[0], kinds))
    return found


def _choice(
    path: str, called: str, value: str, options: list[tuple[str, str]], says: str = ""
) -> Shown:
    return Shown(
        path=path,
        label=called,
        hint=says,
        kind="choice",
        value=value,
        options=options,
        decides=True,
    )


def _shown(one: FormField, draft: Draft, choices: Choices, path: str) -> list[Shown]:
    """Return a field as it is shown: lists of words are several."""
    if one.kind == "table":
        return [_table(one, draft, choices, path)]
    if one.kind == "rows":
        return [_rows(one, draft, choices, path)]
    if one.kind == "names":
        return _names(one, draft, choices, path)
    if one.kind == "map":
        known = choices.names(path)
        return [
            Shown(path=f"{path}.{name}", label=name, value=draft.typed.get(f"{path}.{name}", ""))
            for name in known
        ]
    return [_plain(one, draft.typed.get(path, ""), choices, path)]


def _plain(one: FormField, value: str, choices: Choices, path: str) -> Shown:
    """Return a figure, word, choice or yes."""
    found = Shown(
        path=path,
        label=label(one),
        hint=hint(one),
        kind=one.kind if one.kind in ("yes", "choice") else "text",
        value=value,
        unit=choices.unit_of(one.quantity) if one.kind == "text" else "",
        is_needed=one.is_needed,
    )
    if one.kind == "yes":
        found.value = value or (YES if one.is_usual else "")
    names = choices.names(path)
    if one.kind == "choice":
        found.options = [(each, SWITCHED.get(each, each)) for each in one.options]
    elif names and choices.is_strict(path):
        found.kind = "choice"
        found.options = [
            ("", ""),
            *((each, each) for each in dict.fromkeys((*names, value)) if each),
        ]
    elif names:
        found.suggests = choices.list_of(path)
    return found


def _names(one: FormField, draft: Draft, choices: Choices, path: str) -> list[Shown]:
    """Return a list of words: a field for each, and one more."""
    there = [draft.typed[key] for key in rows_in(draft.typed, path) if draft.typed[key].strip()]
    known = one.options or choices.names(path)
    is_strict = bool(one.options) or choices.is_strict(path)
    found: list[Shown] = []
    for number, value in enumerate([*there, ""], 1):
        each = Shown(
            path=f"{path}[{number}]",
            label=label(one) if number == 1 else "and",
            hint=hint(one) if number == 1 else "",
            value=value,
            is_needed=one.is_needed and number == 1,
        )
        if is_strict:
            each.kind = "choice"
            each.decides = number > len(there)
            each.options = [("", ""), *((k, k) for k in dict.fromkeys((*known, value)) if k)]
        elif known:
            each.suggests = choices.list_of(path)
        found.append(each)
    return found


def _table(one: FormField, draft: Draft, choices: Choices, path: str) -> Shown:
    """Return a table within a piece, with its own switch."""
    assert one.model is not None
    is_on = draft.typed.get(path) == YES
    inner = _inner(whole_form(one.model), draft, choices, f"{path}.") if is_on else []
    flat = [each for each in inner if each.kind not in ("table", "rows")]
    return Shown(
        path=path,
        label=label(one),
        hint=hint(one),
        kind="table",
        value=YES if is_on else "",
        inner=inner,
        about=(_about(flat) or "yes") if is_on else "",
    )


def _inner(fields: Iterable[FormField], draft: Draft, choices: Choices, path: str) -> list[Shown]:
    return [each for one in fields for each in _shown(one, draft, choices, f"{path}{one.key}")]


def _rows(one: FormField, draft: Draft, choices: Choices, path: str) -> Shown:
    """Return a table of rows within a piece."""
    assert one.model is not None
    fields = whole_form(one.model)
    count = count_of(draft.typed, path)
    rows = [
        Shown(
            path=f"{path}[{number}]",
            label=str(number),
            kind="row",
            inner=_inner(fields, draft, choices, f"{path}[{number}]."),
        )
        for number in range(1, count + 1)
    ]
    about = f"{count}" if count else ""
    return Shown(path=path, label=label(one), hint=hint(one), kind="rows", rows=rows, about=about)


def _about(held: list[Shown]) -> str:
    """Return what stands in some fields, in a few words."""
    view = [one.value for one in held if one.value and one.kind != "yes"]
    return ", ".join(view[:MOST_SHOWN]) + (" …" if len(view) > MOST_SHOWN else "")
