"""Lines found on rendered pages of typefaces that no training saw.

python3 -m finder.evaluate WEIGHTS [PAGES] [--pictures FOLDER]: recall and precision by class. A line
is found if a found ribbon and its own overlap by half (intersection over union of capital-height
ribbons, one to one); it is found whole if neither end is cut by more than END_LOSS heights.
"""

import argparse
import random
from pathlib import Path

import cv2
import numpy as np
import torch

from carved import typefaces

from . import pages
from .decode import FoundLine, decode
from .layout import Composer
from .network import LineFinder
from .scene import SceneMaker
from .shading import photograph

CLASSES = {"legible": (0.0, 0.3), "worn": (0.4, 0.65), "poor": (0.75, 0.95)}
OVERLAP = 0.5
END_LOSS = 0.35
LOOSE = 0.3  # what overlaps a line that isn't counted by this much isn't counted either


def overlap(a, b):
    """Intersection over union of two polygons, counted in half pixels."""
    low = np.floor(np.minimum(a.min(0), b.min(0)))
    size = np.ceil((np.maximum(a.max(0), b.max(0)) - low) * 2).astype(int) + 2
    if (np.maximum(a.min(0), b.min(0)) > np.minimum(a.max(0), b.max(0))).any():
        return 0.0
    masks = []
    for p in (a, b):
        mask = np.zeros((size[1], size[0]), np.uint8)
        cv2.fillPoly(mask, [np.round((p - low) * 2).astype(np.int32)], 1)
        masks.append(mask)
    union = np.count_nonzero(masks[0] | masks[1])
    return np.count_nonzero(masks[0] & masks[1]) / max(1, union)


def whole(line: FoundLine, truth):
    """Whether the found line reaches both ends of the true one."""
    for end, beyond in ((0, -1), (-1, 1)):
        d = line.directions()[end]
        middle = (truth.baseline[end] + truth.top[end]) / 2
        if beyond * ((middle - line.at_height(0.5)[end]) @ d) > END_LOSS * truth.cap:
            return False
    return True


class Tally:
    def __init__(self):
        self.asked = self.found = self.whole = self.given = self.right = 0
        self.height_error = []

    def add(self, lines, truths, counted):
        ribbons = [line.ribbon() for line in lines]
        truth_ribbons = [np.concatenate([t.top, t.baseline[::-1]]) for t in truths]
        table = np.array([[overlap(r, t) for t in truth_ribbons] for r in ribbons]).reshape(len(lines), len(truths))
        used = set()
        matched = set()
        for flat in np.argsort(-table, axis=None):
            i, j = np.unravel_index(flat, table.shape)
            if table[i, j] < OVERLAP:
                break
            if i in used or j in matched:
                continue
            used.add(i)
            matched.add(j)
            if counted[j]:
                self.found += 1
                self.whole += whole(lines[i], truths[j])
                self.height_error.append(abs(np.log(lines[i].height / truths[j].cap)))
        self.asked += int(np.sum(counted))
        for i in range(len(lines)):
            loose = [j for j in range(len(truths)) if table[i, j] > LOOSE and not counted[j]]
            if i in used and any(table[i, j] >= OVERLAP and counted[j] for j in matched):
                self.given += 1
                self.right += 1
            elif not loose:
                self.given += 1

    def __str__(self):
        share = lambda a, b: f"{a / b:.3f}" if b else "  -  "
        height = f"{np.median(self.height_error):.3f}" if self.height_error else "-"
        return f"lines {self.asked:5d}  recall {share(self.found, self.asked)}  found whole {share(self.whole, self.asked)}  precision {share(self.right, self.given)}  log height error {height}"


def page_batch(rng, maker, target, wear, device="cpu"):
    page = maker.page(rng, target)
    batch = pages.collate([page])
    x, visible = photograph(*[batch[m].to(device) for m in pages.MASKS], target, wear=[wear])
    return page, x, visible[0].cpu().numpy()


def counted(page, visible, target):
    """Which true lines are asked for: inside the picture, and not wholly lost."""
    out = []
    for line in page.lines:
        p = np.concatenate([line.baseline, line.top])
        inside = (p >= 0).all() and (p < target).all()
        middle = (line.baseline + line.top) / 2
        samples = np.stack([np.interp(np.linspace(0, 1, 24), np.linspace(0, 1, len(middle)), middle[:, i]) for i in (0, 1)], 1)
        cells = np.clip((samples / 4).astype(int), 0, visible.shape[0] - 1)
        out.append(bool(inside) and visible[cells[:, 1], cells[:, 0]].mean() > 0.5)
    return out


def overlay(grey, lines, truths=()):
    image = cv2.cvtColor(grey, cv2.COLOR_GRAY2BGR)
    for t in truths:
        cv2.polylines(image, [np.round(np.concatenate([t.top, t.baseline[::-1]]) * 16).astype(np.int32)], True, (255, 140, 0), 1, cv2.LINE_AA, 4)
    for line in lines:
        colour = (0, 220, 0) if line.face >= line.other else (200, 0, 200)
        cv2.polylines(image, [np.round(line.ribbon() * 16).astype(np.int32)], True, colour, 1, cv2.LINE_AA, 4)
    return image


def main():
    parser = argparse.ArgumentParser(description="Evaluates the line finder on rendered pages.")
    parser.add_argument("weights")
    parser.add_argument("pages", type=int, nargs="?", default=40, help="pages of each class")
    parser.add_argument("--pictures", help="folder for overlays of some pages")
    parser.add_argument("--seed", type=int, default=20260)
    options = parser.parse_args()
    device = "cuda" if torch.cuda.is_available() else "cpu"
    net = LineFinder().eval().to(device)
    net.load_state_dict(torch.load(options.weights, map_location="cpu"))
    maker = SceneMaker(Composer(typefaces.held_out()))
    for name, (low, high) in CLASSES.items():
        rng = random.Random(options.seed)
        torch.manual_seed(options.seed)
        tally = Tally()
        for n in range(options.pages):
            target = rng.choice(pages.TARGETS[1:])
            page, x, visible = page_batch(rng, maker, target, rng.uniform(low, high), device)
            with torch.no_grad():
                lines = decode(net(x)[0].cpu().numpy())
            tally.add(lines, page.lines, counted(page, visible, target))
            if options.pictures and n < 6:
                Path(options.pictures).mkdir(parents=True, exist_ok=True)
                grey = (x[0, 0].cpu().numpy() * 255).astype(np.uint8)
                cv2.imwrite(f"{options.pictures}/{name}-{n}.png", overlay(grey, lines, page.lines))
        print(f"{name:8s} {tally}", flush=True)


if __name__ == "__main__":
    main()
