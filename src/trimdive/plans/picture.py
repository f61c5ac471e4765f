"""A plan as it comes, from a scanner, a telephone or a PDF, as a picture in shades of grey.

Pixels are counted from the upper left corner of the picture, to the right and down; the middle of
the first pixel is (0.5, 0.5). What stands in the picture as a wish to be turned (EXIF) is done.
"""

import io
import threading
import warnings
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from trimdive.errors import LockedError, PlanError, fenced
from trimdive.records import record
from trimdive.units import factor_of

if TYPE_CHECKING:
    from PIL.Image import Image

Grey = NDArray[np.uint8]
FORMATS = ("PNG", "JPEG", "TIFF", "WEBP")
MOST_PIXELS = 100_000_000  # of one picture; eight bytes each while it is read [-]
LEAST_PIXELS = 16  # along the shorter side; less is no plan [-]
INCH = factor_of("in", "length")  # [m]
FINE = 300.0 / INCH  # pixels per metre of paper to which a page of a PDF is drawn [1/m]
POINT = INCH / 72.0  # unit of length in a PDF [m]
USUAL = (72.0, 96.0)  # dots per inch that programs write where they know of no paper [-]
WHITE = 255
ORIENTATION = 0x0112  # the mark of EXIF that says how a picture is to be turned
EXIF, FILM = 0x8769, 0xA405  # where EXIF keeps what the camera was; focal length as on 35 mm film
DIAGONAL = 43.27  # of a picture on 35 mm film, 36 mm by 24 mm, in millimetres [-]
# Pillow's turns and flips, by the figure of that mark (Exif 2.3, 4.6.4 A).
TURNS = {2: 0, 3: 3, 4: 1, 5: 5, 6: 4, 7: 6, 8: 2}
ONE_AT_A_TIME = threading.Lock()  # what draws pages of a PDF keeps no two callers apart


@record
class PlanPicture:
    """A plan in shades of grey; ink is dark."""

    grey: Grey  # shape (height, width), 0 black, 255 white
    pitch: float  # paper from pixel to pixel, 0 where the file does not say it [m]
    page: int  # which page or frame of its file it is, from one
    pages: int  # how many there are
    focal: float = 0.0  # focal length in pixels, 0 where the file does not say it [-]

    @property
    def width(self) -> int:
        """Return how many pixels it is wide."""
        return int(self.grey.shape[1])

    @property
    def height(self) -> int:
        """Return how many pixels it is high."""
        return int(self.grey.shape[0])


def picture_of(contents: bytes, name: str, *, page: int = 0, password: str = "") -> PlanPicture:
    """Return the picture that a file holds.

    Args:
        contents: The file, whole.
        name: What it is called, for the builder.
        page: Which page of a PDF, or frame of a TIFF, from one; 0 where there is only one.
        password: What opens a PDF that is locked.

    Raises:
        PlanError: It is no picture, damaged, locked, too large or too small, or has no such page.

    Limits:
        100 million pixels, and at most eight bytes of memory for each while it is read.
    """
    if not contents:
        raise PlanError("the file is empty", name, "Save or scan it again.")
    if b"%PDF-" in contents[:1024]:
        found = _page_of(contents, name, page, password)
    else:
        found = _image_of(contents, name, page)
    if min(found.width, found.height) < LEAST_PIXELS:
        what = f"the picture has only {found.width} by {found.height} pixels"
        raise PlanError(what, name, "Scan or photograph it larger.")
    return found


def _refuse_large(width: int, height: int, name: str) -> None:
    """Refuse a picture that would not go into memory.

    Raises:
        PlanError: It has too many pixels.
    """
    if width * height > MOST_PIXELS:
        most = f"{MOST_PIXELS / 1e6:.0f} million"
        what = f"{width} by {height} pixels are more than {most}"
        mend = f"Scan it at fewer dots per inch, or make it smaller: {most} at most."
        raise PlanError(what, name, mend)


def _which(page: int, pages: int, name: str, word: str) -> int:
    """Return which page is meant, from zero.

    Raises:
        PlanError: There is no such page, or several and none was chosen.
    """
    if page == 0 and pages == 1:
        return 0
    if pages < 1:
        raise PlanError(f"it has no {word}", name, "Save it again.")
    if page == 0:
        what = f"it has {pages} {word}s; which one holds the plan?"
        raise PlanError(what, name, f"Choose one, from 1 to {pages}.")
    if not 1 <= page <= pages:
        range_ = f"from 1 to {pages}" if pages > 1 else "1"
        raise PlanError(f"there is no {word} {page}", name, f"Choose one: {range_}.")
    return page - 1


def _image_of(contents: bytes, name: str, page: int) -> PlanPicture:
    """Return a picture from PNG, JPEG, TIFF or WebP.

    Raises:
        PlanError: It is none of these, damaged, or too large.
    """
    from PIL import Image, UnidentifiedImageError

    Image.MAX_IMAGE_PIXELS = None  # the limit is ours, and has a sentence
    mend = "Save it as PNG, JPEG, TIFF, WebP or PDF, and take that file."
    damaged = PlanError("the picture is damaged", name, "Copy, save or scan it again.")
    with fenced(damaged), warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of what stands beside the picture in its file
        try:
            image = Image.open(io.BytesIO(contents), formats=FORMATS)
        except UnidentifiedImageError:
            raise PlanError("this is no picture that can be read", name, mend) from None
        with image:
            pages = int(getattr(image, "n_frames", 1)) if image.format == "TIFF" else 1
            number = _which(page, pages, name, "page")
            if number:
                image.seek(number)
            _refuse_large(*image.size, name)
            image.draft("L", image.size)
            image.load()
            pitch, turn = _pitch_of(image), TURNS.get(_orientation(image))
            focal = _focal_of(image)
            shades = _one_shade(image)
        del image  # the larger of the two
        turned = shades if turn is None else shades.transpose(Image.Transpose(turn))
        grey = np.asarray(turned, dtype=np.uint8)
    return PlanPicture(grey=grey, pitch=pitch, page=number + 1, pages=pages, focal=focal)


def _one_shade(image: "Image") -> "Image":
    """Return a picture in 256 shades of grey; what is clear shows white paper."""
    from PIL import Image

    if image.mode.startswith(("I", "F")):
        deep = np.asarray(image)
        most = 65535.0 if image.mode.startswith("I") else max(float(np.nanmax(deep)), 1e-30)
        shades = np.clip(np.nan_to_num(deep, nan=most) / most, 0.0, 1.0)
        return Image.fromarray((shades * WHITE).astype(np.uint8))
    if image.mode in ("RGBA", "LA", "PA", "RGBa", "La") or "transparency" in image.info:
        clear = image.convert("RGBA") if image.mode not in ("RGBA", "LA") else image
        grey = Image.new("L", image.size, WHITE)
        grey.paste(clear.convert("L"), mask=clear.getchannel("A"))
        return grey
    return image.convert("L")


def _orientation(image: "Image") -> int:
    """Return how a picture wishes to be turned, 1 where it does not say it, or not clearly."""
    try:
        return int(image.getexif().get(ORIENTATION, 1))
    except (ValueError, TypeError, SyntaxError, OSError):
        return 1


def _focal_of(image: "Image") -> float:
    """Return the focal length in pixels by what the file says of the camera, or 0 [-].

    Source:
        Exif 2.3, 4.6.5, tag 41989; that it goes by the diagonal is common practice, no source.
    """
    try:
        film = float(image.getexif().get_ifd(EXIF).get(FILM, 0))
    except (ValueError, TypeError, SyntaxError, OSError, KeyError):
        return 0.0
    return film / DIAGONAL * float(np.hypot(*image.size)) if 5.0 <= film <= 5000.0 else 0.0


def _pitch_of(image: "Image") -> float:
    """Return how far pixels lie apart on paper, as the file has it, or 0 [m]."""
    try:
        across, up = (float(value) for value in image.info.get("dpi", (0.0, 0.0)))
    except (TypeError, ValueError, ZeroDivisionError):
        return 0.0
    if across in USUAL or abs(across - up) > 0.01 * across:
        return 0.0
    return INCH / across if 20.0 <= across <= 10_000.0 else 0.0


def _page_of(contents: bytes, name: str, page: int, password: str) -> PlanPicture:
    """Return one page of a PDF as a picture.

    Raises:
        PlanError: It is damaged or locked, or has no such page.
    """
    import pypdfium2

    damaged = PlanError("the PDF is damaged", name, "Save it again, or scan the sheet.")
    with ONE_AT_A_TIME, fenced(damaged):
        try:
            document = pypdfium2.PdfDocument(contents, password=password or None)
        except pypdfium2.PdfiumError as refused:
            raise (_locked(name, password) if "assword" in str(refused) else damaged) from None
        try:
            pages = len(document)
            number = _which(page, pages, name, "page")
            sheet = document[number]
            across, up = (float(side) * POINT for side in sheet.get_size())
            fine = min(FINE, float(np.sqrt(0.99 * MOST_PIXELS / (across * up))))
            scale: Any = fine * POINT  # named as a whole number there, and is none
            drawn = sheet.render(scale=scale, grayscale=True, may_draw_forms=False)
            grey = np.array(drawn.to_numpy(), dtype=np.uint8).reshape(drawn.height, drawn.width)
        finally:
            document.close()
        return PlanPicture(grey=grey, pitch=1.0 / fine, page=number + 1, pages=pages)


def _locked(name: str, password: str) -> LockedError:
    """Return that a PDF does not open."""
    what = "this is not its password" if password else "a password locks it"
    return LockedError(what, name, "Enter its password, or save it once without.")
