"""The camera: a lit surface (linear light) becomes the grey picture a phone or scanner left.

Takes pictures as high as the masks (64 rows) and gives line crops 48 rows high, three quarters the size.
"""

import math
import random

import torch
import torch.nn.functional as F
from torch import Tensor

from carved.raster import blur

CROP_HEIGHT = 48

# Luminance table of the JPEG standard (ITU-T T.81, table K.1).
_JPEG_LUMINANCE = (
    (16, 11, 10, 16, 24, 40, 51, 61), (12, 12, 14, 19, 26, 58, 60, 55), (14, 13, 16, 24, 40, 57, 69, 56),
    (14, 17, 22, 29, 51, 87, 80, 62), (18, 22, 37, 56, 68, 109, 103, 77), (24, 35, 55, 64, 81, 104, 113, 92),
    (49, 64, 78, 87, 103, 121, 120, 101), (72, 92, 95, 98, 112, 100, 103, 99),
)  # fmt: skip
# Rows a line had in its file before it was enlarged to the crop: cap height is about two thirds of it.
_LOW_RESOLUTION_ROWS = (8, 10, 12, 14, 16, 18, 20, 24, 28, 32, 40)
_LOW_RESOLUTION_GROUPS = 3  # sizes in one batch
_LOW_RESOLUTION_SHARE = 0.22


class Camera:
    def __init__(self, generator: torch.Generator, device: torch.device):
        self._generator = generator
        self._device = device
        self._dice = random.Random(generator.initial_seed())  # what a batch shares; asking the GPU would wait for it
        self._table = torch.tensor(_JPEG_LUMINANCE, dtype=torch.float32, device=device).reshape(1, 1, 64)
        cosines = [
            [math.sqrt((1 if i == 0 else 2) / 8) * math.cos((2 * j + 1) * i * math.pi / 16) for j in range(8)] for i in range(8)
        ]
        # The two-dimensional transform of an 8 by 8 block as one product with its 64 values in a row.
        self._dct = torch.kron(torch.tensor(cosines), torch.tensor(cosines)).to(device)

    def photograph(self, light: Tensor, severity: Tensor) -> Tensor:
        """(n, 1, 64, w) of linear light -> (n, 1, 48, 3w/4) of 0..1, gamma coded.

        severity: per line (n, 1, 1, 1), 0 = a good camera in a steady hand, 1 = the worst of all.
        """
        self._lines = light.shape[0]
        self._severity = severity
        x = self._project(light)
        exposure = self._uniform(0.10, 0.42) / (x.clamp(max=3).mean((1, 2, 3), keepdim=True) + 1e-3)
        x = x * exposure
        x = self._lens(x)
        x = x + self._white(x) * torch.sqrt(x.clamp(0, 2) + 0.02) * self._uniform(0, 0.04) * (0.2 + self._severity)
        x = self._develop(x)
        x = self._shrink_some(x)
        quality = self._uniform(30, 95)
        saved = self._happens(0.45)
        x = x * (1 - saved) + saved * self._jpeg(x, quality)
        negative = self._happens(0.08)
        return (x * (1 - negative) + negative * (1 - x)).clamp(0, 1)

    def _uniform(self, low: float, high: float) -> Tensor:
        drawn = torch.rand(self._lines, 1, 1, 1, generator=self._generator, device=self._device)
        return low + (high - low) * drawn

    def _normal(self) -> Tensor:
        return torch.randn(self._lines, 1, 1, generator=self._generator, device=self._device)

    def _happens(self, probability: float) -> Tensor:
        return (self._uniform(0, 1) < probability).float()

    def _white(self, like: Tensor) -> Tensor:
        return torch.randn(like.shape, generator=self._generator, device=self._device)

    def _project(self, light: Tensor) -> Tensor:
        """What cropping did not take out of the view."""
        grid = self._grid(CROP_HEIGHT, light.shape[3] * CROP_HEIGHT // light.shape[2])
        return F.grid_sample(light, grid, mode="bilinear", padding_mode="reflection", align_corners=False)

    def _grid(self, rows: int, columns: int) -> Tensor:
        """Slope, slant, perspective along the line and a curved baseline."""
        aspect = columns / rows
        y = torch.linspace(-1, 1, rows, device=self._device).reshape(1, rows, 1)
        x = torch.linspace(-1, 1, columns, device=self._device).reshape(1, 1, columns)
        seldom = lambda p: self._happens(p).reshape(-1, 1, 1)  # noqa: E731
        strong = 1 + 2.0 * seldom(0.09)
        rise = 0.012 * strong * self._normal()
        slant = (0.05 + 0.14 * seldom(0.2)) * self._normal()
        narrowing = 0.05 * strong * self._normal()
        curve = (0.06 * seldom(0.35) + 0.10 * seldom(0.05)) * self._normal()
        wave = 0.03 * seldom(0.1) * self._normal()
        at_x = x * (1 + 0.03 * self._normal()) + slant * y / aspect + 0.25 * narrowing * x * x
        at_y = (
            y * (1 + narrowing * x) * (1 + 0.03 * self._normal()) + 0.03 * self._normal() + rise * x * min(aspect, 10) * 0.8
            + curve * (x * x - 0.3) + wave * torch.sin(6 * x + 6 * self._normal())
        )  # fmt: skip
        return torch.stack([at_x.expand(-1, rows, -1), at_y.expand(-1, -1, columns)], 3)

    def _lens(self, x: Tensor) -> Tensor:
        often = 0.1 + 0.3 * self._severity
        sharp = torch.where(self._uniform(0, 1) > often, self._uniform(0.0, 0.8), self._uniform(0.6, 2.0) * (0.5 + 0.5 * self._severity))
        x = blur(x, sharp, 5)
        shaken = self._happens(0.12) * (self._severity > 0.3)
        kernel = torch.ones(1, 1, 1, 5, device=self._device) / 5
        return x * (1 - shaken) + shaken * F.conv2d(F.pad(x, (2, 2, 0, 0), mode="replicate"), kernel)

    def _develop(self, x: Tensor) -> Tensor:
        """Tone curve, contrast, and the haloes of phone sharpening."""
        x = x.clamp(min=0)
        x = x * (1 + 0.25 * x) / (1 + x * self._uniform(0.2, 0.8)) * 1.2
        x = x.clamp(1e-4, 1) ** self._uniform(0.38, 0.6)
        x = (x - 0.5) * self._uniform(0.75, 1.35) + 0.5
        amount = self._happens(0.4) * self._uniform(0.1, 0.9) + self._happens(0.07) * self._uniform(0.8, 2.0)
        x = x + amount * (x - blur(x, self._uniform(0.7, 1.8), 5))
        return x.clamp(0, 1)

    def _shrink_some(self, x: Tensor) -> Tensor:
        """Part of the lines pass through a small, compressed file and are enlarged again."""
        count = int(_LOW_RESOLUTION_SHARE * self._lines + self._dice.random())
        # Those of greater severity rather than of less: a small line may be clean.
        chosen = (0.5 * self._severity.flatten() + self._uniform(0, 1).flatten()).topk(count).indices
        x = x.clone()
        for first in range(min(count, _LOW_RESOLUTION_GROUPS)):
            group = chosen[first::_LOW_RESOLUTION_GROUPS]
            x[group] = self._through_small_file(x[group])
        return x

    def _through_small_file(self, x: Tensor) -> Tensor:
        rows, smooth = self._dice.choice(_LOW_RESOLUTION_ROWS), self._dice.random() < 0.5
        columns = max(8, round(x.shape[3] * rows / CROP_HEIGHT / 8) * 8)
        small = F.interpolate(x, size=(rows, columns), mode="bilinear", antialias=True, align_corners=False)
        quality = torch.rand(x.shape[0], 1, 1, 1, generator=self._generator, device=self._device) * 60 + 35
        whole_blocks = F.pad(small, (0, 0, 0, -rows % 8), mode="replicate")
        small = self._jpeg(whole_blocks, quality)[:, :, :rows]
        enlarged = F.interpolate(small, size=x.shape[2:], mode="bilinear" if smooth else "bicubic", align_corners=False)
        return enlarged.clamp(0, 1)

    def _jpeg(self, x: Tensor, quality: Tensor) -> Tensor:
        """What quantising 8 by 8 blocks at this quality (1..100) leaves, without the file."""
        lines, _, rows, columns = x.shape
        blocks = (x * 255 - 128).reshape(lines, rows // 8, 8, columns // 8, 8).permute(0, 1, 3, 2, 4).reshape(lines, -1, 64)
        scale = torch.where(quality < 50, 5000 / quality, 200 - 2 * quality) / 100
        table = (self._table * scale.reshape(lines, 1, 1)).clamp(1, 255)
        kept = torch.round(blocks @ self._dct.T / table) * table
        blocks = (kept @ self._dct + 128) / 255
        return blocks.reshape(lines, rows // 8, columns // 8, 8, 8).permute(0, 1, 3, 2, 4).reshape(lines, 1, rows, columns)
