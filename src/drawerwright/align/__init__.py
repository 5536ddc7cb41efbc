"""Lining up: from measured gaps to what to turn, on which side, how far, and what no adjuster cures."""

from drawerwright.align.aligned import AlignedFront, AlignedJob, LeftOver, Move, NextReading, Pose, Step
from drawerwright.align.document import align_document
from drawerwright.align.job import align_job

__all__ = [
    "AlignedFront",
    "AlignedJob",
    "LeftOver",
    "Move",
    "NextReading",
    "Pose",
    "Step",
    "align_document",
    "align_job",
]
