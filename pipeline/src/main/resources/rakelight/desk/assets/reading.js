// The reading page: one face, one cursor, one queue of changes, each saved before the next is sent.

import { ask } from "./ask.js";
import { Away, Refused, get, post } from "./desk-api.js";
import { Choices } from "./choices.js";
import { Help } from "./help.js";
import { LetterColumn } from "./letter-column.js";
import { byId, make } from "./page-parts.js";
import { StoneView } from "./stone-view.js";
import { Transcript } from "./transcript.js";
import { Unsent } from "./unsent.js";
import * as model from "./face-model.js";
import * as typing from "./typing.js";

/** Well inside the ten minutes of a lease. */
const HOLD_EVERY_MS = 4 * 60 * 1000;
const ASK_AGAIN_MS = 1500;

/** Typing that rests for so long is saved. */
const TYPING_RESTS_MS = 1500;

const page = byId("reading");
const address = `/api/faces/${page.dataset.face}`;
const atStone = page.dataset.basis === "stone";
const unsent = new Unsent(page.dataset.face, page.dataset.reader, localStorage);

let face;

/** A line and a letter; with `place`, a place of the stone where a line may be. */
let cursor = { line: 1, at: 1 };
let queue = Promise.resolve();
let waiting = 0;
let away = false;
let lastNote = "";

/** Letters typed and not sent yet; see typing.js. */
let run;
let rests;

/** Whether the next typed letter is a raised one. */
let raised = false;

/** The line that is to be taken once all that must be looked at has been: "every letter is right" was said of it. */
let whole = 0;

const act = {
  asShown: () => decideLetter((letter) => shown(letter)),
  choose: (one) => decide(() => chosen(one)),
  of: (which) => decide(() => ({ do: "choose", ...here(), of: which })),
  bring: (pair, which) => decide(() => ({ do: "choose", line: pair.line, pair: pair.pair, of: which })),
  type,
  insert: (text) => insert(text),
  standing,
  remove: () => decide(() => chosen({ text: "" })),
  word: () => decide(() => word(cursor)),
  line: () => enqueue(lineIsRight),
  rest: () => {
    leaveUnsure();
    enqueue(restIsRight);
  },
  space: () =>
    decide(() => {
      const spaced = model.letterOf(face, cursor).spaceBefore;
      return { do: spaced ? "join-words" : "split-word", line: cursor.line, at: cursor.at };
    }, stay),
  undo,
  redo: () => enqueue(() => change("/redo", {}, whereChanged)),
  back: () => column.focus(),
};

const choices = new Choices(act);
const column = new LetterColumn(byId("column"), (place) => enqueue(() => moveTo(cursor.place ? cursor : place)), (middle) => choices.under(middle));
const transcript = new Transcript(byId("lines"), goTo);
const stone = new StoneView(goTo);
const help = new Help(() => column.focus());

wireButtons();
if (atStone) {
  const now = new Date();
  byId("here-date").value = new Date(now - now.getTimezoneOffset() * 60000).toISOString().slice(0, 10);
}
byId("slots").addEventListener("keydown", key);
document.addEventListener("keydown", keyAnywhere);
window.addEventListener("pagehide", () => mayDecide() && post(`${address}/let-go`).catch(() => {}));
setInterval(() => {
  if (mayDecide() && document.visibilityState === "visible") {
    post(`${address}/hold`).catch(() => {});
  }
}, HOLD_EVERY_MS);
enqueue(async () => {
  take(await persistently(() => get(address)), (now) => model.mostWorth(now, { line: 0, at: 1 }));
  page.classList.remove("waiting");
  await sendWhatWasNotSaved();
  column.focus();
  byId("band").scrollIntoView({ block: "nearest" });
  help.offer();
});

function mayDecide() {
  return face && (face.task === "read" || face.task === "settle") && !face.takenBy;
}

const here = () => ({ line: cursor.line, at: cursor.at });

const chosen = (one) => (one.text === "" ? { do: "remove", ...here() } : stands(one.text));

const word = (place) => {
  const { from, to } = model.wordAt(model.lineOf(face, place), place.at);
  return { do: "seen", line: place.line, from, to };
};

/** A sign stands here; in a line without letters it becomes the first. */
const stands = (sign) => ({
  do: model.letterOf(face, cursor) ? "letter" : "insert",
  ...here(),
  standing: "clear",
  text: sign,
});

/** What is left of every line is as shown; the desk refuses while a doubt, a name or a date is open. */
/** With the line goes the word that is lit, where nothing else of the line must be looked at by itself. */
async function lineIsRight() {
  const { line } = cursor;
  const doubts = (face.doubts ?? []).filter((doubt) => doubt.line === line).map((doubt) => doubt.at);
  if (!face.blind && doubts.includes(cursor.at)) {
    const lit = word(cursor);
    if (doubts.every((at) => lit.from <= at && at <= lit.to)) {
      await perform(lit, stay);
    }
  }
  await perform({ do: face.blind ? "accept" : "seen-line", line });
}

async function restIsRight() {
  for (let line = 1; line <= face.lines.length; line += 1) {
    if (face.lines[line - 1].letters.some((letter) => !letter.decided)) {
      await perform({ do: "accept", line }, () => ({ line, at: 1 }));
    }
  }
}

/** A line stands where one may be; its letters are confirmed like any other's. */
function takeLine() {
  decideOf(
    (one) => ({ do: "take-line", place: one.place }),
    (now, _, old) => model.mostWorth(now, { line: model.newLine(now, old), at: 1 }),
  );
}

/** None stands there: it isn't shown any more. */
function noLine() {
  decideOf(
    (one) => ({ do: "no-line", place: one.place }),
    (now, before) => model.mostWorth(now, { line: before.line, at: 1 }),
  );
}

function decideOf(said, then) {
  enqueue(() => {
    const one = model.unsureOf(face, cursor);
    return one && perform(said(one), then);
  });
}

/** What was shown, confirmed by a person: a letter as clear, a gap as it stands. */
function shown(letter) {
  return !letter.text && ["illegible", "lost", "blank"].includes(letter.standing)
    ? { standing: letter.standing, ...(letter.letters ? { letters: letter.letters } : {}) }
    : { standing: "clear", text: letter.text, ...(letter.raised ? { raised: true } : {}) };
}

function decideLetter(what) {
  decide(() => {
    const letter = model.letterOf(face, cursor);
    return letter && { do: "letter", ...here(), ...what(letter) };
  });
}

// Typing

/** A letter typed: it stands at the cursor, which moves right by one and no farther. */
function type(sign) {
  if (!mayDecide() || away || cursor.place) {
    return;
  }
  const text = raised ? sign : model.asCut(face, cursor, sign);
  run = typing.typed(run ?? typing.begin(cursor), text, raised);
  setRaised(false);
  keepRun();
}

function keepRun() {
  clearTimeout(rests);
  if (run.signs.length === 0) {
    const place = typing.place(run);
    run = undefined;
    unsent.dropTyping();
    moveTo(place);
    tell("");
    saving();
    return;
  }
  unsent.keepTyping({ path: "/decide", body: typing.change(run), words: inWords(typing.change(run)), version: face.version });
  moveTo(typing.place(run));
  const over = typing.replaced(face, run);
  tell(
    over.length > 0
      ? `Typed over ${over.map((one) => `“${one.was}”`).join(", ")}, which nobody doubted. Backspace takes it back.`
      : "",
  );
  rests = setTimeout(() => enqueue(() => {}), TYPING_RESTS_MS);
  saving();
}

/** Sends what was typed as one change; the cursor stays where the typing got to. */
function endTyping() {
  if (!run || away) {
    return;
  }
  clearTimeout(rests);
  const ended = run;
  run = undefined;
  push(() => perform(typing.change(ended), () => typing.place(ended)));
}

/** Space after typing: at a word's end the next word follows, else on to where an answer is worth most. */
function spaceAfterTyping() {
  const ended = run;
  const next = typing.place(ended);
  endTyping();
  enqueue(() => {
    const beginsWord = model.letterOf(face, next)?.spaceBefore;
    if (!(ended.signs.length > 1 && beginsWord)) {
      moveTo(onwards(face, cursor, face));
    }
  });
}

function undo() {
  if (run) {
    run = typing.back(run);
    keepRun();
  } else {
    enqueue(() => change("/undo", {}, whereChanged));
  }
}

function setRaised(on) {
  raised = on;
  byId("raised").setAttribute("aria-pressed", String(on));
  if (on) {
    tell("The next letter you type is a raised one, as the ST of 1ST.");
  }
}

/** Letters that were missed before the one at the cursor. */
function insert(text) {
  const place = { ...cursor };
  let offset = 0;
  let spaceBefore = false;
  let up = false;
  for (const sign of graphemes(text)) {
    if (sign === " ") {
      spaceBefore = true;
    } else if (sign === "^") {
      up = true;
    } else {
      const said = {
        do: "insert", line: place.line, at: place.at + offset, standing: "clear", text: sign,
        ...(spaceBefore ? { spaceBefore } : {}), ...(up ? { raised: up } : {}),
      };
      decide(() => said);
      offset += 1;
      spaceBefore = false;
      up = false;
    }
  }
  column.focus();
}

function graphemes(text) {
  return [...new Intl.Segmenter("en", { granularity: "grapheme" }).segment(text)].map((part) => part.segment);
}

async function standing(id, howMany = 1) {
  endTyping();
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
    const place = { ...cursor };
    const answer = await ask(
      `Line ${place.line}, letter ${place.at}: ${kind.name}`,
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
      decide(() => ({ do: "letter", ...place, standing: id, text: answer.text, note: answer.note }));
    }
  }
  column.focus();
}

function favouredFirst(open, favoured) {
  const texts = open.map((one) => one.text);
  return [...new Set([...(favoured ? [favoured] : []), ...texts])].map((text) => ({ text }));
}

// Saving

/** Sends a change made from the face as it is when its turn comes. */
function decide(body, then = onwards) {
  enqueue(() => perform(body(), then));
}

async function perform(said, then = onwards) {
  if (said && (!cursor.place || said.place)) {
    await change("/decide", said, then);
  }
}

/**
 * Does something in its turn; what was typed before is sent first. While the desk is away nothing more is taken: what
 * a key would decide isn't what is lit when the desk is back.
 */
function enqueue(task) {
  endTyping();
  return away ? queue : push(task);
}

function push(task) {
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
  if (unsent.list.some((one) => !one.typing)) {
    throw new Waits();
  }
  unsent.add({ path, body, words: inWords(body, path), version: face.version });
  await send(then);
}

/** Sends the oldest decision that isn't saved, again and again until the desk has it or says no. */
async function send(then) {
  const [{ path, body }] = unsent.list;
  try {
    take(await persistently(() => post(address + path, { version: face.version, ...body })), then, () => unsent.done());
  } catch (error) {
    if (error instanceof Refused && error.status !== 401 && error.code !== "token") {
      unsent.done();
      if (body.do === "type") {
        moveTo(body);
      }
    }
    throw error;
  }
  tell("");
  if (whole && !(face.doubts ?? []).some((doubt) => doubt.line === whole)) {
    const line = whole;
    whole = 0;
    if (face.lines[line - 1]?.letters.some((letter) => !letter.decided)) {
      await perform({ do: "seen-line", line });
    }
  }
}

/** A decision that came while an earlier one still waits for a sign-in, or for a person to say whether it stands. */
class Waits extends Error {}

/** Asks again until the desk answers: nothing that was decided is given up because it was away. */
async function persistently(request) {
  for (;;) {
    try {
      const answer = await request();
      away = false;
      return answer;
    } catch (error) {
      if (!(error instanceof Away)) {
        away = false;
        throw error;
      }
      away = true;
      saving();
      tell(notSaved("The desk doesn't answer.") + " This page asks again by itself.", "away");
      await new Promise((resolve) => setTimeout(resolve, ASK_AGAIN_MS));
    }
  }
}

/** What isn't saved yet, in words. */
function notSaved(why) {
  const words = unsent.list.map((one) => one.words);
  return words.length === 0 ? why : `${why} Not saved yet, but kept in this browser: ${words.join("; ")}.`;
}

/** What a person decided before the desk went away, or before a new sign-in. */
async function sendWhatWasNotSaved() {
  while (unsent.list.length > 0 && mayDecide() && unsent.list[0].version === face.version) {
    const { words } = unsent.list[0];
    await send(onwards);
    tell(`Saved now, from before: ${words}.`, "good");
  }
  if (unsent.list.length > 0) {
    const close = () => {
      byId("unsent").hidden = true;
      column.focus();
    };
    byId("unsent").replaceChildren(
      `This was decided here before and may not have been saved: ${unsent.list.map((one) => one.words).join("; ")}. The stone was changed since. Look whether it stands so. `,
      make("button", {
        type: "button",
        onclick: () => {
          const again = unsent.list;
          unsent.forget();
          close();
          again.forEach((one) => enqueue(() => change(one.path, one.body, onwards)));
        },
      }, "Decide it so now"),
      " ",
      make("button", { type: "button", onclick: () => { unsent.forget(); close(); saving(); } }, "Leave it as it stands"),
    );
    byId("unsent").hidden = !mayDecide();
  }
}

/** A change in words, for whoever must know that it isn't saved. */
function inWords(body, path = "/decide") {
  if (path !== "/decide") {
    return { "/undo": "an undo", "/redo": "a redo", "/sign": "your signature", "/reopen": "reopening" }[path] ?? path;
  }
  if (body.place) {
    return body.do === "take-line" ? "a line taken that may be there" : "no line where one may be";
  }
  const place = `line ${body.line}${body.at ? `, letter ${body.at}` : ""}`;
  const sign = body.signs?.map((one) => one.text).join("") ?? body.text;
  const name = model.STANDINGS.find((one) => one.id === body.standing)?.name;
  const what = sign ? `“${sign}”${name && body.standing !== "clear" ? `, ${name}` : ""}` : (name ?? {
    seen: "as shown", accept: "as shown", "seen-line": "the whole line as shown", remove: "no letter", "remove-line": "no such line",
  }[body.do] ?? body.do.replaceAll("-", " "));
  return `${place}: ${what}`;
}

function report(error) {
  if (error instanceof Waits) {
    return;
  }
  if (!(error instanceof Refused)) {
    tell(`This page has a fault: ${error.message} Load it again; what you decided is kept.`, "wrong");
    throw error;
  }
  if (error.body.face) {
    take(error.body.face, stay);
  }
  if (error.body.at) {
    whole = error.body.places ? error.body.line : 0;
    moveTo({ line: error.body.line, at: error.body.at });
  }
  const said = {
    changed: "This stone was changed in another window or by somebody else. Here is how it stands now; your last answer was not kept.",
    taken: `${error.body.by ?? "Somebody else"} is reading this stone just now. You may look; come back later.`,
    superseded: "Somebody signed a reading of this stone meanwhile. Here is how it stands now.",
  }[error.code];
  const mustLook = whole && error.body.places?.length;
  tell(
    mustLook
      ? `First ${mustLook === 1 ? "one letter" : `${mustLook} letters`} of this line that must be looked at by ${mustLook === 1 ? "itself" : "themselves"}; then the line is taken. ${error.message}`
      : (said ?? error.message),
    error.body.at ? "" : "wrong",
  );
  if (error.status === 401 || error.code === "token") {
    tell(notSaved("You are signed out."), "wrong");
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
  const open = unsent.list.length;
  byId("saved").textContent = waiting > 0 && !away ? "Saving …" : open > 0 ? `${open} not saved yet` : "All saved";
}

const stay = (_, before) => before;

/** On to where an answer is worth most; after a correction, to the next letter. */
function onwards(now, before, old) {
  const was = model.letterOf(old, before);
  if (old !== now && was?.decided && now.undecided > 0 && old.lines.length === now.lines.length) {
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

function take(next, where, saved = () => {}) {
  const old = face ?? next;
  face = next;
  saved();
  moveTo(where(face, cursor, old));
  progress();
}

function moveTo(place) {
  if (place.place && lookAt(place.place)) {
    return;
  }
  page.classList.remove("at-unsure");
  byId("unsure").hidden = true;
  const now = typing.shown(face, run);
  const line = model.lineOf(now, place);
  const afterLast = line && place.at === line.letters.length + 1 && (run || place.typed);
  cursor = afterLast ? { line: place.line, at: place.at } : model.within(now, place);
  column.show(now, cursor);
  stone.show(now, cursor);
  transcript.show(now, cursor);
  choices.show(now, cursor, mayDecide());
  column.tellWhere();
  byId("say").textContent = model.spoken(now, cursor);
  const letter = model.letterOf(now, cursor);
  byId("space").textContent = letter?.spaceBefore ? "No space before this letter" : "A space before this letter";
}

/** To a place where a line may be: it is shown as a line is, and only the place itself can be decided. */
function lookAt(number) {
  const one = face.unsure?.find((other) => other.place === number);
  if (!one) {
    return false;
  }
  cursor = { line: Math.max(1, Math.min(one.before, face.lines.length)), at: 1, place: number };
  const alone = { ...face, lines: [one], settling: undefined };
  byId("column").hidden = false;
  column.show(alone, { line: 1, at: 1 });
  stone.show(face, cursor);
  transcript.show(face, cursor);
  page.classList.add("at-unsure");
  byId("unsure").hidden = false;
  byId("unsure-where").textContent = model.unsureWords(face, one);
  byId("unsure-text").textContent = one.text ? `What may be read: ${model.textOf(one.letters)}` : "No letter could be read.";
  byId("take-line").disabled = byId("no-line").disabled = !mayDecide();
  byId("say").textContent = `${model.unsureWords(face, one)} ${one.text ? `It may read ${model.textOf(one.letters)}.` : "No letter could be read."} Enter takes it as a line, Delete says there is none, the arrow keys leave it.`;
  byId("move-line").hidden = true;
  return true;
}

/** To a place that was pointed at, ready for the keyboard. */
function goTo(place) {
  whole = 0;
  enqueue(() => {
    moveTo(place);
    column.focus();
    byId("band").scrollIntoView({ block: "nearest" });
  });
}

function progress() {
  const open = face.undecided ?? 0;
  const doubts = (face.doubts ?? []).length;
  const none = face.lines.length === 0;
  const deciding = mayDecide();
  byId("progress").textContent = none
    ? "Nothing is read yet."
    : open === 0
      ? face.signable && deciding
        ? `Every letter is decided. Ctrl S signs your reading, ${atStone ? "made at the stone" : "from these photographs"}.`
        : "Every letter is decided."
      : `${open} ${open === 1 ? "letter" : "letters"} to decide, ${doubts} of them doubtful.`;
  const unsure = (face.unsure ?? []).length;
  byId("next-unsure").hidden = unsure === 0;
  byId("next-unsure").textContent = unsure === 1 ? "A line may be here" : `${unsure} more lines may be here`;
  byId("undo").disabled = !deciding || (!face.canUndo && !run);
  byId("redo").disabled = !deciding || !face.canRedo;
  byId("sign").disabled = byId("sign-otherwise").disabled = !deciding || !face.signable;
  byId("sign-otherwise").hidden = atStone || byId("sign").disabled;
  byId("reopen").hidden = face.task !== "done";
  byId("reopen").textContent = face.blind && face.mine ? "Reopen your reading" : "Correct this reading";
  byId("no-lines").hidden = !none;
  byId("add-first").hidden = !deciding;
  for (const id of ["column", "place", "answers", "standings"]) {
    byId(id).hidden = none && !(id === "column" && cursor.place);
  }
  byId("stone-side").hidden = face.photographs.length === 0;
  for (const button of byId("line-tools").querySelectorAll("button")) {
    button.disabled = !deciding || (none && !["add-below", "draw-line"].includes(button.id));
  }
  const drawable = Boolean(face.proposal);
  byId("draw-line").hidden = !drawable;
  byId("move-line").hidden = !drawable || !model.lineOf(face, cursor)?.onPhotograph;
  byId("line-words").textContent = face.blind ? "The rest of the line is right" : "Every letter of the line is right";
  byId("word").disabled = byId("line").disabled = byId("rest").disabled = !deciding || none;
  if (face.takenBy) {
    tell(`${face.takenBy.reader} is reading this stone just now. You may look; come back later.`, "wrong");
  } else if (face.task === "done") {
    tell(whoRead(), "good");
  } else if (face.task === "settle") {
    tell("Two readings differ here. Both stand above the letters; choose either, or say what you see.", "good");
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

// Keys

/** Keys that do the same wherever the keyboard is. */
function keyAnywhere(event) {
  if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "s") {
    event.preventDefault();
    if (!byId("sign").disabled) {
      sign();
    } else {
      tell("Every letter must be decided before you sign.");
    }
  } else if (event.key === "F1") {
    event.preventDefault();
    help.toggle();
  }
}

function key(event) {
  // A key must never decide what isn't in sight.
  byId("band").scrollIntoView({ block: "nearest" });
  if (cursor.place && !event.ctrlKey && !event.metaKey && !event.altKey && keyAtUnsure(event)) {
    event.preventDefault();
    return;
  }
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
  if (event.altKey) {
    const one = model.candidates(face, cursor)[Number(event.key) - 1];
    const between = model.difference(face, cursor);
    if (/^[1-9]$/.test(event.key) && (one || between)) {
      event.preventDefault();
      if (between) {
        act.of(event.key === "1" ? "first" : "second");
      } else {
        act.choose(one);
      }
    }
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
    " ": () => (run ? spaceAfterTyping() : act.asShown()),
    Enter: () => (event.shiftKey ? act.line() : enterKey()),
    Escape: () => {
      whole = 0;
      setRaised(false);
      help.close();
    },
    Backspace: act.undo,
    Delete: act.remove,
    "^": () => setRaised(!raised),
    Dead: () => setRaised(!raised),
    "?": () => enqueueStanding("unclear"),
    "*": () => enqueueStanding("illegible"),
    "#": () => enqueueStanding("lost"),
    "/": () => byId("standings").querySelector('[data-standing="supplied"]').focus(),
    "=": openMissed,
    "+": openMissed,
    "\\": () => stone.flip(),
    _: act.space,
  }[event.key];
  if (named) {
    event.preventDefault();
    named();
    return;
  }
  if ([...event.key].length === 1) {
    event.preventDefault();
    type(event.key);
  }
}

/** Back to the nearest line; nothing is said of the place. */
function leaveUnsure() {
  enqueue(() => cursor.place && moveTo({ line: cursor.line, at: 1 }));
}

/** Where a line may be, only a few keys mean something; no other decides anything. */
function keyAtUnsure(event) {
  const leave = (by) => enqueue(() => moveTo(model.stepLine(face, cursor, by)));
  const named = {
    Enter: takeLine,
    Delete: noLine,
    ArrowUp: () => leave(-1),
    ArrowDown: () => leave(1),
    Escape: leaveUnsure,
  }[event.key];
  named?.();
  return Boolean(named) || (!["PageDown", "PageUp", "Backspace", "\\", "Tab"].includes(event.key) && !(event.shiftKey && event.key.startsWith("Arrow")));
}

/** The word at the cursor is right; after typing, the word that was typed. */
function enterKey() {
  if (run) {
    const place = { line: run.line, at: run.at };
    endTyping();
    push(() => {
      const open = model.lineOf(face, place).letters;
      const { from, to } = model.wordAt(model.lineOf(face, place), place.at);
      return open.slice(from - 1, to).every((letter) => letter.decided)
        ? moveTo(onwards(face, cursor, face))
        : perform(word(place));
    });
  } else {
    act.word();
  }
}

function openMissed() {
  byId("signs").open = true;
  byId("typed").focus();
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
  press("word", enterKey);
  press("line", act.line);
  press("rest", act.rest);
  press("next-doubt", () => enqueue(() => moveTo(model.mostWorth(face, cursor))));
  press("next-unsure", () => enqueue(() => moveTo(model.nextUnsure(face, cursor))));
  press("take-line", takeLine);
  press("no-line", noLine);
  press("leave-unsure", leaveUnsure);
  press("before", () => enqueue(() => moveTo(model.step(face, cursor, -1))));
  press("after", () => enqueue(() => moveTo(model.step(face, cursor, 1))));
  press("raised", () => setRaised(!raised));
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
  byId("draw-line").addEventListener("click", () => drawLine());
  byId("move-line").addEventListener("click", () => moveLine());
  byId("whole-line").addEventListener("click", wholeLine);
  byId("sign").addEventListener("click", sign);
  byId("sign-otherwise").addEventListener("click", signOtherwise);
  byId("reopen").addEventListener("click", () => enqueue(() => change("/reopen", {}, (now) => model.mostWorth(now, cursor))));
  byId("skip").addEventListener("click", () => leaveWith(`${address}/skip`, {}));
  byId("leave").addEventListener("click", leave);
  // Where there is no keyboard but the telephone's own.
  byId("typing").addEventListener("input", (event) => {
    graphemes(event.target.value.normalize("NFC")).forEach((sign) => (sign === " " ? run && spaceAfterTyping() : type(sign)));
    event.target.value = "";
  });
  byId("typing").addEventListener("keydown", (event) => {
    if (event.key === "Enter") {
      enterKey();
    } else if (event.key === "Backspace") {
      act.undo();
    }
  });
}

async function addLine(line) {
  endTyping();
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

/** A line that was missed, shown on the stone and read by the machine at once. */
async function drawLine() {
  endTyping();
  const drawn = await stone.drawLine("Show the line that was missed");
  if (drawn) {
    const at = 1 + face.lines.filter((line) => line.onPhotograph && middleOf(line.onPhotograph) < middleOf(drawn.middle)).length;
    decide(() => ({ do: "draw-line", line: at, ...drawn }), (now) => model.mostWorth(now, { line: at, at: 1 }));
  }
  column.focus();
}

/** The line at the cursor, shown on the stone as it really runs and read again. */
async function moveLine() {
  endTyping();
  const { line } = cursor;
  const drawn = await stone.drawLine(`Show where line ${line} runs`, model.lineOf(face, cursor));
  if (drawn) {
    decide(() => ({ do: "move-line", line, ...drawn }), (now) => model.mostWorth(now, { line, at: 1 }));
  }
  column.focus();
}

const middleOf = (points) => points.reduce((sum, point) => sum + point[1], 0) / points.length;

async function wholeLine() {
  endTyping();
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

/** From these photographs; or at the stone, where the page was opened for that. */
function sign() {
  endTyping();
  const [date, light] = atStone ? [byId("here-date").value, byId("here-light").value] : [];
  signAs(atStone ? { kind: "stone", date, light } : { kind: "photographs" });
}

async function signOtherwise() {
  endTyping();
  const answer = await ask(
    "Sign a reading that isn't from these photographs",
    [
      { name: "kind", label: "You read it", value: "stone", choices: [["stone", "at the stone"], ["earlier", "from an earlier witness"]] },
      { name: "date", label: "The day", kind: "date", value: "" },
      { name: "light", label: "If at the stone: the light", value: "", offers: ["low sun from the left", "low sun from the right", "sun from above", "overcast", "a lamp held low"] },
      { name: "witness", label: "If from an earlier witness: which" },
    ],
    "Sign",
  );
  if (!answer) {
    column.focus();
    return;
  }
  const kept = { stone: ["date", "light"], earlier: ["date", "witness"] }[answer.kind];
  signAs(Object.fromEntries(["kind", ...kept].map((name) => [name, answer[name]])));
}

/** What nobody said is left out of the basis. */
function signAs(said) {
  const basis = Object.fromEntries(Object.entries(said).filter(([, value]) => value));
  enqueue(async () => {
    const before = face.before?.reading;
    await change("/sign", { basis, ...(before ? { before } : {}) }, stay);
    await offerNext();
  });
}

async function offerNext() {
  const next = await get("/api/next");
  const count = next.signedThisSession ? `That was ${next.signedThisSession} of your ten. ` : "";
  tell(next.face ? `Signed, thank you. ${count}` : "Signed, thank you. Nothing else waits for you.", "good");
  if (next.face) {
    byId("notice").append(make("a", { href: `/faces/${next.face}` }, `Next: marker ${next.marker}, ${next.name} (${next.why})`));
    byId("notice").querySelector("a").focus();
  }
}
