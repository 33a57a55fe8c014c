"""What comes out of the printer: a page printed to PDF by the browser, and the words on each sheet of paper."""

from __future__ import annotations

import ctypes
import math
import re
from dataclasses import dataclass
from typing import Any

import pypdfium2
import pypdfium2.raw as pdfium

PAPERS = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}  # mm
MARGIN = 12.0
MM = 96 / 25.4  # pixels of a style sheet


def squeezed(text: str) -> str:
    """Without spaces, line ends and hyphens: what stays when lines are broken elsewhere."""
    return re.sub(r"[\s\u00ad\u2010\ufffe\x02-]+", "", text)


@dataclass(frozen=True)
class Printed:
    """The words of each page, and the sizes of the letters on the first one in points."""

    texts: tuple[str, ...]
    sizes: frozenset[float]


def on_paper(page: Any, paper: str, pages: str = "") -> Printed:
    """The page as the browser prints it, all of it or such as `1-2`; it asks for its margins itself."""
    width, height = PAPERS[paper]
    # The size of the paper is the printer's, as in most houses: the page names none.
    data = page.pdf(width=f"{width}mm", height=f"{height}mm", page_ranges=pages)
    with pypdfium2.PdfDocument(data) as document:
        words = [sheet.get_textpage() for sheet in document]
        first = words[0].raw
        sizes = {_size(first, at) for at in range(words[0].count_chars()) if _seen(first, at)}
        return Printed(tuple(each.get_text_range() for each in words), frozenset(sizes))


def _seen(words: Any, at: int) -> bool:
    return pdfium.FPDFText_IsGenerated(words, at) == 0 and not chr(pdfium.FPDFText_GetUnicode(words, at)).isspace()


def _size(words: Any, at: int) -> float:
    """The size of the font, as it is stretched and turned on the page; whole tenths of a point."""
    matrix = pdfium.FS_MATRIX()
    pdfium.FPDFText_GetMatrix(words, at, ctypes.byref(matrix))
    return round(pdfium.FPDFText_GetFontSize(words, at) * math.hypot(matrix.a, matrix.b), 1)
