"""Formulas of mechanics that the studies share: beams, plates, rolled sections, screws. Numbers or arrays."""
