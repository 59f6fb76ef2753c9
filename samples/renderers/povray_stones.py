#!/usr/bin/python3
"""Pictures of invented gravestones, ray traced by POV-Ray 3.7, with a table of what is carved on them.

Each stone is a height field: letters, frame and a simple carving are cut into a flat face as geometry in millimetres,
then the face is weathered (diffusion, recession, flakes, pits, cracks), and then things grow on it. POV-Ray lights it,
with grass, neighbours, trees or a wall around; lens, sensor and JPEG are added afterwards.

Truth: the same stone is weathered twice by the same chances, with and without letters. How far the brightness of the
two faces differs within a letter, under the light that reaches the place, against how much a render of the blank stone
varies at that scale, says how well the letter shows; how much of it flakes, growths or grass take away says whether it
is lost. Thresholds are below, set by eye.

    povray_stones.py --out DIR --count N --seed S --kind usual|above|sets [--lights 4]

writes DIR/*.jpg, DIR/truth.tsv and DIR/manifest.csv; rows are added as pictures are finished. Needs numpy, scipy,
Pillow, OpenCV, fontTools and povray, and the typefaces of FACES (Debian packages fonts-ebgaramond, -elstob, -junicode,
-essays1743, -georgewilliams, -adf-baskervald, -adf-mekanus, -adf-libris, -adf-verana, -sil-charis, -gfs-didot,
-gfs-artemisia, -gfs-neohellenic, -prociono, -quattrocento, -goudybookletter, -gamaliel, -dancingscript, -bebas-neue,
-cabin, -roboto-slab, -cmu, -arapey); what is missing is passed over.
"""
from __future__ import annotations

import argparse
import math
import subprocess
import tempfile
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import cv2
import numpy as np
import scipy.fft
from fontTools.ttLib import TTFont
from PIL import Image, ImageDraw, ImageFont
from scipy.ndimage import gaussian_filter

PITCH = 0.65          # millimetres between samples of a face, at least; large slabs are coarser
FINE = 3              # a letter's outline is drawn this many times finer than the face
DOT = "\u0323"

# Truth, set by eye on trial pictures. "Show" is the contrast a letter makes over the contrast of the bare stone.
SHOW_TRACES = 0.75    # under this only traces
SHOW_UNCLEAR = 1.25   # under this another letter would be possible
LOST_SHARE = 0.60     # so much of a letter flaked off or covered: lost
HURT_SHARE = 0.20     # so much: unclear
CRUST = 2.0           # a letter's show is taken times this power of its share free of lichen and grass
LINE_POOR, LINE_WORN = 1.15, 1.90      # median show of a line's letters
POOR_PIXELS, WORN_PIXELS = 8.0, 13.0   # height of capitals in the picture
CLUTTER_FLOOR = 0.045 # contrast nobody notices, in natural logarithms of luminance

OPEN = "/usr/share/fonts/opentype/"
TRUE = "/usr/share/fonts/truetype/"
FACES: dict[str, dict[str, str]] = {
    "roman": {
        "garamond": OPEN + "ebgaramond/EBGaramond12-Regular.otf",
        "elstob": OPEN + "elstob/ElstobD-14ptMedium.otf",
        "junicode": OPEN + "junicode/JunicodeTwoBeta-Medium.otf",
        "essays": TRUE + "essays1743/Essays1743.ttf",
        "caslon": TRUE + "fonts-georgewilliams/CaslonRoman.ttf",
        "baskervald": TRUE + "adf/BaskervaldADFStd.otf",
        "bookletter": OPEN + "sortsmill/GoudyBookletter1911.otf",
        "prociono": OPEN + "fonts-prociono/Prociono.otf",
        "didot": OPEN + "didot/GFSDidotBold.otf",
        "artemisia": OPEN + "artemisia/GFSArtemisiaBold.otf",
        "charis": TRUE + "charis/CharisSIL-Bold.ttf",
        "cmu": TRUE + "cmu/cmunbx.ttf",
        "arapey": OPEN + "arapey/Arapey-Regular.otf",
    },
    "capitals": {
        "strokes": "",
        "quattrocento": OPEN + "quattrocento/Quattrocento-Regular.otf",
        "garamond": OPEN + "ebgaramond/EBGaramond12-Bold.otf",
        "caslon": TRUE + "fonts-georgewilliams/CaslonBold.ttf",
        "baskervald": TRUE + "adf/BaskervaldADFStd-Bold.otf",
    },
    "slab": {
        "mekanus": TRUE + "adf/MekanusADFStd-Bold.otf",
        "titling": TRUE + "adf/MekanusADFTitlingStd-Bold.otf",
        "robotoslab": OPEN + "roboto/slab/RobotoSlab-Bold.otf",
        "concrete": TRUE + "cmu/cmunobx.ttf",
    },
    "sans": {
        "libris": TRUE + "adf/LibrisADFStd-Bold.otf",
        "verana": TRUE + "adf/VeranaSansMedium-Regular.otf",
        "bebas": OPEN + "bebas-neue/BebasNeue-Regular.otf",
        "cabin": OPEN + "cabin/Cabin-SemiBold.otf",
        "neohellenic": OPEN + "neohellenic/GFSNeohellenicBold.otf",
    },
    "italic": {
        "garamond": OPEN + "ebgaramond/EBGaramond12-Italic.otf",
        "elstob": OPEN + "elstob/ElstobD-14ptMediumItalic.otf",
        "caslon": TRUE + "fonts-georgewilliams/CaslonItalic.ttf",
        "essays": TRUE + "essays1743/Essays1743-Italic.ttf",
        "baskervald": TRUE + "adf/BaskervaldADFStd-BoldItalic.otf",
        "didot": OPEN + "didot/GFSDidotItalic.otf",
    },
    "black": {"gamaliel": TRUE + "gamaliel/Gamaliel.ttf"},
    "script": {"dancing": OPEN + "dancingscript/DancingScript-Bold.otf"},
}
CAPITALS_ONLY = {"bebas", "titling"}     # their small letters look like capitals


# ---------------------------------------------------------------------------------------------- letters

def _arc(cx: float, cy: float, rx: float, ry: float, start: float, end: float) -> list[tuple[float, float]]:
    """Points of an ellipse; degrees, anticlockwise from the right."""
    return [(cx + rx * math.cos(math.radians(a)), cy + ry * math.sin(math.radians(a)))
            for a in np.linspace(start, end, 24)]


_BOWL = [(0, 1), (.28, 1)] + _arc(.28, .76, .24, .24, 90, -90) + [(0, .52)]
# A hand's capitals as strokes in a box one capital high: width, strokes.
STROKES: dict[str, tuple[float, list[list[tuple[float, float]]]]] = {
    "A": (.78, [[(0, 0), (.39, 1), (.78, 0)], [(.14, .36), (.64, .36)]]),
    "B": (.56, [[(0, 0), (0, 1)], _BOWL, [(.28, .52)] + _arc(.28, .26, .28, .26, 90, -90) + [(0, 0)]]),
    "C": (.74, [_arc(.46, .5, .46, .5, 50, 310)]),
    "D": (.72, [[(0, 0), (0, 1), (.26, 1)] + _arc(.26, .5, .46, .5, 90, -90) + [(0, 0)]]),
    "E": (.52, [[(.52, 1), (0, 1), (0, 0), (.52, 0)], [(0, .52), (.42, .52)]]),
    "F": (.5, [[(.5, 1), (0, 1), (0, 0)], [(0, .52), (.4, .52)]]),
    "G": (.78, [_arc(.46, .5, .46, .5, 50, 325), [(.8, .05), (.8, .42), (.56, .42)]]),
    "H": (.7, [[(0, 0), (0, 1)], [(.7, 0), (.7, 1)], [(0, .5), (.7, .5)]]),
    "I": (.04, [[(.02, 0), (.02, 1)]]),
    "J": (.34, [[(.34, 1), (.34, .2)] + _arc(.16, .2, .18, .2, 0, -120)]),
    "K": (.62, [[(0, 0), (0, 1)], [(.58, 1), (.02, .44)], [(.2, .6), (.62, 0)]]),
    "L": (.5, [[(0, 1), (0, 0), (.5, 0)]]),
    "M": (.86, [[(.02, 0), (.1, 1), (.43, .1), (.76, 1), (.84, 0)]]),
    "N": (.72, [[(0, 0), (0, 1), (.72, 0), (.72, 1)]]),
    "O": (.92, [_arc(.46, .5, .46, .5, 0, 360)]),
    "P": (.52, [[(0, 0), (0, 1)], _BOWL]),
    "Q": (.92, [_arc(.46, .5, .46, .5, 0, 360), [(.5, .2), (.92, -.16)]]),
    "R": (.6, [[(0, 0), (0, 1)], _BOWL, [(.26, .52), (.6, 0)]]),
    "S": (.5, [_arc(.25, .75, .23, .25, 35, 270) + _arc(.25, .25, .25, .25, 90, -150)]),
    "T": (.68, [[(0, 1), (.68, 1)], [(.34, 1), (.34, 0)]]),
    "U": (.66, [[(0, 1), (0, .33)] + _arc(.33, .33, .33, .33, 180, 360) + [(.66, 1)]]),
    "V": (.74, [[(0, 1), (.37, 0), (.74, 1)]]),
    "W": (1.06, [[(0, 1), (.27, 0), (.53, .9), (.79, 0), (1.06, 1)]]),
    "X": (.68, [[(0, 0), (.66, 1)], [(.02, 1), (.68, 0)]]),
    "Y": (.68, [[(0, 1), (.34, .46), (.68, 1)], [(.34, .46), (.34, 0)]]),
    "Z": (.62, [[(0, 1), (.62, 1), (0, 0), (.62, 0)]]),
    "Æ": (1.0, [[(0, 0), (.5, 1), (1.0, 1)], [(.5, 1), (.5, 0), (1.0, 0)], [(.18, .36), (.5, .36)], [(.5, .52), (.9, .52)]]),
    "0": (.6, [_arc(.3, .5, .3, .5, 0, 360)]),
    "1": (.2, [[(0, .82), (.14, 1), (.14, 0)]]),
    "2": (.52, [_arc(.25, .74, .25, .26, 165, -20) + [(0, 0), (.54, 0)]]),
    "3": (.5, [_arc(.23, .76, .23, .24, 150, -90), _arc(.23, .26, .26, .26, 90, -150)]),
    "4": (.6, [[(.44, 0), (.44, 1), (0, .28), (.6, .28)]]),
    "5": (.5, [[(.46, 1), (.08, 1), (.04, .58)] + _arc(.22, .3, .27, .3, 110, -150)]),
    "6": (.54, [_arc(.27, .3, .27, .3, 0, 360), _arc(.5, .34, .5, .66, 95, 180)]),
    "7": (.5, [[(0, 1), (.5, 1), (.16, 0)]]),
    "8": (.5, [_arc(.25, .76, .21, .24, 0, 360), _arc(.25, .26, .26, .26, 0, 360)]),
    "9": (.54, [_arc(.27, .7, .27, .3, 0, 360), _arc(.04, .66, .5, .66, -85, 0)]),
    "&": (.78, [[(.78, 0), (.16, .74)] + _arc(.32, .8, .17, .2, 190, -30) + [(.1, .4)]
                + _arc(.28, .24, .28, .24, 150, 300) + [(.7, .46)]]),
    ".": (.06, [[(.03, .02), (.04, .05)]]),
    ",": (.08, [[(.06, .04), (.01, -.12)]]),
    "-": (.3, [[(0, .45), (.3, .45)]]),
    "–": (.5, [[(0, .45), (.5, .45)]]),
    "—": (.8, [[(0, .45), (.8, .45)]]),
    "'": (.06, [[(.05, 1), (.02, .8)]]),
    ":": (.06, [[(.03, .08), (.04, .1)], [(.03, .5), (.04, .52)]]),
}


class Typeface:
    """Outlines of letters from a font file, or from STROKES when no path is given."""

    def __init__(self, path: str, capitals_only: bool = False):
        self.path = path
        if path:
            self.known = set(TTFont(path, fontNumber=0, lazy=True).getBestCmap())
            if capitals_only:
                self.known -= {c for c in self.known if chr(c).islower()}
            probe = ImageFont.truetype(path, 1000)
            box = probe.getbbox("H", anchor="ls")
            self.capital = -box[1] / 1000
        else:
            self.known = {ord(c) for c in STROKES} | {32}

    def has(self, text: str) -> bool:
        return all(ord(c) in self.known for c in text if c not in "<>")

    @lru_cache(maxsize=64)
    def _font(self, size: int) -> ImageFont.FreeTypeFont:
        return ImageFont.truetype(self.path, size, layout_engine=ImageFont.Layout.BASIC)

    def advance(self, char: str, following: str, capital: float) -> float:
        """How far the pen moves, in the unit of `capital`."""
        if not self.path:
            return capital * (.42 if char == " " else STROKES[char][0] + .27)
        font = self._font(1000)
        width = font.getlength(char + following) - font.getlength(following) if following else font.getlength(char)
        return width / 1000 / self.capital * capital

    def mask(self, char: str, capital: float) -> tuple[np.ndarray, float, float]:
        """The letter as 0..1, with its origin (x, baseline) in the array."""
        if not self.path:
            return self._stroked(char, capital)
        size = max(8, round(capital / self.capital))
        font = self._font(size)
        left, top, right, bottom = font.getbbox(char, anchor="ls")
        pad = 3
        image = Image.new("L", (right - left + 2 * pad, bottom - top + 2 * pad))
        ImageDraw.Draw(image).text((pad - left, pad - top), char, fill=255, font=font, anchor="ls")
        return np.asarray(image, np.float32) / 255, pad - left, pad - top

    @staticmethod
    def _stroked(char: str, capital: float) -> tuple[np.ndarray, float, float]:
        width, strokes = STROKES[char]
        pad = int(capital * .3)
        image = np.zeros((int(capital) + 2 * pad, int(width * capital) + 2 * pad), np.uint8)
        thick = max(2, round(capital * .115))
        for stroke in strokes:
            points = np.array([(pad + x * capital, pad + (1 - y) * capital) for x, y in stroke])
            cv2.polylines(image, [np.round(points * 8).astype(np.int32)], False, 255, thick, cv2.LINE_AA, 3)
            if char.isalpha():
                for x, y in (points[0], points[-1]):
                    if min(abs(y - pad), abs(y - pad - capital)) < capital * .02:
                        half = capital * .1
                        cv2.line(image, (int(x - half), int(y)), (int(x + half), int(y)), 255, max(1, thick // 3),
                                 cv2.LINE_AA)
        return image.astype(np.float32) / 255, pad, pad + capital


@lru_cache(maxsize=None)
def typeface(kind: str, name: str) -> Typeface | None:
    path = FACES[kind][name]
    return Typeface(path, name in CAPITALS_ONLY) if not path or Path(path).exists() else None


# ------------------------------------------------------------------------------------------------- texts

@dataclass
class Line:
    """One line as cut. Letters within < > are raised."""
    text: str
    size: float = 1.0
    style: str = "body"          # body, name, italic, black, script
    arched: bool = False
    column: int = -1             # of a roll; -1 for the whole width

    @property
    def plain(self) -> str:
        return self.text.replace("<", "").replace(">", "")


MEN = ("John William Thomas Henry Edward Josiah Robert Samuel Obadiah Jabez Walter Giles Alfred Ambrose Reuben Caleb "
       "Ephraim Nathaniel Barnaby Silas Hugh Matthew Lawrence Simeon Isaac Frederick Albert Gilbert Arthur").split()
WOMEN = ("Mary Ann Elizabeth Hannah Sarah Jane Susanna Martha Dorcas Patience Charlotte Lydia Keziah Harriet Ellen "
         "Alice Emma Tabitha Phoebe Margery Judith Esther Louisa Beatrice Florence Maud Edith Prudence").split()
SURNAMES = ("Thackwray Pellowe Garside Winnock Harbottle Dunsley Ockenden Tregarth Skelbrook Fenwright Maddick Loxdale "
            "Quarmby Brindlow Hesketh Copplestone Yardsley Ashplant Wetherill Bunting Stannard Kirkhope Vellacot Jessop "
            "Orpwood Rusbridge Cawthra Upfold Haskayne Tindle Pomfrey Gathercole Swithin Mallinder").split()
PLACES = ("Netherby Wick;Long Fallow;Stonehurst Mill;Crake End;Upper Thornsay;Marlpit;Holme St. Anne;Dunmarsh;"
          "Oakenshaw Fold;Priors Lench;Saltergate;Withy Moor;Great Harle;Kelmsea Bank").split(";")
TRADES = "Yeoman;Clothier;Blacksmith;Surgeon;Millwright;Master Mariner;Schoolmaster;Maltster;Joiner;Rector".split(";")
MONTHS = "January February March April May June July August September October November December".split()
SHORT_MONTHS = "Jan. Feb. March April May June July Aug. Sept. Oct. Nov. Dec.".split()
REGIMENTS = ("WEALDSHIRE REGT.;NORTH MARCH FUSILIERS;ROYAL HALLAM RIFLES;3RD DUNE LANCERS;EAST MERE YEOMANRY;"
             "CORPS OF PONTONEERS").split(";")
RANKS = "PRIVATE;CORPORAL;SERJEANT;GUNNER;DRIVER;LIEUTENANT".split(";")
VERSES = (
    ("The cup is drained, the loom is still,", "The weaver lays his shuttle by;", "He sleeps beneath the quiet hill",
     "Whose thread was spun beyond the sky."),
    ("O passing friend, a moment stay", "And think upon thy little day;", "What thou art now so once was I,",
     "Learn then to live that thou mayst die."),
    ("Long was her sickness, great her pain,", "Her loss to us is heaven's gain."),
    ("My candle's out, my glass is run,", "My work on earth is fairly done."),
    ("Weep not for me my children dear", "I am not lost but wait you here."),
    ("No storm can reach the harbour now", "Nor wind disturb the resting prow."),
)
TEXT_QUOTES = ("“He giveth rest unto the weary.”", "“The morning cometh.”", "“Until the shadows flee.”",
               "“Her works do praise her.”", "“Safe in the haven.”", "“Faithful in little.”")


class Writer:
    """Words of an inscription in the habit of a year."""

    def __init__(self, rng: np.random.Generator):
        self.rng = rng

    def pick(self, options):
        return options[int(self.rng.integers(len(options)))]

    def ordinal(self, number: int, raised: bool) -> str:
        ending = "th" if 10 < number % 100 < 14 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
        return f"{number}<{ending}>" if raised else f"{number}{ending}"

    @staticmethod
    def long_s(text: str) -> str:
        out = []
        for i, c in enumerate(text):
            inner = c == "s" and i + 1 < len(text) and text[i + 1].isalpha() and text[i + 1] not in "fbk"
            out.append("ſ" if inner else c)
        return "".join(out)

    def early(self, year: int) -> list[Line]:
        sex = self.rng.random() < .6
        given, surname = self.pick(MEN if sex else WOMEN), self.pick(SURNAMES)
        age, day, month = int(self.rng.integers(3, 92)), int(self.rng.integers(1, 31)), self.pick(MONTHS)
        if self.rng.random() < .4:
            return [Line("HERE LYETH"), Line("THE BODY OF", .9), Line(f"{given} {surname}".upper(), 1.15, "name"),
                    Line(f"OF {self.pick(PLACES)}".upper(), .85),
                    Line(f"WHO DYED {self.pick(SHORT_MONTHS)} Y<E> {day}".upper(), .9),
                    Line(f"ANNO DOM. {year}"), Line(f"ÆTAT. SUÆ {age}", .9)]
        lines = [Line("Here lyes y<e> Body of"), Line(f"{given} {surname}", 1.3, "name")]
        if sex:
            lines.append(Line(f"of {self.pick(PLACES)} {self.pick(TRADES)}", .85))
        else:
            lines.append(Line(f"Wife of {self.pick(MEN)} {surname}", .9))
        lines += [Line(self.pick(["who departed this Life", "who deceas'd y<e>"])),
                  Line(f"{self.ordinal(day, True)} of {month} {year}"),
                  Line(f"in y<e> {self.ordinal(age, True)} Year of {'his' if sex else 'her'} Age", .9)]
        if self.rng.random() < .6:
            lines += [Line(v, .68, "italic") for v in self.pick(VERSES)[:2]]
        for line in lines:
            line.text = self.long_s(line.text)
        return lines

    def georgian(self, year: int) -> list[Line]:
        given, surname, wife = self.pick(MEN), self.pick(SURNAMES), self.pick(WOMEN)
        lines = [Line(self.pick(["Sacred", "SACRED", "In Memory of"]), .9, self.pick(["script", "black", "body"]))]
        if lines[0].text.upper() == "SACRED":
            lines.append(Line(self.pick(["to the Memory of", "TO THE MEMORY OF"]), .75, "italic"))
        lines += [Line(f"M<r> {given} {surname}" if self.rng.random() < .4 else f"{given} {surname}".upper(), 1.35, "name"),
                  Line(f"late of {self.pick(PLACES)}, {self.pick(TRADES)},", .72),
                  Line(f"who departed this Life {self.pick(MONTHS)} {self.ordinal(int(self.rng.integers(1, 29)), True)}", .7),
                  Line(f"{year}. Aged {int(self.rng.integers(19, 90))} Years.", .85)]
        if self.rng.random() < .65:
            lines += [Line(f"Also {wife} his Wife", .95, "name"),
                      Line(f"who died {self.pick(SHORT_MONTHS)} {int(self.rng.integers(1, 29))}, {year + int(self.rng.integers(1, 22))},"
                           f" Aged {int(self.rng.integers(24, 88))}.", .7)]
        if self.rng.random() < .6:
            lines += [Line(v, .58, "italic") for v in self.pick(VERSES)]
        if year < 1795:
            for line in lines:
                line.text = self.long_s(line.text)
        return lines

    def victorian(self, year: int) -> list[Line]:
        given, surname, wife = self.pick(MEN), self.pick(SURNAMES), self.pick(WOMEN)
        opening = self.pick([[("IN", .6, "body"), ("AFFECTIONATE", .95, "body"), ("REMEMBRANCE", .95, "body"), ("OF", .6, "body")],
                             [("In Loving Memory", 1.1, "black"), ("OF", .6, "body")],
                             [("In Memory of", 1.1, "script")],
                             [("ERECTED", .8, "body"), ("BY HIS FRIENDS TO", .65, "body")]])
        lines = [Line(t, s, k) for t, s, k in opening]
        lines[0].arched = len(lines[0].text) > 8 and lines[0].style != "script" and self.rng.random() < .6
        middle = f" {self.pick(MEN)}" if self.rng.random() < .35 else ""
        lines.append(Line(f"{given}{middle} {surname}".upper(), 1.3, "name"))
        day, month = int(self.rng.integers(1, 29)), self.pick(MONTHS)
        age = int(self.rng.integers(1, 89))
        if self.rng.random() < .45:
            lines += [Line(f"BORN {self.pick(SHORT_MONTHS).upper()} {int(self.rng.integers(1, 29))}, {year - age}", .75),
                      Line(f"DIED {month.upper()} {day}, {year}", .75)]
        else:
            lines += [Line(f"OF {self.pick(PLACES)},".upper(), .68),
                      Line(f"WHO DIED {month.upper()} {self.ordinal(day, True).upper()} {year},", .75),
                      Line(f"AGED {age} YEARS." if self.rng.random() < .7 else f"ÆTAT. {age}.", .75)]
        if self.rng.random() < .6:
            lines += [Line(self.pick(["ALSO OF", "ALSO"]), .55), Line(wife.upper() + ",", 1.05, "name"),
                      Line(self.pick(["WIFE OF THE ABOVE,", "RELICT OF THE ABOVE,", "BELOVED WIFE OF THE ABOVE"]), .6),
                      Line(f"{year - int(self.rng.integers(20, 70))} – {year + int(self.rng.integers(0, 20))}", .75)]
        if self.rng.random() < .55:
            lines.append(Line(self.pick(TEXT_QUOTES), .62, "italic"))
        return lines

    def later(self, year: int) -> list[Line]:
        given, surname, wife = self.pick(MEN), self.pick(SURNAMES), self.pick(WOMEN)
        lines = [Line(self.pick(["IN LOVING MEMORY OF", "TREASURED MEMORIES OF", "IN EVER LOVING MEMORY OF"]), .72),
                 Line(f"{given} {surname}".upper(), 1.2, "name"),
                 Line(f"DIED {self.ordinal(int(self.rng.integers(1, 29)), True).upper()} {self.pick(SHORT_MONTHS).upper()} {year}", .78),
                 Line(f"AGED {int(self.rng.integers(18, 92))} YEARS", .78)]
        if self.rng.random() < .6:
            lines += [Line(f"ALSO HIS WIFE {wife.upper()}" if self.rng.random() < .5 else f"AND OF {wife.upper()} HIS WIFE", .85),
                      Line(f"{year - int(self.rng.integers(30, 70))} – {min(1960, year + int(self.rng.integers(1, 15)))}", .78)]
        lines.append(Line(self.pick(["R.I.P.", "REST IN PEACE", "REUNITED", "AT REST", "PEACE PERFECT PEACE"]), .75))
        return lines

    def soldier(self, year: int) -> list[Line]:
        return [Line(str(int(self.rng.integers(1200, 98000))), .7), Line(self.pick(RANKS), .8),
                Line(f"{self.pick(MEN)[0]}. {self.pick(MEN)[0]}. {self.pick(SURNAMES)}".upper(), 1.1, "name"),
                Line(self.pick(REGIMENTS), .75),
                Line(f"{self.ordinal(int(self.rng.integers(1, 29)), False).upper()} {self.pick(MONTHS).upper()} {year}", .75),
                Line(f"AGE {int(self.rng.integers(18, 44))}", .75)]

    def roll(self, year: int) -> list[Line]:
        lines = [Line("TO THE MEN OF THIS PARISH", .85), Line(f"WHO FELL {year} – {year + 4}", .85)]
        for column in (0, 1):
            lines += [Line(f"{self.pick(MEN)[0]}. {self.pick(SURNAMES)}".upper(), .72, column=column) for _ in range(6)]
        return lines + [Line("THEIR NAME LIVETH", .7, "body")]

    def footstone(self, year: int) -> list[Line]:
        first, last = self.pick(MEN + WOMEN)[0], self.pick(SURNAMES)[0]
        return [Line(f"{first}. {last}.", 1.4, "name"), Line(str(year), 1.1)]

    def tablet(self, year: int) -> list[Line]:
        return [Line(self.pick(SURNAMES).upper(), 1.5, "name"), Line(f"{self.pick(MEN)} & {self.pick(WOMEN)}".upper(), .9),
                Line(f"{year - int(self.rng.integers(30, 80))} – {year}", .9), Line(self.pick(["AT REST", "REQUIESCANT", "R.I.P."]), .7)]


# ------------------------------------------------------------------------------------------------ stones

@dataclass(frozen=True)
class Material:
    """How a stone looks and ages. Colours are linear; lengths in millimetres."""
    name: str
    colour: tuple[float, float, float]
    second: tuple[float, float, float]      # of veins, beds or crystals
    grain: float                            # height of the surface's roughness
    grain_size: float
    blotch: float                           # how much colour varies
    diffusion: float                        # how fast arrises round
    flakes: float                           # how readily sheets fall
    pits: float
    specular: float = 0.03
    gloss: float = 0.1                      # POV-Ray's roughness


MATERIALS = {m.name: m for m in (
    Material("marble", (.60, .59, .56), (.40, .41, .42), .10, 1.0, .10, 1.0, .0, .25),
    Material("slate", (.115, .122, .135), (.09, .10, .10), .05, .9, .12, .22, .55, .05, .16, .08),
    Material("red sandstone", (.33, .185, .13), (.42, .27, .20), .22, 1.6, .16, 1.1, .6, .5),
    Material("grey sandstone", (.31, .275, .215), (.38, .33, .25), .24, 1.7, .18, 1.0, .5, .5),
    Material("limestone", (.46, .42, .34), (.55, .52, .45), .20, 1.5, .15, 1.1, .12, 1.0),
    Material("grey granite", (.30, .30, .30), (.09, .09, .095), .03, 1.2, .05, .05, 0, .02, .35, .02),
    Material("red granite", (.34, .17, .125), (.07, .065, .065), .03, 1.4, .05, .05, 0, .02, .4, .02),
    Material("black granite", (.028, .029, .031), (.06, .06, .065), .02, 1.0, .03, .03, 0, 0, .5, .015),
    Material("cast iron", (.045, .047, .05), (.19, .075, .03), .10, 1.4, .10, .2, 0, .2, .2, .06),
    Material("zinc", (.30, .32, .335), (.38, .40, .41), .06, 1.2, .10, .1, 0, .05, .15, .08),
)}


@dataclass
class Stone:
    """What a stone is to be before anything is computed."""
    name: str
    material: Material
    width: float
    height: float
    thickness: float
    outline: str
    lines: list[Line]
    faces: dict[str, tuple[str, str]]
    cut: str                # V, U, raised, lead, paint, gilt
    weathering: str
    age: float              # 0 new .. 1 ruinous
    carving: str
    frame: bool
    align: str
    hand: float             # unevenness of the letters
    seed: int


@dataclass
class Glyph:
    line: int
    index: int              # within Line.plain
    where: tuple[slice, slice]
    cover: np.ndarray       # 0..1


class Sheet:
    """The face as it left the cutter: depth below the surface in millimetres, negative where it stands out."""

    def __init__(self, stone: Stone):
        self.stone = stone
        self.pitch = max(PITCH, stone.height / 1700)
        self.shape = (round(stone.height / self.pitch), round(stone.width / self.pitch))
        self.depth = np.zeros(self.shape, np.float32)
        self.ornament = np.zeros(self.shape, np.float32)
        self.glyphs: list[Glyph] = []
        self.capitals: dict[int, float] = {}
        self.rng = np.random.default_rng([stone.seed, 1])
        self.inside = self._outline()
        edge = cv2.distanceTransform(np.pad(self.inside, ((1, 0), (1, 1))).astype(np.uint8), cv2.DIST_L2, 5)
        self.edge = edge[1:, 1:-1] * self.pitch

    def _outline(self) -> np.ndarray:
        rows, columns = self.shape
        stone = self.stone
        x = (np.arange(columns) + .5) * self.pitch - stone.width / 2
        top = np.zeros(columns)                     # how far below the highest point the outline runs
        half = stone.width / 2
        u = np.abs(x) / half
        if stone.outline == "round":
            top = half * .75 * (1 - np.sqrt(np.clip(1 - u ** 2, 0, 1)))
        elif stone.outline == "segment":
            top = half * .28 * u ** 2
        elif stone.outline == "gothic":
            top = half * .95 * (1 - np.sqrt(np.clip(1 - ((u + .7) / 1.7) ** 2, 0, 1)) - (1 - math.sqrt(1 - (.7 / 1.7) ** 2)))
        elif stone.outline == "shoulders":
            head = half * .55 * (1 - np.sqrt(np.clip(1 - (u / .66) ** 2, 0, 1)))
            shoulder = half * .42 + half * .22 * (1 - np.sqrt(np.clip(1 - ((u - .83) / .17) ** 2, 0, 1)))
            top = np.where(u < .64, np.minimum(head, half * .45), shoulder)
        elif stone.outline == "ogee":
            top = half * .5 * (.5 - .5 * np.cos(np.pi * np.clip(u, 0, 1))) ** .8
        wobble = gaussian_filter(self.rng.normal(size=columns), 14 / self.pitch) * 3 * stone.age
        y = (np.arange(rows) + .5) * self.pitch
        inside = y[:, None] >= (top + 2 + wobble)[None, :]
        side = gaussian_filter(self.rng.normal(size=rows), 10 / self.pitch) * 4 * stone.age + 2
        inside &= (half - np.abs(x))[None, :] >= side[:, None]
        return inside

    def frame_and_carving(self) -> float:
        """Cuts frame and carving; gives the height from the top at which letters may begin."""
        stone = self.stone
        head = {"round": .20, "gothic": .26, "shoulders": .26, "ogee": .16, "segment": .09}.get(stone.outline, .06)
        begin = stone.width * head
        if stone.frame:
            for at in (22.0, 27.0):
                groove = np.clip(1.6 - np.abs(self.edge - at), 0, None) * .9
                self.depth = np.maximum(self.depth, groove)
        if stone.carving:
            size = stone.width * .26
            centre = (stone.width / 2, max(begin * .55, 30) + size * .42)
            art = self._draw(stone.carving, centre, size)
            swell = np.clip(cv2.distanceTransform(art, cv2.DIST_L2, 5) * self.pitch / 13, 0, 1)
            rise = 4.2 * np.sqrt(1 - (1 - swell) ** 2)
            ground = np.zeros(self.shape, np.uint8)
            cv2.ellipse(ground, (int(centre[0] / self.pitch), int(centre[1] / self.pitch)),
                        (int(size * .62 / self.pitch), int(size * .54 / self.pitch)), 0, 0, 360, 1, -1)
            sunk = cv2.GaussianBlur(ground.astype(np.float32), (0, 0), 2.0 / self.pitch) * 4.4
            self.ornament = sunk - rise
            self.depth = np.where(ground > 0, self.ornament, self.depth)
            begin = centre[1] + size * .55 + 8
        return begin

    def _draw(self, motif: str, centre: tuple[float, float], size: float) -> np.ndarray:
        art = np.zeros(self.shape, np.uint8)

        def at(x: float, y: float) -> tuple[int, int]:
            return (int((centre[0] + x * size) / self.pitch), int((centre[1] + y * size) / self.pitch))

        def length(value: float) -> int:
            return max(1, int(value * size / self.pitch))

        def polygon(*points: tuple[float, float]) -> None:
            cv2.fillPoly(art, [np.array([at(*p) for p in points], np.int32)], 1)

        def disc(x: float, y: float, rx: float, ry: float, angle: float = 0, value: int = 1) -> None:
            cv2.ellipse(art, at(x, y), (length(rx), length(ry)), angle, 0, 360, value, -1)

        if motif == "urn":
            disc(0, -.05, .26, .2)
            polygon((-.07, .1), (.07, .1), (.05, .3), (.2, .4), (-.2, .4), (-.05, .3))
            polygon((-.2, -.28), (.2, -.28), (.14, -.2), (-.14, -.2))
            disc(0, -.36, .06, .07)
        elif motif == "willow":
            polygon((-.05, .42), (-.03, -.2), (.03, -.2), (.05, .42))
            for angle in np.linspace(-1.2, 1.2, 9):
                for t in np.linspace(0, 1, 14):
                    disc(math.sin(angle) * .4 * t, -.25 - .18 * math.cos(angle) * math.sin(t * 3) + .45 * t * t, .028, .04)
        elif motif == "cross":
            polygon((-.07, -.42), (.07, -.42), (.07, .42), (-.07, .42))
            polygon((-.27, -.2), (.27, -.2), (.27, -.06), (-.27, -.06))
        elif motif == "flower":
            for angle in range(0, 360, 60):
                disc(.19 * math.cos(math.radians(angle)), -.1 + .19 * math.sin(math.radians(angle)), .15, .085, angle)
            disc(0, -.1, .06, .06, value=0)
            polygon((-.02, .05), (.02, .05), (.06, .42), (.02, .42))
            disc(.14, .26, .12, .05, -30)
        elif motif == "hand":
            disc(0, .1, .15, .17)
            polygon((-.07, -.4), (.0, -.42), (.02, 0), (-.09, 0))
            for i in range(3):
                disc(.06 + i * .05, -.02 + i * .04, .045, .1)
            polygon((-.15, .24), (.15, .24), (.2, .42), (-.2, .42))
        elif motif == "head":
            disc(0, -.02, .19, .24)
            for side in (-1, 1):
                disc(side * .075, -.04, .05, .05, value=0)
                for i in range(4):
                    disc(side * (.3 + .05 * i), .0 + .07 * i - .1, .2, .045, side * (-18 + 14 * i))
            polygon((-.06, .13), (.06, .13), (.06, .15), (-.06, .15))
            cv2.line(art, at(-.07, .12), at(.07, .12), 0, length(.02))
        return art

    def letter_all(self) -> None:
        """Lays the lines out and cuts them."""
        stone = self.stone
        begin = self.frame_and_carving()
        margin = 38 if stone.frame else max(20, stone.width * .06)
        room = stone.width - 2 * margin
        end = stone.height - max(35.0, stone.height * float(self.rng.uniform(.06, .22)))
        whole = [l for l in stone.lines if l.column < 0]
        rows = [[l] for l in whole]
        columns = [[l for l in stone.lines if l.column == c] for c in (0, 1)]
        if columns[0]:
            rows = [[l] for l in whole[:2]] + [list(pair) for pair in zip(*columns)] + [[l] for l in whole[2:]]
        leading = float(self.rng.uniform(1.65, 2.0))
        arched = rows[0][0].arched
        sizes = [row[0].size for row in rows]
        steps = [b + (leading - 1) * (a + b) / 2 for a, b in zip(sizes, sizes[1:])]
        weights = sizes[0] + sum(steps) + .4 + (1.2 if arched else 0)
        base = min((end - begin) / weights, stone.width * .085, 58.0)
        if arched:
            begin += base * 1.0
        y = begin + base * rows[0][0].size
        raised = stone.cut == "raised"
        if raised:
            inner = self.edge > 14
            self.depth = np.where(inner & (self.ornament == 0), 2.6 * np.clip((self.edge - 14) / 3, 0, 1), self.depth)
        for row, step in zip(rows, steps + [0]):
            for line in row:
                number = stone.lines.index(line)
                if line.column < 0:
                    self._set(line, number, y, margin, room, base * line.size, stone.align)
                else:
                    part = room / 2 - 8
                    self._set(line, number, y, margin + line.column * (part + 16), part, base * line.size, "left")
            y += base * step

    def _set(self, line: Line, number: int, baseline: float, left: float, room: float, capital: float, align: str) -> None:
        stone = self.stone
        face = typeface(*stone.faces[line.style])
        if face is None or not face.has(line.text):
            face = typeface(*stone.faces["body"])
        if face is None or not face.has(line.text):
            face = typeface("roman", "garamond")
        rng = self.rng
        tracking = {"name": .10, "body": .06}.get(line.style, .02)
        pen: list[tuple[str, float, bool]] = []
        x, up = 0.0, False
        chars = list(line.text)
        for i, c in enumerate(chars):
            if c in "<>":
                up = c == "<"
                continue
            following = next((d for d in chars[i + 1:] if d not in "<>"), "")
            pen.append((c, x, up))
            x += face.advance(c, following, 1.0) * (.62 if up else 1) + tracking
        x -= tracking
        narrow = 1.0
        if x * capital > room:
            narrow = max(.82, room / (x * capital))
            capital = min(capital, room / (x * narrow))
        span = x * capital * narrow
        start = {"centre": left + (room - span) / 2, "left": left, "justified": left + (room - span) / 2}[align]
        if align == "justified" and line.column < 0 and span > room * .7 and " " in line.text:
            narrow *= min(1.15, room / span)
            start = left + (room - x * capital * narrow) / 2
        self.capitals[number] = capital
        bend = stone.width * .62 if line.arched else 0
        drift = rng.normal(0, .004 * stone.hand)
        grow = 1 + rng.normal(0, .015 * stone.hand)
        index = -1
        for c, at, up in pen:
            index += 1
            if c == " ":
                continue
            scale = capital * (.6 if up else 1) * grow * (1 + rng.normal(0, .018 * stone.hand))
            mask, ox, oy = face.mask(c, scale / self.pitch * FINE)
            px = start + at * capital * narrow + rng.normal(0, .012 * stone.hand) * capital
            py = baseline + (px - start) * drift - (.42 * capital if up else 0) + rng.normal(0, .012 * stone.hand) * capital
            turn = rng.normal(0, .9 * stone.hand)
            slant = rng.normal(0, .015 * stone.hand)
            if bend:
                theta = (px - stone.width / 2) / bend
                px, py = stone.width / 2 + bend * math.sin(theta), py + bend * (1 - math.cos(theta))
                turn += math.degrees(theta)
            t = math.radians(turn)
            linear = np.array([[math.cos(t), -math.sin(t)], [math.sin(t), math.cos(t)]]) @ np.array([[narrow, -slant], [0, 1]]) / FINE
            origin = np.array([px, py]) / self.pitch - linear @ np.array([ox, oy])
            self._stamp(mask, linear, origin, number, index)

    def _stamp(self, mask: np.ndarray, linear: np.ndarray, origin: np.ndarray, number: int, index: int) -> None:
        corners = np.array([[0, 0], [mask.shape[1], 0], [0, mask.shape[0]], mask.shape[::-1]]) @ linear.T + origin
        low = np.maximum(np.floor(corners.min(0)).astype(int) - 2, 0)
        high = np.minimum(np.ceil(corners.max(0)).astype(int) + 3, self.shape[::-1])
        if (high - low).min() < 2:
            return
        size = high - low
        matrix = np.hstack([linear * FINE, ((origin - low) * FINE)[:, None]])
        fine = cv2.warpAffine(mask, matrix, tuple(int(v) for v in size * FINE), flags=cv2.INTER_LINEAR)
        outside = cv2.distanceTransform((fine < .5).astype(np.uint8), cv2.DIST_L2, 5) / FINE * self.pitch
        inside = (outside < .42).astype(np.uint8)
        d = cv2.distanceTransform(inside, cv2.DIST_L2, 5) / FINE * self.pitch
        cut = self.stone.cut
        if cut == "raised":
            profile = -np.minimum(d * 2.2, 2.6)
        elif cut == "U":
            profile = 2.4 * np.sqrt(np.clip(1 - (1 - np.clip(d / 1.6, 0, 1)) ** 2, 0, 1))
        elif cut == "lead":
            profile = np.minimum(d * 2, .25)
        else:
            profile = np.minimum(d * 1.15, 4.0)
        to = tuple(int(v) for v in size)
        depth = cv2.resize(profile.astype(np.float32), to, interpolation=cv2.INTER_AREA)
        cover = cv2.resize(inside.astype(np.float32), to, interpolation=cv2.INTER_AREA)
        where = (slice(int(low[1]), int(high[1])), slice(int(low[0]), int(high[0])))
        if cut == "raised":
            self.depth[where] = np.where(cover > .02, np.minimum(self.depth[where], 2.6 + depth), self.depth[where])
        else:
            self.depth[where] = np.maximum(self.depth[where], depth)
        self.glyphs.append(Glyph(number, index, where, cover))


def noise(shape: tuple[int, int], rng: np.random.Generator, size: float, power: float = 1.6,
          stretch: tuple[float, float] = (1, 1)) -> np.ndarray:
    """Random field of mean 0 and deviation 1; features up to `size` samples, `stretch`ed in y and x."""
    rows, columns = (scipy.fft.next_fast_len(n, real=True) for n in shape)
    spectrum = scipy.fft.rfft2(rng.standard_normal((rows, columns), np.float32))
    fy = np.fft.fftfreq(rows)[:, None].astype(np.float32) * stretch[0]
    fx = np.fft.rfftfreq(columns)[None, :].astype(np.float32) * stretch[1]
    spectrum *= (fy ** 2 + fx ** 2 + 1 / size ** 2) ** (-power / 2)
    field_ = scipy.fft.irfft2(spectrum, s=(rows, columns))[:shape[0], :shape[1]]
    field_ -= field_.mean()
    return (field_ / field_.std()).astype(np.float32)


@dataclass
class Surface:
    depth: np.ndarray       # below the cutter's plane, millimetres
    colour: np.ndarray      # linear
    gone: np.ndarray        # 0..1: flaked off
    limed: np.ndarray       # 0..1: under bird lime
    grown: np.ndarray       # 0..1: under lichen


class Ageing:
    """All chances of a stone's life, drawn once, so that the stone can be aged with and without its letters."""

    def __init__(self, sheet: Sheet):
        stone, material = sheet.stone, sheet.stone.material
        self.sheet, self.stone = sheet, stone
        rng = np.random.default_rng([stone.seed, 2])
        shape, pitch, age = sheet.shape, sheet.pitch, stone.age
        mm = 1 / pitch
        rows, columns = shape
        y = np.linspace(0, 1, rows, dtype=np.float32)[:, None]
        patch = noise(shape, rng, 140 * mm, 2.2)
        self.fine = noise(shape, rng, material.grain_size * mm, 1.2)
        self.coarse = noise(shape, rng, 45 * mm, 2.0)
        bedded = material.name.endswith("sandstone")
        self.beds = noise(shape, rng, 60 * mm, 1.9, (1, 9) if not bedded or rng.random() < .6 else (7, 1))
        self.streak = noise(shape, rng, 45 * mm, 1.7, (.12, 1.0))
        foot = np.clip((y - .62) / .38, 0, 1) ** 1.5
        self.wear = np.clip(age * (1.0 + .45 * patch + .9 * foot) - .08, 0, 1.6) * (.25 + .75 * min(1.0, material.diffusion))
        self.patch = patch
        warp = noise(shape, rng, 5 * mm, 1.5), noise(shape, rng, 5 * mm, 1.5)
        amount = (.12 + .55 * age * min(1, material.diffusion)) * mm
        gx, gy = np.meshgrid(np.arange(columns, dtype=np.float32), np.arange(rows, dtype=np.float32))
        self.map = (gx + warp[0] * amount, gy + warp[1] * amount)
        self.flake = self._flakes(rng, mm, y)
        self.pits = self._pits(rng, mm)
        self.cracks = self._cracks(rng)
        self.growth = self._growths(rng, mm)
        self.moss_level = float(rng.random() < .45) * rng.uniform(.3, 1.0) * (stone.cut != "raised") * (material.specular < .3)
        self.moss_noise = noise(shape, rng, 60 * mm, 2.0)
        self.algae = np.clip(self.streak * .5 + noise(shape, rng, 200 * mm, 2.2) * .6
                             + (1.0 if rng.random() < .4 else -.4) + 1.3 * foot, 0, 2) * (.25 if material.specular < .3 else .05) * (.4 + age)
        self.veins = np.abs(noise(shape, rng, 220 * mm, 2.3)) if material.name == "marble" else None
        self.crystals = noise(shape, rng, 2.2 * mm, 1.3), noise(shape, rng, 3.0 * mm, 1.4)
        self.paint_loss = noise(shape, rng, 30 * mm, 1.5)
        self.lime = self._lime(rng, mm)
        self.tint = rng.normal(1, .05, 3) * rng.uniform(.85, 1.12)

    def _flakes(self, rng: np.random.Generator, mm: float, y: np.ndarray) -> np.ndarray:
        stone = self.stone
        depth = np.zeros(self.sheet.shape, np.float32)
        likely = stone.material.flakes * stone.age
        if rng.random() > likely * 2.2:
            return depth
        field_ = noise(self.sheet.shape, rng, 170 * mm, 2.3) + .07 * noise(self.sheet.shape, rng, 14 * mm, 1.6)
        field_ += .9 * np.exp(-self.sheet.edge / 60) + .5 * y
        share = float(np.clip(likely * rng.uniform(.1, .5), .02, .28))
        over = field_ - np.quantile(field_, 1 - share)
        step = 1.4 if stone.material.name == "slate" else 2.2
        layers = np.ceil(np.clip(over / .35, 0, 3))
        return np.where(over > 0, layers * step + .12 * self.coarse, 0).astype(np.float32)

    def _pits(self, rng: np.random.Generator, mm: float) -> np.ndarray:
        rows, columns = self.sheet.shape
        depth = np.zeros((rows, columns), np.float32)
        count = int(self.stone.material.pits * (.3 + self.stone.age) * 900)
        for _ in range(count):
            r = min(5.0, .5 + rng.exponential(.7)) * mm
            cx, cy = rng.uniform(0, columns), rng.uniform(0, rows)
            x0, x1, y0, y1 = int(max(0, cx - r)), int(min(columns, cx + r + 1)), int(max(0, cy - r)), int(min(rows, cy + r + 1))
            if x1 <= x0 or y1 <= y0:
                continue
            yy, xx = np.mgrid[y0:y1, x0:x1]
            bowl = np.clip(1 - ((xx - cx) ** 2 + (yy - cy) ** 2) / r ** 2, 0, 1) * r / mm * .7
            depth[y0:y1, x0:x1] = np.maximum(depth[y0:y1, x0:x1], bowl)
        if self.stone.material.name == "limestone":
            for _ in range(int(60 + 200 * self.stone.age)):
                c = (int(rng.uniform(0, columns)), int(rng.uniform(0, rows)))
                axes = (max(2, int(rng.uniform(2, 7) * mm)), max(2, int(rng.uniform(2, 5) * mm)))
                begin = int(rng.uniform(0, 360))
                cv2.ellipse(depth, c, axes, int(rng.uniform(0, 180)), begin, begin + int(rng.uniform(90, 200)), -float(rng.uniform(.2, .7)), 1)
        return depth

    def _cracks(self, rng: np.random.Generator) -> np.ndarray:
        rows, columns = self.sheet.shape
        depth = np.zeros((rows, columns), np.float32)
        if self.stone.material.specular >= .3 and self.stone.material.name != "cast iron":
            return depth
        for _ in range(int(rng.poisson(.9 * self.stone.age))):
            point, heading = np.array([0.0 if rng.random() < .5 else columns, rng.uniform(.1, .95) * rows]), rng.normal(0, .5)
            if point[0] > 0:
                heading += math.pi
            for _ in range(int(rng.uniform(40, 160))):
                heading += rng.normal(0, .22)
                step = point + 9 * np.array([math.cos(heading), math.sin(heading)])
                cv2.line(depth, tuple(int(v) for v in point), tuple(int(v) for v in step), 3.0, int(rng.integers(1, 3)))
                point = step
        return depth

    def _growths(self, rng: np.random.Generator, mm: float) -> list[tuple[tuple[slice, slice], np.ndarray, np.ndarray, float]]:
        """Lichens: place, cover, colour, thickness."""
        stone = self.stone
        rows, columns = self.sheet.shape
        nest = (0.0, 0.0)
        edge_noise, inner = noise((rows, columns), rng, 12 * mm, 1.4), noise((rows, columns), rng, 3 * mm, 1.0)
        kinds = [((.50, .51, .46), .5), ((.62, .63, .58), .3), ((.52, .30, .05), .5), ((.42, .42, .16), .4),
                 ((.10, .105, .095), .2), ((.33, .37, .30), .6)]
        amount = 60 * stone.age ** 1.3 if stone.material.specular < .3 else 1.5
        chosen = [kinds[i] for i in rng.permutation(len(kinds))[:3]]
        out = []
        for _ in range(int(rng.poisson(amount * rng.uniform(.05, 1.6)))):
            colour, thick = chosen[int(rng.integers(3))]
            r = min(55.0, float(rng.lognormal(2.3, .65))) * mm
            if not out or rng.random() < .4:
                nest = rng.uniform(0, columns), rng.uniform(0, rows)
            cx, cy = rng.normal(nest[0], 45 * mm), rng.normal(nest[1], 45 * mm)
            x0, x1, y0, y1 = int(max(0, cx - 1.5 * r)), int(min(columns, cx + 1.5 * r + 1)), int(max(0, cy - 1.5 * r)), int(min(rows, cy + 1.5 * r + 1))
            if x1 - x0 < 3 or y1 - y0 < 3:
                continue
            where = (slice(y0, y1), slice(x0, x1))
            yy, xx = np.mgrid[y0:y1, x0:x1]
            distance = np.hypot(xx - cx, yy - cy) / r + .30 * edge_noise[where]
            cover = np.clip((1 - distance) * r / mm / 2.2, 0, 1) * np.clip(.95 + .25 * inner[where], .1, 1)
            rim = 1 + .25 * np.exp(-((distance - .92) / .1) ** 2) + .13 * inner[where]
            out.append((where, cover.astype(np.float32), (np.array(colour) * rim[..., None]).astype(np.float32), thick))
        return out

    def _lime(self, rng: np.random.Generator, mm: float) -> np.ndarray:
        rows, columns = self.sheet.shape
        lime = np.zeros((rows, columns), np.float32)
        if rng.random() < .3:
            for _ in range(int(rng.integers(1, 4))):
                x, y = rng.uniform(.1, .9) * columns, rng.uniform(0, .6) * rows
                for _ in range(int(rng.integers(40, 140))):
                    cv2.circle(lime, (int(x + rng.normal(0, 1.8) * mm), int(y)), int(rng.uniform(.8, 2.6) * mm), 1.0, -1)
                    y += abs(rng.normal(0, 1.1)) * mm
            lime = np.clip(cv2.GaussianBlur(lime, (0, 0), .8 * mm) * 1.3 - .15, 0, 1)
        return lime

    def apply(self, lettered: bool) -> Surface:
        """The face today."""
        sheet, stone, material = self.sheet, self.stone, self.stone.material
        mm = 1 / sheet.pitch
        letters = np.zeros(sheet.shape, np.float32)
        if lettered:
            for glyph in sheet.glyphs:
                letters[glyph.where] = np.maximum(letters[glyph.where], glyph.cover)
        depth = sheet.depth if lettered else self._without_letters()
        depth = cv2.remap(depth, *self.map, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
        levels = [depth] + [cv2.GaussianBlur(depth, (0, 0), s * mm) for s in (.6, 1.3, 2.6, 5.0)]
        level = np.clip(self.wear * 2.6, 0, 3.999)
        low = level.astype(int)
        part = level - low
        stack = np.stack(levels)
        rr, cc = np.indices(sheet.shape, sparse=True)
        depth = stack[low, rr, cc] * (1 - part) + stack[low + 1, rr, cc] * part
        depth = depth * np.clip(1 - .30 * self.wear, .2, 1)

        moss = np.zeros_like(depth)
        if self.moss_level:
            hollow = np.clip(depth - cv2.GaussianBlur(depth, (0, 0), 7 * mm) - .25, 0, None)
            moss = np.clip(hollow * 1.6 * np.clip(self.moss_noise + self.moss_level * 1.4, 0, 1.5), 0, 1) * self.moss_level
            depth = depth - moss * np.clip(depth, 0, 2) * .45
        gone = np.clip((self.flake - depth) / .4, 0, 1) * (self.flake > 0)
        depth = np.maximum(depth, self.flake) + self.pits
        depth = np.maximum(depth, self.cracks)
        rough = material.grain * (1 + 1.6 * self.wear) * np.clip(.8 + .3 * self.moss_noise, .3, 1.5)
        depth = depth + rough * self.fine + .16 * (1 + stone.age) * material.grain / .2 * self.coarse
        if material.name.endswith("sandstone"):
            depth = depth + .35 * stone.age * np.clip(self.beds, -1.5, 2.5)

        colour = self._colour(gone)
        grown = np.zeros_like(depth)
        dirt = np.clip(depth - cv2.GaussianBlur(depth, (0, 0), 5 * mm), 0, 3) * (.5 if material.specular < .3 else .08) * (.4 + stone.age)
        colour *= np.exp(-np.clip(dirt, 0, .9))[..., None]
        soot = np.clip(.45 * self.streak + .35 * self.patch - .05, 0, 1) * .6 * (.15 + stone.age) * (material.specular < .3)
        colour *= (1 - soot)[..., None]
        green = np.array([.16, .19, .07], np.float32)
        algae = np.clip(self.algae * (.6 + .2 * self.coarse), 0, .8)[..., None]
        colour = colour * (1 - algae) + algae * green * (.5 + colour.mean())
        if lettered and stone.cut in ("lead", "paint", "gilt"):
            tone = {"lead": (.12, .125, .135), "paint": (.018, .018, .02), "gilt": (.62, .42, .12)}[stone.cut]
            stay = np.clip((self.paint_loss + 1.9 - 2.6 * stone.age) * 3, 0, 1) * letters * (1 - gone)
            colour = colour * (1 - stay[..., None]) + stay[..., None] * np.array(tone, np.float32)
        moss_colour = np.array([.07, .105, .025], np.float32) * (1 + .25 * self.fine[..., None])
        colour = colour * (1 - moss[..., None]) + moss[..., None] * moss_colour
        for where, cover, tone, thick in self.growth:
            depth[where] -= cover * thick * (.7 + .3 * np.clip(self.fine[where], -1, 1))
            depth[where] -= cover * np.clip(depth[where], 0, 2) * .3
            grown[where] = np.maximum(grown[where], cover * min(1, thick / .45))
            colour[where] = colour[where] * (1 - cover[..., None] * .92) + tone * cover[..., None] * .92
        colour = colour * (1 - self.lime[..., None] * .93) + self.lime[..., None] * .72
        hollow = depth - cv2.GaussianBlur(depth, (0, 0), 3 * mm)
        colour *= np.clip(1 - .16 * hollow, .55, 1.08)[..., None]
        return Surface(depth, np.clip(colour, .004, .92).astype(np.float32), gone, self.lime * .5, grown)

    def _without_letters(self) -> np.ndarray:
        """The cutter's face before lettering: frame, carving and sunk panel only."""
        sheet = self.sheet
        bare = Sheet(self.stone)
        bare.frame_and_carving()
        if self.stone.cut == "raised":
            bare.depth = np.where((bare.edge > 14) & (bare.ornament == 0), 2.6 * np.clip((bare.edge - 14) / 3, 0, 1), bare.depth)
        assert bare.shape == sheet.shape
        return bare.depth

    def _colour(self, gone: np.ndarray) -> np.ndarray:
        material, stone = self.stone.material, self.stone
        first, second = (np.array(c, np.float32) * self.tint.astype(np.float32) for c in (material.colour, material.second))
        if "granite" in material.name:
            a, b = self.crystals
            dark = np.clip((a - .55) * 6, 0, 1)[..., None]
            pale = np.clip((b - .6) * 6, 0, 1)[..., None] * (1 - dark)
            base = first * (1 - dark) + second * dark
            colour = base * (1 - .6 * pale) + .6 * pale * np.array((.42, .41, .40), np.float32) * (first.max() * 2.4)
        elif material.name == "marble":
            vein = np.exp(-self.veins * 14)[..., None] * .6
            colour = first * (1 - vein) + second * vein
        elif material.name == "cast iron":
            rust = np.clip(self.patch * .5 + self.coarse * .4 - 1.1 + 1.2 * stone.age, 0, 1)[..., None]
            colour = first * (1 - rust) + second * rust
        else:
            bed = np.clip(.5 + .3 * self.beds, 0, 1)[..., None]
            colour = first * (1 - bed) + second * bed
        vary = 1 + material.blotch * (.8 * self.patch + .6 * self.coarse + .35 * self.fine + .5 * self.streak * (.4 + stone.age))
        colour = colour * np.clip(vary, .4, 1.7)[..., None]
        fresh = gone[..., None] * (.35 if material.name != "slate" else .2)
        return (colour * (1 + fresh)).astype(np.float32)


# ------------------------------------------------------------------------------------------------ scenes

def unit(v) -> np.ndarray:
    v = np.asarray(v, float)
    return v / np.linalg.norm(v)


def vec(v) -> str:
    return "<" + ",".join(f"{float(x):.5f}" for x in v) + ">"


@dataclass
class Pose:
    """Where a face is in the world, in metres: y up, z away from the photographer."""
    origin: np.ndarray      # of the face's foot, in the middle
    across: np.ndarray
    up: np.ndarray
    out: np.ndarray

    def points(self, stone: Stone, x: np.ndarray, y: np.ndarray) -> np.ndarray:
        """World points of face points in millimetres from the top left."""
        return (self.origin + ((x - stone.width / 2) / 1000)[..., None] * self.across
                + ((stone.height - y) / 1000)[..., None] * self.up)


@dataclass
class Camera:
    place: np.ndarray
    target: np.ndarray
    angle: float            # horizontal, degrees
    roll: float
    size: tuple[int, int]

    def axes(self) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        ahead = unit(self.target - self.place)
        sky = np.array([math.sin(math.radians(self.roll)), math.cos(math.radians(self.roll)), 0])
        right = unit(np.cross(sky, ahead))
        return right, np.cross(ahead, right), ahead

    def project(self, points: np.ndarray) -> np.ndarray:
        right, up, ahead = self.axes()
        v = points - self.place
        scale = self.size[0] / 2 / math.tan(math.radians(self.angle / 2))
        z = v @ ahead
        return np.stack([self.size[0] / 2 + v @ right / z * scale, self.size[1] / 2 - v @ up / z * scale], -1)

    def sdl(self) -> str:
        right, up, ahead = self.axes()
        return (f"camera {{ perspective location {vec(self.place)} direction {vec(ahead)} "
                f"right {vec(right * self.size[0] / self.size[1])} up {vec(up)} angle {self.angle:.4f} }}\n")


@dataclass
class Light:
    name: str               # raking, frontal, backlit, overcast, dappled, low
    sun: np.ndarray         # towards the sun
    strength: float
    sky: float              # of the whole sky
    lamp: np.ndarray | None = None


DOME = (((.0, 1, .1), .28), ((.8, .55, -.6), .16), ((-.8, .55, -.6), .14), ((0, .4, -1), .18), ((.9, .4, .5), .08),
        ((-.9, .4, .5), .08))       # directions of the sky's light and their shares


def soft_light(light: Light, pose: Pose) -> np.ndarray:
    """Where most of the sky's light comes from without a sun."""
    return unit(light.sun * (1 if light.name == "overcast" else 0) + pose.out * .7 + np.array([.2, 1.0, 0]))


def blades(rng: np.random.Generator, roots: np.ndarray, heights: np.ndarray, width: float) -> str:
    """Bent tapering blades as one mesh2."""
    n = len(roots)
    lean = rng.uniform(0, 2 * math.pi, n)
    bend = heights * rng.uniform(.1, .9, n)
    facing = lean + rng.normal(math.pi / 2, .5, n)
    side = np.stack([np.cos(facing), np.zeros(n), np.sin(facing)], 1)
    toward = np.stack([np.cos(lean), np.zeros(n), np.sin(lean)], 1)
    points = []
    for t, w in ((0, 1), (.4, .9), (.75, .55)):
        spine = roots + toward * (bend * t * t)[:, None] + np.array([0, 1, 0]) * (heights * t * (1 - .25 * t))[:, None]
        half = side * (width * w * rng.uniform(.6, 1.2, n))[:, None]
        points += [spine - half, spine + half]
    points.append(roots + toward * bend[:, None] + np.array([0, .75, 0]) * heights[:, None])
    vertices = np.stack(points, 1).reshape(-1, 3)
    first = (np.arange(n) * 7)[:, None]
    triangles = np.concatenate([first + np.array([t]) for t in ((0, 1, 2), (1, 3, 2), (2, 3, 4), (3, 5, 4), (4, 5, 6))], 1).reshape(-1, 3)
    hue = np.repeat(rng.integers(0, 6, n), 5)
    return mesh(vertices, triangles, hue, "Blade")


def mesh(vertices: np.ndarray, triangles: np.ndarray, hue: np.ndarray, texture: str) -> str:
    textures = ",".join(f"texture {{ {texture}{i} }}" for i in range(6))
    verts = ",".join("<%.4f,%.4f,%.4f>" % tuple(v) for v in vertices)
    faces = ",".join("<%d,%d,%d>,%d" % (a, b, c, h) for (a, b, c), h in zip(triangles, hue))
    return (f"mesh2 {{ vertex_vectors {{ {len(vertices)},{verts} }} texture_list {{ 6,{textures} }} "
            f"face_indices {{ {len(triangles)},{faces} }} }}\n")


def leaf_ball(rng: np.random.Generator, count: int = 1800, size: float = .075) -> str:
    """Leaves in a ball of radius 1."""
    centre = rng.normal(size=(count, 3))
    centre *= (rng.uniform(.25, 1, count) ** .5 / np.linalg.norm(centre, axis=1))[:, None]
    a, b = rng.normal(size=(2, count, 3)) * size * .6
    vertices = np.stack([centre - a, centre + b, centre + a, centre - b], 1).reshape(-1, 3)
    first = (np.arange(count) * 4)[:, None]
    triangles = np.concatenate([first + [[0, 1, 2]], first + [[0, 2, 3]]], 1).reshape(-1, 3)
    return mesh(vertices, triangles, np.repeat(rng.integers(0, 6, count), 2), "Leaf")


class Scene:
    """A stone, what is around it, and the light; writes POV-Ray's language."""

    def __init__(self, stone: Stone, pose: Pose, camera: Camera, light: Light, lying: bool, rng: np.random.Generator):
        self.stone, self.pose, self.camera, self.light, self.lying = stone, pose, camera, light, lying
        self.surroundings = self._surroundings(rng)

    def text(self, which: str, light: Light, shift: Camera | None = None) -> str:
        camera = shift or self.camera
        if which == "mask":
            colours = "#declare Flat = 1;\n"
            lights = ""
        else:
            colours = "#declare Flat = 0;\n"
            lights = self._lights(light)
        return ("#version 3.7;\nglobal_settings { assumed_gamma 1.0 max_trace_level 4 }\n" + colours + camera.sdl() + lights
                + self._palette() + self.surroundings + self._stone(which))

    def _palette(self) -> str:
        rng = np.random.default_rng([self.stone.seed, 7])
        dry = rng.uniform(0, .5)
        out = []
        for i in range(6):
            g = np.array([.105, .158, .05]) * rng.uniform(.55, 1.35) * (1 - dry) + np.array([.30, .25, .10]) * dry * rng.uniform(.4, 1.2)
            leaf = np.array([.05, .10, .025]) * rng.uniform(.5, 1.5)
            for name, c in (("Blade", g), ("Leaf", leaf)):
                out.append(f"#declare {name}{i} = texture {{ pigment {{ rgb #if(Flat) 0 #else {vec(c)} #end }} "
                           f"finish {{ ambient 0 diffuse .75, .35 }} }}\n")
        return "".join(out)

    def _lights(self, light: Light) -> str:
        out = []
        sun = light.sun
        if light.lamp is not None:
            out.append(f"light_source {{ {vec(light.lamp)} rgb {vec(np.array([1, .95, .88]) * light.strength)} "
                       f"fade_distance 1.0 fade_power 2 area_light <.05,0,0>,<0,.05,0>,2,2 adaptive 1 jitter }}\n")
        elif light.strength > 0 and light.name != "overcast":
            warm = np.array([1, .93, .82]) if sun[1] > .3 else np.array([1, .84, .62])
            a = unit(np.cross(sun, [0.1, 1, .05]))
            b = np.cross(a, sun)
            out.append(f"light_source {{ {vec(sun * 100)} rgb {vec(warm * light.strength)} area_light {vec(a * 1.1)},{vec(b * 1.1)},2,2 "
                       f"adaptive 0 jitter }}\n")
        blue = np.array([.86, .95, 1.08]) if light.name != "overcast" else np.array([.97, 1, 1.04])
        if light.name in ("overcast", "backlit"):
            place = soft_light(light, self.pose) * 14
            out.append(f"light_source {{ {vec(place)} rgb {vec(blue * light.sky * 1.0)} area_light <14,0,0>,<0,0,14>,4,4 adaptive 1 jitter }}\n")
        for direction, share in DOME:
            out.append(f"light_source {{ {vec(np.array(direction) * 50)} rgb {vec(blue * light.sky * share)} shadowless }}\n")
        out.append(f"light_source {{ <0,-20,-9> rgb {vec(np.array([.8, .9, .5]) * (light.sky * .10 + light.strength * .04))} shadowless }}\n")
        grey = light.name == "overcast"
        zenith, horizon = ((.62, .66, .72), (.86, .88, .90)) if grey else ((.20, .38, .72), (.68, .78, .90))
        bright = 1.0 if grey else .9
        out.append(f"sky_sphere {{ pigment {{ gradient y color_map {{ [0 rgb #if(Flat) 0 #else {vec(np.array(horizon) * bright)} #end] "
                   f"[.6 rgb #if(Flat) 0 #else {vec(np.array(zenith) * bright)} #end] }} }} "
                   f"pigment {{ bozo turbulence .7 scale .35 color_map {{ [0 rgbt <1,1,1,1>] [.5 rgbt <1,1,1,1>] [.8 rgbt #if(Flat) 1 #else <1,1,1,.2> #end] }} }} }}\n")
        return "".join(out)

    def _stone(self, which: str) -> str:
        stone, pose = self.stone, self.pose
        w, h, t = stone.width / 1000, stone.height / 1000, stone.thickness / 1000
        x, y, z = pose.across * w, pose.out * t, pose.up * h
        origin = pose.origin - pose.across * w / 2 - pose.out * t
        matrix = "matrix <" + ",".join(f"{v:.6f}" for row in (x, y, z, origin) for v in row) + ">"
        name = "bare" if which == "bare" else "full"
        if which == "mask":
            texture = "pigment { rgb 1 } finish { ambient 0 emission 1 diffuse 0 }"
        else:
            m = stone.material
            shine = max(.0, m.specular * (1 - .75 * stone.age))
            texture = (f"pigment {{ image_map {{ png \"{name}_colour.png\" interpolate 2 once }} rotate 90*x }} "
                       f"finish {{ ambient 0 diffuse .82 specular {shine:.3f} roughness {m.gloss + .08 * stone.age:.3f} "
                       + (f"reflection {{ {shine * .08:.3f}, {shine * .35:.3f} fresnel on }} conserve_energy " if "granite" in m.name else "")
                       + "}")
        return (f"height_field {{ png \"{name}_height.png\" water_level .02 texture {{ {texture} }} "
                f"interior {{ ior 1.5 }} {matrix} }}\n")

    def _surroundings(self, rng: np.random.Generator) -> str:
        stone, pose = self.stone, self.pose
        out = ["plane { y, -.004 texture { pigment { bozo scale .08 turbulence .6 color_map { "
               "[0 rgb #if(Flat) 0 #else <.05,.06,.02> #end] [.6 rgb #if(Flat) 0 #else <.10,.13,.035> #end] "
               "[1 rgb #if(Flat) 0 #else <.15,.14,.06> #end] } } normal { granite .4 scale .05 } finish { ambient 0 diffuse .8 } } }\n"]
        tall = float(rng.uniform(.03, .085)) * (.8 if self.lying else 1)
        tile = .6
        for i in range(3):
            n = 1500
            roots = np.stack([rng.uniform(-.3, .3, n), np.zeros(n), rng.uniform(-.3, .3, n)], 1)
            out.append(f"#declare Tuft{i} = " + blades(rng, roots, tall * rng.lognormal(0, .4, n), .0022))
        corners = pose.points(stone, np.array([0, stone.width, 0, stone.width]), np.array([0, 0, stone.height, stone.height]))
        if self.lying:
            foot = (corners[:, 0].min() - .01, corners[:, 0].max() + .01, corners[:, 2].min() - .01, corners[:, 2].max() + .01)
        else:
            foot = (corners[:, 0].min() - .005, corners[:, 0].max() + .005, corners[2:, 2].min() - .02, corners[:, 2].max() + stone.thickness / 1000)
        loose: list[np.ndarray] = []
        for i in range(-5, 6):
            for j in range(-4, 10):
                cx, cz = i * tile + rng.normal(0, .01), j * tile
                if abs(cx) > 1.2 + (cz + 2.4) * .5:
                    continue
                if cx + .36 > foot[0] and cx - .36 < foot[1] and cz + .36 > foot[2] and cz - .36 < foot[3]:
                    n = 1700
                    roots = np.stack([cx + rng.uniform(-.3, .3, n), np.zeros(n), cz + rng.uniform(-.3, .3, n)], 1)
                    inside = (roots[:, 0] > foot[0]) & (roots[:, 0] < foot[1]) & (roots[:, 2] > foot[2]) & (roots[:, 2] < foot[3])
                    loose.append(roots[~inside])
                else:
                    turn = int(rng.integers(4)) * 90
                    out.append(f"object {{ Tuft{int(rng.integers(3))} rotate {turn}*y translate <{cx:.3f},0,{cz:.3f}> }}\n")
        for i in range(-7, 8):
            for j in range(3, 9):
                out.append(f"object {{ Tuft{int(rng.integers(3))} scale <3,1.2,3> rotate {int(rng.integers(4)) * 90}*y translate <{i * 1.75:.2f},0,{j * 1.8:.2f}> }}\n")
        roots = np.concatenate(loose)
        away = np.maximum(np.maximum(foot[0] - roots[:, 0], roots[:, 0] - foot[1]), np.maximum(foot[2] - roots[:, 2], roots[:, 2] - foot[3]))
        growth = 1 + float(rng.uniform(.2, 1.6)) * np.exp(-away / .07) * (.4 if self.lying else 1)
        out.append(blades(rng, roots, tall * growth * rng.lognormal(0, .38, len(roots)), .0024))
        out.append("#declare Ball = " + leaf_ball(rng))
        out.append(self._far(rng))
        if self.lying:
            out.append(self._fallen(rng))
            if pose.out[1] < .95:
                out.append(self._block())
        if self.light.name == "dappled":
            centre = pose.origin + pose.up * stone.height / 2000
            for _ in range(int(rng.integers(9, 15))):
                at = centre + self.light.sun * rng.uniform(3.5, 6) + rng.normal(0, .65, 3)
                if (at - self.camera.place) @ self.camera.axes()[2] < 0 or at[1] > 2.6:
                    out.append(f"object {{ Ball scale {rng.uniform(.25, .55):.3f} rotate {rng.uniform(0, 360):.0f}*y translate {vec(at)} }}\n")
        return "".join(out)

    def _block(self) -> str:
        """The block of stone under a sloping tablet."""
        stone, pose = self.stone, self.pose
        m = 25.0
        top = pose.points(stone, np.array([-m, stone.width + m, stone.width + m, -m]), np.array([-m, -m, stone.height + m, stone.height + m]))
        top = top - pose.out * stone.thickness / 1000 * .8
        low = top * np.array([1, 0, 1]) - np.array([0, .05, 0])
        vertices = ",".join(vec(v) for v in np.concatenate([top, low]))
        quads = [(0, 1, 2, 3)] + [(i, (i + 1) % 4, 4 + (i + 1) % 4, 4 + i) for i in range(4)]
        faces = ",".join(f"<{a},{b},{c}>,<{a},{c},{d}>" for a, b, c, d in quads)
        c = np.array(stone.material.colour) * .9
        return (f"mesh2 {{ vertex_vectors {{ 8,{vertices} }} face_indices {{ 10,{faces} }} texture {{ pigment {{ granite scale .2 color_map {{ "
                f"[0 rgb #if(Flat) 0 #else {vec(c * .7)} #end] [1 rgb #if(Flat) 0 #else {vec(c * 1.2)} #end] }} }} "
                "normal { granite .2 scale .1 } finish { ambient 0 diffuse .8 } } }\n")

    def _far(self, rng: np.random.Generator) -> str:
        out = []
        stony = ("texture {{ pigment {{ granite scale .3 turbulence .2 color_map {{ [0 rgb #if(Flat) 0 #else {a} #end] "
                 "[1 rgb #if(Flat) 0 #else {b} #end] }} }} normal {{ granite .25 scale .2 }} finish {{ ambient 0 diffuse .8 }} }}")
        for _ in range(int(rng.integers(3, 9))):
            z = float(rng.uniform(1.2, 9))
            x = float(rng.choice([-1, 1]) * rng.uniform(.25, 1.0) * (1 + z * .55))
            w, h, t = rng.uniform(.2, .4), rng.uniform(.5, 1.3), rng.uniform(.04, .08)
            base = np.array([.34, .32, .28]) * rng.uniform(.35, 1.5) * rng.normal(1, .05, 3)
            body = f"box {{ <{-w:.3f},-.1,0>,<{w:.3f},{h - w:.3f},{t:.3f}> }}"
            shape = rng.integers(4)
            head = f"cylinder {{ <0,{h - w:.3f},0>,<0,{h - w:.3f},{t:.3f}>,{w:.3f} }}"
            if shape == 0:
                head = f"box {{ <{-w:.3f},0,0>,<{w:.3f},{h:.3f},{t:.3f}> }}"
            elif shape == 1:
                body = f"box {{ <-.07,-.1,0>,<.07,{h:.3f},.12> }} box {{ <-.25,{h * .62:.3f},0>,<.25,{h * .62 + .13:.3f},.12> }}"
                head = "box { <-.35,-.1,-.15>,<.35,.22,.3> }"
            out.append("union { " + body + " " + head + " " + stony.format(a=vec(base * .7), b=vec(base * 1.25))
                       + f" rotate <{rng.normal(0, 3):.2f},{rng.normal(0, 14):.2f},{rng.normal(0, 3.5):.2f}> translate <{x:.2f},0,{z:.2f}> }}\n")
        if rng.random() < .4:
            z = float(rng.uniform(6, 13))
            a, b = np.array([.36, .32, .26]) * rng.uniform(.6, 1.1), np.array([.24, .22, .19])
            out.append(f"box {{ <-30,-.1,{z:.2f}>,<30,{rng.uniform(1.3, 7):.2f},{z + .6:.2f}> texture {{ pigment {{ brick "
                       f"pigment {{ rgb #if(Flat) 0 #else {vec(b)} #end }} pigment {{ granite scale .8 color_map {{ "
                       f"[0 rgb #if(Flat) 0 #else {vec(a * .6)} #end] [1 rgb #if(Flat) 0 #else {vec(a * 1.2)} #end] }} }} "
                       "brick_size <.55,.24,.4> mortar .015 turbulence .02 } normal { granite .3 } finish { ambient 0 diffuse .8 } } "
                       f"rotate {rng.normal(0, 9):.1f}*y }}\n")
        for _ in range(int(rng.integers(4, 11))):
            x, z, high = rng.uniform(-12, 12), rng.uniform(9, 20), rng.uniform(2, 7)
            out.append(f"cylinder {{ <{x:.2f},0,{z:.2f}>,<{x:.2f},{high:.2f},{z:.2f}>,.18 texture {{ pigment {{ rgb #if(Flat) 0 #else <.06,.05,.035> #end }} finish {{ ambient 0 }} }} }}\n")
            for _ in range(int(high * 3)):
                s = rng.uniform(.8, 1.7)
                out.append(f"object {{ Ball scale {s:.2f} rotate <{rng.uniform(0, 360):.0f},{rng.uniform(0, 360):.0f},0> "
                           f"translate <{x + rng.normal(0, 1.3):.2f},{high * rng.uniform(.3, 1.1):.2f},{z + rng.normal(0, 1):.2f}> }}\n")
        for i in range(22):
            out.append(f"object {{ Ball scale <1.4,1.1,1> rotate {i * 50}*y translate <{-16 + i * 1.5:.2f},{rng.uniform(.3, 1.3):.2f},{rng.uniform(17, 21):.2f}> }}\n")
        return "".join(out)

    def _fallen(self, rng: np.random.Generator) -> str:
        """Fallen leaves on a lying stone."""
        out = []
        for _ in range(int(rng.poisson(5))):
            p = self.pose.points(self.stone, np.array([rng.uniform(0, self.stone.width)]), np.array([rng.uniform(0, self.stone.height)]))[0]
            p = p + self.pose.out * .004
            a = unit(self.pose.across * rng.normal() + self.pose.up * rng.normal())
            b = np.cross(a, self.pose.out)
            s = rng.uniform(.012, .028)
            c = np.array([.22, .13, .04]) * rng.uniform(.5, 1.4)
            q = [p - a * s, p + b * s * .5 + self.pose.out * .006, p + a * s, p - b * s * .5]
            out.append(f"union {{ triangle {{ {vec(q[0])},{vec(q[1])},{vec(q[2])} }} triangle {{ {vec(q[0])},{vec(q[2])},{vec(q[3])} }} "
                       f"texture {{ pigment {{ rgb #if(Flat) 0 #else {vec(c)} #end }} finish {{ ambient 0 diffuse .7 }} }} }}\n")
        return "".join(out)


def write_surface(folder: Path, name: str, sheet: Sheet, surface: Surface) -> None:
    """Height and colour for POV-Ray; the outline is what lies above the water level."""
    stone = sheet.stone
    arris = 2.5 + 5 * stone.age * min(1, stone.material.diffusion)
    fall = np.clip(1 - sheet.edge / arris, 0, 1) ** 2 * arris * .6
    height = 1 - (surface.depth + fall + 6) / stone.thickness
    soft = cv2.GaussianBlur(sheet.inside.astype(np.float32), (0, 0), 1.3)
    height = np.clip(height, .03, 1) * np.where(soft > .98, 1, soft)
    cv2.imwrite(str(folder / f"{name}_height.png"), np.round(height * 65535).astype(np.uint16))
    c = surface.colour
    arris_zone = np.clip(1.6 - sheet.edge / 2, 0, 1)[..., None]
    c = c * (1 - arris_zone) + cv2.GaussianBlur(c, (0, 0), 5 / sheet.pitch) * arris_zone
    srgb = np.where(c < .0031308, c * 12.92, 1.055 * c ** (1 / 2.4) - .055)
    cv2.imwrite(str(folder / f"{name}_colour.png"), np.round(srgb[..., ::-1] * 255).astype(np.uint8))


def trace(folder: Path, text: str, name: str, size: tuple[int, int]) -> np.ndarray:
    """Runs POV-Ray; linear colours, blue green red. One ray a pixel: the lens blurs afterwards."""

    (folder / f"{name}.pov").write_text(text)
    command = ["povray", f"+I{name}.pov", f"+O{name}.png", f"+W{size[0]}", f"+H{size[1]}", "+FN16", "+WT1",
               "-D", "-GA", "-A", "File_Gamma=1.0"]
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True)
    if done.returncode:
        raise RuntimeError(done.stderr[-3000:])
    image = cv2.imread(str(folder / f"{name}.png"), cv2.IMREAD_UNCHANGED)
    return image[..., :3].astype(np.float32) / 65535


# ------------------------------------------------------------------------------------------------ camera

@dataclass
class Taking:
    """How one picture is exposed and kept."""
    exposure: float
    blur: float
    noise: float
    contrast: float
    white: np.ndarray
    quality: int
    seed: int


def taking(rng: np.random.Generator) -> Taking:
    return Taking(float(rng.normal(0, .28)), float(abs(rng.normal(0, .45)) + .45), float(rng.uniform(.004, .02)),
                  float(rng.uniform(.85, 1.25)), np.array([rng.normal(1, .04), 1, rng.normal(1, .03)]), int(rng.integers(75, 93)),
                  int(rng.integers(1 << 30)))


def develop(linear: np.ndarray, stone_mask: np.ndarray, how: Taking, far_blur: float) -> np.ndarray:
    """A photograph from linear light."""
    rng = np.random.default_rng(how.seed)
    rows, columns = linear.shape[:2]
    mask = cv2.resize(stone_mask, (columns, rows))
    if far_blur > 0:
        near = np.clip(cv2.GaussianBlur(cv2.dilate(mask, np.ones((25, 25))), (0, 0), 8), 0, 1)
        line = np.nonzero(mask.max(1) > .5)[0]
        bottom = line[-1] if len(line) else rows
        ramp = np.clip((np.arange(rows) - bottom + rows * .14) / (rows * .1), 0, 1)[:, None]
        near = np.maximum(near, ramp.astype(np.float32))[..., None]
        linear = linear * near + cv2.GaussianBlur(linear, (0, 0), far_blur) * (1 - near)
    luminance = linear @ np.array([.07, .72, .21], np.float32)
    chosen = luminance[mask > .6]
    level = np.median(chosen) * .8 + luminance.mean() * .2 if len(chosen) else luminance.mean()
    aim = .25 + .5 * min(.4, max(0.0, float(level)))
    x = linear * (aim / max(level, 1e-4)) * 2 ** how.exposure * how.white[None, None, :]
    yy, xx = np.mgrid[-1:1:rows * 1j, -1:1:columns * 1j]
    x = x * (1 - .10 * (xx ** 2 + yy ** 2))[..., None]
    x = cv2.GaussianBlur(x.astype(np.float32), (0, 0), how.blur)
    x = x + rng.normal(0, 1, x.shape) * how.noise * np.sqrt(np.clip(x, .01, 1)) * .6
    x = np.clip(x, 0, None)
    x = 1 - np.exp(-1.35 * x)
    y = np.clip(x, 0, 1) ** (1 / 2.2)
    y = np.clip(.5 + (y - .5) * how.contrast, 0, 1)
    y = y + .35 * (y - cv2.GaussianBlur(y.astype(np.float32), (0, 0), 1.4))
    return np.round(np.clip(y, 0, 1) * 255).astype(np.uint8)


# ------------------------------------------------------------------------------------------------- truth

@dataclass
class Seen:
    """How one letter shows in one picture."""
    show: float
    hidden: float


def shade(surface: Surface, sheet: Sheet, pose: Pose, light: Light) -> tuple[np.ndarray, np.ndarray]:
    """Brightness of a face by sky and by sun or lamp, without cast shadows."""
    down, along = np.gradient(surface.depth, sheet.pitch)
    length = np.sqrt(1 + along ** 2 + down ** 2)

    def facing(direction: np.ndarray) -> np.ndarray:
        d = unit(direction)
        return np.clip((d @ pose.across * along - d @ pose.up * down + d @ pose.out) / length, 0, None)

    albedo = surface.colour @ np.array([.07, .72, .21], np.float32)[::-1]
    sky = sum(share * facing(np.array(direction)) for direction, share in DOME)
    if light.name in ("overcast", "backlit"):
        middle = soft_light(light, pose) * 14
        sky = sky + sum(facing(middle + np.array(aside)) for aside in ((0, 0, 0), (5, 0, 0), (-5, 0, 0), (0, 0, 5), (0, 0, -5))) / 5
    centre = pose.origin + pose.up * sheet.stone.height / 2000
    toward = unit(light.sun if light.lamp is None else light.lamp - centre)
    sun = facing(toward) * light.strength * (toward @ pose.out > .02)
    return albedo * sky * light.sky, albedo * sun


def look(sheet: Sheet, surface: Surface, blank: Surface, pose: Pose, camera: Camera, light: Light, bare: np.ndarray,
         mask: np.ndarray) -> tuple[list[Seen], float]:
    """How each letter shows; also pixels per millimetre in the picture.

    The contrast of letters is reckoned from the faces with and without them under the picture's light, as much of it as
    reaches each place of the rendered bare stone; what they must stand out from is measured on that render.
    """
    stone = sheet.stone
    rows, columns = sheet.shape
    x = np.array([0, stone.width, stone.width, 0])
    y = np.array([0, 0, stone.height, stone.height])
    half = bare.shape[1] / camera.size[0]
    target = camera.project(pose.points(stone, x, y)) * half
    source = np.array([[0, 0], [columns, 0], [columns, rows], [0, rows]], np.float32)
    back = cv2.getPerspectiveTransform(source, target.astype(np.float32))

    def flat(image: np.ndarray) -> np.ndarray:
        return cv2.warpPerspective(image, back, (columns, rows), flags=cv2.INTER_LINEAR | cv2.WARP_INVERSE_MAP)

    weights = np.array([.07, .72, .21], np.float32)
    floor = .02 * float(np.median((bare @ weights)[mask > .5])) + 1e-4 if (mask > .5).any() else 1e-3
    rendered = flat(bare @ weights)
    plain = np.log(rendered + floor)
    wide = 10 / sheet.pitch
    sky, sun = shade(blank, sheet, pose, light)
    even = [cv2.GaussianBlur(i, (0, 0), wide) for i in (rendered, sky, sun)]
    reach = np.clip((even[0] - even[1] * .82) / (even[2] * .82 + 1e-3), 0, 3)
    cut_sky, cut_sun = shade(surface, sheet, pose, light)
    difference = np.log(cut_sky + reach * cut_sun + floor) - np.log(sky + reach * sun + floor)
    visible = flat(mask)
    a = camera.project(pose.points(stone, x[:1] + stone.width / 2, y[:1] + stone.height / 2 - 5))[0]
    b = camera.project(pose.points(stone, x[:1] + stone.width / 2, y[:1] + stone.height / 2 + 5))[0]
    scale = float(np.hypot(*(a - b))) / 10
    out = []
    for glyph in sheet.glyphs:
        capital = sheet.capitals[glyph.line] / sheet.pitch
        where = glyph.where
        rim = max(1.0, capital * .05)
        weight = np.clip(cv2.GaussianBlur(glyph.cover, (0, 0), rim) * 1.5, 0, 1)
        total = weight.sum() + 1e-6
        fine = max(.8, .8 / scale / sheet.pitch, capital * .045)
        change = cv2.GaussianBlur(difference[where], (0, 0), fine)
        grow = int(capital * .4)
        around = (slice(max(0, where[0].start - grow), where[0].stop + grow), slice(max(0, where[1].start - grow), where[1].stop + grow))
        stoneness = cv2.GaussianBlur(plain[around], (0, 0), fine)
        stoneness = stoneness - cv2.GaussianBlur(stoneness, (0, 0), capital * .35)
        seen = visible[around] > .5
        clutter = float(np.std(stoneness[seen])) if seen.sum() > 20 else 1.0
        signal = math.sqrt(float((change ** 2 * weight).sum() / total))
        hidden = 1 - float((visible[where] * glyph.cover).sum() / (glyph.cover.sum() + 1e-6))
        out.append(Seen(signal / math.hypot(clutter, CLUTTER_FLOOR), hidden))
    return out, scale


def reading(sheet: Sheet, surface: Surface, shows: list[float], hidden: list[float], scale: float) -> tuple[dict[int, str], dict[int, str]]:
    """Leiden text and legibility of each line, from the letters of one view (or the best of several)."""
    stone = sheet.stone
    lost: dict[tuple[int, int], str] = {}
    lines: dict[int, list[float]] = {}
    eased = np.convolve(np.pad(shows, 1, mode="edge"), (.2, .6, .2), "valid") if shows else []
    for glyph, show, hid in zip(sheet.glyphs, eased, hidden):
        area = glyph.cover.sum() + 1e-6
        away = float((np.maximum(surface.gone, surface.limed)[glyph.where] * glyph.cover).sum() / area)
        away = 1 - (1 - away) * (1 - hid)
        crust = float((surface.grown[glyph.where] * glyph.cover).sum() / area)
        pixels = sheet.capitals[glyph.line] * scale
        small = min(1.0, (pixels / WORN_PIXELS) ** .5)
        show = show * small
        show *= ((1 - crust) * (1 - hid)) ** CRUST
        lines.setdefault(glyph.line, []).append(show)
        if away > LOST_SHARE and show < SHOW_UNCLEAR:
            state = "lost"
        elif show < SHOW_TRACES:
            state = "traces"
        elif show < SHOW_UNCLEAR or away > HURT_SHARE:
            state = "unclear"
        else:
            state = "clear"
        lost[(glyph.line, glyph.index)] = state
    texts, legibility = {}, {}
    for number, line in enumerate(stone.lines):
        out: list[str] = []
        states = [lost.get((number, i), "space" if c == " " else "lost") for i, c in enumerate(line.plain)]
        for i, c in enumerate(line.plain):
            state = states[i]
            if c == " ":
                beside = [s for s in (states[i - 1] if i else "lost", states[i + 1] if i + 1 < len(states) else "lost")]
                state = "lost" if all(s == "lost" for s in beside) else "space"
            if state == "lost":
                out.append("[.]")
            elif state == "traces" and c.isalnum():
                out.append("+")
            elif state == "unclear" and c.isalnum():
                out.append(c + DOT)
            else:
                out.append(c)
        texts[number] = "".join(out).replace("][", "")
        values = lines.get(number, [0.0])
        bad = sum(s in ("lost", "traces") for s in states) / max(1, sum(s != "space" for s in states))
        doubtful = sum(s != "clear" for s in states if s != "space") / max(1, sum(s != "space" for s in states))
        pixels = sheet.capitals.get(number, 0) * scale
        middle = float(np.median(values))
        if bad >= .5 or middle < LINE_POOR or pixels < POOR_PIXELS:
            legibility[number] = "poor"
        elif bad > .12 or doubtful > .3 or middle < LINE_WORN or pixels < WORN_PIXELS:
            legibility[number] = "worn"
        else:
            legibility[number] = "legible"
    return texts, legibility


# -------------------------------------------------------------------------------------------------- sets

AGES = {"light": .18, "moderate": .42, "heavy": .68, "ruinous": .95}
HABITS = {  # year range, writer's method, materials, cuts, width, height over width, outlines, carvings
    "early": ((1655, 1745), ("slate", "grey sandstone", "red sandstone", "limestone"), ("V", "V", "U"), (430, 640), (1.0, 1.35),
              ("shoulders", "round", "flat", "segment"), ("head", "", "flower", "")),
    "georgian": ((1750, 1835), ("slate", "grey sandstone", "limestone", "red sandstone", "marble"), ("V",), (560, 860), (1.15, 1.5),
                 ("shoulders", "ogee", "segment", "flat"), ("urn", "willow", "", "")),
    "victorian": ((1838, 1901), ("marble", "grey sandstone", "red sandstone", "limestone", "grey granite", "red granite", "zinc", "slate"),
                  ("V", "V", "lead", "raised", "paint"), (560, 820), (1.2, 1.6), ("gothic", "round", "flat", "shoulders"), ("cross", "hand", "flower", "", "")),
    "later": ((1902, 1958), ("marble", "grey granite", "red granite", "black granite", "limestone"), ("V", "lead", "gilt", "U", "paint"),
              (520, 760), (.8, 1.15), ("segment", "flat", "ogee", "flat"), ("", "", "cross", "flower")),
    "soldier": ((1915, 1946), ("limestone", "grey granite"), ("V", "U"), (380, 410), (1.5, 1.7), ("segment",), ("cross",)),
    "roll": ((1899, 1940), ("limestone", "grey granite", "grey sandstone", "marble"), ("V", "U", "lead"), (700, 900), (.95, 1.15), ("flat", "segment"), ("",)),
    "footstone": ((1690, 1890), ("slate", "red sandstone", "limestone", "marble", "grey sandstone"), ("V", "U"), (240, 330), (.9, 1.2), ("round", "flat", "segment"), ("",)),
    "plate": ((1850, 1925), ("cast iron", "zinc"), ("raised",), (380, 520), (.9, 1.2), ("flat", "segment", "round"), ("", "cross")),
    "tablet": ((1880, 1956), ("marble", "grey granite", "slate", "limestone"), ("V", "lead", "U", "raised"), (420, 620), (.55, .75), ("flat",), ("",)),
}


def faces_of(year: int, rng: np.random.Generator) -> dict[str, tuple[str, str]]:
    """The typefaces of one cutter."""
    def some(kind: str, among: tuple[str, ...] = ()) -> tuple[str, str]:
        names = [n for n in FACES[kind] if (not among or n in among) and typeface(kind, n)]
        if not names:
            return "roman", "garamond"
        return kind, names[int(rng.integers(len(names)))]
    old = ("garamond", "elstob", "junicode", "essays", "caslon", "bookletter")
    modern = ("didot", "baskervald", "artemisia", "charis", "cmu", "arapey", "caslon", "prociono")
    if year < 1745:
        body = name = some("roman", old)
    elif year < 1838:
        body = some("roman", old if rng.random() < .4 else modern)
        name = body if rng.random() < .6 else some("capitals")
    else:
        body = some(str(rng.choice(["roman", "sans", "capitals", "slab"], p=[.42, .26, .16, .16])))
        name = some(str(rng.choice(["roman", "slab", "sans", "capitals"], p=[.3, .28, .2, .22]))) if rng.random() < .55 else body
    return {"body": body, "name": name, "italic": some("italic"), "black": some("black"), "script": some("script")}


def invent(habit: str, name: str, weathering: str, rng: np.random.Generator, lying: bool) -> Stone:
    years, materials, cuts, width, ratio, outlines, carvings = HABITS[habit]
    year = int(rng.integers(*years))
    writer = Writer(rng)
    lines = getattr(writer, "tablet" if habit == "plate" and rng.random() < .5 else "later" if habit == "plate" else habit)(year)
    material = MATERIALS[str(rng.choice(materials))]
    cut = str(rng.choice(cuts))
    if material.name == "black granite":
        cut = "gilt"
    if "granite" not in material.name and cut == "gilt":
        cut = "paint"
    if "sandstone" in material.name and cut == "lead":
        cut = "V"
    if material.name == "zinc":
        cut = "raised"
    w = float(rng.uniform(*width))
    h = w * float(rng.uniform(*ratio))
    outline = str(rng.choice(outlines))
    if lying and habit != "tablet":
        outline, w = "flat", w * 1.1
        h = w * float(rng.uniform(1.25, 1.7))
    faces = faces_of(year, rng)
    if habit == "early" and lines[1].text.isupper():
        faces["body"] = faces["name"] = ("capitals", "strokes") if rng.random() < .6 else faces["body"]
    age = AGES[weathering] * float(rng.uniform(.85, 1.1))
    return Stone(name, material, w, h, float(rng.uniform(60, 110)), outline, lines, faces, cut, weathering, min(1.0, age),
                 str(rng.choice(carvings)), bool(rng.random() < .3), str(rng.choice(["centre"] * 6 + ["left", "justified"])),
                 float({"early": 1.6, "georgian": .8, "footstone": 1.4}.get(habit, .25) * rng.uniform(.5, 1.3)), int(rng.integers(1 << 30)))


def stand(stone: Stone, rng: np.random.Generator, tilt: float, raise_: float) -> Pose:
    """`tilt` leans the face back: 0 upright, 90 lying."""
    t, lean, yaw = math.radians(tilt), math.radians(rng.normal(0, 1.6 if tilt < 45 else .5)), math.radians(rng.normal(0, 3))
    across, up, out = np.array([1.0, 0, 0]), np.array([0, math.cos(t), math.sin(t)]), np.array([0, math.sin(t), -math.cos(t)])
    roll = np.array([[math.cos(lean), -math.sin(lean), 0], [math.sin(lean), math.cos(lean), 0], [0, 0, 1]])
    turn = np.array([[math.cos(yaw), 0, math.sin(yaw)], [0, 1, 0], [-math.sin(yaw), 0, math.cos(yaw)]])
    across, up, out = (turn @ roll @ v for v in (across, up, out))
    origin = np.array([0, raise_, 0]) - up * (stone.height / 2000 if tilt > 60 else 0)
    return Pose(origin, across, up, out)


def stand_before(stone: Stone, pose: Pose, rng: np.random.Generator, size: tuple[int, int], above: bool) -> Camera:
    """A standing person's camera, so that the face fills most of the picture."""
    centre = pose.origin + pose.up * stone.height / 2000
    big = max(stone.width, stone.height) / 1000
    if above:
        rise = math.radians(rng.uniform(40, 65))
        side = math.radians(rng.normal(0, 9))
        away = big * rng.uniform(1.2, 1.7) + .35
        place = centre + away * np.array([math.sin(side) * math.cos(rise), math.sin(rise), -math.cos(side) * math.cos(rise)])
    else:
        side = math.radians(rng.normal(0, 9) if rng.random() < .7 else rng.choice([-1, 1]) * rng.uniform(18, 34))
        away = float(np.clip(big * rng.uniform(1.5, 2.6), .9, 3))
        place = centre + away * np.array([math.sin(side), 0, -math.cos(side)])
        place[1] = max(centre[1] + .05, min(rng.uniform(.6, 1.6), centre[1] + away * .5))
    camera = Camera(place, centre, 50, float(rng.normal(0, 1.3)), size)
    corners = pose.points(stone, np.array([0, stone.width, 0, stone.width]), np.array([0, 0, stone.height, stone.height]))
    fill = float(rng.uniform(.78, .95))
    for _ in range(3):
        p = camera.project(corners)
        middle = (p.min(0) + p.max(0)) / 2 - np.array(size) / 2
        right, up, _ = camera.axes()
        distance = np.linalg.norm(camera.target - camera.place)
        f = size[0] / 2 / math.tan(math.radians(camera.angle / 2))
        camera.target = camera.target + (right * middle[0] - up * middle[1]) * distance / f
        extent = np.max((p.max(0) - p.min(0)) / np.array(size))
        camera.angle = math.degrees(2 * math.atan(math.tan(math.radians(camera.angle / 2)) * extent / fill))
    right, up, _ = camera.axes()
    camera.target = camera.target + (right * rng.normal(0, .012) + up * rng.normal(0, .012)) * big
    return camera


def light_for(name: str, rng: np.random.Generator, lying: bool) -> Light:
    side = float(rng.choice([-1, 1]))
    azimuth, elevation = {"raking": ((70, 83), (22, 50)), "frontal": ((0, 35), (22, 45)), "backlit": ((110, 150), (28, 45)),
                          "overcast": ((0, 90), (55, 75)), "dappled": ((25, 60), (38, 58)), "low": ((50, 72), (8, 15))}[name]
    if lying:
        elevation = {"raking": (10, 24), "low": (9, 14), "frontal": (45, 60)}.get(name, elevation)
        azimuth = (-60, 170) if name != "backlit" else (130, 175)
    a, e = math.radians(side * rng.uniform(*azimuth)), math.radians(rng.uniform(*elevation))
    sun = np.array([math.sin(a) * math.cos(e), math.sin(e), -math.cos(a) * math.cos(e)])
    strength, sky = {"raking": (1.3, .5), "frontal": (1.1, .5), "backlit": (1.2, .7), "overcast": (0, .85), "dappled": (1.35, .5), "low": (1.1, .4)}[name]
    return Light(name, sun, strength, sky * float(rng.uniform(.8, 1.2)))


class Output:
    """The pictures' folder and its two tables."""

    def __init__(self, folder: Path):
        self.folder = folder
        folder.mkdir(parents=True, exist_ok=True)
        (folder / "truth.tsv").write_text("file\tmarker\tface\tline\ttext\tas_cut\tlegibility\tmaterial\tweathering\tlight\n", encoding="utf-8")
        (folder / "manifest.csv").write_text("file,marker,face\n", encoding="utf-8")

    def add(self, file: str, stone: Stone, light: str, texts: dict[int, str], legibility: dict[int, str]) -> None:
        rows = [f"{file}\t{stone.name}\tE\t{i + 1}\t{texts[i]}\t{line.plain}\t{legibility[i]}\t{stone.material.name}\t{stone.weathering}\t{light}\n"
                for i, line in enumerate(stone.lines)]
        with open(self.folder / "truth.tsv", "a", encoding="utf-8") as out:
            out.writelines(rows)
        with open(self.folder / "manifest.csv", "a", encoding="utf-8") as out:
            out.write(f"{file},{stone.name},E\n")


def single(output: Output, number: int, kind: str, seed: int) -> None:
    """One stone, one picture."""
    rng = np.random.default_rng([seed, number, {"usual": 0, "above": 1}[kind]])
    lying = kind == "above"
    if lying:
        habit = ("georgian", "tablet", "early", "later", "victorian", "tablet")[number % 6]
        lights = ("raking", "overcast", "low", "dappled", "frontal")
    else:
        habit = ("georgian", "victorian", "early", "later", "victorian", "soldier", "early", "footstone", "later", "georgian", "plate", "victorian",
                 "roll")[number % 13]
        lights = ("raking", "overcast", "raking", "frontal", "dappled", "low", "backlit")
    weathering = str(rng.choice(list(AGES), p=[.25, .34, .28, .13]))
    stone = invent(habit, f"{'S' if lying else 'P'}{number + 1:02d}", weathering, rng, lying)
    tilt = 0.0 if not lying else float(rng.uniform(30, 60)) if habit == "tablet" and rng.random() < .5 else 90.0
    lift = float(rng.uniform(.02, .12)) if lying else -.03
    pose = stand(stone, rng, tilt, lift)
    if lying and tilt < 60:
        pose.origin = pose.origin + np.array([0, .25, 0])
    size = (1080, 1440) if stone.height > stone.width * (.95 if not lying else .8) else (1440, 1080)
    light = light_for(lights[number % len(lights)], rng, lying)
    camera = stand_before(stone, pose, rng, size, lying)
    scene = Scene(stone, pose, camera, light, lying, rng)
    with tempfile.TemporaryDirectory(prefix="stones") as temporary:
        folder = Path(temporary)
        sheet, surface, blank = carve(folder, stone)
        half = (size[0] // 2, size[1] // 2)
        mask = (trace(folder, scene.text("mask", light), "mask", half)[..., 1] > .5).astype(np.float32)
        bare = trace(folder, scene.text("bare", light), "bare", half)
        full = trace(folder, scene.text("full", light), "full", size)
    seen, scale = look(sheet, surface, blank, pose, camera, light, bare, mask)
    texts, legibility = reading(sheet, surface, [s.show for s in seen], [s.hidden for s in seen], scale)
    how = taking(rng)
    picture = develop(full, mask, how, float(rng.uniform(0, 4)))
    file = f"{stone.name}.jpg"
    cv2.imwrite(str(output.folder / file), picture, [cv2.IMWRITE_JPEG_QUALITY, how.quality])
    output.add(file, stone, light.name, texts, legibility)


def carve(folder: Path, stone: Stone) -> tuple[Sheet, Surface, Surface]:
    """Cuts and ages the stone, with letters and without, and writes both for POV-Ray."""
    sheet = Sheet(stone)
    sheet.letter_all()
    ageing = Ageing(sheet)
    surface, blank = ageing.apply(True), ageing.apply(False)
    write_surface(folder, "full", sheet, surface)
    write_surface(folder, "bare", sheet, blank)
    return sheet, surface, blank


def light_set(output: Output, number: int, seed: int, count: int) -> None:
    """One worn stone under several raking lights from one place."""
    rng = np.random.default_rng([seed, number, 2])
    habit = ("early", "georgian", "victorian", "soldier", "footstone", "later")[number % 6]
    weathering = "ruinous" if rng.random() < .7 else "heavy"
    stone = invent(habit, f"L{number + 1:02d}", weathering, rng, False)
    if stone.material.specular > .3:
        stone.material = MATERIALS[str(rng.choice(["marble", "limestone", "grey sandstone", "slate"]))]
    if stone.cut in ("gilt", "lead", "paint"):
        stone.cut = "V"
    pose = stand(stone, rng, 0, -.03)
    size = (900, 1200)
    camera = stand_before(stone, pose, rng, size, False)
    first = light_for("raking", rng, False)
    scene = Scene(stone, pose, camera, first, False, rng)
    centre = pose.origin + pose.up * stone.height / 2000
    lamps = bool(rng.random() < .5)
    around = [0, 180, 90, 270] if rng.random() < .5 else [35, 145, 215, 325]
    around = (around + list(rng.uniform(0, 360, 8)))[:count]
    views = []
    with tempfile.TemporaryDirectory(prefix="stones") as temporary:
        folder = Path(temporary)
        sheet, surface, blank = carve(folder, stone)
        half = (size[0] // 2, size[1] // 2)
        mask = (trace(folder, scene.text("mask", first), "mask", half)[..., 1] > .5).astype(np.float32)
        for angle in around:
            rise = math.radians(rng.uniform(7, 17))
            a = math.radians(angle + rng.normal(0, 6))
            toward = unit((pose.across * math.cos(a) + pose.up * math.sin(a)) * math.cos(rise) + pose.out * math.sin(rise))
            if lamps or toward[1] < .12:
                reach = 1.1 + stone.height / 1000
                light = Light("raking", toward, 5.5, .16, centre + toward * reach)
                light.lamp[1] = max(.06, light.lamp[1])
            else:
                light = Light("raking", toward, 1.3, .35)
            shifted = Camera(camera.place, camera.target, camera.angle, camera.roll + float(rng.uniform(-.2, .2)), size)
            right, up, _ = camera.axes()
            per_pixel = 2 * math.tan(math.radians(camera.angle / 2)) / size[0] * np.linalg.norm(camera.target - camera.place)
            shifted.target = camera.target + (right * rng.uniform(-2.8, 2.8) + up * rng.uniform(-2.8, 2.8)) * per_pixel
            bare = trace(folder, scene.text("bare", light, shifted), "bare", half)
            full = trace(folder, scene.text("full", light, shifted), "full", size)
            seen, scale = look(sheet, surface, blank, pose, shifted, light, bare, mask)
            how = taking(rng)
            how.blur = min(how.blur, .8)
            views.append((develop(full, mask, how, 0), how, seen, scale))
    best = [max(v[2][i].show for v in views) for i in range(len(sheet.glyphs))]
    hidden = [min(v[2][i].hidden for v in views) for i in range(len(sheet.glyphs))]
    texts, _ = reading(sheet, surface, best, hidden, views[0][3])
    for i, (picture, how, seen, scale) in enumerate(views):
        _, legibility = reading(sheet, surface, [s.show for s in seen], hidden, scale)
        file = f"{stone.name}-{i + 1}.jpg"
        cv2.imwrite(str(output.folder / file), picture, [cv2.IMWRITE_JPEG_QUALITY, how.quality])
        output.add(file, stone, "raking", texts, legibility)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--out", type=Path, required=True)
    parser.add_argument("--count", type=int, default=24)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--kind", choices=("usual", "above", "sets"), default="usual")
    parser.add_argument("--lights", type=int, default=4, help="pictures of each stone, for sets")
    parser.add_argument("--only", type=int, help="no stone but this one, from 1: every 13th is a roll")
    given = parser.parse_args()
    cv2.setNumThreads(1)
    output = Output(given.out)
    for number in range(given.count) if given.only is None else (given.only - 1,):
        if given.kind == "sets":
            light_set(output, number, given.seed, given.lights)
        else:
            single(output, number, given.kind, given.seed)
        print(f"{number + 1} of {given.count}", flush=True)


if __name__ == "__main__":
    main()
