"""Charts of the demo boats, each worked out once, and ways to look into them."""

from collections.abc import Iterator
from functools import cache
from pathlib import Path
from xml.etree import ElementTree

from trimdive.assessment import Assessment, assess
from trimdive.pictures.charts import Chart, dive_chart, gm_chart, gz_chart, lever_states, svg

BOATS = Path(__file__).parents[2] / "boats"
NAMES = sorted(file.parent.name for file in BOATS.glob("*/boat.toml"))
KINDS = ("dive", "gz", "gm")


@cache
def boat(name: str) -> Assessment:
    """Return one of the boats of the shelf, assessed."""
    return assess(BOATS / name / "boat.toml")


@cache
def chart(name: str, kind: str) -> Chart:
    """Return a chart of a boat."""
    her = boat(name)
    if kind == "dive":
        return dive_chart(her, her.down, her.up)
    if kind == "gz":
        return gz_chart(her, lever_states(her, her.down))
    return gm_chart(her, her.down)


@cache
def drawn(name: str, kind: str) -> str:
    """Return a chart as SVG."""
    return svg(chart(name, kind))


def words(name: str, kind: str) -> list[str]:
    """Return all lettering of a chart, as read by an XML reader."""
    root = ElementTree.fromstring(drawn(name, kind))
    return [text for one in root.iter() if one.tag.endswith("}text") and (text := one.text)]


def inside(part: object) -> Iterator[dict[str, object]]:
    """Yield every dictionary in a chart."""
    if isinstance(part, dict):
        yield part
        for one in part.values():
            yield from inside(one)
    elif isinstance(part, list):
        for one in part:
            yield from inside(one)


def curves(name: str, kind: str) -> list[dict[str, object]]:
    """Return every layer of a chart that draws lines with runs."""
    return [
        part
        for part in inside(chart(name, kind))
        if isinstance(part.get("encoding"), dict) and "detail" in part["encoding"]  # type: ignore[operator]
    ]


def rows(layer: dict[str, object]) -> list[dict[str, float | str]]:
    """Return the rows of a layer."""
    data = layer["data"]
    assert isinstance(data, dict)
    return list(data["values"])
