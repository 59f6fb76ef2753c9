// The reading page: one face, one cursor, one queue of changes, each saved before the next is sent.

import { ask } from "./ask.js";
import { Away, Refused, get, post } from "./desk-api.js";
import { Choices } from "./choices.js";
import { LetterColumn } from "./letter-column.js";
import { byId, make } from "./page-parts.js";
import { StoneView } from "./stone-view.js";
import { Transcript } from "./transcript.js";
import * as model from "./face-model.js";

/** Well inside the ten minutes of a lease. */
const HOLD_EVERY_MS = 4 * 60 * 1000;
const ASK_AGAIN_MS = 1500;

const page = byId("reading");
const address = `/api/faces/${page.dataset.face}`;
const atStone = page.dataset.basis === "stone";

let face;
let cursor = { line: 1, at: 1 };
let queue = Promise.resolve();
let waiting = 0;
let lastNote = "";

const act = {
  asShown: () => decideLetter((letter) => shown(letter)),
  choose: (one) => decide(() => chosen(one)),
  type: (sign) => decide(() => typed(sign)),
  write,
  insert: (text) => insert(text, () => cursor.at),
  standing,
  remove: () => decide(() => chosen({ text: "" })),
  word: () =>
    decide(() => {
      const { from, to } = model.wordAt(model.lineOf(face, cursor), cursor.at);
      return { do: "seen", line: cursor.line, from, to };
    }),
  line: () => decide(() => ({ do: face.blind ? "accept" : "seen-line", line: cursor.line })),
  rest: () => enqueue(restIsRight),
  space: () =>
    decide(() => {
      const spaced = model.letterOf(face, cursor).spaceBefore;
      return { do: spaced ? "join-words" : "split-word", line: cursor.line, at: cursor.at };
    }, stay),
  undo: () => enqueue(() => change("/undo", {}, whereChanged)),
  redo: () => enqueue(() => change("/redo", {}, whereChanged)),
  back: () => column.focus(),
};

const column = new LetterColumn(byId("column"), (place) => enqueue(() => moveTo(place)));
const choices = new Choices(act);
const transcript = new Transcript(byId("lines"), goTo);
const stone = new StoneView((line) => goTo({ line, at: 1 }));

wireButtons();
if (atStone) {
  const now = new Date();
  byId("here-date").value = new Date(now - now.getTimezoneOffset() * 60000).toISOString().slice(0, 10);
}
byId("slots").addEventListener("keydown", key);
window.addEventListener("pagehide", () => mayDecide() && post(`${address}/let-go`).catch(() => {}));
setInterval(() => {
  if (mayDecide() && document.visibilityState === "visible") {
    post(`${address}/hold`).catch(() => {});
  }
}, HOLD_EVERY_MS);
enqueue(async () => {
  take(await persistently(() => get(address)), (now) => model.mostWorth(now, { line: 0, at: 1 }));
  page.classList.remove("waiting");
  column.focus();
});

function mayDecide() {
  return face && (face.task === "read" || face.task === "settle") && !face.takenBy;
}

const here = () => ({ line: cursor.line, at: cursor.at });

const chosen = (one) => (one.text === "" ? { do: "remove", ...here() } : typed(one.text));

/** A sign stands here; in a line without letters it becomes the first. */
const typed = (sign) => ({
  do: model.letterOf(face, cursor) ? "letter" : "insert",
  ...here(),
  standing: "clear",
  text: sign,
});

/** What is left of every line is as shown; the desk refuses while a doubt, a name or a date is open. */
async function restIsRight() {
  for (let line = 1; line <= face.lines.length; line += 1) {
    if (face.lines[line - 1].letters.some((letter) => !letter.decided)) {
      await perform({ do: "accept", line }, () => ({ line, at: 1 }));
    }
  }
}

/** What was shown, confirmed by a person: a letter as clear, a gap as it stands. */
function shown(letter) {
  return !letter.text && ["illegible", "lost", "blank"].includes(letter.standing)
    ? { standing: letter.standing, ...(letter.letters ? { letters: letter.letters } : {}) }
    : { standing: "clear", text: letter.text };
}

function decideLetter(what) {
  decide(() => {
    const letter = model.letterOf(face, cursor);
    return letter && { do: "letter", ...here(), ...what(letter) };
  });
}

/** The first sign stands here; what follows stands after it. */
function write(text) {
  const [first, ...rest] = graphemes(text);
  act.type(first);
  if (rest.length > 0) {
    const place = { ...cursor };
    insert(rest.join(""), () => place.at + 1, place);
  }
  column.focus();
}

function insert(text, at, place = cursor) {
  const line = place.line;
  const start = at();
  let offset = 0;
  let spaceBefore = false;
  for (const sign of graphemes(text)) {
    if (sign === " ") {
      spaceBefore = true;
      continue;
    }
    const body = { do: "insert", line, at: start + offset, standing: "clear", text: sign };
    const spaced = spaceBefore;
    decide(() => ({ ...body, ...(spaced ? { spaceBefore: true } : {}) }));
    offset += 1;
    spaceBefore = false;
  }
  column.focus();
}

function graphemes(text) {
  return [...new Intl.Segmenter("en", { granularity: "grapheme" }).segment(text)].map((part) => part.segment);
}

async function standing(id, howMany = 1) {
  const letter = model.letterOf(face, cursor);
  if (!letter) {
    return;
  }
  const kind = model.STANDINGS.find((one) => one.id === id);
  if (id === "clear") {
    act.asShown();
  } else if (id === "unclear") {
    const open = model
      .candidates(face, cursor)
      .filter((one) => one.text && (one.p === undefined || one.p >= 0.05))
      .slice(0, 4);
    decideLetter((now) => ({
      standing: "unclear",
      ...(now.text ? { text: now.text } : {}),
      ...(open.length > 1 ? { candidates: favouredFirst(open, now.text) } : {}),
    }));
  } else if (kind.gap) {
    decideLetter(() => ({ standing: id, letters: howMany }));
  } else if (id === "erased") {
    decideLetter((now) =>
      now.text
        ? { standing: "clear", text: now.text, erased: true }
        : { standing: "illegible", letters: howMany, erased: true },
    );
  } else {
    const answer = await ask(
      `Line ${cursor.line}, letter ${cursor.at}: ${kind.name}`,
      [
        { name: "text", label: "The letter", value: letter.text, required: true },
        {
          name: "note",
          label: kind.note,
          value: lastNote,
          required: true,
          offers:
            id === "supplied"
              ? ["from the age and the other date", "the usual wording", "the same name elsewhere on the stone"]
              : undefined,
        },
      ],
      "Keep",
    );
    if (answer) {
      lastNote = answer.note;
      decideLetter(() => ({ standing: id, text: answer.text, note: answer.note }));
    }
  }
  column.focus();
}

function favouredFirst(open, favoured) {
  const texts = open.map((one) => one.text);
  return [...new Set([...(favoured ? [favoured] : []), ...texts])].map((text) => ({ text }));
}

/** Sends a change made from the face as it is when its turn comes. */
function decide(body, then = onwards) {
  enqueue(() => perform(body(), then));
}

async function perform(said, then = onwards) {
  if (said) {
    await change("/decide", said, then);
  }
}

function enqueue(task) {
  waiting += 1;
  saving();
  queue = queue
    .then(task)
    .catch(report)
    .finally(() => {
      waiting -= 1;
      saving();
    });
  return queue;
}

async function change(path, body, then) {
  if (!mayDecide() && path !== "/reopen") {
    return;
  }
  take(await persistently(() => post(address + path, { version: face.version, ...body })), then);
  tell("");
}

/** Asks again until the desk answers: nothing typed is given up because it was away. */
async function persistently(request) {
  for (;;) {
    try {
      return await request();
    } catch (error) {
      if (!(error instanceof Away)) {
        throw error;
      }
      tell("The desk doesn't answer. What you decided before is kept; this goes on when it is back.", "away");
      await new Promise((resolve) => setTimeout(resolve, ASK_AGAIN_MS));
    }
  }
}

function report(error) {
  if (!(error instanceof Refused)) {
    tell(`This page has a fault: ${error.message} Load it again; what you decided is kept.`, "wrong");
    throw error;
  }
  if (error.body.face) {
    take(error.body.face, stay);
  }
  if (error.body.at) {
    moveTo({ line: error.body.line, at: error.body.at });
  }
  const said = {
    changed: "This stone was changed in another window or by somebody else. Here is how it stands now; your last answer was not kept.",
    taken: `${error.body.by ?? "Somebody else"} is reading this stone just now. You may look; come back later.`,
    superseded: "Somebody signed a reading of this stone meanwhile. Here is how it stands now.",
  }[error.code];
  tell(said ?? error.message, error.body.at ? "" : "wrong");
  if (error.status === 401 || error.code === "token") {
    byId("notice").append(
      " ",
      make("a", { href: `/sign-in?then=${encodeURIComponent(location.pathname)}` }, "Sign in and go on here"),
    );
  }
}

function tell(text, kind = "") {
  const notice = byId("notice");
  if (notice.textContent !== text) {
    notice.replaceChildren(text);
  }
  notice.className = text ? `notice ${kind}` : "notice";
}

function saving() {
  byId("saved").textContent = waiting > 0 ? "Saving …" : "All saved";
}

const stay = (_, before) => before;

/** On to where an answer is worth most; after a correction, to the next letter. */
function onwards(now, before, old) {
  const was = model.letterOf(old, before);
  if (was?.decided && now.undecided > 0 && old.lines.length === now.lines.length) {
    return model.step(now, before, 1);
  }
  return now.undecided > 0 ? model.mostWorth(now, before) : model.within(now, before);
}

/** The first place at which two states of a face differ. */
function whereChanged(now, before, old) {
  for (const line of now.lines) {
    const other = old.lines[line.line - 1];
    const at = line.letters.findIndex((letter, i) => {
      const one = other?.letters[i];
      return !one || one.text !== letter.text || one.standing !== letter.standing || one.decided !== letter.decided
        || one.spaceBefore !== letter.spaceBefore || one.erased !== letter.erased;
    });
    if (at >= 0) {
      return { line: line.line, at: at + 1 };
    }
  }
  return before;
}

function take(next, where) {
  const old = face ?? next;
  face = next;
  moveTo(where(face, cursor, old));
  progress();
}

function moveTo(place) {
  cursor = model.within(face, place);
  column.show(face, cursor);
  stone.show(face, cursor);
  transcript.show(face, cursor);
  choices.show(face, cursor, mayDecide());
  byId("say").textContent = model.spoken(face, cursor);
  const letter = model.letterOf(face, cursor);
  byId("space").textContent = letter?.spaceBefore ? "No space before this letter" : "A space before this letter";
}

/** To a place that was pointed at, ready for the keyboard. */
function goTo(place) {
  enqueue(() => {
    moveTo(place);
    column.focus();
    byId("column").scrollIntoView({ block: "nearest" });
  });
}

function progress() {
  const open = face.undecided ?? 0;
  const doubts = (face.doubts ?? []).length;
  const none = face.lines.length === 0;
  byId("progress").textContent = none
    ? "Nothing is read yet."
    : open === 0
      ? "Every letter is decided."
      : `${open} ${open === 1 ? "letter" : "letters"} to decide; ${doubts} ask for a closer look.`;
  const deciding = mayDecide();
  byId("undo").disabled = !deciding || !face.canUndo;
  byId("redo").disabled = !deciding || !face.canRedo;
  byId("sign").disabled = !deciding || !face.signable;
  byId("reopen").hidden = face.task !== "done";
  byId("reopen").textContent = face.blind && face.mine ? "Reopen your reading" : "Correct this reading";
  byId("no-lines").hidden = !none;
  byId("add-first").hidden = !deciding;
  for (const id of ["column", "place", "choices"]) {
    byId(id).hidden = none;
  }
  byId("stone-side").hidden = face.photographs.length === 0;
  for (const button of byId("line-tools").querySelectorAll("button")) {
    button.disabled = !deciding || (face.lines.length === 0 && button.id !== "add-below");
  }
  byId("line-words").textContent = face.blind ? "The rest of the line is right" : "Every letter of the line is right";
  byId("word").disabled = byId("line").disabled = byId("rest").disabled = !deciding || face.lines.length === 0;
  if (face.takenBy) {
    tell(`${face.takenBy.reader} is reading this stone just now. You may look; come back later.`, "wrong");
  } else if (face.task === "done") {
    tell(whoRead(), "good");
  } else if (face.task === "settle") {
    tell("Two readings differ here. Both are offered where they do; you settle it.", "good");
  }
}

/** Whose reading stands, for somebody who has nothing left to do here. */
function whoRead() {
  const standing = face.before && face.before.reading !== face.mine?.reading ? face.before : undefined;
  return [
    face.mine ? "You have signed your reading of this stone." : "",
    standing ? `${standing.reader}'s reading of ${standing.at.slice(0, 10)} stands.` : "",
  ]
    .filter(Boolean)
    .join(" ");
}

function key(event) {
  if (event.ctrlKey || event.metaKey) {
    if (event.key.toLowerCase() === "z") {
      (event.shiftKey ? act.redo : act.undo)();
    } else if (event.key.toLowerCase() === "y") {
      act.redo();
    } else if (event.key === "Enter") {
      act.rest();
    } else {
      return;
    }
    event.preventDefault();
    return;
  }
  const named = {
    ArrowLeft: () => (event.shiftKey ? stone.turnLight(-1) : enqueue(() => moveTo(model.step(face, cursor, -1)))),
    ArrowRight: () => (event.shiftKey ? stone.turnLight(1) : enqueue(() => moveTo(model.step(face, cursor, 1)))),
    ArrowUp: () => enqueue(() => moveTo(model.stepLine(face, cursor, -1))),
    ArrowDown: () => enqueue(() => moveTo(model.stepLine(face, cursor, 1))),
    Home: () => enqueue(() => moveTo({ ...cursor, at: 1 })),
    End: () => enqueue(() => moveTo({ ...cursor, at: Infinity })),
    PageDown: () => stone.turnPicture(1),
    PageUp: () => stone.turnPicture(-1),
    " ": act.asShown,
    Enter: () => (event.shiftKey ? act.line() : act.word()),
    Backspace: act.undo,
    Delete: act.remove,
    "?": () => enqueueStanding("unclear"),
    "*": () => enqueueStanding("illegible"),
    "#": () => enqueueStanding("lost"),
    "/": () => byId("standings").querySelector('[data-standing="supplied"]').focus(),
    "=": () => byId("typed").focus(),
    "+": () => byId("typed").focus(),
    _: act.space,
  }[event.key];
  if (named) {
    event.preventDefault();
    named();
    return;
  }
  if ([...event.key].length !== 1 || event.altKey) {
    return;
  }
  event.preventDefault();
  enqueue(() => {
    const one = model.candidates(face, cursor).find((candidate) => candidate.key === event.key);
    const figure = /[0-9]/.test(event.key);
    return perform(one && figure ? chosen(one) : typed(model.asCut(face, cursor, event.key)));
  });
}

function enqueueStanding(id) {
  enqueue(() => {
    standing(id, choices.howMany());
  });
}

function wireButtons() {
  const press = (id, what) =>
    byId(id).addEventListener("click", () => {
      what();
      column.focus();
    });
  press("undo", act.undo);
  press("redo", act.redo);
  press("word", act.word);
  press("line", act.line);
  press("rest", act.rest);
  press("next-doubt", () => enqueue(() => moveTo(model.mostWorth(face, cursor))));
  press("before", () => enqueue(() => moveTo(model.step(face, cursor, -1))));
  press("after", () => enqueue(() => moveTo(model.step(face, cursor, 1))));
  press("larger", () => column.resize(1.25));
  press("smaller", () => column.resize(0.8));
  press("space", act.space);
  press("remove", act.remove);
  press("split-line", () => decide(() => ({ do: "split-line", line: cursor.line, at: cursor.at }), stay));
  press("join-lines", () => decide(() => ({ do: "join-lines", line: cursor.line }), stay));
  press("remove-line", () => decide(() => ({ do: "remove-line", line: cursor.line })));
  press("line-lost", () => decide(() => ({ do: "line", line: cursor.line, standing: "lost" })));
  press("line-illegible", () => decide(() => ({ do: "line", line: cursor.line, standing: "illegible" })));
  byId("add-above").addEventListener("click", () => addLine(cursor.line));
  byId("add-below").addEventListener("click", () => addLine(face.lines.length === 0 ? 1 : cursor.line + 1));
  byId("add-first").addEventListener("click", () => addLine(1));
  byId("whole-line").addEventListener("click", wholeLine);
  byId("sign").addEventListener("click", sign);
  byId("reopen").addEventListener("click", () => enqueue(() => change("/reopen", {}, (now) => model.mostWorth(now, cursor))));
  byId("skip").addEventListener("click", () => leaveWith(`${address}/skip`, {}));
  byId("leave").addEventListener("click", leave);
}

async function addLine(line) {
  const answer = await ask(
    `A line that was missed, to stand as line ${line}`,
    [
      { name: "text", label: "What it says", hint: "Leave it empty if it can't be read. (abc) and other Leiden signs are understood." },
      { name: "standing", label: "If it can't be read", value: "illegible", choices: [["illegible", "marks, can't say"], ["lost", "surface gone"]] },
    ],
    "Add the line",
  );
  if (answer) {
    decide(() => ({ do: "add-line", line, ...(answer.text ? { text: answer.text } : { standing: answer.standing }) }), (now) => model.mostWorth(now, { line, at: 1 }));
  }
  column.focus();
}

async function wholeLine() {
  const { line } = cursor;
  const text = model.textOf(model.lineOf(face, cursor).letters);
  const answer = await ask(`Line ${line}, typed whole`, [{ name: "text", label: "What it says", value: text, required: true, hint: "Leiden signs are understood; all of it counts as decided." }], "Keep");
  if (answer) {
    decide(() => ({ do: "text", line, text: answer.text }));
  }
  column.focus();
}

async function leave() {
  const answer = await ask(
    "Leave this stone",
    [
      { name: "for", label: "For", value: "another-reader", choices: [["another-reader", "another reader"], ["other-light", "a visit in other light"]] },
      { name: "note", label: "What they should know" },
    ],
    "Leave it",
  );
  if (answer) {
    leaveWith(`${address}/leave`, answer);
  }
}

function leaveWith(path, body) {
  enqueue(async () => {
    await persistently(() => post(path, body));
    location.assign("/queue");
  });
}

async function sign() {
  const answer = await ask(
    "Sign your reading",
    [
      {
        name: "kind",
        label: "You read it",
        value: atStone ? "stone" : "photographs",
        choices: [["photographs", "from these photographs"], ["stone", "at the stone"], ["earlier", "from an earlier witness"]],
      },
      { name: "date", label: "If at the stone: the day", kind: "date", value: atStone ? byId("here-date").value : "" },
      { name: "light", label: "If at the stone: the light", value: atStone ? byId("here-light").value : "", offers: ["low sun from the left", "low sun from the right", "sun from above", "overcast", "a lamp held low"] },
      { name: "witness", label: "If from an earlier witness: which" },
    ],
    "Sign",
  );
  if (!answer) {
    column.focus();
    return;
  }
  const kept = { photographs: [], stone: ["date", "light"], earlier: ["date", "witness"] }[answer.kind];
  const basis = { kind: answer.kind };
  for (const name of kept) {
    if (answer[name]) {
      basis[name] = answer[name];
    }
  }
  enqueue(async () => {
    const before = face.before?.reading;
    await change("/sign", { basis, ...(before ? { before } : {}) }, stay);
    await offerNext();
  });
}

async function offerNext() {
  const next = await get("/api/next?by=hardest");
  tell(next.face ? "Signed, thank you. " : "Signed, thank you. Nothing else waits for you.", "good");
  if (next.face) {
    byId("notice").append(make("a", { href: `/faces/${next.face}` }, `Next: marker ${next.marker}, ${next.name} (${next.why})`));
    byId("notice").querySelector("a").focus();
  }
}
