"""The study of carrying: will it hold, how far does it sag, does it close, can it tip.

Its names are brought in when they are first asked for: a balance alone needs none of the study's numerics.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from drawerwright.carry.carried import CarriedDrawer as CarriedDrawer
    from drawerwright.carry.carried import CarriedJob as CarriedJob
    from drawerwright.carry.document import carry_document as carry_document
    from drawerwright.carry.study import carry_drawer as carry_drawer
    from drawerwright.carry.study import carry_job as carry_job

_WHERE: Final = {
    "CarriedDrawer": "carried",
    "CarriedJob": "carried",
    "carry_document": "document",
    "carry_drawer": "study",
    "carry_job": "study",
}


def __getattr__(name: str) -> Any:
    if name not in _WHERE:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_WHERE[name]}"), name)
