"""Reading a printed page back: pdftoppm makes dots of it, and what is measured here knows nothing of how it was drawn."""

import math
import shutil
import subprocess
from collections import deque
from typing import NamedTuple

import numpy as np

DPI = 300
MM_A_DOT = 25.4 / DPI
POPPLER = shutil.which("pdftoppm")
WHY_NOT = "pdftoppm is not there to read the pages back (Debian: apt-get install poppler-utils)"


class Blob(NamedTuple):
    """Dots of one colour that hang together: their places in mm, x to the right and y down the page."""

    x: np.ndarray
    y: np.ndarray

    @property
    def width(self):
        return self.x.max() - self.x.min() + MM_A_DOT

    @property
    def height(self):
        return self.y.max() - self.y.min() + MM_A_DOT

    @property
    def middle(self):
        return (self.x.max() + self.x.min()) / 2, (self.y.max() + self.y.min()) / 2


def pages_of(path, folder):
    """Every page as an array of rows, columns, red-green-blue."""
    subprocess.run([POPPLER, "-r", str(DPI), str(path), str(folder / "page")], check=True)
    return [read_ppm(page) for page in sorted(folder.glob("page-*.ppm"), key=lambda page: int(page.stem.split("-")[1]))]


def read_ppm(path):
    content = path.read_bytes()
    magic, width, height, most = content.split(maxsplit=4)[:4]
    assert (magic, most) == (b"P6", b"255")
    dots = np.frombuffer(content[-3 * int(width) * int(height) :], dtype=np.uint8)
    return dots.reshape(int(height), int(width), 3).astype(int)


def size_mm(page):
    return page.shape[1] * MM_A_DOT, page.shape[0] * MM_A_DOT


def reddish(page):
    return (page[:, :, 0] - page[:, :, 1] > 60) & (page[:, :, 0] - page[:, :, 2] > 60)


def greenish(page):
    return (page[:, :, 1] - page[:, :, 0] > 40) & (page[:, :, 1] - page[:, :, 2] > 40)


def bluish(page):
    return (page[:, :, 2] - page[:, :, 0] > 60) & (page[:, :, 2] - page[:, :, 1] > 60)


def purple(page):
    return (page[:, :, 0] - page[:, :, 1] > 60) & (page[:, :, 2] - page[:, :, 1] > 60)


def black(page):
    return page.max(axis=2) < 60


def places(mask):
    rows, columns = np.nonzero(mask)
    return (columns + 0.5) * MM_A_DOT, (rows + 0.5) * MM_A_DOT


def blobs(mask):
    """Dots that touch, corners included."""
    rows, columns = np.nonzero(mask)
    left = set(zip(rows.tolist(), columns.tolist(), strict=True))
    found = []
    while left:
        start = left.pop()
        queue, part = deque([start]), [start]
        while queue:
            row, column = queue.popleft()
            for near in ((row + i, column + j) for i in (-1, 0, 1) for j in (-1, 0, 1)):
                if near in left:
                    left.remove(near)
                    queue.append(near)
                    part.append(near)
        y, x = (np.array(each) + 0.5 for each in zip(*part, strict=True))
        found.append(Blob(x * MM_A_DOT, y * MM_A_DOT))
    return found


def fitted_circle(x, y):
    """(x, y, diameter) of the circle nearest to points, by least squares (Kåsa)."""
    matrix = np.column_stack([x, y, np.ones_like(x)])
    a, b, c = np.linalg.lstsq(matrix, x**2 + y**2, rcond=None)[0]
    return a / 2, b / 2, 2 * math.sqrt(c + (a / 2) ** 2 + (b / 2) ** 2)
