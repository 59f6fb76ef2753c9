package rakelight.person.edtf;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Text to date. Strict: what the format doesn't write is refused. */
final class EdtfParser {
  private static final int MOST_CHARACTERS = 10_000;

  private static final Pattern DATE =
      Pattern.compile(
          "(?<yearBefore>[?~%])?"
              + "(?<letter>Y)?(?<sign>-)?(?<year>[0-9X]{1,15})(?:E(?<exponent>[0-9]{1,2}))?"
              + "(?:S(?<significant>[0-9]{1,2}))?(?<yearAfter>[?~%])?"
              + "(?:-(?<monthBefore>[?~%])?(?<month>[0-9X]{2})(?<monthAfter>[?~%])?"
              + "(?:-(?<dayBefore>[?~%])?(?<day>[0-9X]{2})(?<dayAfter>[?~%])?)?)?");

  private EdtfParser() {}

  static Edtf parse(String text) {
    try {
      if (text.length() > MOST_CHARACTERS) {
        throw new IllegalArgumentException("longer than " + MOST_CHARACTERS + " characters");
      }
      if (text.startsWith("[") && text.endsWith("]") && text.length() > 2) {
        return set(EdtfSet.Kind.ONE_OF, text.substring(1, text.length() - 1));
      }
      if (text.startsWith("{") && text.endsWith("}") && text.length() > 2) {
        return set(EdtfSet.Kind.ALL_OF, text.substring(1, text.length() - 1));
      }
      int slash = text.indexOf('/');
      if (slash >= 0) {
        return new EdtfInterval(end(text.substring(0, slash)), end(text.substring(slash + 1)));
      }
      int time = text.indexOf('T');
      if (time >= 0) {
        return new EdtfDateTime(date(text.substring(0, time)), text.substring(time + 1));
      }
      return date(text);
    } catch (IllegalArgumentException e) {
      String shown = text.length() > 60 ? text.substring(0, 60) + "…" : text;
      throw new IllegalArgumentException("“" + shown + "” is no EDTF date: " + e.getMessage(), e);
    }
  }

  private static EdtfInterval.End end(String text) {
    return switch (text) {
      case "" -> new EdtfInterval.Unknown();
      case ".." -> new EdtfInterval.Open();
      default -> new EdtfInterval.Known(date(text));
    };
  }

  private static EdtfSet set(EdtfSet.Kind kind, String text) {
    List<EdtfSet.Member> members = new ArrayList<>();
    int from = 0;
    while (from <= text.length()) {
      int comma = text.indexOf(',', from);
      int to = comma < 0 ? text.length() : comma;
      members.add(member(text.substring(from, to)));
      from = to + 1;
    }
    return new EdtfSet(kind, members);
  }

  private static EdtfSet.Member member(String text) {
    int dots = text.indexOf("..");
    if (dots < 0) {
      return EdtfSet.Member.of(date(text));
    }
    String first = text.substring(0, dots);
    String last = text.substring(dots + 2);
    return new EdtfSet.Member(
        first.isEmpty() ? Optional.empty() : Optional.of(date(first)),
        last.isEmpty() ? Optional.empty() : Optional.of(date(last)));
  }

  private static EdtfDate date(String text) {
    Matcher matcher = DATE.matcher(text);
    if (!matcher.matches()) {
      throw new IllegalArgumentException("expected year, year-month or year-month-day");
    }
    Qualifier afterDay = qualifier(matcher.group("dayAfter"));
    Qualifier afterMonth = qualifier(matcher.group("monthAfter")).and(afterDay);
    Qualifier afterYear = qualifier(matcher.group("yearAfter")).and(afterMonth);
    EdtfYear year =
        new EdtfYear(
            matcher.group("letter") != null,
            matcher.group("sign") != null,
            matcher.group("year"),
            number(matcher.group("exponent"), -1),
            significant(matcher.group("significant")),
            qualifier(matcher.group("yearBefore")).and(afterYear));
    return new EdtfDate(
        year,
        part(matcher.group("month"), qualifier(matcher.group("monthBefore")).and(afterMonth)),
        part(matcher.group("day"), qualifier(matcher.group("dayBefore")).and(afterDay)));
  }

  private static Optional<EdtfDate.Part> part(@Nullable String digits, Qualifier qualifier) {
    return Optional.ofNullable(digits).map(two -> new EdtfDate.Part(two, qualifier));
  }

  private static Qualifier qualifier(@Nullable String sign) {
    return sign == null ? Qualifier.NONE : Qualifier.ofSign(sign);
  }

  private static int significant(@Nullable String figures) {
    int count = number(figures, 0);
    if (figures != null && count == 0) {
      throw new IllegalArgumentException("one significant figure at least");
    }
    return count;
  }

  private static int number(@Nullable String figures, int otherwise) {
    return figures == null ? otherwise : Integer.parseInt(figures);
  }
}
