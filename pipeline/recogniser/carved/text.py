"""Text as it was cut on English-speaking grave markers between about 1650 and 1960.

Everything is invented: names come from a general word list and from syllables, formulas are the
common ones of the trade (common practice, no source). `line` gives one line on its own, for the
recogniser; `inscription` gives the lines of a whole stone in order, for the line finder. Both
depend only on the `random.Random` handed in.

Typographic shape (capitals, small capitals, long s, superiors, dashes) is partly in the text
itself and partly chosen by `glyphs`; `label` says which characters the recogniser is asked for.
"""

import functools
import random
import re
from dataclasses import dataclass
from pathlib import Path

WORDS_FILE = Path(__file__).resolve().parent.parent / "fonts" / "words.txt"

# The recogniser's alphabet, in the order of its classes 1.. (class 0 is the CTC blank).
CHARACTERS = (
    " ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789"
    "&.,'-:;()/!?*+\"ÆæœŒſ†‡·—½¼¾"
)
# Letters that also have a class of their own for when they are cut small and high; these follow CHARACTERS.
SUPERIORS = "abcdeghiklmnorstuwyADEHLMNORSTY"
_FIRST_SUPERIOR = 0xE000  # inside this package superiors are told apart by a private-use character each

# Cut forms that are read as one of CHARACTERS. A dash longer than a hyphen or an en dash is a long dash.
_READ_AS = {
    "–": "-", "‐": "-", "‑": "-", "‒": "-", "’": "'", "‘": "'", "“": '"', "”": '"', "•": "·",
    "ﬀ": "ff", "ﬁ": "fi", "ﬂ": "fl", "ﬃ": "ffi", "ﬄ": "ffl", "ﬅ": "ſt", "ﬆ": "st",
}  # fmt: skip

MAX_CHARACTERS = 48


@dataclass(frozen=True)
class Line:
    """One line of an inscription.

    role: opening, name, relation, date, age, verse, service, place, motto, initials, maker.
    large: cut larger than its neighbours where the whole stone is set (names, initials).
    """

    text: str
    role: str
    large: bool = False


def superior(letter: str) -> str:
    """The letter as cut small and high; unchanged where it has no class of its own."""
    return chr(_FIRST_SUPERIOR + SUPERIORS.index(letter)) if letter in SUPERIORS else letter


def is_superior(character: str) -> bool:
    return _FIRST_SUPERIOR <= ord(character) < _FIRST_SUPERIOR + len(SUPERIORS)


def on_the_line(text: str) -> str:
    """The text with superiors as plain letters."""
    return "".join(SUPERIORS[ord(c) - _FIRST_SUPERIOR] if is_superior(c) else c for c in text)


# What class i + 1 stands for.
CLASSES = CHARACTERS + "".join(superior(letter) for letter in SUPERIORS)


def label(text: str) -> str:
    """What the recogniser is asked to give for a text: CLASSES only, single spaces, one sign for a long dash."""
    read = "".join(_READ_AS.get(c, c) for c in text)
    read = " ".join("".join(c for c in read if c in CLASSES).split())
    return re.sub("—+", "—", read)


MONTHS = (
    "January February March April May June July August September October November December"
).split()
_SHORT_MONTHS = (
    "Jan. Feb. Mar. Apr. May June July Aug. Sept. Oct. Nov. Dec. Jany. Feby. Septr. Octr. Novr. Decr. "
    "Janry Febry Sepr Augst"
).split()
_SYLLABLES = (
    "ab al an ar ash bar bel ber bir bo bran bur cal car chel cor cran dal den dor dun el er fal fen gar gil "
    "gor had hal har hol hun ing kel kin lam lan lin lock mal mar mel mor nar nor os pel pen per quin ral ram "
    "ren rod ros sal sed shel sil stan sten sul tam tar tel ter tor tre ul var wal war wen wil win wor yel zel"
).split()
_ENDINGS = (
    "bury by combe cott dale den er field ford ham head hill hurst ing land ley man more mouth ness over "
    "ridge sett shaw son stead stone thorpe ton tree water well wick wood worth"
).split()
_OPENINGS = (
    "in memory of|sacred to the memory of|in loving memory of|in affectionate remembrance of|here lies|"
    "here lies the body of|here lieth the body of|here lyeth ye body of|here lyes interred|to the memory of|"
    "erected to the memory of|in memoriam|beneath this stone|near this place lie the remains of|"
    "in remembrance of|lies buried|to the glory of god|pray for the soul of|of your charity|"
    "the burial place of|the family of|dedicated to|in ever loving memory|in proud and loving memory of|"
    "in fond remembrance of|this stone is erected|this monument was raised|here resteth|underneath lyeth|"
    "here rests in hope|in hallowed memory|precious memories of|i.h.s.|memento mori|m.s.|d.o.m.|p.m.|"
    "hic jacet|in pious memory|to the beloved memory of|to the dear memory of|in sacred memory of|resting place of"
).split("|")
_RELATIONS = (
    "wife of|beloved wife of|the beloved wife of|dearly loved wife of|his wife|also his wife|husband of|"
    "dear husband of|son of|daughter of|dau. of|relict of|relict of the late|widow of|infant son of|"
    "infant daughter of|children of|their children|their daughter|their son|only son of|eldest son of|"
    "youngest daughter of|second son of|third daughter of|mother of|father of|brother of|sister of|consort of|"
    "grandson of|niece of|nephew of|wife of the above|the above|the above named|son of the above|also|also of|"
    "and of|and|and also|likewise|and his wife|and of his wife|wife|mother|father|baby|our baby|our darling|"
    "his parents|and their infant children|twin sons of|mother-in-law of|friend of|servant of|"
    "parents of the above|dearly beloved husband of|second wife of|who died in infancy"
).split("|")
_PASSINGS = (
    "who died|died|who departed this life|departed this life|deceased|dyed|born|was born|who was born|entered into rest|"
    "fell asleep|who fell asleep|passed away|called home|at rest|obiit|ob.|natus|obt.|was drowned|"
    "accidentally killed|killed in action|killed|died of wounds|died at sea|lost at sea|slain|interred|buried|"
    "who exchanged this life for a better|who was called to rest|fell on sleep|b.|d.|nat."
).split("|")
_VERSES = (
    "rest in peace|requiescat in pace|r.i.p.|thy will be done|gone but not forgotten|peace perfect peace|"
    "blessed are the dead|until the day break|and the shadows flee away|at rest|asleep|safe in the arms|"
    "forever with the lord|not lost but gone before|in the midst of life|we are in death|jesu mercy|"
    "the lord gave and the lord|hath taken away|blessed be the name|of the lord|i know that my redeemer liveth|"
    "he giveth his beloved sleep|her children arise up|and call her blessed|faithful unto death|reunited|"
    "loved in life|in death remembered|till we meet again|i am the resurrection and the life|"
    "be ye also ready|prepare to meet thy god|weep not for me|my parents dear|remember me as you pass by|"
    "as you are now so once was i|as i am now so you must be|prepare for death and follow me|"
    "afflictions sore long time i bore|physicians were in vain|till god did please|to ease me of my pain|"
    "her end was peace|his toils are past|a tender mother|a loving father|an honest man|peace after pain|"
    "the memory of the just|is blessed|her works do follow her|the sea gave up the dead|"
    "greater love hath no man than this|he died that we might live|a light is from our household gone|"
    "a voice we loved is stilled|a place is vacant in our home|which never can be filled|"
    "budded on earth to bloom in heaven|suffer little children|to come unto me|of such is the kingdom|"
    "requiem aeternam|et lux perpetua|resurgam|in te domine speravi|sic transit gloria mundi|"
    "hodie mihi cras tibi|time how short|eternity how long|sleep on dear one|thy rest is won"
).split("|")
_MOTTOES = (
    "fides et labor|semper paratus|virtute et opere|per mare|in arduis fortis|pro patria|pro rege et lege|"
    "spes mea in deo|non sibi|lux in tenebris|fiat lux|nil desperandum|honor et fides|faith hope charity|"
    "friendship love and truth|mentem et manum|labor omnia vincit|dieu et mon droit|honi soit qui mal y pense|"
    "gott mit uns|deo gratias|ave maria|i.h.s.|i.n.r.i.|a.m.d.g.|f.l.t.|pax|alpha and omega|one and all|"
    "steady and true|first in the field|ever ready|so perish the brave|by land and sea|through fire"
).split("|")
_RANKS = (
    "Pte.|Private|Priv.|Sgt.|Sergt.|Serjt.|Sergeant|Serjeant|Corpl.|Cpl.|Corporal|L/Cpl.|Lce. Cpl.|Lieut.|Lt.|"
    "2nd Lieut.|Capt.|Captain|Col.|Colonel|Lt. Col.|Major|Maj.|Rifleman|Trooper|Gunner|Driver|Sapper|Pioneer|"
    "Drummer|Bugler|Stoker|Seaman|A.B.|Ordinary Seaman|Able Seaman|Boatswain|Midshipman|Ensign|Cornet|"
    "Quartermaster|Surgeon|Chaplain|Adjutant|Farrier|Bombardier|Fusilier|Guardsman|Airman|Pilot Officer|Musician"
).split("|")
_UNITS = (
    "Regt.|Regiment|Regt. of Foot|Bn.|Battn.|Batt.|Battalion|Battery|Inf.|Infy.|Infantry|Vol.|Vols.|Volunteers|"
    "Vol. Inf.|Cav.|Cavalry|Art.|Artillery|H. Art.|L. Art.|Brigade|Division|Squadron|Corps|Reserve|Guards|"
    "Lancers|Hussars|Dragoons|Grenadiers|Militia|Engineers|Rangers|Highlanders|Borderers|Rifles|Fusiliers|"
    "Light Infantry|Field Ambulance|Machine Gun Corps|Transport|Heavy Artillery|Yeomanry|Fencibles|Pioneers"
).split("|")
_TITLES = (
    "Mr.|Mrs.|Rev.|Revd.|The Rev.|Dr.|Doctr.|Capt.|Deacon|Elder|Sir|Lady|Miss|Col.|Maj.|Messrs.|Madm.|Mr|Mrs|"
    "Mifs|Goodwife|Alderman|Squire|Hon.|Judge|Sister|Brother|Mother|Father|Master|Dame"
).split("|")
_SUFFIXES = "Esq.|Esqr.|Jun.|Junr.|Jr.|Sen.|Senr.|Sr.|M.D.|D.D.|A.M.|M.A.|J.P.|Gent.|2nd|V.D.M.|R.N.|Bart.".split("|")
_TRADES = (
    "mariner|farmer|blacksmith|merchant|weaver|miller|surgeon|schoolmaster|printer|mason|carpenter|shipwright|"
    "brewer|yeoman|wheelwright|clockmaker|physician|baker|tailor|cooper|saddler|vicar of this parish|"
    "rector of this parish|minister of this church|churchwarden|master mariner|innkeeper|shepherd|gardener|"
    "postmaster|engineer|stonecutter|nurse|teacher|draper|butcher"
).split("|")
_ABBREVIATED_GIVEN = (
    "Wm.|Wm|Jno.|Jno|Thos.|Thos|Chas.|Geo.|Geo|Jas.|Jas|Robt.|Richd.|Saml.|Danl.|Benjn.|Benj.|Jos.|Josh.|Edwd.|"
    "Eliz.|Elizth|Margt.|Cathe.|Hy.|Alexr.|Andw.|Nathl.|Abm.|Fredk.|Matthw|Michl.|Saml|Robt|Edwd|Richd"
).split("|")
# Given names that stand on most stones of the period (common practice, no source).
_GIVEN = (
    "John William Thomas George James Henry Charles Robert Joseph Edward Samuel Richard Alfred Frederick Walter "
    "Arthur Albert Harry Ernest David Daniel Benjamin Peter Francis Hugh Isaac Jacob Abraham Nathaniel Jonathan "
    "Ebenezer Hezekiah Josiah Elijah Ezra Silas Amos Moses Nathan Caleb Joshua Stephen Philip Matthew Michael "
    "Patrick Andrew Alexander Donald Angus Duncan Archibald Herbert Percy Cecil Leonard Sidney Frank Harold "
    "Mary Elizabeth Sarah Ann Anne Anna Hannah Jane Margaret Alice Ellen Martha Emma Eliza Harriet Charlotte "
    "Catherine Susannah Susan Rebecca Rachel Ruth Esther Lydia Abigail Mercy Patience Prudence Temperance Thankful "
    "Phebe Dorcas Tabitha Keziah Jemima Lucy Fanny Agnes Isabella Janet Grace Florence Edith Ethel Annie Ada Amy "
    "Clara Louisa Rose Lily Violet Daisy Beatrice Maud Gertrude Minnie Bertha Caroline Sophia Amelia Augusta Julia "
    "Nancy Betsy Polly Dorothy Winifred Bridget Honora Euphemia Wilhelmina Mehitable Bathsheba Barbara Frances"
).split()


@functools.cache
def _lexicon() -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Capitalised words, which serve as names, and lower-case words."""
    if not WORDS_FILE.exists():
        raise FileNotFoundError(f"{WORDS_FILE}: missing; run fetch_typefaces.sh, which puts it there")
    words = WORDS_FILE.read_text(encoding="utf-8").split()
    names = tuple(w for w in words if w[0].isupper() and w[1:].islower() and 3 <= len(w) <= 12)
    common = tuple(w for w in words if w.islower() and len(w) <= 12)
    return names, common


def _chance(rng: random.Random, probability: float) -> bool:
    return rng.random() < probability


def ordinal(number: int) -> str:
    """1st, 2nd, 3rd, with the older 2d and 3d left to the caller."""
    if 10 < number % 100 < 14:
        return f"{number}th"
    return f"{number}" + {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")


def roman(number: int) -> str:
    """Roman numerals for 1 to 3999."""
    signs = ((1000, "M"), (900, "CM"), (500, "D"), (400, "CD"), (100, "C"), (90, "XC"), (50, "L"), (40, "XL"),
             (10, "X"), (9, "IX"), (5, "V"), (4, "IV"), (1, "I"))  # fmt: skip
    out = ""
    for value, sign in signs:
        while number >= value:
            out, number = out + sign, number - value
    return out


def invented_word(rng: random.Random) -> str:
    """A surname or place that sounds English and need not exist."""
    stem = "".join(rng.choice(_SYLLABLES) for _ in range(rng.choice((1, 1, 2))))
    return (stem + rng.choice(_ENDINGS)).capitalize()


def surname(rng: random.Random) -> str:
    names, _ = _lexicon()
    word = rng.choice(names) if _chance(rng, 0.45) else invented_word(rng)
    if _chance(rng, 0.05):
        word = rng.choice(("Mac", "Mc", "Mc", "O'", "Fitz", "Van ", "De ", "Le ", "M'")) + word
    if _chance(rng, 0.02):
        word += "-" + invented_word(rng)
    return word


def given_name(rng: random.Random) -> str:
    names, _ = _lexicon()
    pick = rng.random()
    if pick < 0.55:
        return rng.choice(_GIVEN)
    if pick < 0.63:
        return rng.choice(_ABBREVIATED_GIVEN)
    return rng.choice(names)


def initials(rng: random.Random) -> str:
    stop = rng.choice((".", ".", "", " ", "·", ". "))
    letters = [rng.choice("ABCDEFGHIJKLMNOPRSTUVW") for _ in range(rng.choice((1, 2, 2, 3, 3)))]
    out = stop.join(letters) + (stop if stop.strip() else "")
    if _chance(rng, 0.25):
        out += f" {rng.randint(1650, 1930)}"
    return out


def person_name(rng: random.Random) -> str:
    pick = rng.random()
    if pick < 0.08:
        first = f"{rng.choice('ABCDEFGHIJKLMNOPRSTW')}. {rng.choice('ABCDEFGHIJKLMNOPRSTW')}."
    else:
        first = given_name(rng)
        if pick < 0.28:
            first += " " + given_name(rng)
        elif pick < 0.45:
            first += f" {rng.choice('ABCDEFGHIJKLMNOPQRSTUVWYZ')}."
    if _chance(rng, 0.10):
        first = rng.choice(_TITLES) + " " + first
    name = first if _chance(rng, 0.12) else f"{first} {surname(rng)}"
    if _chance(rng, 0.06):
        name += rng.choice((", ", " ")) + rng.choice(_SUFFIXES)
    return name


def year(rng: random.Random) -> str:
    number = rng.randint(1750, 1945) if _chance(rng, 0.75) else rng.randint(1640, 1965)
    pick = rng.random()
    if pick < 0.025:
        return roman(number)
    if pick < 0.05 and number % 100 > 1 and number < 1755:
        return f"{number - 1}/{number % 10}"  # old and new style
    return str(number)


def _span(rng: random.Random) -> str:
    first = rng.randint(1780, 1930)
    last = first + rng.randint(0, 95)
    dash = rng.choice((" - ", " – ", " — ", " — ", "-", "–", "—", "—", " -", "- ", "  -  ", " —— ", "——", " ——— ", "  —  ", " to ", " · "))
    if _chance(rng, 0.12):
        months = rng.sample(MONTHS, 2)
        return f"{months[0][:3]}. {first}{dash}{months[1][:3]}. {last}"
    if _chance(rng, 0.05):
        return f"{roman(first)}{dash}{roman(last)}"
    return f"{first}{dash}{last}"


def date(rng: random.Random) -> str:
    if _chance(rng, 0.28):
        return _span(rng)
    day, month = rng.randint(1, 31), rng.choice(MONTHS)
    if _chance(rng, 0.40):
        month = rng.choice(_SHORT_MONTHS)
    nth = ordinal(day)
    if nth[-2:] in ("nd", "rd") and _chance(rng, 0.3):
        nth = nth[:-2] + "d"
    if _chance(rng, 0.08):
        nth = nth[:-2] + "." if nth[-1] != "d" else nth
    form = rng.choice((
        "{m} {d}, {y}", "{m} {d}, {y}", "{m} {n} {y}", "{m} {n} {y}", "{n} {m} {y}", "{d} {m} {y}", "{m} {d}. {y}",
        "{n} of {m} {y}", "{m} ye {n} {y}", "ye {n} of {m}", "the {n} of {m} {y}", "{n} day of {m} {y}",
        "{m} {d} {y}", "{m} {y}", "{y}", "{y}", "{d}.{k}.{y}", "{d} - {k} - {y}", "{n} {m}", "{m} the {n}, {y}",
        "A.D. {y}", "{d}/{k}/{y}", "{m}, {d} {y}", "{m} {n}", "in the year {y}", "anno domini {y}", "Anno {y}",
        "{m} ye {n}", "{y}.", "{m}. {d}. {y}.", "{n} {m}, {y},", "on the {n} {m} {y}", "{d}. {r}. {y}",
        "{m} {n}, {y}.", "{n} {m} {y};", "{m} {n} — {y}", "{m}: {d}: {y}", "{m} {d}; {y}", "{m} {n}, {y};", "the {n} of {m}, {y},",
    ))  # fmt: skip
    number = rng.randint(1, 12)
    return form.format(m=month, d=day, n=nth, y=year(rng), k=number, r=roman(number))


def age(rng: random.Random) -> str:
    years = rng.randint(1, 99)
    form = rng.choice((
        "aged {a} years", "aged {a} years", "aged {a}", "aged {a}.", "Aged {a} Years", "AE. {a}", "Æ. {a}", "ÆT. {a}",
        "Æt. {a}", "æt. {a}", "ÆTAT. {a}", "ætatis suæ {a}", "Ætatis {a}", "æt {a} yrs", "aged {a} yrs.",
        "aged {a} y'rs", "aged {a} yrs. {m} mos. {d} ds.", "aged {a} ys. {m} ms.", "in the {o} year of his age",
        "in the {o} year of her age", "in ye {o} year of his age", "in her {o} year", "in his {o} year", "{a} years",
        "aged {a} years {m} months", "aged {a} years & {m} months", "{a} y. {m} m. {d} d.", "{a} ys. {m} mo. {d} d's.",
        "age {a}", "aged {a} y", "aged {m} months", "aged {d} days", "aged {m} weeks", "{a} yrs {m} mo. & {d} days",
        "Æ {a}", "aged {a} yrs", "being {a} years of age", "Aged {r} Years", "who lived {a} years", "aged {a}y. {m}m.",
        "aged about {a} years", "aged one year", "aged nine months", "in the {o} year of", "of his age", "of her age",
        "his age {a}", "AGE {a}", "aetatis suae {a}", "{a}th year", "aged {a} years.", "aged {a} years;", "aged {a}½ years",
        "aged {m}{f} months", "aged {a}{f} yrs.", "{a}{f}", "Ætatis suæ {a}.", "aged {a} years, {m} months.",
    ))  # fmt: skip
    return form.format(
        a=years, o=ordinal(years), m=rng.randint(1, 11), d=rng.randint(1, 30), r=roman(years), f=rng.choice("½¼¾")
    )


def service(rng: random.Random) -> str:
    unit = rng.choice(_UNITS)
    place = surname(rng)
    form = rng.choice((
        "{rank} {name}", "{rank} {name}", "{number} {rank}", "{number} {rank} {name}", "{nth} {place} {unit}",
        "Co. {letter} {nth} {place}", "Co. {letter}, {nth} {unit}", "Co. {letter}. {nth} {short} {unit}",
        "{nth} {unit}", "of the {nth} {unit}", "{place} {unit}", "the {place} {unit}", "{nth} Bn. {place} {unit}",
        "H.M.S. {place}", "late of H.M.S. {place}", "S.S. {place}", "{rank}, {place} {unit}", "{rank} Co. {letter}",
        "{letter}. Co. {nth} {unit}", "Royal {place} {unit}", "died in service", "killed in action", "at {place}",
        "who fell at {place}", "War of {year}", "{number}", "Troop {letter} {nth} Cav.", "Battery {letter}",
        "served {year}-{two}", "served his country", "for king and country", "Roll of Honour", "Lest we forget",
    ))  # fmt: skip
    return form.format(
        rank=rng.choice(_RANKS), name=person_name(rng), number=rng.randint(1, 99999), nth=ordinal(rng.randint(1, 160)),
        place=place, unit=unit, letter=rng.choice("ABCDEFGHIKLM"), short=place[:2].upper(), year=rng.randint(1700, 1945),
        two=rng.randint(10, 46),
    )  # fmt: skip


def place(rng: random.Random) -> str:
    form = rng.choice((
        "of {a}", "of {a}", "late of {a}", "of {a}, {b}", "of this town", "of this parish", "in {a}", "at {a}",
        "native of {a}", "a native of {a}", "born at {a}", "formerly of {a}", "{a}, {b}", "of {a} in this county",
        "of the parish of {a}", "{t}", "{t}", "{t} of {a}", "late {t}", "and {t}", "in the county of {a}",
        "{a} House", "{a} Street", "of {a} Farm", "{a} Hall", "and of {a}",
    ))  # fmt: skip
    return form.format(a=surname(rng), b=surname(rng), t=rng.choice(_TRADES))


def verse(rng: random.Random) -> str:
    if _chance(rng, 0.45):
        return rng.choice(_VERSES)
    _, common = _lexicon()
    out = " ".join(rng.choice(common) for _ in range(rng.randint(2, 7)))
    if _chance(rng, 0.2):
        out = out.replace(" ", ", ", 1)
    out += rng.choice(("", "", "", ",", ".", ";", ":", "!", "?"))
    if _chance(rng, 0.05):
        out += f" {rng.choice(('Ps.', 'John', 'Rev.', 'Job', 'Isaiah', 'Matt.', 'Cor.'))} {rng.randint(1, 90)}:{rng.randint(1, 30)}"
    if _chance(rng, 0.24):
        begin, end = rng.choice((('"', '"'), ("“", "”"), ("“", "”"), ("‘", "’"), ("“", ""), ("", "”"), ("‘", ""), ("", "’")))
        out = begin + out + end
    return out


def maker(rng: random.Random) -> str:
    return rng.choice((
        f"{surname(rng)}, {surname(rng)}", f"{surname(rng)} sc.", f"{surname(rng)} fecit", f"erected by {person_name(rng)}",
        "erected by", "erected by his friends", f"cut by {surname(rng)}", "this stone was erected by", f"{surname(rng)} & Son",
        f"erected by his {rng.choice(('widow', 'son', 'comrades', 'sister', 'parents', 'children'))}", f"No. {rng.randint(1, 999)}",
        f"No {rng.randint(1, 999)}",
    ))  # fmt: skip


def _letters_at_random(rng: random.Random) -> str:
    pick = rng.random()
    if pick < 0.35:
        return "".join(rng.choice("ABCDEFGHIJKLMNOPQRSTUVWXYZ") for _ in range(rng.randint(2, 10)))
    if pick < 0.65:
        return str(rng.randint(1, 99999))
    out = "".join(rng.choice(CHARACTERS) for _ in range(rng.randint(2, 14)))
    return f"({out})" if _chance(rng, 0.3) else out


def interpuncts(rng: random.Random, text: str) -> str:
    """Roman capitals with points between the words, V for U at times."""
    out = text.upper()
    if _chance(rng, 0.4):
        out = out.replace("U", "V").replace("J", "I")
    return rng.choice(("·", "·", " · ", ".", " ·")).join(out.split())


def long_s(rng: random.Random, text: str) -> str:
    """Long s everywhere but at the end of a word; `ss` at times as `ſs`."""
    out = re.sub(r"s(?=[a-z])", "ſ", text)
    if _chance(rng, 0.15):  # a mason who cuts it at the end of words too
        out = re.sub(r"(?<=[a-z])s\b", "ſ", out)
    return out.replace("ſſ", "ſs") if _chance(rng, 0.5) else out


def cut_case(rng: random.Random, text: str) -> str:
    """Capitals, sentence case or capitals at each word, as whole lines were cut."""
    pick = rng.random()
    if pick < 0.46:
        return text.upper().replace("ſ", "S")
    if pick < 0.60:
        return " ".join(word[:1].upper() + word[1:] for word in text.split(" "))
    if pick < 0.74:
        return text[:1].upper() + text[1:]
    return text


_MAKERS_OF_LINES = (
    (0.14, "opening", lambda rng: rng.choice(_OPENINGS)),
    (0.22, "name", person_name),
    (0.11, "relation", lambda rng: rng.choice(_RELATIONS) + ("" if _chance(rng, 0.4) else " " + person_name(rng))),
    (0.14, "date", lambda rng: (rng.choice(_PASSINGS) + " " if _chance(rng, 0.45) else "") + date(rng)),
    (0.09, "age", age),
    (0.06, "service", service),
    (0.05, "place", place),
    (0.13, "verse", verse),
    (0.015, "motto", lambda rng: rng.choice(_MOTTOES)),
    (0.01, "initials", initials),
    (0.015, "maker", maker),
    (0.02, "random", _letters_at_random),
)


# Signs a line may end with, common ones more than once.
_LINE_ENDS = (",", ",", ",", ",", ".", ".", ".", ".", ";", ";", ":", "—", "—", " —", "-", "–", " -", ".—", ":—", ",—", "!", "·", " ·", "”", '."', " &", " &c.")  # fmt: skip


def _finish(rng: random.Random, text: str) -> str:
    """Small habits that may stand on any line."""
    if _chance(rng, 0.18):
        text = text.replace(" and ", " & ").replace("and ", "& ")
    if _chance(rng, 0.05):
        text = text.replace("the ", "ye ", 1)
    if _chance(rng, 0.10):
        text = rng.choice((", ", "; ", ": ", ". ", " — ", ",")).join(text.split(" ", 1))
    if _chance(rng, 0.38) and text[-1:].isalnum():
        text += rng.choice(_LINE_ENDS)
    if _chance(rng, 0.14):
        text = long_s(rng, text)
    text = cut_case(rng, text)
    if text.isupper() and _chance(rng, 0.10):
        text = interpuncts(rng, text)
    if _chance(rng, 0.02):
        text = rng.choice(("† ", "* ", "- ", "+ ", "‡ ", "— ", "—", "· ", "&c. ")) + text
    if ("'" in text or '"' in text) and _chance(rng, 0.6):
        text = re.sub('"(?=\\w)', "“", text).replace('"', "”")
        text = text.replace("'", "’")
    return text


def line(rng: random.Random) -> Line:
    """One line on its own, at most MAX_CHARACTERS long, never empty."""
    pick, role, make = rng.random() * sum(m[0] for m in _MAKERS_OF_LINES), "", None
    for weight, role, make in _MAKERS_OF_LINES:
        pick -= weight
        if pick < 0:
            break
    text = make(rng)
    if role != "random" and _chance(rng, 0.08):
        text += rng.choice((" and ", " & ", ", ")) + given_name(rng)
    if _chance(rng, 0.05) and role in ("name", "relation"):
        text += rng.choice((", ", " ", "  ")) + age(rng)
    text = _finish(rng, text)[:MAX_CHARACTERS].strip()
    return Line(text if label(text) else "A", role)


def inscription(rng: random.Random) -> tuple[Line, ...]:
    """The lines of one stone from top to bottom, 1 to about 24 of them, each cased as cut.

    All lines of a role share their case, as on most stones.
    """
    pick = rng.random()
    if pick < 0.05:
        return (Line(initials(rng), "initials", large=True),)
    if pick < 0.10:
        return (Line(rng.choice(("Mother", "Father", "Baby", "Our Darling", "Wife", surname(rng))).upper(), "name", True),)

    lines: list[Line] = []
    if _chance(rng, 0.10):
        lines.append(Line(rng.choice(_MOTTOES), "motto"))
    if _chance(rng, 0.12):
        lines.append(Line(surname(rng), "name", large=True))
    if _chance(rng, 0.85):
        lines.append(Line(rng.choice(_OPENINGS), "opening"))
    for index in range(rng.choice((1, 1, 1, 2, 2, 3, 4))):
        if index:
            lines.append(Line(rng.choice(("also", "also of", "and", "and of", "and of his wife")), "relation"))
        lines.append(Line(person_name(rng), "name", large=_chance(rng, 0.6)))
        if _chance(rng, 0.4):
            lines.append(Line(f"{rng.choice(_RELATIONS)} {person_name(rng)}", "relation"))
        if _chance(rng, 0.2):
            lines.append(Line(service(rng), "service"))
        if _chance(rng, 0.25):
            lines.append(Line(place(rng), "place"))
        if _chance(rng, 0.9):
            lines.append(Line((rng.choice(_PASSINGS) + " " if _chance(rng, 0.6) else "") + date(rng), "date"))
        if _chance(rng, 0.7):
            lines.append(Line(age(rng), "age"))
    if _chance(rng, 0.5):
        lines.extend(Line(verse(rng), "verse") for _ in range(rng.choice((1, 1, 2, 4, 4))))
    if _chance(rng, 0.07):
        lines.append(Line(maker(rng), "maker"))

    case_of = {role: random.Random(rng.random()) for role in sorted({entry.role for entry in lines})}
    states = {role: source.getstate() for role, source in case_of.items()}
    cut = []
    for entry in lines[:24]:
        source = case_of[entry.role]
        source.setstate(states[entry.role])
        text = cut_case(source, entry.text)[:MAX_CHARACTERS].strip()
        cut.append(Line(text, entry.role, entry.large))
    return tuple(cut)
