from __future__ import annotations

import gc
import time
import tomllib

import pytest

from drawerwright.files import job_from_mapping

DRAWER = """
[[drawer]]
id = "{0}"
cabinet = "B{1}"
row = {2}
opening = {{ width = [562, 561.5], height = 168, depth = 530, floor = 0 }}
front = {{ style = "overlay", thickness = 19, overlay = 16, gap = 3 }}
side = 16
contents = "20 kg"
"""


def test_a_job_of_2000_drawers_is_read_in_little_more_time_than_its_toml(
    request: pytest.FixtureRequest,
) -> None:
    text = "".join(DRAWER.format(at, at // 4, at % 4 + 1) for at in range(2000))
    parsing, reading = [], []
    gc.disable()  # or what other tests left behind is walked through meanwhile
    request.addfinalizer(gc.enable)
    for _ in range(5):  # the least of several: whatever else the machine does, it only adds
        start = time.perf_counter()
        values = tomllib.loads(text)
        parsed = time.perf_counter()
        job = job_from_mapping(values)
        reading.append(time.perf_counter() - parsed)
        parsing.append(parsed - start)
        assert len(job.drawers) == 2000
    assert min(reading) < 5 * min(parsing)
