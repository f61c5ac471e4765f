"""A photograph of a boat in a tub, painted triangle by triangle from afar to near."""

import io

import numpy as np
from PIL import Image, ImageDraw
from tests.photographs.pinhole import Floats, Pinhole

LIGHT = np.array([0.4, 0.7, 0.6]) / np.linalg.norm([0.4, 0.7, 0.6])
FILM = 43.27  # diagonal of a picture on 35 mm film, in millimetres


def painted(
    camera: Pinhole, corners: Floats, n: Floats, d: float, marks: Floats, *, film: bool = True
) -> bytes:
    """Return a picture as a camera saves it, with the focal length in it where ``film``."""
    image = Image.new("RGB", camera.size, (214, 210, 202))
    pen = ImageDraw.Draw(image)
    middle = corners.reshape(-1, 3).mean(axis=0)
    rim = np.array([[x, y, 0.0] for x, y in ((-1, -1), (2, -1), (2, 1), (-1, 1))])
    rim[:, 2] = (d - rim[:, :2] @ n[:2]) / n[2]
    pen.polygon([tuple(one) for one in camera.sees(rim)], fill=(120, 150, 160))
    order = np.argsort(-np.linalg.norm(corners.mean(axis=1) - camera.at, axis=1))
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    normals /= np.maximum(np.linalg.norm(normals, axis=1, keepdims=True), 1e-30)
    for number in order:
        triangle = corners[number]
        if normals[number] @ (camera.at - triangle[0]) <= 0.0:
            continue
        shade = 60 + int(60 * abs(normals[number] @ LIGHT))
        for part, colour in (
            (_part(triangle, n, d, above=False), (70, 105, 118)),
            (_part(triangle, n, d, above=True), (shade, shade, shade + 4)),
        ):
            if len(part) > 2:
                pen.polygon([tuple(one) for one in camera.sees(part)], fill=colour)
    del middle
    for x, y in camera.sees(marks):
        pen.line([(x - 9, y), (x + 9, y)], fill=(250, 240, 120), width=2)
        pen.line([(x, y - 9), (x, y + 9)], fill=(250, 240, 120), width=2)
    exif = Image.Exif()
    if film:
        exif.get_ifd(0x8769)[0xA405] = round(camera.focal * FILM / np.hypot(*camera.size))
    held = io.BytesIO()
    image.save(held, "JPEG", quality=90, exif=exif)
    return held.getvalue()


def _part(triangle: Floats, n: Floats, d: float, *, above: bool) -> Floats:
    """Return what of a triangle lies above the water, or under it, shape (k, 3)."""
    height = (triangle @ n - d) * (1.0 if above else -1.0)
    found: list[Floats] = []
    for one in range(3):
        other = (one + 1) % 3
        if height[one] >= 0.0:
            found.append(triangle[one])
        if (height[one] >= 0.0) != (height[other] >= 0.0):
            share = height[one] / (height[one] - height[other])
            found.append(triangle[one] + share * (triangle[other] - triangle[one]))
    return np.array(found).reshape(-1, 3)
