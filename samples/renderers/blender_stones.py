"""Photograph-like pictures of invented gravestones, with a truth table, rendered by Blender's Cycles.

Run it inside Blender:

    blender -b --python blender_stones.py -- --out DIR --count N --seed S --kind usual|above|sets [--lights 4]

A stone is a height field in millimetres: letters are cut from outlines of typefaces by a chisel's section, then time works
on them (rounding, recession, flaking, growth). The field becomes a mesh of about one vertex to a pixel, with an image of its
colours. Grass, leaves, neighbours, sky and sun are added and the whole is rendered; a simple camera follows (exposure, lens,
noise, JPEG).

What the truth says of a letter is worked out from the same fields and the finished picture: the face is shaded once with its
letters and once without, the picture is laid on the face's grid, and a letter is clear, unclear or a trace by how much of what
is seen round it the difference explains, beyond chance; it is lost where a flake took its surface or where something covers
it. The same --seed gives the same scenes (--samples changes only the noise); every picture has its own random numbers, so
--first and --count may cut a run into parts. Weak: the states of letters on speckled granite with half their paint gone.
"""
from __future__ import annotations

import argparse
import csv
import math
import os
import sys
import tempfile
from dataclasses import dataclass, field
from pathlib import Path

import bpy
import cv2
import numpy as np
from mathutils import Euler, Matrix, Vector
from PIL import Image, ImageDraw, ImageFont

cv2.setNumThreads(1)

Rng = np.random.Generator
Array = np.ndarray

# ---------------------------------------------------------------- typefaces

FONT_FOLDERS = (Path("/usr/share/fonts"), Path("/usr/share/texmf/fonts"))
FACES: dict[str, tuple[str, ...]] = {
    "old": ("Essays1743.ttf", "Essays1743-Bold.ttf", "EBGaramond12-Regular.otf", "GoudyBookletter1911.otf",
            "JunicodeTwoBeta-Medium.otf", "JunicodeTwoBeta-Bold.otf", "MuseumFourteen.otf", "ElstobD-10ptMedium.otf"),
    "text": ("GFSDidotBold.otf", "BaskervaldADFStd-Bold.otf", "CharisSIL-Regular.ttf", "PTF75F.ttf", "GFSArtemisia.otf",
             "cmunbx.ttf", "STIXGeneral-Bold.otf", "lmroman10-bold.otf", "LiberationSerif-Bold.ttf", "Prociono.otf"),
    "capitals": ("Quattrocento-Regular.otf", "JunicodeTwoBeta-Bold.otf", "GFSDidotBold.otf", "BaskervaldADFStd-Heavy.otf",
                 "CharisSIL-Bold.ttf", "NotoSerifDisplay-Bold.ttf", "Arapey-Regular.otf"),
    "slab": ("RobotoSlab-Bold.otf", "MekanusADFStd-Bold.otf", "lmromandemi10-regular.otf", "cmunbx.ttf"),
    "sans": ("Cabin-SemiBold.otf", "Lato-Bold.ttf", "OSP-DIN.ttf", "YanoneKaffeesatz-Bold.otf", "Tuffy_Bold.ttf",
             "PTS75F.ttf", "LibrisADFStd-Bold.otf"),
    "italic": ("Essays1743-BoldItalic.ttf", "EBGaramond12-Italic.otf", "GFSDidotBoldItalic.otf", "BaskervaldADFStd-BoldItalic.otf",
               "cmunbi.ttf", "CharisSIL-Italic.ttf", "PTF76F.ttf"),
    "black": ("Joscelyn-Regular.otf", "JunicodeTwoBeta-BoldItalic.otf", "MuseumBible.otf"),
    "script": ("DancingScript-Bold.otf", "LobsterTwo-Italic.otf"),
}


def font_index() -> dict[str, Path]:
    """Installed font files by name."""
    return {path.name: path for folder in FONT_FOLDERS if folder.is_dir()
            for path in sorted(folder.rglob("*")) if path.suffix.lower() in (".ttf", ".otf")}


FONT_FILES = font_index()


def pick_face(kind: str, rng: Rng, text: str = "") -> str:
    """A typeface file of the kind that has all the letters of the text."""
    names = [name for name in FACES[kind] if name in FONT_FILES]
    for index in rng.permutation(len(names)):
        if all(character == " " or has_glyph(names[index], character) for character in set(text)):
            return names[index]
    return "EBGaramond12-Regular.otf" if "EBGaramond12-Regular.otf" in FONT_FILES else names[0]


_cmaps: dict[str, set[int]] = {}


def has_glyph(name: str, character: str) -> bool:
    """Whether the typeface has an outline for the character, and not an empty one."""
    if name not in _cmaps:
        from fontTools.ttLib import TTFont
        _cmaps[name] = set(TTFont(FONT_FILES[name], lazy=True).getBestCmap())
    if ord(character) not in _cmaps[name]:
        return False
    left, top, right, bottom = ImageFont.truetype(str(FONT_FILES[name]), 40).getbbox(character)
    return right > left and bottom > top


# ---------------------------------------------------------------- texts

MEN = ("John", "Thomas", "William", "Josiah", "Robert", "Edmund", "Henry", "Samuel", "Isaac", "George", "Ralph", "Amos",
       "Nathaniel", "Philip", "Matthew", "Gilbert", "Abel", "Frederick", "Albert", "Walter", "Ernest", "Hugh")
WOMEN = ("Mary", "Ann", "Elizabeth", "Sarah", "Hannah", "Jane", "Martha", "Susanna", "Dorothy", "Grace", "Alice", "Ellen",
         "Charlotte", "Harriet", "Judith", "Prudence", "Emily", "Florence", "Edith", "Kezia")
SURNAMES = ("Hathersey", "Quillforth", "Brandreth", "Oldcorn", "Wexley", "Penhallam", "Tunnock", "Marrable", "Stoddale",
            "Fairbarrow", "Garlick", "Yelverby", "Copthwaite", "Lumsworth", "Dunnaker", "Askeby", "Vinnicot", "Rudge",
            "Thirlstane", "Jellicoat", "Birkmyre", "Crake", "Eskdaile", "Nuthall", "Winterbourn", "Ockley")
PLACES = ("Harrowby Mill", "Upper Thornsett", "Market Saxby", "Coldwick", "Stanmere", "Dunnock Farm", "Nether Wickstow",
          "Aldergate Moor", "Long Ashcombe", "Westermere Hall", "the Parish of Elmsworth", "Port Carreg", "Lowgill")
TRADES = ("Mason", "Yeoman", "Blacksmith", "Mercer", "Miller", "Schoolmaster", "Surgeon", "Master Mariner", "Clothier",
          "Cordwainer", "Innkeeper", "Gamekeeper", "Station Master")
REGIMENTS = ("Royal Marlshire Fusiliers", "2nd Bn. Askdale Rifles", "Border Yeomanry", "North Wold Regiment", "Loyal Sedburn Infantry")
MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December")
VERSES = (
    ("Stay traveller and cast an eye", "As I am now so thou must lie", "Make ready then while it is day", "For none shall hold the hour away"),
    ("The lamp is out, the loom is still", "The sower sleeps below the hill", "But seed he cast in tears and rain", "Shall rise in golden sheaves again"),
    ("“Weep not for me my children dear", "My race is run, my rest is here”"),
    ("A tender Mother, Wife and Friend", "Beloved until her journey’s end"),
    ("Life’s weary voyage now is past", "And I am safe in port at last"),
    ("Her patient hands are laid at rest", "He taketh home whom He loves best"),
)
TEXT_ENDS = ("REST IN PEACE", "R. I. P.", "THY WILL BE DONE", "“UNTIL THE DAY BREAK”", "PEACE, PERFECT PEACE", "ASLEEP", "AT REST",
             "Erected by his sorrowing Widow", "GONE BUT NOT FORGOTTEN")


@dataclass
class Line:
    """One line to be cut: `^` in the text raises the letter after it."""
    text: str
    role: str
    column: int = 0
    arc: bool = False


def choose(rng: Rng, options):
    """One of the options."""
    return options[int(rng.integers(len(options)))]


def ordinal(day: int, raised: bool) -> str:
    """A day with its ending, raised or not."""
    ending = "th" if 10 <= day % 100 <= 20 else {1: "st", 2: "nd", 3: "rd"}.get(day % 10, "th")
    return str(day) + ("".join("^" + letter for letter in ending) if raised else ending)


def long_s(text: str) -> str:
    """The long s as printers set it: not at the end of a word, nor before f, nor as a capital."""
    letters = list(text)
    for index, letter in enumerate(letters):
        following = letters[index + 1] if index + 1 < len(letters) else " "
        if letter == "s" and following.isalpha() and following != "f":
            letters[index] = "ſ"
    return "".join(letters)


def early_text(rng: Rng) -> tuple[list[Line], int]:
    """A stone of about 1650 to 1735."""
    year = int(rng.integers(1652, 1736))
    man = rng.random() < .6
    name, surname = choose(rng, MEN if man else WOMEN), choose(rng, SURNAMES)
    day, month = int(rng.integers(1, 29)), choose(rng, MONTHS)
    lines = [Line(choose(rng, ("Here lyeth y^e Body of", "HERE LYETH THE", "Here resteth y^e Body", "HEARE LYETH Y^E BODY")), "body")]
    if lines[0].text == "HERE LYETH THE":
        lines.append(Line("BODY OF", "body"))
    lines.append(Line(f"{name} {surname}" if rng.random() < .5 else f"{name} {surname}".upper(), "name"))
    if not man or rng.random() < .4:
        lines.append(Line(f"wife of {choose(rng, MEN)} {surname}" if not man else f"{choose(rng, TRADES)} of this Parish", "body"))
    lines += [Line("who departed this life", "body"), Line(f"y^e {ordinal(day, True)} of {month}", "body"),
              Line(f"Anno Dom {year}" if rng.random() < .6 else f"in y^e year {year}", "body"),
              Line(f"Aged {int(rng.integers(19, 86))} years" if rng.random() < .6 else f"ÆTAT. {int(rng.integers(19, 86))}", "body")]
    if year > 1680 and rng.random() < .5:
        for line in lines:
            line.text = long_s(line.text)
    return lines, year


def georgian_text(rng: Rng) -> tuple[list[Line], int]:
    """A stone of about 1735 to 1837."""
    year = int(rng.integers(1736, 1838))
    surname, man = choose(rng, SURNAMES), choose(rng, MEN)
    wife = choose(rng, WOMEN)
    lines = [Line(choose(rng, ("In Memory of", "Sacred", "Sacred to the Memory of", "To the Memory of")), "head", arc=rng.random() < .35)]
    if lines[0].text == "Sacred":
        lines.append(Line("to the Memory of", "small"))
    lines += [Line(f"{'M^r ' if rng.random() < .4 else ''}{man} {surname}".upper() if rng.random() < .5 else f"{man} {surname}", "name"),
              Line(f"late of {choose(rng, PLACES)}, {choose(rng, TRADES)}" if rng.random() < .5 else f"of {choose(rng, PLACES)}", "small"),
              Line(f"who died {choose(rng, MONTHS)} {ordinal(int(rng.integers(1, 29)), True)} {year}", "body"),
              Line(f"Aged {int(rng.integers(30, 88))} Years" + (" —" if rng.random() < .3 else "."), "body")]
    if rng.random() < .6:
        lines += [Line(f"Also of {wife} his Wife" if rng.random() < .5 else f"Also {wife.upper()} Wife of the above", "body"),
                  Line(f"She died {choose(rng, MONTHS)} y^e {ordinal(int(rng.integers(1, 29)), True)} {year + int(rng.integers(1, 20))}", "body"),
                  Line(f"in the {ordinal(int(rng.integers(41, 90)), True)} Year of her Age", "body")]
    if rng.random() < .55:
        lines += [Line(verse, "verse") for verse in choose(rng, VERSES)]
    if year < 1795 and rng.random() < .5:
        for line in lines:
            line.text = long_s(line.text)
    return lines, year


def victorian_text(rng: Rng) -> tuple[list[Line], int]:
    """A stone of about 1838 to 1914."""
    year = int(rng.integers(1838, 1915))
    surname, man, wife = choose(rng, SURNAMES), choose(rng, MEN), choose(rng, WOMEN)
    month = choose(rng, MONTHS).upper() if rng.random() < .5 else choose(rng, MONTHS)
    lines = [Line(choose(rng, ("In Loving Memory of", "IN AFFECTIONATE REMEMBRANCE OF", "IN MEMORY OF", "Sacred to the Memory of", "In Memoriam")),
                  "head", arc=rng.random() < .45),
             Line(f"{man} {surname}".upper(), "name"), Line(f"{choose(rng, TRADES)}, {choose(rng, PLACES)}", "small")]
    if rng.random() < .4:
        lines += [Line(f"BORN {month.upper()} {int(rng.integers(1, 29))}, {year - int(rng.integers(20, 80))}.", "body"),
                  Line(f"DIED {choose(rng, MONTHS).upper()} {int(rng.integers(1, 29))}, {year}.", "body")]
    else:
        lines += [Line(f"who died {month} {ordinal(int(rng.integers(1, 29)), rng.random() < .6)}, {year},", "body"),
                  Line(f"Aged {int(rng.integers(19, 90))} Years.", "body")]
    choice = rng.random()
    if choice < .45:
        lines += [Line(choose(rng, ("ALSO OF", "ALSO", "And of")), "small"), Line(f"{wife} {surname}".upper() if rng.random() < .4 else wife.upper(), "name"),
                  Line(f"{choose(rng, ('Relict', 'Wife', 'beloved Wife'))} of the above,", "body"),
                  Line(f"who died {choose(rng, MONTHS)} {int(rng.integers(1, 29))}, {year + int(rng.integers(1, 25))}, aged {int(rng.integers(30, 92))}.", "body")]
    elif choice < .65:
        lines += [Line(f"also {choose(rng, MEN)} & {choose(rng, WOMEN)}, Children of", "body"), Line("the above, who died in Infancy.", "body")]
    if rng.random() < .5:
        lines += [Line(verse, "verse") for verse in choose(rng, VERSES)[:2]]
    elif rng.random() < .7:
        lines.append(Line(choose(rng, TEXT_ENDS), "small"))
    return lines, year


def modern_text(rng: Rng) -> tuple[list[Line], int]:
    """A stone of about 1905 to 1960."""
    year = int(rng.integers(1905, 1961))
    surname, man, wife = choose(rng, SURNAMES), choose(rng, MEN), choose(rng, WOMEN)
    lines = [Line(choose(rng, ("IN LOVING MEMORY OF", "TREASURED MEMORIES OF", "In Loving Memory", "IN EVER LOVING MEMORY OF")), "head", arc=rng.random() < .2),
             Line(f"{man} {choose(rng, MEN)} {surname}".upper(), "name")]
    if rng.random() < .35:
        lines.append(Line(f"{year - int(rng.integers(20, 80))} – {year}", "body"))
    else:
        lines += [Line(f"WHO DIED {choose(rng, MONTHS).upper()} {ordinal(int(rng.integers(1, 29)), True).upper()} {year}", "body"),
                  Line(f"AGED {int(rng.integers(20, 92))} YEARS", "body")]
    if rng.random() < .6:
        lines += [Line(choose(rng, ("AND OF", "ALSO HIS DEAR WIFE", "ALSO")), "small"), Line(f"{wife} {surname}".upper(), "name"),
                  Line(f"DIED {choose(rng, MONTHS)[:3].upper()}. {int(rng.integers(1, 29))}, {year + int(rng.integers(1, 20))}", "body")]
    if rng.random() < .7:
        lines.append(Line(choose(rng, TEXT_ENDS), "small"))
    return lines, year


def soldier_text(rng: Rng) -> tuple[list[Line], int]:
    """A soldier's stone."""
    year = choose(rng, (1900, 1915, 1916, 1917, 1918, 1941, 1943, 1944))
    return [Line(f"{int(rng.integers(1000, 99999))} {choose(rng, ('PRIVATE', 'SERJEANT', 'CORPORAL', 'GUNNER'))}", "body"),
            Line(f"{choose(rng, MEN)[0]}. {choose(rng, SURNAMES)}".upper(), "name"), Line(choose(rng, REGIMENTS).upper(), "body"),
            Line(f"{ordinal(int(rng.integers(1, 29)), True).upper() if rng.random() < .4 else int(rng.integers(1, 29))} {choose(rng, MONTHS).upper()} {year}", "body"),
            Line(f"AGE {int(rng.integers(18, 41))}", "body"), Line(choose(rng, TEXT_ENDS[:7]), "small")], year


def roll_text(rng: Rng) -> tuple[list[Line], int]:
    """A roll of names in two columns."""
    year = choose(rng, (1919, 1920, 1921))
    names = sorted((f"{choose(rng, MEN)[0]}. {surname}".upper() for surname in rng.permutation(SURNAMES)[:12]), key=lambda name: name[3:])
    half = len(names) // 2
    return ([Line("TO THE GLORY OF GOD", "head"), Line("AND IN MEMORY OF THE MEN OF", "small"), Line(choose(rng, PLACES[:6]).upper(), "name")]
            + [Line(name, "body", 1) for name in names[:half]] + [Line(name, "body", 2) for name in names[half:]]
            + [Line(f"1914 – {year - 1}", "name")]), year


def footstone_text(rng: Rng) -> tuple[list[Line], int]:
    """Initials and a year."""
    year = int(rng.integers(1690, 1870))
    initials = f"{choose(rng, MEN)[0]}. {choose(rng, SURNAMES)[0]}."
    return ([Line(initials, "name"), Line(str(year), "name")] if rng.random() < .6
            else [Line(initials, "name"), Line(f"{choose(rng, WOMEN)[0]}. {initials[3:]}", "name"), Line(str(year), "body")]), year


# ---------------------------------------------------------------- fields

def noise(shape: tuple[int, int], scale: float, rng: Rng, octaves: int = 4, fade: float = .5, stretch: float = 1.) -> Array:
    """Smooth noise of unit spread. The scale is the coarsest wave in samples, `stretch` lengthens it sideways."""
    total = np.zeros(shape, np.float32)
    strength = 1.
    for _ in range(octaves):
        rows = max(2, int(shape[0] / max(scale, 1.)) + 3)
        columns = max(2, int(shape[1] / max(scale * stretch, 1.)) + 3)
        coarse = rng.standard_normal((rows, columns)).astype(np.float32)
        total += strength * cv2.resize(coarse, (shape[1], shape[0]), interpolation=cv2.INTER_CUBIC)
        strength *= fade
        scale /= 2
        if scale < 1:
            break
    return (total - total.mean()) / (total.std() + 1e-6)


def blur(values: Array, sigma: float) -> Array:
    """A Gaussian, by way of a smaller image where it is wide."""
    if sigma < .25:
        return values
    if sigma > 12:
        step = int(sigma / 5)
        small = cv2.resize(values, (max(2, values.shape[1] // step), max(2, values.shape[0] // step)), interpolation=cv2.INTER_AREA)
        small = cv2.GaussianBlur(small, (0, 0), sigma / step)
        return cv2.resize(small, (values.shape[1], values.shape[0]), interpolation=cv2.INTER_LINEAR)
    return cv2.GaussianBlur(values, (0, 0), sigma)


def step(values: Array, low: float, high: float) -> Array:
    """0 below `low`, 1 above `high`, smooth between."""
    t = np.clip((values - low) / (high - low), 0, 1)
    return t * t * (3 - 2 * t)


@dataclass
class Letter:
    """One carved letter: where it lies on the grid and what became of it."""
    character: str
    line: int
    box: tuple[int, int, int, int] = (0, 0, 0, 0)
    capital_mm: float = 0.
    state: str = "clear"
    strength: float = 0.


@dataclass
class Stone:
    """A face as fields on a grid; row 0 is the top. Heights in mm, colours linear."""
    width: float
    height: float
    spacing: float
    material: str
    severity: float
    mask: Array
    letters: list[Letter] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)
    labels: Array | None = None
    relief: Array | None = None
    plain: Array | None = None
    colour: Array | None = None
    plain_colour: Array | None = None
    rough: Array | None = None
    gone: Array | None = None
    covered: Array | None = None
    arris: float = 8.
    metallic: float = 0.

    @property
    def shape(self) -> tuple[int, int]:
        return self.mask.shape


def outline(kind: str, shape: tuple[int, int], rng: Rng) -> Array:
    """Where the stone is: 1 inside. The foot always runs to the last row."""
    rows, columns = shape
    x = np.linspace(-1, 1, columns)
    half = columns / 2
    if kind == "round":
        top = half * (1 - np.sqrt(np.clip(1 - x ** 2, 0, 1)))
    elif kind == "segment":
        top = half * .35 * x ** 2
    elif kind == "shoulders":
        inner = .72
        top = np.where(np.abs(x) < inner, half * .62 * (1 - np.sqrt(np.clip(1 - (x / inner) ** 2, 0, 1))), half * .62 + half * .05)
    elif kind == "gothic":
        top = half * 1.15 * (1 - np.sqrt(np.clip(1 - ((np.abs(x) + .6) / 1.6) ** 2, 0, 1)) / math.sqrt(1 - (.6 / 1.6) ** 2))
    elif kind == "ogee":
        top = half * .32 * (1 - np.cos(np.pi * np.abs(x))) / 1.2
    elif kind == "scroll":
        top = half * (.16 - .16 * np.cos(np.pi * np.abs(x)) + .1 * np.exp(-((np.abs(x) - .55) / .1) ** 2))
    else:
        top = np.zeros(columns)
    top = top + 2 + blur(rng.standard_normal((1, columns)).astype(np.float32), 9)[0] * 1.5
    mask = (np.arange(rows)[:, None] >= top[None, :])
    mask[:, :2] = mask[:, -2:] = False
    return mask


class Chisel:
    """Draws letters and ornaments three times as fine as the grid and turns them into depths."""
    FINE = 3

    def __init__(self, shape: tuple[int, int], spacing: float, rng: Rng):
        self.shape, self.spacing, self.rng = shape, spacing, rng
        self.canvas = np.zeros((shape[0] * self.FINE, shape[1] * self.FINE), np.uint8)
        self.ornament = np.zeros_like(self.canvas)
        self.labels = np.zeros(shape, np.int32)
        self.letters: list[Letter] = []

    def glyph(self, face: str, character: str, pixels: int) -> tuple[Array, float, int, int]:
        """The letter's mask, its advance and the place of its origin in the mask."""
        font = ImageFont.truetype(str(FONT_FILES[face]), pixels)
        pad = pixels // 2
        image = Image.new("L", (int(font.getlength(character)) + 2 * pad + pixels, 3 * pixels), 0)
        ImageDraw.Draw(image).text((pad, 2 * pixels), character, 255, font=font, anchor="ls")
        return np.asarray(image), font.getlength(character), pad, 2 * pixels

    @staticmethod
    def pieces(text: str) -> list[tuple[str, bool]]:
        """The letters of a line, each with whether it is raised."""
        result, raised = [], False
        for character in text:
            if character == "^":
                raised = True
            else:
                result.append((character, raised))
                raised = False
        return result

    def measure(self, face: str, text: str, capital: float, tracking: float) -> tuple[int, list[tuple[str, bool, float, float]], float]:
        """Type size in fine pixels, then letters with raised, place and size factor, then the width in mm."""
        probe = ImageFont.truetype(str(FONT_FILES[face]), 200)
        top = probe.getbbox("H", anchor="ls")[1]
        pixels = max(8, int(round(200 * capital / self.spacing * self.FINE / max(1, -top))))
        font = ImageFont.truetype(str(FONT_FILES[face]), pixels)
        place, result, previous = 0., [], ""
        for character, raised in self.pieces(text):
            factor = .62 if raised else 1.
            if previous and not raised:
                place += font.getlength(previous + character) - font.getlength(previous) - font.getlength(character)
            result.append((character, raised, place, factor))
            place += font.getlength(character) * factor + tracking * pixels
            previous = "" if raised else character
        return pixels, result, place / self.FINE * self.spacing

    def cut_line(self, line_number: int, line: Line, face: str, capital: float, centre_x: float, baseline: float, align: str,
                 squeeze: float, unsteady: float, tracking: float, radius: float | None = None) -> None:
        """Draws one line; the places are in mm from the top left. With a radius it runs on an arc over the centre."""
        pixels, pieces, width = self.measure(face, line.text, capital, tracking)
        width *= squeeze
        to_fine = self.FINE / self.spacing
        start = {"centre": centre_x - width / 2, "left": centre_x, "right": centre_x - width}[align]
        slope = self.rng.normal(0, .004) * unsteady * 2
        swell = 1 + self.rng.normal(0, .02) * unsteady
        for character, raised, place, factor in pieces:
            if character == " ":
                self.letters.append(Letter(" ", line_number))
                continue
            mask, advance, left, base = self.glyph(face, character, pixels)
            scale = factor * swell * (1 + self.rng.normal(0, .025) * unsteady)
            turn = self.rng.normal(0, .018) * unsteady
            x = start + place / to_fine * squeeze
            y = baseline - (capital * .42 if raised else 0) + slope * (x - centre_x) + self.rng.normal(0, .022) * unsteady * capital
            if radius is not None:
                middle = x + advance * factor * squeeze / to_fine / 2
                angle = (middle - centre_x) / radius
                turn += angle
                half = advance * factor * squeeze / to_fine / 2
                x = centre_x + radius * math.sin(angle) - half * math.cos(angle)
                y = y + radius * (1 - math.cos(angle)) - half * math.sin(angle)
            lean = self.rng.normal(0, .02) * unsteady
            cos, sin = math.cos(turn), math.sin(turn)
            affine = np.array([[cos, -sin], [sin, cos]]) @ np.array([[scale * squeeze, -lean * scale], [0, scale]])
            shift = np.array([x * to_fine, y * to_fine]) - affine @ np.array([left, base])
            corners = np.array([[0, 0], [mask.shape[1], 0], [0, mask.shape[0]], [mask.shape[1], mask.shape[0]]]) @ affine.T + shift
            x0, y0 = np.floor(corners.min(0)).astype(int) - 2
            x1, y1 = np.ceil(corners.max(0)).astype(int) + 2
            x0, y0 = max(0, x0), max(0, y0)
            x1, y1 = min(self.canvas.shape[1], x1), min(self.canvas.shape[0], y1)
            if x1 <= x0 + 3 or y1 <= y0 + 3:
                continue
            matrix = np.hstack([affine, (shift - [x0, y0])[:, None]])
            patch = cv2.warpAffine(mask, matrix, (int(x1 - x0), int(y1 - y0)), flags=cv2.INTER_AREA)
            found = cv2.findNonZero((patch > 90).astype(np.uint8))
            if found is None:
                continue
            bx, by, bw, bh = cv2.boundingRect(found)
            self.canvas[y0:y1, x0:x1] = np.maximum(self.canvas[y0:y1, x0:x1], patch)
            box = ((x0 + bx) // self.FINE, (y0 + by) // self.FINE, (x0 + bx + bw) // self.FINE + 2, (y0 + by + bh) // self.FINE + 2)
            self.letters.append(Letter(character, line_number, box, capital * factor))
            ys, xs = np.nonzero(patch > 110)
            gy, gx = np.minimum((ys + y0) // self.FINE, self.shape[0] - 1), np.minimum((xs + x0) // self.FINE, self.shape[1] - 1)
            self.labels[gy, gx] = len(self.letters)

    def polygon(self, points: list[tuple[float, float]], hollow: float = 0.) -> None:
        """An ornament's part, in mm; `hollow` draws only a stroke of that width."""
        fine = (np.array(points) / self.spacing * self.FINE).round().astype(np.int32)
        if hollow:
            cv2.polylines(self.ornament, [fine], False, 255, max(2, int(hollow / self.spacing * self.FINE)), cv2.LINE_AA)
        else:
            cv2.fillPoly(self.ornament, [fine], 255, cv2.LINE_AA)

    def depth(self, canvas: Array, slope: float, deepest: float, section: str, broaden: float) -> Array:
        """Depth in mm on the grid below the face for what is drawn on the canvas."""
        grown = int(round(broaden / self.spacing * self.FINE))
        if grown > 0:
            canvas = cv2.dilate(canvas, cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (2 * grown + 1, 2 * grown + 1)))
        distance = cv2.distanceTransform((canvas > 127).astype(np.uint8), cv2.DIST_L2, 5) * (self.spacing / self.FINE)
        if section == "V":
            depth = np.minimum(distance * slope, deepest)
        else:
            t = np.clip(distance / (deepest * .7), 0, 1)
            depth = deepest * np.sqrt(1 - (1 - t) ** 2)
        return cv2.resize(depth.astype(np.float32), (self.shape[1], self.shape[0]), interpolation=cv2.INTER_AREA)


def ellipse(x: float, y: float, a: float, b: float, start: float = 0, end: float = 360, count: int = 48) -> list[tuple[float, float]]:
    """Points of an ellipse or a part of it, angles in degrees clockwise from the right."""
    return [(x + a * math.cos(math.radians(t)), y + b * math.sin(math.radians(t))) for t in np.linspace(start, end, count)]


def carve_ornament(chisel: Chisel, kind: str, x: float, y: float, size: float) -> None:
    """A carving of simple shapes round (x, y), `size` mm high."""
    s = size / 2
    if kind == "urn":
        chisel.polygon(ellipse(x, y, .5 * s, .6 * s, 0, 180) + ellipse(x, y, .5 * s, .12 * s, 180, 360))
        chisel.polygon([(x - .12 * s, y + .55 * s), (x + .12 * s, y + .55 * s), (x + .3 * s, y + s), (x - .3 * s, y + s)])
        chisel.polygon(ellipse(x, y - .35 * s, .35 * s, .2 * s, 180, 360))
        for side in (-1, 1):
            chisel.polygon(ellipse(x + side * .55 * s, y + .05 * s, .2 * s, .25 * s), hollow=size * .05)
    elif kind == "cross":
        a = .17 * s
        chisel.polygon([(x - a, y - s), (x + a, y - s), (x + a, y + s), (x - a, y + s)])
        chisel.polygon([(x - .6 * s, y - .3 * s - a), (x + .6 * s, y - .3 * s - a), (x + .6 * s, y - .3 * s + a), (x - .6 * s, y - .3 * s + a)])
    elif kind == "flower":
        for petal in range(6):
            angle = petal * math.pi / 3
            chisel.polygon(ellipse(x + .5 * s * math.cos(angle), y + .5 * s * math.sin(angle), .25 * s, .25 * s))
        chisel.polygon(ellipse(x, y, .2 * s, .2 * s))
    elif kind == "willow":
        chisel.polygon([(x, y + s), (x + .05 * s, y - .2 * s), (x, y - .8 * s)], hollow=size * .06)
        for branch in np.linspace(-1, 1, 9):
            chisel.polygon(ellipse(x + branch * .45 * s, y - .2 * s, abs(branch) * .4 * s + .06 * s, .6 * s, 180 if branch > 0 else 270, 360 if branch > 0 else 180 + 180 * .1),
                           hollow=size * .025)
    elif kind == "head":
        chisel.polygon(ellipse(x, y - .1 * s, .42 * s, .5 * s))
        chisel.polygon([(x - .22 * s, y + .3 * s), (x + .22 * s, y + .3 * s), (x + .18 * s, y + .65 * s), (x - .18 * s, y + .65 * s)])
        for side in (-1, 1):
            for feather in range(4):
                chisel.polygon(ellipse(x + side * (.8 + .2 * feather) * s, y + .12 * feather * s, .4 * s, .09 * s), hollow=size * .03)
            cv2.circle(chisel.ornament, tuple(int(v / chisel.spacing * chisel.FINE) for v in (x + side * .17 * s, y - .08 * s)),
                       int(.11 * s / chisel.spacing * chisel.FINE), 0, -1)
    else:
        chisel.polygon(ellipse(x, y, .5 * s, .5 * s), hollow=size * .06)
        chisel.polygon([(x - .9 * s, y + .7 * s), (x, y + .45 * s), (x + .9 * s, y + .7 * s)], hollow=size * .05)


# ---------------------------------------------------------------- laying out

SIZES = {"head": 1.15, "name": 1.45, "body": 1., "small": .8, "verse": .78}


def lay_out(stone: Stone, chisel: Chisel, rng: Rng, lines: list[Line], year: int, shape_kind: str, bottom_share: float) -> None:
    """Chooses faces and places and draws all lines."""
    early = year < 1740
    all_text = "".join(line.text.replace("^", "") for line in lines)
    main_kind = ("old" if early or rng.random() < .55 else "text") if year < 1840 else choose(rng, ("text", "text", "slab", "capitals"))
    if year > 1900:
        main_kind = choose(rng, ("sans", "capitals", "text", "slab"))
    main = pick_face(main_kind, rng, all_text)
    name_face = main if early or rng.random() < .4 else pick_face(choose(rng, ("capitals", "text", "slab", "sans") if year > 1830 else ("capitals", "text")), rng, all_text)
    verse_face = pick_face("italic", rng, all_text)
    head_face = main if early else pick_face(choose(rng, ("black", "script", "text", "capitals", main_kind)) if year > 1780 else main_kind, rng, all_text)
    if lines[0].text.isupper() and head_face in FACES["black"] + FACES["script"]:
        head_face = main
    faces = {"head": head_face, "name": name_face, "body": main, "small": main, "verse": verse_face}
    unsteady = rng.uniform(.7, 1.7) if early else rng.uniform(.2, .8) if year < 1850 else rng.uniform(.05, .3)
    align = "left" if early and rng.random() < .5 else "centre"
    margin = stone.width * rng.uniform(.07, .12)
    usable = stone.width - 2 * margin
    head_room = {"round": .22, "gothic": .34, "shoulders": .17, "ogee": .14, "segment": .08, "scroll": .14}.get(shape_kind, .05) * stone.width + margin * .6
    ornament_size = 0.
    if shape_kind != "plain" and rng.random() < .55 or rng.random() < .15:
        ornament_size = stone.width * rng.uniform(.14, .22)
        carve_ornament(chisel, choose(rng, ("urn", "cross", "flower", "willow") if year > 1760 else ("head", "flower", "head", "ring")),
                       stone.width / 2, max(head_room * .55, ornament_size * .72), ornament_size)
        head_room = max(head_room, ornament_size * 1.15 + 12)
    bottom = stone.height * (1 - bottom_share)
    tracking = rng.uniform(0, .035)
    columns = any(line.column for line in lines)
    rows = sum(SIZES[line.role] for line in lines if line.column < 2)
    leading = rng.uniform(1.4, 1.75)
    capital = min((bottom - head_room) / (rows * leading), usable * rng.uniform(.056, .08))
    if len(lines) <= 3:
        capital = min((bottom - head_room) / (rows * 1.7), usable * .2)
    pitch = min(leading * 1.15 * capital, (bottom - head_room) / rows)
    y = head_room
    column_top = 0.
    for number, line in enumerate(lines):
        face, size = faces[line.role], capital * SIZES[line.role] * rng.uniform(.95, 1.06)
        room = usable / 2 * .9 if line.column else usable
        if not line.arc:
            at = int(np.clip((y - size * .3) / stone.spacing, 0, stone.shape[0] - 1))
            room = min(room, float(stone.mask[at].sum()) * stone.spacing - margin * 1.2)
        line_tracking = tracking + (.04 if line.text.isupper() and rng.random() < .5 else 0)
        width = chisel.measure(face, line.text, size, line_tracking)[2]
        squeeze = 1.
        if width > room:
            squeeze = max(.82, room / width)
            size *= min(1, room / (width * squeeze))
        if line.column == 2 and lines[number - 1].column == 1:
            y = column_top
        if line.column == 1 and lines[number - 1].column == 0:
            column_top = y
        radius = None
        drop = pitch * SIZES[line.role]
        baseline = y + drop * .72
        if line.arc and shape_kind in ("round", "segment", "shoulders", "ogee", "gothic") and number == 0:
            radius = max(width / 1.5, stone.width * .46)
            baseline = max(size * 1.9, head_room - drop * .3) if not ornament_size else head_room + drop * .5
            sag = radius * (1 - math.cos(min(1.4, width / 2 / radius)))
            drop = baseline + sag - y + drop * .35
        x, line_align = stone.width / 2, align
        if line.column:
            x, line_align = margin + (line.column - 1) * usable / 2 + 4, "left"
        elif align == "left" and line.role != "name":
            x = margin
        else:
            line_align = "centre"
        chisel.cut_line(number, line, face, size, x, baseline, line_align, squeeze, unsteady, line_tracking, radius)
        y += drop
    stone.lines, stone.letters, stone.labels = lines, chisel.letters, chisel.labels


# ---------------------------------------------------------------- materials and time

@dataclass
class Substance:
    """What a stone is made of: linear colours, grain in mm, and how time works on it (1 is usual)."""
    colours: tuple[tuple[float, float, float], ...]
    grain: float
    roughness: float
    rounding: float
    growth: float


SUBSTANCES = {
    "marble": Substance(((.62, .61, .58), (.5, .5, .49)), .10, .6, 1.1, .6),
    "slate": Substance(((.105, .115, .13), (.13, .125, .135), (.10, .12, .11)), .02, .55, .15, .7),
    "sandstone": Substance(((.34, .20, .14), (.38, .30, .21), (.25, .22, .185), (.40, .25, .19)), .17, .95, 1., .9),
    "limestone": Substance(((.47, .42, .33), (.42, .39, .33), (.36, .34, .30)), .14, .9, .9, 1.2),
    "granite": Substance(((.24, .22, .22), (.30, .17, .14), (.10, .10, .105), (.38, .37, .36)), .008, .22, .03, .35),
    "metal": Substance(((.075, .06, .045), (.05, .085, .07), (.045, .045, .045)), .03, .5, .1, .25),
}


def grown_discs(shape: tuple[int, int], spacing: float, rng: Rng, count: int, radius: float) -> tuple[Array, Array]:
    """Lichen thalli: cover from 0 to 1 and, per sample, a place from the middle (0) to the rim (1)."""
    cover, ring = np.zeros(shape, np.float32), np.zeros(shape, np.float32)
    wobble = noise(shape, 26 / spacing, rng, 5, .65) * .22
    cluster = noise(shape, 220 / spacing, rng, 2)
    for _ in range(count):
        for _ in range(6):
            cy, cx = int(rng.integers(shape[0])), int(rng.integers(shape[1]))
            if cluster[cy, cx] > rng.normal(.3, .8):
                break
        r = radius * math.exp(rng.normal(0, .65)) / spacing
        y0, y1, x0, x1 = max(0, int(cy - 2 * r)), min(shape[0], int(cy + 2 * r) + 1), max(0, int(cx - 2 * r)), min(shape[1], int(cx + 2 * r) + 1)
        yy, xx = np.mgrid[y0:y1, x0:x1]
        distance = np.hypot((yy - cy) * rng.uniform(.85, 1.2), xx - cx) / r + wobble[y0:y1, x0:x1]
        disc = step(-distance, -1., -.86) * rng.uniform(.55, 1.)
        better = disc > cover[y0:y1, x0:x1]
        cover[y0:y1, x0:x1][better] = disc[better]
        ring[y0:y1, x0:x1][better] = np.clip(distance, 0, 1)[better]
    return cover, ring


def paint_over(colour: Array, tint, amount: Array) -> Array:
    """Lays a tint over colours."""
    return colour + (np.asarray(tint, np.float32) - colour) * amount[..., None]


def weather(stone: Stone, chisel: Chisel, rng: Rng, year: int, lettering: str, lying: bool) -> None:
    """Works out the face as it stands today, once with letters and once without."""
    shape, mm = stone.shape, 1 / stone.spacing
    substance = SUBSTANCES[stone.material]
    severity = stone.severity
    down = np.linspace(0, 1, shape[0], dtype=np.float32)[:, None] * np.ones((1, shape[1]), np.float32)
    raised = lettering == "raised"
    section = "U" if rng.random() < .25 else "V"
    slope, deepest = rng.uniform(.9, 1.5), rng.uniform(1.6, 3.2)
    if stone.material in ("granite", "slate"):
        slope, deepest = rng.uniform(.8, 1.2), rng.uniform(1.1, 2.)
    cut = chisel.depth(chisel.canvas, slope, deepest, section, rng.uniform(.15, .45))
    ornament = chisel.depth(chisel.ornament, .6, rng.uniform(2., 4.), "U" if rng.random() < .6 else "V", 0)
    inside = cv2.distanceTransform(stone.mask.astype(np.uint8), cv2.DIST_L2, 5) * stone.spacing
    frame = np.zeros(shape, np.float32)
    if rng.random() < .3 and not lying or rng.random() < .12:
        at = stone.width * rng.uniform(.025, .045)
        for offset in (0, 7)[: int(rng.integers(1, 3))]:
            frame = np.maximum(frame, np.clip(1.6 - np.abs(inside - at - offset) * 1.1, 0, 2))
        frame[int(shape[0] * .93):] = 0

    # erosion: the letters' layer is rounded by diffusion, then the surface recedes into it; both faster at the foot and in patches
    patch = noise(shape, 160 * mm, rng, 3)
    pace = severity * substance.rounding * np.clip(.55 + .5 * down ** 2 + .38 * patch, .05, 2.4)
    sigma = 2.0 * pace
    layer = cut if not raised else cut * 1.4
    levels = (0., .5, 1.1, 2.0, 3.4)
    blurred = [blur(layer, level * mm) for level in levels]
    worn = blurred[-1].copy()
    for low, high, first, second in zip(levels, levels[1:], blurred, blurred[1:]):
        part = np.clip((sigma - low) / (high - low), 0, 1)
        band = (sigma >= low) & (sigma < high)
        worn[band] = (first + (second - first) * part)[band]
    worn *= np.clip(1 - .42 * pace, .04, 1)
    carved = -np.maximum(ornament, frame) if rng.random() < .8 else np.maximum(ornament * .8, 0) - frame
    carved = blur(carved.astype(np.float32), max(.3, 1.1 * severity * substance.rounding) * mm) * (1 - .35 * severity)

    # the bare surface of each substance
    fine = rng.standard_normal(shape).astype(np.float32)
    grain = blur(fine, .55 * mm)
    grain /= grain.std()
    surface = noise(shape, 180 * mm, rng, 2) * .5 + substance.grain * (.5 + severity) * grain + noise(shape, 14 * mm, rng, 4, .6) * substance.grain * (.35 + severity)
    base = np.asarray(choose(rng, substance.colours), np.float32) * rng.uniform(.88, 1.1)
    tone = noise(shape, 120 * mm, rng, 5, .6)
    colour = base * (1 + .05 * tone + .035 * grain)[..., None]
    gone = np.zeros(shape, np.float32)
    if stone.material == "slate":
        surface *= .6
        for _ in range(int(rng.integers(15, 60))):
            x, y, angle, length = rng.uniform(0, shape[1]), rng.uniform(0, shape[0]), rng.normal(0, .9), rng.uniform(10, 90) * mm
            scratch = np.zeros(shape, np.uint8)
            cv2.line(scratch, (int(x), int(y)), (int(x + length * math.cos(angle)), int(y + length * math.sin(angle))), 255, 1, cv2.LINE_AA)
            surface -= scratch / 255 * .1
            colour *= 1 + (scratch / 255 * .25)[..., None]
    if stone.material == "sandstone":
        beds = noise((shape[0], shape[1]), 26 * mm, rng, 5, .7, stretch=30)
        surface += beds * .16 * (.3 + severity)
        colour *= (1 + .07 * beds)[..., None]
        salt = step(np.exp(-((down - rng.uniform(.7, .9)) / .07) ** 2) + .25 * patch, .55, 1.) * severity
        colour = paint_over(colour, (.55, .52, .47), salt * .5)
        surface -= salt * np.abs(noise(shape, 6 * mm, rng, 3)) * .45
    if stone.material == "limestone":
        pits = step(noise(shape, 5 * mm, rng, 3, .7), 2.0, 2.6)
        surface -= pits * rng.uniform(.5, 1.4)
        colour *= (1 - .35 * pits)[..., None]
        shells = np.zeros(shape, np.uint8)
        for _ in range(int(rng.integers(20, 120))):
            centre = (int(rng.integers(shape[1])), int(rng.integers(shape[0])))
            axes = (max(2, int(rng.uniform(2, 7) * mm)), max(1, int(rng.uniform(1, 4) * mm)))
            cv2.ellipse(shells, centre, axes, rng.uniform(0, 360), 0, rng.uniform(120, 250), 255, 1, cv2.LINE_AA)
        surface += shells / 255 * .35 * (.2 + severity)
    if stone.material == "marble":
        veins = np.exp(-np.abs(noise(shape, 200 * mm, rng, 5, .55)) * 14)
        colour = paint_over(colour, (.33, .34, .36), veins * rng.uniform(.05, .4))
        surface += grain * .12 * severity
    if stone.material == "granite":
        speck = noise(shape, 4 * mm, rng, 2, .6)
        colour = paint_over(colour, (.03, .03, .03), step(speck, .7, 1.) * .8)
        colour = paint_over(colour, (.5, .48, .46), step(-speck, .8, 1.1) * .6)
        surface *= .1
    if stone.material == "metal":
        surface *= .35
        colour = paint_over(colour, (.12, .2, .16), step(noise(shape, 50 * mm, rng, 5, .65), .3, 1.6) * .6)

    # sheets that came off: between levels of slow noise, with sharp edges
    flake_amount = {"slate": .9, "sandstone": .9, "limestone": .35, "marble": .12}.get(stone.material, 0) * severity ** 1.4
    if rng.random() < flake_amount * 1.3:
        slow = noise(shape, rng.uniform(130, 300) * mm, rng, 6, .45) + (down - .5) * rng.uniform(-.4, 1.2)
        start = rng.uniform(.85, 1.7) - .6 * flake_amount
        for extra, depth in ((0., rng.uniform(1.2, 2.6)), (.45, rng.uniform(.6, 1.6))):
            off = step(slow, start + extra, start + extra + .035)
            surface -= off * depth
            gone = np.maximum(gone, off) if depth > .5 * deepest or extra == 0 else gone
        surface += gone * noise(shape, 30 * mm, rng, 5, .6) * (.1 if stone.material == "slate" else .3)
        colour *= (1 + gone * (.16 + .06 * tone))[..., None]

    # cracks and chips
    for _ in range(int(rng.poisson(.5 * severity))):
        x, y, heading = rng.uniform(0, shape[1]), 0. if rng.random() < .5 else rng.uniform(0, shape[0]), rng.uniform(.4, 2.7)
        points = [(x, y)]
        while 0 <= x < shape[1] and y < shape[0] and len(points) < 160:
            heading += rng.normal(0, .18)
            x, y = x + 8 * mm * math.cos(heading), y + 8 * mm * abs(math.sin(heading))
            points.append((x, y))
        crack = np.zeros(shape, np.uint8)
        cv2.polylines(crack, [np.array(points, np.int32)], False, 255, max(1, int(1. * mm)), cv2.LINE_AA)
        surface -= crack / 255 * 2.2
        colour *= (1 - crack / 255 * .55)[..., None]
    rim = noise(shape, 22 * mm, rng, 4, .6)
    radius = stone.arris * (.5 + .5 * severity)
    near = np.clip(1 - (inside - np.clip(rim, -1, 2) * 2.2 * severity) / radius, 0, 1)
    surface -= radius * (1 - np.sqrt(np.clip(1 - near ** 2, 0, 1)))

    sign = 1. if raised else -1.
    plain = surface + carved
    held = 1 - gone * (.93 if not raised else .97)
    relief = plain + sign * worn * held
    if raised:
        panel = step(inside, stone.width * .05, stone.width * .05 + 2.5) * 2.8
        plain, relief = plain - panel, relief - panel

    # paint, gilding or lead in the letters
    plain_colour, rough = colour.copy(), np.full(shape, substance.roughness, np.float32) + .05 * tone
    inked = step(cut * held, .15, .45)
    if lettering in ("lead", "paint", "gilt"):
        kept = step(noise(shape, 45 * mm, rng, 5, .6), -1.4 + 1.9 * severity, -.9 + 1.9 * severity)
        tint, shine = {"lead": ((.055, .058, .065), .5), "paint": ((.02, .02, .02), .6), "gilt": ((.55, .36, .08), .35)}[lettering]
        if lettering == "paint" and base.mean() < .2:
            tint = (.6, .59, .56)
        colour = paint_over(colour, tint, inked * kept * .93)
        rough = rough + (shine - rough) * inked * kept
        if lettering == "lead":
            relief = relief + worn * held * kept * .85
    elif stone.material != "metal":
        # what collects in hollows, and lighter ridges
        hollow = np.clip(blur(relief, 2.4 * mm) - relief, -1.5, 3)
        dirt = rng.uniform(.02, .16) * (.4 + severity) * (3 if lying else 1)
        colour = colour * (1 - np.clip(dirt * hollow, -.1, .5))[..., None]
        plain_hollow = np.clip(blur(plain, 2.4 * mm) - plain, -1.5, 3)
        plain_colour = plain_colour * (1 - np.clip(dirt * plain_hollow, -.1, .5))[..., None]
        if rng.random() < .35 * substance.growth:
            moss = np.clip(step(hollow, .25, 1.0) * step(noise(shape, 90 * mm, rng, 4), .0, .9), 0, 1) * rng.uniform(.4, 1.)
            colour = paint_over(colour, (.06, .085, .02), moss * .85)
            relief = relief + moss * .5 * hollow

    # films, runs, lichen, lime: over both
    covered = np.zeros(shape, np.float32)
    growth_seed = np.random.default_rng(int(rng.integers(1 << 31)))
    film = step(noise(shape, 200 * mm, rng, 5, .6) + .9 * (down - .35), .1, 1.6) * rng.uniform(.05, .55) * substance.growth
    film_tint = choose(rng, ((.07, .085, .04), (.05, .05, .045), (.10, .095, .06)))
    runs = noise(shape, 40 * mm, rng, 5, .7)
    streak = step(cv2.resize(cv2.resize(runs, (shape[1], 6), interpolation=cv2.INTER_AREA), (shape[1], shape[0]), interpolation=cv2.INTER_CUBIC), .25, .8)
    streak = streak * (0 if lying else 1) * rng.uniform(0, .45) * np.clip(1.2 - down, 0, 1) * (.7 + .3 * tone)
    layers: list[tuple[tuple[float, float, float], Array, float]] = [(film_tint, np.clip(film, 0, .8), 0.), (film_tint, np.clip(streak, 0, .6), 0.)]
    if stone.material not in ("metal",):
        tints = [(.42, .43, .37), (.33, .35, .29), (.5, .49, .44), (.45, .24, .03), (.35, .36, .10), (.035, .035, .033), (.2, .22, .16)]
        growing = substance.growth * (.25 + severity) * (1.5 if lying else 1)
        for tint_index in rng.permutation(len(tints))[: int(rng.integers(1, 5))]:
            count = int(rng.gamma(1.2, 22) * growing * stone.width * stone.height / 4e5)
            if tint_index == 5:
                cover, ring = grown_discs(shape, stone.spacing, growth_seed, count * 4, 2.2)
            else:
                cover, ring = grown_discs(shape, stone.spacing, growth_seed, min(count, 160), rng.uniform(5, 15))
            texture = noise(shape, 6 * mm, growth_seed, 3, .7)
            layers.append((tuple(np.asarray(tints[tint_index])), cover * np.clip(.72 + .2 * texture + .3 * (ring - .5), 0, 1), .35))
    if rng.random() < (.4 if lying else .22):
        lime = np.zeros(shape, np.uint8)
        for _ in range(int(rng.integers(1, 5))):
            x, y, r = rng.uniform(0, shape[1]), rng.uniform(0, shape[0] * .8), rng.uniform(5, 13) * mm
            for _ in range(24):
                out = abs(rng.normal(0, 1.1))
                turn, small = rng.uniform(0, 2 * math.pi), r * rng.uniform(.12, .5) / (.7 + out)
                cv2.ellipse(lime, (int(x + r * out * math.cos(turn)), int(y + r * out * math.sin(turn))), (int(small) + 1, int(small * 1.3) + 1), 0, 0, 360, 255, -1)
            if not lying and rng.random() < .6:
                points = [(x + rng.normal(0, .4 * mm) * k ** .5, y + k * rng.uniform(4, 6) * mm) for k in range(int(rng.integers(3, 16)))]
                for k in range(1, len(points)):
                    cv2.line(lime, tuple(map(int, points[k - 1])), tuple(map(int, points[k])), 255, max(1, int((3 - 2 * k / len(points)) * mm)))
        lime_cover = blur(lime.astype(np.float32) / 255, .7 * mm)
        layers.append(((.66, .65, .6), lime_cover * np.clip(.75 + .2 * noise(shape, 9 * mm, growth_seed, 3, .7), 0, 1), .5))
        covered = np.maximum(covered, lime_cover)
    if rng.random() < (.5 if lying else .12) * severity * substance.growth:
        cushions = step(noise(shape, 70 * mm, rng, 5, .55) + (.9 * (down - .6) if not lying else 1.2 * step(-inside, -60, 0)), 1.35, 1.7)
        layers.append(((.05, .075, .018), cushions * .97, 3.))
        covered = np.maximum(covered, cushions)
    for tint, amount, thick in layers:
        mottle = 1 + .12 * noise(shape, 5 * mm, growth_seed, 3, .7) if thick else 1.
        colour = colour + (np.asarray(tint, np.float32) * (np.ones(shape, np.float32) * mottle)[..., None] - colour) * amount[..., None]
        plain_colour = plain_colour + (np.asarray(tint, np.float32) * (np.ones(shape, np.float32) * mottle)[..., None] - plain_colour) * amount[..., None]
        if thick:
            bumps = amount * thick * (.7 + .3 * noise(shape, 7 * mm, growth_seed, 3, .7))
            filled = 1 - np.clip(amount * (thick / 3), 0, .95)
            relief, plain = plain + (relief - plain) * filled + bumps, plain + bumps
            rough = np.maximum(rough, amount * .95)
    stone.relief, stone.plain = relief.astype(np.float32), plain.astype(np.float32)
    stone.colour, stone.plain_colour = np.clip(colour, .004, .85).astype(np.float32), np.clip(plain_colour, .004, .85).astype(np.float32)
    stone.rough, stone.gone, stone.covered = np.clip(rough, .12, 1.).astype(np.float32), gone, covered
    stone.metallic = .55 if stone.material == "metal" else 0.


# ---------------------------------------------------------------- truth

CLEAR, UNCLEAR, FAINTEST = .72, .38, .012
LOST_SHARE, COVERED_SHARE, HALF_COVERED = .62, .68, .38


def shaded(relief: Array, colour: Array, spacing: float, sun: Vector | None, sun_strength: float, sky: float, pixel: float) -> Array:
    """The logarithm of the brightness of a face under sun and sky as a camera with pixels of so many mm sees it."""
    gy, gx = np.gradient(relief / spacing)
    length = np.sqrt(1 + gx ** 2 + gy ** 2)
    light = sky * np.clip(1 + .28 * (relief - blur(relief, 5 / spacing)), .3, 1.3) * (.75 + .25 * (1 + gy) / length)
    if sun is not None:
        light = light + sun_strength * np.clip((-gx * sun.x + gy * sun.y + sun.z) / length, 0, None)
    return np.log(blur((light * colour.mean(2)).astype(np.float32), .45 * pixel / spacing) + .004)


def traces(stone: Stone, sun: Vector | None, sun_strength: float, sky: float, pixel_mm: float) -> list[Array]:
    """What the letters alone do to the brightness of a face, in several ways of which any mixture may be seen: by sun and sky,
    by sky, by depth, and by slopes."""
    fields = []
    for light, strength in (((sun, sun_strength), (None, 0.)) if sun is not None else ((None, 0.),)):
        fields.append(shaded(stone.relief, stone.colour, stone.spacing, light, strength, sky, pixel_mm)
                      - shaded(stone.plain, stone.plain_colour, stone.spacing, light, strength, sky, pixel_mm))
    depth = blur(stone.relief - stone.plain, .45 * pixel_mm / stone.spacing)
    rise, run = np.gradient(depth)
    return fields + [depth, rise, run]


def explained(seen: Array, known: Array) -> tuple[float, float]:
    """How much of the power of what is seen a mixture of the known explains, and how much it leaves."""
    known = known / (np.sqrt((known ** 2).mean(0)) + 1e-4)
    known -= known.mean(0)
    fit = known @ np.linalg.solve(known.T @ known + np.eye(known.shape[1]) * (1e-3 * len(seen)), known.T @ seen)
    return float((fit ** 2).mean()), float(((seen - fit) ** 2).mean())


def by_quarters(seen: Array, known: Array, own: Array, strokes: Array) -> float:
    """The mean strength of a letter's quarters, each counted by the strokes in it and none for more than .9: half a letter that
    stands out doesn't make the other half legible."""
    fit = np.zeros(own.shape)
    left_over = np.zeros(own.shape)
    mixture = known[own] / (np.sqrt((known[own] ** 2).mean(0)) + 1e-4)
    mixture -= mixture.mean(0)
    fit[own] = mixture @ np.linalg.solve(mixture.T @ mixture + np.eye(mixture.shape[1]) * (1e-3 * len(seen)), mixture.T @ seen)
    left_over[own] = seen - fit[own]
    tall, wide = (size // 2 for size in own.shape)
    total = weight = 0.
    for rows in (slice(0, tall), slice(tall, None)):
        for columns in (slice(0, wide), slice(wide, None)):
            near = cv2.dilate(strokes[rows, columns].astype(np.uint8), np.ones((5, 5), np.uint8)).astype(bool) & own[rows, columns]
            share = float(strokes[rows, columns].sum())
            if share and near.any():
                power = float((fit[rows, columns][near] ** 2).mean())
                rest = float((left_over[rows, columns][near] ** 2).mean())
                total += share * min(.9, math.sqrt(power / (rest + FAINTEST ** 2)))
                weight += share
    return total / weight if weight else 0.


def strengths_in(picture_values: Array, stone: Stone, to_picture: Array, fields: list[Array], pixel_mm: float) -> list[float]:
    """For each letter how many times what it does to the picture is stronger than what else varies there.

    The picture is laid on the face's grid; round each letter its brightness is explained by the letters' fields as well as may
    be, and what was explained, less what the same fields explain when they are moved by half a letter, is compared with the
    rest."""
    laid = cv2.warpPerspective(picture_values, to_picture, (stone.shape[1], stone.shape[0]), flags=cv2.INTER_LINEAR | cv2.WARP_INVERSE_MAP)
    result = []
    thick = cv2.dilate(stone.labels.astype(np.float32), np.ones((3, 3), np.uint8)).astype(np.int32)
    for number, letter in enumerate(stone.letters):
        if letter.character == " " or not letter.box[2]:
            result.append(0.)
            continue
        capital = letter.capital_mm / stone.spacing
        pad, margin = int(capital * .16) + 2, int(capital * .8) + 2
        x0, y0, x1, y1 = letter.box
        outer = (slice(max(0, y0 - margin), y1 + margin), slice(max(0, x0 - margin), x1 + margin))
        top, left = y0 - max(0, y0 - margin), x0 - max(0, x0 - margin)
        inner = (slice(max(0, top - pad), top + y1 - y0 + pad), slice(max(0, left - pad), left + x1 - x0 + pad))

        whose = thick[outer][inner]
        own = (whose == 0) | (whose == number + 1)

        def passed(values: Array) -> Array:
            part = values[outer]
            return (blur(part, min(.035 * capital, .8 / stone.spacing)) - blur(part, min(.5 * capital, 14 / stone.spacing)))[inner].astype(np.float64)

        seen = passed(laid)[own]
        seen -= seen.mean()
        known = np.stack([passed(values) for values in fields], 2)
        power, rest = explained(seen, known[own])
        tall, wide = own.shape
        by_chance = [explained(seen, np.roll(known, shift, (0, 1))[own])[0] for shift in ((tall // 2, 0), (0, wide // 2), (tall // 2, wide // 2))]
        power = max(0., power - float(np.median(by_chance)))
        size = float(np.clip((letter.capital_mm / pixel_mm - 5) / 6, .1, 1))
        whole = math.sqrt(power / (rest + FAINTEST ** 2))
        result.append(size * min(whole, 1.1 * by_quarters(seen, known, own, whose == number + 1)))
    return result


def judge(stone: Stone, strengths: list[list[float]], hidden: Array) -> None:
    """Sets each letter's state by the best of the pictures."""
    for number, letter in enumerate(stone.letters):
        if letter.character == " " or not letter.box[2]:
            continue
        letter.strength = max(of_picture[number] for of_picture in strengths)
        x0, y0, x1, y1 = letter.box
        own = stone.labels[y0:y1, x0:x1] == number + 1
        if not own.any():
            letter.state = "trace"
            continue
        if not stone.mask[y0:y1, x0:x1][own].mean() > .5:
            letter.state = "lost"
            continue
        cover = np.maximum(stone.covered[y0:y1, x0:x1], hidden[y0:y1, x0:x1])
        letter.state = state_of(letter.strength, float(stone.gone[y0:y1, x0:x1][own].mean()), float((cover[own] > .5).mean()))


def state_of(strength: float, share_gone: float, share_covered: float) -> str:
    """What a careful reader could say of a letter."""
    if share_gone > LOST_SHARE or share_covered > COVERED_SHARE:
        return "lost"
    if strength < UNCLEAR:
        return "trace"
    if strength < CLEAR or share_covered > HALF_COVERED or share_gone > .2:
        return "unclear"
    return "clear"


def leiden(letters: list[Letter]) -> str:
    """A line in Leiden signs."""
    signs: list[str] = []
    for position, letter in enumerate(letters):
        if letter.character == " ":
            neighbours = [letters[i].state for i in (position - 1, position + 1) if 0 <= i < len(letters)]
            signs.append("lost" if len(neighbours) == 2 and set(neighbours) == {"lost"} else " ")
        elif letter.state == "lost":
            signs.append("lost")
        elif not letter.character.isalnum():
            signs.append(letter.character if letter.state != "trace" else "")
        elif letter.state == "trace":
            signs.append("+")
        else:
            signs.append(letter.character + ("\u0323" if letter.state == "unclear" else ""))
    text, position = "", 0
    while position < len(signs):
        if signs[position] == "lost":
            run = position
            while run < len(signs) and signs[run] == "lost":
                run += 1
            text += "[" + "." * (run - position) + "]"
            position = run
        else:
            text += signs[position]
            position += 1
    return " ".join(text.split())


def legibility(letters: list[Letter], strengths: list[float]) -> str:
    """How a line reads on one picture."""
    pairs = [(letter, strength) for letter, strength in zip(letters, strengths) if letter.character.isalnum()]
    if not pairs:
        return "legible"
    clear = sum(letter.state != "lost" and strength >= CLEAR for letter, strength in pairs) / len(pairs)
    made_out = sum(letter.state != "lost" and strength >= UNCLEAR for letter, strength in pairs) / len(pairs)
    if made_out <= .5:
        return "poor"
    lost = sum(letter.state == "lost" for letter, _ in pairs) / len(pairs)
    return "legible" if clear >= .8 and lost <= .12 else "worn"


# ---------------------------------------------------------------- scene

def new_mesh(name: str, vertices: Array, faces: Array, material, smooth: bool = False, colours: Array | None = None):
    """An object from arrays; the faces all have as many corners as the array has columns."""
    mesh = bpy.data.meshes.new(name)
    mesh.vertices.add(len(vertices))
    mesh.vertices.foreach_set("co", np.ascontiguousarray(vertices, np.float32).ravel())
    corners = faces.shape[1]
    mesh.loops.add(faces.size)
    mesh.loops.foreach_set("vertex_index", np.ascontiguousarray(faces, np.int32).ravel())
    mesh.polygons.add(len(faces))
    mesh.polygons.foreach_set("loop_start", np.arange(0, faces.size, corners, dtype=np.int32))
    mesh.polygons.foreach_set("loop_total", np.full(len(faces), corners, np.int32))
    mesh.polygons.foreach_set("use_smooth", np.full(len(faces), smooth, bool))
    mesh.update(calc_edges=True)
    if colours is not None:
        layer = mesh.color_attributes.new("tint", "FLOAT_COLOR", "POINT")
        layer.data.foreach_set("color", np.ascontiguousarray(np.hstack([colours, np.ones((len(colours), 1))]), np.float32).ravel())
    mesh.materials.append(material)
    thing = bpy.data.objects.new(name, mesh)
    bpy.context.scene.collection.objects.link(thing)
    return thing


def image_from(name: str, pixels: Array):
    """A Blender image of linear values; row 0 of the array is the top."""
    rows, columns = pixels.shape[:2]
    image = bpy.data.images.new(name, columns, rows, alpha=True, float_buffer=True)
    image.colorspace_settings.name = "Non-Color"
    image.alpha_mode = "CHANNEL_PACKED"
    rgba = np.ones((rows, columns, 4), np.float32)
    rgba[..., :pixels.shape[2]] = pixels
    image.pixels.foreach_set(np.ascontiguousarray(rgba[::-1]).ravel())
    return image


def node_material(name: str):
    """A material with its nodes and its principled shader."""
    material = bpy.data.materials.new(name)
    material.use_nodes = True
    shader = material.node_tree.nodes["Principled BSDF"]
    shader.inputs["Specular"].default_value = .25
    return material, material.node_tree, shader


def stone_material(stone: Stone):
    """Colour and roughness of the face from images laid flat on it."""
    material, tree, shader = node_material("face")
    picture = tree.nodes.new("ShaderNodeTexImage")
    picture.image = image_from("face", np.dstack([stone.colour, stone.rough]))
    picture.extension = "EXTEND"
    place = tree.nodes.new("ShaderNodeTexCoord")
    fit = tree.nodes.new("ShaderNodeMapping")
    fit.inputs["Location"].default_value = (.5, 0, 0)
    fit.inputs["Scale"].default_value = (1000 / stone.width, 1000 / stone.height, 1)
    tree.links.new(place.outputs["Object"], fit.inputs["Vector"])
    tree.links.new(fit.outputs["Vector"], picture.inputs["Vector"])
    tree.links.new(picture.outputs["Color"], shader.inputs["Base Color"])
    tree.links.new(picture.outputs["Alpha"], shader.inputs["Roughness"])
    shader.inputs["Metallic"].default_value = stone.metallic
    return material


def mottled_material(name: str, first, second, scale: float, roughness: float = .95):
    """Two colours mixed by noise."""
    material, tree, shader = node_material(name)
    pattern = tree.nodes.new("ShaderNodeTexNoise")
    pattern.inputs["Scale"].default_value = scale
    pattern.inputs["Detail"].default_value = 5
    place = tree.nodes.new("ShaderNodeTexCoord")
    ramp = tree.nodes.new("ShaderNodeValToRGB")
    ramp.color_ramp.elements[0].color, ramp.color_ramp.elements[0].position = (*first, 1), .38
    ramp.color_ramp.elements[1].color, ramp.color_ramp.elements[1].position = (*second, 1), .62
    tree.links.new(place.outputs["Object"], pattern.inputs["Vector"])
    tree.links.new(pattern.outputs["Fac"], ramp.inputs["Fac"])
    tree.links.new(ramp.outputs["Color"], shader.inputs["Base Color"])
    shader.inputs["Roughness"].default_value = roughness
    return material


def leaf_material():
    """Leaves and blades: coloured by vertex, some light passes through."""
    material, tree, shader = node_material("leaf")
    tint = tree.nodes.new("ShaderNodeVertexColor")
    tint.layer_name = "tint"
    through = tree.nodes.new("ShaderNodeBsdfTranslucent")
    mix = tree.nodes.new("ShaderNodeMixShader")
    mix.inputs["Fac"].default_value = .3
    tree.links.new(tint.outputs["Color"], shader.inputs["Base Color"])
    tree.links.new(tint.outputs["Color"], through.inputs["Color"])
    tree.links.new(shader.outputs["BSDF"], mix.inputs[1])
    tree.links.new(through.outputs["BSDF"], mix.inputs[2])
    tree.links.new(mix.outputs["Shader"], tree.nodes["Material Output"].inputs["Surface"])
    shader.inputs["Roughness"].default_value = .55
    return material


def add_stone(stone: Stone, matrix: Matrix, thickness: float) -> None:
    """The face as a mesh, and the body behind it. Locally x is right, y up the face from its foot, z out of it."""
    rows, columns = stone.shape
    keep = stone.mask
    rim = keep & ~cv2.erode(keep.astype(np.uint8), np.ones((3, 3), np.uint8), borderValue=0).astype(bool)
    heights = np.where(rim, np.minimum(stone.relief, -stone.arris - 2), stone.relief)
    index = -np.ones(stone.shape, np.int32)
    index[keep] = np.arange(keep.sum())
    y, x = np.nonzero(keep)
    across, up = stone.width / columns, stone.height / rows
    vertices = np.column_stack([(x + .5) * across - stone.width / 2, (rows - .5 - y) * up, heights[keep]]) / 1000
    whole = keep[:-1, :-1] & keep[1:, :-1] & keep[:-1, 1:] & keep[1:, 1:]
    faces = np.column_stack([index[1:, :-1][whole], index[1:, 1:][whole], index[:-1, 1:][whole], index[:-1, :-1][whole]])
    face = new_mesh("face", vertices, faces, stone_material(stone), smooth=True)
    face.matrix_world = matrix
    contour = max(cv2.findContours(keep.astype(np.uint8), cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)[0], key=len)
    contour = cv2.approxPolyDP(contour, 1.2, True)[:, 0].astype(float)
    points = np.column_stack([(contour[:, 0] + .5) * across - stone.width / 2, (rows - .5 - contour[:, 1]) * up]) / 1000
    count = len(points)
    front = -(stone.arris + 1) / 1000
    body = np.vstack([np.column_stack([points, np.full(count, front)]), np.column_stack([points, np.full(count, -thickness)])])
    ring = np.arange(count)
    sides = np.column_stack([ring, np.roll(ring, -1), np.roll(ring, -1) + count, ring + count])
    mean = stone.colour[keep].mean(0)
    block = new_mesh("body", body, sides, mottled_material("side", tuple(mean * .6), tuple(mean * 1.05), 25))
    block.matrix_world = matrix


GREENS = np.array([(.055, .10, .018), (.075, .12, .025), (.10, .13, .035), (.045, .08, .02), (.17, .15, .07)], np.float32)


def grow_grass(rng: Rng, roots: Array, lengths: Array, material) -> Array:
    """Blades at the roots; gives their vertices (blade, 7, 3), by which the truth knows what they hide."""
    count = len(roots)
    heading = rng.uniform(0, 2 * math.pi, count)
    bend = rng.gamma(2., .28, count) * lengths
    width = rng.uniform(.0012, .0028, count)
    side = np.column_stack([-np.sin(heading), np.cos(heading), np.zeros(count)])
    along = np.column_stack([np.cos(heading), np.sin(heading), np.zeros(count)])
    origin = np.column_stack([roots, np.full(count, -.01)])
    blades = np.zeros((count, 7, 3), np.float32)
    for level, (height, out, wide) in enumerate(((0, 0, 1.), (.45, .12, .95), (.8, .45, .7))):
        centre = origin + along * (bend * out)[:, None] + np.array([0, 0, 1.]) * (lengths * height)[:, None]
        blades[:, 2 * level] = centre - side * (width * wide)[:, None]
        blades[:, 2 * level + 1] = centre + side * (width * wide)[:, None]
    blades[:, 6] = origin + along * bend[:, None] + np.array([0, 0, 1.]) * (lengths * np.clip(1.05 - .25 * bend / lengths, .3, 1))[:, None]
    base = np.arange(count)[:, None] * 7
    faces = np.vstack([base + np.array(corners) for corners in ((0, 1, 3, 2), (2, 3, 5, 4), (4, 5, 6, 6))])
    triangles = np.vstack([faces[:2 * count][:, [0, 1, 2]], faces[:2 * count][:, [0, 2, 3]], faces[2 * count:][:, :3]])
    tint = GREENS[rng.choice(len(GREENS), count, p=(.3, .3, .2, .12, .08))] * rng.uniform(.75, 1.35, (count, 1))
    shade = np.array([.55, .55, .9, .9, 1.1, 1.1, 1.2])[None, :, None]
    new_mesh("grass", blades.reshape(-1, 3), triangles, material, colours=(tint[:, None, :] * shade).reshape(-1, 3))
    return blades


def leaf_cloud(rng: Rng, centre: tuple[float, float, float], radii: tuple[float, float, float], count: int, size: float, tint, material) -> None:
    """A crown of leaves: cards in clumps through an ellipsoid."""
    clumps = rng.standard_normal((max(6, count // 60), 3))
    clumps /= np.linalg.norm(clumps, axis=1, keepdims=True) / rng.uniform(.35, 1, (len(clumps), 1)) ** .5
    middle = clumps[rng.integers(len(clumps), size=count)] + rng.normal(0, .16, (count, 3))
    middle = middle * np.array(radii) + np.array(centre)
    first = rng.standard_normal((count, 3))
    first /= np.linalg.norm(first, axis=1, keepdims=True)
    second = np.cross(first, rng.standard_normal((count, 3)))
    second /= np.linalg.norm(second, axis=1, keepdims=True)
    scale = size * rng.uniform(.5, 1.3, (count, 1))
    vertices = np.stack([middle - first * scale, middle - second * scale * .5, middle + first * scale, middle + second * scale * .5], 1).reshape(-1, 3)
    colours = np.repeat(np.asarray(tint) * rng.uniform(.6, 1.5, (count, 1)) * np.array([1, 1, 1]), 4, axis=0)
    new_mesh("leaves", vertices, np.arange(count * 4).reshape(-1, 4), material, colours=colours)


def box(name: str, low, high, material, turn: float = 0., lean: float = 0.):
    """A box between two corners, turned about its middle."""
    low, high = np.array(low, float), np.array(high, float)
    middle = (low + high) / 2
    half = (high - low) / 2
    corners = np.array([(x, y, z) for x in (-1, 1) for y in (-1, 1) for z in (-1, 1)]) * half
    faces = np.array([(0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3)])
    thing = new_mesh(name, corners, faces, material)
    thing.matrix_world = Matrix.Translation(Vector(middle)) @ Euler((lean, lean / 2, turn)).to_matrix().to_4x4()
    return thing


def neighbour(rng: Rng, x: float, y: float, material) -> None:
    """Another stone, plain, with a round or straight head."""
    width, height, count = rng.uniform(.45, .8), rng.uniform(.6, 1.3), 24
    if rng.random() < .35:
        box("neighbour", (x - width / 2, y - .05, -.1), (x + width / 2, y + .05, height), material, rng.normal(0, .15), rng.normal(0, .06))
        return
    angle = np.linspace(0, math.pi, count)
    rise = rng.uniform(.3, 1) * width / 2
    profile = np.vstack([np.column_stack([width / 2 * np.cos(angle), height - rise + rise * np.sin(angle)]), [(-width / 2, -.1), (width / 2, -.1)]])
    total = len(profile)
    vertices = np.vstack([np.column_stack([profile[:, 0], np.full(total, -.05), profile[:, 1]]), np.column_stack([profile[:, 0], np.full(total, .05), profile[:, 1]])])
    ring = np.arange(total)
    sides = np.column_stack([ring, np.roll(ring, -1), np.roll(ring, -1) + total, ring + total])
    fan = np.column_stack([np.zeros(total - 2, int), ring[1:-1], ring[2:], ring[2:]])[:, :3]
    place = Matrix.Translation((x, y, 0)) @ Euler((rng.normal(0, .06), rng.normal(0, .05), rng.normal(0, .2))).to_matrix().to_4x4()
    new_mesh("neighbour side", vertices, sides, material).matrix_world = place
    new_mesh("neighbour front", vertices, np.vstack([fan, fan + total]), material).matrix_world = place


def sky_world(rng: Rng, overcast: bool, strength: float, sun_azimuth: float) -> None:
    """A sky from an image: clouds over blue, or grey, paler at the horizon."""
    rows, columns = 256, 512
    up = np.linspace(1, -1, rows)[:, None] * np.ones((1, columns))
    height = np.clip(up, 0, 1)
    clouds = noise((rows, columns), 60, rng, 6, .55, stretch=2.)
    if overcast:
        sky = np.ones((rows, columns, 3)) * np.array([.92, .97, 1.03]) * (.65 + .45 * height)[..., None] * (1 + .07 * clouds)[..., None]
    else:
        blue = np.array([.30, .52, 1.0]) * .42 + np.array([.62, .72, .8]) * (1 - height)[..., None] ** 4 * .8
        azimuth = np.linspace(-math.pi, math.pi, columns)[None, :]
        glow = np.exp(-((azimuth - sun_azimuth + math.pi) % (2 * math.pi) - math.pi) ** 2) * .25
        white = step(clouds, rng.uniform(-.3, 1.4), 2.2) * .9
        sky = blue * (1 + glow)[..., None] * (1 - white)[..., None] + white[..., None] * np.array([.95, .96, 1.]) * .8
    sky = np.where(up[..., None] < -.02, np.array([.06, .08, .03]), sky)
    world = bpy.data.worlds.new("sky")
    bpy.context.scene.world = world
    world.use_nodes = True
    tree = world.node_tree
    picture = tree.nodes.new("ShaderNodeTexEnvironment")
    picture.image = image_from("sky", sky.astype(np.float32))
    tree.links.new(picture.outputs["Color"], tree.nodes["Background"].inputs["Color"])
    tree.nodes["Background"].inputs["Strength"].default_value = strength
    world.cycles.sampling_method = "MANUAL"
    world.cycles.sample_map_resolution = 256


def add_sun(direction: Vector, strength: float, warmth: float, softness: float = .0093):
    """A sun that shines from the direction."""
    lamp = bpy.data.lights.new("sun", "SUN")
    lamp.energy, lamp.angle = strength, softness
    lamp.color = (1, 1 - .18 * warmth, 1 - .42 * warmth)
    thing = bpy.data.objects.new("sun", lamp)
    thing.rotation_euler = direction.to_track_quat("Z", "Y").to_euler()
    bpy.context.scene.collection.objects.link(thing)
    return thing


@dataclass
class Camera:
    """A pinhole camera: where it stands, how it is turned, how long its lens is in pixels."""
    matrix: Matrix
    focal: float
    width: int
    height: int

    def project(self, points: Array) -> Array:
        """Pixels of points in the world."""
        inverse = np.array(self.matrix.inverted())
        local = points @ inverse[:3, :3].T + inverse[:3, 3]
        depth = np.maximum(-local[:, 2:3], .01)
        return np.hstack([self.width / 2 + self.focal * local[:, :1] / depth, self.height / 2 - self.focal * local[:, 1:2] / depth])


def aim(place: Vector, target: Vector, roll: float, corners: Array, fill: float, width: int, height: int) -> Camera:
    """A camera whose lens is chosen so that the corners fill the given share of the picture."""
    turn = (target - place).to_track_quat("-Z", "Y").to_matrix().to_4x4() @ Matrix.Rotation(roll, 4, "Z")
    camera = Camera(Matrix.Translation(place) @ turn, 1000., width, height)
    seen = (camera.project(corners) - [width / 2, height / 2]) / [width / 2, height / 2]
    camera.focal = 1000. * fill / float(np.abs(seen).max())
    return camera


def set_camera(camera: Camera, focus: float, stop: float) -> None:
    """Makes it the scene's camera."""
    data = bpy.data.cameras.new("camera")
    data.sensor_width, data.sensor_fit = 36., "HORIZONTAL"
    data.lens = camera.focal / camera.width * 36
    data.clip_start = .05
    data.dof.use_dof, data.dof.focus_distance, data.dof.aperture_fstop = True, focus, stop * max(1., data.lens / 12)
    thing = bpy.data.objects.new("camera", data)
    thing.matrix_world = camera.matrix
    bpy.context.scene.collection.objects.link(thing)
    bpy.context.scene.camera = thing


def prepare_render(width: int, height: int, samples: int, seed: int) -> None:
    """Cycles on one processor thread."""
    scene = bpy.context.scene
    scene.render.engine = "CYCLES"
    scene.cycles.device, scene.cycles.samples, scene.cycles.seed = "CPU", samples, seed
    scene.cycles.use_denoising = False
    scene.cycles.use_adaptive_sampling, scene.cycles.adaptive_threshold, scene.cycles.adaptive_min_samples = True, .06, 8
    scene.cycles.max_bounces, scene.cycles.diffuse_bounces, scene.cycles.glossy_bounces = 1, 0, 1
    scene.cycles.transmission_bounces = scene.cycles.transparent_max_bounces = 0
    scene.cycles.sample_clamp_indirect, scene.cycles.sample_clamp_direct = 2., 12.
    scene.cycles.caustics_reflective = scene.cycles.caustics_refractive = False
    scene.render.threads_mode, scene.render.threads = "FIXED", 1
    scene.render.resolution_x, scene.render.resolution_y, scene.render.resolution_percentage = width, height, 100
    scene.render.image_settings.file_format, scene.render.image_settings.color_depth = "OPEN_EXR", "32"
    scene.render.use_persistent_data = True


def render(width: int, height: int, kept: Path | None) -> Array:
    """Renders, or reads what was kept of an earlier run; linear values, row 0 on top."""
    if kept is not None and kept.exists():
        return np.load(kept)["linear"].astype(np.float32)
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "picture.exr")
        bpy.context.scene.render.filepath = path
        bpy.ops.render.render(write_still=True)
        image = bpy.data.images.load(path)
        pixels = np.empty(width * height * 4, np.float32)
        image.pixels.foreach_get(pixels)
        bpy.data.images.remove(image)
    linear = np.minimum(pixels.reshape(height, width, 4)[::-1, :, :3], 6e4).astype(np.float16)
    if kept is not None:
        kept.parent.mkdir(parents=True, exist_ok=True)
        np.savez(kept, linear=linear)
    return linear.astype(np.float32)


def calm(linear: Array, strength: float) -> Array:
    """The noise reduction of a telephone: like places near each other are averaged, on a scale even to the eye."""
    top = float(np.percentile(linear, 99.5)) + 1e-6
    curved = (np.clip(linear / top, 0, 1) ** .45 * 255).astype(np.uint8)
    calmed = cv2.fastNlMeansDenoisingColored(curved, None, strength * .5, strength, 5, 11).astype(np.float32)
    low = (calmed / 255) ** (1 / .45) * top
    return np.where(linear < top, low, linear).astype(np.float32)


def develop(linear: Array, rng: Rng, face_box: tuple[int, int, int, int], path: Path, exposure: float, quality: int, softness: float, grain: float) -> Array:
    """Exposure, lens, noise, tone and JPEG; gives the brightness of the picture as written, from 0 to 1."""
    height, width = linear.shape[:2]
    x0, y0, x1, y1 = face_box
    sample = linear[max(0, y0):y1, max(0, x0):x1]
    whole = np.median(linear.mean(2))
    level = .7 * float(np.median(sample.mean(2))) + .3 * float(whole)
    target = .25 * (max(level, .01) / .2) ** .35
    image = linear * (target / max(level, 1e-4) * 2 ** exposure)
    image *= np.array([1 + rng.normal(0, .035), 1., 1 + rng.normal(0, .05)], np.float32)
    yy, xx = np.mgrid[-1:1:height * 1j, -1:1:width * 1j]
    image *= (1 - rng.uniform(.05, .22) * (xx ** 2 + yy ** 2) / 2)[..., None]
    image = cv2.GaussianBlur(image.astype(np.float32), (0, 0), softness)
    image = calm(image, 6.)
    image += rng.standard_normal(image.shape).astype(np.float32) * np.sqrt(np.clip(image, 0, 4)) * grain * .6 + rng.standard_normal(image.shape).astype(np.float32) * grain * .08
    image = np.clip(image, 0, None)
    image = image * (1 + image / 9) / (1 + image * .9) * 1.28
    image = np.clip(image, 0, 1) ** (1 / 2.2)
    image = np.clip(image + (image - .45) * rng.uniform(0, .12), 0, 1)
    sharp = image + rng.uniform(0, .5) * (image - cv2.GaussianBlur(image.astype(np.float32), (0, 0), 1.4))
    Image.fromarray((np.clip(sharp, 0, 1) * 255).astype(np.uint8)).save(path, quality=quality, subsampling=2 if quality < 88 else 0)
    return np.asarray(Image.open(path).convert("L"), np.float32) / 255


# ---------------------------------------------------------------- putting a picture together

TEXTS = {"early": early_text, "georgian": georgian_text, "victorian": victorian_text, "modern": modern_text, "soldier": soldier_text,
         "roll": roll_text, "footstone": footstone_text}
USUAL = ("victorian", "georgian", "early", "modern", "georgian", "victorian", "soldier", "footstone", "victorian", "georgian",
         "modern", "early", "victorian", "roll", "georgian", "modern", "victorian", "early", "footstone", "georgian")
USUAL_LIGHTS = ("raking", "overcast", "raking", "frontal", "dappled", "raking", "overcast", "shade", "raking", "low")
ABOVE = ("early", "georgian", "victorian", "georgian", "modern", "early", "victorian", "georgian")
ABOVE_LIGHTS = ("raking", "overcast", "dappled", "raking", "overcast", "raking", "low", "raking")


def build_stone(rng: Rng, period: str, kind: str, spare: float) -> Stone:
    """A weathered stone with its text; `spare` is the least share of the foot left blank."""
    lines, year = TEXTS[period](rng)
    lying = kind == "above"
    lettering = "cut"
    if period == "early":
        material = choose(rng, ("slate", "sandstone", "limestone", "sandstone"))
    elif period in ("georgian", "footstone"):
        material = choose(rng, ("slate", "sandstone", "limestone", "sandstone", "slate"))
    elif period == "victorian":
        material = choose(rng, ("marble", "sandstone", "granite", "limestone", "slate", "metal"))
    else:
        material = choose(rng, ("marble", "granite", "limestone", "limestone", "marble", "metal" if period == "roll" else "granite"))
    if kind == "sets" and material in ("granite", "metal"):
        material = choose(rng, ("sandstone", "marble", "limestone"))
    if material == "metal":
        lettering = "raised"
    elif material == "granite":
        lettering = choose(rng, ("gilt", "paint", "lead", "cut"))
    elif material == "marble" and rng.random() < .5:
        lettering = choose(rng, ("lead", "paint"))
    elif material == "sandstone" and rng.random() < .12:
        lettering = "raised"
    severity = float(np.clip(rng.beta(1.6, 2.0) * 1.1 + (.08 if year < 1800 else -.1), .04, 1.05))
    if kind == "sets":
        severity = float(rng.uniform(.5, .95))
        lettering = "cut"
    shape_kind = choose(rng, ("round", "segment", "shoulders", "ogee", "plain", "scroll") if year < 1840 else ("round", "gothic", "segment", "plain", "ogee", "plain"))
    width = rng.uniform(480, 800)
    height = width * (rng.uniform(1.15, 1.45) + (.22 if len(lines) > 7 else 0))
    if period == "footstone":
        width, height = rng.uniform(300, 420), rng.uniform(380, 560)
    if material == "metal" or lying or period == "soldier":
        shape_kind = "plain" if material == "metal" or lying else "segment"
    if lying:
        width, height = rng.uniform(600, 800), rng.uniform(900, 1350)
    spacing = math.sqrt(width * height / 7.5e5)
    shape = (int(height / spacing), int(width / spacing))
    spacing = width / shape[1]
    mask = outline(shape_kind, shape, rng)
    if lying:
        mask[-2:] = False
    stone = Stone(width, height, spacing, material, severity, mask, arris=rng.uniform(4, 10))
    chisel = Chisel(shape, spacing, rng)
    lay_out(stone, chisel, rng, lines, year, shape_kind, spare if not lying else rng.uniform(.08, .3))
    weather(stone, chisel, rng, year, lettering, lying)
    return stone


def stone_matrix(rng: Rng, stone: Stone, lying: bool, buried: float) -> Matrix:
    """How the stone stands or lies in the world."""
    lean = Euler((rng.normal(0, .03), rng.normal(0, .018), rng.normal(0, .02))).to_matrix().to_4x4()
    if lying:
        return Matrix.Translation((0, -stone.height / 2000, rng.uniform(.03, .09))) @ Euler((rng.normal(0, .012), rng.normal(0, .012), 0)).to_matrix().to_4x4()
    return lean @ Matrix.Translation((0, 0, -buried)) @ Matrix.Rotation(math.pi / 2, 4, "X")


def face_points(stone: Stone, matrix: Matrix, columns: Array, rows: Array) -> Array:
    """Places in the world of samples of the face's grid."""
    local = np.column_stack([(columns / stone.shape[1] - .5) * stone.width / 1000, (1 - rows / stone.shape[0]) * stone.height / 1000,
                             np.zeros(len(columns)), np.ones(len(columns))])
    return (local @ np.array(matrix).T)[:, :3]


def hidden_by_grass(stone: Stone, matrix: Matrix, camera: Camera, blades: Array, lying: bool) -> Array:
    """Per sample of the grid, 1 where a blade stands before it."""
    picture = np.zeros((camera.height, camera.width), np.uint8)
    near = blades if lying else blades[blades[:, 0, 1] < 0]
    flat = camera.project(near.reshape(-1, 3).astype(float)).reshape(-1, 7, 2)
    inside = (np.abs(flat).max((1, 2)) < 5000)
    for blade in flat[inside]:
        cv2.fillPoly(picture, [np.round(blade[[0, 2, 4, 6, 5, 3, 1]]).astype(np.int32)], 255)
    rows, columns = np.mgrid[0:stone.shape[0]:4, 0:stone.shape[1]:4]
    pixels = camera.project(face_points(stone, matrix, columns.ravel(), rows.ravel())).round().astype(int)
    ok = (pixels >= 0).all(1) & (pixels[:, 0] < camera.width) & (pixels[:, 1] < camera.height)
    seen = np.ones(len(pixels), np.float32)
    seen[ok] = picture[pixels[ok, 1], pixels[ok, 0]] / 255
    return cv2.resize(seen.reshape(rows.shape), (stone.shape[1], stone.shape[0]), interpolation=cv2.INTER_LINEAR)


def surroundings(rng: Rng, stone: Stone, lying: bool, buried_grass: float, simple: bool) -> Array:
    """Ground, grass and what stands about; gives the blades."""
    soil = mottled_material("soil", (.022, .034, .010), (.075, .095, .03), 38.)
    new_mesh("ground", np.array([(-60, -20, 0), (60, -20, 0), (60, 90, 0), (-60, 90, 0)]), np.array([(0, 1, 2, 3)]), soil).visible_shadow = not simple
    leaf = leaf_material()
    half, depth = stone.width / 2000, .12
    count = 14000 if simple else 56000
    roots = np.column_stack([rng.normal(0, 1.2, count), -1.6 + 6 * rng.beta(1.3, 2.2, count)])
    clump = noise((256, 256), 30, rng, 4)
    tall = clump[np.clip(((roots[:, 1] + 3) * 30).astype(int), 0, 255), np.clip(((roots[:, 0] + 4) * 30).astype(int), 0, 255)]
    lengths = np.clip(rng.gamma(4., .011, count) * (1 + .45 * tall), .015, .3) * rng.uniform(.7, 1.4)
    fringe_count = int(2600 * buried_grass)
    if lying:
        edge = rng.uniform(0, 4, fringe_count)
        long = stone.height / 2000
        side = np.where(edge < 1, -1, 1)
        along = rng.uniform(-1, 1, fringe_count)
        fringe = np.where((edge < 2)[:, None], np.column_stack([side * (half + np.abs(rng.normal(0, .03, fringe_count))), along * long]),
                          np.column_stack([along * half, np.where(edge < 3, -1, 1) * (long + np.abs(rng.normal(0, .03, fringe_count)))]))
        off = (np.abs(roots[:, 0]) > half + .005) | (np.abs(roots[:, 1]) > long + .005)
    else:
        fringe = np.column_stack([rng.uniform(-half * 1.15, half * 1.15, fringe_count), -np.abs(rng.normal(.03, .035, fringe_count))])
        off = ~((np.abs(roots[:, 0]) < half + .01) & (roots[:, 1] > -.01) & (roots[:, 1] < depth + .01))
    fringe_lengths = np.clip(rng.gamma(4., .03, fringe_count), .03, .32) * (.4 + .6 * buried_grass)
    blades = grow_grass(rng, np.vstack([roots[off], fringe]), np.concatenate([lengths[off], fringe_lengths]), leaf)
    if rng.random() < .5:
        fallen = int(rng.integers(10, 90))
        places = np.column_stack([rng.uniform(-1, 1, fallen), rng.uniform(-1.2, .8, fallen)])
        for tint in ((.16, .09, .03), (.2, .13, .05)):
            part = places[rng.random(fallen) < .3]
            if len(part):
                flat = np.column_stack([part, np.full(len(part), .05)])
                turn = rng.uniform(0, 2 * math.pi, len(part))
                first = np.column_stack([np.cos(turn), np.sin(turn), rng.normal(0, .6, len(part))]) * .02
                second = np.column_stack([-np.sin(turn), np.cos(turn), rng.normal(0, .6, len(part))]) * .011
                vertices = np.stack([flat - first, flat - second, flat + first, flat + second], 1).reshape(-1, 3)
                keep = ~((np.abs(flat[:, 0]) < half + .03) & (flat[:, 1] > (-.03 if not lying else -9)))
                faces = np.arange(len(part) * 4).reshape(-1, 4)[keep]
                if len(faces):
                    new_mesh("fallen", vertices, faces, leaf, colours=np.tile(tint, (len(vertices), 1)))
    if simple or lying:
        return blades
    tones = [tuple(np.array(choose(rng, SUBSTANCES[name].colours)) * rng.uniform(.6, 1.)) for name in ("sandstone", "limestone", "marble")]
    for _ in range(int(rng.integers(3, 11))):
        x, y = rng.uniform(-5, 5), rng.uniform(1.6, 14)
        if abs(x) > half + .2 or y > 3:
            tone = np.array(choose(rng, tones))
            neighbour(rng, x, y, mottled_material("neighbour", tuple(tone * .45), tuple(tone), rng.uniform(3, 14)))
    if rng.random() < .3:
        tone = np.array(choose(rng, tones))
        wall = mottled_material("wall", tuple(tone * .4), tuple(tone * .95), 5.)
        distance = rng.uniform(5, 14)
        courses = 14
        for course in range(courses):
            x = -14 + rng.uniform(0, .5)
            while x < 14:
                long = rng.uniform(.3, .75)
                box("wall", (x, distance, course * .3), (x + long - .015, distance + .5 + rng.uniform(0, .03), course * .3 + .285), wall)
                x += long
        box("wall core", (-14, distance + .04, 0), (14, distance + .5, courses * .3), mottled_material("mortar", (.2, .18, .15), (.3, .28, .24), 9))
    bark = mottled_material("bark", (.03, .022, .015), (.08, .06, .045), 12)
    for _ in range(int(rng.integers(2, 6))):
        x, y, size = rng.uniform(-12, 12), rng.uniform(11, 30), rng.uniform(1.8, 4.5)
        tint = np.array(choose(rng, ((.03, .06, .016), (.022, .042, .016), (.06, .085, .02), (.09, .075, .02))))
        box("trunk", (x - .2, y - .2, 0), (x + .2, y + .2, size * 1.4), bark)
        leaf_cloud(rng, (x, y, size * 1.5), (size, size, size * rng.uniform(.9, 1.4)), 6000, .16, tint, leaf)
    hedge = rng.uniform(1.2, 2.6)
    for x in np.arange(-36, 37, 6.):
        leaf_cloud(rng, (x, 34 + rng.uniform(-1, 1), hedge), (4.5, 1.5, hedge * rng.uniform(.9, 1.6)), 4000, .14, (.03, .055, .02), leaf)
    return blades


def sun_for(light: str, rng: Rng, lying: bool) -> tuple[Vector | None, float, float, float]:
    """Direction in the world, the sun's and the sky's strength, warmth."""
    side = choose(rng, (-1, 1))
    if light == "overcast":
        return None, 0., 1., 0.
    if lying:
        azimuth, height = rng.uniform(0, 2 * math.pi), math.radians(rng.uniform(15, 32) if light == "raking" else rng.uniform(7, 13) if light == "low" else rng.uniform(35, 55))
        return Vector((math.cos(azimuth) * math.cos(height), math.sin(azimuth) * math.cos(height), math.sin(height))), 3.6, 1., rng.uniform(.1, .8)
    degrees = {"raking": rng.uniform(62, 82), "frontal": rng.uniform(10, 45), "dappled": rng.uniform(30, 65), "shade": rng.uniform(115, 165), "low": rng.uniform(40, 75)}[light]
    height = math.radians({"low": rng.uniform(8, 15)}.get(light, rng.uniform(25, 55)))
    away = math.radians(degrees) * side
    return (Vector((math.sin(away) * math.cos(height), -math.cos(away) * math.cos(height), math.sin(height))),
            3.8, 1., 1. if light == "low" else rng.uniform(.1, .5))


def weathering_word(severity: float) -> str:
    """The truth's word for it."""
    return "slight" if severity < .3 else "moderate" if severity < .62 else "heavy"


class Truth:
    """Collects the rows and writes both tables after each picture."""

    def __init__(self, folder: Path):
        self.folder = folder
        self.rows: list[list[str]] = []
        path = folder / "truth.tsv"
        if path.exists():
            self.rows = [row.split("\t") for row in path.read_text(encoding="utf-8").splitlines()[1:]]

    def add(self, file: str, marker: str, stone: Stone, strengths: list[float], light: str) -> None:
        """Rows of one picture."""
        self.rows = [row for row in self.rows if row[0] != file]
        for number, line in enumerate(stone.lines):
            chosen = [(letter, strength) for letter, strength in zip(stone.letters, strengths) if letter.line == number]
            letters = [letter for letter, _ in chosen]
            self.rows.append([file, marker, "E", str(number + 1), leiden(letters), line.text.replace("^", ""),
                              legibility(letters, [strength for _, strength in chosen]), stone.material, weathering_word(stone.severity), light])
        self.write()

    def write(self) -> None:
        """Both tables, in the order of the files' names."""
        self.rows.sort(key=lambda row: (row[0], int(row[3])))
        header = "file marker face line text as_cut legibility material weathering light".split()
        (self.folder / "truth.tsv").write_text("".join("\t".join(row) + "\n" for row in [header] + self.rows), encoding="utf-8")
        with open(self.folder / "manifest.csv", "w", encoding="utf-8", newline="") as out:
            writer = csv.writer(out, lineterminator="\n")
            writer.writerow(("file", "marker", "face"))
            for file, marker in sorted({(row[0], row[1]) for row in self.rows}):
                writer.writerow((file, marker, "E"))


def face_box(stone: Stone, matrix: Matrix, camera: Camera) -> tuple[int, int, int, int]:
    """The picture's box round the middle of the face."""
    rows, columns = stone.shape
    pixels = camera.project(face_points(stone, matrix, np.array([.2, .8, .2, .8]) * columns, np.array([.2, .2, .75, .75]) * rows))
    return tuple(int(v) for v in (*np.clip(pixels.min(0), 0, None), *np.clip(pixels.max(0), 2, None)))


def homography(stone: Stone, matrix: Matrix, camera: Camera) -> Array:
    """From samples of the face to pixels of the picture."""
    rows, columns = stone.shape
    corners = np.array([[0, 0], [columns, 0], [columns, rows], [0, rows]], np.float32)
    return cv2.getPerspectiveTransform(corners, camera.project(face_points(stone, matrix, corners[:, 0], corners[:, 1])).astype(np.float32))


def pixel_size(stone: Stone, matrix: Matrix, camera: Camera) -> float:
    """How many mm of the face's height a pixel covers in its middle."""
    rows, columns = stone.shape
    pixels = camera.project(face_points(stone, matrix, np.array([.5, .5]) * columns, np.array([.45, .55]) * rows))
    return .1 * stone.height / max(1e-3, float(np.hypot(*(pixels[1] - pixels[0]))))


def picture(kind: str, seed: int, number: int, folder: Path, truth: Truth, lights: int, samples: int, scale: float, keep: Path | None) -> None:
    """One picture, or for `sets` one stone under several lights."""
    rng = np.random.default_rng([seed, {"usual": 1, "above": 2, "sets": 3}[kind], number])
    bpy.ops.wm.read_factory_settings(use_empty=True)
    lying = kind == "above"
    period = {"usual": USUAL, "above": ABOVE, "sets": ("georgian", "early", "victorian")}[kind]
    period = period[number % len(period)]
    stone = build_stone(rng, period, kind, rng.uniform(.14, .26))
    buried = 0. if lying else rng.uniform(.0, .06)
    matrix = stone_matrix(rng, stone, lying, buried)
    add_stone(stone, matrix, .1 if not lying else .12)
    light = {"usual": USUAL_LIGHTS, "above": ABOVE_LIGHTS, "sets": ("raking",)}[kind]
    light = light[(number * 7 + seed) % len(light)] if kind == "usual" else light[number % len(light)]
    grassy = rng.uniform(.15, 1.) if kind != "sets" else .3
    blades = surroundings(rng, stone, lying, grassy, kind == "sets")
    width, height = (900, 1200) if kind == "sets" else (1080, 1440) if rng.random() < .88 else (1440, 1080)
    width, height = int(width * scale), int(height * scale)
    rows, columns = stone.shape
    shown_low = .97 if not lying else 1.
    corners = face_points(stone, matrix, np.array([0, columns, 0, columns]), np.array([0, 0, rows * shown_low, rows * shown_low]))
    target = Vector(corners.mean(0)) + Vector((rng.normal(0, .015), 0, rng.normal(0, .012)))
    if lying:
        angle, distance, turn = math.radians(rng.uniform(40, 65)), rng.uniform(1.5, 2.2), rng.normal(0, .22)
        place = target + distance * Vector((math.sin(turn) * math.cos(angle), -math.cos(turn) * math.cos(angle), math.sin(angle)))
    else:
        distance = rng.uniform(1.2, 2.6)
        turn = rng.normal(0, .2) if rng.random() < .7 else rng.uniform(.35, .6) * choose(rng, (-1, 1))
        if kind == "sets":
            turn = rng.normal(0, .08)
        place = Vector((distance * math.sin(turn), -distance * math.cos(turn), rng.uniform(.55, 1.45) if kind != "sets" else rng.uniform(.5, .9)))
    fill = rng.uniform(.8, .99) if kind != "sets" else rng.uniform(.92, 1.02)
    roll = rng.normal(0, .02)
    camera = aim(place, target, roll, corners, fill, width, height)
    focus = (target - place).length
    prepare_render(width, height, samples, number + 1)
    mm = pixel_size(stone, matrix, camera)
    hidden = hidden_by_grass(stone, matrix, camera, blades, lying)
    marker = f"{ {'usual': 'U', 'above': 'A', 'sets': 'S'}[kind]}{number + 1:02d}"
    turn_back = matrix.to_3x3().inverted()
    look = dict(exposure=rng.normal(0, .28), quality=int(rng.integers(75, 93)), softness=rng.uniform(.35, .85), grain=rng.uniform(.006, .022))
    if kind != "sets":
        direction, strength, sky, warmth = sun_for(light, rng, lying)
        sky_world(rng, direction is None, sky, math.atan2(direction.y, direction.x) if direction else 0.)
        if direction:
            add_sun(direction, strength, warmth)
        if light == "dappled" and direction:
            middle = target + direction * 7
            leaf_cloud(rng, tuple(middle), (3, 3, 2), int(rng.integers(1500, 2600)), .2, (.05, .08, .02), leaf_material())
        local = turn_back @ direction if direction else None
        lit = local is not None and local.z > 0
        fields = traces(stone, local if lit else None, strength, .8, mm)
        set_camera(camera, focus, rng.uniform(2., 7.))
        file = f"{marker}.jpg"
        written = develop(render(width, height, keep and keep / (file + ".npz")), rng, face_box(stone, matrix, camera), folder / file, look["exposure"], look["quality"], look["softness"], look["grain"])
        strengths = strengths_in(written, stone, homography(stone, matrix, camera), fields, mm)
        judge(stone, [strengths], hidden)
        truth.add(file, marker, stone, strengths, light)
        return
    lamp_light = rng.random() < .5
    ambient = rng.uniform(.05, .15) if lamp_light else rng.uniform(.35, .7)
    sky_world(rng, False, ambient, 0.)
    azimuths = np.deg2rad(np.linspace(0, 360, lights, endpoint=False) + rng.uniform(-25, 25) + rng.normal(0, 8, lights))
    heights = np.deg2rad(rng.uniform(9, 24, lights))
    locals_ = [Vector((math.cos(a) * math.cos(h), math.sin(a) * math.cos(h), math.sin(h))) for a, h in zip(azimuths, heights)]
    strengths, files = [], []
    still = camera.matrix.copy()
    for shot, local in enumerate(locals_):
        for thing in [thing for thing in bpy.data.objects if thing.type in ("LIGHT", "CAMERA")]:
            bpy.data.objects.remove(thing)
        add_sun(matrix.to_3x3() @ local, 3.6, rng.uniform(0, .6), .02)
        shift = rng.uniform(-4, 4, 2) / camera.focal
        camera.matrix = still @ Euler((shift[1], shift[0], math.radians(rng.uniform(-.2, .2)))).to_matrix().to_4x4()
        set_camera(camera, focus, 6.)
        file = f"{marker}-{shot + 1}.jpg"
        fields = traces(stone, local, 3.6, ambient * .8, mm)
        written = develop(render(width, height, keep and keep / (file + ".npz")), rng, face_box(stone, matrix, camera), folder / file, look["exposure"], look["quality"], look["softness"], look["grain"])
        files.append(file)
        strengths.append(strengths_in(written, stone, homography(stone, matrix, camera), fields, mm))
    judge(stone, strengths, hidden)
    for file, of_picture in zip(files, strengths):
        truth.add(file, marker, stone, of_picture, "raking")


def main() -> None:
    """Reads the arguments after `--` and makes the pictures."""
    parser = argparse.ArgumentParser(description="Renders invented gravestones with their truth.")
    parser.add_argument("--out", type=Path, required=True)
    parser.add_argument("--count", type=int, default=1)
    parser.add_argument("--first", type=int, default=0, help="number of the first picture, to make a run in parts")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--kind", choices=("usual", "above", "sets"), default="usual")
    parser.add_argument("--lights", type=int, default=4)
    parser.add_argument("--samples", type=int, default=9)
    parser.add_argument("--scale", type=float, default=1., help="size of the pictures, for trials")
    parser.add_argument("--keep", type=Path, help="folder for renders before development; those found there are not made again")
    arguments = parser.parse_args(sys.argv[sys.argv.index("--") + 1:] if "--" in sys.argv else [])
    arguments.out.mkdir(parents=True, exist_ok=True)
    truth = Truth(arguments.out)
    for number in range(arguments.first, arguments.first + arguments.count):
        picture(arguments.kind, arguments.seed, number, arguments.out, truth, arguments.lights, arguments.samples, arguments.scale, arguments.keep)


if __name__ == "__main__":
    main()
