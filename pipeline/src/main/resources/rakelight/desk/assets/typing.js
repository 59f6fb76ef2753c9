// Letters typed one after the other, before they are sent as one change. Pure: knows neither the page nor the network.

import { lineOf } from "./face-model.js";

/** A run begins where the cursor is and holds what was typed since. */
export const begin = (cursor) => ({ line: cursor.line, at: cursor.at, signs: [] });

export const typed = (run, sign, raised) => ({
  ...run,
  signs: [...run.signs, raised ? { text: sign, raised: true } : { text: sign }],
});

/** Without the letter typed last. */
export const back = (run) => ({ ...run, signs: run.signs.slice(0, -1) });

/** Where the next typed letter goes: one beyond the line's last letter at most. */
export const place = (run) => ({ line: run.line, at: run.at + run.signs.length });

/** What the run as a whole asks of the desk. */
export const change = (run) => ({ do: "type", line: run.line, at: run.at, signs: run.signs });

/** The letters that nobody doubted, were they typed over: `[{at, was, is}]`. */
export function replaced(face, run) {
  const letters = lineOf(face, run)?.letters ?? [];
  return run.signs.flatMap((sign, i) => {
    const was = letters[run.at - 1 + i];
    const sure = was && was.text && (was.decided || was.standing === "clear");
    return sure && was.text !== sign.text ? [{ at: run.at + i, was: was.text, is: sign.text }] : [];
  });
}

/** The face as it will be once the run is saved. */
export function shown(face, run) {
  if (!run || run.signs.length === 0) {
    return face;
  }
  const lines = face.lines.map((line) => {
    if (line.line !== run.line) {
      return line;
    }
    const letters = [...line.letters];
    run.signs.forEach((sign, i) => {
      const at = run.at + i;
      const was = letters[at - 1];
      letters[at - 1] = {
        spaceBefore: false,
        ...was,
        at,
        text: sign.text,
        raised: Boolean(sign.raised),
        standing: "clear",
        decided: true,
        typing: true,
        ...(was?.text && was.text !== sign.text ? { over: was.text } : {}),
      };
    });
    return { ...line, letters };
  });
  return { ...face, lines };
}
