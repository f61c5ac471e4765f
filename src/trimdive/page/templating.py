"""The page's templates: names of boats and parts are escaped, what is missing is a fault."""

from jinja2 import Environment, PackageLoader, StrictUndefined

TEMPLATES = Environment(
    loader=PackageLoader("trimdive.page"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)


def rendered(template: str, **told: object) -> str:
    """Return a template filled in."""
    return TEMPLATES.get_template(template).render(told)
