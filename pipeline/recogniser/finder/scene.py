"""Stones in a picture: where they stand, what grows around them, and the maps the network must learn.

A page is made in picture pixels. The workers draw masks and maps here; shading.py turns the masks
into a photograph.
"""

import math
from dataclasses import dataclass

import cv2
import numpy as np

from . import shapes
from .layout import MIN_CAP, Composer, Line

STRIDE = 4  # the network's maps have a quarter of the picture's size
CORE_LOW, CORE_HIGH = 0.15, 0.65  # the text core, in capital heights above the baseline
MIN_CORE_PX = 4.5  # thinner cores would fall between the cells of the maps
FROM_ABOVE_SHARE = 0.28  # of the pages, seen 35 to 70 degrees from square on
ROW_SHARE = 0.08  # of the pages, the stone stands in a row of others as large
TOO_SMALL_PX = 5.2  # capital height under which a line is neither asked for nor forbidden

# Kinds of surface in the region map.
SKY, GRASS, FOLIAGE, WALL, FACE, BODY, OTHER_A, OTHER_B, LEAF = range(9)
REGIONS = 9


@dataclass
class Page:
    """One training picture before shading, and its truth.

    letters, relief, regions: uint8 (S, S). Maps are (S/STRIDE)² in the order of the network's output
    plus `ignore`. lines: picture-space Lines of legible size, with on_face flags beside them.
    """

    letters: np.ndarray
    relief: np.ndarray
    regions: np.ndarray
    core: np.ndarray
    log_height: np.ndarray
    cosine: np.ndarray
    sine: np.ndarray
    face: np.ndarray
    other: np.ndarray
    emblem: np.ndarray
    ignore: np.ndarray
    lines: list
    on_face: list


def _apply(matrix, points):
    p = np.asarray(points, float) @ matrix[:, :2].T + matrix[:, 2]
    return p[:, :2] / p[:, 2:3]


def _perspective(source, target):
    return cv2.getPerspectiveTransform(np.float32(source), np.float32(target)).astype(float)


def _fill(image, points, value, anti_alias=False):
    scaled = np.clip(np.round(np.asarray(points) * 16), -400000, 400000).astype(np.int32)
    cv2.fillPoly(image, [scaled], value, cv2.LINE_AA if anti_alias else cv2.LINE_8, 4)


class SceneMaker:
    """Draws pages of `size` pixels square whose maps are made for pictures of `target` pixels."""

    def __init__(self, composer: Composer, size=1024):
        self.composer = composer
        self.size = size

    # ------------------------------------------------------------ the scene

    def page(self, rng, target):
        size = self.size
        self.letters = np.zeros((size, size), np.uint8)
        self.relief = np.zeros((size, size), np.uint8)
        self.emblem = np.zeros((size, size), np.uint8)
        self.regions = np.zeros((size, size), np.uint8)
        self.lines, self.on_face = [], []
        self.camera = self._camera(rng)
        self._background(rng)
        if rng.random() < 0.35:
            self._clutter(rng)
        close = rng.random() < 0.28  # the face fills the picture and is cut by it
        span = size * (rng.uniform(0.95, 1.5) if close else rng.uniform(0.5, 1.0))
        name, outline, aspect = shapes.face(rng)
        if aspect > 1:
            height, width = span, span / aspect
        else:
            width, height = span, span * aspect
        x = (size - width) / 2 + rng.gauss(0, 0.03 + 0.1 * close) * size
        y = (size - height) / 2 + rng.gauss(0, 0.04 + 0.1 * close) * size
        faces = np.zeros((size, size), np.uint8)
        others = np.zeros((size, size), np.uint8)
        if rng.random() < ROW_SHARE:
            self._row(rng, x, y, width, height, others)
        else:
            for _ in range(rng.choices([0, 1, 2, 3, 4], [48, 20, 15, 10, 7])[0]):
                self._neighbour(rng, x, y, width, height, others)
        self._stand(rng, name, outline, (x, y, width, height), FACE, faces)
        if name not in ("ledger", "oval", "shield", "boulder") and rng.random() < 0.28:
            grow = rng.uniform(1.0, 1.35)
            base = (x - width * (grow - 1) / 2, y + height, width * grow, width * rng.uniform(0.12, 0.32))
            self._stand(rng, "slab", shapes.slab(rng), base, FACE, faces, on_base=True)
        others[faces > 0] = 0
        self._growth(rng, x, y, width, height)
        return self._finish(target, faces, others)

    def _camera(self, rng):
        """Rotation of the whole picture about its centre, sometimes with a strong viewing angle."""
        u = rng.random()
        degrees = rng.gauss(0, 2.5) if u < 0.5 else rng.uniform(-30, 30) if u < 0.9 else rng.choice([90, 180, 270]) + rng.gauss(0, 6)
        c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
        half = self.size / 2
        centre = np.array([[1, 0, -half], [0, 1, -half], [0, 0, 1.0]])
        turn = np.array([[c, -s, half - c * half + s * half], [s, c, half - s * half - c * half], [0, 0, 1]])
        if rng.random() < FROM_ABOVE_SHARE:
            return turn @ np.linalg.inv(centre) @ self._from_above(rng) @ centre
        tilt = np.eye(3)
        strength = 0.35 if rng.random() < 0.3 else 0.08
        tilt[2, 0], tilt[2, 1] = rng.gauss(0, strength) / self.size, rng.gauss(0, strength) / self.size
        return turn @ np.linalg.inv(centre) @ tilt @ centre

    def _from_above(self, rng):
        """A slab as a standing person sees it, or a face from far to the side: about the picture's centre."""
        tilt = math.radians(rng.uniform(35, 70))
        distance = rng.uniform(1.2, 4.0) * self.size
        away = math.pi / 2 + rng.gauss(0, 0.35) if rng.random() < 0.65 else rng.uniform(-math.pi, math.pi)
        c, s = math.cos(away), math.sin(away)
        axes = np.array([[c, s, 0], [-s, c, 0], [0, 0, 1.0]])  # the first runs away from whoever looks
        zoom = min(1.5, math.cos(tilt) ** -0.5) * rng.uniform(0.8, 1.15)
        seen = np.array([[zoom * math.cos(tilt), 0, 0], [0, zoom, 0], [-math.sin(tilt) / distance, 0, 1.0]])
        return axes.T @ seen @ axes

    def _background(self, rng):
        size = self.size
        u = rng.random()
        if u < 0.15:
            self.regions[:] = WALL
            return
        if u < 0.25:
            self.regions[:] = rng.choice([GRASS, LEAF, FOLIAGE])
            return
        self.regions[:] = rng.choice([SKY, FOLIAGE, FOLIAGE, WALL, GRASS])
        horizon = rng.uniform(0.15, 0.95) * size
        for kind, top in ((FOLIAGE, horizon - rng.uniform(0, 0.3) * size), (GRASS, horizon)):
            xs = np.linspace(-size, 2 * size, 60)
            wave = sum(rng.uniform(0, 30 / k) * np.sin(k * xs / size * 3 + rng.uniform(0, 6.3)) for k in range(1, 8))
            if kind == FOLIAGE and rng.random() < 0.4:
                continue
            edge = np.stack([xs, top + wave], 1)
            area = np.concatenate([edge, [(2 * size, 4 * size), (-size, 4 * size)]])
            _fill(self.regions, _apply(self.camera, area), int(kind))

    def _clutter(self, rng):
        """What else stands about a burial ground: buildings with windows, railings, bare twigs, kerbs."""
        size = self.size
        kinds = (WALL, BODY, OTHER_B, SKY, FOLIAGE)
        for _ in range(rng.randint(1, 3)):
            x, y = rng.uniform(-0.1, 0.9) * size, rng.uniform(-0.1, 0.8) * size
            what = rng.choice(["house", "railing", "twigs", "kerbs"])
            if what == "house":
                w, h = rng.uniform(0.15, 0.6) * size, rng.uniform(0.1, 0.5) * size
                box = np.array([(0, 0), (w, 0), (w, h), (0, h)])
                _fill(self.regions, _apply(self.camera, box + [x, y]), rng.choice(kinds))
                pane, across, down = rng.choice(kinds), rng.randint(2, 9), rng.randint(1, 5)
                cell = np.array([w / across, h / down])
                for i in range(across):
                    for j in range(down):
                        window = box / [w, h] * cell * rng.uniform(0.4, 0.6) + cell * [i + 0.25, j + 0.25]
                        _fill(self.regions, _apply(self.camera, window + [x, y]), pane)
            elif what == "railing":
                pitch, thick, h, kind = rng.uniform(6, 40), rng.uniform(1.5, 7), rng.uniform(0.05, 0.4) * size, rng.choice(kinds)
                for i in range(rng.randint(8, 60)):
                    left = x + i * pitch
                    _fill(self.regions, _apply(self.camera, [(left, y), (left + thick, y), (left + thick, y + h), (left, y + h)]), kind)
            elif what == "kerbs":
                for _ in range(rng.randint(1, 5)):
                    p, q = np.array([rng.uniform(-0.2, 1.2) * size, rng.uniform(0.4, 1.1) * size]), rng.uniform(0.1, 0.5) * size
                    thick = rng.uniform(4, 40)
                    _fill(self.regions, _apply(self.camera, [p, p + [q, rng.gauss(0, 40)], p + [q, thick], p + [0, thick]]), rng.choice(kinds))
            else:
                kind = rng.choice((FOLIAGE, LEAF, BODY))
                for _ in range(rng.randint(10, 60)):
                    start = np.array([x + rng.gauss(0, 80), y + rng.gauss(0, 80)])
                    heading, points = rng.uniform(0, 6.3), [start]
                    for _ in range(rng.randint(3, 10)):
                        heading += rng.gauss(0, 0.3)
                        points.append(points[-1] + rng.uniform(8, 40) * np.array([math.cos(heading), math.sin(heading)]))
                    way = np.round(_apply(self.camera, points) * 16).astype(np.int32)
                    cv2.polylines(self.regions, [way], False, kind, rng.randint(1, 5), cv2.LINE_8, 4)

    def _neighbour(self, rng, x, y, width, height, others):
        """Another stone beside or behind the main one."""
        name, outline, aspect = shapes.face(rng)
        h = height * rng.uniform(0.25, 0.9)
        w = h / aspect
        side = rng.choice([-1, 1])
        cx = x + width / 2 + side * (width / 2 + w * rng.uniform(0.35, 1.2))
        bottom = y + height * rng.uniform(0.6, 1.0)
        self._stand(rng, name, outline, (cx - w / 2, bottom - h, w, h), rng.choice([OTHER_A, OTHER_B]), others)

    def _row(self, rng, x, y, width, height, others):
        """Stones of one size side by side, the middle one meant."""
        name, outline, aspect = shapes.face(rng)
        for side in (-1, 1):
            edge = x + width / 2 + side * width / 2
            for _ in range(rng.randint(1, 2)):
                h = height * rng.uniform(0.75, 1.15)
                w = min(h / aspect, 1.5 * width)
                edge += side * (w + width * rng.uniform(0.04, 0.4))
                left = edge if side < 0 else edge - w
                self._stand(rng, name, outline, (left, y + height - h, w, h), rng.choice([OTHER_A, OTHER_B]), others)

    def _stand(self, rng, name, outline, box, region, coverage, on_base=False):
        """Carves a stone of the box's size and projects it into the picture."""
        x, y, width, height = box
        w, h = int(width), int(height)
        if min(w, h) < 40 or max(w, h) > 2200:
            return
        plain = region != FACE and rng.random() < 0.35
        entries = [] if plain else None
        if on_base:
            entries = [e for e in self.composer.entries(rng) if e.kind == "line" and not e.arch][: rng.randint(0, 2)]
        stone = self.composer.stone(rng, outline, (w, h), entries)
        lean = 0.0 if on_base else (rng.gauss(0, 0.02) if region == FACE else rng.gauss(0, 0.06))
        skew = 0.0 if on_base else rng.gauss(0, 0.05)
        corners = np.array([(x, y), (x + width, y), (x + width, y + height), (x, y + height)])
        pull = np.array([(skew * height, skew * width), (skew * height, 0), (0, 0), (0, 0)]) * [lean and 1, 0.5]
        corners = corners + pull + [[lean * height, 0], [lean * height, 0], [0, 0], [0, 0]]
        matrix = self.camera @ _perspective([(0, 0), (w, 0), (w, h), (0, h)], corners)
        edge = _apply(matrix, stone.outline)
        if rng.random() < 0.6:  # thickness of the stone, seen from one side and from above or below
            shift = np.array([rng.gauss(0, 0.04) * width, -abs(rng.gauss(0, 0.02)) * height])
            for t in np.linspace(1, 0.2, 5):
                _fill(self.regions, edge + shift * t, BODY if region == FACE else OTHER_B)
                _fill(coverage, edge + shift * t, 0)
        _fill(self.regions, edge, int(region))
        _fill(coverage, edge, 255)
        here = np.zeros_like(coverage)
        _fill(here, edge, 255)
        self._project(stone, matrix, edge, here)
        # A rounded edge catches light.
        cv2.polylines(self.relief, [np.round(edge * 16).astype(np.int32)], True, 160, rng.randint(1, 4), cv2.LINE_AA, 4)
        # Stones drawn earlier lose the lines that this one hides.
        for line, face in zip(self.lines, self.on_face):
            line.hidden |= self._covered(line, here)
        for line in stone.lines:
            seen = Projected.of(line, matrix)
            self.lines.append(seen)
            self.on_face.append(region == FACE)

    def _project(self, stone, matrix, edge, here):
        """Carries the carving of a stone into the picture, inside its outline only."""
        low = np.clip(np.floor(edge.min(0)).astype(int), 0, self.size)
        high = np.clip(np.ceil(edge.max(0)).astype(int) + 1, 0, self.size)
        if (high - low < 2).any():
            return
        shift = np.array([[1, 0, -low[0]], [0, 1, -low[1]], [0, 0, 1.0]])
        box = (slice(low[1], high[1]), slice(low[0], high[0]))
        carved = np.dstack([stone.letters, stone.relief, stone.emblem])
        warped = cv2.warpPerspective(carved, shift @ matrix, tuple(int(v) for v in high - low), flags=cv2.INTER_LINEAR)
        inside = here[box] > 0
        for channel, picture in enumerate((self.letters, self.relief, self.emblem)):
            np.copyto(picture[box], warped[:, :, channel], where=inside)

    def _covered(self, line, mask):
        middle = np.round(line.baseline.mean(0)).astype(int)
        inside = (middle >= 0).all() and (middle < self.size).all()
        return bool(inside and mask[middle[1], middle[0]])

    def _growth(self, rng, x, y, width, height):
        """Grass and leaves in front of the stone's foot; twigs and ivy across it."""
        if rng.random() < 0.55:
            count = rng.randint(20, 260)
            tall = rng.uniform(0.02, 0.14) * height
            for _ in range(count):
                foot = np.array([rng.uniform(x - 0.2 * width, x + 1.2 * width), y + height * rng.uniform(0.97, 1.08)])
                bend, reach = rng.gauss(0, 0.35), tall * rng.uniform(0.3, 1.3)
                tip = foot + [bend * reach, -reach]
                thick = rng.uniform(0.8, 3.0)
                blade = np.array([foot - [thick, 0], (foot + tip) / 2 + [bend * 4 - thick / 2, 0], tip, (foot + tip) / 2 + [bend * 4 + thick / 2, 0], foot + [thick, 0]])
                self._cover(_apply(self.camera, blade), GRASS)
        if rng.random() < 0.18:  # fallen leaves all over
            spread = rng.uniform(4, 22)
            for _ in range(rng.randint(4, 60)):
                self._leaf(rng, rng.uniform(x, x + width), rng.uniform(y, y + height), spread * rng.uniform(0.6, 1.4))
        if rng.random() < 0.12:  # a plant that grows along a crack
            px, py, heading = rng.uniform(x, x + width), rng.uniform(y, y + height), rng.uniform(0, 6.3)
            for _ in range(rng.randint(10, 70)):
                heading += rng.gauss(0, 0.25)
                px, py = px + 7 * math.cos(heading), py + 7 * math.sin(heading)
                self._leaf(rng, px + rng.gauss(0, 4), py + rng.gauss(0, 4), rng.uniform(4, 18))
        if rng.random() < 0.22:
            cx, cy = x + width * rng.choice([0.0, 1.0, rng.random()]), y + height * rng.random()
            spread = rng.uniform(0.05, 0.2) * max(width, height)
            for _ in range(rng.randint(8, 90)):
                self._leaf(rng, rng.gauss(cx, spread), rng.gauss(cy, spread), rng.uniform(5, 26))

    def _leaf(self, rng, x, y, length):
        a, t = rng.uniform(0, 6.28), np.linspace(0, 1, 6)
        bow = length * rng.uniform(0.15, 0.35) * np.sin(math.pi * t)
        leaf = np.concatenate([np.stack([length * t, bow], 1), np.stack([length * t, -bow], 1)[::-1]])
        turn = np.array([[math.cos(a), -math.sin(a)], [math.sin(a), math.cos(a)]])
        self._cover(_apply(self.camera, leaf @ turn.T + [x, y]), LEAF if rng.random() < 0.5 else FOLIAGE)

    def _cover(self, points, region):
        _fill(self.regions, points, int(region))
        for image in (self.letters, self.relief, self.emblem):
            _fill(image, points, 0)

    # ------------------------------------------------------------ the maps

    def _finish(self, target, faces, others):
        size, cells = self.size, target // STRIDE
        scale = target / size
        shrink = lambda image: cv2.resize(image, (cells, cells), interpolation=cv2.INTER_AREA)
        core = np.zeros((2 * cells, 2 * cells), np.uint8)
        band = np.zeros((cells, cells), np.uint8)
        ignore = np.zeros((cells, cells), np.uint8)
        log_height = np.full((cells, cells), math.log(16.0), np.float32)
        cosine = np.ones((cells, cells), np.float32)
        sine = np.zeros((cells, cells), np.float32)
        lines, on_face = [], []
        shown = [(l, f) for l, f in zip(self.lines, self.on_face) if not l.hidden]
        for line, face in sorted(shown, key=lambda e: -e[0].cap):
            line = line.scaled(scale)
            low, high = CORE_LOW, CORE_HIGH
            thin = MIN_CORE_PX / line.cap
            if thin > high - low:
                middle = (low + high) / 2
                low, high = middle - thin / 2, middle + thin / 2
            up = line.up()
            # Pixel centres of the maps stand at (i + 0.5) * STRIDE.
            whole = self._band(line, up, -0.2, 1.15, 0.15) / STRIDE - 0.5
            if line.cap < TOO_SMALL_PX:
                _fill(ignore, whole, 255)
                continue
            _fill(band, whole, 255)
            heights = np.hypot(*(line.top - line.baseline).T)
            tangent = np.gradient(line.baseline, axis=0)
            for i in range(len(line.baseline) - 1):
                piece = self._band(line, up, -0.2, 1.15, 0.15 if i in (0, len(line.baseline) - 2) else 0.0, slice(i, i + 2)) / STRIDE - 0.5
                t = tangent[i : i + 2].sum(0)
                t = t / max(np.hypot(*t), 1e-6)
                for image, value in ((log_height, math.log(max(heights[i : i + 2].mean(), 1.0))), (cosine, t[0]), (sine, t[1])):
                    _fill(image, piece, float(value))
            _fill(core, self._band(line, up, low, high, 0.0) / STRIDE * 2 - 0.5, 255)
            lines.append(line)
            on_face.append(face)
        core = shrink(core)
        face_map, other_map = shrink(faces), shrink(others)
        return Page(
            self.letters, self.relief, self.regions, core, log_height.astype(np.float16), cosine.astype(np.float16),
            sine.astype(np.float16), face_map, other_map, shrink(self.emblem), np.stack([ignore, band]), lines, on_face,
        )

    @staticmethod
    def _band(line, up, low, high, ends, part=slice(None)):
        """Polygon between two heights (in capital heights) along a line, lengthened at both ends."""
        baseline, rise = line.baseline[part].copy(), (line.top - line.baseline)[part]
        if ends:
            first, last = baseline[0] - baseline[1], baseline[-1] - baseline[-2]
            if part == slice(None) or part.start == 0:
                baseline[0] = baseline[0] + first / max(np.hypot(*first), 1e-6) * ends * line.cap
            if part == slice(None) or part.stop == len(line.baseline):
                baseline[-1] = baseline[-1] + last / max(np.hypot(*last), 1e-6) * ends * line.cap
        return np.concatenate([baseline + rise * high, (baseline + rise * low)[::-1]])


class Projected:
    """A line in the picture: baseline and top points, mean capital height in pixels."""

    def __init__(self, baseline, top, text):
        self.baseline, self.top, self.text = baseline, top, text
        self.cap = float(np.hypot(*(top - baseline).T).mean())
        self.hidden = False

    @staticmethod
    def of(line: Line, matrix):
        return Projected(_apply(matrix, line.baseline), _apply(matrix, line.tops()), line.text)

    def up(self):
        return (self.top - self.baseline) / self.cap

    def scaled(self, factor):
        return Projected(self.baseline * factor, self.top * factor, self.text)
