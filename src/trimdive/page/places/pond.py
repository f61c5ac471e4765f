"""Pond: the water of the day, what to change for it, how deep; the card for phone and paper."""

import datetime
import re
from collections.abc import Callable, Mapping
from math import isfinite
from typing import TYPE_CHECKING
from unicodedata import normalize

from starlette.responses import PlainTextResponse, Response

from trimdive.errors import TrimdiveError
from trimdive.page.form import Typed, field_of
from trimdive.page.places.place import Place, View
from trimdive.pond import (
    CHECKS,
    GAPS,
    MEASURED,
    SURE,
    Card,
    Chosen,
    asset,
    card,
    chosen,
    dial_html,
    measured,
    named_value,
    own_water,
    paper_card,
    phone_card,
    refused,
)
from trimdive.text.held import WAY_UP
from trimdive.text.sentence import sentence

if TYPE_CHECKING:
    from starlette.requests import Request

    from trimdive.assessment import Assessment
    from trimdive.page.desk import Desk

NAMED = ("pond-kind", "pond-celsius", "pond-salt")  # what a water by name tells
SHORT_NAME = 60  # letters of a boat's name kept in a file's name


def water_typed(her: "Assessment", typed: Mapping[str, str]) -> Chosen:
    """Return the water that the dial stands at; untouched, the boat's own.

    Raises:
        TrimdiveError: There is no such water.
    """
    own = own_water(her)
    if name := field_of(typed, "pond-named"):
        typed = dict(zip(NAMED, name.split("|"), strict=False))
    kind = field_of(typed, "pond-kind")
    if not kind:
        return own
    celsius = _number(typed, "pond-celsius", own.celsius)
    if kind == MEASURED:
        return measured(_number(typed, "pond-density", own.density), celsius)
    return chosen(kind, celsius, _number(typed, "pond-salt", own.salt))


def _number(typed: Mapping[str, str], name: str, usual: float) -> float:
    """Return the number of a slider [°C, g/kg or kg/m³]; what is no number is the usual."""
    try:
        found = float(field_of(typed, name))
    except ValueError:
        return usual
    return found if isfinite(found) else usual


def _view(desk: "Desk", typed: Typed) -> View:
    her = desk.her
    if reasons := refused(her):
        right = any(one.weight == "put right" for one in her.findings)
        return {"refused": [sentence(one) for one in reasons], "at": "right" if right else "bench"}
    found = _card(her, typed)
    names = [named_value(one.water) for one in found.named]
    asked = {
        "pond-named": named_value(found.water) if named_value(found.water) in names else "",
        "pond-kind": found.water.kind,
        "pond-celsius": f"{found.water.celsius:g}",
        "pond-salt": f"{found.water.salt:g}",
        "pond-density": f"{found.water.density:.1f}",
    }
    return {
        "refused": (),
        "dial": dial_html(her, found),
        "card": found,
        "gaps": GAPS,
        "way_up": WAY_UP,
        "sure": SURE,
        "asked": asked,
        "checks": CHECKS,
        "cautions": found.cautions,
    }


def _card(her: "Assessment", typed: Mapping[str, str]) -> Card:
    """Return the card for the water typed; for her own where that is none."""
    try:
        return card(her, water_typed(her, typed))
    except TrimdiveError:
        return card(her)


def clean_name(name: str, suffix: str) -> str:
    """Return the name of a file to be taken away: letters, figures and hyphens alone.

    >>> clean_name("Bittern / as <bought>", "html"), clean_name("Überfluß", "pdf")
    ('bittern-as-bought-pond.html', 'uberflu-pond.pdf')
    """
    plain = normalize("NFKD", name).encode("ascii", "ignore").decode()
    words = re.sub(r"[^a-z0-9]+", "-", plain.lower())[:SHORT_NAME].strip("-")
    return f"{words or 'boat'}-pond.{suffix}"


def _taken_away(
    make: "Callable[[Assessment, Card, str], str | bytes]", suffix: str, kind: str
) -> "Callable[[Desk, Request], Response]":
    """Return what answers with a card as a file."""

    def answer(desk: "Desk", request: "Request") -> Response:
        return _file(desk, request, make, suffix, kind)

    return answer


def _file(
    desk: "Desk",
    request: "Request",
    make: "Callable[[Assessment, Card, str], str | bytes]",
    suffix: str,
    kind: str,
) -> Response:
    with desk.working():
        her = desk.her
        found = card(her, water_typed(her, dict(request.query_params)))
    day = datetime.date.today()
    data = make(her, found, f"{day.day} {day:%B %Y}")
    name = clean_name(her.boat.name, suffix)
    headers = {"content-disposition": f'attachment; filename="{name}"'}
    return Response(data, media_type=kind, headers=headers)


def _asset(name: str, kind: str) -> "Callable[[Desk, Request], Response]":
    """Return what answers with a piece of the dial."""

    def answer(_: "Desk", __: "Request") -> Response:
        return PlainTextResponse(asset(name), media_type=kind)

    return answer


POND = Place(
    key="pond",
    name="Pond",
    answers="Today's water and what to change for it",
    view=_view,
    acts={},
    asks={
        "phone": _taken_away(phone_card, "html", "text/html"),
        "paper": _taken_away(paper_card, "pdf", "application/pdf"),
        "dial.js": _asset("dial.js", "text/javascript"),
        "dial.css": _asset("dial.css", "text/css"),
    },
    takes={},
    is_open=lambda desk: bool(desk.her.boat.tanks),
)
