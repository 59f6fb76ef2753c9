package rakelight.samples.inscriptions;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.TreeSet;
import java.util.function.Function;

/**
 * Text as cut, put together piece by piece. In what is put, {@code ^} raises the letter after it
 * and a line feed ends the line. A stretch that tells something is put by {@link #tell}, which
 * numbers it.
 */
final class InventedStone {
  /** What a line is. */
  enum Tone {
    PLAIN,
    /** Verse, scripture or comfort. */
    VERSE,
    /** May be taken for that or not. */
    EITHER
  }

  /** What is put without telling anything. */
  private static final int NOTHING = -1;

  /**
   * A letter, a space or a line feed.
   *
   * @param stretch the number of the stretch it belongs to, or less than 0
   */
  record Cut(char letter, boolean raised, int stretch, Tone tone) {
    boolean breaks() {
      return letter == '\n';
    }
  }

  private final List<Cut> cut = new ArrayList<>();
  private final List<InventedPerson> persons = new ArrayList<>();
  private final List<Function<Wear, String>> remarks = new ArrayList<>();
  private int stretches;
  private boolean capitals;
  private Tone tone = Tone.PLAIN;

  /** From here on all letters are capitals, or as they are put. */
  InventedStone capitals(boolean all) {
    capitals = all;
    return this;
  }

  InventedStone put(String text) {
    append(text, NOTHING);
    return this;
  }

  /** What is put from here on is this. */
  InventedStone tone(Tone of) {
    tone = of;
    return this;
  }

  /** Puts a stretch that tells something and returns its number. */
  int tell(String text) {
    append(text, stretches);
    return stretches++;
  }

  /** Puts a line of its own. */
  InventedStone line(String line, Tone of) {
    return endLine().tone(of).put(line).endLine().tone(Tone.PLAIN);
  }

  /** Ends the line if anything stands on it. */
  InventedStone endLine() {
    if (!cut.isEmpty() && !cut.get(cut.size() - 1).breaks()) {
      append("\n", NOTHING);
    }
    return this;
  }

  /** Somebody who stands on the stone. */
  InventedPerson person(InventedPerson.Role role) {
    InventedPerson person = new InventedPerson((char) ('a' + persons.size()), role);
    persons.add(person);
    return person;
  }

  /** A line about the stone as a whole. */
  void remark(Function<Wear, String> line) {
    remarks.add(line);
  }

  List<InventedPerson> persons() {
    return List.copyOf(persons);
  }

  List<Function<Wear, String>> remarks() {
    return List.copyOf(remarks);
  }

  List<Cut> cut() {
    return List.copyOf(cut);
  }

  /** Breaks lines longer than so many letters at spaces, also within names; verse is left alone. */
  void breakLines(int width) {
    int from = 0;
    int space = -1;
    for (int i = 0; i < cut.size(); i++) {
      Cut one = cut.get(i);
      if (one.breaks()) {
        from = i + 1;
        space = -1;
      } else if (one.letter() == ' ' && one.tone() != Tone.VERSE) {
        space = i;
      }
      if (i - from >= width && space > from) {
        cut.set(space, new Cut('\n', false, cut.get(space).stretch(), one.tone()));
        from = space + 1;
        space = -1;
      }
    }
  }

  /** The lines of a tone, from 1. */
  TreeSet<Integer> lines(Tone of) {
    TreeSet<Integer> lines = new TreeSet<>();
    int line = 1;
    for (Cut one : cut) {
      if (one.breaks()) {
        line++;
      } else if (one.tone() == of) {
        lines.add(line);
      }
    }
    return lines;
  }

  /** One of several, any as likely. */
  @SafeVarargs
  static <T> T any(Random random, T... of) {
    return of[random.nextInt(of.length)];
  }

  private void append(String text, int stretch) {
    boolean raised = false;
    for (char letter : text.toCharArray()) {
      if (letter == '^') {
        raised = true;
        continue;
      }
      while (letter == '\n' && !cut.isEmpty() && cut.get(cut.size() - 1).letter() == ' ') {
        cut.remove(cut.size() - 1);
      }
      boolean lineBegins = cut.isEmpty() || cut.get(cut.size() - 1).breaks();
      if ((letter == ' ' || letter == '\n') && lineBegins) {
        continue;
      }
      char as = capitals ? Character.toUpperCase(letter) : letter;
      cut.add(new Cut(as, raised, stretch, tone));
      raised = false;
    }
  }
}
