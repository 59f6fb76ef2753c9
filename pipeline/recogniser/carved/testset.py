"""Renders lines in the held-out typefaces for evaluation, or in the trained ones for calibration.

    python3 -m carved.testset --lines 600 --out runs/held-out.npz
    python3 -m carved.testset --lines 128 --calibration --out runs/calibration.npz
    python3 -m carved.testset --lines 720 --signs --out runs/signs.npz

With --signs the lines take turns in holding what is easily lost, one kind a line (KINDS), each kind legible and worn
in turn; classes then name kind and wear. An npz holds `crop_0`, `crop_1`, ... (48 rows of uint8), `labels` and `classes` (legible, worn,
poor, by the loss of the cut and the severity of the rest). The seeds are not those of training.
"""

import argparse
import random
from collections.abc import Mapping
from pathlib import Path

import numpy as np
import torch
import torch.nn.functional as F

from carved import glyphs, typefaces
from carved import text as cut_text
from carved.stone import StoneRenderer
from carved.typefaces import Typeface

SEED = 900_017
# Loss of the cut, and severity of all else, by class.
CLASSES = {"legible": ((0.0, 0.25), (0.0, 0.3)), "worn": ((0.40, 0.60), (0.2, 0.6)), "poor": ((0.70, 0.95), (0.4, 1.0))}


KINDS = (
    "plain", "line ends", "dashes", "superiors", "long s", "quotes", "raised points", "italic", "script", "ornaments",
    "small", "narrow", "wide", "gaps", "growth", "dapple",
)  # fmt: skip
_SMALL_ROWS = (8, 14)  # a strip of kind "small" has so many rows in its file: capitals of 5 to 9 pixels


def _text_of(rng: random.Random, kind: str) -> str:
    line = cut_text.line(rng).text.rstrip(".,;:—- ")
    if kind == "line ends":
        return line + rng.choice((".", ",", ";", ":", ".", ","))
    if kind == "dashes":
        year = rng.randint(1780, 1900)
        return rng.choice((f"{year} — {year + 40}", f"{year}—{year + 7}", f"{line} —", f"{line}—", f"{year} - {year + 31}", f"Born {year} — Died {year + 62}"))
    if kind == "superiors":
        day = cut_text.ordinal(rng.randint(1, 31))
        name = rng.choice(("Wm", "Thos", "Jno", "Saml", "Mr", "Mrs", "Revd", "Capt", "Robt"))
        out = rng.choice((f"{day} {rng.choice(cut_text.MONTHS)} {rng.randint(1700, 1900)}", f"{name} {cut_text.surname(rng)}", f"in ye {day} year"))
        return out.upper() if rng.random() < 0.3 else out
    if kind == "long s":
        return cut_text.long_s(rng, rng.choice(("who departed this life", "his wife Susannah", "blessed rest", "sons of Moses", cut_text.verse(rng))).lower())
    if kind == "quotes":
        return rng.choice("“‘") + cut_text.verse(rng).strip('"“”‘’') + rng.choice("”’")
    if kind == "gaps":
        year = rng.randint(1780, 1900)
        return rng.choice((f"{year} {year + 40}", f"{cut_text.person_name(rng)} {rng.randint(17, 92)}", f"{cut_text.surname(rng)} {cut_text.surname(rng)}"))
    if kind == "raised points":
        return cut_text.interpuncts(rng, line)
    return line


def _mask(rng: random.Random, kind: str, faces: Mapping[str, tuple[Typeface, ...]]) -> tuple[np.ndarray, str]:
    """One line that holds what its kind says, set as cut unless the kind is of width."""
    if kind in ("italic", "script"):
        faces = {kind: faces[kind]}
    else:
        faces = {name: found for name, found in faces.items() if name != "script"}
    while True:
        text = _text_of(rng, kind)
        setting = glyphs.choose_setting(rng, text, faces)
        setting.superiors = kind == "superiors"
        setting.gapped = float(kind == "gaps")
        setting.stretch = {"narrow": rng.uniform(0.45, 0.7), "wide": rng.uniform(1.5, 2.2)}.get(kind, 1.0)
        if kind == "long s":
            setting.small_capitals = 0.0
        made = glyphs.set_mask(rng, text, setting, ornamented=float(kind == "ornaments"))
        if made and (kind != "superiors" or any(map(cut_text.is_superior, made[1]))) and (kind != "long s" or "ſ" in made[1]):
            return made


def render_signs(lines: int) -> dict[str, np.ndarray]:
    rng = random.Random(SEED + 2)
    torch.manual_seed(SEED + 2)
    renderer = StoneRenderer(SEED + 2, torch.device("cpu"))
    out: dict[str, np.ndarray] = {}
    labels, classes = [], []
    for number in range(lines):
        kind = KINDS[number // 2 % len(KINDS)]
        wear = ("legible", "worn")[number % 2]
        mask, label = _mask(rng, kind, typefaces.held_out())
        renderer.grown_share, renderer.dappled_share = float(kind == "growth"), 10.0 if kind == "dapple" else 0.0
        picture = renderer.render(torch.from_numpy(_padded(mask))[None], *CLASSES[wear])
        if kind == "small":
            rows = rng.randint(*_SMALL_ROWS)
            small = F.interpolate(picture, size=(rows, max(8, picture.shape[3] * rows // picture.shape[2])), mode="bilinear", antialias=True)
            picture = F.interpolate(small, size=picture.shape[2:], mode="bilinear")
        out[f"crop_{number}"] = (picture[0, 0].numpy() * 255).round().astype(np.uint8)
        labels.append(label)
        classes.append(f"{kind}, {wear}")
    return out | {"labels": np.array(labels), "classes": np.array(classes)}


def _padded(mask: np.ndarray) -> np.ndarray:
    room = -mask.shape[1] % 32
    return np.pad(mask, ((0, 0), (room // 2, room - room // 2)))


def render(lines: int, calibration: bool) -> dict[str, np.ndarray]:
    rng = random.Random(SEED + calibration)
    torch.manual_seed(SEED)
    renderer = StoneRenderer(SEED, torch.device("cpu"))
    faces = typefaces.trained() if calibration else typefaces.held_out()
    out: dict[str, np.ndarray] = {}
    labels, classes = [], []
    names = list(CLASSES)
    for number in range(lines):
        mask, label = glyphs.line_mask(rng, faces)
        name = names[number % len(names)]
        picture = renderer.render(torch.from_numpy(_padded(mask))[None], *CLASSES[name])
        out[f"crop_{number}"] = (picture[0, 0].numpy() * 255).round().astype(np.uint8)
        labels.append(label)
        classes.append(name)
    return out | {"labels": np.array(labels), "classes": np.array(classes)}


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--lines", type=int, required=True)
    parser.add_argument("--calibration", action="store_true", help="trained typefaces, for quantisation")
    parser.add_argument("--signs", action="store_true", help="lines by what they hold, held-out typefaces")
    parser.add_argument("--out", type=Path, required=True)
    arguments = parser.parse_args()
    made = render_signs(arguments.lines) if arguments.signs else render(arguments.lines, arguments.calibration)
    np.savez_compressed(arguments.out, **made)


if __name__ == "__main__":
    main()
