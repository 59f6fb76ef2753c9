"""What grows between camera and stone: blades of grass from below, twigs across, leaves.

Drawn over lit lines, on the GPU, without any text in mind, and thin enough that most letters are still seen in part.
Lengths are in pixels of the mask. The ranges are from memory, not fitted to any test picture.
"""

import math
import random

import torch
from torch import Tensor

_BLADES, _TWIGS, _LEAVES = 14, 3, 7  # at most in one line


class Growth:
    """Draws for the lines of a batch. The generator settles all it will ever draw."""

    def __init__(self, generator: torch.Generator, device: torch.device):
        self._generator = generator
        self._device = device
        self._dice = random.Random(generator.initial_seed() + 1)  # what a batch shares; asking the GPU would wait for it

    def before(self, light: Tensor, severity: Tensor, share: float) -> Tensor:
        """Lines (n, 1, h, w) of linear light, with growth before about `share` of them.

        severity: per line (n, 1, 1, 1), 0 to 1; lines of greater severity are chosen rather than others.
        """
        count = int(share * light.shape[0] + self._dice.random())
        if count == 0:
            return light
        drawn = torch.rand(light.shape[0], generator=self._generator, device=self._device)
        chosen = (0.7 * severity.flatten() + drawn).topk(min(count, light.shape[0])).indices
        light = light.clone()
        light[chosen] = self._grown(light[chosen])
        return light

    def _uniform(self, low: float, high: float, lines: int) -> Tensor:
        return low + (high - low) * torch.rand(lines, 1, 1, 1, generator=self._generator, device=self._device)

    def _grown(self, light: Tensor) -> Tensor:
        lines, _, rows, columns = light.shape
        self._lines = lines
        y = torch.arange(rows, device=self._device, dtype=light.dtype).reshape(1, 1, rows, 1)
        x = torch.arange(columns, device=self._device, dtype=light.dtype).reshape(1, 1, 1, columns)
        sun = light.mean((1, 2, 3), keepdim=True)
        kind = self._uniform(0, 1, lines)
        grass, twigs, leaves = (kind < 0.55).float(), ((kind > 0.45) & (kind < 0.75)).float(), (kind > 0.7).float()
        tuft, spread = self._uniform(0, columns, lines), self._uniform(15, 0.5 * columns + 16, lines)
        tallest = self._uniform(0.25, 1.15, lines) * rows
        for _ in range(_BLADES):
            light = self._laid(light, self._blade(x, y, rows, tuft, spread, tallest) * grass * self._there(0.7), sun)
        for _ in range(_TWIGS):
            light = self._laid(light, self._twig(x, y, rows, columns) * twigs * self._there(0.6), sun)
        for _ in range(_LEAVES):
            light = self._laid(light, self._leaf(x, y, rows, tuft, spread) * leaves * self._there(0.6), sun)
        return light

    def _there(self, probability: float) -> Tensor:
        return (self._uniform(0, 1, self._lines) < probability).float()

    def _laid(self, light: Tensor, cover: Tensor, sun: Tensor) -> Tensor:
        """One thing over the line, with the shadow that it throws on the stone behind it."""
        across, down = self._dice.randint(-7, 7), self._dice.randint(0, 5)
        shadow = torch.roll(cover, (down, across), (2, 3)) * self._uniform(0, 0.6, self._lines)
        bright = sun * self._uniform(0.15, 1.7, self._lines)
        return light * (1 - shadow) * (1 - cover) + cover * bright

    def _blade(self, x: Tensor, y: Tensor, rows: int, tuft: Tensor, spread: Tensor, tallest: Tensor) -> Tensor:
        """A blade from under the lower edge, bent, narrowing to its tip."""
        lines = self._lines
        height = tallest * self._uniform(0.5, 1.2, lines)
        root = tuft + spread * self._uniform(-1, 1, lines)
        lean, bend = self._uniform(-0.7, 0.7, lines) * height, self._uniform(-0.6, 0.6, lines) * height
        up = ((rows + 2 - y) / height).clamp(min=0)
        half = self._uniform(0.6, 2.4, lines) * (1 - up).clamp(0, 1) ** 0.6
        away = (x - root - lean * up - bend * up**2).abs()
        return torch.sigmoid(3 * (half - away)) * (up <= 1).float() * (half > 0.15).float()

    def _twig(self, x: Tensor, y: Tensor, rows: int, columns: int) -> Tensor:
        """A twig or stalk right across at any angle, a little bent."""
        lines = self._lines
        angle = self._uniform(-math.pi / 2, math.pi / 2, lines)
        dx, dy = x - self._uniform(0, columns, lines), y - self._uniform(0, rows, lines)
        along, off = dx * torch.cos(angle) + dy * torch.sin(angle), dy * torch.cos(angle) - dx * torch.sin(angle)
        bent = self._uniform(-1, 1, lines) * along**2 / 600
        return torch.sigmoid(3 * (self._uniform(0.4, 2.0, lines) - (off - bent).abs())) * (along.abs() < self._uniform(40, 300, lines)).float()

    def _leaf(self, x: Tensor, y: Tensor, rows: int, tuft: Tensor, spread: Tensor) -> Tensor:
        """An oval leaf, more of them near the lower edge."""
        lines = self._lines
        dx = x - tuft - spread * self._uniform(-1, 1, lines)
        dy = y - rows * (1.1 - 1.1 * self._uniform(0, 1, lines) ** 1.5)
        angle, length = self._uniform(0, math.pi, lines), self._uniform(3, 13, lines)
        along, off = dx * torch.cos(angle) + dy * torch.sin(angle), dy * torch.cos(angle) - dx * torch.sin(angle)
        wide = length * self._uniform(0.3, 0.7, lines)
        return torch.sigmoid(2 * length * (1 - torch.sqrt((along / length) ** 2 + (off / wide) ** 2 + 1e-6)))
