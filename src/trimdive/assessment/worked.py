"""What is worked out of a boat when first asked for, once, in whichever units she is shown."""

from functools import cached_property
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    worked = property  # to a type checker it is that, since nothing is ever put into it
else:

    class worked(cached_property):  # noqa: N801 - written as ``property`` is
        """An answer, worked out when first asked for and kept with the boat in her own units."""

        def __get__(self, her: object, owner: type | None = None) -> object:
            """Return the answer; of the same boat in other units it is her own."""
            return super().__get__(her if her is None else her.own or her, owner)
