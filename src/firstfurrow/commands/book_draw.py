"""What `firstfurrow book draw` writes: flowcharts of the questions, as Markdown or one file each."""

from __future__ import annotations

from typing import TYPE_CHECKING

from firstfurrow.commands.common import DONE, UsageError, make_folder, may_write, put, write

if TYPE_CHECKING:
    import argparse
    from pathlib import Path

    from firstfurrow.book.drawn import Chart


def run(folder: Path, parsed: argparse.Namespace) -> int:
    """Draw the book in a folder, or one section of it."""
    from firstfurrow.book.check import check
    from firstfurrow.book.drawn import charts
    from firstfurrow.book.load import load
    from firstfurrow.book.problems import BookError

    # What the proof finds may be drawn all the same: a drawing helps to see it.
    if parsed.folder is not None and (problems := check(folder)):
        raise BookError(problems)
    chosen = _chosen(charts(load(folder)), parsed.section)
    if parsed.out is None:
        put("\n".join(f"## {chart.title}\n\n```mermaid\n{chart.text}```\n" for chart in chosen))
        return DONE
    paths = {chart.name: parsed.out / f"{chart.name}.mmd" for chart in chosen}
    for path in paths.values():  # all of them, before the first is written
        may_write(path, force=parsed.force)
    make_folder(parsed.out)
    for chart in chosen:
        write(paths[chart.name], chart.text)
        put(f"{paths[chart.name]}: {chart.title}\n")
    return DONE


def _chosen(all_: tuple[Chart, ...], name: str | None) -> tuple[Chart, ...]:
    if name is None:
        return all_
    from firstfurrow.book.problems import did_you_mean

    names = [chart.name for chart in all_]
    if name not in names:
        raise UsageError(
            f'There is no section "{name}".{did_you_mean(name, names)} There is a chart of: {", ".join(names)}.'
        )
    return tuple(chart for chart in all_ if chart.name == name)
