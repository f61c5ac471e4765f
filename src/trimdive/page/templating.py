"""The page's templates: names of boats and parts are escaped, what is missing is a fault."""

from collections.abc import MutableMapping
from typing import Any, cast

from jinja2 import Environment, PackageLoader, StrictUndefined

from trimdive.data.cautions import cautions
from trimdive.page.terms import explained, known, term
from trimdive.text.care import LAST_WORD
from trimdive.why import bits

TEMPLATES = Environment(
    loader=PackageLoader("trimdive.page"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)
GLOBALS = cast("MutableMapping[str, Any]", TEMPLATES.globals)  # what every template may call
GLOBALS.update(bits=bits, term=term, known=known, explained=explained)
GLOBALS.update(cautions=cautions, last_word=LAST_WORD)


def rendered(template: str, **context: object) -> str:
    """Return a template filled in."""
    return TEMPLATES.get_template(template).render(context)
