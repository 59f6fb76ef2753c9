package rakelight.inscription;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What may stand between parentheses and isn't an expansion: extents, stops, remarks, choices. */
final class LeidenNotes {
  private static final String COUNT =
      "(?<about>(?:c\\.|ca\\.|±) ?)?(?<count>\\d{1,3})(?:[–-](?<most>\\d{1,3}))?";
  private static final Pattern EXTENT =
      Pattern.compile(COUNT + "(?: (?<lines>lines?))?(?<doubt>\\?)?");
  private static final Pattern WITH_REASON =
      Pattern.compile(
          "(?<reason>vac\\.|vacat|om\\.)(?: ?"
              + COUNT
              + ")?(?: (?<lines>lines?))?(?<doubt> ?\\?)?");
  private static final Pattern TOO_MANY =
      Pattern.compile(
          "(?:(?:vac\\.|vacat|om\\.) ?(?:c\\. ?|ca\\. ?|± ?)?\\d{4,}(?:[–-]\\d+)?(?: lines?)?"
              + "|(?:c\\. ?|ca\\. ?|± ?)?\\d{4,}(?:[–-]\\d+)? lines?) ?\\??");
  private static final Pattern DASHES = Pattern.compile("[-–—](?: ?[-–—])*\\??");
  private static final Pattern TRACES = Pattern.compile("\\+\\+\\+(?<lines> lines)?");
  private static final Pattern STOPPED = Pattern.compile("[-–—] ?[-–—] ?[-–—]");
  private static final String CHOICE = "\\\\?\\X(?: +\\d{1,2}%)?";
  private static final Pattern CHOICES = Pattern.compile(CHOICE + "(?: +or +" + CHOICE + ")+");

  private LeidenNotes() {}

  static boolean isChoice(String inner) {
    return CHOICES.matcher(inner).matches();
  }

  static boolean isStop(String inner) {
    return STOPPED.matcher(inner).matches();
  }

  static boolean isRemark(String inner) {
    return inner.equals("!");
  }

  /** Whether the text between parentheses would be taken for something else than an expansion. */
  static boolean isNote(String inner) {
    return isChoice(inner) || isStop(inner) || isRemark(inner) || looksLikeExtent(inner);
  }

  private static boolean isBareExtent(String inner) {
    Matcher matcher = EXTENT.matcher(inner);
    return matcher.matches()
        && (matcher.group("about") != null
            || matcher.group("most") != null
            || matcher.group("lines") != null);
  }

  /** Whether it counts more letters or lines than any face carries. */
  static boolean isTooMany(String inner) {
    return TOO_MANY.matcher(inner).matches();
  }

  /** Whether it is dashes alone, and neither three nor six of them, which mean something. */
  static boolean isDashesWithoutSense(String inner) {
    long dashes = inner.codePoints().filter(sign -> "-–—".indexOf(sign) >= 0).count();
    return DASHES.matcher(inner).matches() && dashes != 3 && dashes % 6 != 0;
  }

  /** Whether the text between brackets would be taken for an extent. */
  static boolean looksLikeExtent(String inner) {
    return isBareExtent(inner)
        || isTooMany(inner)
        || WITH_REASON.matcher(inner).matches()
        || TRACES.matcher(inner).matches();
  }

  /**
   * The gap that the text stands for, if it stands for one.
   *
   * @param plain why letters are missing when the text gives an extent alone
   * @throws IllegalArgumentException for an extent that can't be
   */
  static Optional<Gap> gap(String inner, Gap.Reason plain, SignId id) {
    Matcher traces = TRACES.matcher(inner);
    if (traces.matches()) {
      Gap.Unit unit = traces.group("lines") == null ? Gap.Unit.LETTERS : Gap.Unit.LINES;
      return Optional.of(
          new Gap(id, Gap.Reason.ILLEGIBLE, new Extent.Unknown(), unit, false, false));
    }
    Matcher reasoned = WITH_REASON.matcher(inner);
    if (reasoned.matches()) {
      boolean omitted = "om.".equals(reasoned.group("reason"));
      return Optional.of(gap(reasoned, omitted ? Gap.Reason.OMITTED : Gap.Reason.BLANK, id));
    }
    Matcher extent = EXTENT.matcher(inner);
    if (isBareExtent(inner) && extent.matches()) {
      return Optional.of(gap(extent, plain, id));
    }
    return Optional.empty();
  }

  private static Gap gap(Matcher matcher, Gap.Reason reason, SignId id) {
    Gap.Unit unit = matcher.group("lines") == null ? Gap.Unit.LETTERS : Gap.Unit.LINES;
    return new Gap(id, reason, extent(matcher), unit, false, matcher.group("doubt") != null);
  }

  private static Extent extent(Matcher matcher) {
    String count = matcher.group("count");
    String most = matcher.group("most");
    if (count == null) {
      return new Extent.Unknown();
    }
    if (most != null) {
      if (matcher.group("about") != null) {
        throw new IllegalArgumentException("a range isn't rough as well: write c. 5, or 4–6");
      }
      return new Extent.Range(Integer.parseInt(count), Integer.parseInt(most));
    }
    return matcher.group("about") != null
        ? new Extent.About(Integer.parseInt(count))
        : new Extent.Exact(Integer.parseInt(count));
  }

  /** How an extent reads within the notes; empty when it is unknown and counts letters. */
  static String print(Extent extent, Gap.Unit unit) {
    String count = "";
    if (extent instanceof Extent.Exact exact) {
      count = Integer.toString(exact.count());
    } else if (extent instanceof Extent.About about) {
      count = "c. " + about.count();
    } else if (extent instanceof Extent.Range range) {
      count = range.atLeast() + "–" + range.atMost();
    }
    if (unit == Gap.Unit.LETTERS) {
      return count;
    }
    return count.equals("1") ? "1 line" : (count + " lines").strip();
  }
}
