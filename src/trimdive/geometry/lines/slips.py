"""The ways in which a typed figure goes wrong: a slipped decimal point, two digits swapped."""

from decimal import Decimal, InvalidOperation


def slips(typed: str) -> tuple[str, ...]:
    """Return what may have been meant by a figure, the likeliest kinds of slip only.

    >>> slips("5.98")
    ('59.8', '0.598', '598', '0.0598', '9.58', '5.89')
    """
    return tuple(dict.fromkeys([*slipped_points(typed), *swapped_digits(typed)]))


def slipped_points(typed: str) -> tuple[str, ...]:
    """Return a figure with its decimal point one or two places off.

    >>> slipped_points("2,5")
    ('25', '0,25', '250', '0,025')
    """
    try:
        value = Decimal(typed.replace("\u2212", "-").replace(",", "."))
    except InvalidOperation:
        return ()
    if not value.is_finite() or value == 0:
        return ()
    shifted = [_written(value.scaleb(places)) for places in (1, -1, 2, -2)]
    return tuple(text.replace(".", ",") if "," in typed else text for text in shifted)


def swapped_digits(typed: str) -> tuple[str, ...]:
    """Return a figure with each two neighbouring digits swapped.

    >>> swapped_digits("1,53")
    ('5,13', '1,35')
    """
    swapped = (_swapped(typed, at) for at in range(len(typed) - 1))
    return tuple(text for text in swapped if text)


def _written(value: Decimal) -> str:
    text = f"{value:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _swapped(text: str, at: int) -> str:
    """Return the figure with the digit at a place and the next digit swapped, or ''."""
    after = at + 2 if text[at + 1] in ".," and at + 2 < len(text) else at + 1
    a, b = text[at], text[after]
    leads = at == 0 and b == "0" and after == 1
    if not (a.isdigit() and b.isdigit()) or a == b or leads:
        return ""
    return text[:at] + b + text[at + 1 : after] + a + text[after + 1 :]
