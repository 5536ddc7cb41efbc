"""Lets the tests of this folder import the drawers put together in `pack_builders`."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
