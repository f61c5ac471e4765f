"""What she does coming up with a tower full of water is one sentence, in ``dive`` and ``check``."""

from trimdive.assessment import Assessment
from trimdive.cli.orders import check_text
from trimdive.told.held import held_words


def test_check_says_it_as_dive_does_where_she_leans_over(
    bittern: Assessment, grebe: Assessment
) -> None:
    ((leans, text),) = held_words(bittern)
    assert leans
    assert text in str([*check_text(bittern)])
    ((leans, text),) = held_words(grebe)
    assert not leans
    assert text not in str([*check_text(grebe)])
