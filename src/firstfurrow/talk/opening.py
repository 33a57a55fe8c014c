"""The questions before the book's own: what the reader wants to find out, and in which units he thinks."""

from __future__ import annotations

from firstfurrow.asking.choosing import ChoosingError, choose_one
from firstfurrow.asking.wording import wording
from firstfurrow.book.model import Book, Choice, NotSure, Question
from firstfurrow.talk.commands import command
from firstfurrow.talk.front import Front
from firstfurrow.talk.hints import at_question
from firstfurrow.talk.screen import Screen
from firstfurrow.talk.showing import show_question

PROMPT = "> "
UNITS = "units"


def units_question(book: Book) -> Question:
    """The question for the units, worded by the catalogue."""

    def text(message: str) -> str:
        return wording(book.messages, message)

    return Question(
        id=UNITS,
        type="choice",
        ask=text("units_ask"),
        why=text("units_why"),
        not_sure=NotSure("planned", planning="us"),
        choices=(
            Choice("us", text("units_us"), also=("feet", "pounds", "acres", "imperial")),
            Choice("metric", text("units_metric"), also=("metres", "meters", "kilograms", "hectares")),
        ),
    )


ROAD, BUY, OWNED = "road", "buy", "owned"


def road_question(book: Book) -> Question:
    """What the reader wants to find out: what to look for, or whether a tractor runs an implement."""

    def text(message: str) -> str:
        return wording(book.messages, message)

    return Question(
        id=ROAD,
        type="choice",
        ask=text("road_ask"),
        why=text("road_why"),
        not_sure=NotSure("planned", planning=BUY),
        choices=(
            Choice(BUY, text("road_buy"), also=("buy", "need", "find", "must", "look")),
            Choice(OWNED, text("road_owned"), also=("have", "own", "mine", "my tractor", "owned", "check")),
        ),
    )


def ask_road(book: Book, front: Front) -> str | None:
    """The road that the reader takes: buy or owned; None when he wants to stop.

    Raises
    ------
    EndOfInputError, InterruptedTalkError
        As the front says.
    """
    screen, question = Screen(front, book.messages), road_question(book)
    show_question(screen, question, "us")
    refused = ""
    while True:
        line = front.ask(PROMPT, at_question(book, question, refused, opening=True))
        refused = ""
        said = command(line)
        if said is not None and said.name == "save":
            return None
        if said is not None and said.name == "unsure":
            screen.message("road_unsure")
            return BUY
        if said is not None or not line:
            screen.message("road_hint" if said is None or said.name != "why" else "road_why")
            continue
        try:
            return choose_one(question.choices, line, book.messages).id
        except ChoosingError as error:
            screen.para(str(error))
            refused = line
