"""Names that would steer a terminal: ECMA-48, control functions (C0 and C1 sets) are refused."""

import pytest
from tests.boatfile.conftest import BOAT

from trimdive.boatfile import parse
from trimdive.errors import BoatFileError


@pytest.mark.parametrize(
    "sign", ["\\u001b[2J", "\\u0000", "\\u0007", "\\u009b1m", "\\r", "\\u007f"]
)
def test_a_sign_that_cannot_be_seen_is_refused(sign: str) -> None:
    with pytest.raises(BoatFileError, match=r"boat.toml:2: .*cannot be seen \(U\+00"):
        parse(BOAT.replace('name = "Trial"', f'name = "Tr{sign}ial"'))
    with pytest.raises(BoatFileError, match="cannot be seen"):
        parse(BOAT.replace('name = "tower"', f'name = "to{sign}wer"'))


def test_letters_of_any_language_are_names() -> None:
    assert parse(BOAT.replace('name = "Trial"', 'name = "Möwe 潜 é́ 🚢"')).name == "Möwe 潜 é́ 🚢"
