"""Lines of text set as glyph masks: what a stonecutter marks out before cutting.

A mask is 64 rows high (white = cut) and shows one line as a line finder would crop it: tight or
loose, at times with the ends cut off, with slivers of the letters beside it and with the ascenders
and descenders of the lines above and below reaching in. Runs on CPU workers; PIL and numpy only.
"""

import math
import random
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np
from PIL import Image, ImageDraw

from carved import config, ornaments, typefaces
from carved import text as cut_text
from carved.typefaces import DRAWN_EM, Typeface

HEIGHT = 64  # mask rows
FINDERS_SHARE = 0.8  # of the lines cropped as our line finder does; the others in every other way
BARE_SHARE = 0.03  # of the masks that show no letter
GAPPED_SHARE = 0.05  # of the lines with a space, in which one is wide
ORNAMENTED_SHARE = 0.05  # of the ends of lines beside which an ornament is cut
MAX_WIDTH = max(config.BATCH_LINES)
# Long lines cost most and teach least more: most are kept to this width.
_USUAL_WIDTH, _LONG_SHARE = 896, 0.3

_LIGATURES = (("ffi", "ﬃ"), ("ff", "ﬀ"), ("fi", "ﬁ"), ("fl", "ﬂ"), ("ſt", "ﬅ"), ("st", "ﬆ"))
# Capitals cut with one stem between them, as old masons did to save room.
_SHARED_STEMS = {"HE", "TH", "NE", "ME", "MB", "ND", "HN", "HB", "NB", "HR", "AE", "TE", "NH", "MP", "HP"}
_SUBSTITUTES = {"ſ": "s", "’": "'", "‘": "'", "–": "-", "—": "-", "“": '"', "”": '"', "Æ": "E", "æ": "e", "·": "."}
_OLD_FIGURE_DROP = {"3": 0.24, "4": 0.22, "5": 0.24, "7": 0.24, "9": 0.24}  # in cap heights


# Words whose last letters, so many of them, are cut small and high.
_CONTRACTED = {
    1: "ye yt yr Wm Jno Geo Jas Robt Saml Mr Dr No Capt Lt Lieut Regt Bart Aug Margt Richd Danl Edwd Alexr Andw Fredk "
       "Michl Nathl Esqr Junr Senr Decr Septr Octr Novr Jany Feby Revd Hond Sergt Serjt Corpl Doctr Benjn Matthw Gent",
    2: "Mrs Thos Chas Josh Elizth Esqre Messrs Cathe yrs mos ds Battn Honble wch Rect",
}  # fmt: skip
_RAISED = {word.lower(): count for count, words in _CONTRACTED.items() for word in words.split()}


@dataclass
class Sign:
    """One drawn sign: the glyph, its scale, its offset and the characters it is read as."""

    glyph: str
    read: str
    scale: float = 1.0
    wide: float = 1.0  # widened by this, over and above the line's stretch
    rise: float = 0.0  # in cap heights, upwards
    advance: float = 0.0  # extra, in ems


@dataclass
class Setting:
    """How one line is set. Lengths are in ems of the line unless named otherwise."""

    face: Typeface
    tracking: float = 0.0
    word_space: float = 0.26
    small_capitals: float = 0.0  # scale of the small capitals; 0 = none
    old_figures: bool = False
    superiors: bool = False
    ligatures: bool = False
    shared_stems: bool = False
    swell: float = 0.0  # spread of the size of single letters
    wander: float = 0.0  # spread of baseline and spacing, in cap heights
    tilt_degrees: float = 0.0  # spread of single letters' slant
    points: float = 1.0  # size of points and commas
    gapped: float = 0.0  # how often one space is as wide as between the columns of a roll
    stretch: float = 1.0  # columns to rows: a strip from a slab seen from above is wider than it should be


def choose_setting(rng: random.Random, text: str, faces: Mapping[str, tuple[Typeface, ...]]) -> Setting:
    """A typeface that holds most of the text, and how it is set in it."""
    capitals = text.upper() == text
    for _ in range(50):  # then what the last typeface lacks is left out
        face = typefaces.pick(rng, faces)
        # Lines all in blackletter or script capitals are rare and nearly unreadable.
        if capitals and face.kind in ("blackletter", "script") and rng.random() < 0.9:
            continue
        missing = sum(not face.covers(c) and not face.covers(_SUBSTITUTES.get(c, c)) for c in text)
        if missing * 8 <= len(text):
            break
    small = not capitals and face.kind in ("roman", "slab", "sans") and rng.random() < 0.30
    setting = Setting(face)
    if capitals or small:
        setting.tracking = rng.uniform(0.0, 0.22) if rng.random() < 0.5 else rng.uniform(-0.03, 0.06)
    else:
        setting.tracking = rng.uniform(-0.03, 0.06)
    if rng.random() < 0.03 and len(text) < 20:
        setting.tracking = rng.uniform(0.2, 0.5)
    if face.kind == "script":  # the letters hang together
        setting.tracking = rng.uniform(-0.02, 0.01)
    setting.points = rng.uniform(0.7, 1.6) if rng.random() < 0.35 else 1.0
    setting.stretch = _stretch(rng)
    setting.word_space = rng.uniform(0.22, 0.36) if rng.random() < 0.8 else rng.uniform(0.16, 0.22)
    setting.small_capitals = rng.uniform(0.68, 0.86) if small else 0.0
    setting.old_figures = rng.random() < 0.12
    setting.superiors = rng.random() < 0.42
    setting.ligatures = rng.random() < 0.25
    setting.shared_stems = capitals and rng.random() < 0.06
    setting.gapped = GAPPED_SHARE
    if rng.random() < 0.28:  # a naive or tired hand
        setting.swell = rng.uniform(0.01, 0.07)
        setting.wander = rng.uniform(0.01, 0.07)
        setting.tilt_degrees = rng.choice((0.0, rng.uniform(0.5, 5.0)))
    return setting


def _stretch(rng: random.Random) -> float:
    """How wide a strip shows its letters. Mostly as cut, a good part as slabs and oblique faces come out."""
    pick = rng.random()
    if pick < 0.52:
        return 1.0
    low, high = (0.72, 1.25) if pick < 0.74 else (1.25, 2.3) if pick < 0.90 else (0.45, 0.72)
    return low * (high / low) ** rng.random()


def _signs(rng: random.Random, text: str, setting: Setting) -> list[Sign]:
    """The text as signs, with what the typeface lacks substituted or left out."""
    if setting.ligatures and not setting.small_capitals:
        for letters, ligature in _LIGATURES:
            if setting.face.covers(ligature) and rng.random() < 0.8:
                text = text.replace(letters, ligature)
    raised = _superior_positions(rng, text) if setting.superiors else set()
    signs: list[Sign] = []
    for index, character in enumerate(text):
        if character == " ":
            signs.append(Sign(" ", " "))
            continue
        glyph = character
        if not setting.face.covers(glyph):
            glyph = _SUBSTITUTES.get(glyph, "")
            if not glyph or not setting.face.covers(glyph):
                continue
        read = glyph if glyph.isalpha() else character
        if setting.face.lower_is_capital and len(read.upper()) == 1:
            read = read.upper()
        sign = Sign(glyph, read)
        if index in raised:
            sign.scale, sign.rise = rng.uniform(0.48, 0.68), rng.uniform(0.34, 0.5)
            sign.read = cut_text.superior(sign.read)
        elif character in ".,;:":
            sign.scale = setting.points
        elif character == "—":
            sign.wide = rng.choice((1.0, 1.0, rng.uniform(0.75, 1.3), rng.uniform(0.75, 1.3), rng.uniform(1.3, 4.0), rng.uniform(1.3, 8.0)))
            sign.rise = rng.uniform(0.0, 0.2)
        elif character == "·":
            _raise_point(rng, sign, setting)
        elif setting.small_capitals and character.islower():
            capital = "S" if character == "ſ" else character.upper()
            if len(capital) == 1 and setting.face.covers(capital):
                # Read as capitals: what is cut is a capital, only smaller.
                sign = Sign(capital, capital, setting.small_capitals)
        elif setting.old_figures and character.isdigit():
            if character in "012":
                sign.scale = 0.76
            else:
                sign.rise = -_OLD_FIGURE_DROP.get(character, 0.0)
        if setting.shared_stems and text[index : index + 2] in _SHARED_STEMS and rng.random() < 0.6:
            sign.advance = -rng.uniform(0.06, 0.12)
        signs.append(sign)
    spaces = [sign for sign in signs if sign.glyph == " "]
    if spaces and rng.random() < setting.gapped:
        rng.choice(spaces).wide = rng.uniform(3.0, 16.0)
    return signs


def _raise_point(rng: random.Random, sign: Sign, setting: Setting) -> None:
    """A raised point cut as any face has it: a point, a small wedge or a leaf, at mid height."""
    pick = rng.random()
    if pick < 0.35 and setting.face.covers("."):
        sign.glyph, sign.rise, sign.scale = ".", rng.uniform(0.28, 0.5), rng.uniform(0.7, 1.5)
    elif pick < 0.45 and setting.face.covers("❦"):
        sign.glyph, sign.scale, sign.rise = "❦", rng.uniform(0.35, 0.7), rng.uniform(0.2, 0.35)


def _superior_positions(rng: random.Random, text: str) -> set[int]:
    """Ends of ordinals, of contractions and of `ye`, the c of Mc: letters that are cut small and high."""
    chosen: set[int] = set()
    start = 0
    for word in text.split(" "):
        letters = word.rstrip(".,;:—-")
        count = _RAISED.get(letters.lower(), 0)
        figures = letters.rstrip("dhnrstDHNRST")
        if figures != letters and figures.isdigit():
            count = len(letters) - len(figures)
        if count and rng.random() < 0.85:
            chosen.update(range(start + len(letters) - count, start + len(letters)))
        elif letters[:2] == "Mc" and letters[2:3].isupper() and rng.random() < 0.5:
            chosen.add(start + 1)
        start += len(word) + 1
    return {index for index in chosen if text[index] in cut_text.SUPERIORS}


def _draw(
    rng: random.Random, canvas: Image.Image, setting: Setting, signs: list[Sign], em: float, x: float, baseline: float
) -> tuple[list[tuple[float, float, str]], float]:
    """Draws signs from `x` on the baseline. Returns each sign's (left, right, read as) and the end x."""
    cap, wide = em * setting.face.cap_height, setting.stretch
    placed: list[tuple[float, float, str]] = []
    for sign in signs:
        if sign.glyph == " ":
            step = em * (setting.word_space + setting.tracking) * wide * sign.wide * rng.uniform(0.85, 1.3)
            placed.append((x, x + step, " "))
            x += step
            continue
        size = max(6.0, em * sign.scale * (1 + rng.gauss(0, setting.swell) if setting.swell else 1.0))
        y = baseline - sign.rise * cap
        if setting.wander:
            y += rng.gauss(0, setting.wander) * cap
        glyph = setting.face.glyph(sign.glyph)
        down, along = size / DRAWN_EM, size / DRAWN_EM * wide * sign.wide
        stamp = glyph.ink.resize((max(1, round(glyph.ink.width * along)), max(1, round(glyph.ink.height * down))), Image.Resampling.BILINEAR)
        left, top = x + glyph.left * along, y + glyph.top * down
        if setting.tilt_degrees:
            turned = stamp.rotate(rng.gauss(0, setting.tilt_degrees), resample=Image.Resampling.BILINEAR, expand=True)
            left, top = left - (turned.width - stamp.width) / 2, top - (turned.height - stamp.height) / 2
            stamp = turned
        canvas.paste(255, (round(left), round(top)), stamp)
        width = glyph.advance * along
        placed.append((x, x + width, sign.read))
        x += width + em * (setting.tracking + sign.advance) * wide
        if setting.wander:
            x += rng.gauss(0, setting.wander * 0.8) * cap * wide
    return placed, x


def _extent(setting: Setting, signs: list[Sign]) -> tuple[float, float]:
    """Ink above and below the baseline, in cap heights."""
    cap = DRAWN_EM * setting.face.cap_height
    up, down = 0.3, 0.0
    for sign in signs:
        if sign.glyph != " ":
            glyph = setting.face.glyph(sign.glyph)
            up = max(up, -glyph.top * sign.scale / cap + sign.rise)
            down = max(down, (glyph.top + glyph.ink.height) * sign.scale / cap - sign.rise)
    return up, down


def _length(setting: Setting, signs: list[Sign], em: float) -> float:
    """About how wide the signs come out, in pixels."""
    ems = 0.0
    for sign in signs:
        own = setting.word_space * sign.wide if sign.glyph == " " else setting.face.glyph(sign.glyph).advance / DRAWN_EM * sign.scale * sign.wide
        ems += own + setting.tracking + sign.advance
    return ems * em * setting.stretch


def _vertical_margin(rng: random.Random) -> float:
    """Room a crop leaves above or below the ink, in cap heights; below 0 it cuts into the letters."""
    pick = rng.random()
    if pick < 0.40:
        return rng.uniform(-0.07, 0.14)
    return rng.uniform(0.10, 0.42) if pick < 0.90 else rng.uniform(0.40, 0.85)


def _side_margin(rng: random.Random) -> float:
    """Room a crop leaves before the first or after the last letter, in cap heights."""
    pick = rng.random()
    if pick < 0.14:
        return rng.uniform(-0.18, 0.05)
    return rng.uniform(0.05, 0.75) if pick < 0.88 else rng.uniform(0.75, 3.0)


def _finders_crop(rng: random.Random) -> tuple[float, float, float, float]:
    """Room above and below the baseline and beside the letters, in cap heights, as our own line finder crops.

    It centres a strip on the capitals and leaves half a letter height at the ends, give or take; at times bare stone.
    """
    half = 0.8 * math.exp(rng.gauss(0, 0.11))
    middle = 0.5 + rng.gauss(0, 0.06)
    ends = [rng.uniform(0.8, 3.5) if rng.random() < 0.08 else 0.5 + rng.gauss(0, 0.2) for _ in range(2)]
    return middle + half, half - middle, ends[0], ends[1]


def line_mask(rng: random.Random, faces: Mapping[str, tuple[Typeface, ...]]) -> tuple[np.ndarray, str]:
    """A random line: mask (HEIGHT, width) of uint8, width at most MAX_WIDTH, and its label."""
    if rng.random() < BARE_SHARE:
        return _bare_mask(rng), ""
    while True:
        made = _line_mask(rng, cut_text.line(rng).text, faces)
        if made is not None:
            return made


def _bare_mask(rng: random.Random) -> np.ndarray:
    """Ornaments, rules or nothing at all where a finder took them for a line."""
    canvas = Image.new("L", (rng.randint(60, 500), HEIGHT), 0)
    pencil = ImageDraw.Draw(canvas)
    stretch = _stretch(rng)
    for _ in range(rng.choice((0, 1, 1, 2, 3, 5))):
        ornaments.draw(rng, pencil, rng.uniform(0, canvas.width), rng.uniform(10, HEIGHT - 10), rng.uniform(6, 34), stretch)
    for _ in range(rng.choice((0, 0, 1, 2))):
        y = rng.uniform(0, HEIGHT)
        pencil.line((0, y, canvas.width, y + rng.gauss(0, 3)), fill=255, width=rng.choice((1, 2, 4)))
    return np.asarray(canvas)


def _line_mask(rng, text, faces) -> tuple[np.ndarray, str] | None:
    setting = choose_setting(rng, text, faces)
    return set_mask(rng, text, setting)


def set_mask(
    rng: random.Random, text: str, setting: Setting, ornamented: float = ORNAMENTED_SHARE
) -> tuple[np.ndarray, str] | None:
    """The text in a setting, cropped and with what stands about it; None if nothing can be drawn.

    ornamented: how often an ornament stands at an end.
    """
    signs = _signs(rng, text, setting)
    while signs and signs[-1].glyph == " ":
        signs.pop()
    if not signs:
        return None
    up, down = _extent(setting, signs)
    if rng.random() < FINDERS_SHARE:
        above, below, left, right = _finders_crop(rng)
    else:
        reach_up, reach_down = up, down
        if rng.random() < 0.35:  # the box follows the whole stone's letters, not this line's
            reach_up, reach_down = max(up, 1.0), max(down, rng.choice((0.0, 0.25)))
        above, below = reach_up + _vertical_margin(rng), reach_down + _vertical_margin(rng)
        left, right = _side_margin(rng), _side_margin(rng)
    cap = HEIGHT / max(0.5, above + below)
    em = cap / setting.face.cap_height
    baseline = above * cap
    # An ornament beside the text that the crop takes in, on one side or both.
    beside = [rng.uniform(0.5, 1.8) * setting.stretch if rng.random() < ornamented else 0.0 for _ in range(2)]
    left, right = (left + beside[0]) * cap, (right + beside[1]) * cap
    length = _length(setting, signs, em)
    room = ((MAX_WIDTH if rng.random() < _LONG_SHARE else _USUAL_WIDTH) - left - right) / 1.06
    if length > room:
        narrower = setting.stretch * room / length
        if narrower > max(0.45, 0.55 * setting.stretch):
            setting.stretch, length = narrower, room
        else:
            return set_mask(rng, text[: len(text) * 2 // 3].strip() or "A", setting, ornamented)
    begin = 3.2 * cap + max(0.0, left)
    canvas = Image.new("L", (int(1.3 * length + begin + 5 * cap) + 64, HEIGHT), 0)
    placed, end = _draw(rng, canvas, setting, signs, em, begin, baseline)
    ink = [(a, b) for a, b, read in placed if read != " "]
    first, last = ink[0][0], ink[-1][1]
    x0, x1 = max(0.0, first - left), last + right
    width = min(int(x1 - x0), MAX_WIDTH)
    if width < 20:
        return None
    pencil = ImageDraw.Draw(canvas)
    for at, reach in ((first - 0.3 * cap - 0.5 * beside[0] * cap, beside[0]), (last + 0.3 * cap + 0.5 * beside[1] * cap, beside[1])):
        if reach:
            _draw_ornament(rng, canvas, pencil, setting, em, cap, baseline, at, reach)
    _draw_neighbours(rng, canvas, setting, cap, em, baseline, up, down, (first, last))
    _draw_clutter(rng, canvas, setting, em, cap, baseline, (x0, x1))
    # A letter of which the crop shows less than half is not asked for.
    shown = [read for a, b, read in placed if read == " " or (min(b, x1) - max(a, x0)) >= 0.55 * (b - a)]
    region = canvas.crop((round(x0), 0, max(round(x1), round(x0) + 20), HEIGHT))
    if region.width != width:
        region = region.resize((width, HEIGHT), Image.Resampling.BILINEAR)
    label = cut_text.label("".join(shown))
    return (np.asarray(region), label) if cut_text.on_the_line(label) else None


def _draw_ornament(rng, canvas, pencil, setting, em, cap, baseline, at, reach) -> None:
    """One ornament at column `at` that spreads over about `reach` cap heights."""
    printers = ornaments.of_printers(rng, setting.face) if rng.random() < 0.5 else None
    if printers:
        _draw(rng, canvas, setting, [Sign(printers, "", rng.uniform(0.8, 1.6))], em, at - 0.4 * em * setting.stretch, baseline)
    else:
        radius = min(rng.uniform(0.25, 0.8), 0.6 * reach / setting.stretch) * cap
        ornaments.draw(rng, pencil, at, baseline - rng.uniform(0.2, 0.8) * cap, radius, setting.stretch)


def _draw_neighbours(rng, canvas, setting, cap, em, baseline, up, down, span) -> None:
    """Parts of the lines above and below that a crop lets in."""
    for above in (True, False):
        if rng.random() > 0.42:
            continue
        text = cut_text.line(rng).text
        size = em * rng.choice((1.0, 1.0, rng.uniform(0.6, 1.7)))
        signs = _signs(rng, text, setting)
        if not signs:
            continue
        its_cap = size * setting.face.cap_height
        its_up, its_down = _extent(setting, signs)
        gap = rng.uniform(0.10, 0.65) * cap
        line = baseline - up * cap - gap - its_down * its_cap if above else baseline + down * cap + gap + its_up * its_cap
        if line < -0.3 * its_cap or line - its_up * its_cap > HEIGHT:
            continue
        x = span[0] + rng.gauss(0, 2.0) * cap
        _draw(rng, canvas, setting, signs[: int(canvas.width / max(size * 0.4 * setting.stretch, 1))], size, x, line)


def _draw_clutter(rng, canvas, setting, em, cap, baseline, crop) -> None:
    """Slivers of letters beside the crop, rules, frames and scrolls: cut, but not to be read."""
    draw = ImageDraw.Draw(canvas)
    x0, x1 = crop
    if rng.random() < 0.05:  # a sliver of the letter before or after
        glyph = rng.choice("ABDEHIMNORSTUaehmnorst18")
        if setting.face.covers(glyph):
            width = setting.face.glyph(glyph).advance / DRAWN_EM * em * setting.stretch
            at = x0 - width * rng.uniform(0.75, 0.92) if rng.random() < 0.5 else x1 - width * rng.uniform(0.08, 0.25)
            _draw(rng, canvas, setting, [Sign(glyph, "")], em, at, baseline)
    if rng.random() < 0.06:  # a rule or the edge of a panel
        y = rng.choice((rng.uniform(0, 0.08), rng.uniform(0.92, 1.0))) * HEIGHT
        draw.line((x0, y, x1, y + rng.gauss(0, 2)), fill=255, width=rng.choice((1, 2, 3, 4)))
    if rng.random() < 0.04:  # a side border
        x = rng.choice((x0 + rng.uniform(0, 0.25) * cap, x1 - rng.uniform(0, 0.25) * cap))
        draw.line((x, 0, x + rng.gauss(0, 2), HEIGHT), fill=255, width=rng.choice((1, 2, 3, 5)))
    if rng.random() < 0.03:  # a scroll or leaf at the end
        x, r = rng.choice((x0, x1)), rng.uniform(0.3, 1.0) * cap
        y = rng.uniform(0.2, 0.8) * HEIGHT
        turn = rng.uniform(0, 360)
        draw.arc((x - r, y - r, x + r, y + r), turn, turn + rng.uniform(90, 300), fill=255, width=rng.choice((2, 3, 5)))


def batches(
    seed: int, faces: Mapping[str, tuple[Typeface, ...]], batch_lines: Mapping[int, int] = config.BATCH_LINES
) -> Iterator[tuple[np.ndarray, list[str]]]:
    """Endless batches of equal width: masks (lines, HEIGHT, width) of uint8 and their labels."""
    rng = random.Random(seed)
    waiting: dict[int, list[tuple[np.ndarray, str]]] = {width: [] for width in sorted(batch_lines)}
    while True:
        mask, label = line_mask(rng, faces)
        width = next(w for w in waiting if w >= mask.shape[1])
        waiting[width].append((mask, label))
        if len(waiting[width]) < batch_lines[width]:
            continue
        masks = np.zeros((batch_lines[width], HEIGHT, width), np.uint8)
        for row, (single, _) in zip(masks, waiting[width]):
            room = width - single.shape[1]
            at = rng.randint(0, room) if rng.random() < 0.3 else room // 2
            row[:, at : at + single.shape[1]] = single
        yield masks, [label for _, label in waiting[width]]
        waiting[width] = []
