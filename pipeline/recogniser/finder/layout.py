"""What a face says and where: lines, arches, columns, panels, scrolls, emblems, on a flat stone.

All coordinates here are pixels of the flat stone, x to the right and y down.
"""

import math
from dataclasses import dataclass, field

import cv2
import numpy as np

from carved import text, typefaces

from . import shapes
from .lettering import strip

MIN_CAP = 8.0  # flat pixels; smaller letters could not be told from grain
SQUASH_LIMIT = 0.72  # letters are narrowed this far before a line is broken or cut smaller


@dataclass
class Line:
    """A line as cut. `baseline` runs in reading direction; up is to its left (x right, y down)."""

    baseline: np.ndarray
    cap: float
    text: str

    def tops(self):
        """The points one capital height above the baseline."""
        tangent = np.gradient(self.baseline, axis=0)
        tangent /= np.maximum(np.hypot(tangent[:, :1], tangent[:, 1:]), 1e-6)
        up = np.stack([tangent[:, 1], -tangent[:, 0]], 1)
        return self.baseline + up * self.cap


@dataclass
class Stone:
    """One carved face, flat. letters, relief and emblem are uint8 images of the same size."""

    outline: np.ndarray
    letters: np.ndarray
    relief: np.ndarray
    emblem: np.ndarray
    lines: list = field(default_factory=list)

    @property
    def size(self):
        return self.letters.shape[1], self.letters.shape[0]


@dataclass
class Entry:
    """Something to place on a face."""

    kind: str  # line, emblem, panel, scroll, ring, rule
    height: float  # capital height, or the emblem's height, in units of the stone's body letters
    text: str = ""
    hand: object = None
    arch: float = 0.0  # degrees; positive arches upwards, negative hangs
    indent: float = 0.0


@dataclass
class Hand:
    """How some lines of a stone are lettered."""

    typeface: object
    upper: bool
    small_caps: bool
    tracking: float
    jitter: float

    def strip(self, rng, words):
        if self.upper:
            words = words.upper()
        return strip(rng, self.typeface, words, self.tracking, self.small_caps, self.jitter)


# Height of a line of each role, in units of the stone's body letters (common practice, no source).
HEIGHTS = {
    "opening": (0.55, 1.15), "name": (1.0, 1.7), "relation": (0.5, 0.95), "date": (0.6, 1.05), "age": (0.6, 1.0),
    "verse": (0.36, 0.75), "service": (0.5, 1.0), "place": (0.45, 0.9), "motto": (0.5, 1.4), "initials": (0.8, 2.2),
    "maker": (0.28, 0.5),
}  # fmt: skip
LARGE = (1.5, 3.0)


class Composer:
    """Makes stones lettered with these typefaces (by kind, as `typefaces.trained()` gives them)."""

    def __init__(self, faces):
        self.faces = faces

    # ------------------------------------------------------------ what it says

    def _hand(self, rng, jitter=0.0):
        typeface = typefaces.pick(rng, self.faces)
        upright = typeface.kind not in ("italic", "script", "blackletter")
        upper = upright and rng.random() < 0.4
        spaced = upper and rng.random() < 0.4
        tracking = rng.uniform(0.04, 0.3) if spaced else rng.uniform(-0.01, 0.05)
        return Hand(typeface, upper, upright and not upper and rng.random() < 0.3, tracking, jitter)

    @staticmethod
    def _short(rng):
        """A few words for a panel, a scroll or an arch."""
        say = rng.choice([text.initials, text.person_name, text.date, text.surname, text.verse])
        return say(rng)[:26].strip()

    @staticmethod
    def _spread(rng, words):
        """Dashes and initials as they are spaced out on stones: 1849 - 1915, J . W."""
        for dash in "-–—·":
            if dash in words:
                gap = " " * rng.randint(1, 4)
                return words.replace(dash, gap + dash * (rng.choice((1, 1, 2, 4)) if dash != "·" else 1) + gap)
        return (" " * rng.randint(1, 3)).join(words)

    def entries(self, rng):
        jitter = rng.choice([0, 0, 0, 0.8, 2.0, 3.5])
        body = self._hand(rng, jitter)
        hands = {role: body if rng.random() < 0.5 else self._hand(rng, jitter) for role in HEIGHTS}
        sizes = {role: rng.uniform(*span) for role, span in HEIGHTS.items()}
        lines = list(text.inscription(rng))
        while rng.random() < 0.12:
            lines += text.inscription(rng)
        out = []
        if rng.random() < 0.45:
            out.append(Entry("emblem", rng.uniform(2.0, 8.0)))
        elif rng.random() < 0.25:
            out.append(Entry(rng.choice(["panel", "scroll", "scroll"]), rng.uniform(1.5, 5.0)))
        if rng.random() < 0.12:
            out.append(Entry("line", rng.uniform(0.8, 1.9), self._short(rng), self._hand(rng, jitter), arch=rng.uniform(25, 165)))
        step, verses = rng.choice([0, 0, 1.2, 2.5]), 0
        for place, line in enumerate(lines):
            height = rng.uniform(*LARGE) if line.large else sizes[line.role] * rng.uniform(0.93, 1.07)
            words = line.text
            if (line.role == "initials" or (line.role == "date" and len(words) < 14)) and rng.random() < 0.45:
                words = self._spread(rng, words)
            entry = Entry("line", height, words, hands[line.role])
            if place == 0 and len(words) > 5 and rng.random() < 0.3:
                entry.arch = rng.uniform(25, 165)
            elif line.role == "motto" and rng.random() < 0.25:
                entry.arch = rng.choice([-1, 1]) * rng.uniform(20, 80)
            if line.role == "verse":
                entry.indent, verses = step * (verses % 2), verses + 1
            out.append(entry)
            if rng.random() < 0.05:
                out.append(Entry(rng.choice(["rule", "rule", "emblem"]), rng.uniform(0.5, 1.6)))
        if rng.random() < 0.11:
            ring = Entry("ring", rng.uniform(6.0, 15.0), hand=self._hand(rng, jitter))
            out.insert(0 if rng.random() < 0.7 else rng.randrange(len(out) + 1), ring)
        if rng.random() < 0.1:
            out.append(Entry("emblem", rng.uniform(1.5, 5.0)))
        if rng.random() < 0.12:
            out.append(Entry("line", rng.uniform(0.28, 0.45), text.maker(rng), body))
        if rng.random() < 0.1:
            rng.shuffle(out)
        return out

    # ------------------------------------------------------------ where it stands

    def stone(self, rng, outline, size, entries=None):
        """Carves a face with this outline (unit box) and size (width, height in pixels)."""
        width, height = size
        outline = np.asarray(outline) * [width, height]
        stone = Stone(outline, *(np.zeros((height, width), np.uint8) for _ in range(3)))
        inset = rng.uniform(0.02, 0.09) * min(size)
        if rng.random() < 0.3:
            centre = (outline.max(0) + outline.min(0)) / 2
            shapes.border(stone.relief, centre + (outline - centre) * (1 - inset / min(size) * 1.3), rng)
            inset *= 1.6
        room = np.zeros((height // 4 + 1, width // 4 + 1), np.uint8)
        cv2.fillPoly(room, [np.round(outline / 4).astype(np.int32)], 1)
        reach = max(1, int(inset / 4))
        room = cv2.erode(cv2.copyMakeBorder(room, 1, 1, 1, 1, cv2.BORDER_CONSTANT), np.ones((2 * reach + 1,) * 2, np.uint8))[1:-1, 1:-1]
        if entries is None and rng.random() < 0.05 and min(size) > 250:
            room = self._margin_inscription(rng, stone, room, inset)
        if entries is None and rng.random() < (0.32 if width > height else 0.1):
            columns = rng.choice((2, 2, 2, 3))
            edges = [round(room.shape[1] * i / columns) for i in range(columns + 1)]
            gutter = max(3, int(rng.uniform(0.03, 0.07) * room.shape[1]))
            shared = self.entries(rng)[: rng.randint(0, 2)]
            y = self._flow(rng, stone, room, shared, 0.25) if shared else 0.0
            for first, last in zip(edges, edges[1:]):
                column = np.zeros_like(room)
                first, last = first + gutter * (first > 0), last - gutter * (last < room.shape[1])
                column[int(y / 4) :, first:last] = room[int(y / 4) :, first:last]
                self._flow(rng, stone, column, self.entries(rng), rng.uniform(0.6, 1.0))
            return stone
        self._flow(rng, stone, room, entries if entries is not None else self.entries(rng), rng.uniform(0.5, 1.0))
        return stone

    def _interval(self, room, y0, y1, centre):
        """The free x interval (flat pixels) common to the rows y0..y1 around the column `centre`."""
        first, last = int(y0 / 4), int(math.ceil(y1 / 4)) + 1
        if first < 0 or last > room.shape[0]:
            return None
        free = room[first:last].min(0)
        c = int(centre / 4)
        if not 0 <= c < len(free) or not free[c]:
            return None
        blocked = np.flatnonzero(free == 0)
        left = blocked[blocked < c].max(initial=-1) + 1
        right = blocked[blocked > c].min(initial=len(free))
        return left * 4.0, right * 4.0

    def _flow(self, rng, stone, room, entries, fill):
        """Places entries from top to bottom in the free area; returns where it stopped (y)."""
        rows = np.flatnonzero(room.max(1))
        if len(rows) < 8:
            return 0.0
        top, bottom = rows[0] * 4.0, rows[-1] * 4.0
        columns = np.flatnonzero(room[len(rows) // 2 + rows[0]])
        if len(columns) < 8:
            return top
        centre = columns.mean() * 4.0
        lead = rng.choice([rng.uniform(0.22, 0.5), rng.uniform(0.4, 0.9), rng.uniform(0.7, 1.5)])
        # Few stones are lettered smaller than can be read from where one stands.
        reading_size = 9.0 * 3.3 ** rng.random()
        entries = list(entries)
        while len(entries) > 2 and sum(e.height * (1 + lead) for e in entries) * reading_size > fill * (bottom - top):
            entries.pop(rng.randrange(1, len(entries)))
        total = sum(e.height * (1 + lead) * (1.6 if abs(e.arch) > 60 else 1.0) for e in entries) + 1e-6
        unit = min(fill * (bottom - top) / total, 0.13 * (columns[-1] - columns[0]) * 4, 90.0)
        unit = max(unit, MIN_CAP / 0.6)
        align = rng.choices(["centre", "left", "ragged"], [78, 16, 6])[0]
        slope = math.radians(rng.choice([0, 0, rng.gauss(0, 0.6), rng.gauss(0, 2.5)]))
        if rng.random() < 0.03:
            slope = math.radians(rng.uniform(-25, 25))
        y = top + max(0.0, (1 - fill) * (bottom - top)) * rng.uniform(0, 0.9)
        if rng.random() < 0.4:
            y = top
        queue = list(entries)
        while queue and y < bottom:
            entry = queue.pop(0)
            if entry.kind == "ring":
                y = self._ring(rng, stone, room, entry, y, centre, unit, bottom)
                continue
            if entry.kind in ("emblem", "panel", "scroll", "rule"):
                y = self._ornament(rng, stone, room, entry, y, centre, unit, bottom)
                continue
            cap = max(entry.height * unit, MIN_CAP)
            drawn = entry.hand.strip(rng, entry.text)
            if drawn is None:
                continue
            if entry.arch:
                y = self._arch(rng, stone, room, entry, drawn, cap, y, centre, lead)
                continue
            span = self._interval(room, y, y + cap * 1.15, centre)
            if span is None:
                y += 6
                if y + cap < bottom:
                    queue.insert(0, entry)
                continue
            free = (span[1] - span[0]) * 0.985
            scale = cap / drawn.cap
            squash = 1.0
            if drawn.width * scale > free:
                squash = free / (drawn.width * scale)
                if squash < SQUASH_LIMIT:
                    smaller = cap * squash / SQUASH_LIMIT
                    if smaller > max(MIN_CAP * 1.2, 0.5 * cap) and rng.random() < 0.7:
                        cap, scale, squash = smaller, smaller / drawn.cap, SQUASH_LIMIT
                    words = entry.text.split()
                    if len(words) > 1 and drawn.width * scale * squash > free * 1.01:
                        half = len(words) // 2 + len(words) % 2
                        for part in (words[half:], words[:half]):
                            queue.insert(0, Entry(entry.kind, entry.height, " ".join(part), entry.hand, indent=entry.indent))
                        continue
                    cap = min(cap, free * drawn.cap / (drawn.width * SQUASH_LIMIT))
                    scale = cap / drawn.cap
                    squash = SQUASH_LIMIT
                    if cap < MIN_CAP * 0.8:
                        continue
            length = drawn.width * scale * squash
            slack = free - length
            if align == "centre":
                x = span[0] + slack / 2 + rng.gauss(0, 0.02) * slack
            elif align == "left":
                x = span[0] + min(slack, entry.indent * cap)
            else:
                x = span[0] + rng.random() * slack
            angle = slope + (math.radians(rng.gauss(0, 0.5)) if entry.hand.jitter > 1 else 0.0)
            start = np.array([x, y + cap - math.sin(angle) * length / 2])
            self._cut_straight(stone, drawn, start, angle, scale * squash, scale)
            step = lead * rng.uniform(0.85, 1.2)
            y += cap * (1 + step) + abs(math.sin(slope)) * length * 0.1
            if entry.hand.upper is False and step < 0.4 and rng.random() < 0.7:
                y += 0.25 * cap
        return y

    def _margin_inscription(self, rng, stone, room, inset):
        """An inscription that runs round the edge of a ledger; returns the room left inside."""
        width, height = stone.size
        cap = max(MIN_CAP * 1.3, rng.uniform(0.035, 0.07) * width)
        hand = self._hand(rng, 0.8)
        corners = [((inset, inset + cap), 0, width), ((width - inset - cap, inset), 90, height), ((width - inset, height - inset - cap), 180, width), ((inset + cap, height - inset), 270, height)]
        for (x, y), degrees, side in corners:
            words = " ".join(line.text for line in text.inscription(rng)[:8]) + " " + text.date(rng)
            drawn = hand.strip(rng, words[: max(6, int((side - 2 * inset) / cap * 1.2))])
            if drawn is None:
                continue
            scale = min(cap / drawn.cap, (side - 2 * inset - 2 * cap) / drawn.width)
            if scale * drawn.cap > 0.7 * cap:
                self._cut_straight(stone, drawn, np.array([x, y], float), math.radians(degrees), scale, scale)
        reach = int(cap * 1.8 / 4)
        return cv2.erode(room, np.ones((2 * reach + 1,) * 2, np.uint8))

    def _ornament(self, rng, stone, room, entry, y, centre, unit, bottom):
        height = min(entry.height * unit, 0.45 * (bottom - y))
        if entry.kind == "rule":
            span = self._interval(room, y, y + 4, centre)
            if span is not None:
                reach = (span[1] - span[0]) * rng.uniform(0.08, 0.48)
                cv2.line(stone.relief, (int(centre - reach), int(y + height / 2)), (int(centre + reach), int(y + height / 2)), 220, rng.randint(1, 3), cv2.LINE_AA)
            return y + height
        if height < 14:
            return y
        tile = shapes.emblem(rng)
        width = height * tile.shape[1] / tile.shape[0] * rng.uniform(0.8, 1.4)
        if entry.kind != "emblem":
            width = height * rng.uniform(1.0, 4.0)
        while height > 14:
            span = self._interval(room, y, y + height, centre)
            if span is not None and span[1] - span[0] >= width:
                break
            y, height, width = y + 4, height * 0.93, width * 0.93
        else:
            return y
        if entry.kind == "emblem":
            copies = 2 if rng.random() < 0.12 and (span[1] - span[0]) > 3.2 * width else 1
            for i in range(copies):
                x = centre - width / 2 if copies == 1 else (span[0] + 4 if i == 0 else span[1] - width - 4)
                self._paste_emblem(stone, tile, x, y, width, height)
        elif entry.kind == "panel":
            self._panel(rng, stone, centre - width / 2, y, width, height)
        else:
            self._scroll(rng, stone, centre, y, width, height)
        return y + height + unit * rng.uniform(0.2, 0.9)

    def _paste_emblem(self, stone, tile, x, y, width, height):
        tile = cv2.resize(tile, (max(8, int(width)), max(8, int(height))), interpolation=cv2.INTER_AREA)
        x0, y0 = max(0, int(x)), max(0, int(y))
        tile = tile[: stone.size[1] - y0, : stone.size[0] - x0]
        box = (slice(y0, y0 + tile.shape[0]), slice(x0, x0 + tile.shape[1]))
        np.maximum(stone.relief[box], tile, out=stone.relief[box])
        body = max(3, int(min(tile.shape) * 0.16)) | 1
        padded = cv2.copyMakeBorder(((tile > 40) * 255).astype(np.uint8), body, body, body, body, cv2.BORDER_CONSTANT)
        closed = cv2.morphologyEx(padded, cv2.MORPH_CLOSE, np.ones((body, body), np.uint8))[body:-body, body:-body]
        np.maximum(stone.emblem[box], closed, out=stone.emblem[box])

    def _panel(self, rng, stone, x, y, width, height):
        """A shield, oval or tablet on the face with a few letters on it."""
        shape = rng.choice([shapes.shield, shapes.oval, shapes.slab, shapes.clipped])(rng)
        outline = shape * [width, height] + [x, y]
        points = [np.round(outline * 16).astype(np.int32)]
        if rng.random() < 0.6:
            cv2.fillPoly(stone.relief, points, rng.randint(40, 150), cv2.LINE_AA, 4)
        cv2.polylines(stone.relief, points, True, 230, rng.randint(1, 4), cv2.LINE_AA, 4)
        room = np.zeros((stone.size[1] // 4 + 1, stone.size[0] // 4 + 1), np.uint8)
        cv2.fillPoly(room, [np.round(outline / 4).astype(np.int32)], 1)
        room = cv2.erode(room, np.ones((3, 3), np.uint8))
        hand = self._hand(rng)
        words = [Entry("line", rng.uniform(0.6, 1.4), self._short(rng), hand) for _ in range(rng.randint(1, 3))]
        self._flow(rng, stone, room, words, rng.uniform(0.6, 0.95))

    def _scroll(self, rng, stone, centre, y, width, height):
        """A ribbon, straight or bent, with a motto along it."""
        drawn = self._hand(rng).strip(rng, self._short(rng))
        if drawn is None:
            return
        degrees = rng.choice([0.001, rng.uniform(10, 70), -rng.uniform(10, 70)])
        cap = min(height * 0.45, width * 0.9 * drawn.cap / drawn.width)
        if cap < MIN_CAP:
            return
        length = drawn.width * cap / drawn.cap
        baseline = self._arc_points(centre, y + cap * 1.3, length * 1.12, degrees)
        band = Line(baseline, cap, "")
        up = (band.tops() - baseline) / cap
        edge = np.concatenate([baseline + up * cap * 1.45, (baseline - up * cap * 0.45)[::-1]])
        points = [np.round(edge * 16).astype(np.int32)]
        if rng.random() < 0.6:
            cv2.fillPoly(stone.relief, points, rng.randint(40, 150), cv2.LINE_AA, 4)
        cv2.polylines(stone.relief, points, True, 230, rng.randint(1, 3), cv2.LINE_AA, 4)
        self._cut_arc(stone, drawn, centre, y + cap * 1.3, cap / drawn.cap, degrees * length / (length * 1.12))

    def _ring(self, rng, stone, room, entry, y, centre, unit, bottom):
        """Words round a disc, heads outwards, from a third of the way round to nearly all of it; at times more words below, heads inwards."""
        size = min(entry.height * unit, 0.7 * (bottom - y))
        while size > 60:
            span = self._interval(room, y, y + size, centre)
            if span is not None and span[1] - span[0] >= size:
                break
            y, size = y + 4, size * 0.93
        else:
            return y
        middle, outer = y + size / 2, size / 2
        below = rng.random() < 0.25
        degrees = rng.uniform(130, 200) if below else rng.uniform(140, 335)
        words = f"{text.person_name(rng)} {rng.choice((text.date, text.verse, text.place, text.age))(rng)}"
        drawn = entry.hand.strip(rng, words[: rng.randint(14, 42)].strip())
        if drawn is None:
            return y
        # As high as lets the words reach so far round, within what a ring has room for.
        reach = math.radians(degrees) * drawn.cap / drawn.width
        cap = outer * min(reach / (1 + reach), 0.3)
        if cap < MIN_CAP:
            return y
        radius = outer - cap * 1.05
        degrees = math.degrees(drawn.width * cap / drawn.cap / radius)
        for edge in (radius - rng.uniform(0.25, 0.6) * cap, outer + rng.uniform(0.15, 0.5) * cap):
            if rng.random() < 0.55:
                cv2.circle(stone.relief, (int(centre), int(middle)), max(2, int(edge)), rng.randint(90, 255), rng.randint(1, 4), cv2.LINE_AA)
        inner = (radius - 0.7 * cap) * rng.uniform(0.9, 1.3)
        if inner > 16 and rng.random() < 0.75:
            self._paste_emblem(stone, shapes.emblem(rng), centre - inner / 2, middle - inner / 2, inner, inner)
        self._cut_arc(stone, drawn, centre, middle - radius, cap / drawn.cap, degrees)
        if below:
            second = entry.hand.strip(rng, self._short(rng))
            if second is not None:
                room_left = math.radians(330 - degrees) * radius
                scale = min(cap / second.cap, 0.8 * room_left / second.width)
                turn = math.degrees(second.width * scale / (radius + cap * 0.9))
                if scale * second.cap > MIN_CAP and 5 < turn < 170:
                    drop = (radius + cap * 0.9) * math.cos(math.radians(turn) / 2)
                    self._cut_arc(stone, second, centre, middle + drop, scale, -turn)
        return y + size + unit * rng.uniform(0.2, 0.9)

    def _arch(self, rng, stone, room, entry, drawn, cap, y, centre, lead):
        degrees = math.copysign(min(abs(entry.arch), 9.0 * len(drawn.text)), entry.arch)
        for _ in range(8):
            length = drawn.width * cap / drawn.cap
            points = self._arc_points(centre, y + cap, length, degrees)
            outer = np.concatenate([points, Line(points, cap, "").tops()])
            cells = (outer / 4).astype(int)
            inside = (cells >= 0).all(1) & (cells[:, 0] < room.shape[1]) & (cells[:, 1] < room.shape[0])
            if inside.all() and room[cells[:, 1], cells[:, 0]].all():
                self._cut_arc(stone, drawn, centre, y + cap, cap / drawn.cap, degrees)
                return points[:, 1].max() + cap * lead * rng.uniform(0.8, 1.3)
            cap *= 0.88
            y += 2
            degrees *= 0.93
            if cap < MIN_CAP:
                break
        return y

    # ------------------------------------------------------------ the cutting

    @staticmethod
    def _arc_points(centre, baseline_y, length, degrees, count=17):
        """Baseline of an arch whose middle (its highest or, if it hangs, lowest point) is given.

        A hanging arc is moved down so that its ends stand at baseline_y.
        """
        angle = math.radians(degrees)
        radius = length / abs(angle)
        t = np.linspace(-abs(angle) / 2, abs(angle) / 2, count)
        drop = radius * (1 - np.cos(t))
        y = baseline_y + (drop if angle > 0 else drop.max() - drop)
        return np.stack([centre + radius * np.sin(t), y], 1)

    @staticmethod
    def _cut_straight(stone, drawn, start, angle, scale_x, scale_y):
        """Cuts a strip with its baseline starting at `start`."""
        small = cv2.resize(drawn.mask, (max(2, round(drawn.width * scale_x)), max(2, round(drawn.mask.shape[0] * scale_y))), interpolation=cv2.INTER_AREA)
        c, s = math.cos(angle), math.sin(angle)
        sx, sy = drawn.width * scale_x / small.shape[1], drawn.mask.shape[0] * scale_y / small.shape[0]
        base = drawn.baseline * scale_y
        matrix = np.array([[c * sx, -s * sy, start[0] + s * base], [s * sx, c * sy, start[1] - c * base]])
        h, w = small.shape
        corners = np.array([[0, 0, 1], [w, 0, 1], [0, h, 1], [w, h, 1]]) @ matrix.T
        low = np.maximum(np.floor(corners.min(0)).astype(int), 0)
        high = np.minimum(np.ceil(corners.max(0)).astype(int) + 1, stone.size)
        if (high - low <= 1).any():
            return
        shifted = matrix - np.array([[0, 0, low[0]], [0, 0, low[1]]])
        patch = cv2.warpAffine(small, shifted, (int(high[0] - low[0]), int(high[1] - low[1])), flags=cv2.INTER_LINEAR)
        view = stone.letters[low[1] : high[1], low[0] : high[0]]
        np.maximum(view, patch, out=view)
        length = drawn.width * scale_x
        along = np.linspace(0, length, 3)[:, None]
        stone.lines.append(Line(start + along * [c, s], drawn.cap * scale_y, drawn.text))

    def _cut_arc(self, stone, drawn, centre, baseline_y, scale, degrees):
        length, angle = drawn.width * scale, math.radians(degrees)
        radius = length / abs(angle)
        points = self._arc_points(centre, baseline_y, length, degrees)
        small = cv2.resize(drawn.mask, (max(2, round(length)), max(2, round(drawn.mask.shape[0] * scale))), interpolation=cv2.INTER_AREA)
        base = drawn.baseline * scale
        outer = np.concatenate([points, Line(points, base + 2, "").tops(), Line(points, -(small.shape[0] - base) - 2, "").tops()])
        low = np.maximum(np.floor(outer.min(0)).astype(int) - 1, 0)
        high = np.minimum(np.ceil(outer.max(0)).astype(int) + 2, stone.size)
        if (high - low <= 1).any():
            return
        x, y = np.meshgrid(np.arange(low[0], high[0], dtype=np.float32), np.arange(low[1], high[1], dtype=np.float32))
        middle = points[len(points) // 2, 1]
        x -= centre
        if angle > 0:
            y -= middle + radius
            along, rise = np.arctan2(x, -y), np.hypot(x, y) - radius
        else:
            y -= middle - radius
            along, rise = np.arctan2(x, y), radius - np.hypot(x, y)
        u = (along + abs(angle) / 2) * radius - 0.5
        patch = cv2.remap(small, u.astype(np.float32), (base - rise).astype(np.float32), cv2.INTER_LINEAR, borderMode=cv2.BORDER_CONSTANT)
        view = stone.letters[low[1] : high[1], low[0] : high[0]]
        np.maximum(view, patch, out=view)
        stone.lines.append(Line(points, drawn.cap * scale, drawn.text))
