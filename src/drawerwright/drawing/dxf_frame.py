"""The frame of every DXF file: header, tables and objects, made once by the DXF library and kept as text.

A file is the frame with a scene's layers and entities set in, the handle seed moved on, and the view set
over the drawing. Making the frame takes ten times as long as writing a small panel, and it is the same each
time.
"""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache, lru_cache
from threading import Lock
from typing import Final

APPLICATION: Final = "DRAWERWRIGHT"
OWN_LAYERS: Final = frozenset({"0", "defpoints"})
"""Layers that every file has, in small letters."""
_HEIGHT, _CENTRE = 777777.25, (555555.5, 444444.75)
_LAYER = "layer to be named"
_OPERATION_COLOUR = 5
_FIXED_OPTION_LOCK: Final = Lock()


@dataclass(frozen=True, slots=True)
class Frame:
    """Text between the places that a scene fills, in their order in the file.

    `layer` is one entry of the layer table, parted where handle, name and colour go; `owner` is the handle of
    the model space, `first_handle` the first free one, `layer_count` how many layers the frame has.
    """

    pieces: tuple[str, ...]
    layer: tuple[str, str, str, str]
    layer_count: int
    owner: str
    first_handle: int

    def layer_entry(self, handle: str, name: str, colour: int) -> str:
        """The text of one layer."""
        before, between, after, end = self.layer
        return f"{before}{handle}{between}{name}{after}{colour}{end}"

    def filled(
        self,
        *,
        layers: Sequence[str],
        entities: Sequence[str],
        next_handle: int,
        height: float,
        centre: tuple[float, float],
    ) -> str:
        """The whole file; `height` and `centre` are of the view that a reader opens with [mm]."""
        values = (
            f"{next_handle:X}",
            number(centre[0]),
            number(centre[1]),
            number(height),
            str(self.layer_count + len(layers)),
            "".join(layers),
            "".join(entities),
        )
        parts = [self.pieces[0]]
        for value, piece in zip(values, self.pieces[1:], strict=True):
            parts += [value, piece]
        return "".join(parts)


@lru_cache(maxsize=4096)
def number(value: float) -> str:
    """A coordinate to a millionth of a millimetre, never a negative zero."""
    return repr(round(float(value), 6) + 0.0)


@cache
def frame() -> Frame:
    """The frame, read off an empty file that the library writes."""
    text, owner = _empty_file()
    seed = _between(text, "  9\n$HANDSEED\n  5\n", "\n")
    marks = (
        ("  9\n$HANDSEED\n  5\n", f"{seed}\n"),
        (" 12\n", f"{_CENTRE[0]}\n 22\n"),
        ("\n 22\n", f"{_CENTRE[1]}\n"),
        (" 40\n", f"{_HEIGHT}\n"),
    )
    pieces: list[str] = []
    rest = text
    for before, after in marks:
        at = rest.index(before + after) + len(before)
        pieces.append(rest[:at])
        rest = rest[at + after.index("\n") :]
    table = rest.index("  0\nTABLE\n  2\nLAYER\n")
    at = rest.index(" 70\n", table) + len(" 70\n")
    pieces.append(rest[:at])
    count, rest = int(rest[at:].partition("\n")[0]), rest[at:]
    rest = rest[rest.index("\n") :]
    named = rest.index(f"  2\n{_LAYER}\n")
    begin = rest.rindex("  0\nLAYER\n", 0, named)
    end = rest.index("  0\nENDTAB\n", named)
    entry = rest[begin:end]
    pieces.append(rest[:begin])
    rest = rest[end:]
    at = rest.index("  2\nENTITIES\n") + len("  2\nENTITIES\n")
    pieces += [rest[:at], rest[at:]]
    return Frame(tuple(pieces), _parted_layer(entry), count - 1, owner, int(seed, 16))


def _parted_layer(entry: str) -> tuple[str, str, str, str]:
    """One layer's text, parted where handle, name and colour go."""
    before, _, rest = entry.partition("  5\n")
    _, _, rest = rest.partition("\n")
    between, _, rest = rest.partition(f"  2\n{_LAYER}\n")
    after, _, rest = rest.partition(f" 62\n{_OPERATION_COLOUR}\n")
    return (f"{before}  5\n", f"\n{between}  2\n", f"\n{after} 62\n", f"\n{rest}")


def _between(text: str, before: str, after: str) -> str:
    start = text.index(before) + len(before)
    return text[start : text.index(after, start)]


def _empty_file() -> tuple[str, str]:
    """An empty drawing as text, with values that are found again, and the handle of its model space."""
    from ezdxf.document import Drawing

    with _fixed_metadata():
        document = Drawing.new("AC1024")
        document.header["$INSUNITS"] = 4
        document.header["$MEASUREMENT"] = 1
        document.linetypes.add("DASHED", [8.0, 5.0, -3.0], description="hidden edges")
        document.linetypes.add("CENTER", [22.0, 13.0, -3.0, 3.0, -3.0], description="centre lines")
        document.styles.get("Standard").dxf.font = "arial.ttf"
        document.appids.add(APPLICATION)
        document.layers.add(_LAYER, color=_OPERATION_COLOUR)
        document.set_modelspace_vport(height=_HEIGHT, center=_CENTRE)
        for kind in sorted(document.entitydb.dxf_types_in_use()):
            document.classes.add_class(kind)  # the library would list them in the order of a set
        stream = io.StringIO()
        document.write(stream)
        return stream.getvalue(), str(document.modelspace().block_record_handle)


@contextmanager
def _fixed_metadata() -> Iterator[None]:
    """Dates, ids and version notes at fixed values while the frame is made.

    The library keeps this switch for the whole process, hence the lock.
    """
    from ezdxf._options import options

    with _FIXED_OPTION_LOCK:
        before = options.write_fixed_meta_data_for_testing
        options.write_fixed_meta_data_for_testing = True
        try:
            yield
        finally:
            options.write_fixed_meta_data_for_testing = before
