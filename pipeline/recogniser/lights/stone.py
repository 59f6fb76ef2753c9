"""One stone under several lights: the same height field and albedo, photographed once for each light.

Two kinds of set: a lamp carried round the stone at a grazing angle, from one side over the top to
the other or all the way, and the sun at different hours. In every set some photographs may be bad:
lit from the front so that the letters vanish, overexposed, too dark. Photographs lie over each other
only as well as registration lays them. The ranges are from memory, not fitted to any test picture,
but for registration's, which were measured.
"""

import math

import torch
import torch.nn.functional as F
from torch import Tensor

from carved.photo import CROP_HEIGHT, Camera
from carved.stone import StoneRenderer

_ARC_DEGREES = 164.0  # of a lamp that is carried over the top; below, grass and hand are in the way
# Of registration, in pixels of the crop. Measured on five rendered sets of four lights: half of the lines lie within .2 of the
# leading photograph's, nine in ten within .7, the worst 1.7 off; ends against the middle nine in ten within .2. A camera held by hand does worse.
_WORST_SHIFT_PX = 2.0
_OF_ENDS = 0.25  # part of that by which ends lie off the middle


class SetRenderer(StoneRenderer):
    """As `StoneRenderer`, with `render_sets` beside `render`."""

    def __init__(self, seed: int, device: torch.device):
        super().__init__(seed, device)
        self._steady = _SteadyCamera(self._generator, device)

    @torch.no_grad()
    def render_sets(
        self, masks: Tensor, lights: int, wear: tuple[float, float] = (0.0, 0.95),
        severity: tuple[float, float] = (0.0, 1.0), lean: float = 2.0,
    ) -> Tensor:  # fmt: skip
        """Masks (n, 64, w) of uint8, w a multiple of 32 -> photographs (n, lights, 48, 3w/4) of 0..1."""
        sets = masks.shape[0]
        relief, albedo, surface = self._stones(masks, wear, severity, lean)
        elevation, azimuth, ambient = self._lamps(sets, lights)
        of_set = lambda x: x.repeat_interleave(lights, 0)  # noqa: E731
        darkening, sky_slope, contrast = self._uniform(0.5, 1.6), self._uniform(0.2, 0.8), self._uniform(1.0, 2.0)
        self._lines = sets * lights
        self._severity = of_set(self._severity)
        height, hollow = of_set(relief["height"]), of_set(relief["hollow"])
        surface = {name: of_set(value) for name, value in surface.items()}
        towards = (torch.cos(elevation) * torch.cos(azimuth), torch.cos(elevation) * torch.sin(azimuth), torch.sin(elevation))

        padded = F.pad(height, (1, 1, 1, 1), mode="replicate")
        slope_x = (padded[:, :, 1:-1, 2:] - padded[:, :, 1:-1, :-2]) * 0.5
        slope_y = (padded[:, :, 2:, 1:-1] - padded[:, :, :-2, 1:-1]) * 0.5
        up = torch.rsqrt(1 + slope_x**2 + slope_y**2)
        sun = (-slope_x * towards[0] - slope_y * towards[1] + towards[2]) * up
        sun = sun.clamp(min=0) / towards[2].clamp(min=0.12) * self._cast_shadows(height, azimuth, elevation)
        sun = sun * self._dapple(height) * self._falloff(height, azimuth)
        seen_sky = 1 / (1 + of_set(darkening) * hollow)
        sky = (1 + of_set(sky_slope) * slope_y * up).clamp(0.2, 1.9)
        picture = of_set(albedo**contrast) * ((1 - ambient) * sun + ambient * seen_sky * sky)
        picture = picture + self._gloss(height, slope_x, slope_y, up, towards, ambient, surface)
        pictures = self._steady.photograph_sets(picture, self._severity, lights)
        return pictures.reshape(sets, lights, *pictures.shape[2:])

    def _lamps(self, sets: int, lights: int) -> tuple[Tensor, Tensor, Tensor]:
        """Elevation and azimuth (0 = right, a quarter turn = down) and the sky's share, each (sets * lights, 1, 1, 1)."""

        def uniform(low: float, high: float, count: int) -> Tensor:
            return low + (high - low) * torch.rand(sets, count, generator=self._generator, device=self._device)

        place = (torch.arange(lights, device=self._device) + uniform(-0.25, 0.25, lights)) / max(1, lights - 1)
        over_the_top = -math.pi / 2 + math.radians(_ARC_DEGREES) * (place - 0.5)
        all_round = uniform(0, 2 * math.pi, 1) + 2 * math.pi * place * max(1, lights - 1) / lights
        anywhere = uniform(-math.pi, math.pi, lights)
        kind = uniform(0, 1, 1)
        azimuth = torch.where(kind < 0.6, over_the_top, torch.where(kind < 0.8, all_round, anywhere))
        lamp = uniform(0, 1, 1) < 0.85  # else the sun, at hours between which it has moved
        elevation = torch.where(lamp, uniform(7, 18, 1) * uniform(0.65, 1.5, lights), uniform(8, 50, lights))
        ambient = torch.where(lamp, uniform(0.05, 0.3, 1), uniform(0.2, 0.5, 1)) * uniform(0.8, 1.25, lights)
        # Up to a third of a set's photographs are lit from the front or by the sky alone: letters vanish.
        bad = uniform(0, 1, lights) < uniform(-0.2, 0.33, 1)
        elevation = torch.where(bad, uniform(40, 85, lights), elevation)
        ambient = torch.where(bad, uniform(0.4, 0.95, lights), ambient)
        shape = (-1, 1, 1, 1)
        return (elevation * (math.pi / 180)).reshape(shape), azimuth.reshape(shape), ambient.reshape(shape)

    def _falloff(self, like: Tensor, azimuth: Tensor) -> Tensor:
        """A lamp near the stone lights its own side more."""
        _, _, rows, columns = like.shape
        y = torch.linspace(-1, 1, rows, device=like.device).reshape(1, 1, rows, 1)
        x = torch.linspace(-1, 1, columns, device=like.device).reshape(1, 1, 1, columns)
        near = self._uniform(0, 0.35)
        across = near * torch.cos(azimuth) + 0.1 * self._normal()
        down = 0.4 * near * torch.sin(azimuth) + 0.1 * self._normal()
        return (1 + across * x + down * y).clamp(min=0.2)


class _SteadyCamera(Camera):
    """Photographs of one set: one view, mostly one camera and file, each light's own exposure and registration."""

    def photograph_sets(self, light: Tensor, severity: Tensor, lights: int) -> Tensor:
        """(sets * lights, 1, 64, w) of linear light -> (sets * lights, 1, 48, 3w/4) of 0..1, gamma coded."""
        self._lines, self._lights, self._severity = light.shape[0], lights, severity
        self._alike = torch.zeros(1, 1, 1, 1, dtype=torch.bool, device=self._device)
        metered = self._uniform(0.10, 0.42) * self._uniform(0.85, 1.2)
        over = self._happens(0.06) * self._uniform(1.5, 4.0)
        under = self._happens(0.06) * self._uniform(0.5, 0.8)
        one_setting = self._of_set(torch.rand(self._lines // lights, 1, 1, 1, generator=self._generator, device=self._device))
        self._alike = one_setting < 0.8
        metered = torch.where(one_setting < 0.6, self._uniform(0.16, 0.34) * (0.7 + 0.6 * metered), metered)
        x = self._project(light)
        x = x * metered * (1 + over - under) / (x.clamp(max=3).mean((1, 2, 3), keepdim=True) + 1e-3)
        x = self._lens(x)
        x = x + self._white(x) * torch.sqrt(x.clamp(0, 2) + 0.02) * self._uniform(0, 0.04) * (0.2 + self._severity)
        x = self._develop(x)
        x = self._shrink_some(x)
        quality = self._uniform(30, 95)
        saved = self._happens(0.45)
        x = x * (1 - saved) + saved * self._jpeg(x, quality)
        self._alike = torch.ones_like(self._alike)
        negative = self._happens(0.03)
        return (x * (1 - negative) + negative * (1 - x)).clamp(0, 1)

    def _of_set(self, x: Tensor) -> Tensor:
        return x.repeat_interleave(self._lights, 0)

    def _uniform(self, low: float, high: float) -> Tensor:
        """One number for each photograph, the same for all of a set where the set is alike."""
        drawn = torch.rand(self._lines, 1, 1, 1, generator=self._generator, device=self._device)
        if self._lines == self._alike.shape[0]:
            drawn = torch.where(self._alike, self._of_set(drawn[:: self._lights]), drawn)
        return low + (high - low) * drawn

    def _project(self, light: Tensor) -> Tensor:
        """One view of the stone for the set; each photograph lies a little off it, shifted, turned and stretched."""
        rows, columns = CROP_HEIGHT, light.shape[3] * CROP_HEIGHT // light.shape[2]
        photographs, self._lines = self._lines, self._lines // self._lights
        grid = self._of_set(self._grid(rows, columns))
        most = self._of_set(self._uniform(0, 1) ** 2 * _WORST_SHIFT_PX)
        self._lines = photographs

        def off(share: float) -> Tensor:
            drawn = torch.rand(photographs, 1, 1, 1, generator=self._generator, device=self._device)
            return (share * most * (2 * drawn - 1)).squeeze(3)

        x = torch.linspace(-1, 1, columns, device=self._device).reshape(1, 1, columns)
        shift_x = (off(1.0) + off(_OF_ENDS) * x).expand(-1, rows, -1) * (2 / columns)
        shift_y = (off(0.7) + off(_OF_ENDS) * x).expand(-1, rows, -1) * (2 / rows)
        grid = grid + torch.stack([shift_x, shift_y], 3)
        return F.grid_sample(light, grid, mode="bilinear", padding_mode="reflection", align_corners=False)
