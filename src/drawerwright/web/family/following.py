"""What a blank field of a family's form follows: the design subfront is as thick as the design side.

A family file that leaves it out means 16 mm. Somebody who writes a family of 19 mm sides means subfronts of
the same board: common practice, no source. So the form follows the side until the subfront is told, and
what it came to is kept with the family as if it were told.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from drawerwright.web.family.usual import usual_values

SIDE: Final = "design_side"
SUBFRONT: Final = "design_subfront"


def followed(form: Mapping[str, str]) -> dict[str, str]:
    """The fields as they are meant: a blank design subfront is the design side that is told."""
    side = form.get(SIDE, "").strip()
    if not side or form.get(SUBFRONT, "").strip():
        return dict(form)
    return {**form, SUBFRONT: side}


def usual_for(form: Mapping[str, str]) -> dict[str, str]:
    """What blank fields of a form stand for: of the subfront the design side, as soon as that is told."""
    side = form.get(SIDE, "").strip()
    return {**usual_values(), SUBFRONT: f"{side}, as the side"} if side else usual_values()


def as_kept(form: Mapping[str, str]) -> dict[str, str]:
    """The fields of a family that is there: a subfront that it leaves out stays what it means in a file."""
    if not form.get(SIDE, "").strip() or form.get(SUBFRONT, "").strip():
        return dict(form)
    return {**form, SUBFRONT: f"{usual_values()[SUBFRONT]} mm"}
