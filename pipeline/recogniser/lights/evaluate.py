"""Letter error of lines under 1, 2, 3, 4 and 6 lights, held-out typefaces, by ways of bringing the lights together.

    python3 -m lights.evaluate --lines 360 --single runs/single --sets runs/sets --out runs/table.md

Each line is rendered once under six lights; fewer are subsets of those. Rows for 0 lights are single
photographs in any light, rendered as for the single reader. Greedy decoding, no lexicon,
case-blind, spaces counted, as `carved.evaluate`. The ways:
one light: the single reader on each light, mean. in hindsight: its reading with the fewest errors, chosen line by line with the
truth in hand. merged: its readings of all lights at two widths, voted on in one go. sets: the reader of sets; of two widths, voted on.
merged, and sets: both, where the reader of sets counts as much as all the others together. The last column of a row of several
lights: errors by those of "merged", and the range of nine in ten draws of the lines.
"""

import argparse
import itertools
import multiprocessing
import os
import random
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import torch
import torch.nn.functional as F
from torch import Tensor

from carved import checkpoint, glyphs, text, typefaces
from carved.evaluate import Letter, Score, align, letters
from carved.net import LineReader
from carved.testset import CLASSES
from carved.train import WEIGHTS_NAME
from lights.net import SetReader
from lights.stone import SetRenderer

SEED = 900_311
SUBSETS = {
    1: tuple((i,) for i in range(6)), 2: ((0, 3), (1, 4), (2, 5)), 3: ((0, 2, 4), (1, 3, 5)),
    4: ((0, 1, 3, 4), (1, 2, 4, 5), (0, 2, 3, 5)), 6: (tuple(range(6)),),
}  # fmt: skip
WIDTHS = (1.0, 1.25)
_BATCH, _WIDTH_STEP = 48, 128
_NOTHING = 0.5  # what a reading that has no letter somewhere weighs there
_DRAWS = 1000


class _Characters:
    def character(self, index: int) -> str:
        return text.CLASSES[index - 1]


def sets(lines: int, device: torch.device) -> Iterator[tuple[str, list[str], Tensor, Tensor]]:
    """Class, labels, photographs (n, 6, 48, w), and photographs (n, 1, 48, w) as of single stones."""
    rng = random.Random(SEED)
    torch.manual_seed(SEED)
    renderer = SetRenderer(SEED, device)
    waiting: dict[tuple[str, int], list[tuple[np.ndarray, str]]] = {}
    names = list(CLASSES)
    for number in range(lines):
        mask, label = glyphs.line_mask(rng, typefaces.held_out())
        width = -(-mask.shape[1] // _WIDTH_STEP) * _WIDTH_STEP
        waiting.setdefault((names[number % len(names)], width), []).append((mask, label))
    for (name, width), found in sorted(waiting.items()):
        for start in range(0, len(found), _BATCH):
            batch = found[start : start + _BATCH]
            masks = np.zeros((len(batch), glyphs.HEIGHT, width), np.uint8)
            for row, (mask, _) in zip(masks, batch):
                at = (width - mask.shape[1]) // 2
                row[:, at : at + mask.shape[1]] = mask
            made = renderer.render_sets(torch.from_numpy(masks), 6, *CLASSES[name])
            ordinary = renderer.render(torch.from_numpy(masks), *CLASSES[name])
            yield name, [label for _, label in batch], made, ordinary


def read(net: LineReader, x: Tensor) -> list[list[Letter]]:
    return [letters(_Characters(), p) for p in net(x).float().softmax(2).cpu().numpy()]


def stretched(x: Tensor, factor: float) -> Tensor:
    if factor == 1:
        return x
    columns = round(x.shape[3] * factor / 4) * 4
    return F.interpolate(x, size=(x.shape[2], columns), mode="bilinear", align_corners=False)


def seen(reading: list[Letter]) -> float:
    return sum(letter.alternatives[0][1] for letter in reading)


def merged(readings: list[list[Letter]], weights: list[float]) -> list[Letter]:
    """Voted letter by letter along the surest reading, a reading's voice the weaker the less it has seen."""
    order = sorted(range(len(readings)), key=lambda i: -seen(readings[i]))
    most = seen(readings[order[0]])
    voices = [weights[i] * ((seen(readings[i]) + 0.01) / (most + 0.01)) ** 1.5 for i in order]
    base = "".join(letter.alternatives[0][0] for letter in readings[order[0]])
    slots: list[dict[str, float]] = [{} for _ in range(2 * len(base) + 1)]  # letters at odd places, what others have between at even ones
    for reading, voice in zip((readings[i] for i in order), voices):
        said = [letter.alternatives[0][0] for letter in reading]
        place, had = 0, set()
        for i, j in reversed(list(align(said, base))):
            if j is not None:
                place = 2 * j + 1
            elif place % 2:
                place += 1
            had.add(place)
            heard = reading[i].alternatives if i is not None else (("", _NOTHING),)
            for character, p in heard:
                slots[place][character] = slots[place].get(character, 0.0) + voice * p
        for place, slot in enumerate(slots):
            if place not in had:
                slot[""] = slot.get("", 0.0) + voice * (_NOTHING if place % 2 else 1.0)
    out = []
    for slot in slots:
        best = sorted(slot.items(), key=lambda entry: -entry[1])
        if best and best[0][0]:
            out.append(Letter(tuple([(c, min(1.0, w / sum(voices))) for c, w in best if c][:3])))
    return out


def _score(job: tuple[str, str, dict]) -> list[tuple[tuple[str, int, str], Score]]:
    """Scores of one line, a list of (way, lights, class) and its score."""
    name, truth, line = job
    out: list[tuple[tuple[str, int, str], Score]] = []

    def add(way: str, lights: int, readings: list[list[Letter]]) -> list[int]:
        score, wrong = Score(sureness=[]), []
        for reading in readings:
            before = score.wrong
            score.add(reading, truth)
            wrong.append(score.wrong - before)
        out.append(((way, lights, name), score))
        return wrong

    for way, reading in line["ordinary"].items():
        add(way, 0, [reading])
    plain, wide = line["single"]
    wrong = add("one light", 1, plain)
    for lights, subsets in SUBSETS.items():
        pooled = line["sets"][lights]
        if lights > 1:
            add("one light", lights, [plain[i] for subset in subsets for i in subset])
            add("in hindsight", lights, [plain[min(subset, key=lambda i: wrong[i])] for subset in subsets])
        all_of = [[voice[i] for i in subset for voice in (plain, wide)] for subset in subsets]
        add("merged", lights, [merged(heard, [1.0] * len(heard)) for heard in all_of])
        add("sets", lights, [own[0] for own in pooled])
        add("sets, two widths", lights, [merged(own, [1.0] * len(own)) for own in pooled])
        both = [merged(heard + own, [1.0] * len(heard) + [len(heard) / len(own)] * len(own)) for heard, own in zip(all_of, pooled)]
        add("merged, and sets", lights, both)
    return out


def _sum(scores: list[Score]) -> Score:
    total = Score(sureness=[])
    for score in scores:
        total.wrong += score.wrong
        total.letters += score.letters
        total.sureness.extend(score.sureness or [])
    return total


def _against(scores: list[Score], others: list[Score]) -> str:
    """Errors by those of others, of the same lines, and the range of nine in ten draws of the lines."""
    a, b = np.array([s.wrong for s in scores]), np.array([s.wrong for s in others])
    drawn = np.random.default_rng(1).integers(0, len(a), (_DRAWS, len(a)))
    low, high = np.quantile(a[drawn].sum(1) / np.maximum(1, b[drawn].sum(1)), (0.05, 0.95))
    return f"{a.sum() / max(1, b.sum()):.2f} ({low:.2f} to {high:.2f})"


@torch.no_grad()
def readings(lines: int, single: LineReader, net: SetReader, device: torch.device) -> Iterator[tuple[str, str, dict]]:
    for name, labels, x, ordinary in sets(lines, device):
        by_width = [read(single, stretched(x.flatten(0, 1).unsqueeze(1), width)) for width in WIDTHS]
        alone = {"one light": read(single, ordinary), "sets": read(net, ordinary)}
        pooled = {
            lights: [[read(net, stretched(x[:, list(subset)], width)) for width in WIDTHS] for subset in subsets]
            for lights, subsets in SUBSETS.items()
        }  # fmt: skip
        for n, label in enumerate(labels):
            yield name, label, {
                "single": [found[6 * n : 6 * n + 6] for found in by_width],
                "ordinary": {way: found[n] for way, found in alone.items()},
                "sets": {lights: [[found[n] for found in own] for own in subsets] for lights, subsets in pooled.items()},
            }  # fmt: skip


def table(scores: dict[tuple[str, int, str], list[Score]]) -> list[str]:
    names = [*CLASSES, "all"]
    rows = ["| lights | read by | " + " | ".join(names) + " | calibration error | by merged |", "|---|---|" + "---|" * (len(names) + 2)]
    for lights in (0, *SUBSETS):
        for way in dict.fromkeys(way for way, of, _ in scores if of == lights):
            sums = [_sum(scores[way, lights, name]) for name in names]
            ratio = _against(scores[way, lights, "all"], scores["merged", lights, "all"]) if lights > 1 and way not in ("one light", "merged") else ""
            said = " | ".join(f"{s.wrong / max(1, s.letters):.3f}" for s in sums)
            rows.append(f"| {lights} | {way} | {said} | {sums[-1].calibration_error():.3f} | {ratio} |")
    counted = ", ".join(f"{name} {_sum(scores['merged', 6, name]).letters}" for name in names)
    return [*rows, f"letters: {counted}"]


def load(net: LineReader, folder: Path) -> LineReader:
    loaded = checkpoint.load_weights(folder, WEIGHTS_NAME)
    if loaded is None:
        raise FileNotFoundError(f"{folder}: no {WEIGHTS_NAME}.0; train first or name the folder that holds it")
    net.load_state_dict(loaded["weights"])
    return net.eval()


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--lines", type=int, required=True)
    parser.add_argument("--single", type=Path, required=True)
    parser.add_argument("--sets", type=Path, required=True)
    parser.add_argument("--out", type=Path, required=True)
    arguments = parser.parse_args()
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    single, net = load(LineReader(), arguments.single).to(device), load(SetReader(), arguments.sets).to(device)
    jobs = list(readings(arguments.lines, single, net, device))
    scores: dict[tuple[str, int, str], list[Score]] = {}
    with multiprocessing.get_context("spawn").Pool(os.cpu_count() or 1) as pool:
        for (way, lights, name), score in itertools.chain.from_iterable(pool.imap(_score, jobs, 4)):
            scores.setdefault((way, lights, name), []).append(score)
            scores.setdefault((way, lights, "all"), []).append(score)
    rows = table(scores)
    arguments.out.write_text("\n".join(rows) + "\n", encoding="utf-8")
    print("\n".join(rows))


if __name__ == "__main__":
    main()
