"""Latching: how far the locking brackets stand off their seats, sideways and lengthways. Margins [mm].

A bracket outboard of its seat or ahead of it is brought home by spacers; the other way no spacer helps.
"""

from __future__ import annotations

import numpy as np

from drawerwright.equations.equation import CheckRule, Cure, Q, equation
from drawerwright.equations.sources import GEOMETRY, PRACTICE_FAMILY

CONCEALED = "concealed"
LATCH_CARE = 0.2
"""Margin of latching under which a check watches [mm]. The tool's own rule."""


@equation("mm", source=GEOMETRY, carriage=CONCEALED)
def bracket_off_side(built_inside_width: Q, true_opening_width: Q, inside_width_deduction: Q) -> Q:
    """How far the box's inside face stands outboard of its seat, each side."""
    return (built_inside_width - (true_opening_width - inside_width_deduction)) / 2


@equation("mm", source=PRACTICE_FAMILY, hands=True, carriage=CONCEALED)
def latch_side(bracket_off_side: Q, side_spacers: Q, error_bracket_side: Q) -> Q:
    """How far the locking bracket stands outboard of its seat."""
    return bracket_off_side - side_spacers + error_bracket_side


@equation(
    "mm",
    source=PRACTICE_FAMILY,
    carriage=CONCEALED,
    check=CheckRule(
        "latch-side",
        says="Brackets {latch_side_left:too far out|too far in} for their seats with {side_spacers} of "
        "spacers; they latch within {latch_tolerance_side}.",
        cures=(
            Cure(
                "latch_side_left",
                1,
                "{latch_side_left:|} more of spacers between bracket and side, or a box cut to the inside "
                "width, brings them home.",
            ),
            Cure(
                "side_spacers",
                1,
                "Spacers thinner by {latch_side_left:|}, or a box cut to the inside width, bring them home.",
            ),
            Cure(
                "latch_side_left",
                -1,
                "No spacer helps: pack each member out by {latch_side_left:|}, let the brackets into the "
                "sides by as much, or cut the box to the inside width.",
            ),
        ),
        watch_below=LATCH_CARE,
    ),
)
def latch_side_margin(latch_side_left: Q, latch_side_right: Q, latch_tolerance_side: Q) -> Q:
    """What is left of the bracket's sideways tolerance."""
    return latch_tolerance_side - np.maximum(np.abs(latch_side_left), np.abs(latch_side_right))


@equation("mm", source=PRACTICE_FAMILY, carriage=CONCEALED, front="applied")
def bracket_off_along__applied(design_subfront: Q, subfront_thickness: Q, error_subfront: Q) -> Q:
    """How far the locking bracket stands ahead of its seat, lengthways."""
    return design_subfront - subfront_thickness - error_subfront


@equation("mm", source=PRACTICE_FAMILY, carriage=CONCEALED, front="integral")
def bracket_off_along__integral(error_subfront: Q) -> Q:
    """The sides are cut shorter by the missing subfront: the bracket is on its seat."""
    return -error_subfront


@equation("mm", source=PRACTICE_FAMILY, hands=True, carriage=CONCEALED)
def latch_along(bracket_off_along: Q, subfront_spacers: Q, error_bracket_along: Q) -> Q:
    """How far the locking bracket stands ahead of its seat with its spacers."""
    return bracket_off_along - subfront_spacers - error_bracket_along


@equation(
    "mm",
    source=PRACTICE_FAMILY,
    carriage=CONCEALED,
    check=CheckRule(
        "latch-along",
        says="Brackets {latch_along_left:ahead of|behind} their seats with {subfront_spacers} of spacers; "
        "they latch within {latch_tolerance_along}.",
        cures=(
            Cure(
                "latch_along_left",
                1,
                "{latch_along_left:|} more of spacers between bracket and subfront, or a subfront nearer "
                "{design_subfront}, brings them home.",
            ),
            Cure(
                "subfront_spacers",
                1,
                "Spacers thinner by {latch_along_left:|}, or a subfront nearer {design_subfront}, bring them "
                "home.",
            ),
            Cure(
                "latch_along_left",
                -1,
                "No spacer helps: a subfront {latch_along_left:|} thinner seats them, or a recess of as much "
                "behind each bracket.",
            ),
        ),
        watch_below=LATCH_CARE,
    ),
)
def latch_along_margin(latch_along_left: Q, latch_along_right: Q, latch_tolerance_along: Q) -> Q:
    """What is left of the bracket's lengthways tolerance."""
    return latch_tolerance_along - np.maximum(np.abs(latch_along_left), np.abs(latch_along_right))
