"""What is cut beside letters and isn't one: stars, leaves, flowers, hands, scrolls, rows of dots."""

import math
import random

from PIL import ImageDraw

from carved.typefaces import Typeface

# Printers' ornaments; few typefaces have any.
_PRINTERS = "❦❧☞☜★☆♥♣♠♦✦❀❁✠"


def draw(rng: random.Random, pencil: ImageDraw.ImageDraw, x: float, y: float, radius: float, stretch: float) -> None:
    """One ornament about (x, y), in pixels; stretch widens it."""
    make = rng.choice((_star, _leaf, _flower, _scroll, _dots, _spray))
    make(rng, pencil, x, y, max(3.0, radius), stretch)


def of_printers(rng: random.Random, face: Typeface) -> str | None:
    """An ornament that the typeface holds, if any."""
    found = [sign for sign in _PRINTERS if face.covers(sign)]
    return rng.choice(found) if found else None


def _turned(points, x, y, angle, stretch):
    c, s = math.cos(angle), math.sin(angle)
    return [(x + (c * u - s * v) * stretch, y + s * u + c * v) for u, v in points]


def _shape(rng, pencil, points, thin) -> None:
    """Sunk as a whole, or only its outline cut."""
    if rng.random() < 0.5:
        pencil.polygon(points, fill=255)
    else:
        pencil.line([*points, points[0]], fill=255, width=thin)


def _star(rng, pencil, x, y, radius, stretch) -> None:
    tips, inner = rng.choice((5, 5, 6, 8)), radius * rng.uniform(0.3, 0.6)
    points = [
        ((radius if i % 2 == 0 else inner) * math.sin(math.pi * i / tips), -(radius if i % 2 == 0 else inner) * math.cos(math.pi * i / tips))
        for i in range(2 * tips)
    ]
    _shape(rng, pencil, _turned(points, x, y, rng.gauss(0, 0.1), stretch), rng.choice((1, 2, 3)))


def _blade(length: float, breadth: float):
    steps = [i / 8 for i in range(9)]
    edge = [(length * t, breadth * math.sin(math.pi * t)) for t in steps]
    return edge + [(u, -v) for u, v in reversed(edge)]


def _leaf(rng, pencil, x, y, radius, stretch) -> None:
    length = 1.8 * radius
    points = [(u - length / 2, v) for u, v in _blade(length, radius * rng.uniform(0.25, 0.6))]
    angle = rng.uniform(-math.pi, math.pi)
    _shape(rng, pencil, _turned(points, x, y, angle, stretch), rng.choice((1, 2, 3)))
    if rng.random() < 0.6:
        pencil.line(_turned([(-length / 2, 0), (length * 0.7, 0)], x, y, angle, stretch), fill=255, width=rng.choice((1, 2)))


def _flower(rng, pencil, x, y, radius, stretch) -> None:
    petals = rng.choice((4, 5, 6, 8))
    turn = rng.uniform(0, math.pi)
    for i in range(petals):
        _shape(rng, pencil, _turned(_blade(radius, radius * 0.3), x, y, turn + 2 * math.pi * i / petals, stretch), 2)
    if rng.random() < 0.5:
        r = radius * 0.25
        pencil.ellipse((x - r * stretch, y - r, x + r * stretch, y + r), fill=rng.choice((0, 255)), outline=255)


def _scroll(rng, pencil, x, y, radius, stretch) -> None:
    turns, sense, start = rng.uniform(0.6, 2.2), rng.choice((-1, 1)), rng.uniform(0, 2 * math.pi)
    points = []
    for i in range(40):
        t = i / 39
        r = radius * (0.15 + 0.85 * t)
        points.append((r * math.cos(start + sense * turns * 2 * math.pi * t), r * math.sin(start + sense * turns * 2 * math.pi * t)))
    pencil.line(_turned(points, x, y, 0, stretch), fill=255, width=rng.choice((2, 3, 4)))


def _dots(rng, pencil, x, y, radius, stretch) -> None:
    count, r = rng.randint(3, 7), radius * rng.uniform(0.12, 0.25)
    down = rng.random() < 0.5
    for i in range(count):
        at = (i - (count - 1) / 2) * r * rng.uniform(2.6, 3.4)
        cx, cy = (x, y + at) if down else (x + at * stretch, y)
        pencil.ellipse((cx - r * stretch, cy - r, cx + r * stretch, cy + r), fill=255)


def _spray(rng, pencil, x, y, radius, stretch) -> None:
    """A bent twig with leaves on both sides."""
    angle, bend = rng.uniform(-math.pi, math.pi), rng.uniform(-0.6, 0.6)
    stem = [(2 * radius * (t - 0.5), bend * radius * math.sin(math.pi * t)) for t in (i / 10 for i in range(11))]
    pencil.line(_turned(stem, x, y, angle, stretch), fill=255, width=rng.choice((1, 2)))
    for i in range(2, 11, 2):
        for side in (-1, 1):
            leaf = _turned(_blade(radius * 0.55, radius * 0.16), *stem[i], side * rng.uniform(0.5, 1.1), 1.0)
            _shape(rng, pencil, _turned(leaf, x, y, angle, stretch), 1)
