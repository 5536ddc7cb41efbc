"""Jobs of every kind that a file can hold."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

from drawerwright.files import job_from_mapping
from drawerwright.model.job import Job

SIZES = st.floats(0.001, 5000).map(lambda size: round(size, 6)) | st.integers(1, 5000)
PITCHES = st.floats(5, 5000).map(lambda size: round(size, 6)) | st.integers(5, 5000)
CLEARANCES = st.floats(0, 500) | st.just(0)
TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=20)
NAMES = st.text(st.characters(categories=["L", "N", "P"]), min_size=1, max_size=8).filter(
    lambda name: name not in (".", "..")
)
WORDS = st.sampled_from


def table(required: dict[str, Any], optional: dict[str, Any]) -> st.SearchStrategy[dict[str, Any]]:
    return st.fixed_dictionaries(required, optional=optional)


READINGS = SIZES | st.lists(SIZES, min_size=1, max_size=4)
LABELS = WORDS(["front_top", "front_bottom", "back_top", "back_bottom", "front", "back"])
HEIGHT_LABELS = WORDS(["left", "right", "front_left", "front_right", "back_left", "back_right"])
OPENINGS = table(
    {
        "width": READINGS | st.dictionaries(LABELS, SIZES, min_size=1),
        "height": READINGS | st.dictionaries(HEIGHT_LABELS, SIZES, min_size=1),
        "depth": READINGS,
    },
    {"floor": CLEARANCES, "diagonals": st.tuples(SIZES, SIZES).map(list)},
)
HANDS = WORDS(["left", "right"])
OFFSETS = st.floats(-500, 500)
THINGS = table(
    {"what": NAMES, "side": HANDS, "stands_in": SIZES},
    {
        "bottom": OFFSETS,
        "depth": st.tuples(OFFSETS, OFFSETS).map(sorted),
    },
)
DOORS = table(
    {"hinge": HANDS}, {"opens": st.floats(10, 180), "thickness": SIZES, "stands_in": OFFSETS, "width": SIZES}
)
CUT_OUTS = table({"width": SIZES, "depth": SIZES}, {"from_left": SIZES})
OVERLAYS = CLEARANCES | table({}, dict.fromkeys(("left", "right", "top", "bottom"), CLEARANCES))
FRONTS = table(
    {},
    {
        "style": WORDS(["overlay", "inset", "none"]),
        "thickness": SIZES,
        "overlay": OVERLAYS,
        "gap": CLEARANCES,
    },
)
BOXES = table(
    {"bottom": st.just("under")},  # no groove, so none can go through a thin side
    {
        "joint": WORDS(["butt", "rabbet", "dowel", "dovetail"]),
        "bottom_thickness": SIZES,
        "groove_depth": CLEARANCES,
        "front": WORDS(["applied", "integral"]),
        "heights": st.lists(SIZES, max_size=3),
    },
)
DRAWERS = table(
    {"opening": OPENINGS, "side": SIZES | st.lists(SIZES, min_size=1, max_size=3)},
    {
        "subfront": SIZES,
        "cabinet": NAMES,
        "row": st.integers(1, 9),
        "mount": WORDS(["side", "packed", "rear-bracket", "shelf", "auto"]),
        "slide": WORDS(["auto", "house-16", "house-16/500", "house-16/533.4"]),
        "front": FRONTS,
        "size_from": WORDS(["inside", "outside"]),
        "existing_box": st.just({}) | table({"inside_width": SIZES}, {"length": SIZES, "height": SIZES}),
        "box": BOXES,
        "box_height": st.just("auto") | SIZES,
        "contents": st.floats(0, 200) | st.just({"preset": "kcma-drawer"}),
        "quantity": st.integers(1, 99),
        "materials": st.just({"side": "1/2 ply", "bottom": "6 birch ply"}) | st.just({"front": "3/4 cherry"}),
        "note": TEXTS,
        "door": DOORS,
        "in_the_way": st.lists(THINGS, max_size=2),
        "pack_rear": st.booleans(),
        "cut_out": CUT_OUTS,
        "stabiliser": st.booleans(),
    },
)


CABINETS = table(
    {},
    {
        "inside_width": SIZES,
        "first_row": CLEARANCES,
        "pitch": PITCHES,
        "interlock": st.booleans(),
        "shelf_fixed": st.booleans(),
        "mass": st.floats(0, 200),
        "size": st.fixed_dictionaries(dict.fromkeys(("width", "height", "depth"), SIZES)),
    },
)


@st.composite
def jobs(draw: st.DrawFn) -> Job:
    drawers = draw(st.lists(DRAWERS, min_size=1, max_size=3))
    for at, drawer in enumerate(drawers):
        drawer["id"] = f"{draw(NAMES)}-{at}"
        drawer["row"] = at + 1
        if "cut_out" in drawer:  # it goes through the back, which is as thick as the sides
            drawer["side"], drawer["cut_out"]["depth"] = 16, draw(st.integers(17, 5000))
        if draw(st.booleans()):
            drawer["construction"] = "face-frame"
            drawer["frame"] = {"left": draw(CLEARANCES), "right": 38, "thickness": draw(SIZES)}
    names = dict.fromkeys(drawer["cabinet"].strip() for drawer in drawers if "cabinet" in drawer)
    cabinets = []
    if draw(st.booleans()):
        cabinets = [{**draw(CABINETS), "id": name} for name in ("a cabinet without drawers", *names)]
    job = job_from_mapping({"title": draw(TEXTS), "cabinet": cabinets, "drawer": drawers})
    return job.model_copy(update={"units": draw(WORDS(["mm", "in"]))})
