package rakelight.samples.inscriptions;

import static rakelight.samples.inscriptions.InventedStone.any;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.function.Function;
import rakelight.samples.inscriptions.InventedPerson.Role;
import rakelight.samples.inscriptions.InventedStone.Tone;

/** Puts one inscription together: a style, a form of stone usual in it, and the words of both. */
final class InventedInscription {
  private static final int DAYS_A_YEAR = 365;

  /** Somebody's life, before anything of it is cut. */
  private record Life(String given, boolean woman, LocalDate birth, LocalDate death) {}

  private static final String[] TRADES =
      ("Blacksmith Wheelwright Cordwainer Grocer Maltster Farmer Yeoman Shipwright Tailor Weaver"
              + " Mariner Merchant Surgeon Schoolmaster Carpenter Miller Saddler Tanner")
          .split(" ");
  private static final String[] CAUSES = {
    "was drowned",
    "was accidentally killed",
    "died of cholera",
    "died of a fever",
    "was lost at sea",
  };
  private static final String[][] VERSES = {
    {"Afflictions sore long time I bore", "Physicians were in vain"},
    {"Farewell vain world I know enough of thee", "And now am careless what thou say'st of me"},
    {"As you are now so once was I", "As I am now so you must be"},
    {"Weep not for me my friends so dear", "I am not dead but sleeping here"},
    {"A light is from our household gone", "A voice we loved is stilled"},
    {"Sweet flower cut down in early May", "With angels now she sings all day"},
    {"My brother rests beneath this stone", "And John his friend is left alone"},
    {"Peace perfect peace"},
    {"Until the day break"},
    {"Thy will be done"},
    {"Blessed are the dead which die in the Lord"},
    {"Not lost but gone before"},
    {"Gone but not forgotten"},
    {"Rock of ages cleft for me"},
    {"Psalm xc. 12"},
  };

  private final Random random;
  private final InventedNames names;
  private final Style style;
  private final InventedStone stone = new InventedStone();
  private final boolean capitals;
  private final boolean nameInCapitals;

  private InventedInscription(Random random) {
    this.random = random;
    names = new InventedNames(random);
    style = any(random, Style.values());
    capitals =
        random.nextInt(100)
            < switch (style) {
              case MODERN -> 55;
              case AMERICAN -> 35;
              case VICTORIAN, IRISH, SCOTTISH -> 20;
              case EARLY -> 20;
              default -> 5;
            };
    nameInCapitals = random.nextInt(4) > 0;
    stone.capitals(capitals);
  }

  /** An inscription by chance. */
  static InventedStone of(Random random) {
    InventedInscription one = new InventedInscription(random);
    one.cut();
    return one.stone;
  }

  private void cut() {
    switch (style) {
      case MODERN -> {
        switch (random.nextInt(6)) {
          case 0 -> columns();
          case 1 -> soldier();
          case 2 -> leftBehind();
          case 3 -> mourned();
          default -> couple();
        }
      }
      case AMERICAN -> {
        switch (random.nextInt(6)) {
          case 0, 1 -> columns();
          case 2 -> single();
          case 3 -> child();
          default -> bornAndDied();
        }
      }
      case IRISH -> {
        if (random.nextInt(4) > 0) {
          erectedInMemory();
        } else {
          single();
        }
      }
      case SCOTTISH -> {
        switch (random.nextInt(3)) {
          case 0 -> hereLiesWithSpouse();
          case 1 -> erectedByHusband();
          default -> single();
        }
      }
      case LATIN -> latin();
      default -> {
        switch (random.nextInt(8)) {
          case 0, 1 -> single();
          case 2 -> couple();
          case 3 -> husbandFirst();
          case 4 -> child();
          case 5 -> widow();
          case 6 -> children();
          default -> family();
        }
      }
    }
    stone.endLine();
    if (style == Style.SCOTTISH) {
      stone.remark(wear -> "calendar scottish");
    }
    if (style.old() || random.nextInt(5) == 0) {
      stone.breakLines(15 + random.nextInt(14));
    }
  }

  // ---- the forms

  private void single() {
    Life life = life(random.nextBoolean(), style.someDay(random), 1, 90);
    formula();
    InventedPerson person = title(life);
    name(person, life.given(), names.surname(style));
    if (!life.woman() && random.nextInt(3) == 0) {
      trade(person, true);
    } else if (random.nextInt(3) == 0) {
      place(person);
    }
    stone.endLine();
    if (!life.woman() && random.nextInt(5) == 0) {
      cause(person, life);
    } else {
      died(person, life, true);
    }
    verse();
    maker();
  }

  /** Wife first, then "the above". */
  private void couple() {
    LocalDate first = style.someDay(random);
    Life wife = life(true, first, 22, 70);
    Life husband = spouse(wife, false);
    String surname = names.surname(style);
    formula();
    InventedPerson a = stone.person(Role.COMMEMORATED);
    given(a, wife.given());
    stone.put(any(random, ", ", " ", "\n"));
    stone.put(any(random, "wife of ", "the wife of ", "the beloved wife of ", "beloved wife of "));
    InventedPerson b = stone.person(Role.COMMEMORATED);
    if (random.nextInt(4) == 0) {
      stone.put("Mr. ");
    }
    name(b, husband.given(), surname);
    a.surnameOf(b).kin("wife", b);
    stone.endLine();
    died(a, wife, true);
    stone.put(
        any(random, "Also of the above ", "Also the above named ", "Also of the said ", "Also "));
    name(b, husband.given(), surname);
    stone.endLine();
    died(b, husband, true);
    verse();
    maker();
  }

  private void husbandFirst() {
    Life husband = life(false, style.someDay(random), 30, 70);
    Life wife = spouse(husband, true);
    formula();
    InventedPerson a = stone.person(Role.COMMEMORATED);
    name(a, husband.given(), names.surname(style));
    if (random.nextInt(3) == 0) {
      trade(a, random.nextBoolean());
    }
    stone.endLine();
    died(a, husband, true);
    wifeAfter(a, wife, wife.death().isAfter(husband.death()));
    verse();
  }

  private void family() {
    Life husband = life(false, style.someDay(random), 45, 80);
    Life wife = spouse(husband, true);
    formula();
    InventedPerson a = stone.person(Role.COMMEMORATED);
    name(a, husband.given(), names.surname(style));
    stone.endLine();
    died(a, husband, true);
    InventedPerson b = wifeAfter(a, wife, wife.death().isAfter(husband.death()));
    int count = 1 + random.nextInt(3);
    if (count > 1 && random.nextBoolean()) {
      stone.put(
          any(random, "Also of their children", "and of the following children of the above"));
      stone.endLine();
      for (int i = 0; i < count; i++) {
        Life child = childOf(husband, wife);
        InventedPerson c = stone.person(Role.COMMEMORATED);
        given(c, child.given());
        c.surnameOf(a);
        stone.put(" ");
        died(c, child, false);
        c.kin("child / " + (child.woman() ? "daughter" : "son"), a);
        c.kin("child / " + (child.woman() ? "daughter" : "son"), b);
      }
    } else {
      for (int i = 0; i < count; i++) {
        childAfter(a, b, husband, wife);
      }
    }
    verse();
  }

  private void child() {
    LocalDate death = style.someDay(random);
    Life child = life(random.nextBoolean(), death, 0, 12);
    formula();
    InventedPerson a = stone.person(Role.COMMEMORATED);
    given(a, child.given());
    stone.endLine();
    String relation = child.woman() ? "daughter" : "son";
    stone.put(
        any(
            random,
            relation + " of ",
            "the " + relation + " of ",
            "infant " + relation + " of ",
            child.woman() ? "dau. of " : "only son of "));
    parents(a, relation);
    stone.endLine();
    died(a, child, true);
    verse();
  }

  private void children() {
    LocalDate death = style.someDay(random);
    Life one = life(false, death, 0, 20);
    Life two = life(true, death.plusDays(random.nextInt(3000)), 0, 20);
    formula();
    List<InventedPerson> both = new ArrayList<>();
    for (Life life : List.of(one, two)) {
      InventedPerson c = stone.person(Role.COMMEMORATED);
      if (both.size() == 1) {
        stone.put(any(random, "also ", "and "));
      }
      given(c, life.given());
      stone.put(" ");
      died(c, life, false);
      both.add(c);
    }
    stone.put("children of ");
    InventedPerson father = stone.person(Role.KIN);
    InventedPerson mother = stone.person(Role.KIN);
    pair(father, mother);
    for (InventedPerson c : both) {
      String relation = "child / " + (c == both.get(0) ? "son" : "daughter");
      c.surnameOf(father).kin(relation, father).kin(relation, mother);
    }
    verse();
  }

  private void widow() {
    Life woman = life(true, style.someDay(random), 50, 92);
    formula();
    InventedPerson a = title(woman);
    given(a, woman.given());
    stone.endLine();
    String word = any(random, "relict", "widow");
    stone.put(any(random, word + " of ", word + " of the late ", "the " + word + " of "));
    InventedPerson husband = stone.person(Role.KIN);
    name(husband, names.given(false, style), names.surname(style));
    a.surnameOf(husband).kin(word, husband);
    if (random.nextBoolean()) {
      stone.endLine().put(any(random, "and daughter of ", "daughter of "));
      InventedPerson father = stone.person(Role.KIN);
      String maiden = names.surname(style);
      int at = name(father, names.given(false, style), maiden);
      a.kin("daughter", father).maiden(maiden, at).maiden("", -1);
    }
    stone.endLine();
    died(a, woman, true);
    verse();
    maker();
  }

  private void erectedInMemory() {
    Life life = life(false, style.someDay(random), 20, 85);
    if (random.nextInt(3) == 0) {
      stone.line(any(random, "I.H.S.", "I H S"), Tone.EITHER);
    }
    stone.put(any(random, "Erected by ", "Erected\nby ", "This stone was erected by "));
    InventedPerson m = stone.person(Role.MOURNER);
    String surname = names.surname(style);
    boolean wife = random.nextBoolean();
    name(m, names.given(wife, style), surname);
    if (!wife && random.nextBoolean()) {
      stone.put(" of " + names.place());
    }
    stone.endLine().put("in memory of ");
    stone.put(wife ? "her husband " : any(random, "his father ", "his beloved father "));
    InventedPerson a = stone.person(Role.COMMEMORATED);
    name(a, life.given(), surname);
    a.kin(wife ? "husband" : "father", m);
    stone.endLine();
    died(a, life, true);
    if (!wife && random.nextBoolean()) {
      Life mother = spouse(life, true);
      stone.put(any(random, "Also his mother ", "and of his mother "));
      InventedPerson b = stone.person(Role.COMMEMORATED);
      String maiden = names.surname(style);
      name(b, mother.given(), surname);
      stone.put(any(random, " alias ", " otherwise ", " née "));
      b.maiden(maiden, tellName(maiden));
      b.kin("mother", m);
      stone.endLine();
      died(b, mother, true);
    }
    if (random.nextInt(3) == 0) {
      stone.line(any(random, "Requiescat in pace", "May he rest in peace Amen"), Tone.VERSE);
    }
  }

  private void hereLiesWithSpouse() {
    Life husband = life(false, style.someDay(random), 30, 85);
    Life wife = spouse(husband, true);
    stone.put(any(random, "Here lyes ", "Here lyes the corps of ", "Here lies interred "));
    InventedPerson a = stone.person(Role.COMMEMORATED);
    name(a, husband.given(), names.surname(style));
    if (random.nextBoolean()) {
      trade(a, true);
    }
    stone.endLine();
    died(a, husband, true);
    stone.put("and ");
    scottishWife(a, wife, " his spouse");
    stone.endLine();
    died(stone.persons().get(1), wife, true);
  }

  private void erectedByHusband() {
    Life husband = life(false, style.someDay(random), 45, 85);
    Life wife = spouse(husband, true);
    boolean alsoHis = random.nextBoolean();
    stone.put(any(random, "Erected by ", "ERECTED\nBY "));
    InventedPerson a = stone.person(alsoHis ? Role.COMMEMORATED : Role.MOURNER);
    String surname = names.surname(style);
    name(a, husband.given(), surname);
    if (random.nextBoolean()) {
      trade(a, true);
    }
    stone.endLine().put("in memory of his ").put(any(random, "wife ", "spouse "));
    scottishWife(a, wife, "");
    InventedPerson b = stone.persons().get(1);
    stone.endLine();
    died(b, wife, true);
    int count = random.nextInt(3);
    for (int i = 0; i < count; i++) {
      childAfter(a, b, husband, wife);
    }
    if (alsoHis) {
      stone.put(any(random, "The said ", "Also the said ", "The above "));
      name(a, husband.given(), surname);
      stone.endLine();
      died(a, husband, true);
    }
  }

  private void scottishWife(InventedPerson husband, Life wife, String after) {
    InventedPerson b = stone.person(Role.COMMEMORATED);
    String own = names.surname(style);
    int at = name(b, wife.given(), own);
    b.surnameOf(husband).maiden(own, at).maiden("", -1);
    b.kin("wife / spouse", husband);
    stone.put(after);
  }

  private void bornAndDied() {
    Life life = life(random.nextBoolean(), style.someDay(random), 1, 88);
    InventedPerson a = stone.person(Role.COMMEMORATED);
    if (life.woman() && random.nextBoolean()) {
      given(a, life.given());
      stone.endLine().put(any(random, "wife of ", "WIFE OF\n"));
      InventedPerson b = stone.person(Role.KIN);
      name(b, names.given(false, style), names.surname(style));
      a.surnameOf(b).kin("wife", b);
    } else {
      name(a, life.given(), names.surname(style));
    }
    stone.endLine().put(any(random, "Born ", "BORN\n", "b. "));
    a.fact(day(life.birth()).put(stone, "birth"));
    stone.endLine().put(any(random, "Died ", "DIED\n", "d. "));
    a.fact(day(life.death()).put(stone, "death"));
    stone.endLine();
    if (random.nextBoolean()) {
      a.fact(age(life));
      stone.endLine();
    }
    verse();
  }

  /** A surname above or below, then names with years. */
  private void columns() {
    Life husband = life(false, style.someDay(random), 40, 90);
    Life wife = spouse(husband, true);
    String surname = names.surname(style);
    boolean above = random.nextInt(3) > 0;
    List<InventedPerson> all = new ArrayList<>();
    int at = -1;
    if (above) {
      at = tellName(surname.toUpperCase(Locale.ROOT));
      stone.endLine();
    }
    String between = any(random, " - ", "-", " – ");
    boolean oneLine = random.nextBoolean();
    boolean said = random.nextBoolean();
    for (Life life : List.of(husband, wife)) {
      InventedPerson p = stone.person(Role.COMMEMORATED);
      if (life.woman() && said) {
        stone.put(any(random, "his wife ", "wife "));
        p.kin("wife", all.get(0));
      }
      given(p, life.given());
      stone.put(oneLine ? " " : "\n");
      p.fact(day(life.birth()).putYear(stone, "birth"));
      stone.put(between);
      p.fact(day(life.death()).putYear(stone, "death"));
      stone.endLine();
      all.add(p);
    }
    if (!above) {
      at = tellName(surname.toUpperCase(Locale.ROOT));
      stone.endLine();
    }
    for (InventedPerson p : all) {
      p.surname(surname, at);
    }
    verse();
  }

  private void soldier() {
    boolean second = random.nextBoolean();
    LocalDate death =
        LocalDate.of(second ? 1939 : 1914, 10, 1).plusDays(random.nextInt(4 * DAYS_A_YEAR));
    stone.capitals(true);
    InventedPerson a = stone.person(Role.COMMEMORATED);
    if (random.nextBoolean()) {
      stone.put(10000 + random.nextInt(80000) + " ");
    }
    String rank = any(random, "Private", "Corporal", "Serjeant", "Gunner", "Lieutenant", "Driver");
    a.words("rank", rank.toUpperCase(Locale.ROOT), stone.tell(rank));
    stone.endLine();
    char initial = (char) ('A' + random.nextInt(20));
    char other = (char) ('A' + random.nextInt(20));
    int given = stone.tell(initial + ". " + other + ".");
    a.given(initial + " " + other, given);
    stone.put(" ");
    String surname = names.surname(Style.VICTORIAN);
    a.surname(surname, tellName(surname));
    stone.endLine();
    String unit =
        any(
            random,
            "Royal " + names.place() + " Fusiliers",
            "The " + names.place() + " Regiment",
            "Royal Garrison Artillery",
            names.place() + " Light Infantry");
    a.words("unit", unit, stone.tell(unit));
    stone.endLine();
    int day = stone.tell(Integer.toString(death.getDayOfMonth()));
    stone.put(CarvedDay.ending(death.getDayOfMonth()) + " ");
    int month = stone.tell(death.getMonth().name());
    stone.put(" ");
    int year = stone.tell(Integer.toString(death.getYear()));
    a.fact(
        wear ->
            (wear.left(year).equals("????") ? "?" : "")
                + (wear.touches(day) || wear.touches(month) || wear.touches(year) ? "worn " : "")
                + "death "
                + death);
    if (random.nextBoolean()) {
      int years = 18 + random.nextInt(20);
      stone.put(any(random, "\nAGE ", "  AGE ", "\nAGED "));
      int figures = stone.tell(Integer.toString(years));
      a.fact(
          wear ->
              (wear.left(figures).equals("??") ? "?" : "")
                  + (wear.touches(figures) ? "worn " : "")
                  + "age P"
                  + years
                  + "Y"
                  + (wear.left(figures).matches("\\d+") && wear.touches(figures)
                      ? " / P" + wear.left(figures) + "Y"
                      : ""));
    }
    stone.endLine();
    verse();
  }

  /** One dead and one for whom space is left. */
  private void leftBehind() {
    Life husband =
        life(false, LocalDate.of(1965, 1, 1).plusDays(random.nextInt(24 * DAYS_A_YEAR)), 45, 80);
    formula();
    InventedPerson a = stone.person(Role.COMMEMORATED);
    name(a, husband.given(), names.surname(style));
    stone.endLine();
    died(a, husband, true);
    boolean said = random.nextInt(3) > 0;
    stone.put(said ? any(random, "Also his wife ", "and his beloved wife ") : "Also of ");
    InventedPerson b = stone.person(Role.COMMEMORATED);
    given(b, names.given(true, style));
    b.surnameOf(a);
    if (said) {
      b.kin("wife", a);
    }
    b.fact("living");
    stone.endLine();
    switch (random.nextInt(3)) {
      case 0 -> stone.put("died");
      case 1 -> b.fact(day(husband.birth().plusDays(900)).putYear(stone, "birth"));
      default -> stone.put("who died");
    }
    stone.endLine();
  }

  private void mourned() {
    Life life =
        life(
            random.nextBoolean(),
            LocalDate.of(1960, 1, 1).plusDays(random.nextInt(29 * DAYS_A_YEAR)),
            30,
            85);
    stone.put(
        any(
            random,
            "Treasured memories of",
            "In loving memory of a dear " + (life.woman() ? "mum" : "dad")));
    stone.endLine();
    InventedPerson a = stone.person(Role.COMMEMORATED);
    name(a, life.given(), names.surname(style));
    stone.endLine();
    died(a, life, true);
    stone.tone(Tone.EITHER);
    stone.put(
        any(random, "Sadly missed by ", "Always in the thoughts of ", "Loved by ", "Erected by "));
    int count = 1 + random.nextInt(3);
    for (int i = 0; i < count; i++) {
      InventedPerson m = stone.person(Role.MOURNER);
      if (i > 0) {
        stone.put(i == count - 1 ? " and " : ", ");
      }
      given(m, names.givenToday(random.nextBoolean()));
      m.surname("", -1).surnameOf(a).fact("living");
    }
    if (random.nextBoolean()) {
      stone.put(any(random, " and family", " and the grandchildren"));
    }
    stone.endLine().tone(Tone.PLAIN);
  }

  private void latin() {
    Life life = life(random.nextInt(3) == 0, style.someDay(random), 18, 85);
    stone.line(
        any(random, "Hic jacet", "H. S. E.", "Hic situs est", "M. S.", "Hic requiescit"),
        Tone.EITHER);
    InventedPerson a = stone.person(Role.COMMEMORATED);
    String[] men = {"Gulielmus", "Johannes", "Thomas", "Robertus", "Henricus", "Carolus"};
    String[] women = {"Maria", "Anna", "Elizabetha", "Sara", "Francisca"};
    String given = any(random, life.woman() ? women : men);
    a.given(given, tellName(given));
    stone.put(" ");
    if (life.woman()) {
      stone.put("uxor ");
      InventedPerson b = stone.person(Role.KIN);
      String husband = any(random, "Gulielmi", "Johannis", "Thomae", "Roberti");
      b.given(husband, tellName(husband));
      stone.put(" ");
      String surname = names.surname(style);
      b.surname(surname, tellName(surname));
      a.surnameOf(b).kin("wife / uxor", b);
    } else {
      String surname = names.surname(style);
      a.surname(surname, tellName(surname));
    }
    stone.endLine();
    stone.put(any(random, "obiit ", "ob. ", life.woman() ? "quae obiit " : "qui obiit "));
    a.fact(day(life.death()).put(stone, "death"));
    stone.endLine();
    a.fact(age(life));
    stone.endLine();
  }

  // ---- the words

  private void formula() {
    String line =
        switch (style) {
          case EARLY, NEW_ENGLAND ->
              any(
                  random,
                  "Here lyeth the Body of ",
                  "Here lyes y^e Body of ",
                  "Here lies interred ",
                  "In Memory of ",
                  "Here Lies Buried ");
          case GEORGIAN, WELSH ->
              any(
                  random,
                  "Sacred to the Memory of\n",
                  "In Memory of\n",
                  "To the Memory of ",
                  "Here lie the Remains of\n",
                  "Near this place lieth ");
          case AMERICAN -> any(random, "", "", "In memory of\n");
          case MODERN -> any(random, "In loving memory of\n", "In memory of\n", "Here rests\n");
          case SCOTTISH -> any(random, "Here lyes ", "In memory of ", "Sacred to the memory of\n");
          default ->
              any(
                  random,
                  "In Memory of\n",
                  "Sacred to the Memory of\n",
                  "In affectionate remembrance of\n",
                  "In loving memory of\n",
                  "Erected to the memory of\n");
        };
    stone.put(line);
  }

  private InventedPerson title(Life life) {
    InventedPerson person = stone.person(Role.COMMEMORATED);
    if (random.nextInt(4) == 0) {
      String mr = life.woman() ? "Mrs" : "Mr";
      stone.put(style.old() ? (life.woman() ? "M^r^s " : "M^r ") : mr + ". ");
    }
    return person;
  }

  /** Given name and surname; the stretch of the surname. */
  private int name(InventedPerson person, String given, String surname) {
    given(person, given);
    stone.put(" ");
    int at = tellName(surname);
    person.surname(surname, at);
    return at;
  }

  private void given(InventedPerson person, String given) {
    String brief = InventedNames.shortFor(given);
    boolean cutShort = !brief.isEmpty() && random.nextInt(6) == 0;
    person.given(given, cutShort ? -1 : tellName(given));
    if (cutShort) {
      boolean dot = !style.old() && brief.indexOf(' ') < 0 && random.nextBoolean();
      person.given(brief, tellName(brief));
      stone.put(dot ? "." : "");
    }
  }

  private int tellName(String name) {
    stone.capitals(capitals || nameInCapitals);
    int at = stone.tell(name);
    stone.capitals(capitals);
    return at;
  }

  private void trade(InventedPerson person, boolean withPlace) {
    String trade = any(random, TRADES);
    stone.put(any(random, ", ", "\n", ", "));
    person.words("trade", trade, stone.tell(trade));
    if (withPlace) {
      String place = names.place();
      stone.put(any(random, " of ", " in "));
      int at = stone.tell(place);
      person.fact(wear -> "?origin " + place + " / " + wear.left(at));
    }
  }

  private void place(InventedPerson person) {
    String place = names.place();
    stone.put(any(random, "\nof ", "\nlate of ", " of ", "\na native of "));
    person.words("origin", place, stone.tell(place));
  }

  private void died(InventedPerson person, Life life, boolean who) {
    stone.put(who && random.nextInt(3) > 0 ? "who " : "");
    stone.put(
        switch (style) {
          case EARLY, NEW_ENGLAND ->
              any(random, "departed this Life ", "dyed ", "Died ", "died ", "deceas'd ");
          case MODERN -> any(random, "died ", "passed away ", "fell asleep ", "died ");
          case AMERICAN -> any(random, "died ", "d. ", "died ");
          default -> any(random, "died ", "departed this life ", "died on ", "died ");
        });
    person.fact(day(life.death()).put(stone, "death"));
    stone.put(any(random, "\n", ", ", " "));
    if (random.nextInt(8) > 0) {
      person.fact(age(life));
    }
    stone.endLine();
  }

  private void cause(InventedPerson person, Life life) {
    String cause = any(random, CAUSES);
    stone.put(any(random, "who ", "Who "));
    int at = cause.lastIndexOf("died of ") >= 0 ? 8 : 4;
    stone.put(cause.substring(0, at));
    String words = cause.substring(at);
    person.words("cause", words, stone.tell(words));
    if (random.nextInt(3) == 0) {
      stone.put(any(random, " at ", " near ") + names.place());
    } else if (words.equals("lost at sea") && random.nextBoolean()) {
      stone.put(" in the " + names.ship());
    }
    stone.endLine();
    person.fact(day(life.death()).put(stone, "death"));
    stone.put(any(random, "\n", " "));
    person.fact(age(life));
    stone.endLine();
  }

  private InventedPerson wifeAfter(InventedPerson husband, Life wife, boolean outlives) {
    InventedPerson b = stone.person(Role.COMMEMORATED);
    String word = outlives ? any(random, "wife", "relict", "widow") : "wife";
    if (random.nextBoolean()) {
      stone.put(any(random, "Also ", "Also of ", "and of "));
      given(b, wife.given());
      stone.put(
          any(random, " his " + word, ", " + word + " of the above", " " + word + " of the above"));
    } else {
      stone.put(any(random, "Also his " + word + " ", "Also of his " + word + " "));
      given(b, wife.given());
    }
    b.surnameOf(husband);
    b.kin(word, husband);
    stone.endLine();
    died(b, wife, true);
    return b;
  }

  private void childAfter(InventedPerson a, InventedPerson b, Life husband, Life wife) {
    Life child = childOf(husband, wife);
    String relation = child.woman() ? "daughter" : "son";
    InventedPerson c = stone.person(Role.COMMEMORATED);
    if (random.nextBoolean()) {
      stone.put(any(random, "Also ", "Also of ", "and "));
      given(c, child.given());
      stone.put(any(random, " their " + relation, ", " + relation + " of the above"));
      c.kin(relation, a).kin(relation, b);
    } else {
      stone.put(any(random, "Also their " + relation + " ", "and their " + relation + " "));
      given(c, child.given());
      c.kin(relation, a).kin(relation, b);
    }
    c.surnameOf(a);
    stone.endLine();
    died(c, child, true);
  }

  private void parents(InventedPerson of, String relation) {
    InventedPerson father = stone.person(Role.KIN);
    if (random.nextInt(4) == 0) {
      name(father, names.given(false, style), names.surname(style));
      of.surnameOf(father).kin(relation, father);
    } else {
      InventedPerson mother = stone.person(Role.KIN);
      pair(father, mother);
      of.surnameOf(father).kin(relation, father).kin(relation, mother);
    }
  }

  /** "John and Mary Surname". */
  private void pair(InventedPerson father, InventedPerson mother) {
    given(father, names.given(false, style));
    stone.put(any(random, " and ", " & "));
    name(mother, names.given(true, style), names.surname(style));
    father.surnameOf(mother);
  }

  private void verse() {
    if (random.nextInt(3) == 0) {
      stone.endLine();
      for (String line : any(random, VERSES)) {
        stone.line(line, Tone.VERSE);
      }
    }
  }

  private void maker() {
    if (random.nextInt(14) == 0) {
      String maker = (char) ('A' + random.nextInt(20)) + ". " + names.surname(Style.GEORGIAN);
      stone.endLine();
      int at = stone.tell(maker);
      stone.put(any(random, " sc.", " fecit", ", Sculptor")).endLine();
      stone.remark(wear -> "maker " + maker + " / " + wear.left(at));
    }
  }

  // ---- lives

  private Life life(boolean woman, LocalDate death, int youngest, int oldest) {
    int days = (youngest * DAYS_A_YEAR) + random.nextInt((oldest - youngest) * DAYS_A_YEAR);
    return new Life(names.given(woman, style), woman, death.minusDays(Math.max(1, days)), death);
  }

  /** Somebody about as old, who died at another time that the style still reaches. */
  private Life spouse(Life of, boolean woman) {
    LocalDate birth = of.birth().plusDays(random.nextInt(3000) - 1500L);
    LocalDate adult = birth.isAfter(of.birth()) ? birth.plusYears(22) : of.birth().plusYears(22);
    LocalDate death = adult.plusDays(random.nextInt(60 * DAYS_A_YEAR));
    for (int tries = 0; !style.reaches(death) && tries < 20; tries++) {
      death = adult.plusDays(random.nextInt(30 * DAYS_A_YEAR));
    }
    if (death.isBefore(adult)) {
      death = adult;
    }
    return new Life(names.given(woman, style), woman, birth, death);
  }

  private Life childOf(Life father, Life mother) {
    LocalDate from =
        (father.birth().isAfter(mother.birth()) ? father.birth() : mother.birth()).plusYears(19);
    LocalDate to = father.death().isBefore(mother.death()) ? father.death() : mother.death();
    long span = Math.max(1, ChronoUnit.DAYS.between(from, to));
    LocalDate birth =
        from.plusDays((long) (random.nextDouble() * Math.min(span, 20L * DAYS_A_YEAR)));
    int days = random.nextInt(random.nextBoolean() ? 4 * DAYS_A_YEAR : 40 * DAYS_A_YEAR);
    boolean woman = random.nextBoolean();
    return new Life(names.given(woman, style), woman, birth, birth.plusDays(1L + days));
  }

  private CarvedDay day(LocalDate date) {
    return new CarvedDay(date, style, random);
  }

  private Function<Wear, String> age(Life life) {
    return new CarvedAge(stone, style, random).put(life.birth(), life.death(), life.woman());
  }
}
