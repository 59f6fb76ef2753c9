package rakelight.work;

import java.util.List;

/**
 * How many letters ask for a look of their own: those no person has decided about that are
 * doubtful, or of which an answer to the machine's doubt is worth something. One count for every
 * page, list and command; while it isn't zero for a line, the line can't be taken whole.
 *
 * @param letters how many
 * @param inFields how many of them may belong to a name or a date
 */
public record Doubts(int letters, int inFields) {
  static final Doubts NONE = new Doubts(0, 0);

  /** Of the places of a face, line by line. */
  public static Doubts of(List<List<Place>> lines) {
    List<Place> asked = lines.stream().flatMap(List::stream).filter(Place::isWorthAsking).toList();
    return new Doubts(asked.size(), (int) asked.stream().filter(Place::field).count());
  }

  /** How many, in plain words. */
  public String number() {
    return switch (letters) {
      case 0 -> "no doubtful letter";
      case 1 -> "1 doubtful letter";
      default -> letters + " doubtful letters";
    };
  }

  /** The same, and how many may be in names or dates. */
  public String words() {
    return switch (letters) {
      case 0 -> number();
      case 1 -> number() + (inFields == 1 ? ", perhaps in a name or a date" : "");
      default ->
          number()
              + ", "
              + (inFields == 0 ? "none" : inFields == letters ? "all" : inFields)
              + " of them perhaps in names or dates";
    };
  }
}
