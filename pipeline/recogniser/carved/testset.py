"""Renders lines in the held-out typefaces for evaluation, or in the trained ones for calibration.

    python3 -m carved.testset --lines 600 --out runs/held-out.npz
    python3 -m carved.testset --lines 128 --calibration --out runs/calibration.npz

An npz holds `crop_0`, `crop_1`, ... (48 rows of uint8), `labels` and `classes` (legible, worn,
poor, by the loss of the cut and the severity of the rest). The seeds are not those of training.
"""

import argparse
import random
from pathlib import Path

import numpy as np
import torch

from carved import glyphs, typefaces
from carved.stone import StoneRenderer

SEED = 900_017
# Loss of the cut, and severity of all else, by class.
CLASSES = {"legible": ((0.0, 0.25), (0.0, 0.3)), "worn": ((0.40, 0.60), (0.2, 0.6)), "poor": ((0.70, 0.95), (0.4, 1.0))}


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
        room = -mask.shape[1] % 32
        padded = np.pad(mask, ((0, 0), (room // 2, room - room // 2)))
        name = names[number % len(names)]
        picture = renderer.render(torch.from_numpy(padded)[None], *CLASSES[name])
        out[f"crop_{number}"] = (picture[0, 0].numpy() * 255).round().astype(np.uint8)
        labels.append(label)
        classes.append(name)
    return out | {"labels": np.array(labels), "classes": np.array(classes)}


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--lines", type=int, required=True)
    parser.add_argument("--calibration", action="store_true", help="trained typefaces, for quantisation")
    parser.add_argument("--out", type=Path, required=True)
    arguments = parser.parse_args()
    np.savez_compressed(arguments.out, **render(arguments.lines, arguments.calibration))


if __name__ == "__main__":
    main()
