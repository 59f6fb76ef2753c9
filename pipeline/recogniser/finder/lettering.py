"""Lines of lettering as flat masks: the ink that the layout then bends into place on a stone."""

import functools
from dataclasses import dataclass

import numpy as np
from PIL import Image, ImageDraw

from carved.typefaces import Typeface

# Typefaces are asked for their glyphs at this many pixels per em; strips are drawn at this scale.
EM = 96


@dataclass
class Strip:
    """One line of lettering, drawn straight. `mask` is uint8 ink; rows grow downwards."""

    mask: np.ndarray
    baseline: float  # row of the baseline in `mask`
    cap: float  # capital height, pixels of `mask`
    text: str

    @property
    def width(self):
        return self.mask.shape[1]


@functools.lru_cache(maxsize=60000)
def glyph(typeface: Typeface, character, size):
    """Ink (None for a blank), its left and top from the pen on the baseline, and the advance."""
    font = typeface.at(size)
    left, top, right, bottom = font.getbbox(character, anchor="ls")
    advance = font.getlength(character)
    if right <= left or bottom <= top:
        return None, 0, 0, advance
    image = Image.new("L", (right - left, bottom - top))
    ImageDraw.Draw(image).text((-left, -top), character, font=font, fill=255, anchor="ls")
    return np.asarray(image).copy(), left, top, advance


def strip(rng, typeface, text, tracking=0.0, small_caps=False, jitter=0.0, word_gap=1.0):
    """Sets `text`; None if nothing of it can be drawn.

    tracking: extra space after each letter, in ems. jitter: unevenness of a hand, in pixels of the
    strip (letters shift and the baseline wanders). word_gap: factor on the width of spaces.
    """
    cap = typeface.cap_height * EM
    small_size = int(EM * 0.78)
    placed = []
    x = 0.0
    drawn = []
    for char in text:
        if char == " ":
            x += EM * (0.26 + tracking) * word_gap * rng.uniform(0.9, 1.25)
            drawn.append(char)
            continue
        size, sign = EM, char
        if small_caps and char.islower():
            sign, size = char.upper(), small_size
        if len(sign) != 1 or not typeface.covers(sign):
            continue
        ink, left, top, advance = glyph(typeface, sign, size)
        if ink is None:
            continue
        placed.append((ink, x + left + rng.gauss(0, jitter), top + rng.gauss(0, jitter)))
        drawn.append(sign)
        x += advance + tracking * EM
    if not placed:
        return None
    x0 = min(p[1] for p in placed)
    y0 = int(np.floor(min(p[2] for p in placed)))
    x1 = max(p[1] + p[0].shape[1] for p in placed)
    y1 = int(np.ceil(max(p[2] + p[0].shape[0] for p in placed)))
    mask = np.zeros((y1 - y0 + 2, int(x1 - x0) + 2), np.uint8)
    for ink, left, top in placed:
        row, column = int(round(top)) - y0, int(round(left - x0))
        height, width = ink.shape
        row = min(max(row, 0), mask.shape[0] - height)
        column = min(max(column, 0), mask.shape[1] - width)
        view = mask[row : row + height, column : column + width]
        np.maximum(view, ink, out=view)
    return Strip(mask, float(-y0), cap, "".join(drawn).strip())
