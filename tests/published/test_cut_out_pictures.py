"""Drawers cut out for pipes, drawn out, against a rendering by ray casting.

The rendering is that of `test_hidden_lines` (T. L. Kay, J. T. Kajiya, "Ray tracing complex scenes", SIGGRAPH
1986, section 3, from memory). Here parts are made of several boxes, so a line belongs where the part changes
or the plane of the face that is met.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from tests.published.test_hidden_lines import NONE, Array, Boxes, Ids, beside, crossed, ends_of, met

from drawerwright.catalogue import load_families
from drawerwright.drawing.hidden_lines import Picture
from drawerwright.drawing.solids import Solid
from drawerwright.drawing.views.isometric import SEEN_FROM, SeenFrom, solids_drawn_out, travel_of
from drawerwright.drawing.views.standing import standing
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedDrawer

PIXELS = 34


def _boxes(solids: list[Solid]) -> Boxes:
    """Two corners of each solid, from its faces, which stand along the axes."""
    normals = np.array([each.normals for each in solids])
    places = normals * np.array([each.offsets for each in solids])[:, :, None]
    return Boxes(
        np.min(places, axis=1, where=normals < 0, initial=np.inf),
        np.max(places, axis=1, where=normals > 0, initial=-np.inf),
    )


def _planes(solids: list[Solid], boxes: Boxes, found: Ids, seen_from: SeenFrom) -> Array:
    """What each ray met (n, 3): the part, the axis across the face where the face lies; -1 for nothing."""
    names = sorted({each.part for each in solids})
    parts = np.array([names.index(each.part) for each in solids])
    towards = np.array(SEEN_FROM[seen_from].towards)
    faces = np.where(towards > 0, boxes.high, boxes.low)
    which, axis = found // 3, found % 3
    planes = np.column_stack((parts[which], axis, faces[which, axis]))
    planes[found == NONE] = NONE
    return planes


def _differs(one: Array, other: Array) -> NDArray[np.bool_]:
    return np.asarray(np.abs(one - other).max(axis=-1) > 1e-6)


def _piped(cut_out: dict[str, float], bottom: str, style: str) -> FittedDrawer:
    told: dict[str, Any] = {
        "id": "piped",
        "opening": {"width": 762, "height": 200, "depth": 480},
        "side": 16,
        "cut_out": cut_out,
        "box": {"bottom": bottom},
        "front": {"style": style},
    }
    job = job_from_mapping({"title": "Pipes (invented)", "drawer": [told]})
    return fit_job(job, load_families(None)).drawers[0]


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.fixed_dictionaries(
        {"width": st.integers(60, 560), "depth": st.integers(30, 330)},
        optional={"from_left": st.integers(45, 400)},
    ),
    st.sampled_from(["groove-4", "groove-3", "under"]),
    st.sampled_from(["none", "overlay", "inset"]),
    st.sampled_from([0.0, 0.45, 1.0]),
    st.sampled_from(sorted(SEEN_FROM)),
)
def test_a_cut_out_is_drawn_as_it_is_seen(
    cut_out: dict[str, float], bottom: str, style: str, share: float, seen_from: SeenFrom
) -> None:
    """No hidden edge is drawn, and neighbouring pixels that show different faces have a line between them."""
    one = _piped(cut_out, bottom, style)
    assume(one.box is not None)
    solids = solids_drawn_out(standing(one), share * travel_of(one))
    boxes = _boxes(solids)
    starts, ends = ends_of(Picture(solids, SEEN_FROM[seen_from]).lines())

    def seen(points: Array) -> Array:
        return _planes(solids, boxes, met(boxes, points, seen_from), seen_from)

    long = np.hypot(*(ends - starts).T) > 1.0
    _, left, right = beside(starts[long], ends[long], np.array([0.04, 0.5, 0.96]))
    assert np.all(_differs(seen(left), seen(right)))
    both = np.concatenate((starts, ends))
    (low_x, low_y), (high_x, high_y) = both.min(axis=0) - 1.0, both.max(axis=0) + 1.0
    across, up = np.linspace(low_x, high_x, PIXELS), np.linspace(low_y, high_y, PIXELS)
    pixels = np.stack(np.meshgrid(across, up), axis=2)
    shown = seen(pixels.reshape(-1, 2)).reshape(PIXELS, PIXELS, 3)
    for a, b in ((np.s_[:, :-1], np.s_[:, 1:]), (np.s_[:-1], np.s_[1:])):
        changes = _differs(shown[a], shown[b])
        assert np.all(crossed(starts, ends, pixels[a][changes], pixels[b][changes]))


def test_through_the_cut_out_the_cabinet_is_seen_and_beside_it_the_bottom() -> None:
    """720 inside from -360, cut out from -160 to 100. Walls 160 high hide what is less than 160 behind."""
    one = _piped({"width": 260, "depth": 230, "from_left": 200}, "groove-4", "none")
    stand = standing(one)
    solids = solids_drawn_out(stand, 200.0)
    boxes, paper = _boxes(solids), SEEN_FROM["right"].paper
    under = stand.lower_edge + 13.0 + 6.0  # the bottom's upper face: recess and thickness above the edge
    rear = 200.0 - stand.box_rear
    found = [
        solids[int(met(boxes, (np.array([[x, under, rear + 50.0]]) @ paper), "right")[0]) // 3].part
        for x in (-100.0, 150.0)
    ]
    assert found == ["cabinet floor", "bottom"]
