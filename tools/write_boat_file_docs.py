"""Writes docs/boat-file.md and docs/boat-file.schema.json from the models of the boat file.

Run it after a field was added or described anew: ``python tools/write_boat_file_docs.py``.
"""

import json
from pathlib import Path
from typing import Any

from trimdive.boatfile.schema import schema
from trimdive.data import table
from trimdive.units import kinds
from trimdive.units.table import units

DOCS = Path(__file__).parents[1] / "docs"
Node = dict[str, Any]

HEAD = """\
# The boat file

<!-- Written by tools/write_boat_file_docs.py from the models. Change the models, not this page. -->

A boat is one text file in TOML, by custom `boat.toml` in a folder of its own, with its lines (CSV)
and meshes (STL) beside it. It is written to be read and edited by a person; comments and order are
kept when the program saves.

```toml
{example}```

## How to write it

- **Quantities** stand in quotes with their unit: `"850 mm"`, `"9 3/4 in"`, `"3 lb 4 oz"`,
  `"2,4 mm"`, `"57 °F"`. A number without a unit takes the boat's own unit, named in `[units]`;
  where none is named it is an error, never a guess. `"1,200 g"` is asked about, since the comma may
  part thousands or decimals. A word such as `about`, `ca.` or `~` before a figure is passed over:
  a mass is a guess anyway until `known` says better, and `spread` says how far it may be off.
- **Along the boat**, x is measured from the aftermost point of the hull, or from the bow where
  `measured_from = "bow"` says so; one piece alone may say `from = "bow"`. A place may be given to
  the middle (`x`) or to either end (`x_aft`, `x_fore`). Inside the program every x runs forward
  from the stern.
- **Across**, y runs to port from the middle. **Up**, z runs from the keel line; a part may be given
  by its underside (`z_bottom`) or upper side (`z_top`).
- **Tables with double brackets**, such as `[[part]]`, stand once for each piece. In messages and
  edits they are counted from one: `tank[2].bore` is the bore of the second tank.
- **A field that is not known** is refused, with the field that is likely meant: `weight` is `mass`,
  `od` of a cylinder `outside`, `width` is `breadth`, and the unit of `mass_g` belongs to the figure
  (`src/trimdive/data/near_words.csv`).
- **Names** are yours; parts, lead and foam share one list of names. Lead and foam need none.
- **Files** that it names lie in its own folder, or in folders below it.
- **Saving** puts the new file in place in one step and keeps the one before as
  `boat.previous.toml`. A file that was changed on disk meanwhile is not overwritten.
- It is UTF-8 text of at most 16 MB.

`boat-file.schema.json` beside this page says the same to a text editor that understands JSON
schemas.

## Fields
"""

PLAIN = {
    "string": "text",
    "boolean": "true or false",
    "integer": "whole number",
    "array": "list of names",
    "object": "table",
}
BY_ENDS = """\
```toml
by_ends = { aft = "410 g", x_aft = "120 mm", fore = "370 g", x_fore = "860 mm" }
```
"""
OFFCUT = """\
```toml
offcut = { air = "18.2 g", water = "6.9 g" }
```
"""
MOVING = """\
```toml
moving = { slides = "180 mm", way = "up" }             # a mast that goes up
moving = { swings = "35°", about = "z", ahead = "9 mm" }  # a rudder: its stock 9 mm ahead
```

What it meets on its way is told among what shares room. What it touches as it lies it may go on
touching as much.
"""
EXAMPLE = DOCS / "examples" / "boat-file.toml"


def main() -> None:
    """Write both files."""
    for name, text in written().items():
        (DOCS / name).write_text(text, encoding="utf-8")


def written() -> dict[str, str]:
    """Return the text of both files, by name."""
    described = schema()
    return {
        "boat-file.md": page(described),
        "boat-file.schema.json": json.dumps(described, indent=2, ensure_ascii=False) + "\n",
    }


def page(described: Node) -> str:
    """Return the page with every field."""
    example = EXAMPLE.read_text("utf-8")
    parts = [HEAD.format(example=example), section("Top of the file", described)]
    for name, field in described["properties"].items():
        found = models(field, described["$defs"])
        if len(found) > 1:
            parts += surfaces(name, found)
            parts += rows(name, found, described["$defs"])
        elif found:
            parts.append(section(f"`[[{name}]]`" if "items" in field else f"`[{name}]`", found[0]))
    parts.append(section("`aft` and `fore` of `[waterline]`", described["$defs"]["Draught"]))
    parts.append(section("`by_ends` of anything with a mass", described["$defs"]["ByEnds"]))
    parts.append(BY_ENDS)
    parts.append(section("`offcut` of anything with a mass", described["$defs"]["Offcut"]))
    parts.append(OFFCUT)
    parts.append(section("`traced` of an outline", described["$defs"]["TracedSpread"]))
    parts.append(section("`moving` of a part, lead or foam", described["$defs"]["Travel"]))
    parts.append(MOVING)
    parts.append(units_section())
    return "\n".join(parts)


def surfaces(name: str, found: list[Node]) -> list[str]:
    """Return a section with the fields that all surfaces have, and one for each surface."""
    shared = set.intersection(*(set(model["properties"]) for model in found)) - {"surface"}
    fields = {key: field for key, field in found[0]["properties"].items() if key in shared}
    every = {
        "description": "What every region has, whatever its surface.",
        "properties": fields,
        "required": found[0]["required"],
    }
    sections = [section(f"`[[{name}]]`", every)]
    for model in found:
        own = {key: field for key, field in model["properties"].items() if key not in shared}
        head = f"`[[{name}]]` with surface `{own['surface']['const']}`"
        sections.append(section(head, model | {"properties": own}))
    return sections


def rows(name: str, found: list[Node], known: Node) -> list[str]:
    """Return a section for every list of rows that the models hold, each once."""
    lists = {key: field for model in found for key, field in model["properties"].items()}
    return [
        section(f"Each row of `{key}` of `[[{name}]]`", row)
        for key, field in lists.items()
        if "items" in field
        for row in models(field, known)
    ]


def models(field: Node, known: Node) -> list[Node]:
    """Return the tables that a field holds; none where it is a plain value."""
    holder = field.get("items", field)
    refs = [choice["$ref"] for choice in holder.get("oneOf", [holder]) if "$ref" in choice]
    return [known[ref.rsplit("/", 1)[1]] for ref in refs]


def section(head: str, model: Node) -> str:
    """Return one table of fields."""
    listed = [
        f"| `{name}` | {takes(field)} | {left_out(name, field, model)} | {sentence(field)} |"
        for name, field in model["properties"].items()
        if "items" not in field or "$ref" not in str(field)
        if "$ref" not in field or head.startswith("`[waterline")
    ]
    top = "| field | takes | left out | what it is |\n| --- | --- | --- | --- |"
    return "\n".join([f"### {head}", "", model["description"], "", top, *listed, ""])


def takes(field: Node) -> str:
    """Return what kind of value a field takes."""
    if "quantity" in field:
        return "scale" if field["quantity"] == "ratio" else field["quantity"]
    if "enum" in field:
        return " or ".join(f"`{choice}`" for choice in field["enum"])
    if "const" in field:
        return f"`{field['const']}`"
    if field.get("items", {}).get("type") in ("integer", "array"):
        return "list of pairs" if field["items"]["type"] == "array" else "list of whole numbers"
    return PLAIN.get(field.get("type", "object"), field.get("type", ""))


def left_out(name: str, field: Node, model: Node) -> str:
    """Return what holds where a field is left out."""
    if name in model.get("required", []):
        return "**needed**"
    default = field.get("default")
    return "" if default is None else f"`{json.dumps(default, ensure_ascii=False).strip(chr(34))}`"


def sentence(field: Node) -> str:
    """Return the one sentence that explains a field."""
    return field.get("description", "").replace("|", "\\|")


def units_section() -> str:
    """Return the table of units that may be typed."""
    also = {row["name"]: row["aliases"].replace(";", ", ") for row in table("units")}
    rows = []
    for kind in kinds():
        names = [unit.name for unit in units() if unit.kind == kind]
        more = [f"{name}: {also[name]}" for name in names if also[name]]
        rows.append(f"| {kind} | {', '.join(names)} | {'; '.join(more)} |")
    top = "| kind | units | also typed as |\n| --- | --- | --- |"
    tail = (
        "A name that stands for two units (gal, pt, fl oz, ton) is asked about. A rarer unit, such "
        "as a fathom, is understood too. Parts of one quantity may follow each other where they go "
        "together: `3 lb 4 oz`, `7 ft 2 1/2 in`, `1 h 20 min`."
    )
    return "\n".join(["## Units", "", tail, "", top, *rows, ""])


if __name__ == "__main__":
    main()
