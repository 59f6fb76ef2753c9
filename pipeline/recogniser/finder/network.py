"""The line finder's network: grey picture in, maps at a quarter of its size out.

Depthwise blocks, four scales, top-down joining: made for one CPU thread. See README.md for the maps.
"""

import torch
import torch.nn as nn
import torch.nn.functional as F

MAPS = ("core", "log_height", "cosine", "sine", "face", "other", "emblem")
HEIGHT_OFFSET = 2.8  # log of a usual letter height, so that the network starts near it
MULTIPLE = 32  # picture sides must be divisible by this


def _conv(inputs, outputs, kernel, stride=1, groups=1, act=True):
    layers = [nn.Conv2d(inputs, outputs, kernel, stride, kernel // 2, groups=groups, bias=False), nn.BatchNorm2d(outputs)]
    return nn.Sequential(*layers, *([nn.ReLU(inplace=True)] if act else []))


class Block(nn.Module):
    """Depthwise convolution, then a narrow-wide-narrow pair of pointwise ones, around a shortcut."""

    def __init__(self, channels, kernel=5, widen=2):
        super().__init__()
        self.body = nn.Sequential(
            _conv(channels, channels, kernel, groups=channels, act=False),
            _conv(channels, channels * widen, 1),
            _conv(channels * widen, channels, 1, act=False),
        )

    def forward(self, x):
        return x + self.body(x)


class Overview(nn.Module):
    """Lets every place know what the whole picture holds."""

    def __init__(self, channels):
        super().__init__()
        self.gate = nn.Sequential(nn.Conv2d(channels, channels // 4, 1), nn.ReLU(inplace=True), nn.Conv2d(channels // 4, channels, 1))

    def forward(self, x):
        return x + self.gate(x.mean((2, 3), keepdim=True))


class LineFinder(nn.Module):
    """x (n, 1, H, W), grey 0..1, sides divisible by MULTIPLE -> maps (n, len(MAPS), H/4, W/4)."""

    def __init__(self, widths=(40, 72, 136, 216), depths=(2, 3, 4, 4), joint=96, fine=64):
        super().__init__()
        self.stem = nn.Sequential(_conv(1, 24, 3, 2), _conv(24, widths[0], 3, 2))
        stages = []
        for i, (width, depth) in enumerate(zip(widths, depths)):
            layers = [_conv(widths[i - 1], width, 3, 2)] if i else []
            layers += [Block(width, 7 if i == 3 else 5) for _ in range(depth)]
            if i == 3:
                layers.insert(3, Overview(width))
            stages.append(nn.Sequential(*layers))
        self.stages = nn.ModuleList(stages)
        joints = (fine, joint, joint, joint)
        self.lateral = nn.ModuleList([_conv(w, j, 1, act=False) for w, j in zip(widths, joints)])
        self.narrow = _conv(joint, fine, 1, act=False)
        self.join = nn.ModuleList([Block(j) for j in joints])
        self.head = nn.Sequential(Block(fine, 3), nn.ReLU(inplace=True), nn.Conv2d(fine, len(MAPS), 1))
        for m in self.modules():
            if isinstance(m, Block):
                nn.init.constant_(m.body[2][1].weight, 0.3)

    def raw(self, x):
        """Core and area maps as logits, direction not normalised: for the losses."""
        mean = x.mean((2, 3), keepdim=True)
        spread = ((x - mean) ** 2).mean((2, 3), keepdim=True).sqrt()
        y = self.stem((x - mean) / (spread + 0.03))
        levels = []
        for stage in self.stages:
            y = stage(y)
            levels.append(y)
        y = self.join[3](self.lateral[3](levels[3]))
        for i in (2, 1, 0):
            if i == 0:
                y = self.narrow(y)
            y = F.interpolate(y, scale_factor=2.0, mode="nearest")
            y = self.join[i](y + self.lateral[i](levels[i]))
        return self.head(y)

    def forward(self, x):
        y = self.raw(x)
        direction = y[:, 2:4]
        direction = direction / (direction.pow(2).sum(1, keepdim=True) + 1e-6).sqrt()
        return torch.cat([torch.sigmoid(y[:, :1]), y[:, 1:2] + HEIGHT_OFFSET, direction, torch.sigmoid(y[:, 4:])], 1)
