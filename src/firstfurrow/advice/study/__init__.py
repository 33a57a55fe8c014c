"""The road run again: ways out that are recomputed, the price of each wish, doubts in order, and plausibility.

On demand and at the end of a talk; after an answer only the profile is run.
"""

from __future__ import annotations

from firstfurrow.advice.profile import Profile
from firstfurrow.advice.study.doubt import doubts
from firstfurrow.advice.study.felt import scale_of
from firstfurrow.advice.study.model import Study
from firstfurrow.advice.study.plausible import plausibility
from firstfurrow.advice.study.ways import Trials
from firstfurrow.advice.study.without import price_ahead, without_each
from firstfurrow.advice.study.words import Words

__all__ = ["Study", "study"]


def study(profile: Profile) -> Study:
    """Everything about a profile that takes more than one run of the road."""
    scale, words = scale_of(profile.book), Words(profile.book, profile.units)
    return Study(
        ways=Trials(profile, scale, words).all(),
        without=without_each(profile, scale, words),
        ahead=price_ahead(profile, scale, words),
        doubts=doubts(profile, scale, words),
        plausibility=plausibility(profile, words),
    )
