"""Every figure can be asked "why?": its formula, the values put in, the source, how sure it is."""

from trimdive.why.asked import keys, why
from trimdive.why.formula import Bit, as_text, bits
from trimdive.why.found import every_finding, found_keys
from trimdive.why.why import Item, Value, Why

__all__ = [
    "Bit",
    "Item",
    "Value",
    "Why",
    "as_text",
    "bits",
    "every_finding",
    "found_keys",
    "keys",
    "why",
]
