// What a face says and where the cursor is. Pure: knows neither the page nor the network.

/** The standings in the order of the page, with the keys that set them. */
export const STANDINGS = [
  { id: "clear", name: "I see it", key: "Space", hint: "can only be this letter" },
  { id: "unclear", name: "could be another letter", key: "?", hint: "not sure of it" },
  { id: "illegible", name: "marks, can't say", key: "*", hint: "marks remain", gap: true },
  { id: "lost", name: "surface gone", key: "#", hint: "nothing is left of it", gap: true },
  { id: "supplied", name: "worked out", key: "/", hint: "not on the stone: reasoned", note: "How it was worked out" },
  { id: "seen-earlier", name: "an old list has it", key: "/", hint: "gone since", note: "Which list, rubbing or register" },
  { id: "erased", name: "rubbed out", key: "/", hint: "cut away on purpose" },
  { id: "blank", name: "left blank", key: "/", hint: "space left uncut", gap: true },
];

export const plainName = (letter) => {
  const name = STANDINGS.find((standing) => standing.id === letter.standing)?.name ?? letter.standing;
  return [name, letter.erased && "rubbed out", letter.withLine && "with its line"].filter(Boolean).join(", ");
};

/** Whether a place waits for a decision, and how sure the machine is of it. */
export const openness = (letter) =>
  letter.decided ? letter.standing : letter.standing === "clear" ? "open sure" : "open doubtful";

export const lineOf = (face, cursor) => face.lines[cursor.line - 1];
export const letterOf = (face, cursor) => lineOf(face, cursor)?.letters[cursor.at - 1];

/** A place that exists, as near to the wished one as can be. */
export function within(face, cursor) {
  const line = Math.max(1, Math.min(cursor.line, face.lines.length));
  const letters = face.lines[line - 1]?.letters.length ?? 0;
  return { line, at: Math.max(1, Math.min(cursor.at, Math.max(1, letters))) };
}

export function step(face, cursor, by) {
  let { line, at } = cursor;
  at += by;
  if (at < 1 && line > 1) {
    line -= 1;
    at = face.lines[line - 1].letters.length;
  } else if (at > (lineOf(face, cursor)?.letters.length ?? 0) && line < face.lines.length) {
    line += 1;
    at = 1;
  }
  return within(face, { line, at });
}

/** Where a line may be, at the cursor; undefined at a line. */
export const unsureOf = (face, cursor) => cursor.place && face.unsure?.find((one) => one.place === cursor.place);

/** The place in words. */
export function unsureWords(face, one) {
  const where =
    face.lines.length === 0
      ? ""
      : one.before === 1
        ? " above line 1"
        : one.before > face.lines.length
          ? ` below line ${face.lines.length}`
          : ` between lines ${one.before - 1} and ${one.before}`;
  const odds = one.odds === "as likely as not" ? one.odds : `about ${one.odds}`;
  return `A line may be here,${where}${where ? ":" : ""} ${odds}.`;
}

/** The next place, top to bottom, where a line may be; the first after the last. */
export function nextUnsure(face, cursor) {
  const all = face.unsure ?? [];
  const next = cursor.place
    ? all.find((one) => one.place > cursor.place)
    : all.find((one) => one.before > cursor.line);
  const one = next ?? all[0];
  return one ? { place: one.place } : cursor;
}

/** The number of the line that one state of a face has and the one before hasn't. */
export function newLine(now, old) {
  const at = now.lines.findIndex((line, i) => JSON.stringify(line.onPhotograph) !== JSON.stringify(old.lines[i]?.onPhotograph));
  return at < 0 ? now.lines.length : at + 1;
}

/** The same place along the line above or below; between them, where a line may be. */
export function stepLine(face, cursor, by) {
  const unsure = between(face, cursor, by);
  if (unsure) {
    return { place: unsure.place };
  }
  if (cursor.place) {
    const { before } = unsureOf(face, cursor);
    if (by < 0 ? before === 1 : before > face.lines.length) {
      return cursor;
    }
    return within(face, { line: by < 0 ? before - 1 : before, at: 1 });
  }
  const target = within(face, { line: cursor.line + by, at: 1 });
  const share = middle(lineOf(face, cursor), cursor.at);
  const letters = face.lines[target.line - 1]?.letters ?? [];
  let best = 1;
  letters.forEach((_, i) => {
    const line = face.lines[target.line - 1];
    if (Math.abs(middle(line, i + 1) - share) < Math.abs(middle(line, best) - share)) {
      best = i + 1;
    }
  });
  return { line: target.line, at: best };
}

/** The next place where a line may be before the next line, upwards or downwards. */
function between(face, cursor, by) {
  const all = face.unsure ?? [];
  if (cursor.place) {
    const here = unsureOf(face, cursor);
    return all.find((one) => one.place === here.place + by && one.before === here.before);
  }
  const here = all.filter((one) => one.before === (by < 0 ? cursor.line : cursor.line + 1));
  return by < 0 ? here.at(-1) : here[0];
}

/** The part of a line whose strips show a letter: a line joined of two has two. Undefined where none shows it. */
export function partAt(line, at) {
  const number = line?.letters[at - 1]?.part ?? line?.letters.find((letter) => letter.part)?.part;
  return number === undefined ? undefined : line.parts?.[number - 1];
}

/**
 * Where each letter's column begins and ends along the strips that show the letter at the cursor, 0 to 1; columns tile
 * them. A letter whose place nobody knows has what its neighbours leave; what other strips show lies at the ends.
 */
export function columns(line, at = 1) {
  const letters = line.letters;
  const count = letters.length;
  const part = letters[at - 1]?.part ?? letters.find((letter) => letter.part)?.part;
  if (part === undefined) {
    return letters.map((_, i) => [i / count, (i + 1) / count]);
  }
  const known = letters.map((letter) => letter.part === part);
  const first = known.indexOf(true);
  const last = known.lastIndexOf(true);
  const spans = letters.map((letter, i) =>
    known[i] ? [letter.from, letter.to] : i < first ? [letters[first].from, letters[first].from] : undefined,
  );
  const wide = median(letters.filter((_, i) => known[i]).map((letter) => letter.to - letter.from));
  for (let i = first; i < count; i += 1) {
    if (!known[i]) {
      const next = known.indexOf(true, i);
      const from = spans[i - 1][1];
      const elsewhere = letters[i].part !== undefined;
      const room = next > 0 ? (letters[next].from - from) / (next - i) : wide;
      spans[i] = [from, elsewhere ? from : Math.min(1, from + Math.max(0, room))];
    }
  }
  const edge = (i) => {
    if (i <= first) {
      return Math.max(0, spans[first][0] - 0.004);
    }
    return i > last + 1 ? spans[i - 1][1] : i === count ? Math.min(1, spans[count - 1][1] + 0.004) : (spans[i - 1][1] + spans[i][0]) / 2;
  };
  const edges = Array.from({ length: count + 1 }, (_, i) => edge(i));
  return letters.map((_, i) => [edges[i], Math.max(edges[i + 1], edges[i])]);
}

const median = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];

function middle(line, at) {
  const column = columns(line ?? { letters: [] }, at)[at - 1];
  return column ? (column[0] + column[1]) / 2 : 0.5;
}

/** First and last letter of the word at a place. */
export function wordAt(line, at) {
  let from = at;
  while (from > 1 && !line.letters[from - 1].spaceBefore) {
    from -= 1;
  }
  let to = at;
  while (to < line.letters.length && !line.letters[to].spaceBefore) {
    to += 1;
  }
  return { from, to };
}

export function textOf(letters) {
  return letters.map((letter) => (letter.spaceBefore ? " " : "") + (letter.text || "+")).join("");
}

/**
 * Where an answer is worth most: the doubtful letter of most gain in this line, else whatever of
 * this line is undecided, else the doubtful letter of most gain anywhere, else anything undecided.
 */
export function mostWorth(face, cursor) {
  const doubts = face.doubts ?? [];
  const here = doubts.find((doubt) => doubt.line === cursor.line);
  if (here) {
    return { line: here.line, at: here.at };
  }
  const open = lineOf(face, cursor)?.letters.findIndex((letter) => !letter.decided) ?? -1;
  if (open >= 0) {
    return { line: cursor.line, at: open + 1 };
  }
  if (doubts.length > 0) {
    return { line: doubts[0].line, at: doubts[0].at };
  }
  for (const line of face.lines) {
    const at = line.letters.findIndex((letter) => !letter.decided);
    if (at >= 0) {
      return { line: line.line, at: at + 1 };
    }
  }
  return cursor;
}

/** What may stand at a place, likeliest first. */
export function candidates(face, cursor) {
  const letter = letterOf(face, cursor);
  if (!letter) {
    return [];
  }
  const found = [];
  const add = (text, p) => {
    if (!found.some((one) => one.text === text)) {
      found.push({ text, p });
    }
  };
  for (const one of letter.candidates ?? []) {
    add(one.text, one.percent === undefined ? undefined : one.percent / 100);
  }
  for (const one of letter.alternatives ?? []) {
    if (one.text !== " " && one.p >= 0.01) {
      add(one.text, one.p);
    }
  }
  return found.slice(0, 9);
}

/** What two readers have along a line, for whoever settles between them. */
export const pairsOf = (face, line) => face.settling?.lines.find((one) => one.line === line)?.pairs ?? [];

/** What two readers have at a place; undefined where they agree. */
export const difference = (face, cursor) =>
  pairsOf(face, cursor.line).find((one) => one.at === cursor.at && one.differs);

/** What one of them has in this line and the draft hasn't. */
export const leftOut = (face, cursor) => pairsOf(face, cursor.line).filter((one) => one.at === undefined);

/** A letter as typed, in capitals where the whole line is in capitals. */
export function asCut(face, cursor, typed) {
  const cut = lineOf(face, cursor)
    .letters.map((letter) => letter.text ?? "")
    .join("");
  const capitals = /\p{Lu}/u.test(cut) && !/\p{Ll}/u.test(cut);
  const upper = typed.toUpperCase();
  return capitals && upper.length === typed.length ? upper : typed;
}

/** The place in words, for those who hear the page. */
export function spoken(face, cursor) {
  const letter = letterOf(face, cursor);
  if (!letter) {
    return `Line ${cursor.line}: no letters.`;
  }
  const sign = letter.text || "no sign";
  const said = letter.decided ? plainName(letter) : "to be decided";
  const others = candidates(face, cursor)
    .map((one) => one.text || "no letter")
    .join(", ");
  return `Line ${cursor.line}, letter ${cursor.at}: ${sign}, ${said}.${letter.decided || !others ? "" : ` It may be ${others}.`}`;
}
