"""Ids: each defined once, each file named as it is listed, each reference to something that exists."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from firstfurrow.book.files import FOLDERS, Files, Placed
from firstfurrow.book.problems import Problem, Said, twice, unknown

# Each choice of the question has a row of that table.
ROWS_FOR = {"soil": "soils", "surface": "surfaces", "heat": "heat"}
NO_HELP = "Who asks how to find out would get no help."
NEVER_MOVED = "The reader is told what his answer moves, and a test holds the question to it."
NOT_WORKED_OUT = "The figure would be missing when the tool is worked out."
NO_ROW = "The program looks up the figures for this answer in that table."
BY_NAME = "A file is found by its name, and what stands in it by its id."
LEVELS = Said(
    "levels are for the sense level, and needed there.",
    "They are the words from weak to strong that an offer is compared by.",
    "Write sense: level with levels, or take levels out.",
)
ONLY_LINKS = Said(
    "a kind of the family links has only the way link.",
    "What stands in that family is never an implement of its own.",
    "Write way: link, or move the kind into another family.",
)
AREA_OF = "Its width follows from that area."
JOBS = "the choices of jobs"
ONE_BUILD = "The size is sold in that build only, and there is none of that name."
PINS = "The pins of the tool must fit the balls of the arms."


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
                what = f'the {id_key} is "{placed.data[id_key]}", but the file is {name}.yaml.'
                yield placed.problem(Said(what, BY_NAME, f"Write {id_key}: {name}, or rename the file."), id_key)
        for path in sorted((files.folder / folder).glob("*.yaml")):
            if path.stem not in files.book.data[key]:
                what = f"{folder}/{path.name} is there but not listed under {key}."
                why = "A file that is not listed is not read."
                yield files.book.problem(Said(what, why, f"Add {path.stem} to {key}, or take the file away."), key)


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
            yield part.problem(twice(what, name, f"{before.marks.file}:{line}"), key)


def _unknown(
    part: Placed, what: str, known: Iterable[str], home: str, why: str, *inside: str | int
) -> Iterator[Problem]:
    """A problem when the id at that place is not one of the known ones."""
    names = tuple(known)
    value = part.data
    for step in inside:
        value = value[step]
    if value not in names:
        yield part.problem(unknown(what, value, names, home, why), *inside)


def _question_references(files: Files) -> Iterator[Problem]:
    guides = [g.data["id"] for g in files.guides]
    requirements = [r.data["id"] for r in files.requirements]
    for question in files.questions:
        at = question.at
        if at.data.get("how") is not None:
            yield from _unknown(at, "guide", guides, "guides.yaml", NO_HELP, "how")
        for index in range(len(at.data.get("moves") or ())):
            yield from _unknown(at, "requirement", requirements, "requirements.yaml", NEVER_MOVED, "moves", index)
        table = ROWS_FOR.get(question.id, "")
        if table in files.rows:
            for choice in at.each("choices"):
                yield from _unknown(
                    choice, f"row of the table {table}", files.rows[table], f"tables/{table}.yaml", NO_ROW, "id"
                )


def _requirement_references(files: Files) -> Iterator[Problem]:
    groups = files.read["requirements.yaml"].data["groups"]
    classes = files.rows.get("size_classes", {}).values()
    columns = {column for row in classes for column in row.data.get("figures") or {}}
    for requirement in files.requirements:
        why = "The page prints requirements group by group."
        yield from _unknown(requirement, "group", groups, "the groups at the top of the file", why, "group")
        if requirement.data.get("class_column") is not None:
            why = "What decides is found by comparing with that column."
            yield from _unknown(
                requirement, "column of the table of size classes", sorted(columns), "tables/size_classes.yaml", why,
                "class_column",
            )  # fmt: skip
        if (requirement.data["sense"] == "level") != bool(requirement.data.get("levels")):
            yield requirement.problem(LEVELS, "sense")


def _kind_references(files: Files) -> Iterator[Problem]:
    job_question = files.question.get("jobs")
    jobs = [c["id"] for c in job_question.at.data.get("choices") or ()] if job_question else []

    def rows(table: str) -> Iterable[str]:
        return files.rows.get(table, {})

    def look_up(part: Placed, what: str, table: str, key: str) -> Iterator[Problem]:
        return _unknown(part, what, rows(table), f"tables/{table}.yaml", NOT_WORKED_OUT, key)

    for family, kind in files.kinds:
        for index in range(len(kind.data.get("jobs") or ())):
            yield from _unknown(kind, "job", jobs, JOBS, "The tool is suggested by its jobs.", "jobs", index)
        if kind.data.get("area_job") is not None:
            job = kind.data["area_job"]
            yield from _unknown(kind, "job", jobs, JOBS, AREA_OF, "area_job")
            if f"{job}_area" not in files.question:
                what = f"no question asks for the area of the job {job}."
                yield kind.problem(Said(what, AREA_OF, f"Add a question {job}_area, or name another job."), "area_job")
        if kind.data.get("field_rate") is not None:
            yield from look_up(kind, "row of the table of field rates", "field_rates", "field_rate")
        if (pull := kind.get("pull")) is not None and pull.data.get("row") is not None:
            yield from look_up(pull, "row of the draft table", "draft", "row")
        for part in (kind, *kind.each("variants")):
            if (shaft := part.get("shaft")) is not None and shaft.data.get("rotary_row") is not None:
                yield from look_up(shaft, "row of the table of rotary power", "rotary_power", "rotary_row")
        variants = [v.data["variant"] for v in kind.each("variants")]
        categories = [name.replace("_", " ") for name in rows("hitch_categories")]
        for size in kind.each("sizes"):
            for index in range(len(size.data.get("variants") or ())):
                yield from _unknown(size, "variant", variants, "the variants below", ONE_BUILD, "variants", index)
            for index, category in enumerate(size.data.get("categories") or ()):
                if str(category) not in categories:
                    said = unknown("hitch category", category, categories, "tables/hitch_categories.yaml", PINS)
                    yield size.problem(said, "categories", index)
        if family == "links" and any(v.data["way"] != "link" for v in kind.each("variants")):
            yield kind.problem(ONLY_LINKS, "variants")
