"""Letter error, top-three recall, calibration error and time of line recognisers on rendered lines.

    python3 -m carved.evaluate --lines runs/held-out.npz ../src/main/resources/rakelight/reading/carved-letters.onnx
    python3 -m carved.evaluate --lines runs/held-out.npz MODEL... --general PP-OCR.onnx KEYS.txt

    python3 -m carved.evaluate --lines runs/signs.npz --signs MODEL...

--signs adds a table by kind of sign: of those cut, how many were read, and for every hundred cut how many were read where
none is. A MODEL has its sidecar beside it. Greedy decoding, no lexicon: what the network alone knows. Errors
are case-blind edit distances over the letters of the truth, spaces counted; a second figure leaves
the spaces out. Needs numpy and onnxruntime, not PyTorch.
"""

import argparse
import json
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import onnxruntime

from carved import text as cut_text
from carved.text import label

_TOP = 3
_BINS = 10


@dataclass(frozen=True)
class Letter:
    """One letter read: its most likely forms with their probabilities, best first."""

    alternatives: tuple[tuple[str, float], ...]


class LineModel:
    """A recogniser of ours: ONNX with a sidecar naming its characters."""

    def __init__(self, path: Path):
        sidecar = json.loads(path.with_suffix(".json").read_text(encoding="utf-8"))
        self.name = path.name
        self._characters = sidecar["characters"] + "".join(map(cut_text.superior, sidecar.get("superiors", "")))
        self._session = _session(path)

    def probabilities(self, crop: np.ndarray) -> np.ndarray:
        wide = np.pad(crop, ((0, 0), (0, -crop.shape[1] % 4)), mode="edge")
        logits = self._session.run(None, {"x": wide[None, None].astype(np.float32) / 255})[0][0]
        risen = np.exp(logits - logits.max(1, keepdims=True))
        return risen / risen.sum(1, keepdims=True)

    def character(self, index: int) -> str:
        return self._characters[index - 1]


class GeneralModel:
    """PP-OCR's recogniser: three channels of -1..1, keys in a file, a space as the last class."""

    def __init__(self, path: Path, keys: Path):
        self.name = path.name
        self._keys = keys.read_text(encoding="utf-8").rstrip("\n").split("\n") + [" "]
        self._session = _session(path)
        self._input = self._session.get_inputs()[0].name

    def probabilities(self, crop: np.ndarray) -> np.ndarray:
        scaled = (crop.astype(np.float32) / 255 - 0.5) / 0.5
        return self._session.run(None, {self._input: np.repeat(scaled[None, None], 3, 1)})[0][0]

    def character(self, index: int) -> str:
        return self._keys[index - 1]


def _session(path: Path) -> onnxruntime.InferenceSession:
    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = options.inter_op_num_threads = 1
    return onnxruntime.InferenceSession(str(path), options, providers=["CPUExecutionProvider"])


def letters(model, probabilities: np.ndarray) -> list[Letter]:
    """Greedy CTC: one letter for each run of the same best class, taken where the run is surest."""
    best = probabilities.argmax(1)
    out: list[Letter] = []
    start = 0
    for end in range(1, len(best) + 1):
        if end < len(best) and best[end] == best[start]:
            continue
        if best[start] != 0:
            peak = start + int(probabilities[start:end, best[start]].argmax())
            row = probabilities[peak]
            order = [int(i) for i in np.argsort(-row)[: _TOP + 1] if i != 0][:_TOP]
            out.append(Letter(tuple((model.character(i), float(row[i])) for i in order)))
        start = end
    return out


def align(read: list[str], truth: str) -> Iterator[tuple[int | None, int | None]]:
    """Pairs of positions in `read` and `truth` on a cheapest edit path; None where one has no partner."""
    cost = np.zeros((len(read) + 1, len(truth) + 1), int)
    cost[:, 0], cost[0, :] = np.arange(len(read) + 1), np.arange(len(truth) + 1)
    for i, a in enumerate(read, 1):
        for j, b in enumerate(truth, 1):
            cost[i, j] = min(cost[i - 1, j] + 1, cost[i, j - 1] + 1, cost[i - 1, j - 1] + (a != b))
    i, j = len(read), len(truth)
    while i or j:
        if i and j and cost[i, j] == cost[i - 1, j - 1] + (read[i - 1] != truth[j - 1]):
            i, j = i - 1, j - 1
            yield i, j
        elif i and cost[i, j] == cost[i - 1, j] + 1:
            i -= 1
            yield i, None
        else:
            j -= 1
            yield None, j


def fold(text: str) -> str:
    return cut_text.on_the_line(label(text)).replace("ſ", "s").replace("—", "-").lower()


# Kinds of sign, by the characters they are cut as. The last two are also asked for by form: a long s read as one.
_KINDS = {
    "points": ".", "commas": ",", "colons, semicolons": ":;", "dashes": "-—", "quotes": "'\"", "raised points": "·", "&": "&",
    "other signs": "()/!?*+†‡½¼¾", "spaces": " ",
}  # fmt: skip


def kind_of(character: str) -> str:
    """The kind of sign a character of a label is."""
    if cut_text.is_superior(character):
        return "superiors"
    if character == "ſ":
        return "long s"
    return next((kind for kind, signs in _KINDS.items() if character in signs), "letters and figures")


@dataclass
class SignScore:
    """cut: in the truth. read: of these, rightly. in_form: of these, also as superior or long s. false: where none is."""

    cut: int = 0
    read: int = 0
    in_form: int = 0
    false: int = 0


def score_signs(model, archive) -> dict[str, SignScore]:
    scores: dict[str, SignScore] = {}
    for number, truth in enumerate(archive["labels"]):
        truth = str(truth)
        read = [entry.alternatives[0][0] for entry in letters(model, model.probabilities(archive[f"crop_{number}"]))]
        for i, j in align([fold(c) or c for c in read], "".join(fold(c) or c for c in truth)):
            right = i is not None and j is not None and (fold(read[i]) or read[i]) == (fold(truth[j]) or truth[j])
            if j is not None:
                score = scores.setdefault(kind_of(truth[j]), SignScore())
                score.cut += 1
                score.read += right
                score.in_form += right and kind_of(read[i]) == kind_of(truth[j])
            if i is not None and not right:
                scores.setdefault(kind_of(read[i]), SignScore()).false += 1
    return scores


@dataclass
class Score:
    wrong: int = 0
    letters: int = 0
    wrong_unspaced: int = 0
    letters_unspaced: int = 0
    among_top: int = 0
    sureness: list[tuple[float, bool]] | None = None

    def add(self, read: list[Letter], truth: str) -> None:
        truth = fold(truth)
        best = [fold(entry.alternatives[0][0]) or entry.alternatives[0][0] for entry in read]
        self.sureness = self.sureness if self.sureness is not None else []
        for i, j in align(best, truth):
            same = i is not None and j is not None and best[i] == truth[j]
            self.wrong += not same
            if i is not None:
                self.sureness.append((read[i].alternatives[0][1], same))
            if i is not None and j is not None:
                self.among_top += truth[j] in {fold(c) or c for c, _ in read[i].alternatives}
        self.letters += len(truth)
        plain_read, plain_truth = [c for c in best if c.strip()], truth.replace(" ", "")
        self.wrong_unspaced += sum(
            i is None or j is None or plain_read[i] != plain_truth[j] for i, j in align(plain_read, plain_truth)
        )
        self.letters_unspaced += len(plain_truth)

    def calibration_error(self) -> float:
        """Mean gap between sureness and share right, over ten bins weighted by their letters."""
        sure = np.array([p for p, _ in self.sureness or [(0.0, False)]])
        right = np.array([r for _, r in self.sureness or [(0.0, False)]])
        bins = np.minimum((sure * _BINS).astype(int), _BINS - 1)
        return float(sum(abs(sure[bins == b].mean() - right[bins == b].mean()) * (bins == b).mean() for b in set(bins)))


def evaluate(model, archive) -> tuple[dict[str, Score], float]:
    """Scores by class and over all, and the mean processor milliseconds per line on one thread."""
    scores: dict[str, Score] = {}
    seconds = 0.0
    for number, (truth, kind) in enumerate(zip(archive["labels"], archive["classes"])):
        crop = archive[f"crop_{number}"]
        began = time.process_time()
        probabilities = model.probabilities(crop)
        seconds += time.process_time() - began
        read = letters(model, probabilities)
        for name in (str(kind), "all"):
            scores.setdefault(name, Score()).add(read, str(truth))
    return scores, seconds / len(archive["labels"]) * 1000


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("models", type=Path, nargs="+")
    parser.add_argument("--lines", type=Path, required=True)
    parser.add_argument("--signs", action="store_true", help="a second table, by kind of sign")
    parser.add_argument("--general", type=Path, nargs=2, metavar=("MODEL", "KEYS"))
    arguments = parser.parse_args()
    archive = np.load(arguments.lines)
    models = [LineModel(path) for path in arguments.models]
    if arguments.general:
        models.append(GeneralModel(*arguments.general))
    print("| recogniser | class | letter error | without spaces | among first three | calibration error | CPU ms a line |")
    print("|---|---|---|---|---|---|---|")
    for model in models:
        scores, milliseconds = evaluate(model, archive)
        for name in sorted(scores):
            s = scores[name]
            print(
                f"| {model.name} | {name} | {s.wrong / s.letters:.3f} | {s.wrong_unspaced / s.letters_unspaced:.3f} "
                f"| {s.among_top / s.letters:.3f} | {s.calibration_error():.3f} | {milliseconds:.1f} |"
            )
    if arguments.signs:
        print("\n| recogniser | sign | cut | read | in its form | read where none is, per 100 cut |\n|---|---|---|---|---|---|")
        for model in models:
            for kind, sign in sorted(score_signs(model, archive).items()):
                cut = max(1, sign.cut)
                print(f"| {model.name} | {kind} | {sign.cut} | {sign.read / cut:.3f} | {sign.in_form / cut:.3f} | {100 * sign.false / cut:.1f} |")


if __name__ == "__main__":
    main()
