"""The drawing of the questions: every line in a strict subset of Mermaid, every question on a way from start to end.

The text of the shipped book, and of one full of signs, was read by Mermaid 11 itself when this was written.
"""

from __future__ import annotations

import re
from collections import defaultdict

import pytest
from book_making import book, closing, kind, question

from firstfurrow.book.drawn import Chart, charts
from firstfurrow.book.model import Book, Group

# In quotes only letters, plain signs, line breaks and codes such as #quot; may stand.
LABEL = r'"(?:[^"\[\]{}|<>`#&;\\]|<br/>|#(?:quot|amp|lt|gt|\d+);|&nbsp;)*"'
ID = r"[a-z][a-z0-9_]*"
NODE = re.compile(rf"  ({ID})(?:\[{LABEL}\]|\(\[{LABEL}\]\)|\(\({LABEL}\)\))")
EDGE = re.compile(rf"  ({ID}) (-->|-\.->)(?:\|({LABEL})\| | )({ID})")
RESERVED = {"end", "graph", "flowchart", "subgraph", "style", "click", "class", "default"}


def parsed(chart: Chart) -> tuple[list[str], list[tuple[str, str, str]]]:
    """Nodes and edges; a line that is neither is a mistake."""
    first, *lines = chart.text.split("\n")
    assert first == "flowchart TD"
    assert lines.pop() == ""
    nodes: list[str] = []
    edges: list[tuple[str, str, str]] = []
    for line in lines:
        node, edge = NODE.fullmatch(line), EDGE.fullmatch(line)
        assert (node is None) != (edge is None), line
        if node is not None:
            nodes.append(node[1])
        elif edge is not None:
            edges.append((edge[1], edge[4], (edge[3] or '""')[1:-1]))
    assert len(set(nodes)) == len(nodes)
    assert not RESERVED & set(nodes)
    assert {end for start, stop, _ in edges for end in (start, stop)} <= set(nodes)
    return nodes, edges


@pytest.fixture(scope="module")
def drawn(book: Book) -> dict[str, Chart]:
    return {chart.name: chart for chart in charts(book)}


def test_there_is_a_chart_of_the_sections_and_one_of_each(book: Book, drawn: dict[str, Chart]) -> None:
    assert list(drawn) == ["sections", *(section.id for section in book.sections)]
    nodes, edges = parsed(drawn["sections"])
    assert nodes == [*(f"s_{section.id}" for section in book.sections), "result"]
    assert ("s_land", "s_jobs", "") in edges
    assert ("s_land", "s_ground", "reads land_shape") in edges


def test_every_question_stands_once_on_a_way_from_start_to_end(book: Book, drawn: dict[str, Chart]) -> None:
    for section in book.sections:
        nodes, edges = parsed(drawn[section.id])
        group = section.group
        inner = () if group is None else (*group.questions, group.closes)
        asked = [f"q_{q.id}" for q in (*section.questions, *inner)]
        assert [node for node in nodes if node.startswith("q_")] == asked
        forward, back = defaultdict(set), defaultdict(set)
        for start, end, _ in edges:
            forward[start].add(end)
            back[end].add(start)
        assert _reached("start", forward) == set(nodes)
        assert _reached("finish", back) == set(nodes)


def _reached(start: str, ways: dict[str, set[str]]) -> set[str]:
    found, open_ = {start}, [start]
    while open_:
        for node in ways[open_.pop()] - found:
            found.add(node)
            open_.append(node)
    return found


def test_a_condition_stands_on_the_arrow_and_otherwise_on_the_one_past_it(drawn: dict[str, Chart]) -> None:
    _, edges = parsed(drawn["towing"])
    asked = "tow_other is #quot;now and then#quot; or #quot;often#quot;"
    assert ("q_tow_other", "q_tow_mass", asked) in edges
    assert ("q_tow_mass", "q_tow_axles", "") in edges  # the same condition: said once
    assert ("q_tow_other", "joint_1", "otherwise") in edges
    assert ("joint_1", "q_front_load", "of one implement at least: it hangs on the loader") in edges


def test_the_closing_question_leads_back_into_the_group(drawn: dict[str, Chart]) -> None:
    _, edges = parsed(drawn["implements"])
    assert ("q_implements_complete", "q_kind", "another one") in edges
    assert ("q_implements_complete", "finish", "that is all") in edges


def test_the_same_book_is_drawn_the_same(book: Book, drawn: dict[str, Chart]) -> None:
    assert {chart.name: chart for chart in charts(book)} == drawn


def test_every_sign_may_stand_in_a_question() -> None:
    signs = 'a "b" [c] {d} |e| (f) <g> #h; `i` \\ end %% :::x & é'
    group = Group("tools", "Tool", (question("kind", "kind"), question("end", choices=(signs, "b"))), closing(), 3)
    after = question("style", when={"all": [{"any_item": "end", "is": signs}]})
    for chart in charts(book(question("click"), group, after, kinds=[kind("mower")])):
        parsed(chart)
