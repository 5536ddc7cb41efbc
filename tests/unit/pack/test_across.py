"""What a drawer has across: the opening less what is lost, the frame's proof, members on a shelf."""

from __future__ import annotations

from typing import Any

from drawerwright.catalogue import load_families
from drawerwright.drawing.scene import Dimension
from drawerwright.drawing.views.plan import plan
from drawerwright.files import job_from_mapping
from drawerwright.fit import fit_job
from drawerwright.model.fitted import FittedDrawer
from drawerwright.pack.across import frame_proof_text, shelf_places, used_width_text
from drawerwright.pack.bores import bore_rows
from drawerwright.pack.measured import also_told
from drawerwright.pack.shown import Shown

TRAY = {
    "id": "T1",
    "opening": {"width": 562, "height": 168, "depth": 530},
    "lost": {"left": 12},
    "side": 16,
    "mount": "shelf",
    "contents": "10 kg",
}
FRAMED = {
    "id": "F1",
    "opening": {"width": 552.45, "height": 184, "depth": 571},
    "side": 12.7,
    "construction": "face-frame",
    "frame": {"left": 38, "right": 41, "thickness": 19},
}
MM = Shown("mm")


def fitted(drawer: dict[str, Any], **cabinet: Any) -> FittedDrawer:
    values: dict[str, Any] = {"drawer": [drawer]}
    if cabinet:
        values = {"drawer": [{**drawer, "cabinet": "A"}], "cabinet": [{"id": "A", **cabinet}]}
    return fit_job(job_from_mapping(values), load_families(None)).drawers[0]


def test_what_hinges_take_is_told_as_a_sum() -> None:
    assert used_width_text(fitted(TRAY), MM) == "562 − 12 lost left = 550"
    both = fitted({**TRAY, "lost": {"left": 12, "right": 3}})
    assert used_width_text(both, MM) == "562 − 12 lost left − 3 lost right = 547"
    assert used_width_text(fitted({**TRAY, "lost": {}}), MM) == ""


def test_the_sum_stands_on_the_printed_sheet_and_in_the_list_of_work() -> None:
    tray = fitted(TRAY)
    assert "562 − 12 lost left = 550" in also_told(tray, MM)
    assert dict(bore_rows(tray, MM))["Opening less what is lost"] == "562 − 12 lost left = 550"


def test_the_plan_shows_the_width_measured_and_what_is_lost_of_it() -> None:
    drawn = {one.quantity: one.value for one in plan(fitted(TRAY)).primitives if isinstance(one, Dimension)}
    assert (drawn["measured_width"], drawn["lost_left"], drawn["opening_width"]) == (562, 12, 550)
    assert "lost_right" not in drawn
    plain = plan(fitted({**TRAY, "lost": {}})).primitives
    assert "measured_width" not in {one.quantity for one in plain if isinstance(one, Dimension)}


def test_members_on_a_shelf_are_told_from_the_cabinet_sides() -> None:
    tray = fitted(TRAY)
    assert shelf_places(tray) == (12, 0)
    places = dict(bore_rows(tray, MM))["Members' outer faces, in from the cabinet sides"]
    assert places == "left 12, right 0; 550 over both"
    assert shelf_places(fitted({**TRAY, "mount": "side"})) is None


def test_members_on_a_shelf_behind_a_frame_stand_at_the_opening_not_at_the_sides() -> None:
    framed = fitted({**FRAMED, "side": 16, "mount": "shelf", "lost": {"right": 5}})
    assert shelf_places(framed) == (38, 46)


def test_a_frame_is_not_proved_while_the_cabinet_inside_is_not_told() -> None:
    proof = "not proved: measure the cabinet's inside width too"
    assert frame_proof_text(fitted(FRAMED)) == proof
    assert also_told(fitted(FRAMED), MM)[0].startswith(f"face frame standing in 38 left, 41 right ({proof})")
    told = fitted(FRAMED, inside_width=631.45)
    assert frame_proof_text(told) == ""
    assert also_told(told, MM)[0].startswith("face frame standing in 38 left, 41 right, ")
    assert frame_proof_text(fitted(TRAY)) == ""
