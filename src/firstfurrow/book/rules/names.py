"""Ids: each defined once, each file named as it is listed, each reference to something that exists."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from firstfurrow.book.files import FOLDERS, Files, Placed
from firstfurrow.book.problems import Problem, did_you_mean

# Each choice of the question has a row of that table.
ROWS_FOR = {"soil": "soils", "surface": "surfaces", "heat": "heat"}


def problems(files: Files) -> Iterator[Problem]:
    """Ids that are written twice, and references that lead nowhere."""
    yield from _file_names(files)
    yield from _doubles(files)
    yield from _question_references(files)
    yield from _requirement_references(files)
    yield from _kind_references(files)


def _file_names(files: Files) -> Iterator[Problem]:
    for key, (folder, _) in FOLDERS.items():
        id_key = {"sections": "id", "families": "family", "tables": "table"}[key]
        for name, placed in files.of(key):
            if placed.data[id_key] != name:
                yield placed.problem(f'the {id_key} is "{placed.data[id_key]}", but the file is {name}.yaml.', id_key)
        for path in sorted((files.folder / folder).glob("*.yaml")):
            if path.stem not in files.book.data[key]:
                yield files.book.problem(f"{folder}/{path.name} is there but not listed under {key}.", key)


def _doubles(files: Files) -> Iterator[Problem]:
    yield from _twice((q.at for q in files.questions), "id", "question")
    yield from _twice((kind for _, kind in files.kinds), "kind", "kind")
    yield from _twice(files.requirements, "id", "requirement")
    yield from _twice(files.sources, "id", "source")
    yield from _twice(files.guides, "id", "guide")
    for _, table in files.of("tables"):
        yield from _twice(table.each("rows"), "row", "row")
    for question in files.questions:
        yield from _twice(question.at.each("choices"), "id", "choice")
    for _, kind in files.kinds:
        yield from _twice(kind.each("sizes"), "size", "size")
        yield from _twice(kind.each("variants"), "variant", "variant")
        for variant in kind.each("variants"):
            yield from _twice(variant.each("oil"), "id", "oil function")


def _twice(parts: Iterable[Placed], key: str, what: str) -> Iterator[Problem]:
    first: dict[Any, Placed] = {}
    for part in parts:
        name = part.data[key]
        before = first.setdefault(name, part)
        if before is not part:
            line = before.marks.at((*before.path, key))[0]
            first_one = f"{before.marks.file}:{line}"
            yield part.problem(f'the {what} "{name}" is there twice; the first one is in {first_one}.', key)


def _unknown(part: Placed, what: str, known: Iterable[str], *inside: str | int) -> Iterator[Problem]:
    """A problem when the id at that place is not one of the known ones."""
    names = tuple(known)
    value = part.data
    for step in inside:
        value = value[step]
    if value not in names:
        yield part.problem(f'there is no {what} "{value}".{did_you_mean(str(value), names)}', *inside)


def _question_references(files: Files) -> Iterator[Problem]:
    guides = [g.data["id"] for g in files.guides]
    requirements = [r.data["id"] for r in files.requirements]
    for question in files.questions:
        at = question.at
        if at.data.get("how") is not None:
            yield from _unknown(at, "guide", guides, "how")
        for index in range(len(at.data.get("moves") or ())):
            yield from _unknown(at, "requirement", requirements, "moves", index)
        table = ROWS_FOR.get(question.id, "")
        if table in files.rows:
            for choice in at.each("choices"):
                yield from _unknown(choice, f"row of the table {table}", files.rows[table], "id")


def _requirement_references(files: Files) -> Iterator[Problem]:
    groups = files.read["requirements.yaml"].data["groups"]
    classes = files.rows.get("size_classes", {}).values()
    columns = {column for row in classes for column in row.data.get("figures") or {}}
    for requirement in files.requirements:
        yield from _unknown(requirement, "group", groups, "group")
        if requirement.data.get("class_column") is not None:
            yield from _unknown(requirement, "column of the table of size classes", columns, "class_column")
        if (requirement.data["sense"] == "level") != bool(requirement.data.get("levels")):
            yield requirement.problem("levels are for the sense level, and needed there.", "sense")


def _kind_references(files: Files) -> Iterator[Problem]:
    job_question = files.question.get("jobs")
    jobs = [c["id"] for c in job_question.at.data.get("choices") or ()] if job_question else []

    def rows(table: str) -> Iterable[str]:
        return files.rows.get(table, {})

    for family, kind in files.kinds:
        for index in range(len(kind.data.get("jobs") or ())):
            yield from _unknown(kind, "job", jobs, "jobs", index)
        if kind.data.get("area_job") is not None:
            yield from _unknown(kind, "job", jobs, "area_job")
            if f"{kind.data['area_job']}_area" not in files.question:
                yield kind.problem(f"no question asks for the area of the job {kind.data['area_job']}.", "area_job")
        if kind.data.get("field_rate") is not None:
            yield from _unknown(kind, "row of the table of field rates", rows("field_rates"), "field_rate")
        if (pull := kind.get("pull")) is not None and pull.data.get("row") is not None:
            yield from _unknown(pull, "row of the draft table", rows("draft"), "row")
        for part in (kind, *kind.each("variants")):
            if (shaft := part.get("shaft")) is not None and shaft.data.get("rotary_row") is not None:
                yield from _unknown(shaft, "row of the table of rotary power", rows("rotary_power"), "rotary_row")
        variants = [v.data["variant"] for v in kind.each("variants")]
        categories = [name.replace("_", " ") for name in rows("hitch_categories")]
        for size in kind.each("sizes"):
            for index in range(len(size.data.get("variants") or ())):
                yield from _unknown(size, "variant", variants, "variants", index)
            for index, category in enumerate(size.data.get("categories") or ()):
                if str(category) not in categories:
                    yield size.problem(f'there is no hitch category "{category}".', "categories", index)
        if family == "links" and any(v.data["way"] != "link" for v in kind.each("variants")):
            yield kind.problem("a kind of the family links has only the way link.", "variants")
