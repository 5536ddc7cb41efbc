"""Drawerwright: measured openings in, fitted drawers on concealed slides out."""

__version__ = "0.1.0"
