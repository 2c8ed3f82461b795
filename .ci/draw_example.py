"""Draw the example engine's picture: a section along its crankshaft, on a stand, to its own dimensions in millimetres.

The crankshaft stands at CRANK_ANGLE, and every piston, valve and cam lobe stands where that angle puts it. No clock and
no chance are in it: the same script writes the same bytes. Run: python .ci/draw_example.py
"""

from __future__ import annotations

from math import cos, radians, sin, sqrt
from pathlib import Path

TARGET = Path(__file__).parent.parent / "example_engine" / "files" / "engine.svg"

INK, GREY, PALE, ACCENT = "#222", "#666", "#bbb", "#0b5c7a"
CRANK_ANGLE = 38.0  # degrees after top dead centre of cylinder 1, firing
SPACING, BORE, STROKE, ROD, DECK, CROWN = 90.0, 80.27, 79.0, 134.0, -206.75, 33.2
FIRES_AT = (0.0, 540.0, 180.0, 360.0)  # cylinders 1 to 4, firing order 1-3-4-2
INLET, EXHAUST = (-19.5, 19.25, 10.6, 466.0), (19.5, 16.0, 10.3, 252.0)  # across, valve radius, lift, lobe centre
HALF_DURATION, BASE_CIRCLE, CAM = 138.0, 16.0, -337.0
CENTRES = tuple(SPACING * number for number in range(4))
MAINS = tuple(SPACING * number - SPACING / 2 for number in range(5))
FRONT, REAR, FLANGE, COVER_JOINT, FLOOR = -64.0, 334.0, 58.0, -288.0, 186.0


def shape(d: str, stroke: str = INK, width: float = 1.6, fill: str = "none", **more: object) -> str:
    """One path; extra attributes with _ for -."""
    extra = "".join(f' {name.replace("_", "-")}="{value}"' for name, value in more.items())
    return f'<path d="{d}" fill="{fill}" stroke="{stroke}" stroke-width="{width:g}"{extra}/>'


def tint(d: str) -> str:
    """The grey of cut metal, without an outline."""
    return shape(d, "none", 0, PALE, fill_opacity=0.32)


def points(*places: tuple[float, float], closed: bool = False) -> str:
    """A path through places."""
    return "M" + "L".join(f"{x:.2f},{y:.2f}" for x, y in places) + ("Z" if closed else "")


def box(left: float, top: float, right: float, bottom: float, corner: float = 0.0) -> str:
    """A rectangle, its corners rounded."""
    if not corner:
        return points((left, top), (right, top), (right, bottom), (left, bottom), closed=True)
    across, down, r = right - left - 2 * corner, bottom - top - 2 * corner, f"{corner:g}"
    arc = f"a{r},{r} 0 0 1 "
    return (
        f"M{left + corner:.2f},{top:.2f}h{across:.2f}{arc}{r},{r}v{down:.2f}{arc}-{r},{r}"
        f"h{-across:.2f}{arc}-{r},-{r}v{-down:.2f}{arc}{r},-{r}Z"
    )


def circle(x: float, y: float, radius: float) -> str:
    """A whole circle as a path."""
    half = f"a{radius:g},{radius:g} 0 1 0 "
    return f"M{x - radius:.2f},{y:.2f}{half}{2 * radius:g},0{half}{-2 * radius:g},0Z"


def piece(d: str, stroke: str = INK, width: float = 1.4) -> str:
    """Something that stands in front: white, with an outline."""
    return shape(d, stroke, width, "#fff")


def angle_of(cylinder: int) -> float:
    """Crank angle of a cylinder after its own firing top dead centre, 0 to 720 degrees."""
    return (CRANK_ANGLE - FIRES_AT[cylinder]) % 720


def pin_height(cylinder: int) -> float:
    """Height of the crankpin's centre; up is negative."""
    return -STROKE / 2 * cos(radians(angle_of(cylinder)))


def gudgeon_height(cylinder: int) -> float:
    """Height of the gudgeon pin's centre."""
    return pin_height(cylinder) - sqrt(ROD**2 - (STROKE / 2 * sin(radians(angle_of(cylinder)))) ** 2)


def off_centre(cylinder: int, lobe_centre: float) -> float:
    """Crank degrees from the lobe's centre, -360 to 360."""
    return (angle_of(cylinder) - lobe_centre + 360) % 720 - 360


def lift(away: float, most: float) -> float:
    """Valve lift at so many crank degrees from the lobe's centre, as a raised cosine."""
    return most / 2 * (1 + cos(radians(180 * away / HALF_DURATION))) if abs(away) < HALF_DURATION else 0.0


def stand() -> list[str]:
    """A stand that holds the engine by its rear face."""
    post = [
        piece(box(396, -78, 420, FLOOR - 26), GREY),
        piece(box(380, -70, 442, -42, 5), GREY),
        piece(circle(448, -56, 5), GREY, 1.2),
    ]
    feet = [piece(circle(x, FLOOR - 8, 8), GREY) + shape(circle(x, FLOOR - 8, 2), GREY, 1) for x in (60, 428)]
    rail = [
        piece(box(40, FLOOR - 28, 448, FLOOR - 14, 3), GREY),
        piece(points((396, FLOOR - 66), (396, FLOOR - 28), (352, FLOOR - 28), closed=True), GREY),
    ]
    arms = [piece(box(REAR, y - 6, 374, y + 6), GREY) for y in (-158, 44)]
    return [shape(f"M-150,{FLOOR}H470", PALE, 1.2), *feet, *rail, *post, *arms, piece(box(372, -172, 382, 58, 2), GREY)]


def block() -> list[str]:
    """Block and main bearing caps, cut along the crankshaft."""
    outline = box(FRONT, DECK, REAR, FLANGE)
    rooms = [
        piece(
            points(
                (x - 40.1, DECK - 1),
                (x - 40.1, -66),
                (x - 33.5, -56),
                (x - 33.5, FLANGE),
                (x + 33.5, FLANGE),
                (x + 33.5, -56),
                (x + 40.1, -66),
                (x + 40.1, DECK - 1),
            ),
            GREY,
            1.2,
        )
        for x in CENTRES
    ]
    jackets = [piece(box(x, DECK + 14, x + 9, -100, 4), PALE, 1) for x in (FRONT + 6, REAR - 15)]
    caps = [shape(points((x - 11.5, 0), (x + 11.5, 0)), GREY, 0.9) for x in MAINS]
    bolts = [shape(f"M{x:g},-30V-2M{x:g},30V{FLANGE - 6}", PALE, 1) for x in MAINS]
    return [
        shape(outline, "none", 0, "#fff"),
        tint(outline),
        *rooms,
        *jackets,
        *caps,
        *bolts,
        shape(f"M{FRONT},{DECK}V{FLANGE}H{REAR}V{DECK}", width=2),
    ]


def sump() -> list[str]:
    """The sump: shallow in front, deep behind, with its oil."""
    walls = f"M{FRONT},{FLANGE}V80q0,10 10,10H118l22,38q4,6 12,6H{REAR - 18}q8,0 8,-8V{FLANGE}Z"
    oil = f"M137,122H{REAR - 10}"
    return [
        piece(walls, width=2),
        shape(oil, ACCENT, 1.2),
        shape(f"M152,128H{REAR - 24}", PALE, 1),
        piece(box(FRONT - 3, FLANGE - 3, REAR + 3, FLANGE + 3)),
        piece(box(222, 134, 240, 140, 1), GREY, 1.2),
    ]


def crankshaft() -> list[str]:
    """Main journals, webs and crankpins."""
    shaft = [piece(box(-112, -13, FRONT, 13)), *(piece(box(x - 13, -27, x + 13, 27)) for x in MAINS)]
    for cylinder, x in enumerate(CENTRES):
        pin = pin_height(cylinder)
        up = -1 if pin < 0 else 1
        ends = sorted((pin + up * 31, -up * 52.0))
        shaft.append(piece(box(x - 17, pin - 24, x + 17, pin + 24)))
        shaft += [piece(box(side, ends[0], side + 15, ends[1], 3)) for side in (x - 32, x + 17)]
    return shaft


def piston_and_rod(cylinder: int) -> list[str]:
    """One piston with its rings and raised crown, and its rod seen from the edge."""
    x, pin, gudgeon = CENTRES[cylinder], pin_height(cylinder), gudgeon_height(cylinder)
    top, half = gudgeon - CROWN, BORE / 2 - 0.6
    shank = points((x - 6, gudgeon), (x - 9, pin - 24), (x + 9, pin - 24), (x + 6, gudgeon), closed=True)
    body = points(
        (x - half, top),
        (x - 27, top),
        (x - 22, top - 3.5),
        (x + 22, top - 3.5),
        (x + 27, top),
        (x + half, top),
        (x + half, gudgeon + 26),
        (x - half, gudgeon + 26),
        closed=True,
    )
    rings = [shape(f"M{x - half:.2f},{top + down:.2f}H{x + half:.2f}", INK, 1.1) for down in (6, 11, 18)]
    behind = (
        box(x - 30, gudgeon - 10, x + 30, gudgeon + 10),
        points((x - 6, gudgeon + 10), (x - 7, gudgeon + 26)),
        points((x + 6, gudgeon + 10), (x + 7, gudgeon + 26)),
    )
    hidden = [shape(line, GREY, 0.9, stroke_dasharray="4 2.5") for line in behind]
    return [
        piece(shank),
        piece(box(x - 14.5, pin - 32, x + 14.5, pin + 32, 4)),
        shape(f"M{x - 14.5:.2f},{pin:.2f}h29", GREY, 0.9),
        piece(body),
        *rings,
        *hidden,
    ]


def head() -> list[str]:
    """The head in section: chambers, ports, and the joint with its gasket."""
    outline = box(FRONT, COVER_JOINT, REAR, DECK - 2)
    chambers = [
        piece(f"M{x - 40.1},{DECK + 1}V{DECK - 2}h1.6v-7q0,-4 5,-4h67q5,0 5,4v7h1.6V{DECK + 1}", GREY, 1.2)
        for x in CENTRES
    ]
    ports = [
        shape(circle(x + across, -240, radius), PALE, 1.1, "#fff")
        for x in CENTRES
        for across, radius in ((-19.5, 16.75), (19.5, 14))
    ]
    pockets = [
        shape(box(x + across - 15.5, COVER_JOINT, x + across + 15.5, -260, 1), GREY, 1, "#fff")
        for x in CENTRES
        for across in (-19.5, 19.5)
    ]
    return [
        shape(outline, "none", 0, "#fff"),
        tint(outline),
        *ports,
        *pockets,
        *chambers,
        shape(f"M{FRONT},{DECK - 2}V{COVER_JOINT}H{REAR}V{DECK - 2}", width=2),
        gasket(),
    ]


def gasket() -> str:
    """The head gasket, cut open by its four openings."""
    edges = (FRONT - 2, *(x + side * 42 for x in CENTRES for side in (-1, 1)), REAR + 2)
    lands = zip(edges[::2], edges[1::2], strict=True)
    line = "".join(f"M{left:g},{DECK - 1}H{right:g}" for left, right in lands)
    return shape(line, ACCENT, 3, stroke_linecap="butt")


def spring(x: float, top: float, bottom: float) -> str:
    """A valve spring as a zigzag of seven turns."""
    step = (bottom - top) / 14
    return shape(points(*((x + (13 if turn % 2 else -13), top + step * turn) for turn in range(15))), GREY, 1.1)


def valve(cylinder: int, across: float, radius: float, most: float, lobe_centre: float) -> list[str]:
    """One valve with its spring and tappet, and the cam lobe above it."""
    x, away = CENTRES[cylinder] + across, off_centre(cylinder, lobe_centre)
    down = lift(away, most)
    seat, tappet = DECK - 12 + down, CAM + BASE_CIRCLE + down
    return [
        spring(x, tappet + 16, -261),
        piece(poppet(x, seat, radius, tappet + 10), width=1.2),
        piece(box(x - 16, tappet, x + 16, tappet + 15, 2), width=1.2),
        lobe(x, most, cos(radians(away / 2)), tappet),
    ]


def poppet(x: float, seat: float, radius: float, end: float) -> str:
    """A valve from its face up to the end of its stem."""
    return (
        f"M{x - radius:.2f},{seat:.2f}h{2 * radius:g}l-1.5,-2.5"
        f"Q{x + 3:.2f},{seat - 5:.2f} {x + 3:.2f},{seat - 22:.2f}V{end:.2f}h-6V{seat - 22:.2f}"
        f"Q{x - 3:.2f},{seat - 5:.2f} {x - radius + 1.5:.2f},{seat - 2.5:.2f}Z"
    )


def lobe(x: float, most: float, nose: float, tappet: float) -> str:
    """A cam lobe from the side; nose is 1 where it points down at the tappet, -1 where it points up."""
    top = CAM - max(BASE_CIRCLE, -(BASE_CIRCLE + most) * nose)
    return piece(box(x - 7, top, x + 7, tappet, 2), ACCENT, 1.5)


def camshaft() -> list[str]:
    """The shaft and its five bearings; the lobes come with their valves."""
    bearings = [piece(box(x - 8, CAM - 15, x + 8, COVER_JOINT - 16), GREY, 1.2) for x in MAINS]
    return [*bearings, piece(box(FRONT - 24, CAM - 9, REAR - 12, CAM + 9, 2), ACCENT, 1.5)]


def cam_cover() -> list[str]:
    """The cover over the camshaft, with its filler and its nuts."""
    top = CAM - 42
    walls = f"M{FRONT - 28},{COVER_JOINT}V{top + 14}q0,-14 14,-14H{REAR - 10}q10,0 10,12V{COVER_JOINT}Z"
    filler = [piece(box(236, top - 13, 270, top, 2), width=1.6), shape(f"M232,{top - 13}h42", INK, 2.2)]
    nuts = [piece(box(x - 5, top - 6, x + 5, top, 1), GREY, 1.2) for x in (0, 180)]
    low = COVER_JOINT - 8
    inside = shape(f"M{FRONT - 22},{low}V{top + 18}q0,-12 12,-12H{REAR - 14}q8,0 8,8V{low}", PALE, 1)
    joint = piece(box(FRONT - 31, COVER_JOINT - 2.5, REAR + 3, COVER_JOINT + 2.5))
    return [piece(walls, width=2), inside, *filler, *nuts, joint]


def front() -> list[str]:
    """Timing chain with its wheels under the front cover, and the pulley."""
    cover = points((FRONT - 28, COVER_JOINT + 2.5), (FRONT - 28, FLANGE), (FRONT, FLANGE), (FRONT, COVER_JOINT + 2.5))
    chain = [shape(f"M{x},{CAM + 20}V-10", GREY, 1, stroke_dasharray="5 2") for x in (FRONT - 18, FRONT - 10)]
    wheels = [piece(box(FRONT - 20, y - radius, FRONT - 8, y + radius, 2), GREY) for y, radius in ((0, 24), (CAM, 34))]
    pulley = [
        piece(box(-128, -56, -98, 56, 3), width=1.8),
        *(shape(f"M{x},-56V56", PALE, 1) for x in (-120, -113, -106)),
        piece(box(-137, -11, -128, 11, 2)),
    ]
    return [shape(cover, "none", 0, "#fff"), tint(cover), shape(cover, width=2), *chain, *wheels, *pulley]


def flywheel() -> list[str]:
    """The flywheel with its starter ring, behind cylinder 4."""
    teeth = "".join(f"M338,{y}h12" for y in range(-126, 127, 6))
    return [
        piece(box(REAR - 4, -20, 342, 20)),
        piece(box(338, -128, 350, 128, 1), width=1.4),
        shape(teeth, PALE, 0.9),
        piece(box(350, -122, 364, 122, 2), width=1.8),
        piece(box(364, -20, 370, 20, 1), GREY, 1.2),
    ]


def axes() -> list[str]:
    """Centre lines of the crankshaft and the cylinders, as on a drawing."""
    chain = {"stroke_dasharray": "18 3 3 3"}
    uprights = [shape(f"M{x:g},-402V150", PALE, 0.7, **chain) for x in CENTRES]
    return [*uprights, shape("M-156,0H470", PALE, 0.8, **chain)]


def picture() -> str:
    """The whole drawing; what stands nearer comes later."""
    valves = [part for cylinder in range(4) for row in (INLET, EXHAUST) for part in valve(cylinder, *row)]
    pistons = [part for cylinder in range(4) for part in piston_and_rod(cylinder)]
    parts = [
        *stand(),
        *sump(),
        *block(),
        *cam_cover(),
        *head(),
        *front(),
        *crankshaft(),
        *pistons,
        *camshaft(),
        *valves,
        *flywheel(),
        *axes(),
    ]
    head_line = (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="-302 -412 918 612" role="img" '
        'stroke-linejoin="round" stroke-linecap="round">'
    )
    title = "<title>Four cylinders in line with one overhead camshaft, in section, on a stand</title>"
    return "\n".join([head_line, title, *parts, "</svg>", ""])


if __name__ == "__main__":
    TARGET.write_text(picture(), encoding="utf-8")
