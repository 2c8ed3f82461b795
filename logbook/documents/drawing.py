"""A quiet line drawing of the engine for the cover, from its own figures: bore, stroke and rod in true proportion."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, radians, sin, sqrt

INK, GREY, FAINT, ACCENT = "#111111", "#5c5c5c", "#b4b4b4", "#0d6283"
_LINE, _FINE = 1.1, 0.7


@dataclass(frozen=True, slots=True)
class Cylinder:
    """What is drawn of one cylinder: lengths in mm, its crank throw in degrees from the top."""

    bore: float
    stroke: float
    rod_length: float
    crank_angle: float
    compression_height: float

    @property
    def throw(self) -> float:
        """Height of the crankpin's centre above the crankshaft's, mm."""
        return self.stroke / 2 * cos(radians(self.crank_angle))

    @property
    def pin(self) -> float:
        """Height of the gudgeon pin above the crankshaft's centre, mm."""
        aside = self.stroke / 2 * sin(radians(self.crank_angle))
        return self.throw + sqrt(self.rod_length**2 - aside**2)


@dataclass(frozen=True, slots=True)
class _Frame:
    """Where things stand, mm: y upwards from the crankshaft's centre, x from the front face of the block."""

    pitch: float
    end: float
    width: float
    deck: float
    head: float
    sump: float

    def centre(self, index: int) -> float:
        return self.end + self.pitch * (index + 0.5)


def engine_drawing(cylinders: Sequence[Cylinder]) -> bytes:
    """A section along the crankshaft through one row of cylinders, as SVG, 1 mm to the unit.

    A vee or flat engine is drawn bank by bank. Bore, stroke, rod and piston are in proportion; the rest is a sketch.
    """
    frame = _frame(cylinders)
    shapes = [*_castings(frame), *_crankshaft(frame, cylinders)]
    for index, cylinder in enumerate(cylinders):
        shapes += [*_chamber(frame.centre(index), cylinder, frame), *_piston_and_rod(frame.centre(index), cylinder)]
    return _sheet(frame, shapes)


def _frame(cylinders: Sequence[Cylinder]) -> _Frame:
    first = cylinders[0]
    pitch, end = first.bore * 1.22, first.bore * 0.30
    deck = first.stroke / 2 + first.rod_length + first.compression_height
    return _Frame(pitch, end, pitch * len(cylinders) + 2 * end, deck, first.bore * 0.86, first.stroke * 0.98)


def _sheet(frame: _Frame, shapes: Sequence[str]) -> bytes:
    left, right, top = -frame.end * 1.5, frame.width + frame.end * 1.5, frame.deck + frame.head + 2
    bottom = frame.sump * 1.06
    size = f"{right - left:.1f} {top + bottom:.1f}"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{left:.1f} {-top:.1f} {size}" '
        f'width="{right - left:.0f}" height="{top + bottom:.0f}">'
        f'<g fill="none" stroke-linecap="round" stroke-linejoin="round">{"".join(shapes)}</g></svg>'
    ).encode()


def _castings(frame: _Frame) -> list[str]:
    """Block, sump, head and its cover, the flywheel behind and the pulley in front."""
    wide, deck, low = frame.width, frame.deck, -frame.sump * 0.24
    joint, cover = deck + frame.head * 0.58, deck + frame.head
    wheel = frame.sump * 1.02
    return [
        _box(wide + 5, -wheel, frame.end * 0.5, 2 * wheel, GREY),
        _box(-frame.end * 0.95, -frame.sump * 0.52, frame.end * 0.7, frame.sump * 1.04, GREY),
        _box(0, low, wide, deck - low, GREY),
        _path([(wide * 0.015, low), (wide * 0.04, -frame.sump), (wide * 0.96, -frame.sump), (wide * 0.985, low)], GREY),
        _box(0, deck, wide, joint - deck, GREY),
        _path([(wide * 0.02, joint), (wide * 0.035, cover), (wide * 0.965, cover), (wide * 0.98, joint)], GREY),
        _box(wide * 0.03, joint + frame.head * 0.10, wide * 0.94, frame.head * 0.12, GREY),
        _path([(0, deck), (wide, deck)], ACCENT, 2.0),
    ]


def _chamber(x: float, cylinder: Cylinder, frame: _Frame) -> list[str]:
    """The bore's walls, the roof of the chamber, the two valves shut and their cam lobes."""
    half, deck = cylinder.bore / 2, frame.deck
    roof = deck + frame.head * 0.17
    wall = cylinder.stroke * 0.55
    shapes = [
        *(_path([(x + side * half, deck), (x + side * half, wall)], INK) for side in (-1, 1)),
        _path(
            [(x - half * 0.94, deck), (x - half * 0.80, roof), (x + half * 0.80, roof), (x + half * 0.94, deck)], INK
        ),
    ]
    for side in (-0.41, 0.41):
        centre, top = x + half * side, deck + frame.head * 0.62
        shapes += [
            _path([(centre - half * 0.34, roof), (centre + half * 0.34, roof)], INK, 1.8),
            _path([(centre, roof), (centre, top)], INK),
            _box(centre - half * 0.15, top, half * 0.30, frame.head * 0.20, INK, fill="#ffffff"),
        ]
    return shapes


def _crankshaft(frame: _Frame, cylinders: Sequence[Cylinder]) -> list[str]:
    """The centre line, main journals between the cylinders, a crankpin and two webs to each."""
    stroke, pitch = cylinders[0].stroke, frame.pitch
    main, pin, web = stroke * 0.31, stroke * 0.27, pitch * 0.10
    shapes = [_path([(-frame.end * 1.3, 0), (frame.width + frame.end * 1.4, 0)], FAINT, dashes="9 3 2 3")]
    for index in range(len(cylinders) + 1):
        shapes.append(_box(frame.centre(index) - pitch * 0.68, -main, pitch * 0.36, 2 * main, INK, fill="#ffffff"))
    for index, cylinder in enumerate(cylinders):
        x, throw = frame.centre(index), cylinder.throw
        low, high = min(throw - pin, -main) - 4, max(throw + pin, main) + 4
        shapes.append(_box(x - pitch * 0.24, throw - pin, pitch * 0.48, 2 * pin, INK, fill="#ffffff"))
        shapes += [
            _box(x + side * pitch * 0.28 - web / 2, low, web, high - low, INK, fill="#ffffff") for side in (-1, 1)
        ]
    return shapes


def _piston_and_rod(x: float, cylinder: Cylinder) -> list[str]:
    half, pin, height = cylinder.bore / 2 - 0.9, cylinder.pin, cylinder.compression_height
    skirt, grooves = height * 0.9, [pin + height * share for share in (0.82, 0.74, 0.58, 0.50)]
    big_end, beam = cylinder.stroke * 0.34, cylinder.bore * 0.16
    return [
        _box(x - beam / 2, cylinder.throw, beam, pin - cylinder.throw, INK, fill="#ffffff"),
        _box(x - beam * 0.95, cylinder.throw - big_end, beam * 1.9, 2 * big_end, INK, fill="#ffffff"),
        _path([(x - beam * 0.95, cylinder.throw), (x + beam * 0.95, cylinder.throw)], GREY, _FINE),
        _box(x - half, pin - skirt, 2 * half, height + skirt, INK, fill="#ffffff"),
        *(_path([(x - half, groove), (x + half, groove)], GREY, _FINE) for groove in grooves),
        _box(x - half * 0.80, pin - height * 0.28, half * 1.60, height * 0.56, GREY),
    ]  # fmt: skip


def _box(x: float, y: float, width: float, height: float, colour: str, fill: str = "none") -> str:
    """A rectangle whose lower left corner is (x, y)."""
    return (
        f'<rect x="{x:.1f}" y="{-y - height:.1f}" width="{width:.1f}" height="{height:.1f}" rx="1.5" '
        f'stroke="{colour}" stroke-width="{_LINE}" fill="{fill}"/>'
    )


def _path(points: Sequence[tuple[float, float]], colour: str, weight: float = _LINE, dashes: str = "") -> str:
    way = " L".join(f"{x:.1f} {-y:.1f}" for x, y in points)
    more = f' stroke-dasharray="{dashes}"' if dashes else ""
    return f'<path d="M{way}" stroke="{colour}" stroke-width="{weight}"{more}/>'
