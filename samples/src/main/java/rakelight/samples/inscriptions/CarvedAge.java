package rakelight.samples.inscriptions;

import static rakelight.samples.inscriptions.InventedStone.any;

import java.time.LocalDate;
import java.time.Period;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.Function;

/** Ages as they are cut, and what they are as ISO 8601 durations. */
final class CarvedAge {
  private static final String[] ONES =
      ("one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen"
              + " sixteen seventeen eighteen nineteen")
          .split(" ");
  private static final String[] TENS =
      "twenty thirty forty fifty sixty seventy eighty ninety".split(" ");

  /** A number of units, and where it is cut. */
  private record Part(int count, char unit, int stretch) {}

  private final Style style;
  private final Random random;
  private final InventedStone stone;

  CarvedAge(InventedStone stone, Style style, Random random) {
    this.stone = stone;
    this.style = style;
    this.random = random;
  }

  /** Cuts how old somebody became, with {@code his} or {@code her}, and tells what it is. */
  Function<Wear, String> put(LocalDate birth, LocalDate death, boolean woman) {
    Period lived = Period.between(birth, death);
    int years = lived.getYears();
    if (years == 0) {
      return putInfant(birth, death, lived);
    }
    String his = woman ? "her" : "his";
    if (style == Style.LATIN) {
      return putLatin(years);
    }
    return switch (random.nextInt(style == Style.MODERN ? 4 : 8)) {
      case 0, 1 -> {
        stone.put(aged());
        int stretch = stone.tell(Integer.toString(years));
        stone.put(any(random, " years", " Years", ""));
        yield told(List.of(new Part(years, 'Y', stretch)), 0);
      }
      case 2 -> {
        stone.put(aged());
        int stretch = stone.tell(Integer.toString(years));
        stone.put(years == 1 ? " year" : any(random, " years", " yrs."));
        yield told(List.of(new Part(years, 'Y', stretch)), 0);
      }
      case 3 -> {
        boolean brief = style == Style.MODERN || random.nextInt(3) == 0;
        stone.put(brief ? "in " + his + " " : "in the ");
        int stretch = stone.tell(Integer.toString(years + 1));
        stone.put(CarvedDay.ending(years + 1) + " year");
        if (!brief) {
          stone.put(" of " + his + " age");
        }
        yield told(List.of(new Part(years, 'Y', stretch)), 1);
      }
      case 4 -> {
        stone.put(
            style.american() ? any(random, "Æ. ", "AE ", "Æt. ") : any(random, "Aged ", "æt. "));
        int stretch = stone.tell(Integer.toString(years));
        yield told(List.of(new Part(years, 'Y', stretch)), 0);
      }
      case 5 -> {
        stone.put("aged ");
        stone.tell(inWords(years));
        stone.put(" years");
        yield wear -> "age P" + years + "Y";
      }
      default -> putFine(lived);
    };
  }

  private Function<Wear, String> putFine(Period lived) {
    boolean american = style.american();
    List<Part> parts = new ArrayList<>();
    stone.put(american ? any(random, "aged ", "Æ. ", "AE ") : "aged ");
    parts.add(
        part(lived.getYears(), 'Y', american ? any(random, " y's", " yrs.", " years") : " years"));
    if (lived.getMonths() > 0) {
      stone.put(lived.getDays() > 0 && american ? " " : " and ");
      parts.add(
          part(
              lived.getMonths(),
              'M',
              american ? any(random, " m's", " mos.", " months") : " months"));
    }
    if (lived.getDays() > 0 && american) {
      stone.put(any(random, " & ", " and ", " "));
      parts.add(part(lived.getDays(), 'D', any(random, " d's", " ds.", " days")));
    }
    return told(parts, 0);
  }

  private Function<Wear, String> putInfant(LocalDate birth, LocalDate death, Period lived) {
    long days = ChronoUnit.DAYS.between(birth, death);
    stone.put(style == Style.LATIN ? "aetatis " : aged());
    if (lived.getMonths() > 0) {
      return told(
          List.of(part(lived.getMonths(), 'M', lived.getMonths() == 1 ? " month" : " months")), 0);
    }
    if (days >= 14) {
      return told(List.of(part((int) days / 7, 'W', " weeks")), 0);
    }
    int count = (int) Math.max(1, days);
    return told(List.of(part(count, 'D', count == 1 ? " day" : " days")), 0);
  }

  private Function<Wear, String> putLatin(int years) {
    boolean running = random.nextInt(3) == 0;
    stone.put(running ? "anno aetatis " : any(random, "aetatis suae ", "aet. ", "ætat. "));
    int cut = running ? years + 1 : years;
    int stretch = stone.tell(Integer.toString(cut));
    return told(List.of(new Part(years, 'Y', stretch)), cut - years);
  }

  private Part part(int count, char unit, String word) {
    int stretch = stone.tell(Integer.toString(count));
    stone.put(
        count == 1 && word.endsWith("s") && !word.contains("'")
            ? word.substring(0, word.length() - 1)
            : word);
    return new Part(count, unit, stretch);
  }

  private String aged() {
    return style.old() ? any(random, "Aged ", "aged ", "Ætatis ") : any(random, "aged ", "Aged ");
  }

  /**
   * What the figures tell.
   *
   * @param more by how much what is cut is more than what was lived, in a year that was running
   */
  private static Function<Wear, String> told(List<Part> parts, int more) {
    return wear -> {
      StringBuilder truth = new StringBuilder("P");
      StringBuilder left = new StringBuilder("P");
      boolean worn = false;
      boolean figures = true;
      boolean gone = false;
      for (Part part : parts) {
        String now = wear.left(part.stretch());
        worn |= wear.touches(part.stretch());
        gone |= now.replace("?", "").isEmpty();
        figures &= now.matches("\\d+");
        truth.append(part.count()).append(part.unit());
        left.append(figures ? Integer.toString(Integer.parseInt(now) - more) : "")
            .append(part.unit());
      }
      boolean otherwise = worn && figures && !left.toString().equals(truth.toString());
      return (gone || (worn && more > 0) ? "?" : "")
          + (worn ? "worn " : "")
          + "age "
          + truth
          + (otherwise ? " / " + left : "");
    };
  }

  static String inWords(int number) {
    if (number < 20) {
      return ONES[number - 1];
    }
    String ten = TENS[number / 10 - 2];
    return number % 10 == 0 ? ten : ten + " " + ONES[number % 10 - 1];
  }
}
