"""Drawers that are built alike are gathered; what differs in the wood is not."""

from __future__ import annotations

from dataclasses import replace

from pack_builders import fitting, job_of, not_fitting

from drawerwright.pack.distinct import distinct_drawers


def test_drawers_alike_but_for_name_number_and_note_are_one_kind() -> None:
    _, fitted = job_of(fitting("A", quantity=2), fitting("B", note="left of the sink"), fitting("C"))
    (alike,) = distinct_drawers(fitted)
    assert alike.ids == ("A", "B", "C")
    assert alike.count == 4
    assert alike.first.id == "A"


def test_another_bore_height_is_another_kind() -> None:
    other = fitting("B")
    assert other.mounting is not None
    raised = replace(other, mounting=replace(other.mounting, screw_line=88.0))
    _, fitted = job_of(fitting("A"), raised, fitting("C"))
    assert [alike.ids for alike in distinct_drawers(fitted)] == [("A", "C"), ("B",)]


def test_kinds_come_in_the_order_of_the_job() -> None:
    _, fitted = job_of(not_fitting("Z"), fitting("A"), not_fitting("Y"))
    assert [alike.ids for alike in distinct_drawers(fitted)] == [("Z", "Y"), ("A",)]
