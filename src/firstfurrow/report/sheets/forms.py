"""A sheet in one of its forms: text to print on any printer, one HTML file, Markdown."""

from __future__ import annotations

from collections.abc import Sequence

from firstfurrow.report.blocks import Heading, Part

FORMS = ("text", "html", "markdown")
WIDTH = 80  # of text: what a printer takes, whatever the width of a terminal is


def in_form(parts: Sequence[Part], form: str, *, encoding: str = "utf-8") -> str:
    """The text of the file; the title is the first heading."""
    if form == "html":
        from firstfurrow.report.html import html_page

        title = next(block.text for part in parts for block in part.document if isinstance(block, Heading))
        return html_page(title, parts)
    if form == "markdown":
        from firstfurrow.report.markdown import markdown

        return markdown(parts)
    from firstfurrow.report.text import render

    return render(tuple(block for part in parts for block in part.document), WIDTH, encoding=encoding)
