"""What the network is told it got wrong, map by map."""

import torch
import torch.nn.functional as F

from .network import HEIGHT_OFFSET

# Weights of the parts; chosen so that no part outweighs the text core. Not tuned.
WEIGHTS = {"core": 1.0, "core_dice": 1.0, "height": 1.0, "direction": 0.6, "face": 0.5, "other": 0.3, "emblem": 0.4}
BETWEEN_LINES = 3.0  # cells within a letter's reach of a line count more: there lines are kept apart


def _dice(logits, wanted, counted):
    p = torch.sigmoid(logits) * counted
    both = (p * wanted).sum((1, 2))
    return (1 - (2 * both + 20) / ((p * p).sum((1, 2)) + (wanted * wanted * counted).sum((1, 2)) + 20)).mean()


def parts(raw, truth):
    """Losses by name. `raw` from LineFinder.raw; `truth` maps as floats, ignore and band among them."""
    counted = 1 - truth["ignore"]
    core = truth["core"]
    weight = counted * (1 + (BETWEEN_LINES - 1) * truth["band"])
    out = {}
    bce = F.binary_cross_entropy_with_logits(raw[:, 0], core, reduction="none")
    out["core"] = (bce * weight).sum() / weight.sum() * 3
    out["core_dice"] = _dice(raw[:, 0], core, counted)
    on_text = (core > 0.4).float() * counted
    total = on_text.sum() + 1
    height = F.smooth_l1_loss(raw[:, 1] + HEIGHT_OFFSET, truth["log_height"], reduction="none", beta=0.1)
    out["height"] = (height * on_text).sum() / total * 3
    direction = F.normalize(raw[:, 2:4], dim=1, eps=1e-4)
    aligned = direction[:, 0] * truth["cosine"] + direction[:, 1] * truth["sine"]
    out["direction"] = ((1 - aligned) * on_text).sum() / total
    for index, name in ((4, "face"), (5, "other"), (6, "emblem")):
        out[name] = F.binary_cross_entropy_with_logits(raw[:, index], truth[name]) * 2
    out["face"] = out["face"] + _dice(raw[:, 4], truth["face"], torch.ones_like(core))
    out["emblem"] = out["emblem"] + 0.5 * _dice(raw[:, 6], truth["emblem"], torch.ones_like(core))
    return out


def total(losses):
    return sum(WEIGHTS[name] * value for name, value in losses.items())
