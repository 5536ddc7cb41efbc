"""Random primitives and scenes for the property tests of drawings."""

from __future__ import annotations

from hypothesis import strategies as st

from drawerwright.drawing.primitives import Arc, Circle, Hole, Lines, Polyline, Slot, Text
from drawerwright.drawing.scene import Dimension, Hatch, Leader, RunningDimension, Scene

lengths = st.floats(-5000, 5000).map(lambda value: round(value, 3))
sizes = st.floats(0.5, 500).map(lambda value: round(value, 3))
points = st.tuples(lengths, lengths)
angles = st.floats(0, 359).map(lambda value: round(value, 2))
words = st.text(max_size=30)
names = st.sampled_from(["opening_width", "side_gap", "box_length"])

primitives = st.one_of(
    st.builds(Lines, st.lists(st.tuples(points, points), min_size=1, max_size=4).map(tuple)),
    st.builds(Polyline, st.lists(points, min_size=3, max_size=6).map(tuple), closed=st.booleans()),
    st.builds(Circle, points, sizes),
    st.builds(Arc, points, sizes, angles, angles),
    st.builds(Text, points, words, anchor=st.sampled_from(["start", "middle", "end"]), shift=points),
    st.builds(Hole, points, sizes, st.none() | sizes, st.just("row holes")),
    st.builds(Slot, points, points, sizes),
    st.builds(
        Hatch, st.lists(points, min_size=3, max_size=6).map(tuple), st.sampled_from([30.0, 45.0, 135.0])
    ),
    st.builds(
        Dimension,
        names,
        sizes,
        points,
        points,
        st.sampled_from(["horizontal", "vertical", "aligned"]),
        lengths,
        st.floats(-30, 30),
    ),
    st.lists(st.tuples(points, lengths), min_size=1, max_size=5).flatmap(
        lambda pairs: st.builds(
            RunningDimension,
            names,
            points,
            st.just(tuple(point for point, _ in pairs)),
            st.just(tuple(value for _, value in pairs)),
            lengths,
            st.just(-8.0),
        )
    ),
    st.builds(Leader, points, points, st.sampled_from([-6.0, 6.0]), words),
)

scenes = st.lists(primitives, min_size=1, max_size=8).map(
    lambda found: Scene("random", "Random", "Random primitives", tuple(found))
)
