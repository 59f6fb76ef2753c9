"""Batches of pages from worker processes."""

import random

import cv2
import numpy as np
import torch

from carved import typefaces

from .layout import Composer
from .scene import SceneMaker

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
