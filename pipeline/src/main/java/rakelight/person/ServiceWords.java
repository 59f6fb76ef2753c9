package rakelight.person;

import java.util.List;
import java.util.Optional;

/** Finds service under arms, a war or an office at a place in the words of a reading. */
final class ServiceWords {
  private static final int LONGEST_UNIT_WORDS = 7;

  /** Service found, and the word after it. */
  record Found(int end, Detail.Service service) {}

  private final List<CarvedWord> words;

  ServiceWords(List<CarvedWord> words) {
    this.words = words;
  }

  /**
   * {@code CO. B / 3 SKER. INF.}, {@code PVT. 5 RIFLES}, {@code CIVIL WAR}, {@code FOR 31 YEARS
   * MINISTER}.
   *
   * @param afterName whether a name with a comma goes before, so that a bare office is believed
   */
  Optional<Found> at(int start, boolean afterName) {
    Optional<Found> office = office(start, afterName);
    if (office.isPresent()) {
      return office;
    }
    boolean mayBegin = beginsLine(start) || afterName || words.get(start - 1).is("of", "the", "in");
    if (!mayBegin) {
      return Optional.empty();
    }
    Optional<Found> war = war(start);
    return war.isPresent() ? war : unit(start);
  }

  private Optional<Found> unit(int start) {
    int i = start;
    String rank = "";
    if (PersonWords.RANKS.contains(words.get(i).folded()) && i + 1 < words.size()) {
      rank = shown(i, i + 1);
      i++;
    }
    int unitFrom = i;
    boolean company =
        i + 1 < words.size() && words.get(i).is("co", "compy", "company", "troop", "battery");
    i += company ? 2 : 0;
    while (company && i < words.size() && words.get(i).is("of", "the")) {
      i++;
    }
    int unitEnd = company ? unitFrom + 2 : i;
    boolean arm = false;
    for (int k = i; k < Math.min(words.size(), i + LONGEST_UNIT_WORDS); k++) {
      CarvedWord word = words.get(k);
      boolean inLine = word.line() == words.get(i).line();
      boolean link = word.is("of", "the") && inLine;
      if (!inLine || !(word.isCapitalisedOrFigure() || link)) {
        break;
      }
      if (PersonWords.ARMS.contains(word.folded())
          && word.isCapitalised()
          && words.get(i).isCapitalisedOrFigure()) {
        unitEnd = k + 1;
        arm = true;
      }
    }
    if (!company && !arm) {
      return Optional.empty();
    }
    return Optional.of(
        new Found(unitEnd, new Detail.Service(rank, shown(unitFrom, unitEnd), "", "")));
  }

  /** {@code WORLD WAR I}, {@code WAR OF 1812}, {@code CIVIL WAR}, {@code THE LATE REBELLION}. */
  private Optional<Found> war(int start) {
    int i = start;
    while (i < words.size() && i - start < 4 && words.get(i).line() == words.get(start).line()) {
      CarvedWord word = words.get(i);
      if (PersonWords.WAR_WORDS.contains(word.folded()) && word.isCapitalised()) {
        int end = i + 1;
        boolean of1812 =
            end + 1 < words.size()
                && words.get(end).is("of")
                && words.get(end + 1).folded().matches("1[78][0-9]{2}");
        boolean numbered = end < words.size() && words.get(end).is("i", "ii", "1", "2");
        end += of1812 ? 2 : numbered ? 1 : 0;
        boolean bare = i == start && !of1812;
        return bare
            ? Optional.empty()
            : Optional.of(new Found(end, new Detail.Service("", "", shown(start, end), "")));
      }
      if (!word.isCapitalised() && !word.is("the")) {
        return Optional.empty();
      }
      i++;
    }
    return Optional.empty();
  }

  /** {@code FOR 31 YEARS MINISTER / OF TARROW CHAPEL}, or an office after a name and comma. */
  private Optional<Found> office(int start, boolean afterName) {
    int i = start;
    if (i + 3 < words.size() && words.get(i).is("for") && words.get(i + 2).is("years")) {
      i += 3;
    }
    boolean led = i + 1 < words.size() && beginsLine(i) && words.get(i).isCapitalised();
    i += led && PersonWords.OFFICES.contains(words.get(i + 1).folded()) ? 1 : 0;
    if (!PersonWords.OFFICES.contains(words.get(i).folded())) {
      return Optional.empty();
    }
    int end = i + 1;
    boolean of = end + 1 < words.size() && words.get(end).is("of");
    end += of ? 1 : 0;
    while (of
        && end < words.size()
        && words.get(end).isCapitalised()
        && words.get(end).line() == words.get(end - 1).line()) {
      end++;
    }
    return of || afterName
        ? Optional.of(new Found(end, new Detail.Service("", "", "", shown(start, end))))
        : Optional.empty();
  }

  private boolean beginsLine(int i) {
    return i == 0 || words.get(i - 1).line() != words.get(i).line();
  }

  private String shown(int from, int to) {
    return String.join(" ", words.subList(from, to).stream().map(CarvedWord::shown).toList());
  }
}
