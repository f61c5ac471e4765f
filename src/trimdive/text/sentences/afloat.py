"""The words for how she floats, and for what brings her to her waterline and level."""

from trimdive.fact import Fact
from trimdive.text.said import said, says
from trimdive.text.say import Say


@says("sinks")
def _sinks(say: Say, excess: float) -> str:
    return f"she sinks: {say.weight(excess)} with tanks blown"


@says("for-her-waterline")
def _for_her_waterline(say: Say, mend: Fact | str) -> str:
    text = said(say, mend)
    return f"For her waterline: {text[:1].lower()}{text[1:]}"
