"""Drawings: a scene of typed primitives in mm, its views of a fitted drawer, and its SVG and DXF writers."""
