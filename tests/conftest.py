"""What every test shares: the same property examples each run, unless told otherwise."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("house", deadline=None, derandomize=True, max_examples=60)
settings.load_profile("house")
