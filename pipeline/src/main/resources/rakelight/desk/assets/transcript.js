// The reading as lines of letters, each with its standing; a click puts the cursor there.

import { openness, textOf, unsureWords } from "./face-model.js";
import { make } from "./page-parts.js";
import { signOf } from "./said.js";

export class Transcript {
  constructor(place, onPlace) {
    this.place = place;
    place.addEventListener("click", (event) => {
      const letter = event.target.closest("[data-at]");
      const line = event.target.closest("[data-line]");
      const place = event.target.closest("[data-place]");
      if (line) {
        onPlace({ line: Number(line.dataset.line), at: Number(letter?.dataset.at ?? 1) });
      } else if (place) {
        onPlace({ place: Number(place.dataset.place) });
      }
    });
  }

  show(face, cursor) {
    const unsure = (before) =>
      (face.unsure ?? []).filter((one) => one.before === before).map((one) => unsureRow(face, one, cursor));
    const rows = face.lines.map((line) => {
      const words = [];
      line.letters.forEach((letter, i) => {
        if (letter.spaceBefore || words.length === 0) {
          words.push(make("span", { class: "word" }));
        }
        words.at(-1).append(
          make(
            "span",
            {
              class: [
                "sign",
                openness(letter),
                letter.erased && "erased",
                letter.raised && "raised",
                !cursor.place && line.line === cursor.line && i + 1 === cursor.at && "here",
              ]
                .filter(Boolean)
                .join(" "),
              "data-at": String(i + 1),
            },
            signOf(letter),
          ),
        );
      });
      const open = line.letters.filter((letter) => !letter.decided).length;
      return make(
        "li",
        { class: !cursor.place && line.line === cursor.line ? "line now" : "line" },
        make(
          "button",
          {
            type: "button",
            "data-line": String(line.line),
            "aria-current": !cursor.place && line.line === cursor.line ? "true" : undefined,
          },
          make("span", { class: "number", "aria-hidden": "true" }, String(line.line)),
          make("span", { class: "text" }, ...words.flatMap((word) => [word, " "])),
          make(
            "span",
            { class: open ? "left" : "left none" },
            open ? `${open} to decide` : "✓ done",
          ),
        ),
      );
    });
    this.place.replaceChildren(
      ...rows.flatMap((row, i) => [...unsure(i + 1), row]),
      ...unsure(face.lines.length + 1),
    );
  }
}

/** A place where a line may be, among the lines; it has no number. */
function unsureRow(face, one, cursor) {
  const now = cursor.place === one.place;
  return make(
    "li",
    { class: now ? "line unsure now" : "line unsure" },
    make(
      "button",
      { type: "button", "data-place": String(one.place), "aria-current": now ? "true" : undefined },
      make("span", { class: "number", "aria-hidden": "true" }, "?"),
      make("span", { class: "text" }, one.text ? textOf(one.letters) : "…"),
      make("span", { class: "left" }, unsureWords(face, one)),
    ),
  );
}
