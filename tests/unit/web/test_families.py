"""Which families the server fits with: those offered, and the store's own as they are at that moment."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from drawerwright.errors import InputError
from drawerwright.store import Store, open_store
from drawerwright.web.families import families_of, offer, own_families, shipped_families

SHOP = {"id": "shop-16", "capacity": 40, "inside_width_deduction": 42, "length": [{"nominal": 500}]}


@pytest.fixture
def offering() -> Iterator[Any]:
    """Offer other families; the shipped ones again at the end."""
    yield offer
    offer(())


def ids(store: Store) -> list[str]:
    return [one.id for one in families_of(store)]


def test_the_shipped_families_come_first_and_the_stores_others_after_them(store: Store) -> None:
    store.save_family(SHOP)
    assert ids(store) == [*(one.id for one in shipped_families()), "shop-16"]


def test_a_family_that_was_not_changed_is_not_read_again(store: Store) -> None:
    store.save_family(SHOP)
    first = families_of(store)
    assert families_of(store) is first
    store.create_job({"title": "A job", "drawer": []})
    assert families_of(store)[-1] is first[-1]


def test_what_another_connection_saves_bins_or_deletes_is_seen_at_once(store: Store, tmp_path: Path) -> None:
    assert "shop-16" not in ids(store)
    with open_store(f"sqlite:///{tmp_path / 'store.db'}") as other:
        other.save_family(SHOP)
        assert own_families(store)[0].capacity == 40.0
        other.save_family({**SHOP, "capacity": 30}, based_on=1)
        assert own_families(store)[0].capacity == 30.0
        other.bin_family("shop-16")
        assert own_families(store) == ()
        other.delete_family("shop-16", sure="shop-16")
        other.save_family({**SHOP, "capacity": 35})
        assert own_families(store)[0].capacity == 35.0


def test_two_stores_keep_their_families_apart(store: Store, tmp_path: Path) -> None:
    store.save_family(SHOP)
    with open_store(f"sqlite:///{tmp_path / 'other.db'}") as other:
        other.save_family({**SHOP, "capacity": 30})
        assert own_families(store)[0].capacity == 40.0
        assert own_families(other)[0].capacity == 30.0


def test_a_store_on_a_server_is_asked_each_time(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(type(store), "change_mark", lambda _: None)
    assert own_families(store) == ()
    store.save_family(SHOP)
    assert [one.id for one in own_families(store)] == ["shop-16"]


def test_families_that_the_server_is_told_to_offer_stand_in_the_place_of_the_shipped_ones(
    store: Store, tmp_path: Path, offering: Any
) -> None:
    path = tmp_path / "bench.toml"
    path.write_text(
        'id = "bench-16"\ncapacity = 40\ninside_width_deduction = 42\n[[length]]\nnominal = 500\n',
        encoding="utf-8",
    )
    store.save_family(SHOP)
    assert "house-16" in ids(store)
    offering([str(path)])
    assert ids(store) == ["bench-16", "shop-16"]
    offering(())
    assert "house-16" in ids(store)


def test_families_that_cannot_be_used_are_not_offered(tmp_path: Path, offering: Any) -> None:
    path = tmp_path / "bad.toml"
    path.write_text('id = "bad"\n', encoding="utf-8")
    with pytest.raises(InputError):
        offering([str(path)])
    assert shipped_families()[0].id == "house-16"
