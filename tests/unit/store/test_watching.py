"""A mark that stays while nothing is saved, and changes with every save, whoever makes it."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from drawerwright.store import open_store

FAMILY = {"id": "shop-16", "capacity": 40, "inside_width_deduction": 42, "length": [{"nominal": 500}]}
SAVING = (
    "import sys\nfrom drawerwright.store import open_store\n"
    "with open_store(sys.argv[1]) as store:\n"
    "    store.create_job({'title': 'from elsewhere', 'drawer': []})\n"
)


def test_a_mark_stays_while_the_store_is_only_read(tmp_path: Path) -> None:
    with open_store(f"sqlite:///{tmp_path / 'store.db'}") as store:
        mark = store.change_mark()
        assert mark is not None
        store.jobs()
        store.families()
        assert store.change_mark() == mark


def test_a_mark_changes_with_every_save_of_this_process(tmp_path: Path) -> None:
    with open_store(f"sqlite:///{tmp_path / 'store.db'}") as store:
        marks = [store.change_mark()]
        job = store.create_job({"title": "A job", "drawer": []})
        marks.append(store.change_mark())
        store.save_job(job.id, {"title": "Another", "drawer": []}, based_on=1)
        marks.append(store.change_mark())
        store.save_family(FAMILY)
        marks.append(store.change_mark())
        store.bin_family("shop-16")
        marks.append(store.change_mark())
        assert len(set(marks)) == len(marks)


def test_a_mark_changes_with_a_save_of_another_process(tmp_path: Path) -> None:
    address = f"sqlite:///{tmp_path / 'store.db'}"
    with open_store(address) as store:
        mark = store.change_mark()
        subprocess.run([sys.executable, "-c", SAVING, address], check=True)
        assert store.change_mark() != mark
        assert [one.title for one in store.jobs()] == ["from elsewhere"]
