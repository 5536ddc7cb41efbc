"""What slides carry on the same opening, side by side, row by row in words."""

from __future__ import annotations

from drawerwright.carry.carried import CarriedDrawer
from drawerwright.carry.comparing import carry_comparison
from drawerwright.carry.words import Words
from drawerwright.fit.compare import Comparison
from drawerwright.model.check_names import check_name_within
from drawerwright.pack.carry_figures import capacity_name
from drawerwright.pack.carry_rows import lean_words
from drawerwright.pack.shown import Shown
from drawerwright.web.slide_comparison import NOTHING, Cell, Row


def carry_rows(comparison: Comparison, shown: Shown) -> tuple[Row, ...]:
    """Capacity, sag, largest roller force and the rest of each slide, and the limit of its closing."""
    compared = carry_comparison(comparison, units=shown.units)
    drawer, words = compared.drawers[0], Words(shown.units)
    rows = [Row(one.title, tuple(Cell(text) for text in one.texts(words, NOTHING))) for one in drawer.figures]
    told = (
        ("Limited by", _limited_by),
        ("Drawn home up to a lean of", _lean),
        ("Stops when loaded", _stops),
        ("The family does not tell", _missing),
    )
    for name, of in told:
        texts = [of(answer) for answer in drawer.answers]
        if any(text != NOTHING for text in texts):
            rows.append(Row(name, tuple(Cell(text) for text in texts)))
    return tuple(rows)


def _limited_by(one: CarriedDrawer) -> str:
    return NOTHING if one.limit is None else capacity_name(one.limit)


def _lean(one: CarriedDrawer) -> str:
    closing = None if one.slide is None else one.slide.closing
    return NOTHING if closing is None else lean_words(closing.limit_tilt)


def _stops(one: CarriedDrawer) -> str:
    stopped = [check_name_within(check.id) for check in one.checks if check.state == "stop"]
    return ", ".join(stopped) or NOTHING


def _missing(one: CarriedDrawer) -> str:
    return ", ".join(key.replace("_", " ") for key in one.missing) or NOTHING
