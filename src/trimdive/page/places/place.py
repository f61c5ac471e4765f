"""What a place of work is: its name, what it shows, what can be pressed and asked there."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from trimdive.page.desk import Desk
    from trimdive.page.form import Typed

View = dict[str, object]


@dataclass(frozen=True, slots=True, kw_only=True)
class Take:
    """What is done with a file that is brought: it is read first, apart from the page."""

    reads: Callable[..., object]  # in a process of its own: name, data, and what is given
    takes: "Callable[[Desk, str, bytes, object], None]"  # takes in hand what was read
    given: "Callable[[Desk, Typed], tuple[object, ...]]" = lambda _, __: ()  # what reading it needs


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """One place of work.

    Its template is ``places/KEY.html``; a script and a style sheet of its own are
    ``static/places/KEY.js`` and ``static/places/KEY.css``.
    """

    key: str  # in addresses and in names of its buttons, such as "scales"
    name: str  # on the page
    answers: str  # what is done there, in a few words
    view: "Callable[[Desk, Typed], View]"  # what its template is given, as ``place``
    acts: "Mapping[str, Callable[[Desk, Typed], None]]"  # by what follows "KEY " on a button
    asks: "Mapping[str, Callable[[Desk, Request], Response]]"  # by what follows "/KEY/" in a GET
    takes: Mapping[str, Take]  # files dropped, by what follows "/KEY/" in a POST
    is_open: "Callable[[Desk], bool]" = lambda _: True  # whether it answers something yet
