// The reading as lines of letters, each with its standing; a click puts the cursor there.

import { openness } from "./face-model.js";
import { make } from "./page-parts.js";
import { signOf } from "./said.js";

export class Transcript {
  constructor(place, onPlace) {
    this.place = place;
    place.addEventListener("click", (event) => {
      const letter = event.target.closest("[data-at]");
      const line = event.target.closest("[data-line]");
      if (line) {
        onPlace({ line: Number(line.dataset.line), at: Number(letter?.dataset.at ?? 1) });
      }
    });
  }

  show(face, cursor) {
    this.place.replaceChildren(
      ...face.lines.map((line) => {
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
                  line.line === cursor.line && i + 1 === cursor.at && "here",
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
          { class: line.line === cursor.line ? "line now" : "line" },
          make(
            "button",
            {
              type: "button",
              "data-line": String(line.line),
              "aria-current": line.line === cursor.line ? "true" : undefined,
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
      }),
    );
  }
}
