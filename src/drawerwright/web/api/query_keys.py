"""Keys of an address that its route does not know are told, as those of a body are."""

from __future__ import annotations

from typing import Final

from fastapi import Request
from fastapi.dependencies.models import Dependant
from fastapi.routing import APIRoute

from drawerwright.errors import Fault, InputError
from drawerwright.model.spelling import nearest
from drawerwright.units import show_value

MOST_LOOKED_AT: Final = 200
"""Unknown keys whose nearest is sought: more than an answer tells. Own choice."""


async def check_query(request: Request) -> None:
    """Raise InputError where the address has keys that its route does not know, the nearest told.

    Routes that read their address themselves are left to do so.
    """
    route = request.scope.get("route")
    if not request.query_params or not isinstance(route, APIRoute):
        return
    if "parameters" in (route.openapi_extra or {}):
        return
    known = known_keys(route.dependant)
    unknown = [(key, text) for key, text in request.query_params.items() if key not in known]
    if unknown:
        raise InputError(_fault(key, text, known) for key, text in unknown[:MOST_LOOKED_AT])


def known_keys(dependant: Dependant) -> set[str]:
    """The keys that a route takes from its address, by itself or by what it depends on."""
    own = {field.alias for field in dependant.query_params}
    return own.union(*(known_keys(one) for one in dependant.dependencies))


def _fault(key: str, text: str, known: set[str]) -> Fault:
    close = nearest(key[:80], known)
    if not close:
        return Fault(key[:80], show_value(text), "is not a known key: there are none here", "no key")
    return Fault(key[:80], show_value(text), f'is not a known key: the nearest is "{close}"', close)
