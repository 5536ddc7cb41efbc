"""On whose word an equation or a number stands."""

GEOMETRY = "geometry"
PRACTICE = "common practice, no source"
FAMILY = "the slide family's data"
PRACTICE_FAMILY = "common practice, no source; the numbers are the slide family's data"
STATICS = "mass from volume and density"
TOOL = "the tool's own rule"
