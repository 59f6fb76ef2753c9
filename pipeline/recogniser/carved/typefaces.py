"""Typefaces by kind: those letters are trained with, and ten designs and three scripts kept for evaluation.

The two lists are `typefaces.tsv` and `held-out.tsv`; `fetch_typefaces.sh` fills `fonts/` from them.
Computer Modern, Latin Modern and DejaVu letter the sample stones and are in neither list.
"""

import functools
import io
import random
from dataclasses import dataclass
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

ROOT = Path(__file__).resolve().parent.parent
FONTS = ROOT / "fonts"
KINDS = ("roman", "capitals", "slab", "sans", "italic", "script", "blackletter")

# How often a line is cut in each kind (from memory of what stands in churchyards; not measured).
SHARE = {"roman": 0.43, "capitals": 0.08, "slab": 0.08, "sans": 0.09, "italic": 0.14, "script": 0.10, "blackletter": 0.08}
DRAWN_EM = 96  # pixels an em at which glyphs are drawn once, to be scaled from

# Held out by design, or used by the sample stones: a name that begins so never enters training.
_NEVER_TRAINED = (
    "EBGaramond", "GFSDidot", "Baskervald", "GoudyBookletter", "Quattrocento", "Junicode", "RobotoSlab", "Cabin",
    "Gamaliel", "Jessen", "RougeScript", "MeaCulpa", "Corinthia", "cm", "lm", "LatinModern", "DejaVu",
)  # fmt: skip


@dataclass(frozen=True)
class Typeface:
    """One font file. Sizes are pixels per em."""

    kind: str
    path: Path

    def at(self, size: int) -> ImageFont.FreeTypeFont:
        return _font(self.path, size)

    def covers(self, character: str) -> bool:
        """Whether the font draws this character (a space counts) rather than its missing-glyph box."""
        return character == " " or _glyph(self.path, character) is not None

    def glyph(self, character: str) -> "Glyph":
        """The character as drawn; it must be one that `covers` knows."""
        drawn = _glyph(self.path, character)
        if drawn is None:
            raise ValueError(f"{self.path.name} has no {character!r}")
        return drawn

    @property
    def cap_height(self) -> float:
        """Height of H in ems."""
        return _cap_height(self.path)

    @property
    def lower_is_capital(self) -> bool:
        """Whether lower-case letters are drawn as small capitals."""
        return self.kind == "capitals"


@dataclass(frozen=True)
class Glyph:
    """One character at DRAWN_EM. Lengths in pixels; left and top count from the pen on the baseline, down and right."""

    ink: Image.Image
    left: int
    top: int
    advance: float


@functools.lru_cache(maxsize=3000)
def _font(path: Path, size: int) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(io.BytesIO(_content(path)), size, layout_engine=ImageFont.Layout.BASIC)


@functools.cache
def _content(path: Path) -> bytes:
    """Read once: a run goes on when the folder is refreshed under it, and few files stay open."""
    return path.read_bytes()


@functools.cache
def _cap_height(path: Path) -> float:
    left, top, right, bottom = _font(path, 200).getbbox("H", anchor="ls")
    return -top / 200


@functools.cache
def _missing(path: Path) -> bytes:
    return _drawn(_font(path, DRAWN_EM), "\uffff")[0].tobytes()


def _drawn(font: ImageFont.FreeTypeFont, character: str) -> tuple[Image.Image, int, int]:
    left, top, right, bottom = font.getbbox(character, anchor="ls")
    ink = Image.new("L", (max(1, int(right - left)), max(1, int(bottom - top))))
    ImageDraw.Draw(ink).text((-left, -top), character, font=font, fill=255, anchor="ls")
    return ink, int(left), int(top)


@functools.cache
def _glyph(path: Path, character: str) -> Glyph | None:
    """Drawing outlines is what setting lines spends its time on, so each is drawn once in a process."""
    font = _font(path, DRAWN_EM)
    ink, left, top = _drawn(font, character)
    if ink.getbbox() is None or ink.tobytes() == _missing(path):
        return None
    return Glyph(ink, left, top, font.getlength(character))


def _read(listing: Path) -> dict[str, tuple[Typeface, ...]]:
    faces: dict[str, list[Typeface]] = {}
    for row in listing.read_text(encoding="utf-8").splitlines():
        if row.startswith("#"):
            continue
        kind, file, _ = row.split("\t")
        if kind not in KINDS:
            raise ValueError(f"{listing.name}: {file} has kind {kind}; known are {', '.join(KINDS)}")
        if not (FONTS / file).exists():
            raise FileNotFoundError(f"{FONTS / file}: missing; run fetch_typefaces.sh")
        faces.setdefault(kind, []).append(Typeface(kind, FONTS / file))
    return {kind: tuple(found) for kind, found in faces.items()}


@functools.cache
def trained() -> dict[str, tuple[Typeface, ...]]:
    """The typefaces of training, by kind."""
    faces = _read(ROOT / "typefaces.tsv")
    for face in (f for found in faces.values() for f in found):
        if face.path.name.startswith(_NEVER_TRAINED):
            raise ValueError(f"typefaces.tsv: {face.path.name} is held out and must not be trained with")
    return faces


@functools.cache
def held_out() -> dict[str, tuple[Typeface, ...]]:
    """The ten designs of evaluation, by kind. Never to be trained or tuned with."""
    return _read(ROOT / "held-out.tsv")


def pick(rng: random.Random, faces: dict[str, tuple[Typeface, ...]], share: dict[str, float] = SHARE) -> Typeface:
    """A typeface: first its kind by `share`, then any of that kind."""
    kinds = [kind for kind in KINDS if kind in faces]
    kind = rng.choices(kinds, [share[k] for k in kinds])[0]
    return rng.choice(faces[kind])
