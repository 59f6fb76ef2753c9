"""Glyph masks made into photographs of worn, weathered, unevenly lit stone, on the GPU.

A mask becomes a height field (letters cut in or standing out, worn, spalled, overgrown), the height
field an albedo and a shading (sun, cast shadows, sky, gloss, dapple, wet), and that a photograph
(perspective, curve, low resolution, blur, noise, tone, sharpening, JPEG) of a line crop. Every
choice is drawn per line; nothing here knows the text.

Lengths are in pixels of the mask (HEIGHT rows); depths are in pixels too, so slopes are true.
The ranges are from memory of photographs of grave markers, not fitted to any test picture.
"""

import math
from dataclasses import dataclass

import torch
import torch.nn.functional as F
from torch import Tensor

from carved.growth import Growth
from carved.noise import NoiseAtlas
from carved.photo import Camera
from carved.raster import blur, smoothstep

GROWN_SHARE = 0.07  # of the lines before which something grows, those of greater severity rather than of less
DAPPLED_SHARE = 0.22  # of the lines of middling severity
_EROSIONS = 7  # steps of the distance field; half a stroke is rarely deeper


@dataclass(frozen=True)
class Material:
    """Ranges a line's surface is drawn from.

    share: how often it occurs. albedo: of the sound surface, 0..1. grain: roughness in pixels.
    speckle: contrast of crystals. gloss: strength of mirrored light. raised: how often letters
    stand out instead of being cut in. filled: how often letters hold lead, paint, gold or chalk.
    """

    name: str
    share: float
    albedo: tuple[float, float]
    grain: tuple[float, float]
    speckle: tuple[float, float]
    gloss: tuple[float, float]
    raised: float
    filled: float


MATERIALS = (
    Material("sandstone", 0.24, (0.18, 0.65), (0.03, 0.22), (0.0, 0.05), (0.0, 0.0), 0.07, 0.10),
    Material("limestone", 0.12, (0.40, 0.85), (0.02, 0.14), (0.0, 0.04), (0.0, 0.0), 0.08, 0.18),
    Material("marble", 0.18, (0.50, 0.95), (0.00, 0.10), (0.0, 0.05), (0.0, 0.15), 0.12, 0.35),
    Material("slate", 0.16, (0.06, 0.32), (0.00, 0.06), (0.0, 0.03), (0.0, 0.20), 0.04, 0.25),
    Material("polished granite", 0.11, (0.05, 0.60), (0.00, 0.03), (0.03, 0.28), (0.05, 0.45), 0.06, 0.55),
    Material("rough granite", 0.09, (0.15, 0.65), (0.05, 0.22), (0.05, 0.32), (0.0, 0.10), 0.30, 0.12),
    Material("bronze", 0.07, (0.03, 0.28), (0.00, 0.05), (0.0, 0.05), (0.25, 0.90), 0.92, 0.10),
    Material("concrete or wood", 0.03, (0.25, 0.75), (0.04, 0.20), (0.0, 0.12), (0.0, 0.0), 0.10, 0.20),
)


class StoneRenderer:
    """Renders batches of masks. One instance per device; the seed settles all it will ever draw."""

    def __init__(self, seed: int, device: torch.device):
        self._device = device
        self._generator = torch.Generator(device=device).manual_seed(seed)
        self._noise = NoiseAtlas(self._generator, device)
        self._growth = Growth(self._generator, device)
        self._camera = Camera(self._generator, device)
        self.grown_share, self.dappled_share = GROWN_SHARE, DAPPLED_SHARE
        table = [[*m.albedo, *m.grain, *m.speckle, *m.gloss, m.raised, m.filled] for m in MATERIALS]
        self._materials = torch.tensor(table, device=device)
        self._shares = torch.tensor([m.share for m in MATERIALS], device=device)

    @torch.no_grad()
    def render(
        self, masks: Tensor, wear: tuple[float, float] = (0.0, 0.95), severity: tuple[float, float] = (0.0, 1.0)
    ) -> Tensor:
        """Masks (n, 64, w) of uint8, w a multiple of 32 -> photographs (n, 1, 48, 3w/4) of 0..1.

        wear: least and most loss of the cut, 0 = fresh, 1 = gone; most lines lie near the least.
        severity: least and most of everything else that spoils a picture, growth, dirt, light and
        camera together, so that a good part of the lines is clean in every respect.
        """
        relief, albedo, surface = self._stones(masks, wear, severity)
        light = self._growth.before(self._light(relief, albedo, surface), self._severity, self.grown_share)
        return self._camera.photograph(light, self._severity)

    def _stones(
        self, masks: Tensor, wear: tuple[float, float], severity: tuple[float, float], lean: float = 2.0
    ) -> tuple[dict[str, Tensor], Tensor, dict[str, Tensor]]:
        """Relief, albedo and surface, not lit yet. The greater `lean`, the more lines lie near the least wear."""
        self._lines = masks.shape[0]
        self._severity = severity[0] + (severity[1] - severity[0]) * self._uniform(0, 1) ** 2
        mask = masks.to(self._device).unsqueeze(1).float() / 255
        mask = self._recut(mask)
        loss = wear[0] + (wear[1] - wear[0]) * self._uniform(0, 1) ** lean
        surface = self._surface()
        cut, half_stroke = self._cut(mask)
        cut = self._wear_down(cut, half_stroke, loss)
        relief = self._relief(mask, cut, half_stroke, loss, surface)
        return relief, self._albedo(mask, relief, half_stroke, loss, surface), surface

    # -- drawing of numbers, one per line -------------------------------------------------------

    def _uniform(self, low: float, high: float | Tensor) -> Tensor:
        drawn = torch.rand(self._lines, 1, 1, 1, generator=self._generator, device=self._device)
        return low + (high - low) * drawn

    def _normal(self) -> Tensor:
        return torch.randn(self._lines, 1, 1, 1, generator=self._generator, device=self._device)

    def _happens(self, probability: Tensor | float) -> Tensor:
        """1.0 for the lines to which it happens, else 0.0."""
        return (self._uniform(0, 1) < probability).float()

    def _spoils(self, probability: float) -> Tensor:
        """As `_happens`, the more often the greater the line's severity."""
        return self._happens(probability * (0.1 + 1.6 * self._severity))

    def _white(self, like: Tensor) -> Tensor:
        return torch.randn(like.shape, generator=self._generator, device=self._device)

    def _patches(self, like: Tensor, cell: tuple[float, float], share: Tensor, edge: Tensor | float, **stretch) -> Tensor:
        """Soft-edged patches that cover about `share` (per line, 0..1) of the surface."""
        level = torch.erfinv((1 - 2 * share).clamp(-0.999, 0.999)) * math.sqrt(2)
        field = self._noise.field(like, cell, **stretch)
        return smoothstep(field, level, level + edge) * (share > 0.003)

    def _surface(self) -> dict[str, Tensor]:
        index = torch.multinomial(self._shares, self._lines, replacement=True, generator=self._generator)
        row = self._materials[index].reshape(self._lines, -1, 1, 1, 1)
        between = lambda low: row[:, low] + (row[:, low + 1] - row[:, low]) * self._uniform(0, 1)  # noqa: E731
        return {
            "albedo": between(0), "grain": between(2) * self._uniform(0.2, 1), "speckle": between(4), "gloss": between(6),
            "raised": self._happens(row[:, 8]), "filled": self._happens(row[:, 9]),
        }  # fmt: skip

    # -- shape -----------------------------------------------------------------------------------

    def _recut(self, mask: Tensor) -> Tensor:
        """The same letters by another hand: wobbling outlines, heavier or lighter strokes."""
        lines, _, rows, columns = mask.shape
        strength = self._happens(0.6) * self._uniform(0, 1.1)
        slow = self._happens(0.3) * self._uniform(0, 2.2)
        dx = strength * self._noise.field(mask, (6, 14)) + slow * self._noise.field(mask, (40, 120))
        dy = strength * self._noise.field(mask, (6, 14)) + slow * self._noise.field(mask, (40, 120))
        grid = _identity_grid(rows, columns, mask.device)
        shift = torch.cat([dx * 2 / columns, dy * 2 / rows], 1).permute(0, 2, 3, 1)
        mask = F.grid_sample(mask, grid + shift, mode="bilinear", padding_mode="zeros", align_corners=False)
        soft = blur(mask, self._uniform(0.5, 1.0), 3)
        weight = self._happens(0.5) * self._uniform(-0.22, 0.22)
        return torch.where(weight == 0, mask, smoothstep(soft, 0.3 + weight, 0.7 + weight))

    def _cut(self, mask: Tensor) -> tuple[Tensor, Tensor]:
        """Depth of the fresh cut, and half the mean stroke width per line."""
        distance, eroded = mask * 0.5, mask
        for step in range(_EROSIONS):
            eroded = _erode(eroded, diagonal=step % 2 == 1)
            distance = distance + eroded * (0.85 if step % 2 == 0 else 0.95)
        inside = (mask > 0.5).float()
        mean = (distance * inside).sum((1, 2, 3), keepdim=True) / (inside.sum((1, 2, 3), keepdim=True) + 1)
        half = (2 * mean).clamp(1, 7)
        v_cut = distance * self._uniform(0.6, 1.7)
        across = (distance / half).clamp(0, 1)
        u_cut = half * self._uniform(0.6, 1.2) * torch.sqrt((1 - (1 - across) ** 2).clamp(0, 1) + 1e-6) * (distance > 0.05)
        flat = half * self._uniform(0.2, 0.9) * smoothstep(distance, 0.0, 1.4)
        shallow = half * self._uniform(0.08, 0.25) * smoothstep(distance, 0.0, 1.0)  # etched, scratched
        kind = self._uniform(0, 1)
        cut = torch.where(kind < 0.48, v_cut, torch.where(kind < 0.65, u_cut, torch.where(kind < 0.96, flat, shallow)))
        return cut, half

    def _wear_down(self, cut: Tensor, half: Tensor, loss: Tensor) -> Tensor:
        uneven = (1 + 0.45 * self._noise.field(cut, (40, 240))).clamp(0.05, 2.2)
        taken = loss * half * self._uniform(0.25, 0.85) * uneven
        worn = torch.minimum(F.softplus((cut - taken) * 3) / 3 * (cut > 0), cut)
        return blur(worn, 0.25 + half * loss * self._uniform(0.05, 0.55), 6)

    def _relief(self, mask: Tensor, cut: Tensor, half: Tensor, loss: Tensor, surface: dict[str, Tensor]) -> dict[str, Tensor]:
        """The height field and where what has happened to it."""
        flaked = self._patches(
            cut, (30, 160), self._spoils(0.4) * self._uniform(0, 0.25) * (loss + 0.15), self._uniform(0.03, 0.2), stretch_x=1.5
        )
        flake_depth = flaked * half * self._uniform(0.5, 2.2)
        cut = (cut - flake_depth).clamp(min=0)

        grain = blur(self._white(cut), self._uniform(0.3, 1.3), 4)
        grain = grain / (grain.flatten(1).std(1).reshape(-1, 1, 1, 1) + 1e-4) * (surface["grain"] + loss * self._uniform(0, 0.25)) * (0.25 + self._severity)
        bumps = self._noise.field(cut, (5, 45)) * half * self._uniform(0, 0.14) * (0.3 + loss) * (0.25 + self._severity)
        bedding = self._noise.field(cut, (3, 8), stretch_x=8.0) * self._uniform(0, 0.22) * self._spoils(0.18)
        tooling = self._tooling(cut) * self._spoils(0.08) * self._uniform(0.1, 0.45)
        pits = smoothstep(self._noise.field(cut, (4, 11)), 1.4, 2.3) * half * self._uniform(0, 0.7) * loss * self._spoils(0.4)
        crack_line = self._noise.field(cut, (60, 220))
        cracks = torch.exp(-((crack_line / self._uniform(0.01, 0.035)) ** 2)) * half * self._uniform(0.3, 1.2) * self._spoils(0.12)

        # Lichen and moss lie on the stone, moss by choice in the letters.
        lichen = self._patches(cut, (10, 80), self._spoils(0.35) * self._uniform(0, 0.16) * (0.3 + loss), 0.2)
        moss_share = self._spoils(0.13) * self._uniform(0.02, 0.35)
        level = torch.erfinv((1 - 2 * moss_share).clamp(-0.999, 0.999)) * math.sqrt(2)
        likes_letters = smoothstep(cut, 0.1 * half, 0.6 * half) * self._uniform(0.0, 1.6)
        moss = smoothstep(self._noise.field(cut, (12, 90)) + likes_letters, level, level + 0.35) * (moss_share > 0)
        cut_left = cut * (1 - 0.6 * lichen) * (1 - 0.75 * moss)

        direction = 1 - 2 * surface["raised"]  # into the stone, or out of it
        rough = self._white(cut)
        height = (
            grain + bumps + bedding + tooling - pits - cracks - flake_depth - direction * cut_left
            + lichen * half * self._uniform(0.1, 0.5) * (1 + 0.4 * rough) + moss * half * self._uniform(0.1, 0.6) * (1 + 0.3 * rough)
        )  # fmt: skip
        smooth = blur(height, 2.6, 8)
        hollow = ((smooth - height) / (half * 0.7)).clamp(0, 1.5)
        rubbed = ((height - smooth) / (half * 0.7)).clamp(0, 1.5)
        return {"height": height, "hollow": hollow, "rubbed": rubbed, "cut": cut_left, "flaked": flaked, "lichen": lichen, "moss": moss, "rough": rough}

    def _tooling(self, like: Tensor) -> Tensor:
        """Parallel chisel strokes at some angle."""
        _, _, rows, columns = like.shape
        y = torch.arange(rows, device=like.device, dtype=like.dtype).reshape(1, 1, rows, 1)
        x = torch.arange(columns, device=like.device, dtype=like.dtype).reshape(1, 1, 1, columns)
        angle, pitch = self._uniform(-math.pi / 2, math.pi / 2), self._uniform(3.5, 11)
        phase = (x * torch.cos(angle) + y * torch.sin(angle)) * (2 * math.pi / pitch)
        return torch.sin(phase + 1.5 * self._noise.field(like, (20, 60)))

    # -- colour ----------------------------------------------------------------------------------

    def _albedo(self, mask: Tensor, relief: dict[str, Tensor], half: Tensor, loss: Tensor, surface: dict[str, Tensor]) -> Tensor:
        cut = relief["cut"]
        base = surface["albedo"]
        cloudy = self._uniform(0, 0.10) * self._noise.field(cut, (30, 160))
        fine = self._uniform(0, 0.10) * blur(self._white(cut), self._uniform(0.2, 1.2), 4)
        albedo = base * (1 + cloudy + fine)
        crystals = self._noise.field(cut, (2, 7))
        albedo = albedo * (1 + surface["speckle"] * (smoothstep(crystals, 0.4, 1.0) - smoothstep(-crystals, 0.5, 1.1)))
        streaks = smoothstep(self._noise.field(cut, (6, 30), stretch_y=9.0), 0.2, 2.4)
        albedo = albedo * (1 - self._spoils(0.35) * self._uniform(0, 0.5) * streaks)
        bands = self._noise.field(cut, (4, 20), stretch_x=8.0)
        albedo = albedo * (1 + self._spoils(0.25) * self._uniform(0, 0.13) * bands)
        crust = smoothstep(self._noise.field(cut, (60, 400)), self._uniform(-0.5, 0.8), 2.0) * self._spoils(0.4) * self._uniform(0, 0.65)
        albedo = albedo * (1 - crust) + crust * self._uniform(0.03, 0.2)

        albedo = self._fill_letters(albedo, mask, cut, half, loss, surface)

        dirt = self._spoils(0.5) * self._uniform(0, 0.6) * (0.2 + loss)
        albedo = albedo * (1 - dirt * relief["hollow"]).clamp(0.2, 1)
        bright_edges = surface["raised"] * self._happens(0.6) * self._uniform(0, 0.9)  # bronze is polished by hands
        albedo = albedo * (1 + bright_edges * relief["rubbed"])
        albedo = albedo * (1 + relief["flaked"] * self._uniform(-0.15, 0.35))
        for growth, low, high in ((relief["lichen"], 0.1, 0.9), (relief["moss"], 0.04, 0.22)):
            cover = growth * self._uniform(0.5, 1.0)
            albedo = albedo * (1 - cover) + cover * self._uniform(low, high) * (1 + 0.25 * relief["rough"])

        wet = self._patches(cut, (60, 500), self._spoils(0.16) * self._uniform(0.1, 0.98), self._uniform(0.05, 0.6), stretch_y=1.5)
        wet = (wet + self._spoils(0.04)).clamp(max=1)  # rain all over
        surface["wet"] = wet
        albedo = albedo.clamp(0.01, 1.0)
        return albedo * (1 - wet) + wet * albedo ** self._uniform(1.2, 1.8)

    def _fill_letters(self, albedo, mask, cut, half, loss, surface) -> Tensor:
        """Lead, paint, gold and chalk in the letters, part of it gone; paint may stay where the cut has worn away."""
        letters = (blur(mask, 0.5, 2) * 1.1).clamp(0, 1)
        within = torch.where(self._uniform(0, 1) < 0.35, letters, (cut / (half * 0.35)).clamp(0, 1) * letters)
        whole = (1.2 - loss * self._uniform(0.4, 1.4) + 0.5 * self._noise.field(cut, (14, 80)) * (0.3 + loss)).clamp(0, 1)
        missing = self._patches(cut, (8, 50), self._spoils(0.35) * self._uniform(0.1, 0.75), 0.15)  # half the lead has dropped out
        lighter = (surface["albedo"] * self._uniform(1.3, 3.2) + 0.08).clamp(max=0.97)
        darker = surface["albedo"] * self._uniform(0.05, 0.6)
        colour = torch.where(self._uniform(0, 1) < 0.5, lighter, darker)
        amount = surface["filled"] * whole * within * (1 - missing) * self._uniform(0.35, 1.0)
        # Chalk is rubbed over the face and stays in the grain around the letters.
        chalk = self._spoils(0.03) * self._uniform(0.2, 0.8) * (blur(mask, 1.2, 4) + 0.25 * self._white(mask)).clamp(0, 1)
        albedo = albedo * (1 - amount) + amount * colour
        return albedo * (1 - chalk) + chalk * 0.9

    # -- light -----------------------------------------------------------------------------------

    def _light(self, relief: dict[str, Tensor], albedo: Tensor, surface: dict[str, Tensor]) -> Tensor:
        height = relief["height"]
        lines, _, rows, columns = height.shape
        regime = self._uniform(0, 1) ** (1.5 - 0.7 * self._severity)  # raking sun, slanting sun, dull day or flat front light
        elevation = torch.where(
            regime < 0.34, self._uniform(7, 24), torch.where(regime < 0.68, self._uniform(22, 52), self._uniform(45, 62 + 24 * self._severity))
        ) * (math.pi / 180)
        ambient = torch.where(
            regime < 0.34, self._uniform(0.08, 0.4), torch.where(regime < 0.68, self._uniform(0.2, 0.5), 0.35 + self._uniform(0, 0.53) * (0.3 + 0.7 * self._severity))
        )
        from_above = -math.pi / 2 + self._normal()
        azimuth = torch.where(self._uniform(0, 1) < 0.75, from_above, self._uniform(-math.pi, math.pi))
        towards = (torch.cos(elevation) * torch.cos(azimuth), torch.cos(elevation) * torch.sin(azimuth), torch.sin(elevation))

        padded = F.pad(height, (1, 1, 1, 1), mode="replicate")
        slope_x = (padded[:, :, 1:-1, 2:] - padded[:, :, 1:-1, :-2]) * 0.5
        slope_y = (padded[:, :, 2:, 1:-1] - padded[:, :, :-2, 1:-1]) * 0.5
        up = torch.rsqrt(1 + slope_x**2 + slope_y**2)
        facing = (-slope_x * towards[0] - slope_y * towards[1] + towards[2]) * up
        sun = facing.clamp(min=0) / towards[2].clamp(min=0.12)
        sun = sun * self._cast_shadows(height, azimuth, elevation)

        seen_sky = 1 / (1 + self._uniform(0.5, 1.6) * relief["hollow"])
        sky = (1 + self._uniform(0.2, 0.8) * slope_y * up).clamp(0.2, 1.9)

        sun = sun * self._dapple(height)
        y = torch.linspace(-1, 1, rows, device=height.device).reshape(1, 1, rows, 1)
        x = torch.linspace(-1, 1, columns, device=height.device).reshape(1, 1, 1, columns)
        sun = sun * (1 + 0.14 * self._normal() * x + 0.12 * self._normal() * y).clamp(min=0.2)
        picture = albedo ** self._uniform(1.0, 2.0) * ((1 - ambient) * sun + ambient * seen_sky * sky)
        return picture + self._gloss(height, slope_x, slope_y, up, towards, ambient, surface)

    def _cast_shadows(self, height: Tensor, azimuth: Tensor, elevation: Tensor) -> Tensor:
        """1 in the sun, 0 in the shadow of something nearer to it, soft between."""
        _, _, rows, columns = height.shape
        grid = _identity_grid(rows, columns, height.device)
        lit = torch.ones_like(height)
        rise = torch.tan(elevation)
        for reach in (1.3, 2.6, 4.4, 7.2, 12.0):
            offset = torch.cat([torch.cos(azimuth) * reach * 2 / columns, torch.sin(azimuth) * reach * 2 / rows], 3)
            nearer = F.grid_sample(height, grid + offset, mode="bilinear", padding_mode="border", align_corners=False)
            blocked = (nearer - height - reach * rise) / (0.3 + 0.05 * reach) + 0.2
            lit = torch.minimum(lit, 1 - blocked.clamp(0, 1))
        return lit

    def _dapple(self, like: Tensor) -> Tensor:
        """Sun through leaves, and the hard edge of a branch's or a neighbour's shadow."""
        leaves, twigs = self._noise.field(like, (25, 240)), self._noise.field(like, (6, 60))
        leaves = torch.where(self._happens(0.45) > 0, 0.5 * leaves + twigs, leaves)
        strength = self._spoils(self.dappled_share)
        sharp = self._uniform(0.05, 0.5)
        lit_over = self._uniform(-0.6, 0.9)  # mostly sun to spots of sun in the shade
        shade = self._uniform(0.02, 0.35) + 0.8 * smoothstep(leaves, lit_over - sharp, lit_over + sharp)
        return 1 - strength + strength * shade

    def _gloss(self, height, slope_x, slope_y, up, towards, ambient, surface) -> Tensor:
        """Mirrored sun and the reflection of what stands before a polished or wet face."""
        half_vector_z = ((1 + towards[2]) / 2).clamp(min=0.05).sqrt()
        half_x, half_y = towards[0] / (2 * half_vector_z), towards[1] / (2 * half_vector_z)
        # The camera is rarely square on: its lean moves the highlight.
        aligned = ((-slope_x * half_x - slope_y * half_y + half_vector_z) * up + 0.1 * self._normal()).clamp(0, 1)
        shine = (surface["gloss"] + 0.35 * surface["wet"] * self._uniform(0, 1)).clamp(max=1)
        highlight = aligned ** self._uniform(8, 60)
        mirrored = torch.sigmoid(3 * self._noise.field(height, (60, 400))) * (1 - ((slope_x.abs() + slope_y.abs()) * 4).clamp(0, 1))
        return shine * (self._uniform(0, 0.7) * (1 - ambient) * highlight + self._uniform(0, 0.3) * mirrored)


def _identity_grid(rows: int, columns: int, device: torch.device) -> Tensor:
    y = (torch.arange(rows, device=device, dtype=torch.float32) * 2 + 1) / rows - 1
    x = (torch.arange(columns, device=device, dtype=torch.float32) * 2 + 1) / columns - 1
    return torch.stack([x.reshape(1, -1).expand(rows, -1), y.reshape(-1, 1).expand(-1, columns)], 2).unsqueeze(0)


def _erode(x: Tensor, diagonal: bool) -> Tensor:
    """Grey erosion by a square, or by a cross where `diagonal` is false."""
    if diagonal:
        return -F.max_pool2d(-x, 3, 1, 1)
    return torch.minimum(-F.max_pool2d(-x, (3, 1), 1, (1, 0)), -F.max_pool2d(-x, (1, 3), 1, (0, 1)))
