"""An existing box on other slides as JSON: what `fit` tells of a drawer under `retrofit`."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from drawerwright.model.retrofit import Retrofit

_DECIMALS = 6


def retrofits_document(retrofits: Iterable[Retrofit]) -> list[dict[str, Any]]:
    """Lengths in mm; `work` in words, `pieces` the same by kind and size."""
    return [
        {
            "family": one.family,
            "nominal": round(one.nominal, _DECIMALS),
            "mount": one.mount,
            "as_is": one.as_is,
            "work": [piece.says for piece in one.work],
            "pieces": [{"kind": piece.kind, "by": round(piece.by, _DECIMALS) + 0.0} for piece in one.work],
            "measure": list(one.measure),
        }
        for one in retrofits
    ]
