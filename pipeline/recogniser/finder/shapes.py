"""Outlines of faces, and carved shapes that are not letters.

Outlines are polygons in a unit box, x to the right and y down. Emblems are drawn as grey relief
(0 = ground, 255 = deepest or highest) into a square tile. They need not be beautiful: they teach the
network that curves, leaves and lines are not text.
"""

import math

import cv2
import numpy as np


def _arc(cx, cy, rx, ry, start, end, count=24):
    t = np.radians(np.linspace(start, end, count))
    return np.stack([cx + rx * np.cos(t), cy + ry * np.sin(t)], 1)


def _polygon(*parts):
    return np.concatenate([np.asarray(p, float).reshape(-1, 2) for p in parts])


def round_top(rng):
    rise = rng.uniform(0.08, 0.35)
    return _polygon([(0, 1)], _arc(0.5, rise, 0.5, rise, 180, 360), [(1, 1)])


def shouldered(rng):
    shoulder, half, rise = rng.uniform(0.1, 0.25), rng.uniform(0.25, 0.4), rng.uniform(0.08, 0.22)
    drop = shoulder
    return _polygon(
        [(0, 1), (0, drop), (0.5 - half, drop)],
        _arc(0.5, rise, half, rise, 180, 360),
        [(0.5 + half, drop), (1, drop), (1, 1)],
    )


def pointed(rng):
    rise = rng.uniform(0.12, 0.4)
    left = [(0.5 - 0.5 * math.cos(t), rise - rise * math.sin(t)) for t in np.linspace(0, 1.2, 12)]
    right = [(1 - x, y) for x, y in reversed(left)]
    return _polygon([(0, 1)], left, [(0.5, 0)], right, [(1, 1)])


def gable(rng):
    return _polygon([(0, 1), (0, rng.uniform(0.05, 0.2)), (0.5, 0), (1, rng.uniform(0.05, 0.2)), (1, 1)])


def ogee(rng):
    rise = rng.uniform(0.12, 0.28)
    x = np.linspace(0, 1, 40)
    y = rise * (0.5 + 0.5 * np.cos(2 * math.pi * (x - 0.5) * rng.choice([1, 1, 1, 2]) + math.pi))
    return _polygon([(0, 1)], np.stack([x, y], 1), [(1, 1)])


def slab(rng):
    return _polygon([(0, 0), (1, 0), (1, 1), (0, 1)])


def clipped(rng):
    a = rng.uniform(0.05, 0.18)
    return _polygon([(0, a), (a, 0), (1 - a, 0), (1, a), (1, 1 - a), (1 - a, 1), (a, 1), (0, 1 - a)])


def obelisk(rng):
    t = rng.uniform(0.03, 0.14)
    return _polygon([(0, 1), (t, 0), (1 - t, 0), (1, 1)])


def oval(rng):
    return _arc(0.5, 0.5, 0.5, 0.5, 0, 352, 48)


def shield(rng):
    side = [(1, 0), (1, 0.45), (0.93, 0.68), (0.78, 0.86), (0.5, 1)]
    return _polygon([(0, 0)], side, [(1 - x, y) for x, y in reversed(side[1:-1])])


def boulder(rng):
    t = np.linspace(0, 2 * math.pi, 40, endpoint=False)
    wobble = sum(rng.uniform(0, 0.09 / k) * np.cos(k * t + rng.uniform(0, 6.28)) for k in range(1, 7))
    r = 0.46 + wobble
    squarer = np.power(np.abs(np.cos(t)) ** 3 + np.abs(np.sin(t)) ** 3, -1 / 3)
    p = np.stack([0.5 + r * squarer * np.cos(t), 0.5 + r * squarer * np.sin(t)], 1)
    low, high = p.min(0), p.max(0)
    return (p - low) / (high - low)


def cross(rng):
    arm, top, bar = rng.uniform(0.13, 0.2), rng.uniform(0.18, 0.3), rng.uniform(0.13, 0.2)
    a, b = 0.5 - arm, 0.5 + arm
    return _polygon(
        [(a, 0), (b, 0), (b, top), (1, top), (1, top + bar), (b, top + bar), (b, 1)],
        [(a, 1), (a, top + bar), (0, top + bar), (0, top), (a, top)],
    )


# name: (outline, least and greatest height over width, how often)
FACES = {
    "round": (round_top, 1.0, 2.0, 22),
    "shouldered": (shouldered, 1.1, 2.0, 12),
    "pointed": (pointed, 1.2, 2.2, 8),
    "gable": (gable, 0.9, 1.8, 5),
    "ogee": (ogee, 1.0, 1.9, 5),
    "slab": (slab, 0.8, 1.8, 20),
    "ledger": (slab, 1.6, 2.4, 6),
    "wide": (slab, 0.35, 0.8, 12),
    "clipped": (clipped, 0.6, 1.6, 5),
    "obelisk": (obelisk, 0.9, 1.9, 6),
    "oval": (oval, 0.6, 1.5, 4),
    "shield": (shield, 0.9, 1.3, 4),
    "boulder": (boulder, 0.6, 1.4, 4),
    "cross": (cross, 1.3, 1.8, 4),
}


def face(rng):
    """A name from FACES, its outline in the unit box, and its height over width."""
    names = list(FACES)
    name = rng.choices(names, [FACES[n][3] for n in names])[0]
    outline, low, high, _ = FACES[name]
    return name, outline(rng), rng.uniform(low, high)


# ---------------------------------------------------------------- emblems

TILE = 192


def _curve(rng, start, heading, steps, length, bend):
    points = [start]
    for _ in range(steps):
        heading += rng.gauss(0, bend)
        x, y = points[-1]
        points.append((x + length * math.cos(heading), y + length * math.sin(heading)))
    return np.array(points)


def _stroke(tile, points, width, grey=255, closed=False):
    cv2.polylines(tile, [np.round(np.asarray(points) * 16).astype(np.int32)], closed, grey, width, cv2.LINE_AA, 4)


def _fill(tile, points, grey=255):
    cv2.fillPoly(tile, [np.round(np.asarray(points) * 16).astype(np.int32)], grey, cv2.LINE_AA, 4)


def _leaf(tile, x, y, angle, length, breadth, grey):
    t = np.linspace(0, 1, 9)
    side = breadth * np.sin(math.pi * t)
    c, s = math.cos(angle), math.sin(angle)
    along = length * t
    up = np.stack([x + along * c - side * s, y + along * s + side * c], 1)
    down = np.stack([x + along * c + side * s, y + along * s - side * c], 1)
    _fill(tile, np.concatenate([up, down[::-1]]), grey)
    _stroke(tile, [(x, y), (x + length * c, y + length * s)], 1, max(0, grey - 110))


def willow(tile, rng):
    _stroke(tile, _curve(rng, (96, 180), -math.pi / 2, 8, 14, 0.12), rng.randint(4, 9))
    for _ in range(rng.randint(10, 26)):
        side = rng.choice([-1, 1])
        reach = rng.uniform(15, 80)
        x0, y0 = 96 + rng.uniform(-6, 6), rng.uniform(50, 100)
        t = np.linspace(0, 1, 14)
        x = x0 + side * reach * np.sqrt(t)
        y = y0 - rng.uniform(20, 50) * np.sin(math.pi * t * 0.8) + 70 * t * t
        _stroke(tile, np.stack([x, y], 1), rng.randint(1, 4), rng.randint(150, 255))


def urn(tile, rng):
    bowl, foot = rng.uniform(28, 55), rng.uniform(15, 35)
    profile = [(foot, 180), (foot, 170), (9, 160), (9, 148), (bowl, 108), (bowl * 0.9, 80), (bowl * 0.5, 66), (bowl * 0.7, 58), (bowl * 0.3, 42), (5, 30)]
    right = [(96 + x, y) for x, y in profile]
    _fill(tile, right + [(96 - x, y) for x, y in reversed(profile)], rng.randint(160, 255))
    for y in (80, 92, 160):
        _stroke(tile, [(96 - bowl, y), (96 + bowl, y)], 2, 60)
    if rng.random() < 0.5:
        _stroke(tile, _arc(96, 70, bowl + 20, 40, 10, 170), 5, 200)


def hands(tile, rng):
    for side in (-1, 1):
        x = 96 + side * 48
        _fill(tile, _arc(x, 110 + side * 3, 48, rng.uniform(16, 24), 0, 350), 190)
        _fill(tile, [(x + side * 20, 90), (x + side * 48, 86), (x + side * 48, 138), (x + side * 20, 132)], 240)
    for i in range(4):
        _stroke(tile, _curve(rng, (80 + i * 4, 100 + i * 8), 0.1, 4, 9, 0.1), 4, 90 + 40 * (i % 2))


def anchor(tile, rng):
    w = rng.randint(6, 12)
    _stroke(tile, [(96, 40), (96, 165)], w)
    _stroke(tile, [(66, 62), (126, 62)], w)
    _stroke(tile, _arc(96, 110, 55, 55, 20, 160), w)
    cv2.circle(tile, (96, 30), 12, 255, w // 2, cv2.LINE_AA)
    if rng.random() < 0.5:
        _stroke(tile, _curve(rng, (96, 30), 1.2, 14, 12, 0.6), 4, 170)


def wreath(tile, rng):
    radius, count = rng.uniform(48, 74), rng.randint(14, 34)
    gap = rng.choice([0, 0, 50])
    for i in range(count):
        a = math.radians(-90 + gap / 2 + (360 - gap) * i / count)
        for turn in (0.5, -0.6):
            _leaf(tile, 96 + radius * math.cos(a), 96 + radius * math.sin(a), a + math.pi / 2 + turn, rng.uniform(14, 26), rng.uniform(3, 7), rng.randint(150, 255))
    if rng.random() < 0.4:
        cross_sign(tile, rng, 0.5)


def cross_sign(tile, rng, scale=1.0):
    w = rng.uniform(8, 20) * scale
    h = 84 * scale
    flare = rng.uniform(0, 14) * scale
    for turn in range(4):
        reach = h if turn == 1 else h * 0.75
        c, s = math.cos(turn * math.pi / 2), math.sin(turn * math.pi / 2)
        corners = [(0, -w), (reach, -w - flare), (reach, w + flare), (0, w)]
        _fill(tile, [(96 + x * c - y * s, 90 + x * s + y * c) for x, y in corners])
    if rng.random() < 0.3:
        cv2.circle(tile, (96, 90), int(50 * scale), 230, max(2, int(8 * scale)), cv2.LINE_AA)


def star(tile, rng):
    n, inner = rng.choice([4, 5, 6, 8]), rng.uniform(0.3, 0.6)
    a = np.arange(2 * n) * math.pi / n - math.pi / 2
    r = np.where(np.arange(2 * n) % 2 == 0, 80, 80 * inner)
    points = np.stack([96 + r * np.cos(a), 96 + r * np.sin(a)], 1)
    if rng.random() < 0.6:
        _fill(tile, points, 230)
    else:
        _stroke(tile, points, 6, 255, True)


def rose(tile, rng):
    for k in range(rng.randint(3, 6)):
        r = 14 + 13 * k
        t = np.linspace(0, 2 * math.pi, 60)
        rr = r * (1 + 0.16 * np.cos(rng.randint(4, 7) * t + k))
        _stroke(tile, np.stack([96 + rr * np.cos(t), 96 + rr * np.sin(t)], 1), rng.randint(2, 6), 255 - 25 * k, True)


def dove(tile, rng):
    _fill(tile, _arc(96, 110, 50, 20, 0, 350), 200)
    _fill(tile, _arc(140, 92, 15, 13, 0, 350), 230)
    for i in range(rng.randint(4, 8)):
        _stroke(tile, _curve(rng, (90, 105), -2.2 + 0.16 * i, 6, 13, 0.08), 5, 150 + 12 * i)


def skull(tile, rng):
    _fill(tile, _arc(96, 86, 44, 50, 0, 350), 220)
    _fill(tile, [(70, 120), (122, 120), (114, 156), (78, 156)], 220)
    for x in (78, 114):
        cv2.circle(tile, (x, 88), 12, 30, -1, cv2.LINE_AA)
    for x in range(80, 116, 7):
        _stroke(tile, [(x, 136), (x, 154)], 2, 60)
    if rng.random() < 0.7:
        for i in range(9):
            for side in (-1, 1):
                _leaf(tile, 96 + side * 42, 80 + i * 6, (0 if side > 0 else math.pi) + side * (i - 4) * 0.12, 46 - 2 * i, 4, 150 + 8 * i)


def hourglass(tile, rng):
    _fill(tile, [(60, 40), (132, 40), (100, 96), (132, 152), (60, 152), (92, 96)], 190)
    for y in (38, 154):
        _stroke(tile, [(52, y), (140, y)], 9)


def compasses(tile, rng):
    w = rng.randint(6, 12)
    _stroke(tile, [(40, 160), (96, 30), (152, 160)], w)
    _stroke(tile, [(30, 90), (96, 165), (162, 90)], w, 200)


def scribble(tile, rng):
    for _ in range(rng.randint(2, 7)):
        start = (rng.uniform(40, 150), rng.uniform(40, 150))
        _stroke(tile, _curve(rng, start, rng.uniform(0, 6.3), rng.randint(8, 40), rng.uniform(4, 11), rng.uniform(0.15, 0.7)), rng.randint(1, 9), rng.randint(110, 255))


def scrolls(tile, rng):
    for side in (-1, 1):
        t = np.linspace(0.5, rng.uniform(7, 14), 70)
        r = 5 * t
        phase = rng.uniform(0, 6.28)
        _stroke(tile, np.stack([96 + side * (38 + r * np.cos(t + phase) * 0.7), 96 + r * np.sin(t + phase)], 1), rng.randint(3, 8), rng.randint(160, 255))


def spray(tile, rng):
    for _ in range(rng.randint(1, 3)):
        stem = _curve(rng, (rng.uniform(30, 160), 180), -math.pi / 2 + rng.uniform(-0.7, 0.7), 12, 12, 0.14)
        _stroke(tile, stem, 3, 220)
        for x, y in stem[2:]:
            for side in (-1, 1):
                if rng.random() < 0.8:
                    _leaf(tile, x, y, -math.pi / 2 + side * rng.uniform(0.5, 1.2), rng.uniform(14, 36), rng.uniform(3, 9), rng.randint(140, 255))


def rays(tile, rng):
    n = rng.randint(7, 18)
    for i in range(n):
        a = math.pi + math.pi * i / (n - 1)
        inner = rng.uniform(25, 40)
        _stroke(tile, [(96 + inner * math.cos(a), 130 + inner * math.sin(a)), (96 + 85 * math.cos(a), 130 + 85 * math.sin(a))], rng.randint(2, 7))
    _fill(tile, _arc(96, 130, 24, 24, 180, 360), 220)


def lamb(tile, rng):
    _fill(tile, _arc(90, 110, 55, 30, 0, 350), 200)
    _fill(tile, _arc(146, 86, 20, 16, 0, 350), 220)
    for x in (55, 75, 105, 125):
        _stroke(tile, [(x, 130), (x + rng.uniform(-8, 8), 170)], 8, 210)
    for _ in range(20):
        cv2.circle(tile, (int(rng.uniform(45, 135)), int(rng.uniform(88, 132))), rng.randint(4, 9), rng.randint(100, 255), 2, cv2.LINE_AA)


EMBLEMS = [willow, urn, hands, anchor, wreath, cross_sign, star, rose, dove, skull, hourglass, compasses, scribble, scribble, scrolls, spray, spray, rays, lamb]


def emblem(rng):
    """Grey relief of one emblem, cropped to what is drawn."""
    tile = np.zeros((TILE, TILE), np.uint8)
    rng.choice(EMBLEMS)(tile, rng)
    if rng.random() < 0.2:
        rng.choice(EMBLEMS)(tile, rng)
    ys, xs = np.flatnonzero(tile.max(1)), np.flatnonzero(tile.max(0))
    tile = tile[ys[0] : ys[-1] + 1, xs[0] : xs[-1] + 1]
    if rng.random() < 0.3:  # outlined only, as a shallow line cutting
        tile = cv2.morphologyEx(tile, cv2.MORPH_GRADIENT, np.ones((3, 3), np.uint8))
    return tile


def border(relief, outline, rng):
    """Draws a frame along an outline: plain lines, beads, dashes, a wave, or a rope."""
    closed = np.concatenate([outline, outline[:1]])
    kind = rng.choice(["line", "line", "line", "double", "beads", "dashes", "wave", "rope"])
    grey = rng.randint(120, 255)
    if kind in ("line", "double"):
        _stroke(relief, outline, rng.randint(1, 7), grey, True)
        if kind == "double":
            centre = outline.mean(0)
            _stroke(relief, centre + (outline - centre) * rng.uniform(0.93, 0.97), rng.randint(1, 3), grey, True)
        return
    step = np.hypot(*np.diff(closed, axis=0).T)
    total = step.sum()
    pitch = rng.uniform(7, 24)
    at = np.arange(0, total, pitch)
    along = np.concatenate([[0], np.cumsum(step)])
    x, y = np.interp(at, along, closed[:, 0]), np.interp(at, along, closed[:, 1])
    if kind == "wave":
        swing = np.where(np.arange(len(at)) % 2 == 0, 1, -1) * pitch * 0.35
        _stroke(relief, np.stack([x + swing, y + swing], 1), rng.randint(1, 4), grey, True)
        return
    for px, py in zip(x, y):
        if kind == "beads":
            cv2.circle(relief, (int(px), int(py)), max(1, int(pitch * 0.32)), grey, -1, cv2.LINE_AA)
        else:
            reach = pitch * (0.3 if kind == "dashes" else 0.45)
            _stroke(relief, [(px - reach, py - reach), (px + reach, py + reach)], rng.randint(1, 3), grey)
