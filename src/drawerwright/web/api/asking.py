"""What a request asks of a job: the job, the slides, the materials, and a command's options by name."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final, TypeVar

from drawerwright.catalogue.contents import contents_preset_ids
from drawerwright.catalogue.families import families_from_mappings
from drawerwright.catalogue.materials import Materials, materials_from_mappings, shipped_materials
from drawerwright.errors import Fault, InputError, ReadingError
from drawerwright.files import job_from_mapping
from drawerwright.fit.asked_for import check_slides_asked_for
from drawerwright.fit.whole_job import Aim
from drawerwright.model.family import SlideFamily
from drawerwright.model.job import Job
from drawerwright.store import Store
from drawerwright.units import BareUnit, ShownUnits, parse_clearance, show_value
from drawerwright.web.aims import AIMS
from drawerwright.web.api.body import check_keys
from drawerwright.web.api.bounds import MOST_FAMILIES, check_entries, check_tried
from drawerwright.web.families import families_of, shipped_families
from drawerwright.web.quick_job import SHOWN_UNITS

Read = TypeVar("Read")

JOB_KEYS: Final = ("job", "slides", "own_slides", "materials", "units")
"""What every route that takes a job takes."""

AIM_KEYS: Final = (*AIMS, "lose_at_most")


@dataclass(frozen=True, slots=True)
class Asked:
    """A job read with everything that goes with it."""

    job: Job
    families: tuple[SlideFamily, ...]
    materials: Materials
    units: ShownUnits


class Reader:
    """Reads parts of one request and collects the faults of all of them."""

    def __init__(self, body: Mapping[str, Any], known: Sequence[str]) -> None:
        self.body = body
        self.faults: list[Fault] = []
        check_keys(body, known, self.faults)

    def read(self, part: Callable[[], Read]) -> Read | None:
        """A part, or None where it has faults, which are kept."""
        try:
            return part()
        except InputError as error:
            self.faults += error.faults
        except ReadingError as error:
            self.faults.append(error.fault(""))
        return None

    def truth(self, key: str) -> bool:
        """A key that is true or false; false unless told."""
        told = self.body.get(key)
        if told is None or isinstance(told, bool):
            return bool(told)
        self.faults.append(Fault(key, show_value(told), "is neither true nor false", "true"))
        return False

    def choice(self, key: str, allowed: Sequence[str]) -> str | None:
        """A key that holds one of some words; None unless told."""
        told = self.body.get(key)
        if told is None or (isinstance(told, str) and told in allowed):
            return told
        says = "is not one of " + ", ".join(f'"{one}"' for one in allowed)
        self.faults.append(Fault(key, show_value(told), says, f'"{allowed[0]}"'))
        return None

    def text(self, key: str) -> str | None:
        """A key that holds text; None unless told."""
        told = self.body.get(key)
        if told is None or isinstance(told, str):
            return told
        self.faults.append(Fault(key, show_value(told), "is not text", '"B1-2"'))
        return None

    def number(self, key: str, usual: float) -> float:
        """A key that holds a number; `usual` unless told."""
        told = self.body.get(key, usual)
        if isinstance(told, (int, float)) and not isinstance(told, bool):
            return float(told)
        self.faults.append(Fault(key, show_value(told), "is not a number", f"{usual:g}"))
        return usual

    def count(self, key: str, usual: int) -> int:
        """A key that holds a whole number; `usual` unless told."""
        told = self.body.get(key, usual)
        if isinstance(told, int) and not isinstance(told, bool):
            return told
        self.faults.append(Fault(key, show_value(told), "is not a whole number", f"{usual}"))
        return usual

    def length(self, key: str, read: Callable[[object, BareUnit], float]) -> float | None:
        """A key that holds a length [mm], read as the job's are; None unless told."""
        told = self.body.get(key)
        if told is None:
            return None
        try:
            return read(told, self.bare_unit())
        except ReadingError as error:
            self.faults.append(error.fault(key))
            return None

    def texts(self, key: str) -> list[str]:
        """A key that holds a list of texts; empty unless told."""
        told = self.body.get(key, [])
        if isinstance(told, list) and all(isinstance(one, str) for one in told):
            return told
        self.faults.append(Fault(key, show_value(told), "is not a list of texts", '["house-16", "house-19"]'))
        return []

    def asked(self, store: Store) -> Asked:
        """The job with its slides, materials and units. Raises InputError with all faults of the request."""
        materials = self.read(self._materials) or shipped_materials()
        job = self.read(
            lambda: job_from_mapping(
                self._job(), where="job", presets=contents_preset_ids(), materials=materials
            )
        )
        families = self.read(lambda: self._families(store))
        units = self.choice("units", tuple(SHOWN_UNITS))
        self.done()
        assert job is not None
        assert families is not None
        check_tried(len(job.drawers), families)
        check_slides_asked_for(
            job.drawers, families, where=lambda at: f"job drawer {job.drawers[at].id} slide"
        )
        shown = job.units if units is None else SHOWN_UNITS[units]
        return Asked(job, families, materials, shown)

    def aim(self) -> Aim | None:
        """The aim of the whole job that is asked for, None without one."""
        asked = [key for key in AIMS if self.truth(key)]
        if len(asked) > 1:
            says = "exclude each other: a job has one aim"
            self.faults.append(Fault(" ".join(asked), "true", says, f'"{asked[0]}": true'))
        told = self.body.get("lose_at_most")
        if told is not None and not any(self.body.get(key) for key in AIMS):
            says = f"goes with an aim: {', '.join(AIMS)}"
            self.faults.append(Fault("lose_at_most", show_value(told), says, '"fewest_lengths": true'))
        return AIMS[asked[0]] if asked else None

    def lose_at_most(self) -> float:
        """How much box length or travel a drawer may give up [mm]; infinite unless told."""
        told = self.length("lose_at_most", parse_clearance)
        return math.inf if told is None else told

    def done(self) -> None:
        """Raise InputError if any part had a fault."""
        if self.faults:
            raise InputError(dict.fromkeys(self.faults))

    def _job(self) -> Any:
        if "job" in self.body:
            job = self.body["job"]
            if isinstance(job, Mapping):
                check_entries(job.get("drawer"), "job drawer")
                check_entries(job.get("cabinet"), "job cabinet")
            return job
        raise InputError([Fault("job", "", "is missing", '"job": {"drawer": [...]}')])

    def bare_unit(self) -> BareUnit:
        """What a bare length of the request means: as in its job."""
        job = self.body.get("job")
        return "in" if isinstance(job, Mapping) and job.get("units") == "in" else "mm"

    def _families(self, store: Store) -> tuple[SlideFamily, ...]:
        told = self.body.get("slides")
        own = self.truth("own_slides")
        if told is None:
            return families_of(store) if own else shipped_families()
        if own:
            says = "goes without slides: they are the only ones then"
            raise InputError([Fault("own_slides", "true", says, "one of the two")])
        check_entries(told, "slides", MOST_FAMILIES)
        return families_from_mappings(told, where="slides")

    def _materials(self) -> Materials:
        told = self.body.get("materials")
        return shipped_materials() if told is None else materials_from_mappings(told, where="materials")
