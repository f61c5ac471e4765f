"""Letters and quotes: what Python's own codecs write is read back, whatever the coding."""

import codecs

import pytest
from tests.in_words import in_words

from trimdive.weightlists import ListError, understood

TEXT = "Bezeichnung;Gewicht [g];Höhe [mm]\nKühlkörper;190,5;48\nTürmchen;55;120\n"


@pytest.mark.parametrize(
    ("coding", "mark", "letters"),
    [
        ("utf-8", b"", "UTF-8"),
        ("utf-8", codecs.BOM_UTF8, "UTF-8"),
        ("utf-16-le", codecs.BOM_UTF16_LE, "UTF-16"),
        ("utf-16-be", codecs.BOM_UTF16_BE, "UTF-16"),
        ("utf-16-le", b"", "UTF-16"),
        ("utf-16-be", b"", "UTF-16"),
        ("utf-32-le", codecs.BOM_UTF32_LE, "UTF-32"),
        ("cp1252", b"", "Latin-1"),
        ("latin-1", b"", "Latin-1"),
    ],
)
def test_every_coding(coding: str, mark: bytes, letters: str) -> None:
    preview = understood(mark + TEXT.encode(coding), "liste.csv")
    assert [item.name for item in preview.items] == ["Kühlkörper", "Türmchen"]
    assert preview.items[0].mass == pytest.approx(0.1905)
    assert letters in in_words(preview.how[0])


@pytest.mark.parametrize(
    ("data", "what"),
    [
        (b"", "it is empty"),
        (b"\n \n\t\n", "it is empty"),
        (b"%PDF-1.7 ...", "it is a PDF"),
        (b"\x89PNG\r\n\x1a\n", "it is a picture"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "a workbook of the old kind"),
        (b"Part,Mass [g]\nmotor,1\x0090\n", "it is no text"),
        (codecs.BOM_UTF16_LE + "Part,Mass [g]\n".encode("utf-16-le")[:-1], "middle of a letter"),
        (b"one two three\nfour five\n", "no row names its columns"),
        (b"Mass [g]\n190\n200\n", "no column holds the names"),
        (b"Part,Price\nmotor,20\n", "none of them is a mass"),
        (b"Part,Mass [g]\n" + b"motor,190\n" * 5001, "more than 5000 rows"),
        (b"Part,Mass [g]\n" + b"," * 200 + b"\n", "the row has 201 cells"),
        (b'Part,Mass [g]\n"motor,190\n' + b"servo,55\n" * 400, "a quote was opened and not closed"),
        (bytes(17 * 2**20), "it is 17 MB"),
    ],
)
def test_bad_files_in_one_sentence(data: bytes, what: str) -> None:
    with pytest.raises(ListError, match=what) as caught:
        understood(data, "list.csv")
    assert str(caught.value).startswith("list.csv")
    assert "\n" not in str(caught.value)
    assert caught.value.mend


def test_an_open_quote_is_named_with_its_line() -> None:
    data = b'Part,Mass [g]\nmotor,190\n"servo,55\n' + b"lead,500\n" * 400
    with pytest.raises(ListError, match=r"list\.csv:3"):
        understood(data, "list.csv")


def test_a_quote_open_in_a_short_list_loses_no_row_silently() -> None:
    preview = understood(b'Part,Mass [g]\nmotor,190\n"servo,55\nlead,500\n', "list.csv")
    assert preview.mass == pytest.approx(0.19)
    (row,) = [row for row in preview.rows if row.number == 3]
    assert "lead" in row.text


def test_inch_marks_in_cells() -> None:
    data = b'Part,Mass [g],From stern\nmotor,190,14"\nservo,55,9 3/4"\n'
    items = understood(data, "list.csv").items
    assert [item.figures["x"] for item in items] == pytest.approx([14 * 0.0254, 9.75 * 0.0254])


def test_line_breaks_in_a_cell_keep_the_numbers_of_lines() -> None:
    data = b'Part,Mass [g],Note\nmotor,190,"two\nlines"\nservo,55,\n'
    preview = understood(data, "list.csv")
    assert [item.row for item in preview.items] == [2, 4]
    assert preview.items[0].words["note"] == "two lines"
