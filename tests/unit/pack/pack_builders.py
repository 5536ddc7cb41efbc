"""Fitted drawers put together by hand, so that packs are tested apart from the fitting."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from drawerwright.model.family import SlideFamily
from drawerwright.model.fitted import (
    BoxSizes,
    Change,
    Check,
    ChosenSlide,
    FittedDrawer,
    FittedJob,
    FrontSizes,
    Latch,
    Masses,
    Mounting,
    Part,
    ReadOpening,
    Rejected,
    Working,
)
from drawerwright.model.job import Cabinet, Drawer, Job

FAMILY = SlideFamily.model_validate(
    {
        "id": "plain-16",
        "title": "Plain slide for 16 mm sides (invented)",
        "invented": True,
        "capacity": 45.0,
        "inside_width_deduction": 42.0,
        "length": [{"nominal": 500.0, "holes": [0, 32, 224, 256, 416], "slots": [16]}],
    }
)

HOLES = (37.0, 69.0, 261.0, 293.0, 453.0)
CHECK_SAYS = {
    "side-thickness": "gap each side is 5.0, the slide wants 4.5",
    "latch-side": "brackets stand 0.0 off their seats sideways, 0.8 latches",
    "latch-along": "brackets stand 0.0 off their seats lengthways, 1.0 latches",
    "cabinet-depth": "depth 530; front end 2, slide 500 and 3 behind it need 505",
    "opening-width": "the pair runs between 1.0 narrower and 1.5 wider; readings differ by 0.5",
    "opening-height": "box of 140 where 147 may be",
    "opening-taper": "readings 562 and 561.5: say which is at the front",
    "capacity": "27.4 kg move, the pair carries 45",
    "mount": "screw line at 24 meets the row holes",
    "front-reach": "the adjusters bring the front flush",
    "front-gap": "even gap of 3",
    "hook-bore": "bores Ø 6, 10 deep stay clear of the bottom",
    "width-to-length": "1.1 times as wide as long, 2.5 at most",
}


def drawer(name: str = "B1-1", **keys: Any) -> Drawer:
    """A drawer as a job file would tell it."""
    told: dict[str, Any] = {
        "id": name,
        "opening": {"width": [562, 561.5], "height": 168, "depth": 530},
        "side": 16,
        "front": {"style": "overlay"},
        "contents": 20,
    }
    return Drawer.model_validate(told | keys)


def checks(states: dict[str, str] | None = None) -> tuple[Check, ...]:
    """One check of each kind, in the states told, else ok."""
    told = states or {"opening-taper": "watch"}
    return tuple(
        Check(
            check_id,
            told.get(check_id, "ok"),
            0.5,
            "kg" if check_id == "capacity" else "mm",
            says,
            "",
            "common practice, no source",
        )  # type: ignore[arg-type]
        for check_id, says in CHECK_SAYS.items()
    )


def workings() -> dict[str, Working]:
    """The working of the main numbers."""
    source = "common practice, no source"
    inside = Working(
        "inside_width", "mm", 519.5, "Inside width of the box", "seat_width", "561.5 − 42 = 519.5",
        (("opening_width", 561.5, "mm", "your smaller reading"),
         ("inside_width_deduction", 42.0, "mm", "the slide's")),
        source,
    )  # fmt: skip
    outside = Working(
        "outside_width", "mm", 551.5, "Outside width of the box", "inside_width + 2 * side_thickness",
        "519.5 + 2 × 16 = 551.5", (), source,
    )  # fmt: skip
    gap = Working("side_gap", "mm", 5.0, "Gap, each side", "…", "(561.5 − 551.5) / 2 = 5", (), source)
    return {"inside_width": inside, "outside_width": outside, "side_gap": gap}


def fitting(name: str = "B1-1", **keys: Any) -> FittedDrawer:
    """A drawer that fits with care: 551.5 wide, 140 high, 500 long on a plain pair of slides."""
    told = drawer(name, **keys)
    return FittedDrawer(
        drawer=told,
        cabinet=Cabinet(id="B1", first_row=56.0),
        opening=ReadOpening(561.5, 562.0, 168.0, 530.0, 0.0, (562.0, 561.5)),
        verdict="fits-with-care",
        slide=ChosenSlide(FAMILY, FAMILY.lengths[0], "side", (), (3.0,)),
        latch=Latch(0.0, 0.3),
        box=BoxSizes(551.5, 519.5, 140.0, 500.0, 16.0, 12.7, 16.0, 6.0, 6.0, 13.0, 5.0, 14.0, -1.0),
        mounting=Mounting(
            2.0, 500.0, HOLES, HOLES, (53.0,), (53.0,), (), 24.0, 0.0, None, None, None, None, 0.0, 0.0,
        ),
        front=FrontSizes("overlay", 594.0, 182.5, 19.0, 16.0, 16.0, -1.5, 16.0, 1.0),
        parts=(
            Part("side", 2, 500.0, 140.0, 16.0, "length"),
            Part("subfront", 1, 519.5, 140.0, 12.7, "length"),
            Part("back", 1, 519.5, 140.0, 16.0, "length"),
            Part("bottom", 1, 531.5, 480.0, 6.0, "none"),
            Part("front", 1, 594.0, 182.5, 19.0, "length"),
        ),
        mass=Masses(4.1, 1.9, 1.4, 20.0, 27.4),
        capacity=45.0,
        checks=checks(),
        changes=(),
        rejected=(),
        workings=workings(),
    )  # fmt: skip


def not_fitting(name: str = "B9-1", **keys: Any) -> FittedDrawer:
    """A drawer for which no slide is short enough."""
    told = drawer(name, opening={"width": 562, "height": 168, "depth": 240}, **keys)
    return replace(
        fitting(name),
        drawer=told,
        opening=ReadOpening(562.0, 562.0, 168.0, 240.0, 0.0, (562.0,)),
        verdict="does-not-fit",
        slide=None, latch=None, box=None, mounting=None, front=None, parts=(), mass=None, capacity=None,
        checks=(Check("cabinet-depth", "stop", -65.0, "mm", "depth 240; the shortest needs 305", "", "…"),),
        changes=(Change("opening.depth", 65.0, "mm", "a depth of 305 takes plain-16 / 300"),),
        rejected=tuple(
            Rejected("plain-16", nominal, "side", "cabinet-depth", 235.0 - nominal, "mm",
                     (("cabinet-depth", 235.0 - nominal, "mm"),))
            for nominal in (300.0, 350.0, 400.0, 450.0, 500.0)
        ),
        workings={},
    )  # fmt: skip


def job_of(*fitted: FittedDrawer, title: str = "Kitchen, north") -> tuple[Job, FittedJob]:
    """A job and its fitted drawers."""
    job = Job(
        title=title, cabinet=(Cabinet(id="B1", first_row=56.0),), drawer=tuple(one.drawer for one in fitted)
    )
    return job, FittedJob(title, fitted)
