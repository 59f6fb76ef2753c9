package rakelight.photo;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What the folders a photograph lay in say of its marker: {@code 17/IMG_1.jpg}, {@code
 * 17/back/IMG_2.jpg}, {@code 17 back/IMG_2.jpg}. Only names that look like a marker's number count;
 * cameras' own folders, years and dates don't.
 */
final class FolderNames {
  private static final Set<String> FACES =
      Set.of(
          "front", "back", "left", "right", "top", "base", "north", "south", "east", "west", "n",
          "ne", "e", "se", "s", "sw", "w", "nw");
  private static final Pattern NUMBER = Pattern.compile("[A-Za-z]{0,3}[-. ]?[0-9]{1,5}[a-z]?");
  private static final Pattern YEAR = Pattern.compile("(1[89]|20)[0-9]{2}");
  private static final Pattern WITH_FACE = Pattern.compile("(.+?)[-_ ]+([A-Za-z]+)");

  private FolderNames() {}

  /**
   * The marker and face that the folders name.
   *
   * @param given the folder handed to ingest; it and what lies above say nothing
   */
  static Optional<CardLabel> of(Path photograph, Path given) {
    Path folder = photograph.getParent();
    if (folder == null || !folder.startsWith(given) || folder.equals(given)) {
      return Optional.empty();
    }
    Path below = given.relativize(folder);
    List<String> names =
        java.util.stream.StreamSupport.stream(below.spliterator(), false)
            .map(Path::toString)
            .toList();
    String last = names.get(names.size() - 1).strip();
    Optional<CardLabel> whole = marker(last, Face.FRONT);
    if (whole.isPresent()) {
      return whole;
    }
    if (isFace(last) && names.size() > 1) {
      return marker(names.get(names.size() - 2).strip(), last.toLowerCase(Locale.ROOT));
    }
    Matcher parts = WITH_FACE.matcher(last);
    return parts.matches() && isFace(parts.group(2))
        ? marker(parts.group(1), parts.group(2).toLowerCase(Locale.ROOT))
        : Optional.empty();
  }

  private static Optional<CardLabel> marker(String name, String face) {
    return NUMBER.matcher(name).matches() && !YEAR.matcher(name).matches()
        ? Optional.of(new CardLabel(name, face))
        : Optional.empty();
  }

  private static boolean isFace(String name) {
    return FACES.contains(name.toLowerCase(Locale.ROOT));
  }
}
