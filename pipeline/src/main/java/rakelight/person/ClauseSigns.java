package rakelight.person;

import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import rakelight.person.Clause.Type;

/**
 * What a clause and its neighbours look like: signs of a few words each, which {@link
 * ClauseWeights} weighs. Words of inscriptions stand for themselves, others for their class (a
 * given name, another name, a number, a year).
 */
final class ClauseSigns {
  /** Takes signs. Each is what is looked at and up to four words; none is "". */
  interface Each {
    void sign(String looked, String a, String b, String c, String d);
  }

  private static final String[] LENGTHS = {"0", "1", "2", "3", "4", "5", "6+"};

  /** A clause may begin and end a line, or not. */
  private static final String[] EDGES = {".", "|.", ".|", "||"};

  private final List<CarvedWord> words;
  private final List<String> classes = new ArrayList<>();
  private final List<String> shapes = new ArrayList<>();
  private final Map<Clause, String> said = new IdentityHashMap<>();

  ClauseSigns(List<CarvedWord> words) {
    this.words = words;
    for (int i = 0; i < words.size(); i++) {
      CarvedWord word = words.get(i);
      boolean blank = word.isGap() || word.folded().isEmpty();
      String plain = blank ? "@gap" : WordPairs.classOf(words, i, PersonWords.OF_INSCRIPTIONS);
      classes.add(!blank && word.isDoubtful() ? plain + "?" : plain);
      shapes.add(shape(word));
    }
  }

  private static String shape(CarvedWord word) {
    if (word.isAllCapitals()) {
      return "AA";
    }
    return word.isInitial() ? "A" : word.isCapitalised() ? "Aa" : word.hasFigure() ? "9" : "a";
  }

  private String at(int i) {
    return i < 0 ? "^" : i >= words.size() ? "$" : classes.get(i);
  }

  private boolean beginsLine(int i) {
    return i == 0 || i >= words.size() || words.get(i - 1).line() != words.get(i).line();
  }

  /** The signs of a clause by itself. */
  void of(Clause c, Each each) {
    if (c.is(Type.START, Type.END)) {
      return;
    }
    String type = c.type().name();
    boolean begins = beginsLine(c.from());
    boolean ends = beginsLine(c.to());
    String edges = EDGES[(begins ? 1 : 0) + (ends ? 2 : 0)];
    boolean comma = c.from() > 0 && words.get(c.from() - 1).endsWith(",");
    boolean closed = words.get(c.to() - 1).endsWith(",");
    String length = LENGTHS[Math.min(LENGTHS.length - 1, c.to() - c.from())];
    each.sign("is", type, "", "", "");
    each.sign("length", type, length, edges, "");
    each.sign("first", type, at(c.from()), "", "");
    each.sign("last", type, at(c.to() - 1), "", "");
    each.sign("before", type, at(c.from() - 1), begins ? "|" : "", "");
    each.sign("after", type, at(c.to()), ends ? "|" : "", "");
    each.sign("line", type, line(c), edges, "");
    each.sign("shape", type, shapes.get(c.from()), edges, "");
    each.sign("says", type, said(c), "", "");
    each.sign("says", type, said(c), edges, "");
    each.sign("comma", type, comma ? "," : "", closed ? "," : "", "");
  }

  /** The signs of one clause behind another that are the same for all of the two kinds here. */
  void ofKinds(Clause before, Clause c, Each each) {
    String first = before.type().name();
    String type = c.type().name();
    String line = beginsLine(c.from()) ? "|" : "";
    each.sign("pair", first, type, "", "");
    each.sign("pair line", first, type, line, "");
    each.sign("pair first", first, type, at(c.from()), "");
    each.sign("pair last", first, type, at(before.to() - 1), line);
  }

  /** The sign of what two clauses say, one behind another. */
  void ofSaid(Clause before, Clause c, Each each) {
    each.sign("pair says", before.type().name(), c.type().name(), said(before), said(c));
  }

  private String line(Clause c) {
    int line = words.get(c.from()).line();
    if (line == 0) {
      return "top";
    }
    boolean last = line == words.get(words.size() - 1).line();
    return last ? "foot" : line < 3 ? "high" : "low";
  }

  private String said(Clause c) {
    return said.computeIfAbsent(c, ClauseSigns::whatIsSaid);
  }

  private static String whatIsSaid(Clause c) {
    Clause.Content content = c.content();
    if (content instanceof Clause.Names n) {
      NameWords.Bearer last = n.names().bearers().get(n.names().bearers().size() - 1);
      String form = last.onlyGiven() ? "given" : last.name().given().isEmpty() ? "none" : "full";
      String above = n.names().above() ? "above " : "";
      return above + n.names().bearers().size() + form + last.name().titles().size();
    }
    if (content instanceof Clause.Kin k) {
      String of = k.kin().of() ? " of" : "";
      String his = k.kin().possessor().isEmpty() ? "" : " his";
      return k.kin().relation() + of + his + (k.kin().names().isEmpty() ? "" : " named");
    }
    if (content instanceof Clause.Event e) {
      String dates = e.dates().size() + (e.dates().isEmpty() ? "" : length(e.dates().get(0)));
      String cause = e.cause().isPresent() ? " cause" : "";
      return e.kinds() + dates + cause + (e.place().isEmpty() ? "" : " place");
    }
    if (content instanceof Clause.Span s) {
      return s.death().isPresent() ? "closed" : "open";
    }
    return content instanceof Clause.Aged a ? a.age().said() ? "said" : "bare" : "";
  }

  private static String length(DateWords.Found date) {
    return " of " + date.value().length();
  }
}
