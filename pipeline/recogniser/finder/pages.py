"""Batches of pages from worker processes."""

import math
import random

import cv2
import numpy as np
import torch

from carved import typefaces

from .layout import Composer
from .scene import STRIDE, SceneMaker

TARGETS = (640, 768, 896, 1024)  # sides of the pictures the network sees in training
BYTE_MAPS = ("core", "face", "other", "emblem")
FLOAT_MAPS = ("log_height", "cosine", "sine")
MASKS = ("letters", "relief", "regions")


def collate(pages):
    batch = {name: torch.from_numpy(np.stack([getattr(p, name) for p in pages])) for name in MASKS + BYTE_MAPS + FLOAT_MAPS}
    ignore = np.stack([p.ignore for p in pages])
    batch["ignore"], batch["band"] = torch.from_numpy(ignore[:, 0].copy()), torch.from_numpy(ignore[:, 1].copy())
    return batch


def truth(batch, device):
    """The maps of a batch as floats on the device."""
    out = {name: batch[name].to(device, non_blocking=True).float() / 255 for name in BYTE_MAPS + ("ignore", "band")}
    out.update({name: batch[name].to(device, non_blocking=True).float() for name in FLOAT_MAPS})
    return out


def enlarged(x, truth, factor, left, top):
    """A part of the pages, so many times larger and as large as the whole was: letters as in close-ups.

    left, top: of the part, 0 to 1 of the room there is. Gives the pictures and their maps.
    """
    side = x.shape[-1] // (STRIDE * factor)  # in cells
    room = x.shape[-1] // STRIDE - side
    column, row = int(room * left), int(room * top)
    part = x[..., STRIDE * row : STRIDE * (row + side), STRIDE * column : STRIDE * (column + side)]
    part = torch.nn.functional.interpolate(part, size=x.shape[-2:], mode="bicubic", align_corners=False).clamp(0, 1)
    maps = {}
    for name, values in truth.items():
        cells = values[:, None, row : row + side, column : column + side]
        cells = torch.nn.functional.interpolate(cells, size=values.shape[-2:], mode="bilinear", align_corners=False)[:, 0]
        maps[name] = cells + math.log(x.shape[-1] / (STRIDE * side)) if name == "log_height" else cells
    return part, maps


class Pages(torch.utils.data.IterableDataset):
    """Endless batches (target size, masks and maps); each worker has its own seed."""

    def __init__(self, seed, batch, size=1024, targets=TARGETS, faces=None):
        self.seed, self.batch, self.size, self.targets = seed, batch, size, targets
        self.faces = faces

    def __iter__(self):
        worker = torch.utils.data.get_worker_info()
        rng = random.Random(self.seed * 1000003 + (worker.id if worker else 0))
        cv2.setNumThreads(1)
        torch.set_num_threads(1)
        maker = SceneMaker(Composer(self.faces or typefaces.trained()), self.size)
        while True:
            target = rng.choice(self.targets)
            yield target, collate([maker.page(rng, target) for _ in range(self.batch)])
