"""The boat file described as a JSON schema, for editors, forms and the handbook."""

from typing import Any, cast

from trimdive.boatfile.boat import Boat
from trimdive.units import exact

Node = dict[str, Any]
NOTHING = {"type": "null"}
FIRST = ("format", "name", "surface")


def schema() -> Node:
    """Return the JSON schema of a boat file; defaults are written as a builder types them."""
    whole = Boat.model_json_schema(by_alias=True)
    tidy = cast("Node", _tidied(whole))
    tidy["title"] = "trimdive boat file"
    tidy["required"] = ["format", *tidy["required"]]
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **tidy}


def name_first(fields: Node) -> Node:
    """Return fields with the name and the surface before all others."""
    return {key: fields[key] for key in FIRST if key in fields} | fields


def _tidied(node: Any) -> Any:
    """Return a node without what a TOML file cannot hold: titles of classes and nothings."""
    if isinstance(node, list):
        return [_tidied(entry) for entry in cast("list[Any]", node) if entry != NOTHING]
    if not isinstance(node, dict):
        return node
    tidy: Node = {
        key: _tidied(entry)
        for key, entry in cast("Node", node).items()
        if not (key == "title" and isinstance(entry, str))
        and not (key == "default" and (entry in (None, "") or isinstance(entry, dict | list)))
    }
    if isinstance(tidy.get("properties"), dict):
        tidy["properties"] = name_first(tidy["properties"])
    choices = tidy.get("anyOf", [])
    if len(choices) == 1:
        tidy = {**choices[0], **{key: tidy[key] for key in tidy if key != "anyOf"}}
    if isinstance(tidy.get("default"), float) and "quantity" in tidy:
        tidy["default"] = exact(tidy["default"], tidy["quantity"])
    return tidy
