"""Random fields by the square metre: grain, stains, waves and cracks for thousands of lines at once.

Making fractal noise afresh for every line is the slowest part of rendering. `NoiseAtlas` makes two
large fields once and cuts windows out of them at any place, scale and stretch, which is one texture
read per field.
"""

import math

import torch
import torch.nn.functional as F
from torch import Tensor

_ATLAS_ROWS, _ATLAS_COLUMNS = 1024, 6144
_WINDOW_LIMIT = 0.98  # of the atlas that one window may cover
# Longest wave in atlas pixels of the two fields, and how many halvings of it they hold.
_COARSE_CELL, _COARSE_OCTAVES = 64.0, 5
_FINE_CELL, _FINE_OCTAVES = 10.0, 3


def _fractal(rows: int, columns: int, cell: float, octaves: int, generator: torch.Generator, device) -> Tensor:
    """Sum of band-limited noises, each of half the wavelength and 0.58 of the strength; unit variance."""
    out = torch.zeros(1, 1, rows, columns, device=device)
    for octave in range(octaves):
        step = max(1.0, cell / 2**octave)
        size = (max(4, int(rows / step)), max(4, int(columns / step)))
        layer = torch.randn(1, 1, *size, generator=generator, device=device)
        out += 0.58**octave * F.interpolate(layer, size=(rows, columns), mode="bicubic", align_corners=False)
    return (out - out.mean()) / out.std()


class NoiseAtlas:
    """Windows of unit-variance noise. `cell` is the longest wavelength in pixels of the output."""

    def __init__(self, generator: torch.Generator, device: torch.device):
        self._generator = generator
        self._device = device
        self._coarse = _fractal(_ATLAS_ROWS, _ATLAS_COLUMNS, _COARSE_CELL, _COARSE_OCTAVES, generator, device)
        self._fine = _fractal(_ATLAS_ROWS, _ATLAS_COLUMNS, _FINE_CELL, _FINE_OCTAVES, generator, device)

    def field(self, like: Tensor, cell: tuple[float, float], stretch_x: float = 1.0, stretch_y: float = 1.0) -> Tensor:
        """Noise of the shape of `like` (n, 1, h, w), each line with its own cell from the given range.

        Stretches over 1 draw the waves out along that axis. Cells from 2 to 14 pixels use the fine
        field, longer ones the coarse field.
        """
        lines, _, rows, columns = like.shape
        low, high = cell
        drawn = torch.rand(lines, generator=self._generator, device=self._device)
        cells = low * (high / low) ** drawn
        atlas, base = (self._fine, _FINE_CELL) if math.sqrt(low * high) < 14 else (self._coarse, _COARSE_CELL)
        scale = base / cells
        half_w = (scale * columns / stretch_x / _ATLAS_COLUMNS).clamp(max=_WINDOW_LIMIT)
        half_h = (scale * rows / stretch_y / _ATLAS_ROWS).clamp(max=_WINDOW_LIMIT)
        place = torch.rand(2, lines, generator=self._generator, device=self._device) * 2 - 1
        flip = torch.randint(0, 2, (2, lines), generator=self._generator, device=self._device) * 2.0 - 1
        # Written out, because F.affine_grid multiplies matrices, ten times slower than this.
        x = (torch.arange(columns, device=self._device) * 2 + 1) / columns - 1
        y = (torch.arange(rows, device=self._device) * 2 + 1) / rows - 1
        at_x = (place[0] * (1 - half_w))[:, None, None] + (half_w * flip[0])[:, None, None] * x[None, None, :]
        at_y = (place[1] * (1 - half_h))[:, None, None] + (half_h * flip[1])[:, None, None] * y[None, :, None]
        grid = torch.stack([at_x.expand(-1, rows, -1), at_y.expand(-1, -1, columns)], 3)
        return F.grid_sample(
            atlas.expand(lines, -1, -1, -1), grid, mode="bilinear", padding_mode="border", align_corners=False
        )
