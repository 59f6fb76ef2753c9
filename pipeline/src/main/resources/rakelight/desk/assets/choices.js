// What a person can say about the letter at the cursor: candidates, standings, any letter at all.

import { byId, make } from "./page-parts.js";
import { STANDINGS, candidates, difference, leftOut, letterOf, lineOf, plainName } from "./face-model.js";
import { saidOf } from "./said.js";

const BOARD = [
  { name: "", signs: [..."ABCDEFGHIJKLMNOPQRSTUVWXYZ"] },
  { name: "", signs: [..."abcdefghijklmnopqrstuvwxyz"] },
  { name: "", signs: [..."1234567890", ..."&.,:;-–—'’“”()/"] },
  {
    name: "Old signs",
    signs: [
      ["ſ", "long s"], ["Æ", "A and E in one"], ["æ", "a and e in one"], ["Œ", "O and E in one"], ["œ", "o and e in one"],
      ["þ", "thorn"], ["Þ", "capital thorn"], ["ȝ", "yogh"], ["½", "a half"], ["¼", "a quarter"], ["¾", "three quarters"],
      ["£", "pound"], ["·", "raised dot"], ["†", "dagger"],
    ],
  },
];

export class Choices {
  /** `act` has choose, of, bring, type, insert, standing, back; see reading.js. */
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
          ...row.signs.map((sign) => {
            const [text, name] = Array.isArray(sign) ? sign : [sign, undefined];
            return make(
              "button",
              { type: "button", "data-sign": text, title: name, onclick: () => act.type(text) },
              text,
              name && make("span", { class: "unseen" }, `, ${name}`),
            );
          }),
        ),
      ),
    );
    const typed = byId("typed");
    const take = () => {
      const text = typed.value;
      typed.value = "";
      if (text.trim()) {
        act.insert(text.normalize("NFC"));
      }
    };
    typed.addEventListener("keydown", (event) => {
      if (event.key === "Enter") {
        event.preventDefault();
        take();
      } else if (event.key === "Escape") {
        typed.value = "";
        act.back();
      }
    });
    byId("typed-before").addEventListener("click", take);
  }

  /** How many letters a gap takes. */
  howMany() {
    const select = byId("how-many");
    const value = select.value === "unknown" ? "unknown" : Number(select.value);
    select.value = "1";
    return value;
  }

  /** Puts the answers under the letter that is asked. */
  under(middlePx) {
    const row = byId("candidates");
    const room = byId("answers").getBoundingClientRect();
    const left = middlePx - room.left - row.offsetWidth / 2;
    row.style.marginLeft = `${Math.max(0, Math.min(room.width - row.offsetWidth, left))}px`;
  }

  show(face, cursor, mayDecide) {
    const letter = letterOf(face, cursor);
    const line = lineOf(face, cursor);
    byId("where").textContent = letter
      ? `Line ${cursor.line}, letter ${cursor.at}`
      : line
        ? line.letters.length > 0
          ? `Line ${cursor.line}, after its last letter`
          : `Line ${cursor.line}, no letters`
        : "No line was found here";
    byId("standing-now").textContent = !letter
      ? ""
      : letter.decided
        ? plainName(letter) + (letter.note ? `: ${letter.note}` : "")
        : letter.field
          ? "name or date, open"
          : "open";
    const between = difference(face, cursor);
    const found = candidates(face, cursor);
    byId("candidates").replaceChildren(
      ...(between ? this.#readers(face, between) : found.map((one, i) => this.#candidate(one, i))),
      ...leftOut(face, cursor).map((pair) => this.#more(face, pair)),
    );
    const none = found.length === 0 && !between;
    byId("no-candidates").hidden = !none || !letter;
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
    for (const control of [...byId("choices").querySelectorAll("button, input, select"), ...byId("answers").querySelectorAll("button")]) {
      control.disabled = !mayDecide || (!letter && !["typed", "typed-before"].includes(control.id) && !control.dataset.sign);
    }
  }

  #candidate(one, i) {
    const typable = /^[\p{L}\p{N}&]$/u.test(one.text) && one.text !== "ſ";
    const key = one.text === "" ? "Delete" : typable ? one.text : `Alt ${i + 1}`;
    return make(
      "button",
      { type: "button", class: "candidate", "data-candidate": one.text, onclick: () => this.act.choose(one) },
      make("span", { class: "sign" }, one.text === "" ? "none" : one.text),
      one.p !== undefined && make("span", { class: "weight" }, `${Math.round(one.p * 100)} %`),
      key !== one.text && make("kbd", {}, key),
    );
  }

  /** A letter that only one reader has and the draft hasn't. */
  #more(face, pair) {
    const which = pair.first ? "first" : "second";
    return make(
      "button",
      { type: "button", class: "candidate whose", onclick: () => this.act.bring(pair, which) },
      make("span", { class: "sign" }, saidOf(pair[which])),
      make("span", { class: "weight" }, `${face.settling[which].reader} has it in this line: put it in`),
    );
  }

  /** What each of two readers has here, whatever it is. */
  #readers(face, between) {
    return ["first", "second"].map((which) =>
      make(
        "button",
        { type: "button", class: "candidate whose", "data-of": which, onclick: () => this.act.of(which) },
        make("span", { class: "sign" }, saidOf(between[which])),
        make("span", { class: "weight" }, `${face.settling[which].reader}${inWords(between[which], between.differs)}`),
      ),
    );
  }
}

/** What a reader has at a place, in words where the sign doesn't tell. */
function inWords(side, differs) {
  if (!side || (!side.text && !side.standing)) {
    return ": no letter here";
  }
  if (differs === "space") {
    return side.spaceBefore ? ": a new word begins" : ": the word goes on";
  }
  const name = STANDINGS.find((standing) => standing.id === side.standing)?.name;
  return side.standing === "clear" || !name ? "" : `: ${name}`;
}
