"""From the network's maps to lines: the reference that the Java decoder is held to.

Steps, as README.md describes them: grow seeds into pieces of core, follow each piece from its
first letter to its last, set baseline and top by the letter height, join pieces of one line, put
the lines in reading order. Positions are pixels of the network's input, the centre of the first
pixel at (0.5, 0.5); angles turn with y downwards.
"""

import math
from collections import deque
from dataclasses import dataclass

import numpy as np

STRIDE = 4
SEED = 0.6  # a piece of core has a cell at least this probable; not tuned
EDGE = 0.35  # and holds every cell at least this probable that hangs together with it
LEAST_CELLS = 4
LEAST_SCORE = 0.5  # mean probability of a piece
SHORT = 4.0  # lines under this many capital heights
SHORT_SCORE = 0.65  # need this mean probability: most of what is found by mistake is short and faint
CORE_MIDDLE = 0.40  # height of the core's middle above the baseline, in capital heights
END_REACH = 0.12  # a line goes on this many capital heights beyond its core
BIN = 0.5  # a piece is followed in steps of this many capital heights
STRAIGHT = 0.12  # a line whose middle strays less than this many heights is straight
RING_AGREEMENT = 0.93  # directions along 75 degrees of a circle agree so far; those of a ring less
RING_HEIGHTS = 1.5  # radius of the smallest ring
RING_STRAYS = 0.25  # and the spread of its cells about it, by its radius
JOIN_GAP = 1.3  # pieces of one line are at most this many heights apart
JOIN_STEP = 0.3  # and step up or down by at most this many
JOIN_RATIO = 1.35  # and differ in height by at most this factor
JOIN_TURN = math.cos(math.radians(20))


@dataclass
class FoundLine:
    """middle: (n, 2) points through the core in reading order, n >= 2; heights: n capital heights."""

    middle: np.ndarray
    heights: np.ndarray
    score: float
    face: float  # mean of the face map along the core
    other: float

    @property
    def height(self):
        return float(self.heights.mean())

    def length(self):
        return float(np.hypot(*np.diff(self.middle, axis=0).T).sum())

    def directions(self):
        tangent = np.gradient(self.middle, axis=0)
        return tangent / np.maximum(np.hypot(tangent[:, :1], tangent[:, 1:]), 1e-9)

    def at_height(self, capitals):
        """The points so many capital heights above the baseline."""
        d = self.directions()
        up = np.stack([d[:, 1], -d[:, 0]], 1)
        return self.middle + up * (self.heights * (capitals - CORE_MIDDLE))[:, None]

    def ribbon(self, low=0.0, high=1.0):
        """Top points in reading order, then foot points back."""
        return np.concatenate([self.at_height(high), self.at_height(low)[::-1]])


def pieces(core):
    """Labels (h, w), 0 for none: cells >= EDGE, each with the seed it hangs together with."""
    height, width = core.shape
    labels = np.zeros((height, width), np.int32)
    neighbours = [(-1, -1), (-1, 0), (-1, 1), (0, -1), (0, 1), (1, -1), (1, 0), (1, 1)]

    def spread(queue, threshold):
        while queue:
            y, x = queue.popleft()
            for dy, dx in neighbours:
                v, u = y + dy, x + dx
                if 0 <= v < height and 0 <= u < width and not labels[v, u] and core[v, u] >= threshold:
                    labels[v, u] = labels[y, x]
                    queue.append((v, u))

    count = 0
    seeds = np.argwhere(core >= SEED)
    for y, x in seeds:
        if not labels[y, x]:
            count += 1
            labels[y, x] = count
            spread(deque([(y, x)]), SEED)
    spread(deque((y, x) for y, x in seeds), EDGE)
    return labels, count


def _along(points, chain):
    """Position of points along a chain: arc length, going on straight beyond its ends."""
    start, step = chain[:-1], np.diff(chain, axis=0)
    length = np.hypot(*step.T)
    before = np.concatenate([[0], np.cumsum(length)[:-1]])
    best, position = np.full(len(points), np.inf), np.zeros(len(points))
    for i in range(len(start)):
        t = ((points - start[i]) @ step[i]) / max(length[i] ** 2, 1e-9)
        low = -np.inf if i == 0 else 0.0
        high = np.inf if i == len(start) - 1 else 1.0
        t = np.clip(t, low, high)
        distance = np.hypot(*(points - start[i] - t[:, None] * step[i]).T)
        nearer = distance < best
        best[nearer] = distance[nearer]
        position[nearer] = before[i] + t[nearer] * length[i]
    return position


def _bins(position, points, weight, width):
    """Weighted centres of the points, bin by bin along `position`."""
    index = np.floor((position - position.min()) / width).astype(int)
    mass = np.bincount(index, weight)
    kept = mass > 0
    centres = np.stack([np.bincount(index, weight * points[:, i]) for i in (0, 1)], 1)
    return centres[kept] / mass[kept, None]


def _on_chain(chain, position):
    """Points of a chain at arc lengths, going on straight beyond its ends."""
    step = np.diff(chain, axis=0)
    length = np.hypot(*step.T)
    before = np.concatenate([[0], np.cumsum(length)])
    i = np.clip(np.searchsorted(before, position, side="right") - 1, 0, len(step) - 1)
    t = (position - before[i]) / np.maximum(length[i], 1e-9)
    return chain[i] + t[:, None] * step[i]


def _around(points, weight, maps, height):
    """Arc length along a ring for each point, in reading direction; None for what isn't a good part of one."""
    unit = maps[2:4] / np.maximum(np.hypot(maps[2], maps[3]), 1e-9)
    if np.hypot(*(weight * unit).sum(1)) / weight.sum() >= RING_AGREEMENT:
        return None
    # The circle whose equation the points fulfil best (Kasa 1976, from memory).
    mean = (weight[:, None] * points).sum(0) / weight.sum()
    u, v = (points - mean).T
    z = u * u + v * v
    uu, uv, vv, uz, vz = ((weight * w).sum() for w in (u * u, u * v, v * v, u * z / 2, v * z / 2))
    centre = mean + np.array([uz * vv - vz * uv, vz * uu - uz * uv]) / max(1e-9, uu * vv - uv * uv)
    dx, dy = (points - centre).T
    out = np.hypot(dx, dy)
    radius = (weight * out).sum() / weight.sum()
    spread = math.sqrt((weight * (out - radius) ** 2).sum() / weight.sum())
    if radius < RING_HEIGHTS * height or spread > RING_STRAYS * radius:
        return None
    angle = np.arctan2(dy, dx)
    clockwise = np.sign((weight * (maps[3] * np.cos(angle) - maps[2] * np.sin(angle))).sum())
    ordered = np.sort(angle)
    gaps = np.diff(np.concatenate([ordered[-1:] - 2 * math.pi, ordered]))
    return clockwise * radius * ((angle - ordered[np.argmax(gaps)]) % (2 * math.pi))


def _follow(points, weight, maps, score, face, other):
    """One piece of core to a line."""
    direction = np.array([(weight * maps[2]).sum(), (weight * maps[3]).sum()])
    size = np.hypot(*direction)
    if size < 1e-6:
        return None
    direction /= size
    log_height = float((weight * maps[1]).sum() / weight.sum())
    height = math.exp(log_height)
    width = max(STRIDE, BIN * height)
    centre = (weight[:, None] * points).sum(0) / weight.sum()
    along = (points - centre) @ direction
    across = (points - centre) @ [-direction[1], direction[0]]
    # A straight line through the core, by least squares.
    spread = (weight * along * along).sum()
    slope = (weight * along * across).sum() / spread if spread > 1e-6 and np.ptp(along) > 2 * height else 0.0
    ring = _around(points, weight, maps, height)
    chain = _bins(along if ring is None else ring, points, weight, width)
    normal = np.array([-direction[1], direction[0]])
    if len(chain) > 5 and ring is None:
        chain = chain[1:-1]  # the core's slanting ends pull the outermost steps aside
    strays = np.abs((chain - centre) @ normal - slope * ((chain - centre) @ direction))
    if ring is not None:  # every step counts: what lies beyond the last is taken to go on straight
        chain[1:-1] = (chain[:-2] + 2 * chain[1:-1] + chain[2:]) / 4
        straight = False
    elif len(chain) < 4 or strays.max() < STRAIGHT * height:
        tangent = direction + slope * normal
        tangent /= np.hypot(*tangent)
        chain = np.stack([centre, centre + tangent])
        straight = True
    else:
        for _ in range(2):
            chain = _bins(_along(points, chain), points, weight, width)
            if len(chain) > 5:
                chain = chain[1:-1]
            chain[1:-1] = (chain[:-2] + 2 * chain[1:-1] + chain[2:]) / 4
        straight = False
    position = _along(points, chain)
    # Letters may grow along a line seen at an angle: log height, linear in position.
    middle = (weight * position).sum() / weight.sum()
    variance = (weight * (position - middle) ** 2).sum()
    long = np.ptp(position) > 6 * height
    growth = (weight * (position - middle) * (maps[1] - log_height)).sum() / variance if long and variance > 1e-6 else 0.0
    reach = END_REACH * height
    first, last = position.min() - STRIDE / 2 - reach, position.max() + STRIDE / 2 + reach
    count = 2 if straight else max(4, int(round((last - first) / max(height, STRIDE))) + 1)
    at = np.linspace(first, last, count)
    return FoundLine(_on_chain(chain, at), np.exp(log_height + growth * (at - middle)), score, face, other)


def _gap(a, b):
    """How far (in heights) b's start lies beyond a's end along a, and beside it; None if no match."""
    tall, small = max(a.height, b.height), min(a.height, b.height)
    if tall > JOIN_RATIO * small:
        return None
    da, db = a.directions()[-1], b.directions()[0]
    if da @ db < JOIN_TURN:
        return None
    step = b.middle[0] - a.middle[-1]
    ahead, aside = step @ da / tall, abs(step @ [-da[1], da[0]]) / tall
    # Both ends were lengthened by END_REACH.
    ahead += 2 * END_REACH
    if not -0.5 < ahead < JOIN_GAP or aside > JOIN_STEP:
        return None
    return ahead


def joined(lines):
    lines = list(lines)
    while True:
        best = None
        for i, a in enumerate(lines):
            for j, b in enumerate(lines):
                gap = _gap(a, b) if i != j else None
                if gap is not None and (best is None or gap < best[0]):
                    best = gap, i, j
        if best is None:
            return lines
        _, i, j = best
        a, b = lines[i], lines[j]
        la, lb = a.length(), b.length()
        mean = lambda x, y: (la * x + lb * y) / (la + lb)
        ahead = (b.middle - a.middle[-1]) @ a.directions()[-1] > 0
        ahead[-1] = True
        whole = FoundLine(
            np.concatenate([a.middle, b.middle[ahead]]), np.concatenate([a.heights, b.heights[ahead]]),
            mean(a.score, b.score), mean(a.face, b.face), mean(a.other, b.other),
        )
        lines = [line for k, line in enumerate(lines) if k not in (i, j)] + [whole]


def turn(lines):
    """The direction most of the lines run in, as a unit vector; (1, 0) if there are none."""
    total = sum((line.middle[-1] - line.middle[0] for line in lines), np.zeros(2))
    size = np.hypot(*total)
    return total / size if size > 1e-6 else np.array([1.0, 0.0])


def in_reading_order(lines):
    """Top to bottom as the stone stands; lines of one row from left to right."""
    d = turn(lines)
    frame = np.array([[d[0], d[1]], [-d[1], d[0]]])
    boxes = []
    for line in lines:
        p = line.ribbon() @ frame.T
        boxes.append((p[:, 0].min(), p[:, 0].max(), float(p[:, 1].mean())))
    rest = sorted(range(len(lines)), key=lambda k: boxes[k][2])
    ordered = []
    while rest:
        first = rest.pop(0)
        row = [first]
        for k in list(rest):
            apart = boxes[k][1] <= boxes[first][0] or boxes[first][1] <= boxes[k][0]
            level = abs(boxes[k][2] - boxes[first][2]) < min(lines[k].height, lines[first].height) / 2
            if apart and level:
                row.append(k)
                rest.remove(k)
        ordered += sorted(row, key=lambda k: boxes[k][0])
    return [lines[k] for k in ordered]


def decode(maps):
    """Lines of maps (7, h, w), in reading order; those of other stones are among them."""
    maps = np.asarray(maps, float)
    labels, count = pieces(maps[0])
    ys, xs = np.nonzero(labels)
    owner = labels[ys, xs]
    order = np.argsort(owner, kind="stable")
    ys, xs, owner = ys[order], xs[order], owner[order]
    lines = []
    starts = np.searchsorted(owner, np.arange(1, count + 2))
    for k in range(count):
        part = slice(starts[k], starts[k + 1])
        y, x = ys[part], xs[part]
        if len(y) < LEAST_CELLS:
            continue
        values = maps[:, y, x]
        score = float(values[0].mean())
        if score < LEAST_SCORE:
            continue
        points = (np.stack([x, y], 1) + 0.5) * STRIDE
        line = _follow(points, values[0], values, score, float(values[4].mean()), float(values[5].mean()))
        if line is not None:
            lines.append(line)
    kept = [line for line in joined(lines) if line.length() >= SHORT * line.height or line.score >= SHORT_SCORE]
    return in_reading_order(kept)
