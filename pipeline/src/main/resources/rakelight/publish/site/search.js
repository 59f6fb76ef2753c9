"use strict";
/*
 * The program's own search, in a browser: the same words, forms, probabilities and order, on pieces of the index that are
 * loaded as they are needed. What depends on words alone was worked out when the site was made. Names follow the
 * program's: a term is one way a word of a stone may be taken, a form what a word asked for may stand for.
 */

/* ---- Pieces: scripts that call p(text), since a page on a disk may fetch nothing else ---- */

const wantedPieces = new WeakMap();

/** What a piece calls; which one it is the script that it stands in tells. */
function p(text) {
  wantedPieces.get(document.currentScript)(text);
}

let fetchPiece = (name) =>
  new Promise((done, failed) => {
    const script = document.createElement("script");
    script.src = "index/" + name + ".js";
    wantedPieces.set(script, done);
    script.onerror = () => failed(new Error("index/" + name + ".js can’t be loaded"));
    document.head.append(script);
  });

const loading = new Map();

function load(name, take) {
  if (!loading.has(name)) loading.set(name, fetchPiece(name).then((text) => take(new PieceReader(text))));
  return loading.get(name);
}

/* ---- What a piece says: choices of one bit by arithmetic coding, as PieceText and PieceModel of the program write them ---- */

const [COUNT, ALIKE, ENTRIES, FREQUENT, PERSONS, PLACE_IN_NAME, PLACE_IN_TEXT, LEAF, EVENT, YEAR, SPAN, WEIGHT, AGE, KNOWN, PLACE, GAPS] =
  Array.from({ length: 16 }, (none, i) => i);
const NAMES = 0;
const TEXTS = 1;
const ENDS = 2;
const SORTS = 128;
const LATELY = 15;
const MOST_MET = 30;
const A_KIND = 288;
const NUMBERS = 3 * SORTS * SORTS;
const SHARES = NUMBERS + 48 * A_KIND;
const LATELY_AT = SHARES + 1024;
const A_NAT = 2 ** 20;
const NO_SHARE = 2 ** 26 - 1;
const UNIT = 2 ** 13;
const UNITS = 2 ** 26;

class PieceModel {
  constructor(other) {
    this.chances = other ? other.chances.slice() : new Uint16Array(LATELY_AT + LATELY + 1).fill(32768);
    this.met = other ? other.met.slice() : new Uint8Array(LATELY_AT + LATELY + 1);
    this.lately = other ? other.lately.slice() : new Array(LATELY).fill(-1);
  }
}

/** Shares are kept to so much: what is as good as all of another is all of it. */
const KEPT_TO = 1 + 1 / A_NAT;

/** What was learnt from the first piece. */
let learnt = null;

class PieceReader {
  constructor(text) {
    this.text = text;
    this.at = 0;
    this.low = 0;
    this.high = UNIT * UNITS - 1;
    this.value = (this.unit() * UNIT + this.unit()) * UNIT + this.unit();
    this.model = new PieceModel(learnt);
  }
  unit() {
    return this.at >= this.text.length ? 0 : this.sign() * 91 + this.sign();
  }
  sign() {
    const code = this.text.charCodeAt(this.at++) - 35;
    return code > 57 ? code - 1 : code;
  }
  choice(chance) {
    const middle = this.low + Math.floor((this.high - this.low) / 4096) * chance;
    const set = this.value <= middle;
    if (set) this.high = middle;
    else this.low = middle + 1;
    while (Math.floor(this.low / UNITS) === Math.floor(this.high / UNITS)) {
      this.low = (this.low % UNITS) * UNIT;
      this.high = (this.high % UNITS) * UNIT + UNIT - 1;
      this.value = (this.value % UNITS) * UNIT + this.unit();
    }
    return set ? 1 : 0;
  }
  bit(at) {
    const { chances, met } = this.model;
    const chance = chances[at];
    const set = this.choice(Math.max(1, chance >> 4));
    const times = met[at] + 2;
    chances[at] = set ? chance + Math.floor((65535 - chance) / times) : chance - Math.floor(chance / times);
    if (met[at] < MOST_MET) met[at]++;
    return set;
  }
  tree(from, bits) {
    let node = 1;
    for (let i = 0; i < bits; i++) node = node * 2 + this.bit(from + node);
    return node - 2 ** bits;
  }
  even(bits) {
    let value = 0;
    for (let i = 0; i < bits; i++) value = value * 2 + this.choice(2048);
    return value;
  }
  number(kind) {
    const bits = this.tree(NUMBERS + kind * A_KIND, 5);
    const first = Math.min(3, bits);
    const rest = 2 ** (bits - first);
    return (2 ** first + this.tree(NUMBERS + kind * A_KIND + 32 + bits * 8, first)) * rest + this.even(bits - first) - 1;
  }
  /** The distance between two of so many. */
  gap(count) {
    return this.number(GAPS + Math.min(15, 31 - Math.clz32(Math.max(1, count))));
  }
  share() {
    const { lately } = this.model;
    const at = this.tree(LATELY_AT, 4);
    const level = at < LATELY ? lately[at] : this.tree(SHARES, 10) * 2 ** 16 + this.even(16);
    lately.splice(Math.min(at, LATELY - 1), 1);
    lately.unshift(level);
    return level === NO_SHARE ? 0 : Math.exp(-level / A_NAT);
  }
  shares(count) {
    return Array.from({ length: count }, () => this.share());
  }
  word(hand, before = "") {
    let word = before.slice(0, this.number(ALIKE));
    let last = word === "" ? 0 : Math.min(SORTS - 1, word.charCodeAt(word.length - 1));
    for (;;) {
      last = this.tree((hand * SORTS + last) * SORTS, 7);
      if (last === 32) return word;
      word += String.fromCharCode(last === SORTS - 1 ? this.even(16) : last);
    }
  }
  words(hand) {
    let last = "";
    return Array.from({ length: this.number(COUNT) }, () => (last = this.word(hand, last)));
  }
  rising() {
    const count = this.number(COUNT);
    let last = 0;
    return Array.from({ length: count }, () => (last += this.gap(count)));
  }
}

/* ---- Letters ---- */

const UNKNOWN = -1;
const MAYBE = -2;
const MANY = -3;
const ONE_OF = -4;

function fold(text) {
  const long = { þ: "th", ð: "th", æ: "ae", œ: "oe", ø: "o", ß: "ss", ł: "l", "&": "&" };
  let folded = "";
  for (const sign of text.toLowerCase().normalize("NFKD")) {
    folded += long[sign] || (/[\p{L}\p{Nd}]/u.test(sign) ? sign : "");
  }
  return folded;
}

const points = (text) => Array.from(text, (sign) => sign.codePointAt(0));

function placeOf(letter) {
  return letter >= 97 && letter <= 122 ? letter - 97 : letter >= 48 && letter <= 57 ? letter - 22 : -1;
}

const letterAt = (place) => String.fromCharCode(place < 26 ? 97 + place : 22 + place);

class Channel {
  constructor(letters, wrong, added, dropped, swapped, reading) {
    Object.assign(this, { letters, wrong, added, dropped, swapped, reading });
  }
  letter(meant, written) {
    const from = placeOf(meant);
    const to = placeOf(written);
    return from >= 0 && to >= 0 ? this.letters[from * 36 + to] : meant === written ? 1 - this.wrong : this.wrong / 36;
  }
}

function alike(wrong) {
  const letters = new Array(36 * 36).fill(wrong / 35);
  for (let i = 0; i < 36; i++) letters[i * 37] = 1 - wrong;
  return letters;
}

const NONE = new Channel(alike(0), 0, 0, 0, 0, true);
const SEARCHER = new Channel(alike(0.002), 0.002, 0.0015, 0.002, 0.0015, false);

/* ---- Terms taken apart ---- */

class Places {
  constructor(text) {
    this.text = text;
    this.side = text.startsWith("^");
    this.clear = /^[\p{L}\p{Nd}&]*$/u.test(text);
    const signs = Array.from(text);
    const bar = signs.indexOf("|");
    const end = bar < 0 ? signs.length : bar;
    let tail = bar + 1;
    const weight = () => {
      const level = (signs[tail].charCodeAt(0) - 65) * 26 + signs[tail + 1].charCodeAt(0) - 65;
      tail += 2;
      return level / 675;
    };
    this.signs = [];
    this.slots = [];
    for (let i = this.side ? 1 : 0; i < end; i++) {
      const sign = signs[i];
      let slot = null;
      if (sign === "?") this.signs.push(UNKNOWN);
      else if (sign === "%") this.signs.push(MAYBE);
      else if (sign === "*") this.signs.push(MANY);
      else if (sign === "~") {
        slot = { texts: [[signs[++i].codePointAt(0)]], weights: [weight()] };
        this.signs.push(ONE_OF);
      } else if (sign === "[" || sign === "{") {
        slot = { texts: [], weights: [] };
        for (let count = signs[tail++].charCodeAt(0) - 64; count > 0; count--) {
          const from = tail;
          while (!/[A-Z]/.test(signs[tail])) tail++;
          slot.texts.push(signs.slice(from, tail).map((one) => one.codePointAt(0)));
          slot.weights.push(weight());
        }
        this.signs.push(ONE_OF);
      } else this.signs.push(sign.codePointAt(0));
      this.slots.push(slot);
    }
    this.isOne = this.signs.map(
      (sign, i) => sign >= UNKNOWN || (sign === ONE_OF && this.slots[i].texts.every((own) => own.length === 1)));
    this.fixed = this.isOne.every((one) => one);
    this.gap = this.gapAt();
    this.hasLetters = this.signs.some((sign) => sign >= 0 || sign === ONE_OF);
  }
  gapAt() {
    let gap = -1;
    for (let i = 0; i < this.signs.length; i++) {
      if (this.signs[i] === MANY) {
        if (gap >= 0) return -1;
        gap = i;
      } else if (!this.isOne[i]) return -1;
    }
    return gap;
  }
}

/* ---- A word laid along the places of a term ---- */

const NONE_OF_THEM = 0.01;

function laid(places, word, channel, shares) {
  const signs = places.signs;
  return places.fixed && signs.length === word.length
    ? letterByLetter(places, word, channel, shares)
    : forward(places, word, channel, shares);
}

function oneOfHere(slot, letter, channel) {
  let sum = 0;
  let is = 0;
  for (let j = 0; j < slot.texts.length; j++) {
    sum += slot.weights[j];
    is += slot.texts[j][0] === letter ? slot.weights[j] * (1 - channel.wrong) : 0;
  }
  return channel === NONE ? is : is + (Math.max(0, 1 - sum) + NONE_OF_THEM) / 36;
}

const unknownHere = (letter, channel, shares) => (channel.reading ? 1 : shares(letter));

function letterByLetter(places, word, channel, shares) {
  const signs = places.signs;
  let all = 1;
  let swapped = 0;
  let last = -1;
  let lastShare = 1;
  for (let i = 0; i < signs.length; i++) {
    const here =
      signs[i] >= 0
        ? channel.letter(word[i], signs[i])
        : signs[i] === UNKNOWN
          ? unknownHere(word[i], channel, shares)
          : oneOfHere(places.slots[i], word[i], channel);
    if (last >= 0 && last === i - 1 && signs[i] === word[last] && signs[last] === word[i]) {
      swapped = (all / lastShare) * channel.swapped;
    } else swapped *= here;
    if (signs[i] >= 0 && signs[i] !== word[i]) {
      last = i;
      lastShare = Math.max(2.2250738585072014e-308, here);
    }
    all *= here;
  }
  return all + swapped;
}

function forward(places, word, channel, shares) {
  const signs = places.signs;
  const n = word.length;
  let row = new Array(n + 1).fill(0);
  let next = new Array(n + 1).fill(0);
  let second = new Array(n + 1).fill(0);
  row[0] = 1;
  for (let s = 0; s < signs.length; s++) {
    const sign = signs[s];
    const swaps = sign >= 0 && s + 1 < signs.length && signs[s + 1] >= 0;
    for (let i = 0; i <= n; i++) {
      const here = row[i];
      if (here === 0) continue;
      if (i < n) row[i + 1] += here * (sign === MANY ? unknownHere(word[i], channel, shares) : channel.dropped);
      if (sign >= 0) {
        next[i] += here * channel.added;
        if (i < n) next[i + 1] += here * channel.letter(word[i], sign);
        if (swaps && i + 1 < n && sign === word[i + 1] && signs[s + 1] === word[i] && word[i] !== word[i + 1]) {
          second[i + 2] += here * channel.swapped;
        }
      } else if (sign === ONE_OF) {
        const slot = places.slots[s];
        let sum = 0;
        for (let j = 0; j < slot.texts.length; j++) {
          const text = slot.texts[j];
          sum += slot.weights[j];
          const stands = i + text.length <= n && text.every((letter, k) => letter === word[i + k]);
          if (stands) next[i + text.length] += here * slot.weights[j] * (1 - channel.wrong);
        }
        if (i < n && channel !== NONE) next[i + 1] += (here * (Math.max(0, 1 - sum) + NONE_OF_THEM)) / 36;
        next[i] += here * channel.added;
      } else if (sign === MANY) next[i] += here;
      else {
        next[i] += here * (sign === UNKNOWN ? channel.added : 1);
        if (i < n) next[i + 1] += here * unknownHere(word[i], channel, shares);
      }
    }
    const passed = row;
    row = next;
    next = second;
    second = passed.fill(0);
  }
  for (let i = 0; i < n; i++) row[i + 1] += row[i] * channel.dropped;
  return row[n];
}

const alikeShares = () => 1 / 36;

function slotFit(slot, sign, letter) {
  if (sign >= 0) return sign === letter ? 1 : 0;
  if (!slot) return 1;
  let share = 0;
  for (let j = 0; j < slot.texts.length; j++) share = slot.texts[j][0] === letter ? slot.weights[j] : share;
  return share;
}

function mayFit(signs, word) {
  if (signs.filter((sign) => sign >= 0).length > word.length) return false;
  for (let i = 0; i < signs.length && signs[i] >= 0; i++) if (signs[i] !== word[i]) return false;
  const end = signs.length - 1;
  for (let i = 0; i <= end && signs[end - i] >= 0; i++) {
    if (signs[end - i] !== word[word.length - 1 - i]) return false;
  }
  return true;
}

/** How well a word fits a term, nothing misread. */
function anyFit(places, word) {
  const { signs, slots, gap } = places;
  if (places.fixed) {
    if (signs.length !== word.length) return 0;
    let fit = 1;
    for (let i = 0; i < word.length && fit > 0; i++) fit *= slotFit(slots[i], signs[i], word[i]);
    return fit;
  }
  if (!mayFit(signs, word)) return 0;
  if (gap < 0) return laid(places, word, NONE, alikeShares);
  const behind = signs.length - 1 - gap;
  if (gap + behind > word.length) return 0;
  let fit = 1;
  for (let i = 0; i < gap && fit > 0; i++) fit *= slotFit(slots[i], signs[i], word[i]);
  for (let i = 0; i < behind && fit > 0; i++) {
    fit *= slotFit(slots[gap + 1 + i], signs[gap + 1 + i], word[word.length - behind + i]);
  }
  return fit;
}

/* ---- Which terms may say a word: Wu and Manber, as the program steps it ---- */

const ANY = 63;
const LONGEST = 30;

class Pattern {
  constructor(word, slips, openEnd = false) {
    this.word = word;
    this.slips = slips;
    this.openEnd = openEnd;
    this.all = 2 ** (Math.min(LONGEST, word.length) + 1) - 1;
    this.kept = new Map();
  }
  standing(letter) {
    let places = this.kept.get(letter);
    if (places === undefined) {
      places = 0;
      for (let i = 0; i < this.word.length && i < LONGEST; i++) {
        places |= this.word[i] === letter || this.word[i] === ANY ? 1 << i : 0;
      }
      this.kept.set(letter, places);
    }
    return places;
  }
  /** @param signs as a term has them: letters, unknown places as "?" or "[", runs as they are; or sets of letters */
  accepts(signs) {
    if (this.word.length > LONGEST) return false;
    const all = this.all;
    const slips = this.slips;
    let none = 1;
    let one = 0;
    let two = 0;
    let half = 0;
    const ends = () => {
      let end = none;
      end |= slips > 0 ? one | (none << 1) : 0;
      end |= slips > 1 ? two | ((one | (none << 1)) << 1) : 0;
      return ((end >>> this.word.length) & 1) === 1;
    };
    for (let depth = 0; depth < signs.length; depth++) {
      const sign = signs[depth];
      if (this.openEnd && ends()) return true;
      if (sign === "|") return ends();
      if (sign === "~" || (sign === "^" && depth === 0)) continue;
      if (sign === "%" || sign === "{" || sign === "*") {
        let spread = none | (none << 1);
        if (sign === "{") spread |= (none << 2) | (none << 3);
        if (sign === "*") spread = none === 0 ? 0 : -(none & -none);
        none = slips > 0 ? 0 : spread & all;
        one = 0;
        two = 0;
        half = 0;
      } else {
        const lost = sign === "?" || sign === "[";
        let places = all;
        if (!lost) {
          places = 0;
          for (const each of sign) places |= this.standing(each.codePointAt(0));
        }
        const clean = none;
        const open = one | (clean << 1);
        none = ((clean & places) << 1) & all;
        if (slips > 0) {
          const before = one;
          one = (((open & places) << 1) | clean | (clean << 1) | (lost ? 0 : (half & places) << 2)) & all;
          half = lost || slips > 1 ? 0 : clean & (places >>> 1);
          if (slips > 1) {
            const opened = before | (clean << 1);
            two = ((((two | (opened << 1)) & places) << 1) | opened | (opened << 1)) & all;
          }
        }
      }
      if ((none | one | two | half) === 0) return false;
    }
    return ends();
  }
}

/* ---- The terms and words of a field, as far as they are loaded ---- */

class Field {
  constructor(name, reader) {
    this.name = name;
    this.perWord = reader.share();
    this.letterShares = reader.shares(36);
    this.otherShare = reader.share();
    this.lengths = reader.shares(25);
    this.beginning = reader.shares(36);
    const wrong = reader.share();
    this.reader = new Channel(reader.shares(36 * 36), wrong, wrong / 20, wrong / 20, wrong / 200, true);
    this.leaves = new Map();
    for (let count = reader.number(COUNT); count > 0; count--) this.leaves.set(reader.number(LEAF), null);
    this.terms = new Map();
    this.shareOf = (letter) => this.letterShare(letter);
  }
  letterShare(letter) {
    const place = placeOf(letter);
    return place < 0 ? this.otherShare : this.letterShares[place];
  }
  take(reader, copy = "a") {
    let last = "";
    for (let left = reader.number(COUNT); left > 0; left--) {
      const text = reader.word(this.name === "n" ? NAMES : TEXTS, last);
      const share = reader.share();
      const count = reader.number(ENTRIES);
      const term = { text, share, count, found: null, frequent: -1, signs: Array.from(text), places: null };
      if (count > 24) term.frequent = reader.number(FREQUENT);
      else term.found = this.entries(reader, count, copy);
      const known = this.terms.get(text);
      if (!known) this.terms.set(text, term);
      else if (known.found && term.found && copy === "a") known.found.places = term.found.places;
      last = text;
    }
  }
  /**
   * Where a term stands: entries, the persons in whose names it is, and, in the copy by beginnings, which alone phrases
   * need, places among the entry's words.
   */
  entries(reader, count, copy = "a") {
    const docs = [];
    const persons = [];
    const places = [];
    let doc = 0;
    for (let i = 0; i < count; i++) {
      doc += reader.gap(count);
      docs.push(doc);
      if (this.name === "n") {
        const bits = reader.number(PERSONS);
        if (bits === 1) persons.push(Array.from({ length: reader.number(COUNT) }, () => reader.number(COUNT)));
        else persons.push(personsOf(bits / 2));
      }
      const here = [];
      for (let place = 0, more = copy === "a" ? 1 : 0; more === 1; here.push(place)) {
        const step = reader.number(this.name === "n" ? PLACE_IN_NAME : PLACE_IN_TEXT);
        place += Math.floor(step / 2);
        more = step % 2;
      }
      places.push(here);
    }
    return { docs, persons, places };
  }
  async entriesOf(terms) {
    await Promise.all(
      terms
        .filter((term) => !term.found)
        .map((term) =>
          load(this.name + "p-" + term.frequent, (reader) => {
            term.found = this.entries(reader, term.count);
          })));
  }
  /** Learns where terms of a length lie. */
  async leavesOf(length) {
    await load(this.name + "l-" + length, (reader) => {
      const copies = length === 0 ? ["a"] : ["a", "b"];
      const leaves = copies.flatMap((copy) => {
        const from = reader.number(LEAF);
        return reader.words(ENDS).map((ends, i) => {
          const [first, second = "", last = "", lastButOne = ""] = ends.split(",");
          return { number: from + i, copy, length, ends: [first, second, last, lastButOne] };
        });
      });
      this.leaves.set(length, leaves);
    });
  }
  placesOf(term) {
    return (term.places ||= new Places(term.text));
  }
  /** Loads the terms that a word may be said by with so many slips, of those whose beginning or end is whole. */
  async near(word, slips, openEnd = false) {
    const pattern = new Pattern(word, slips, openEnd);
    const n = word.length;
    const whole = n > 3 ? 2 : 1;
    const fits = (letters, letter) => letters === "" || letters === "?" || letter === ANY || letters.includes(endOf(letter));
    const lengths = [...this.leaves.keys()].filter(
      (length) => openEnd || (length === 0 ? slips === 0 : Math.abs(length - n) <= slips));
    await Promise.all(lengths.map((length) => this.leavesOf(length)));
    await Promise.all(
      lengths
        .flatMap((length) => this.leaves.get(length))
        .filter((leaf) => {
          const [first, second, last, lastButOne] = leaf.ends;
          // What isn't known at an end may be no letter at all.
          const sets = [first, second, "*", lastButOne, last].map((ends) => (ends === "" || ends === "?" ? "*" : anyEnd(ends)));
          if (openEnd) return leaf.copy === "a" && fits(first, word[0]);
          if (leaf.length === 0) return slips === 0 && pattern.accepts(sets);
          if (slips === 0 && leaf.copy === "b") return false;
          // Where the two in the middle of four are swapped neither end is whole.
          const begins = fits(first, word[0]) && (whole < 2 || fits(second, word[1]) || (n === 4 && fits(second, word[2])));
          if (slips > 0 && leaf.copy === "a" && !begins) return false;
          // Of those that begin as the word does the other copy tells.
          if (leaf.copy === "b" && begins && first.length === 1 && (whole < 2 || second.length === 1)) return false;
          if (slips > 0 && leaf.copy === "b" && !(fits(last, word[n - 1]) && (whole < 2 || fits(lastButOne, word[n - 2])))) {
            return false;
          }
          return pattern.accepts(endsAsSigns(leaf.length, first, second, lastButOne, last));
        })
        .map((leaf) => load(this.name + "-" + leaf.number, (reader) => this.take(reader, leaf.copy))));
  }
  countShare(word) {
    const term = this.terms.get(word);
    return term && this.placesOf(term).clear ? term.share : 0;
  }
  share(word) {
    return this.countShare(word) + this.byLetters(points(word));
  }
  byLetters(letters) {
    let share = 0.03;
    for (const letter of letters) share *= this.letterShare(letter);
    return share * this.lengths[Math.min(24, letters.length)];
  }
  shareBeginning(letter) {
    const place = placeOf(letter);
    return place < 0 ? 0.03 * this.otherShare : this.beginning[place];
  }
  mass(term) {
    const places = this.placesOf(term);
    return places.clear ? Math.max(term.share - this.perWord, this.byLetters(places.signs)) : term.share;
  }
}

const personsOf = (bits) => {
  const persons = [];
  for (let p = 0; bits > 0; p++, bits = Math.floor(bits / 2)) if (bits % 2 === 1) persons.push(p);
  return persons;
};

const endOf = (letter) => (placeOf(letter) < 0 ? "&" : String.fromCodePoint(letter));

/** A set of letters as a sign of a pattern; of one that stands for all other letters, any. */
const anyEnd = (letters) => (letters.includes("&") ? "?" : letters);

function endsAsSigns(length, first, second, lastButOne, last) {
  const signs = new Array(length).fill("?");
  const put = (at, letters) => {
    if (at >= 0 && at < length && letters !== "" && letters !== "?" && signs[at] === "?") signs[at] = anyEnd(letters);
  };
  put(0, first);
  put(1, second);
  put(length - 2, lastButOne);
  put(length - 1, last);
  return signs;
}

/* ---- Names ---- */

const NO_FORMS = { known: false, nick: [], short: [], latin: [], words: [] };

/** What is known of a word as a name. */
async function formsOf(word) {
  return (await record("g", word)) || NO_FORMS;
}

function wordForms(word, forms) {
  const all = new Set(forms.words);
  if (/^[0-9]{1,3}(st|nd|rd|th|d)$/.test(word)) all.add(word.replace(/[a-z]+/, ""));
  else if (/^[0-9]{1,3}$/.test(word)) {
    const number = Number(word);
    const teens = Math.floor(number / 10) % 10 === 1;
    all.add(word + (["", "st", "nd", "rd"][teens ? 0 : number % 10] || "th"));
  }
  return [...all].sort();
}

const related = (forms) => [...forms.nick, ...forms.short, ...forms.latin];

async function inTwoSteps(word, forms) {
  const near = new Set(related(forms));
  const far = new Set((await Promise.all([...near].map(formsOf))).flatMap(related));
  near.forEach((one) => far.delete(one));
  far.delete(word);
  return [...far].sort();
}

function jaroWinkler(one, other) {
  const a = points(one);
  const b = points(other);
  const window = Math.max(0, Math.floor(Math.max(a.length, b.length) / 2) - 1);
  const taken = new Array(b.length).fill(false);
  const matched = [];
  for (let i = 0; i < a.length; i++) {
    for (let j = Math.max(0, i - window); j < Math.min(b.length, i + window + 1); j++) {
      if (!taken[j] && a[i] === b[j]) {
        taken[j] = true;
        matched.push(a[i]);
        break;
      }
    }
  }
  if (matched.length === 0) return 0;
  let k = 0;
  let outOfOrder = 0;
  for (let j = 0; j < b.length; j++) if (taken[j] && b[j] !== matched[k++]) outOfOrder++;
  const m = matched.length;
  const jaro = (m / a.length + m / b.length + (m - Math.floor(outOfOrder / 2)) / m) / 3;
  let prefix = 0;
  while (prefix < Math.min(4, a.length, b.length) && a[prefix] === b[prefix]) prefix++;
  return jaro + prefix * 0.1 * (1 - jaro);
}

/** American Soundex by the rule of the United States National Archives: H and W don't part letters of one code. */
function soundex(word) {
  const codes = "01230120022455012623010202";
  const letters = word.replace(/[^a-z]/g, "");
  let code = letters[0].toUpperCase();
  let last = codes[letters.charCodeAt(0) - 97];
  for (let i = 1; i < letters.length && code.length < 4; i++) {
    if (letters[i] === "h" || letters[i] === "w") continue;
    const own = codes[letters.charCodeAt(i) - 97];
    if (own !== "0" && own !== last) code += own;
    last = own;
  }
  return code.padEnd(4, "0");
}

/* ---- One word asked for ---- */

const LEAST = 1e-35;
const BY = {
  short: { typed: 0.5, words: (shown, asked) => shown + ", the same as " + asked + " cut short" },
  latin: { typed: 0.2, words: (shown, asked) => shown + ", another language’s " + asked },
  nick: { typed: 0.15, words: (shown, asked) => shown + ", used for " + asked },
  twoSteps: { typed: 0.05, words: (shown, asked) => shown + ", used for " + asked },
  slip: { words: (shown, asked) => shown + ", if " + asked + " is a slip" },
  sound: { typed: 0.1, words: (shown, asked) => shown + ", may sound like " + asked },
};

class AskedWord {
  constructor(word, field, widening) {
    this.word = word;
    this.letters = points(word);
    this.field = field;
    this.widening = widening;
    this.wild = word.includes("?");
    this.isInitial = this.letters.length === 1 && /\p{L}/u.test(word);
    this.looksForInitials = widening.initials && this.letters.length > 1 && /^\p{L}/u.test(word);
    const figures = /[0-9]/.test(word);
    this.mostSlips =
      this.wild || figures || !widening.slips || this.letters.length > 24
        ? 0
        : this.letters.length >= 6 ? 2 : this.letters.length >= 3 ? 1 : 0;
    this.forms = [];
    this.met = new Map();
    this.climbed = -1;
  }
  /** Loads what is near the word, works out its forms, and loads what may say those. */
  async prepare() {
    const field = this.field;
    await field.near(this.letters, 0, this.isInitial);
    if (this.mostSlips > 0) await field.near(this.letters, 1);
    if (this.looksForInitials) await field.near([this.letters[0]], 0);
    const planned = new Map();
    const plan = (text, by, typed) => {
      if (!planned.has(text)) planned.set(text, { text, letters: points(text), by, typed });
    };
    plan(this.word, null, 0.9);
    if (!this.wild && !this.isInitial) {
      const known = await formsOf(this.word);
      if (this.widening.short) {
        known.short.forEach((form) => plan(form, "short", BY.short.typed));
        wordForms(this.word, known).forEach((form) => plan(form, "short", BY.short.typed));
      }
      if (this.widening.names) {
        known.latin.forEach((form) => plan(form, "latin", BY.latin.typed));
        known.nick.forEach((form) => plan(form, "nick", BY.nick.typed));
        (await inTwoSteps(this.word, known)).forEach((form) => plan(form, "twoSteps", BY.twoSteps.typed));
      }
      if (this.mostSlips > 0) this.slippedFrom().forEach(([form, typed]) => plan(form, "slip", typed));
      if (this.widening.names) await this.soundsLike(plan);
    }
    await Promise.all(
      [...planned.values()].slice(1).map((form) => field.near(form.letters, 0)
        .then(() => (form.by === "slip" ? field.near(form.letters, 1) : null))));
    this.forms = [...planned.values()].map((form) => ({
      ...form,
      share: field.share(form.text),
      meant: form.by === null || form.by === "slip",
    }));
  }
  slippedFrom() {
    const { field, word, letters } = this;
    const found = new Map();
    const put = (meant) => {
      if (meant !== word && !found.has(meant) && field.countShare(meant) > 0.5 * field.perWord * 1.002) {
        found.set(meant, laid(new Places(meant), letters, SEARCHER, alikeShares));
      }
    };
    for (let i = 0; i <= word.length; i++) {
      for (let place = 0; place < 26; place++) {
        put(word.slice(0, i) + letterAt(place) + word.slice(i));
        if (i < word.length && letterAt(place) !== word[i]) put(word.slice(0, i) + letterAt(place) + word.slice(i + 1));
      }
      if (i < word.length) put(word.slice(0, i) + word.slice(i + 1));
      if (i > 0 && i < word.length && word[i - 1] !== word[i]) {
        put(word.slice(0, i - 1) + word[i] + word[i - 1] + word.slice(i + 1));
      }
    }
    const least = 0.02 * field.share(word);
    return [...found]
      .map(([meant, typed]) => [meant, typed, typed * field.share(meant)])
      .filter((each) => each[2] > least)
      .sort((a, b) => b[2] - a[2] || (a[0] < b[0] ? -1 : 1))
      .slice(0, 4);
  }
  async soundsLike(plan) {
    if (this.word.length < 4 || !/^[a-z]+$/.test(this.word)) return;
    const counts = new Map();
    for (const code of [soundex(this.word), ...daitchMokotoff(this.word)]) {
      for (const [other, share] of await soundsOf("n" + code)) counts.set(other, share);
    }
    counts.delete(this.word);
    const { known } = await formsOf(this.word);
    const alike = await Promise.all(
      [...counts.keys()].map(async (other) =>
        !known || jaroWinkler(this.word, other) >= 0.85 || !(await formsOf(other)).known ? other : null));
    const others = [...counts]
      .filter(([other]) => alike.includes(other))
      .sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1))
      .slice(0, 8);
    const share = (word, count) => count + this.field.byLetters(points(word));
    const own = this.field.share(this.word);
    const all = others.reduce((sum, [other, count]) => sum + share(other, count), own);
    const typed = (BY.sound.typed * own) / all;
    if (typed >= 1e-5) others.forEach(([other]) => plan(other, "sound", typed));
  }
  shareWithin(slips) {
    if (this.mostSlips === 0) return 1;
    const reader = this.field.reader;
    const one =
      reader.wrong + reader.added + reader.dropped + SEARCHER.wrong + SEARCHER.added + SEARCHER.dropped + SEARCHER.swapped;
    let exactly = (1 - one) ** this.letters.length;
    let within = exactly;
    for (let made = 1; made <= slips; made++) {
      exactly *= ((one / (1 - one)) * (this.letters.length - made + 1)) / made;
      within += Math.max(0, exactly);
    }
    return Math.min(1, within);
  }
  share() {
    if (this.wild) return this.wildShare();
    if (this.isInitial) return 0.1 * this.field.shareBeginning(this.letters[0]);
    let share = this.field.share(this.word);
    for (const form of this.forms) share += form.by === "slip" ? form.share * form.typed : 0;
    return share;
  }
  /** The share of words with these letters; of words that were met only as far as their terms are loaded. */
  wildShare() {
    let letters = 0.03 * this.field.lengths[Math.min(24, this.letters.length)];
    for (const letter of this.letters) letters *= letter === ANY ? 1 : this.field.letterShare(letter);
    let sum = 0;
    const pattern = new Pattern(this.letters, 0);
    for (const term of this.field.terms.values()) {
      if (this.field.placesOf(term).clear && pattern.accepts(term.signs)) sum += term.share;
    }
    return sum + letters;
  }
  given(term) {
    const places = this.field.placesOf(term);
    return Math.fround((places.side ? 0.1 : 1) * this.whole(term, places));
  }
  whole(term, places) {
    const field = this.field;
    const { signs, slots } = places;
    if (signs.length === 0) return 0;
    if (this.wild) {
      if (signs.length !== this.letters.length) return 0;
      let fit = 1;
      this.letters.forEach((letter, i) => {
        if (letter !== ANY) fit *= signs[i] === UNKNOWN || signs[i] === MAYBE ? field.letterShare(letter) : this.oneFit(slots[i], signs[i], letter);
      });
      return fit;
    }
    if (this.isInitial) {
      const first =
        signs[0] === UNKNOWN || signs[0] === MAYBE
          ? field.letterShare(this.letters[0])
          : this.oneFit(slots[0], signs[0], this.letters[0]);
      return signs.length === 1 ? first : 0.1 * first;
    }
    let mass = field.mass(term);
    const slip = this.mostSlips > 0 ? laid(places, this.letters, SEARCHER, field.shareOf) : 0;
    const joints = [];
    let misread = 0;
    let alikeMass = 0;
    for (const form of this.forms) {
      const fit = anyFit(places, form.letters);
      let joint = form.share * fit;
      if (fit === 0 && form.meant && this.mostSlips > 0) {
        const wrong = laid(places, form.letters, field.reader, alikeShares);
        joint = form.share * wrong;
        misread += joint;
        alikeMass += form.share * wrong ** 1.5;
      }
      joints.push(joint);
    }
    mass = (places.clear ? Math.max(mass, misread) : mass + misread) + alikeMass;
    let typed = 0;
    let known = 0;
    joints.forEach((joint, i) => {
      const of = joint === 0 ? 0 : Math.min(1, (KEPT_TO * joint) / Math.max(mass, joint));
      known += of;
      typed += of * Math.max(this.forms[i].typed, slip);
    });
    typed += Math.max(0, 1 - known) * slip;
    if (signs.length === 1 && this.looksForInitials && signs[0] === this.letters[0]) {
      typed += (0.5 * field.share(this.word)) / field.shareBeginning(this.letters[0]);
    }
    return Math.min(1, typed);
  }
  /** A place that isn't one letter, such as any number of them, takes as many as one. */
  oneFit(slot, sign, letter) {
    return slotFit(slot, sign, letter);
  }
  /** Meets the terms that a ladder accepts beyond the one before. */
  async meet(slips) {
    const due = [];
    if (this.climbed < 0) {
      due.push(new Pattern(this.letters, 0, this.isInitial));
    }
    const withSlips = Math.min(slips, this.mostSlips);
    if (withSlips > 0 && withSlips > this.climbed) {
      if (withSlips > 1) await this.field.near(this.letters, withSlips);
      due.push(new Pattern(this.letters, withSlips));
    }
    for (const form of this.forms) {
      if (form.by === "slip" && Math.min(1, slips) > this.climbed) due.push(new Pattern(form.letters, Math.min(1, slips)));
      else if (form.by !== null && form.by !== "slip") {
        const late = form.by === "sound";
        if (late ? slips > 0 && this.climbed < 1 : this.climbed < 0) due.push(new Pattern(form.letters, 0));
      }
    }
    const weigh = (term) => {
      if (this.met.has(term)) return;
      const is = this.given(term);
      this.met.set(term, is > LEAST ? is : 0);
    };
    for (const term of this.field.terms.values()) {
      if (term.count > 0 && !this.met.has(term) && due.some((pattern) => pattern.accepts(term.signs))) weigh(term);
    }
    if (this.climbed < 0 && this.looksForInitials) {
      const initial = this.field.terms.get(this.word.slice(0, 1));
      if (initial && initial.count > 0) weigh(initial);
    }
    this.climbed = slips;
    const met = [...this.met].filter((each) => each[1] > 0);
    await this.field.entriesOf(met.map((each) => each[0]));
    // As the program has them: those that say most first, of equal ones those whose terms come first.
    return met.sort((a, b) => b[1] - a[1]);
  }
}

/* ---- Sound codes: the published table of Daitch and Mokotoff; at the start, before a vowel, elsewhere; - is no code ---- */

const DAITCH_MOKOTOFF = `
schtsch schtsh schtch shtch shch shtsh stch stsch strz strs stsh szcz szcs zdz zdzh zhdzh sc:2 4 4
sht scht schd st szt shd szd sd zd zhd:2 43 43
sch sh sz s cz cs csz czs drz drs ds dsh dsz dz dzh dzs tch ttch ttsch trz trs tsch tsh ts tts ttsz tc tz ttz tzs tsz zh zs zsch zsh z:4 4 4
chs ks x:5 54 54
ch:5 5 5|4 4 4
ck:5 5 5|45 45 45
c:5 5 5|4 4 4
g k kh q:5 5 5
h:5 5 -
rz rs:94 94 94|4 4 4
r:9 9 9
l:8 8 8
b f fb p pf ph v w:7 7 7
m n:6 6 6
mn nm:66 66 66
d dt t th:3 3 3
j:1 - -|4 4 4
y ia ie io iu:1 - -
ai aj ay ei ej ey oi oj oy ui uj uy:0 1 -
au:0 7 -
eu:1 1 -
a e i o u ue:0 - -`;

const soundRules = new Map();
for (const line of DAITCH_MOKOTOFF.trim().split("\n")) {
  const [patterns, codes] = line.split(":");
  const ways = codes.split("|").map((way) => way.split(" ").map((code) => (code === "-" ? "" : code)));
  patterns.split(" ").forEach((pattern) => soundRules.set(pattern, ways));
}

function daitchMokotoff(word) {
  let branches = [{ code: "", last: null }];
  let lastSign = "";
  let at = 0;
  while (at < word.length) {
    let length = Math.min(7, word.length - at);
    while (length > 0 && !soundRules.has(word.slice(at, at + length))) length--;
    if (length === 0) {
      at++;
      continue;
    }
    const ways = soundRules.get(word.slice(at, at + length));
    const place = at === 0 ? 0 : "aeiou".includes(word[at + length] || "-") ? 1 : 2;
    const forced = (lastSign === "m" && word[at] === "n") || (lastSign === "n" && word[at] === "m");
    const next = new Map();
    for (const branch of branches) {
      for (const way of ways) {
        const code = way[place];
        const append = branch.last === null || !branch.last.endsWith(code) || forced;
        const longer = { code: append ? (branch.code + code).slice(0, 6) : branch.code, last: code };
        next.set(longer.code + " " + code, longer);
      }
    }
    branches = [...next.values()];
    lastSign = word[at];
    at += length;
  }
  return [...new Set(branches.map((branch) => branch.code.padEnd(6, "0")))];
}

/* ---- Records by key: sounds, and what is known besides ---- */

const keys = { s: [], f: [], g: [], w: [] };
const records = new Map();
const recordTold = {
  s: (reader) => Array.from({ length: reader.number(COUNT) }, () => [reader.word(NAMES), reader.share()]),
  f: (reader) => reader.rising(),
  g: (reader) => {
    const known = reader.number(KNOWN) === 1;
    const [nick, short, latin, words] = Array.from({ length: 4 }, () => reader.words(NAMES));
    return { known, nick, short, latin, words };
  },
  w: (reader, key) =>
    key[0] === "@" ? spotOf(reader) : reader.rising().map((doc) => [doc, spotOf(reader)]),
};

/** Metres east and north. */
function spotOf(reader) {
  const metres = () => {
    const number = reader.number(PLACE);
    return (number % 2 === 1 ? -(number + 1) / 2 : number / 2) / 100;
  };
  return [metres(), metres()];
}

async function record(name, key) {
  let number = -1;
  for (const [i, first] of keys[name].entries()) if (first <= key) number = i;
  if (number < 0) return undefined;
  await load(name + "-" + number, (reader) => {
    let last = "";
    for (let left = reader.number(COUNT); left > 0; left--) {
      last = reader.word(NAMES, last);
      records.set(name + last, recordTold[name](reader, last));
    }
  });
  return records.get(name + key);
}

const soundsOf = async (code) => (await record("s", code)) || [];
const entriesWith = async (key) => (await record("f", key)) || [];

/* ---- Years ---- */

const FIRST = 1000;
const YEARS = 9000;
const LEAST_YEAR = 0.01;
const EVENTS = ["", "born", "married", "died", "buried", "made"];

class Misread {
  constructor(reader) {
    this.reader = reader;
    this.sums = new Float64Array(YEARS);
    for (let year = 1600; year <= 2040; year++) this.spread(year, this.sums, false);
  }
  add(year, into) {
    if (year >= 1600 && year <= 2040) this.spread(year, into, true);
  }
  spread(year, into, share) {
    const letter = (meant, read) => this.reader.letter(48 + meant, 48 + read);
    const put = (read, chance) => {
      if (read >= FIRST) into[read - FIRST] += share ? chance / this.sums[read - FIRST] : chance;
    };
    let right = 1;
    for (let rest = year; rest > 0; rest = Math.floor(rest / 10)) right *= letter(rest % 10, rest % 10);
    put(year, right);
    for (let i = 0, place = 1; i < 4; i++, place *= 10) {
      const figure = Math.floor(year / place) % 10;
      const others = right / letter(figure, figure);
      for (let other = 0; other < 10; other++) {
        if (other !== figure) put(year + (other - figure) * place, others * letter(figure, other));
      }
    }
  }
}

class YearsAsked {
  constructor(event, among, misread) {
    this.event = event;
    const near = new Uint8Array(YEARS);
    among.forEach((year) => (near[year - FIRST] = 1));
    const fall = Math.exp(-1 / 3);
    const beside = new Float64Array(YEARS);
    for (let i = 0, left = 0; i < YEARS; i++) beside[i] = left = near[i] ? 0.3 : left * fall;
    for (let i = YEARS - 1, right = 0; i >= 0; i--) {
      right = near[i] ? 0.3 : right * fall;
      beside[i] = Math.max(beside[i], right);
    }
    const one = new Float64Array(YEARS);
    among.forEach((year) => misread.add(year, one));
    this.sums = new Float64Array(YEARS + 1);
    for (let i = 0; i < YEARS; i++) this.sums[i + 1] = this.sums[i] + (near[i] ? 1 : Math.max(beside[i], one[i]));
    this.unknown = Math.max(LEAST_YEAR, Math.min(1, among.size / 200));
    this.among = among;
  }
  counts(other) {
    if (other === "made" || this.event === "made") return this.event === other;
    return this.event === "" || other === "" || this.event === other;
  }
  of(from, to) {
    const clamp = (year) => Math.max(FIRST, Math.min(FIRST + YEARS - 1, year));
    const low = clamp(from);
    const high = clamp(to);
    return (this.sums[high - FIRST + 1] - this.sums[low - FIRST]) / (high - low + 1);
  }
  answer(doc) {
    let sum = 0;
    for (const span of yearsOf(doc)) if (this.counts(span.event)) sum += this.of(span.from, span.to) * span.weight;
    const none = without.get(this.event);
    return none && none.has(doc) ? this.unknown : Math.max(LEAST_YEAR, Math.min(1, sum));
  }
}

const times = new Map();

/** A year that none of those asked for can hardly be meant by isn't looked at. */
const LEAST_TOLD = 0.0003;

/** Loads the spans of years that may answer. */
async function loadYears(asked) {
  const most = (first, last) => {
    let best = 0;
    for (const each of asked) for (let year = first; year <= last; year++) best = Math.max(best, each.of(year, year));
    return best;
  };
  await Promise.all([
    ...ground.times
      .map((time) => {
        const number = Number(time.replace(/[a-z]/, ""));
        return time === "w" ? [time, 0, 9999, 0] : time[0] === "c" ? [time, number * 100, number * 100 + 99, number * 100] : [time, number * 10, number * 10 + 9, number * 10];
      })
      .filter(([, first, last]) => most(first, last) > LEAST_TOLD)
      .map(([time, , , base]) => load("y-" + time, (reader) => takeYears(reader, base))),
    ...asked
      .filter((each) => each.unknown > LEAST_YEAR)
      .map((each) => load("x-" + (each.event || "any"), (reader) => without.set(each.event, new Set(reader.rising()))))]);
}

const without = new Map();

function takeYears(reader, base) {
  const count = reader.number(COUNT);
  for (let i = 0, doc = 0; i < count; i++) {
    doc += reader.gap(count);
    const head = reader.number(EVENT);
    const from = base + reader.number(YEAR);
    const to = from + (head & 1 ? reader.number(SPAN) : 0);
    if (!times.has(doc)) times.set(doc, []);
    times.get(doc).push({ from, to, weight: head & 2 ? reader.number(WEIGHT) / 255 : 1, event: EVENTS[head >> 2] });
  }
}

const yearsOf = (doc) => times.get(doc) || [];

const ages = new Map();

async function loadAges(docs) {
  const pieces = new Set(docs.map((doc) => Math.floor(doc / ground.agesAPiece)));
  await Promise.all(
    [...pieces].map((number) =>
      load("a-" + number, (reader) => {
        const count = reader.number(COUNT);
        for (let i = 0; i < count; i++) {
          ages.set(number * ground.agesAPiece + i, Array.from({ length: reader.number(COUNT) }, () => {
            const from = reader.number(AGE);
            return { from, to: from + reader.number(SPAN) };
          }));
        }
      })));
}

function ageAnswer(asked, spans) {
  let best = 0;
  for (const span of spans) {
    const common = Math.min(span.to, asked.to) - Math.max(span.from, asked.from) + 1;
    best = Math.max(best, Math.max(0, common) / (span.to - span.from + 1));
  }
  return Math.max(LEAST_YEAR, best);
}

/* ---- What is searched for ---- */

class QueryFault extends Error {}

const FACTS = [
  "link", "kin", "trade", "unit", "rank", "place", "cause", "plot", "row", "condition", "unsafe", "form", "material", "maker",
  "emblem", "question"];
const YEAR_FIELDS = ["year", "died", "born", "married", "buried", "made"];
const FIELDS = ["name", "aged", "initials", "marker", "near", ...YEAR_FIELDS, ...FACTS];
const QUOTES = /["“”„]/;

function plainWords(text) {
  if (QUOTES.test(text)) return text;
  const event = (word) => (word ? word.toLowerCase() : "year") + ":";
  const around = (year, within) => Math.max(1000, year - within) + ".." + Math.min(2199, year + within);
  const events = "(died|born|married|buried|made)";
  return text
    .replace(new RegExp("\\b" + events + "?\\s*within\\s+([0-9]{1,3})\\s+years?\\s+of\\s+([0-9]{4})\\b", "gi"),
      (all, what, within, year) => event(what) + around(Number(year), Number(within)))
    .replace(new RegExp("\\b" + events + "?\\s*(?:about|circa|c\\.)\\s*([0-9]{4})\\b", "gi"),
      (all, what, year) => event(what) + around(Number(year), 5))
    .replace(new RegExp("\\b" + events + "(?:\\s+in)?\\s+([0-9]{4})\\b", "gi"), (all, what, year) => event(what) + year)
    .replace(/,?\s*\brow\s+([\p{L}0-9]+)\b/giu, " row:$1")
    .replace(/\b[Ff]ootstone\s+((?:\p{Lu}\.\s?){2,5}|\p{Lu}{2,5}\b)/gu, (all, own) => "initials:" + own.replace(/[. ]/g, "") + " ")
    .replace(
      /\bnear\s+(?:the\s+)?(?:(?:monument|stone|grave|marker)\s+(?:of\s+)?)?([\p{L}0-9][\p{L}0-9 .'’-]*?)\s*(?:monument|stone|grave|marker)?\s*$/iu,
      'near:"$1"')
    .replace(
      /\b(wife|husband|widow|relict|son|daughter|child|father|mother|brother|sister)\s+of\b/gi,
      (all, kin) => "kin:" + kin.toLowerCase());
}

function parseQuery(text) {
  if (text.length > 500) throw new QueryFault("the query is longer than 500 signs");
  const parts = [];
  const said = plainWords(text);
  let at = 0;
  while (at < said.length) {
    if (/\s/.test(said[at])) {
      at++;
      continue;
    }
    const led = /^(\p{L}+):/u.exec(said.slice(at));
    const field = led ? led[1].toLowerCase() : "";
    if (led) {
      if (!FIELDS.includes(field)) throw new QueryFault("no such part as " + field + ": — there are " + FIELDS.join(": ") + ":");
      at += led[0].length;
    }
    const quoted = at < said.length && QUOTES.test(said[at]);
    let value;
    if (quoted) {
      let close = at + 1;
      while (close < said.length && !QUOTES.test(said[close])) close++;
      if (close === said.length) throw new QueryFault("a quotation mark that nothing closes: " + said.slice(at));
      value = said.slice(at + 1, close).trim();
      at = close + 1;
    } else {
      value = /^[^\s"“”„]*/.exec(said.slice(at))[0];
      at += value.length;
      if (field === "") refuse(value);
    }
    addPart(field, value, quoted, parts);
  }
  if (parts.length === 0) throw new QueryFault("nothing to search for; give a word or year:1863");
  return parts;
}

function refuse(value) {
  if (["OR", "|", "AND", "NOT"].includes(value)) throw new QueryFault(value + " isn’t understood; write the words alone, the best come first");
  if (value.length > 1 && /^[-+]/.test(value)) throw new QueryFault(value + ": nothing can be left out or forced; write the words alone");
  if (/[*~]/.test(value)) throw new QueryFault(value + ": no star is needed, spellings near a word are found too; write ? for one letter");
  if (/[()[\]]/.test(value)) throw new QueryFault(value + ": brackets aren’t understood; write the words alone");
}

function foldedWord(word) {
  const letters = fold(word);
  return letters === "" || !word.includes("?") ? letters : Array.from(word, (sign) => (sign === "?" ? "?" : fold(sign))).join("");
}

function termsOf(value, inName) {
  const terms = value
    .trim()
    .split(/[\s\-–—.,;]+/)
    .map((word) => ({ kind: "term", shown: word, folded: foldedWord(word), inName }))
    .filter((term) => term.folded !== "");
  if (terms.length === 0) throw new QueryFault("no letter or figure in “" + value + "”");
  return terms;
}

function addPart(field, value, quoted, parts) {
  if (value.trim() === "") throw new QueryFault((field || "a quotation") + " needs something after it");
  if (YEAR_FIELDS.includes(field)) parts.push(yearsPart(field, value));
  else if (FACTS.includes(field)) {
    parts.push({ kind: "fact", field, shown: value, folded: termsOf(value, false).map((term) => term.folded) });
  } else if (field === "name") parts.push(...termsOf(value, true));
  else if (field === "aged") parts.push(agesPart(value));
  else if (field === "initials") parts.push({ kind: "initials", shown: value, folded: fold(value) });
  else if (field === "marker" || field === "near") parts.push({ kind: field, shown: value, folded: fold(value) });
  else if (!quoted && /^(1[0-9]{3}|20[0-9]{2}|1[0-9?]{3})$/.test(value) && /[0-9].*[0-9?]/.test(value)) {
    parts.push(yearsPart("year", value));
  } else if (quoted && termsOf(value, false).length > 1) {
    const phrase = parts.filter((part) => part.kind === "phrase").length;
    parts.push({ kind: "phrase", shown: value });
    termsOf(value, false).forEach((term) => parts.push({ ...term, phrase }));
  } else parts.push(...termsOf(value, false));
}

function agesPart(value) {
  const found = /^([0-9]{1,3})(?:\.\.([0-9]{1,3}))?$/.exec(value);
  if (!found) throw new QueryFault("aged:" + value + " isn’t an age; write aged:63 or aged:60..65");
  const from = Number(found[1]);
  return { kind: "ages", shown: value, from, to: found[2] === undefined ? from : Number(found[2]) };
}

function yearsPart(field, value) {
  const among = new Set();
  const wrong = new QueryFault(field + ":" + value + " isn’t a year or years; write year:1863 or year:1850..1870");
  if (/^[0-9?]{4}$/.test(value) && value.includes("?")) {
    const pattern = new RegExp("^" + value.replace(/\?/g, "[0-9]") + "$");
    for (let year = 1000; year <= 2199; year++) if (pattern.test(String(year))) among.add(year);
    if (among.size === 0) throw wrong;
  } else {
    const found = /^([0-9]{1,4})?(?:(\.\.|–)([0-9]{1,4})?)?$/.exec(value.trim());
    if (!found || (found[1] === undefined && found[3] === undefined)) throw wrong;
    const from = found[1] === undefined ? 1000 : Number(found[1]);
    const to = found[3] !== undefined ? Number(found[3]) : found[2] === undefined ? from : 2199;
    if (from > to) throw new QueryFault(field + ":" + value + " runs backwards");
    for (let year = Math.max(1000, from); year <= Math.min(2199, to); year++) among.add(year);
  }
  return { kind: "years", shown: value, event: field === "year" ? "" : field, among };
}

/* ---- Ranking, as the program does it ---- */

const TEXT = 0.1;
const TEXT_FOR_NAME = 0.02;
const MISSING = 0.05;
const NAMELESS = 0.5;
const OF_ANOTHER = 0.1;
const ABSENT = 0.05;
const OUTWEIGHS = 10;
const RESCORED = 300;
const LOOKED_AT = 2000;
const ground = { entries: 0, agesAPiece: 0, times: [], fields: null };
let opened = null;

function open() {
  opened ||= load("base", (reader) => {
      ground.entries = reader.number(COUNT);
      ground.agesAPiece = reader.number(COUNT);
      const name = new Field("n", reader);
      const text = new Field("t", reader);
      ground.fields = [name, text];
      ground.misread = new Misread(text.reader);
      keys.s = reader.words(NAMES);
      keys.f = reader.words(NAMES);
      keys.g = reader.words(NAMES);
      keys.w = reader.words(NAMES);
      ground.times = reader.words(NAMES);
      ground.fields.forEach((field) => {
        for (let left = reader.number(COUNT); left > 0; left--) field.take(reader, reader.number(KNOWN) === 1 ? "a" : "b");
      });
      ground.fields.forEach((field) => field.terms.clear());
      learnt = reader.model;
    });
  return opened;
}

class Asked {
  constructor(parts) {
    this.parts = parts;
    const terms = parts.filter((part) => part.kind === "term");
    const several = terms.filter((part) => part.phrase === undefined).length > 1;
    const asWritten = { names: false, short: false, slips: false, initials: false };
    this.terms = terms.map((part) => {
      const phrase = part.phrase === undefined ? -1 : part.phrase;
      const inNames = phrase < 0 ? { names: true, short: true, slips: true, initials: several } : asWritten;
      const inTexts = phrase < 0 ? { names: false, short: true, slips: true, initials: false } : asWritten;
      const words = [new AskedWord(part.folded, ground.fields[0], inNames), new AskedWord(part.folded, ground.fields[1], inTexts)];
      return { part, words, phrase, text: part.inName ? TEXT_FOR_NAME : TEXT };
    });
    this.years = parts.filter((part) => part.kind === "years").map((part) => new YearsAsked(part.event, part.among, ground.misread));
    this.ages = parts.filter((part) => part.kind === "ages");
    this.others = parts.filter((part) => ["fact", "initials", "marker", "near"].includes(part.kind));
  }
  async prepare() {
    await Promise.all(this.terms.flatMap((term) => term.words.map((word) => word.prepare())));
    for (const term of this.terms) {
      term.share = (1 - term.text) * term.words[0].share() + term.text * term.words[1].share();
      term.missing = MISSING * term.share;
      term.weight = [1 - term.text, term.text];
    }
  }
  shareBeyond(slips) {
    return 1 - this.terms.reduce((within, term) => within * term.words[0].shareWithin(slips), 1);
  }
  byChance() {
    return (
      this.terms.reduce((chance, term) => chance * term.share, 1) *
      this.years.reduce((chance, each) => chance * each.unknown, 1));
  }
  timesAnswer(doc) {
    return (
      this.years.reduce((all, each) => all * each.answer(doc), 1) *
      this.ages.reduce((all, each) => all * ageAnswer(each, ages.get(doc) || []), 1));
  }
}

/** How well each entry answers the parts that are no words; null where there are none. */
async function filterOf(asked) {
  let filter = null;
  for (const part of asked.others) {
    const own = new Map();
    if (part.kind === "fact") {
      let every = null;
      for (const word of part.folded) {
        const having = await entriesWith(part.field + ":" + word);
        every = every === null ? having : every.filter((doc) => having.includes(doc));
      }
      if (part.field === "kin") for (let doc = 0; doc < ground.entries; doc++) own.set(doc, 0.05);
      (every || []).forEach((doc) => own.set(doc, 1));
    } else if (part.kind === "initials") {
      (await entriesWith("initials:" + part.folded)).forEach((doc) => own.set(doc, 0.3));
      (await entriesWith("initials:=" + part.folded)).forEach((doc) => own.set(doc, 1));
    } else if (part.kind === "near") (await entriesNear(part)).forEach((doc) => own.set(doc, 1));
    else (await entriesWith("marker:" + part.folded)).forEach((doc) => own.set(doc, 1));
    if (filter === null) filter = own;
    else filter = new Map([...filter].filter(([doc]) => own.has(doc)).map(([doc, weight]) => [doc, weight * own.get(doc)]));
  }
  return filter;
}

const NEAR_METRES = 15;
const LEAST_NAMED = 0.05;

/** Entries of markers that stand near one that is given by its number or by whom alone it likely names. */
async function entriesNear(part) {
  let here = await record("w", "@" + part.folded);
  if (!here && (await entriesWith("marker:" + part.folded)).length === 0) {
    const found = await searchGround('name:"' + part.shown.replace(/["“”„]/g, " ") + '"', 8);
    const whole = found.sum + found.absent;
    const likely = found.best.slice(0, 8).filter((hit) => hit.weight / whole >= LEAST_NAMED);
    const numbers = await Promise.all(likely.map(async (hit) => (await shownOf(hit.doc))[1]));
    if (likely.length === 0 || likely[0].weight / whole <= 0.5) {
      const which = numbers.length === 0 ? "" : "; the name is on " + numbers.join(", ") + ": give one of the numbers";
      throw new QueryFault("near:" + part.shown + " names no marker of this ground" + which);
    }
    here = await record("w", "@" + fold(numbers[0]));
  }
  if (!here) throw new QueryFault("near:" + part.shown + " can’t be answered: nothing says where the marker stands");
  const [column, row] = here.map((metres) => Math.floor(metres / NEAR_METRES));
  const cells = [-1, 0, 1].flatMap((east) => [-1, 0, 1].map((north) => column + east + "/" + (row + north)));
  return (await Promise.all(cells.map((cell) => record("w", cell))))
    .flatMap((cell) => cell || [])
    .filter(([, spot]) => Math.hypot(spot[0] - here[0], spot[1] - here[1]) <= NEAR_METRES)
    .map(([doc]) => doc);
}

class Ranking {
  constructor(asked, filter, limit) {
    this.asked = asked;
    this.filter = filter;
    this.most = Math.max(RESCORED, limit);
    this.narrowed = filter !== null && filter.size < ground.entries;
    this.met = asked.terms.map(() => [[], []]);
    this.lookedAt = asked.terms.map(() => new Map());
  }
  async ranked() {
    const { asked } = this;
    let top = Math.max(0, ...asked.terms.map((term) => term.words[0].mostSlips));
    if (asked.terms.length > 1) top = Math.min(1, top);
    let slips = 0;
    while (slips < top && OUTWEIGHS * asked.shareBeyond(slips) > 1) slips++;
    let ranked = await this.ladder(slips++);
    for (; slips <= top && ranked.sum < OUTWEIGHS * asked.shareBeyond(slips - 1); slips++) ranked = await this.ladder(slips);
    return ranked;
  }
  async ladder(slips) {
    const { asked } = this;
    const several = asked.terms.length > 1;
    for (const [j, term] of asked.terms.entries()) {
      for (let field = 0; field < 2; field++) {
        const own = term.words[field];
        const most = (field === 0 ? 2 : 1) - (several && field === 0 ? 1 : 0);
        const to = Math.min(slips, most, Math.max(1, own.mostSlips));
        if (to > own.climbed) this.met[j][field] = await own.meet(to);
      }
    }
    this.sums = new Map();
    this.masks = new Map();
    this.rest = 0;
    if (asked.terms.length === 0) await this.touchWithoutWords();
    else {
      for (const creating of [true, false]) {
        for (let j = 0; j < asked.terms.length; j++) for (let field = 0; field < 2; field++) this.touch(j, field, creating);
      }
    }
    const looking = slips > 0 && several;
    if (looking) {
      // Entries may lack a word that is misread in two letters.
      const may = asked.terms.filter((term) => term.words[0].mostSlips > 1);
      await Promise.all(may.map((term) => term.words[0].field.near(term.words[0].letters, 2)));
    }
    const all = await this.choose(looking);
    const sum = all.reduce((total, each) => total + each.weight, this.rest);
    all.sort((a, b) => b.weight - a.weight || a.doc - b.doc);
    const least = all.length === 0 ? 0 : all[0].weight * 1e-4;
    const best = all.filter((each) => each.weight > 0 && each.weight >= least);
    const absent = (ABSENT / (1 - ABSENT) + asked.shareBeyond(slips)) * ground.entries * asked.byChance();
    return { best, sum, absent, answering: Math.max(this.masks.size, best.length) };
  }
  isIn(doc) {
    return this.filter === null || (this.filter.get(doc) || 0) > 0;
  }
  touch(j, field, creating) {
    const term = this.asked.terms[j];
    const factor = term.weight[field] / term.missing;
    const bit = 1 << Math.min(31, j);
    for (const [own, given] of this.met[j][field]) {
      const odds = Math.fround(Math.log1p(given * factor));
      if (odds < 0.01 && this.masks.size >= this.most) return;
      const letters = term.words[field].field.placesOf(own).hasLetters;
      if (letters !== creating) continue;
      const creates = letters || this.narrowed;
      for (const doc of own.found.docs) {
        const mask = this.masks.get(doc) || 0;
        if ((mask & bit) !== 0 || (mask === 0 && (!creates || !this.isIn(doc)))) continue;
        this.masks.set(doc, mask | bit);
        this.sums.set(doc, Math.fround((this.sums.get(doc) || 0) + odds));
      }
    }
  }
  async touchWithoutWords() {
    const docs = this.filter === null ? Array.from({ length: ground.entries }, (none, doc) => doc) : [...this.filter.keys()].sort((a, b) => a - b);
    let in_ = docs.filter((doc) => this.isIn(doc));
    if (this.filter === null && this.asked.years.length > 0) {
      await loadYears(this.asked.years);
      in_ = docs.filter((doc) =>
        this.asked.years.some((years) =>
          yearsOf(doc).some(
            (span) =>
              (span.event === "made") === (years.event === "made") &&
              Array.from({ length: Math.min(200, span.to - span.from) + 1 }, (none, i) => span.from + i).some((year) => years.among.has(year)))));
    }
    in_.forEach((doc) => {
      this.masks.set(doc, 0);
      this.sums.set(doc, 0);
    });
  }
  cut(values, most) {
    if (values.length <= most) return -Infinity;
    let low = Infinity;
    let high = -Infinity;
    for (const value of values) {
      low = Math.min(low, value);
      high = Math.max(high, value);
    }
    if (high <= low) return low;
    const bins = new Int32Array(2048);
    const scale = Math.fround(2047 / Math.fround(high - low));
    for (const value of values) bins[Math.trunc(Math.fround(Math.fround(value - low) * scale))]++;
    let seen = 0;
    let bin = 2048;
    while (seen < most && bin > 0) seen += bins[--bin];
    return Math.fround(Math.fround(low + bin / scale) - 1e-4);
  }
  async choose(looking) {
    const { asked, most } = this;
    if (this.masks.size === 0) return [];
    const byYear = asked.years.length > 0;
    const gain = (byYear ? -Math.log(LEAST_YEAR) * asked.years.length : 0) + (looking ? 6 : 0);
    const missing = asked.terms.reduce((all, term) => all * term.missing, 1);
    const log = (doc) => this.sums.get(doc) + (this.filter === null ? 0 : Math.log(this.filter.get(doc)));
    const touched = [...this.masks.keys()];
    const least = touched.length <= most ? -Infinity : this.cut([...this.sums.values()], most) - gain - 1e-3;
    const docs = [];
    for (const doc of touched) {
      const sum = log(doc);
      if (sum >= least) docs.push(doc);
      else this.rest += missing * Math.exp(sum) * (byYear ? LEAST_YEAR : 1);
    }
    docs.sort((a, b) => a - b);
    const logs = new Map(docs.map((doc) => [doc, Math.fround(log(doc))]));
    if (byYear) await loadYears(asked.years);
    if (asked.ages.length > 0) await loadAges(docs);
    if (byYear) {
      for (const doc of docs) {
        const answer = asked.years.reduce((all, each) => all * each.answer(doc), 1);
        logs.set(doc, Math.fround(logs.get(doc) + Math.fround(Math.log(answer))));
      }
    }
    if (looking) await this.lookAt(docs, logs);
    const cut = this.cut([...logs.values()], most);
    let kept = docs.filter((doc) => logs.get(doc) >= cut);
    docs.filter((doc) => logs.get(doc) < cut).forEach((doc) => (this.rest += missing * Math.exp(logs.get(doc))));
    if (kept.length > most * 2) {
      kept.sort((a, b) => logs.get(b) - logs.get(a) || a - b);
      kept.slice(most).forEach((doc) => (this.rest += missing * Math.exp(logs.get(doc))));
      kept = kept.slice(0, most);
    }
    return this.weighed(kept);
  }
  /** Looks for words that the likeliest entries lack, with more slips, among the terms that are loaded. */
  async lookAt(docs, logs) {
    const cut = this.cut([...logs.values()], LOOKED_AT);
    for (const [j, term] of this.asked.terms.entries()) {
      const word = term.words[0];
      if (term.phrase >= 0 || word.mostSlips < 1) continue;
      const forms = word.forms.filter((form) => form.meant);
      const patterns = forms.map((form) => new Pattern(form.letters, word.mostSlips));
      const lacking = (doc) => logs.has(doc) && logs.get(doc) >= cut && ((this.masks.get(doc) >> Math.min(31, j)) & 1) === 0;
      const may = [];
      for (const own of word.field.terms.values()) {
        if (own.count === 0 || (own.found && !own.found.docs.some(lacking))) continue;
        const fits = forms.some(
          (form, f) => patterns[f].accepts(own.signs) || different(own, word.field.placesOf(own), form.letters) <= Math.floor(form.letters.length / 2));
        if (fits) may.push(own);
      }
      await word.field.entriesOf(may);
      const found = new Map();
      const best = new Map();
      for (const own of may) {
        const given = word.given(own);
        found.set(own, given);
        own.found.docs.filter(lacking).forEach((doc) => best.set(doc, Math.max(best.get(doc) || 0, given)));
      }
      const factor = term.weight[0] / term.missing;
      for (const [doc, most] of best) logs.set(doc, Math.fround(logs.get(doc) + Math.fround(Math.log1p(most * factor))));
      this.lookedAt[j] = found;
    }
  }
  /** Each entry weighed person by person. */
  weighed(docs) {
    const { asked } = this;
    const count = asked.terms.length;
    const wanted = new Map(docs.map((doc) => [doc, { persons: new Map(), text: new Array(count).fill(0), rows: new Map(), best: new Array(count).fill(null) }]));
    const put = (own, j, term, given) => {
      if (given <= LEAST) return;
      term.found.docs.forEach((doc, i) => {
        const entry = wanted.get(doc);
        if (!entry) return;
        const persons = term.found.persons[i];
        for (const [p, share] of persons.length === 0 ? [[0, NAMELESS]] : persons.map((person) => [person, 1])) {
          if (!entry.persons.has(p)) entry.persons.set(p, new Array(count).fill(0));
          const ofPerson = entry.persons.get(p);
          ofPerson[j] = Math.max(ofPerson[j], given * share);
        }
        this.note(entry, j, term, given * own.weight[0], 0);
      });
    };
    const putInRow = (own, j, field) => {
      for (const [term, given] of this.met[j][field]) {
        if (given <= LEAST) continue;
        term.found.docs.forEach((doc, i) => {
          const entry = wanted.get(doc);
          if (!entry) return;
          for (const place of term.found.places[i]) {
            if (!entry.rows.has(place)) entry.rows.set(place, new Array(count).fill(0));
            const row = entry.rows.get(place);
            row[j] = Math.max(row[j], given);
          }
          this.note(entry, j, term, given * own.weight[field], field);
        });
      }
    };
    for (const [j, own] of asked.terms.entries()) {
      if (own.phrase >= 0) {
        putInRow(own, j, 0);
        putInRow(own, j, 1);
        continue;
      }
      for (const [term, given] of this.met[j][0]) put(own, j, term, given);
      for (const [term, given] of this.lookedAt[j]) if (!((own.words[0].met.get(term) || 0) > 0)) put(own, j, term, given);
      for (const [term, given] of this.met[j][1]) {
        if (given <= LEAST) continue;
        for (const doc of term.found.docs) {
          const entry = wanted.get(doc);
          if (!entry) continue;
          entry.text[j] = Math.max(entry.text[j], given);
          this.note(entry, j, term, given * own.weight[1], 1);
        }
      }
    }
    return docs.map((doc) => {
      const entry = wanted.get(doc);
      const persons = entry.persons.size === 0 ? [new Array(count).fill(0)] : [...entry.persons.values()];
      let best = 0;
      for (const person of persons) {
        let all = 1;
        for (let j = 0; j < count; j++) {
          const own = asked.terms[j];
          if (own.phrase >= 0) continue;
          let name = person[j];
          for (const other of persons) name = Math.max(name, OF_ANOTHER * other[j]);
          all *= own.weight[0] * name + own.weight[1] * entry.text[j] + own.missing;
        }
        best = Math.max(best, all);
      }
      const weight = asked.timesAnswer(doc) * best * this.phrases(entry.rows) * (this.filter === null ? 1 : this.filter.get(doc));
      return { doc, weight, why: entry.best };
    });
  }
  /** How well the words of each phrase stand one after the other. */
  phrases(rows) {
    const { terms } = this.asked;
    let all = 1;
    for (let from = 0, end; from < terms.length; from = end) {
      const { phrase } = terms[from];
      end = from + 1;
      while (end < terms.length && terms[end].phrase === phrase) end++;
      if (phrase < 0) continue;
      let best = 0;
      for (const place of rows.keys()) {
        let here = 1;
        for (let j = from; j < end && here > 0; j++) here *= (rows.get(place + j - from) || [])[j] || 0;
        best = Math.max(best, here);
      }
      all *= best;
    }
    return all;
  }
  note(entry, j, term, weight, field) {
    if (!entry.best[j] || entry.best[j].weight < weight) entry.best[j] = { term, weight, field };
  }
}

function different(term, places, word) {
  if (!places.isOne.every((one, i) => one && places.signs[i] !== MANY) || places.signs.length !== word.length) return Infinity;
  let count = 0;
  for (let i = 0; i < word.length; i++) {
    const sign = places.signs[i] === ONE_OF && places.slots[i].texts.length === 1 ? places.slots[i].texts[0][0] : places.signs[i];
    if (sign > 127) return Infinity;
    count += sign >= 0 && sign !== word[i] ? 1 : 0;
  }
  return count;
}

/**
 * Searches.
 *
 * @returns best: entries by number with their weight and why; probability of each is weight / (sum + absent)
 */
async function searchGround(text, limit) {
  const parts = parseQuery(text);
  await open();
  const asked = new Asked(parts);
  await asked.prepare();
  const ranked = await new Ranking(asked, await filterOf(asked), limit).ranked();
  return { ...ranked, asked };
}

/* ---- The page ---- */

const SHOWN = 10;
const BLOCK = 8;

async function shownOf(doc) {
  const number = Math.floor(doc / BLOCK);
  const name = "d-" + number;
  if (!loading.has(name)) loading.set(name, fetchPiece(name).then(JSON.parse));
  return (await loading.get(name))[doc - number * BLOCK];
}

/** A term as people read it. */
const asRead = (text) => text.replace(/\|.*$/, "").replace(/[?[]/g, "·").replace(/[*{%]+/g, "…").replace(/[\^~]/g, "");

function reasonOf(term, found) {
  const shown = term.part.shown;
  if (!found) return "no word like " + shown;
  const word = term.words[found.field];
  const places = word.field.placesOf(found.term);
  const read = asRead(found.term.text);
  if (!places.hasLetters) return shown + " may have stood in what is lost: " + read;
  const form = word.forms.find((one) => anyFit(places, one.letters) > 0);
  if (form && form.by === null) return places.clear ? "word " + read : read + " may read " + shown;
  if (form) return BY[form.by].words(places.clear ? read : read + " may read " + form.text, shown);
  if (places.signs.length === 1 || word.isInitial) return "initial: " + read + " may be " + shown;
  return read + ", spelt or read a little otherwise than " + shown;
}

function yearReason(part, asked, doc) {
  const spans = yearsOf(doc).filter((span) => asked.counts(span.event));
  const best = spans.sort((a, b) => asked.of(b.from, b.to) * b.weight - asked.of(a.from, a.to) * a.weight)[0];
  if (!best) return "no year near " + part.shown;
  const told = best.from === best.to ? String(best.from) : best.from + " to " + best.to;
  return (best.weight < 1 ? "may be " : "") + (best.event ? best.event + " " : "") + told;
}

function element(name, className, text) {
  const made = document.createElement(name);
  if (className) made.className = className;
  if (text) made.textContent = text;
  return made;
}

/** The text with words marked that answered. */
function marked(text, words) {
  const line = element("p", "text");
  for (const part of text.split(/([\p{L}\p{M}\p{N}’'&]+)/u)) {
    if (words.has(fold(part)) && fold(part) !== "") line.append(element("mark", "", part));
    else line.append(part);
  }
  return line;
}

async function show(text) {
  const status = document.getElementById("found");
  const list = document.getElementById("hits");
  list.replaceChildren();
  if (text.trim() === "") {
    status.textContent = "";
    return;
  }
  status.textContent = "Searching …";
  document.title = text + " – " + document.title.replace(/^.* – /, "");
  try {
    const found = await searchGround(text, SHOWN);
    const best = found.best.slice(0, SHOWN);
    const whole = found.sum + found.absent;
    const shown = await Promise.all(best.map((hit) => shownOf(hit.doc)));
    best.forEach((hit, i) => {
      const [href, number, called, faces] = shown[i];
      const item = element("li");
      const head = element("p", "head");
      const way = element("a", "", "Marker " + number);
      way.href = href;
      head.append(way, called ? " " + called : "", " ");
      const percent = Math.round((100 * hit.weight) / whole);
      head.append(element("span", "quiet", percent < 1 ? "less than 1 %" : percent + " %"));
      item.append(head);
      const words = new Set(hit.why.filter((why) => why).map((why) => why.term.text));
      faces.forEach((face) => item.append(marked(face, words)));
      const why = element("ul");
      found.asked.terms.forEach((term, j) => why.append(element("li", "", reasonOf(term, hit.why[j]))));
      const years = found.asked.parts.filter((part) => part.kind === "years");
      found.asked.years.forEach((asked, j) => why.append(element("li", "", yearReason(years[j], asked, hit.doc))));
      item.append(why);
      list.append(item);
    });
    status.textContent =
      best.length === 0
        ? "Nothing here answers."
        : (found.answering === 1 ? "One marker answers" : found.answering + " markers answer") +
          (best.length === SHOWN ? "; the likeliest " + best.length + " are shown. " : ". ") +
          "The percentage says how likely each is the one you ask for; that it is none of them: " +
          Math.round((100 * found.absent) / whole) + " %.";
  } catch (fault) {
    status.textContent = fault instanceof QueryFault ? fault.message : "The search can’t run: " + fault.message + ".";
    if (!(fault instanceof QueryFault)) throw fault;
  }
}

/** The words asked for, in the address: behind a question mark where a form sent them, else behind a hash. */
function wordsAsked() {
  const hash = new URLSearchParams(location.hash.slice(1)).get("q");
  return hash === null ? new URLSearchParams(location.search).get("q") || "" : hash;
}

if (typeof window !== "undefined" && document.getElementById("seek")) {
  const field = document.getElementById("q");
  const ask = () => {
    field.value = wordsAsked();
    return show(field.value);
  };
  document.getElementById("seek").addEventListener("submit", (event) => {
    event.preventDefault();
    const next = "#" + new URLSearchParams({ q: field.value });
    if (location.hash === next) ask();
    else location.hash = next;
  });
  window.addEventListener("hashchange", ask);
  ask();
}
