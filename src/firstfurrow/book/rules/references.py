"""Names that stand in tables, implements and settings: what they lead to is there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from firstfurrow.book.files import Files, Placed
from firstfurrow.book.problems import Problem, unknown

REQUIREMENT, QUESTION, GUIDE, CLASS, TABLE, COLUMN, CATEGORY, CHOICE = (
    "requirement", "question", "guide", "size class", "table", "column of the table of size classes",
    "hitch category", "choice of any question",
)  # fmt: skip
# Words of a table that are names: table, column of its words, and what they name.
NAMES: Mapping[str, Mapping[str, str]] = {
    "estimates": {"instead": QUESTION, "how": GUIDE, "table": TABLE},
    "felt_steps": {"requirements": REQUIREMENT},
    "our_choices": {"answers": CHOICE},
    "rare_mixes": {
        "requirement": REQUIREMENT, "without": REQUIREMENT, "larger": REQUIREMENT, "smaller": REQUIREMENT,
        "classes": CLASS,
    },
    "size_classes": {"hitch_category": CATEGORY},
    "way_figures": {"shows": REQUIREMENT, "column": COLUMN},
}  # fmt: skip
HOMES = {
    REQUIREMENT: "requirements.yaml", QUESTION: "sections/", GUIDE: "guides.yaml", CLASS: "tables/size_classes.yaml",
    TABLE: "tables/", COLUMN: "tables/size_classes.yaml", CATEGORY: "tables/hitch_categories.yaml",
    CHOICE: "the choices in sections/",
}  # fmt: skip
WHY = {
    "hard_by": "The answer to it says whether the work is easy or hard.",
    "leads": "What runs behind it in one train is pulled and stopped together with it.",
    "against_the_ranking": "The reason stands for a question that is asked, or left out, at the counter.",
    "source": "The page prints where it is from.",
}


def problems(files: Files) -> Iterator[Problem]:
    """Names that lead nowhere."""
    known = _known(files)
    for name, table in files.of("tables"):
        for row in table.each("rows"):
            yield from _words(row, NAMES.get(name, {}), known)
    for _, kind in files.kinds:
        kinds = [each.data["kind"] for _, each in files.kinds]
        yield from _names(kind, "leads", "kind of implement", kinds, "implements/", WHY["leads"])
        for part in (kind, *kind.each("variants")):
            shaft = part.get("shaft")
            if shaft is not None:
                yield from _names(shaft, "hard_by", QUESTION, files.question, "sections/", WHY["hard_by"])
    settings = files.read["settings.yaml"]
    for name in settings.data:
        reasons = settings[name].get("against_the_ranking")
        for id_ in reasons.data if reasons is not None else ():
            if reasons is not None and id_ not in files.question:
                said = unknown(QUESTION, id_, files.question, "sections/", WHY["against_the_ranking"])
                yield reasons.problem(said, id_, key=True)


def _known(files: Files) -> Mapping[str, Iterable[str]]:
    classes = files.rows.get("size_classes", {})
    return {
        REQUIREMENT: [r.data["id"] for r in files.requirements],
        QUESTION: list(files.question),
        GUIDE: [g.data["id"] for g in files.guides],
        CLASS: list(classes),
        TABLE: [name for name, _ in files.of("tables")],
        COLUMN: sorted({column for row in classes.values() for column in row.data.get("figures") or {}}),
        CATEGORY: [name.replace("_", " ") for name in files.rows.get("hitch_categories", {})],
        CHOICE: sorted({c.data["id"] for q in files.questions for c in q.at.each("choices")}),
    }


def _words(row: Placed, names: Mapping[str, str], known: Mapping[str, Iterable[str]]) -> Iterator[Problem]:
    words = row.get("words")
    if words is None:
        return
    for column in words.data:
        if column in names:
            sort = names[column]
            yield from _names(words, column, sort, known[sort], HOMES[sort], "The program looks it up by this name.")


def _names(part: Placed, key: str, what: str, known: Iterable[str], home: str, why: str) -> Iterator[Problem]:
    """Each name under a key, alone or in a list, that is not known."""
    value = part.data.get(key)
    names = list(known)
    for index, name in enumerate(value if isinstance(value, list) else [value]):
        if name is not None and str(name) not in names:
            yield part.problem(
                unknown(what, name, names, home, why), key, *([index] if isinstance(value, list) else [])
            )
