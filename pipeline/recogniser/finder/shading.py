"""From masks to a photograph, on the GPU: relief, weathering, surface, light, camera.

Heights and lengths are pixels of the page. Each page of a batch gets its own random stone and light.
"""

import math

import torch
import torch.nn.functional as F

from .scene import BODY, FACE, FOLIAGE, GRASS, LEAF, OTHER_A, OTHER_B, REGIONS, SKY, WALL

# Fields of the per-region surface table.
ALBEDO, MOTTLE, GRAIN, GRASSY, LEAFY, BRICK, BUMP = range(7)


LEAST_VISIBLE = 0.27  # share of the ink around that still stands out from the grain; by eye


def _uniform(n, low, high, device):
    return torch.rand(n, 1, 1, 1, device=device) * (high - low) + low


def noise(n, size, cell, device, octaves=3, persistence=0.55, stretch_x=1.0, stretch_y=1.0):
    """Smooth noise of about unit variance whose largest blobs measure about `cell` pixels.

    The coarse octaves are made at a quarter of the size, which looks the same and costs less.
    """
    total, result, weight = 0.0, None, 1.0
    for octave in range(octaves):
        c = cell / 2**octave
        if c < 1.0:
            break
        at = size // 4 if c >= 8 else size
        grid = torch.randn(n, 1, max(2, int(size / (c * stretch_y)) + 2), max(2, int(size / (c * stretch_x)) + 2), device=device)
        layer = F.interpolate(grid, size=(at, at), mode="bicubic" if c >= 8 else "bilinear", align_corners=False)
        if at != size:
            layer = F.interpolate(layer, size=(size, size), mode="bilinear", align_corners=False)
        result = layer * weight if result is None else result + layer * weight
        total += weight * weight
        weight *= persistence
    return result / (math.sqrt(total) * 0.7)


def _separable(x, kernels):
    n, _, h, w = x.shape
    taps = kernels.shape[1]
    r = taps // 2
    y = F.pad(x.reshape(1, n, h, w), (r, r, 0, 0), mode="replicate")
    y = F.conv2d(y, kernels.reshape(n, 1, 1, taps), groups=n)
    y = F.pad(y, (0, 0, r, r), mode="replicate")
    return F.conv2d(y, kernels.reshape(n, 1, taps, 1), groups=n).reshape(n, 1, h, w)


def blur(x, sigma, reach=None):
    """Gaussian blur; `sigma` is a number or one value for each page."""
    if not torch.is_tensor(sigma):
        sigma = torch.full((x.shape[0],), float(sigma), device=x.device)
    if reach is None:
        reach = 6
    t = torch.arange(-reach, reach + 1, device=x.device, dtype=torch.float32)
    kernels = torch.exp(-t * t / (2 * sigma.reshape(-1, 1).clamp(min=0.12) ** 2))
    return _separable(x, kernels / kernels.sum(1, keepdim=True))


def wide_blur(x, factor):
    """A cheap blur over about `factor` pixels, made on a reduced copy."""
    small = F.avg_pool2d(x, factor)
    small = F.avg_pool2d(F.pad(small, (1, 1, 1, 1), mode="replicate"), 3, 1)
    return F.interpolate(small, size=x.shape[2:], mode="bilinear", align_corners=False)


def _smoothstep(x, low, high):
    t = ((x - low) / (high - low)).clamp(0, 1)
    return t * t * (3 - 2 * t)


def _threshold(fraction):
    """The level that unit normal noise exceeds over this fraction of the area."""
    return torch.erfinv((1 - 2 * fraction).clamp(-0.999, 0.999)) * math.sqrt(2)


def _inner_depth(mask, steps=7):
    """Distance from the edge of a stroke, roughly, up to `steps` pixels."""
    depth, core = mask * 0.5, mask
    for k in range(steps):
        if k % 2:
            core = -F.max_pool2d(-core, 3, 1, 1)
        else:
            core = torch.minimum(-F.max_pool2d(-core, (3, 1), 1, (1, 0)), -F.max_pool2d(-core, (1, 3), 1, (0, 1)))
        depth = depth + core * 0.9
    return depth


_LUMINANCE = torch.tensor(
    [
        [16, 11, 10, 16, 24, 40, 51, 61], [12, 12, 14, 19, 26, 58, 60, 55], [14, 13, 16, 24, 40, 57, 69, 56],
        [14, 17, 22, 29, 51, 87, 80, 62], [18, 22, 37, 56, 68, 109, 103, 77], [24, 35, 55, 64, 81, 104, 113, 92],
        [49, 64, 78, 87, 103, 121, 120, 101], [72, 92, 95, 98, 112, 100, 103, 99],
    ],
    dtype=torch.float32,
)  # ITU-T T.81, table K.1
_DCT = torch.tensor([[math.sqrt((1 if i == 0 else 2) / 8.0) * math.cos((2 * j + 1) * i * math.pi / 16) for j in range(8)] for i in range(8)])


def jpeg(x, quality):
    """The loss of a JPEG of this quality (per page, 1..100); sides divisible by 8."""
    n, _, h, w = x.shape
    dct = _DCT.to(x.device)
    blocks = (x * 255 - 128).reshape(n, h // 8, 8, w // 8, 8).permute(0, 1, 3, 2, 4)
    scale = torch.where(quality < 50, 5000 / quality, 200 - 2 * quality) / 100
    table = (_LUMINANCE.to(x.device) * scale.reshape(n, 1, 1, 1, 1)).clamp(1, 255)
    kept = torch.round(dct @ blocks @ dct.T / table) * table
    out = (dct.T @ kept @ dct + 128) / 255
    return out.permute(0, 1, 3, 2, 4).reshape(n, 1, h, w)


def _surfaces(n, device):
    """Random surface table (n, REGIONS, fields)."""
    r = lambda low, high: torch.rand(n, device=device) * (high - low) + low
    maybe = lambda p: (torch.rand(n, device=device) < p).float()
    table = torch.zeros(n, REGIONS, 7, device=device)
    stone = r(0.1, 0.85)
    table[:, SKY, ALBEDO], table[:, SKY, MOTTLE] = r(0.5, 1.3), r(0, 0.2)
    table[:, GRASS, ALBEDO], table[:, GRASS, GRASSY] = r(0.1, 0.4), r(0.2, 0.9)
    table[:, GRASS, MOTTLE], table[:, GRASS, LEAFY] = r(0.1, 0.5), r(0, 0.4) * maybe(0.4)
    for region in (FOLIAGE, LEAF):
        table[:, region, ALBEDO], table[:, region, LEAFY] = r(0.08, 0.45), r(0.2, 0.9)
        table[:, region, MOTTLE], table[:, region, GRASSY] = r(0.1, 0.5), r(0, 0.5) * maybe(0.3)
    table[:, WALL, ALBEDO], table[:, WALL, BRICK] = r(0.15, 0.7), r(0, 1) * maybe(0.7)
    table[:, WALL, MOTTLE], table[:, WALL, GRAIN], table[:, WALL, BUMP] = r(0, 0.25), r(0.02, 0.3), r(0, 1.5)
    table[:, FACE, ALBEDO], table[:, BODY, ALBEDO] = stone, (stone * r(0.6, 1.4)).clamp(0.04, 0.95)
    table[:, OTHER_A, ALBEDO], table[:, OTHER_B, ALBEDO] = r(0.1, 0.8), (stone * r(0.7, 1.3)).clamp(0.04, 0.95)
    for region in (FACE, BODY, OTHER_A, OTHER_B):
        table[:, region, MOTTLE], table[:, region, GRAIN], table[:, region, BUMP] = r(0, 0.12), r(0.01, 0.2), r(0, 0.8)
    return table


@torch.no_grad()
def photograph(letters, relief, regions, target, wear=None, most_wear=0.9):
    """Grey pictures (n, 1, target, target), 0..1, from uint8 masks (n, size, size).

    Also gives, at a quarter of the size, where the letters show at all (1) or are lost (0).

    wear: per-page weathering, 0 (fresh) to 1 (hardly anything left); drawn at random if None.
    """
    device = letters.device
    n, size = letters.shape[0], letters.shape[-1]
    u = lambda low, high: _uniform(n, low, high, device)
    some = lambda p: (torch.rand(n, 1, 1, 1, device=device) < p).float()
    cell = lambda low, high: float(torch.empty(1).uniform_(low, high))
    field = lambda c, *args, **kw: noise(n, size, c, device, *args, **kw)
    text = letters.float().unsqueeze(1) / 255
    shape = relief.float().unsqueeze(1) / 255
    if wear is None:
        wear = torch.rand(n, 1, 1, 1, device=device) ** 1.4 * most_wear
    else:
        wear = torch.as_tensor(wear, dtype=torch.float32, device=device).reshape(n, 1, 1, 1)

    # What each pixel is made of.
    table = _surfaces(n, device)
    index = regions.reshape(n, -1).long()
    column = lambda f: table[:, :, f].gather(1, index).reshape(n, 1, size, size)
    carved = ((regions == FACE) | (regions == OTHER_A) | (regions == OTHER_B)).unsqueeze(1).float()

    # Depth of the cut. Strokes of a page differ in width, so depth and wear go by the local width.
    depth = _inner_depth(text)
    half = F.max_pool2d(F.max_pool2d(depth, 4), 7, 1, 3)
    half = F.interpolate(F.avg_pool2d(F.pad(half, (3, 3, 3, 3), mode="replicate"), 7, 1), size=(size, size), mode="bilinear", align_corners=False).clamp(0.8, 7)
    q = (depth / half).clamp(0, 1)
    # A pixel of a distant stone averages its grain: roughness goes by the size of the letters, too.
    inked = (text > 0.5).float()
    thin = ((inked * half**-4).sum((1, 2, 3), keepdim=True) + 0.01) / (inked.sum((1, 2, 3), keepdim=True) + 1)
    fine = thin ** (-1 / 4)  # the finer strokes of the page count most
    fine = fine.clamp(0.8, 3.5) / 3.5
    kind = torch.rand(n, 1, 1, 1, device=device)
    v_cut = depth * u(0.7, 1.8)
    round_cut = half * u(0.5, 1.2) * torch.sqrt((1 - (1 - q) ** 2).clamp(0, 1) + 1e-6) * (depth > 0.05)
    flat_cut = half * u(0.25, 0.9) * _smoothstep(depth, 0.0, 1.4)
    cut = torch.where(kind < 0.5, v_cut, torch.where(kind < 0.7, round_cut, flat_cut))
    lost = wear * half * u(0.25, 0.8) * (1 + 0.45 * field(cell(50, 260))).clamp(0.05, 2.2)
    cut = torch.minimum(F.softplus((cut - lost) * 3) / 3 * (cut > 0), cut)
    cut = blur(cut, 0.25 + 1.4 * wear * u(0.1, 0.9), 4)
    cut = cut * carved
    raised = some(0.16)
    sign = 1 - 2 * raised
    figure = blur(shape, u(0.4, 1.6), 4) * u(0.6, 6.0) * (1 - 2 * some(0.5)) * (1 - 0.6 * wear)

    # The surface, and what took it away.
    spall_share = some(0.35) * u(0, 0.2) * (wear + 0.15)
    level = _threshold(spall_share)
    spall = _smoothstep(field(cell(40, 260), 5, 0.5), level, level + u(0.03, 0.2)) * (spall_share > 0.003) * carved
    cut = (cut - spall * half * u(0.5, 2.0)).clamp(min=0)
    rough = torch.randn(n, 1, size, size, device=device)
    rough = blur(rough, u(0.3, 1.4), 4)
    rough = rough / (rough.flatten(1).std(1).reshape(n, 1, 1, 1) + 1e-4)
    roughness = (column(GRAIN) + wear * u(0, 0.3) * carved) * fine
    grain = rough * roughness
    bump = field(cell(6, 60), 3, 0.6) * (column(BUMP) + carved * u(0, 0.6) * wear) * fine
    pits = _smoothstep(field(cell(4, 12), 2), 1.4, 2.3) * u(0, 1.5) * wear * some(0.35) * carved * fine
    crack_field = field(cell(80, 400), 4, 0.5)
    cracks = torch.exp(-((crack_field / u(0.006, 0.03)) ** 2)) * u(0.4, 2.5) * some(0.18) * carved
    layers = field(cell(3, 9), 2, 0.6, stretch_x=cell(2, 14)) * u(0, 0.35) * some(0.2) * carved * fine
    lichen_share = some(0.4) * u(0, 0.22) * (0.3 + wear)
    level = _threshold(lichen_share)
    lichen = _smoothstep(field(cell(12, 110), 4, 0.65), level, level + 0.2) * (lichen_share > 0.003) * carved
    blades = field(cell(9, 34), 3, 0.7, stretch_y=4.0, stretch_x=0.35)
    leaves = field(cell(8, 70), 4, 0.7)
    green = (column(GRASSY) * blades + 1.5 * column(LEAFY) * leaves) * u(0.2, 1.6)
    height = green + grain + bump - pits - cracks + layers - spall * half * u(0.5, 1.6) + figure - sign * cut * (1 - 0.6 * lichen)
    height = height + lichen * half * u(0.1, 0.5) * (1 + 0.4 * torch.randn_like(height))

    # Colour, which is grey here.
    albedo = column(ALBEDO) * (1 + column(MOTTLE) * field(cell(30, 260), 4) + u(0, 0.08) * rough)
    albedo = albedo * (1 + column(GRASSY) * (0.6 * torch.tanh(blades)) + column(LEAFY) * (0.5 * torch.tanh(leaves))).clamp(0.05, 2.5)
    albedo = albedo * (1 - column(BRICK) * _bricks(n, size, device))
    stains = field(cell(8, 40), 3, 0.6, stretch_y=cell(2, 12))
    albedo = albedo * (1 - some(0.4) * u(0, 0.5) * _smoothstep(stains, 0.2, 2.4) * carved)
    veins = field(cell(10, 60), 3, 0.6, stretch_x=cell(2, 10))
    albedo = albedo * (1 + some(0.3) * u(0, 0.15) * veins * carved)
    speckle = field(cell(2, 5), 2, 0.6)
    granite = some(0.22)
    albedo = albedo * (1 + granite * u(0.05, 0.38) * carved * (_smoothstep(speckle, 0.4, 1.0) - _smoothstep(-speckle, 0.5, 1.1)))
    crust = _smoothstep(field(cell(80, 600), 4, 0.6), u(-0.5, 0.9), torch.full((n, 1, 1, 1), 2.0, device=device))
    crust = crust * some(0.4) * u(0, 0.65) * carved
    albedo = albedo * (1 - crust) + crust * u(0.03, 0.2)
    inside = (cut / (half * 0.35)).clamp(0, 1) * (text * 1.3).clamp(0, 1)
    kept = (1.2 - wear * u(0.4, 1.4) + 0.5 * field(cell(20, 120), 4, 0.6) * (0.3 + wear)).clamp(0, 1)
    ground = table[:, FACE, ALBEDO].reshape(n, 1, 1, 1)
    paint = torch.where(some(0.5) > 0, (ground * u(1.3, 3.0) + 0.08).clamp(max=0.95), ground * u(0.05, 0.6))
    cover = some(0.48) * kept * inside * u(0.4, 1.0)
    albedo = albedo * (1 - cover) + cover * paint
    # Where letters were cut but hardly show, nobody can be asked to find them.
    shows = torch.maximum((cut / (0.6 * roughness + 0.12)).clamp(max=1), (1.5 * cover).clamp(max=1)) * text
    around = lambda t: F.avg_pool2d(F.avg_pool2d(t, 4), 9, 1, 4)
    visible = around(shows) / (around(text) + 1e-4) > LEAST_VISIBLE
    visible = F.interpolate(visible.float(), size=(target // 4, target // 4), mode="nearest")[:, 0]
    hollow = ((blur(height, 2.6, 7) - height) / (half * 0.5)).clamp(0, 1.5) * carved
    albedo = albedo * (1 - some(0.5) * u(0, 0.6) * (0.2 + wear) * hollow).clamp(0.2, 1)
    albedo = albedo * (1 + spall * u(-0.2, 0.35))
    growth = lichen * u(0.5, 1.0)
    albedo = albedo * (1 - growth) + growth * u(0.1, 0.95) * (1 + 0.25 * rough)
    moss = _smoothstep(field(cell(40, 200), 4, 0.65), u(0.6, 1.6), torch.full((n, 1, 1, 1), 2.2, device=device)) * some(0.2) * carved
    albedo = (albedo * (1 - 0.8 * moss) + 0.8 * moss * u(0.05, 0.2) * (1 + 0.5 * rough)).clamp(0.01, 1.3)

    # Light: elevation and azimuth (up in the picture most often), sky light, shadows.
    hour = torch.rand(n, 1, 1, 1, device=device)
    elevation = torch.where(hour < 0.35, u(7, 24), torch.where(hour < 0.7, u(22, 52), u(45, 86))) * math.pi / 180
    azimuth = torch.where(some(0.75) > 0, -math.pi / 2 + torch.randn(n, 1, 1, 1, device=device), u(-math.pi, math.pi))
    ambient = torch.where(hour < 0.35, u(0.08, 0.4), torch.where(hour < 0.7, u(0.2, 0.5), u(0.35, 0.92)))
    padded = F.pad(height, (1, 1, 1, 1), mode="replicate")
    slope_x = (padded[:, :, 1:-1, 2:] - padded[:, :, 1:-1, :-2]) * 0.5
    slope_y = (padded[:, :, 2:, 1:-1] - padded[:, :, :-2, 1:-1]) * 0.5
    inverse = torch.rsqrt(1 + slope_x * slope_x + slope_y * slope_y)
    lx, ly, lz = torch.cos(elevation) * torch.cos(azimuth), torch.cos(elevation) * torch.sin(azimuth), torch.sin(elevation)
    direct = ((-slope_x * lx - slope_y * ly + lz) * inverse).clamp(min=0) / lz.clamp(min=0.12)
    line = torch.linspace(-1, 1, size, device=device)
    grid = torch.stack([line.reshape(1, 1, size).expand(n, size, size), line.reshape(1, size, 1).expand(n, size, size)], 3)
    shadow = torch.ones_like(height)
    for step in (1.3, 2.6, 4.5, 7.5, 12.0):
        shift = torch.cat([torch.cos(azimuth), torch.sin(azimuth)], 3) * (step * 2 / (size - 1))
        ahead = F.grid_sample(height, grid + shift, mode="bilinear", padding_mode="border", align_corners=True)
        shadow = torch.minimum(shadow, 1 - ((ahead - height - step * torch.tan(elevation)) / (0.3 + 0.05 * step) + 0.2).clamp(0, 1))
    occlusion = 1 / (1 + u(0.4, 1.2) * hollow)
    sky = (1 + u(0.2, 0.8) * slope_y * inverse).clamp(0.2, 1.9)
    dapple = some(0.3)
    shade = 1 - dapple + dapple * (u(0.02, 0.35) + 0.8 * _smoothstep(field(cell(25, 320), 3), -u(0.05, 0.5), u(0.05, 0.5)))
    # The broad shadow of a tree, a neighbour, the photographer.
    broad = some(0.25)
    shade = shade * (1 - broad + broad * (u(0.15, 0.6) + 0.6 * _smoothstep(field(cell(300, 900), 2), -u(0.02, 0.1), u(0.02, 0.1))))
    slant = 1 + torch.randn(n, 1, 1, 1, device=device) * 0.15 * line.reshape(1, 1, 1, size) + torch.randn(n, 1, 1, 1, device=device) * 0.13 * line.reshape(1, 1, size, 1)
    image = albedo ** u(1.0, 1.8) * ((1 - ambient) * direct * shadow * shade * slant + ambient * occlusion * sky)
    # Polished stone mirrors something bright.
    gloss = some(0.15) * u(0, 0.35) * carved * torch.sigmoid(3 * field(cell(150, 700), 2)) * (1 - ((slope_x.abs() + slope_y.abs()) * 4).clamp(0, 1))
    image = image + gloss

    # Camera.
    if target != size:
        image = F.interpolate(image, size=(target, target), mode="bilinear", align_corners=False, antialias=True)
    # Exposed for the whole picture or, more often, for the stone.
    bright = image.clamp(max=3.0)
    faces = F.interpolate((regions == FACE).unsqueeze(1).float(), size=(target, target), mode="nearest")
    whole = bright.mean((1, 2, 3), keepdim=True)
    stone = (bright * faces).sum((1, 2, 3), keepdim=True) / (faces.sum((1, 2, 3), keepdim=True) + 1)
    meter = torch.where(some(0.65) > 0, stone, whole)
    image = image * (u(0.1, 0.42) / (meter + 0.02))
    soft = torch.where(some(0.75) > 0, u(0.0, 0.7), u(0.6, 2.2))
    image = blur(image, soft, 6)
    if float(torch.rand(1)) < 0.3:  # low resolution: photographed small and enlarged
        small = F.interpolate(image, scale_factor=cell(0.45, 0.8), mode="bilinear", align_corners=False, antialias=True)
        small = F.interpolate(small, size=(target, target), mode="bicubic", align_corners=False)
        keep = some(0.5)
        image = image * keep + small.clamp(min=0) * (1 - keep)
    image = image + torch.randn_like(image) * torch.sqrt(image.clamp(0, 2) + 0.02) * u(0.0, 0.04)
    x = image.clamp(min=0)
    x = x * (1 + x * 0.25) / (1 + x * u(0.2, 0.8)) * 1.2
    x = x.clamp(1e-4, 1) ** u(0.38, 0.62)
    x = (x - 0.5) * u(0.75, 1.3) + 0.5
    sharp = some(0.4) * u(0.1, 1.0)
    x = x + sharp * (x - blur(x, 1.0, 3))
    x = x.clamp(0, 1)
    packed = some(0.6)
    x = x * (1 - packed) + packed * jpeg(x, u(30, 95))
    negative = some(0.05)
    return (x * (1 - negative) + negative * (1 - x)).clamp(0, 1), visible


def _bricks(n, size, device):
    """Joints of a wall, 1 in the joint."""
    line = torch.arange(size, device=device, dtype=torch.float32)
    course = _uniform(n, 14, 90, device)
    aspect = _uniform(n, 1.2, 3.2, device)
    joint = _uniform(n, 0.8, 4.0, device)
    tilt = torch.randn(n, 1, 1, 1, device=device) * 0.03
    y = line.reshape(1, 1, size, 1) + tilt * line.reshape(1, 1, 1, size)
    row = torch.floor(y / course)
    x = line.reshape(1, 1, 1, size) + (row % 2) * course * aspect / 2
    across = torch.remainder(x, course * aspect) < joint
    return ((torch.remainder(y, course) < joint) | across).float()
