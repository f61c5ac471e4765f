"""Pictures of every sort, written by Pillow itself, and PDFs put together by hand."""

import io
import subprocess
import sys
from collections.abc import Callable
from contextlib import suppress

import numpy as np
import pypdfium2
import pytest
from PIL import Image

from trimdive.errors import PlanError
from trimdive.plans import picture_of

WIDE, HIGH = 60, 40


def marked(mode: str = "RGB") -> Image.Image:
    """Return white paper with a black square near its upper left corner."""
    image = Image.new("L", (WIDE, HIGH), 255)
    image.paste(0, (4, 2, 14, 12))
    return image.convert(mode)


def in_bytes(image: Image.Image, kind: str, **how: object) -> bytes:
    held = io.BytesIO()
    image.save(held, kind, **how)
    return held.getvalue()


def pdf(pages: int = 1, size: tuple[float, float] = (720.0, 360.0)) -> bytes:
    """Return a PDF of so many pages."""
    document = pypdfium2.PdfDocument.new()
    for _ in range(pages):
        document.new_page(*size)
    held = io.BytesIO()
    document.save(held)
    document.close()
    return held.getvalue()


def locked(text: str = "/Filter /Standard /V 1 /R 2") -> bytes:
    """Return a PDF that says a password locks it, and which no password opens."""
    lock = f"<< {text} /O <{'41' * 32}> /U <{'42' * 32}> /P -4 >>"
    things = [
        "<< /Type /Catalog /Pages 2 0 R >>",
        "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
        "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 100 100] >>",
        lock,
    ]
    body, places = "%PDF-1.4\n", []
    for number, thing in enumerate(things, 1):
        places.append(len(body))
        body += f"{number} 0 obj\n{thing}\nendobj\n"
    start = len(body)
    rows = "".join(f"{place:010d} 00000 n \n" for place in places)
    body += f"xref\n0 {len(things) + 1}\n0000000000 65535 f \n{rows}"
    name = f"<{'43' * 16}>"
    body += f"trailer\n<< /Size 5 /Root 1 0 R /Encrypt 4 0 R /ID [{name} {name}] >>\n"
    return (body + f"startxref\n{start}\n%%EOF\n").encode()


@pytest.mark.parametrize("kind", ["PNG", "JPEG", "TIFF", "WEBP"])
@pytest.mark.parametrize("mode", ["L", "RGB"])
def test_every_kind_of_picture_is_read(kind: str, mode: str) -> None:
    found = picture_of(in_bytes(marked(mode), kind, quality=100), "plan")
    assert (found.width, found.height) == (WIDE, HIGH)
    assert found.grey[4:10, 6:12].max() < 30
    assert found.grey[20:, 20:].min() > 240


# Exif 2.3, 4.6.4 A, Orientation: which side row 0 and column 0 of the picture show.
TURNED: dict[int, Callable[[np.ndarray], np.ndarray]] = {
    1: lambda seen: seen,
    2: lambda seen: seen[:, ::-1],
    3: lambda seen: seen[::-1, ::-1],
    4: lambda seen: seen[::-1],
    5: lambda seen: seen.T,
    6: lambda seen: np.rot90(seen),  # row 0 is the right side: kept turned to the left
    7: lambda seen: seen[::-1, ::-1].T,
    8: lambda seen: np.rot90(seen, -1),
}


@pytest.mark.parametrize("kind", ["PNG", "JPEG", "TIFF", "WEBP"])
@pytest.mark.parametrize("turn", list(TURNED))
def test_what_wishes_to_be_turned_is_turned(kind: str, turn: int) -> None:
    upright = np.asarray(marked("L"))
    exif = Image.Exif()
    exif[0x0112] = turn
    kept = Image.fromarray(np.ascontiguousarray(TURNED[turn](upright)))
    found = picture_of(in_bytes(kept.convert("RGB"), kind, exif=exif, quality=100), "plan")
    assert found.grey.shape == upright.shape
    assert np.abs(found.grey.astype(int) - upright)[1:-1, 1:-1].mean() < 4


def test_clear_paper_is_white() -> None:
    clear = Image.new("RGBA", (WIDE, HIGH), (0, 0, 0, 0))
    clear.paste((0, 0, 0, 255), (4, 2, 14, 12))
    found = picture_of(in_bytes(clear, "PNG"), "plan")
    assert found.grey[5, 8] == 0
    assert found.grey[30, 30] == 255


def test_deep_shades_are_not_cut_off() -> None:
    deep = Image.fromarray(np.full((HIGH, WIDE), 32768, dtype=np.uint16))
    assert abs(int(picture_of(in_bytes(deep, "PNG"), "plan").grey[0, 0]) - 127) <= 1


def test_a_bilevel_scan_is_read() -> None:
    found = picture_of(in_bytes(marked("1"), "TIFF", compression="group4"), "plan")
    assert set(np.unique(found.grey).tolist()) == {0, 255}


def test_paper_is_as_large_as_the_scanner_says() -> None:
    scan = in_bytes(marked("L"), "PNG", dpi=(300, 300))
    assert picture_of(scan, "plan").pitch == pytest.approx(0.0254 / 300, rel=1e-4)
    assert picture_of(in_bytes(marked("L"), "JPEG", dpi=(72, 72)), "plan").pitch == 0.0


def test_a_page_of_a_pdf_has_its_own_size() -> None:
    found = picture_of(pdf(), "plan.pdf")  # 10 by 5 inches
    assert found.width * found.pitch == pytest.approx(10 * 0.0254, rel=1e-3)
    assert found.height * found.pitch == pytest.approx(5 * 0.0254, rel=1e-3)


def test_one_page_of_a_thousand() -> None:
    many = pdf(1000, (72.0, 36.0))
    assert picture_of(many, "plan.pdf", page=777).page == 777
    with pytest.raises(PlanError, match="1000 pages; which one holds the plan"):
        picture_of(many, "plan.pdf")
    with pytest.raises(PlanError, match="there is no page 1001"):
        picture_of(many, "plan.pdf", page=1001)


def test_a_vast_page_is_drawn_as_finely_as_goes() -> None:
    found = picture_of(pdf(1, (14400.0, 14400.0)), "plan.pdf")  # 5 m by 5 m
    assert 90e6 < found.grey.size <= 100e6


@pytest.mark.parametrize(
    ("contents", "said"),
    [
        (b"", "plan: the file is empty. Save or scan it again."),
        (b"hello", "this is no picture that can be read. Save it as PNG"),
        (b"GIF89a\x10\x00\x10\x00\x00\x00\x00;", "this is no picture that can be read"),
        (b"%PDF-1.4 nothing", "the PDF is damaged. Save it again"),
        (in_bytes(marked(), "PNG")[:90], "the picture is damaged. Copy, save or scan it again."),
        (in_bytes(marked(), "JPEG")[:400], "damaged"),
        (in_bytes(marked(), "WEBP")[:60], "damaged|no picture"),
        (in_bytes(Image.new("L", (10, 900)), "PNG"), "has only 10 by 900 pixels"),
        (locked(), "a password locks it. Enter its password, or save it once without."),
    ],
)
def test_what_cannot_be_read_is_refused_in_one_sentence(contents: bytes, said: str) -> None:
    with pytest.raises(PlanError, match=said) as refused:
        picture_of(contents, "plan")
    assert str(refused.value).count("\n") == 0


def test_a_wrong_password_is_told_from_none() -> None:
    with pytest.raises(PlanError, match="this is not its password"):
        picture_of(locked(), "plan.pdf", password="boat")


def test_more_than_100_million_pixels_are_refused_before_they_are_read() -> None:
    vast = in_bytes(Image.new("1", (10_001, 10_000)), "PNG")
    with pytest.raises(PlanError, match=r"10001 by 10000 pixels are more than 100 million\. Scan"):
        picture_of(vast, "plan")


@pytest.mark.skipif(sys.platform != "linux", reason="memory is counted in kilobytes there")
def test_100_million_pixels_stay_within_their_memory() -> None:
    program = """
import io, re
from pathlib import Path
from PIL import Image
from trimdive.plans import picture_of
held = io.BytesIO()
Image.new("1", (10_000, 10_000), 1).convert("P").save(held, "PNG", compress_level=1)
found = picture_of(held.getvalue(), "plan")
most = re.search(r"VmHWM:\\s+(\\d+) kB", Path("/proc/self/status").read_text())
print(found.grey.size, int(most[1]) / 1e6)  # of this program alone, not of what began it
"""
    result = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    size, most = result.stdout.split()
    assert int(size) == 100_000_000
    assert float(most) < 0.9  # GB: eight bytes a pixel, and the program itself


@pytest.mark.parametrize("kind", ["PNG", "JPEG", "TIFF", "WEBP"])
def test_whatever_the_bytes_are_an_error_is_a_sentence(kind: str) -> None:
    rng = np.random.default_rng(4)
    good = bytearray(in_bytes(marked(), kind))
    for _ in range(60):
        bad = bytearray(good)
        for place in rng.integers(0, len(bad), 6):
            bad[place] = rng.integers(0, 256)
        with suppress(PlanError):  # whatever else is raised fails the test
            picture_of(bytes(bad), "plan")
