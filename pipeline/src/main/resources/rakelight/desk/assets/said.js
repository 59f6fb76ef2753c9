// What stands at a place, as one sign.

const GAPS = { illegible: "+", lost: "–", blank: "␣" };

export const signOf = (letter) => letter.text || (GAPS[letter.standing] ?? "·");

/** What a reader has at a place; "none" where he has nothing there. */
export const saidOf = (side) => (side ? side.text || (GAPS[side.standing] ?? "none") : "none");
