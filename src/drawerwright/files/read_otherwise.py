"""Keys of a job that are read otherwise than may be expected: frames left aside, boxes measured in part."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from drawerwright.files.remarks import FileRemark
from drawerwright.model.job import Job

Where = Callable[..., str]
"""Where a key of the job stands, in words."""


def remarks_on_job(job: Job, values: Mapping[str, Any], where: Where) -> Iterator[FileRemark]:
    """Remarks on a job that was read from these keys, drawer by drawer."""
    yield from _frames_left_aside(job, values, where)
    yield from _boxes_measured_in_part(job, where)


def _frames_left_aside(job: Job, values: Mapping[str, Any], where: Where) -> Iterator[FileRemark]:
    """Frames of drawers that are frameless.

    Those of the defaults are told once, and only where no drawer uses them: defaults may carry a frame for
    some of the drawers.
    """
    says = (
        'is left aside: construction is "frameless"; say construction = "face-frame" where there is a frame'
    )
    inherited = None
    for position, drawer in enumerate(job.drawers):
        if drawer.frame is None or drawer.frame_in_use is not None:
            continue
        if "frame" in values["drawer"][position]:
            yield FileRemark(where("drawer", position, "frame"), says)
        elif inherited is None:
            inherited = where("defaults", "frame")
    if inherited is not None and all(drawer.frame_in_use is None for drawer in job.drawers):
        yield FileRemark(inherited, says)


def _boxes_measured_in_part(job: Job, where: Where) -> Iterator[FileRemark]:
    for position, drawer in enumerate(job.drawers):
        box = drawer.existing_box
        if box is not None and box.unmeasured:
            sizes = " and ".join(box.unmeasured)
            says = f"does not tell the box's {sizes}: taken as it would be cut for the opening"
            yield FileRemark(where("drawer", position, "existing_box"), says)
