// What a person can say about the letter at the cursor: candidates, standings, any letter at all.

import { stacked } from "./letter-column.js";
import { byId, make } from "./page-parts.js";
import { STANDINGS, candidates, columns, letterOf, lineOf, plainName } from "./face-model.js";

const CROP_HEIGHT_PX = 124;
const WIDEST_CROP_PX = 150;
const CROPS = 3;

/** Neighbours help to tell a letter, so a crop shows this many widths of it on either side. */
const CONTEXT_LETTERS = 0.7;

const BOARD = [
  [..."ABCDEFGHIJKLMNOPQRSTUVWXYZ"],
  [..."abcdefghijklmnopqrstuvwxyz"],
  [..."1234567890", ..."&.,:;-–—'’()/", "ſ", "Æ", "æ", "þ", "†"],
];

export class Choices {
  /** `act` has asShown, choose, type, insert, standing, remove; see reading.js. */
  constructor(act) {
    this.act = act;
    byId("standings").replaceChildren(
      ...STANDINGS.map((standing) =>
        make(
          "button",
          {
            type: "button",
            "data-standing": standing.id,
            title: standing.hint,
            onclick: () => act.standing(standing.id, this.howMany()),
          },
          make("span", {}, standing.name),
          standing.key === "/" ? undefined : make("kbd", {}, standing.key),
        ),
      ),
    );
    byId("board").replaceChildren(
      ...BOARD.map((row) =>
        make(
          "div",
          { class: "board-row" },
          ...row.map((sign) =>
            make("button", { type: "button", "data-sign": sign, onclick: () => act.type(sign) }, sign),
          ),
        ),
      ),
    );
    const typed = byId("typed");
    const take = (how) => {
      const text = typed.value;
      typed.value = "";
      if (text.trim()) {
        how(text.normalize("NFC"));
      }
    };
    typed.addEventListener("keydown", (event) => {
      if (event.key === "Enter") {
        event.preventDefault();
        take(event.shiftKey ? act.insert : act.write);
      } else if (event.key === "Escape") {
        typed.value = "";
        act.back();
      }
    });
    byId("typed-here").addEventListener("click", () => take(act.write));
    byId("typed-before").addEventListener("click", () => take(act.insert));
  }

  /** How many letters a gap takes. */
  howMany() {
    const select = byId("how-many");
    const value = select.value === "unknown" ? "unknown" : Number(select.value);
    select.value = "1";
    return value;
  }

  show(face, cursor, mayDecide) {
    const letter = letterOf(face, cursor);
    const line = lineOf(face, cursor);
    byId("where").textContent = letter
      ? `Line ${cursor.line}, letter ${cursor.at}`
      : line
        ? `Line ${cursor.line}, no letters`
        : "No line was found here";
    byId("standing-now").textContent = !letter
      ? ""
      : letter.decided
        ? plainName(letter) + (letter.note ? `: ${letter.note}` : "")
        : letter.field
          ? "name or date, open"
          : "open";
    this.#crops(line, letter, cursor);
    const found = candidates(face, cursor);
    byId("candidates").replaceChildren(
      ...found.map((one) =>
        make(
          "button",
          {
            type: "button",
            class: "candidate",
            "data-candidate": one.text,
            "aria-label":
              (one.text === "" ? "no letter here" : one.text) +
              (one.p === undefined ? "" : `, ${Math.round(one.p * 100)} per cent`) +
              (one.from ? `, ${one.from}` : "") +
              (one.key ? `, key ${one.key}` : ""),
            onclick: () => this.act.choose(one),
          },
          make("span", { class: "sign" }, one.text === "" ? "none" : one.text),
          make(
            "span",
            { class: "weight" },
            one.from || (one.p === undefined ? "" : `${Math.round(one.p * 100)} %`),
          ),
          one.key && make("kbd", {}, one.key),
        ),
      ),
    );
    byId("no-candidates").hidden = found.length > 0 || !letter;
    byId("no-candidates").textContent =
      face.blind && letter?.field
        ? "Two people read this stone blind, so nothing is proposed for names and dates. Type what you see."
        : "Nothing is proposed here. Type what you see.";
    for (const button of byId("standings").children) {
      const set =
        button.dataset.standing === "erased"
          ? letter?.erased
          : letter?.decided && letter.standing === button.dataset.standing;
      button.setAttribute("aria-pressed", String(Boolean(set)));
    }
    for (const control of byId("choices").querySelectorAll("button, input, select")) {
      control.disabled = !mayDecide || (!letter && control.id !== "typed" && control.id !== "typed-before");
    }
  }

  #crops(line, letter, cursor) {
    const strips = line?.strips ?? [];
    const column = letter && columns(line)[cursor.at - 1];
    if (!column || strips.length === 0) {
      byId("crops").replaceChildren();
      return;
    }
    const best = stacked(strips).slice(0, CROPS);
    const [from, to] = column;
    const whole = (CROP_HEIGHT_PX * line.stripWidthPx) / line.stripHeightPx;
    const context = Math.max(CONTEXT_LETTERS * (to - from), 20 / whole);
    const width = Math.min(whole, WIDEST_CROP_PX, (to - from + 2 * context) * whole);
    byId("crops").replaceChildren(
      ...best.map((strip) => {
        const image = make("img", { src: strip.url, alt: "", draggable: "false" });
        image.style.width = `${whole}px`;
        image.style.height = `${CROP_HEIGHT_PX}px`;
        image.style.left = `${-(from - context) * whole}px`;
        const marker = make("span", { class: "crop-letter" });
        marker.style.left = `${context * whole}px`;
        marker.style.width = `${(to - from) * whole}px`;
        const frame = make("div", { class: "crop-frame" }, image, marker);
        frame.style.width = `${width}px`;
        frame.style.height = `${CROP_HEIGHT_PX}px`;
        return make("figure", { class: "crop" }, frame, make("figcaption", {}, strip.name));
      }),
    );
  }
}
