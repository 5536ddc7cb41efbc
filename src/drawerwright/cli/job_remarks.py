"""What a job file leaves open and its reader noticed; none of it keeps the job from being read."""

from __future__ import annotations

from collections.abc import Iterator

from drawerwright.files import FileRemark, JobFile


def remarks_on(file: JobFile) -> list[FileRemark]:
    """The reader's remarks on the file, then ours on the job."""
    return [*file.remarks, *_cabinets_not_described(file)]


def _cabinets_not_described(file: JobFile) -> Iterator[FileRemark]:
    """Cabinets that drawers name where the job describes none: each once, where it is named first."""
    if file.job.cabinets:  # one that is missing among others is a fault of the file
        return
    told: set[str] = set()
    for position, drawer in enumerate(file.job.drawers):
        name = drawer.cabinet
        if name is not None and name not in told:
            told.add(name)
            says = (
                f'no [[cabinet]] describes "{name}": its drawers share a column, but its row holes and its '
                "inside width are not known"
            )
            yield FileRemark(file.where("drawer", position, "cabinet"), says)
