"""One requirement as it stands in a profile: its status, and the strictest demand with and without what may come."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from firstfurrow.advice.strictest import Strictest
from firstfurrow.book.model import Requirement
from firstfurrow.reasoning import Step

Status = Literal["determined", "not_determined", "not_needed"]


@dataclass(frozen=True, slots=True)
class Remark:
    """A sentence with a number of this run, and the step that the number comes from."""

    text: str
    step: Step


@dataclass(frozen=True, slots=True)
class Outcome:
    """One requirement in the profile: for what is sure, and with what may come later."""

    requirement: Requirement
    status: Status
    sure: Strictest | None
    with_later: Strictest | None
    conflict: bool
    remarks: tuple[Remark, ...]  # sentences that hold for this run only
    open_questions: tuple[str, ...] = ()  # ceilings: question ids that nobody answered

    @property
    def widest(self) -> Strictest | None:
        """With everything that may come."""
        return self.with_later or self.sure
