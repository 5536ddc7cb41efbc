"""The pack of a stored job: what is asked for, what it is named by, how it is made."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any
from urllib.parse import quote, urlencode

from drawerwright import __version__
from drawerwright.model.family import SlideFamily
from drawerwright.pack.papers import PaperName
from drawerwright.pack.write import Section, write_pack
from drawerwright.store import Store
from drawerwright.units import ShownUnits
from drawerwright.web.aims import NO_AIM, AimAsked, fitted_for
from drawerwright.web.families import families_of
from drawerwright.web.fitting import read_values
from drawerwright.web.leaving_out import leave_out
from drawerwright.web.packs_kept import Make, Progress


@dataclass(frozen=True, slots=True)
class PackOptions:
    """What may be chosen of a pack; the defaults are the command's. `units` None: as the job has them.

    `without`: names of drawers that are left out.
    """

    only: tuple[Section, ...] = ()
    paper: PaperName = "a4"
    units: ShownUnits | None = None
    fraction: int = 32
    aim: AimAsked = NO_AIM
    without: tuple[str, ...] = ()

    def query(self) -> list[tuple[str, str]]:
        """The options as keys and values of an address; what is as it is by default is left out."""
        plain = PackOptions()
        told: list[tuple[str, str]] = [("only", one) for one in self.only]
        if self.paper != plain.paper:
            told.append(("paper", self.paper))
        if self.units is not None:
            told.append(("units", self.units))
        if self.fraction != plain.fraction:
            told.append(("fraction", str(self.fraction)))
        return [*told, *self.aim.query(), *(("without", one) for one in self.without)]


@dataclass(frozen=True)
class PackOrder:
    """A pack that is asked for: of one revision of a job, with slides and options, all settled."""

    job: str
    revision: int
    values: Mapping[str, Any]
    families: tuple[SlideFamily, ...]
    options: PackOptions

    @property
    def name(self) -> str:
        """The name under which the pack is kept: the hash of all that it is made of."""
        made_of = {
            "version": __version__,
            "values": self.values,
            "families": [one.model_dump(mode="json", by_alias=True) for one in self.families],
            "options": asdict(self.options),
        }
        text = json.dumps(made_of, sort_keys=True, ensure_ascii=True)
        return hashlib.sha256(text.encode("ascii")).hexdigest()

    @property
    def address(self) -> str:
        """Where the pack is fetched: this revision's, whatever is saved meanwhile."""
        query = urlencode([("revision", str(self.revision)), *self.options.query()])
        return f"/api/v1/jobs/{quote(self.job, safe='')}/pack?{query}"

    def maker(self) -> Make:
        """What makes the pack. Raises InputError, here and now, where the job does not read."""
        job = read_values(self.values)
        shown = self.options.units or job.units
        fitted = fitted_for(self.values, self.families, self.options.aim, shown)[0]

        def make(out: Path, progress: Progress) -> object:
            return write_pack(
                job,
                fitted,
                out,
                paper=self.options.paper,
                units=shown,
                inch_parts=64 if self.options.fraction == 64 else 32,
                only=self.options.only,
                progress=progress,
            )

        return make


def order_pack(store: Store, job: str, revision: int | None, options: PackOptions) -> PackOrder:
    """The pack of a stored job as it is to be made now. Raises NotInStore; InputError for `without`."""
    stored = store.job(job, revision)
    values = leave_out(stored.values, options.without)
    return PackOrder(stored.id, stored.revision, values, families_of(store), options)
