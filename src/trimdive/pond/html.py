"""The card as one file for the phone: it needs no program, no server and no network.

The dial is the same on the page and on the phone: one piece of HTML, one style sheet, one script.
"""

import json
from collections.abc import Iterable
from functools import cache
from html import escape
from importlib.resources import files
from math import degrees, isnan
from string import Template
from typing import TYPE_CHECKING

from trimdive.pond.card import CHECKS, GAPS, KINDS, MEASURED, SURE, Card, Chosen
from trimdive.pond.dial import CELSIUS, HEAVIEST, LIGHTEST, SALTS, STEP, Dial
from trimdive.pond.words import WORDS, units_shown
from trimdive.text.care import LAST_WORD
from trimdive.text.held import WAY_UP

if TYPE_CHECKING:
    from trimdive.assessment import Assessment

FINE = 1000.0  # densities are kept in thousandths [1/(kg/m³)]
TICKS = range(int(LIGHTEST), int(HEAVIEST), 10)  # on the scale [kg/m³]


@cache
def asset(name: str) -> str:
    """Return the text of a file that lies beside this one: dial.js, dial.css or card.html."""
    return files(__name__.rpartition(".")[0]).joinpath(name).read_text("utf-8")


def safe_json(value: object) -> str:
    """Return JSON that may stand in HTML."""
    text = json.dumps(value, separators=(",", ":"), ensure_ascii=False, allow_nan=False)
    return text.replace("<", "\\u003c").replace(">", "\\u003e").replace("&", "\\u0026")


def table_shown(her: "Assessment", found: Card) -> dict[str, object]:
    """Return everything that the dial reads from."""
    room = float(her.floater.tanks.capacities.sum())
    return {
        "own": found.own.density,
        "celsius": {"start": CELSIUS[0], "step": CELSIUS[1] - CELSIUS[0]},
        "grids": {
            grid.kind: {
                "salts": {
                    "start": grid.salts[0],
                    "step": grid.salts[1] - grid.salts[0] if len(grid.salts) > 1 else 1.0,
                    "count": len(grid.salts),
                },
                "rows": (grid.densities * FINE).round().astype(int).tolist(),
            }
            for grid in found.dial.grids
        },
        "fine": FINE,
        "from": LIGHTEST,
        "step": STEP,
        "rows": _rows(found.dial),
        "tanks": {
            "blown": float(her.blown_water.sum()),
            "full": float(her.full_water.sum()),
            "room": room,
        },
        "units": units_shown(her),
        "words": dict(WORDS),
        "place": found.place,
        "trimmed": found.trimmed,
    }


def _rows(found: Dial) -> dict[str, list[float | None]]:
    """Return what each density asks for, a list a figure."""
    rows = found.rows
    return {
        "lead": [round(one.lead, 7) for one in rows],
        "foam": [round(one.foam, 9) for one in rows],
        "neutral": [round(one.neutral, 10) for one in rows],
        "short": [round(one.short, 7) for one in rows],
        "rises": [None if isnan(one.rises) else round(one.rises, 8) for one in rows],
        "trim": [None if isnan(one.trim) else round(degrees(one.trim), 4) for one in rows],
    }


def dial_html(her: "Assessment", found: Card, head: str = "h3") -> str:
    """Return the dial with the table that it reads from.

    Args:
        her: The boat.
        found: Her card.
        head: Tag of its heading.
    """
    water, words = found.water, found.words
    is_same = words.ask == WORDS["nothing"]
    lines = (
        ("ask", words.ask, "big"),
        ("where", "" if is_same else found.place, "where"),
        ("trimmed", "" if is_same else found.trimmed, "told"),
        ("density", density_words(her, water, found.own), "told"),
    )
    left = (
        ("full", words.full),
        ("neutral", words.neutral),
        ("rides", words.rides),
        ("hangs", words.hangs),
    )
    return (
        f'<div class="dial" data-density="{water.density:.3f}">{_controls(her, found)}'
        '<div class="answers" aria-live="polite">'
        + "".join(
            f'<p class="{css}" data-told="{key}">{escape(text)}</p>' for key, text, css in lines
        )
        + "</div>"
        + _scale(her, found)
        + f'<{head} class="head">If nothing is changed she</{head}><ul class="left">'
        + "".join(
            f'<li data-told="{key}"{"" if text else " hidden"}>{escape(text)}</li>'
            for key, text in left
        )
        + f'</ul><p class="off">{escape(found.off)}</p>'
        f'<script type="application/json" class="dial-table">{safe_json(table_shown(her, found))}'
        "</script></div>"
    )


def density_words(her: "Assessment", water: Chosen, own: Chosen) -> str:
    """Return a density beside the one that she is trimmed for."""
    return f"{water.density:.1f} kg/m³; she is trimmed for {own.density:.1f}"


def _controls(her: "Assessment", found: Card) -> str:
    water, write = found.water, her.boat.units.write
    options = "".join(
        f'<option value="{named_value(one.water)}"{" selected" if one.water == water else ""}>'
        f"{escape(one.name)}</option>"
        for one in found.named
    )
    kinds = "".join(
        f'<label><input type="radio" name="pond-kind" value="{kind}"'
        f"{' checked' if kind == water.kind else ''}> {name}</label>"
        for kind, name in KINDS.items()
    )
    salt = SALTS[water.kind][-1] if water.kind in SALTS else SALTS["sea"][-1]
    warm, salty = write(water.celsius, "temperature"), write(water.salt, "salt", 1)
    ranges = (
        ("celsius", "Temperature", warm, (0, 40, 0.5, water.celsius), water.kind == MEASURED),
        ("salt", "Salt", salty, (0, salt, 0.1, water.salt), water.kind not in ("pool", "sea")),
        (
            "density", "Density", f"{water.density:.1f} kg/m³",
            (LIGHTEST, HEAVIEST, 0.1, round(water.density, 1)), water.kind != MEASURED,
        ),
    )  # fmt: skip
    return (
        f'<fieldset class="kinds"><legend>Water of the day</legend>{kinds}</fieldset>'
        '<p class="row"><label for="pond-named">By name</label> '
        '<select id="pond-named" name="pond-named"><option value="">…</option>'
        f"{options}</select></p>" + "".join(_range(*one) for one in ranges)
    )


def named_value(water: Chosen) -> str:
    """Return a water as the list of names holds it: kind, temperature and salt, exactly."""
    return f"{water.kind}|{water.celsius!r}|{water.salt!r}"


def _range(
    key: str, label: str, shown: str, run: tuple[float, float, float, float], is_off: bool
) -> str:
    """Return a slider with its figure.

    Args:
        key: Its name.
        label: What it is.
        shown: Its figure as it stands.
        run: From, to, step, and where it stands [°C, g/kg or kg/m³].
        is_off: Whether it does not count in this water.
    """
    low, high, step, at = run
    return (
        f'<p class="row slides" data-row="{key}"{" hidden" if is_off else ""}>'
        f'<label for="pond-{key}">{label}</label> <output for="pond-{key}">{escape(shown)}</output>'
        f'<input type="range" id="pond-{key}" name="pond-{key}" min="{low:g}" max="{high:g}" '
        f'step="{step:g}" value="{at:g}"></p>'
    )


def _scale(her: "Assessment", found: Card) -> str:
    """Return the scale of densities with the lead that each asks for, and its needle."""
    rows = {round(one.density, 1): one for one in found.dial.rows}
    ticks = "".join(
        f'<span class="tick" style="left:{_at(tick):.2f}%"><b>{tick}</b>'
        f"<i>{escape(_signed(her, rows[float(tick)].lead))}</i></span>"
        for tick in TICKS
    )
    marks = "".join(
        f'<span class="mark" style="left:{_at(one.water.density):.2f}%"></span>'
        for one in found.named
    )
    return (
        '<div class="scale" aria-hidden="true"><p class="over">kg/m³</p>'
        f'<div class="line">{ticks}{marks}'
        f'<span class="home" style="left:{_at(found.own.density):.2f}%"></span>'
        f'<span class="needle" style="left:{_at(found.water.density):.2f}%"></span></div>'
        '<p class="under">lead in or out</p></div>'
    )


def _at(density: float) -> float:
    """Return where a density [kg/m³] stands on the scale, in per cent of its length."""
    return 100.0 * (density - LIGHTEST) / (HEAVIEST - LIGHTEST)


def _signed(her: "Assessment", lead: float) -> str:
    fine = 0 if her.boat.units.shown("mass") in ("g", "oz") else 2
    text = her.boat.units.write(abs(lead), "mass", fine)
    return f"{'+' if lead > 0 else '−'}{text}"


def phone_card(her: "Assessment", found: Card, date: str = "") -> str:
    """Return the whole card as one HTML file.

    Args:
        her: The boat.
        found: Her card.
        date: When it was made, in words; "" for no date.
    """
    about = ", ".join(part for part in (found.scale, date and f"made {date}") if part)
    return Template(asset("card.html")).substitute(
        title=escape(f"{found.name} at the pond"),
        name=escape(found.name),
        about=escape(about),
        css=asset("dial.css"),
        js=asset("dial.js"),
        dial=dial_html(her, found, "h2"),
        sure=_headed(SURE, found.sure),
        gaps=_headed(GAPS, found.not_entered),
        way_up=_headed(WAY_UP, found.way_up),
        depth=_list(found.depth),
        lifting=_list(found.lifting),
        checks="".join(
            f'<li><label><input type="checkbox"> {escape(one)}</label></li>' for one in CHECKS
        ),
        cautions=_list(found.cautions),
        last_word=LAST_WORD,
    )


def _headed(head: str, texts: tuple[str, ...]) -> str:
    """Return texts under a heading of their own; nothing where there are none."""
    return f"<h2>{head}</h2><ul>{_list(texts)}</ul>" if texts else ""


def _list(texts: Iterable[str]) -> str:
    return "".join(f"<li>{escape(text)}</li>" for text in texts)
