"""Published facts that a balance is held against, each with how it is known."""

from __future__ import annotations

from typing import Final

BLOCK: Final = 10.9
"""Height of the block under the rear [mm]: 0.43 in, ASTM F2057-23 as a test laboratory gives it; read."""
BLOCK_INCHES: Final = 0.43
"""The same as it was published [in]."""
BLOCK_DEPTH: Final = 25.0
"""How far the block reaches under the cabinet from its back edge [mm]; same source; read."""
CHILD: Final = 27.5
"""Test mass hung over the front of an open drawer [kg]: 60.0 to 60.7 lb, same source, the upper end; read."""
PULL: Final = 44.5
"""Horizontal pull outwards [N]: 10 lbf. From memory: offered for comparison, not a standard's limit."""
PULL_HEIGHT: Final = 1422.0
"""Highest place of the pull [mm]: 56 in. From memory, as the pull itself."""
LABORATORY: Final = "ASTM F2057-23 as a test laboratory gives it, read"
FROM_MEMORY: Final = "from memory, offered for comparison; no limit of a standard"
CAUTIONS: Final = (
    "Anchor the cabinet to the wall; no balance replaces that.",
    "Children climb on open drawers and have been killed: keep the heaviest things lowest.",
    "Local codes and the maker's own instructions come first.",
    "Where a structure or a person's safety hangs on it, ask a licensed professional.",
)
