package rakelight.desk;

import java.time.LocalDate;
import java.util.List;
import java.util.stream.Collectors;
import rakelight.marker.ConditionNote;

/**
 * All that is known of one marker, in words for a page.
 *
 * @param stone the marker as a thing
 * @param conditions what was noted of its condition, the newest observation first
 * @param today the day it is at the ground
 * @param told what the readings of its faces assert, face by face
 * @param persons who is named on it, as concluded from all confirmed readings of the ground
 * @param history what was decided about it, the newest first
 * @param where where it stands
 * @param mayDecide whether this reader may change anything
 */
public record MarkerPage(
    String id,
    String number,
    StonePage stone,
    List<ShownFace> faces,
    List<ConditionNote> conditions,
    LocalDate today,
    List<ToldFace> told,
    List<PersonLine> persons,
    List<LinkLine> links,
    List<QuestionLine> questions,
    List<Event> history,
    Where where,
    boolean mayDecide) {
  /** Why nobody should stand beside it, by the newest note of its condition; may be empty. */
  public String unsafe() {
    return conditions.isEmpty() ? "" : ConditionNote.byDay(conditions).get(0).unsafe();
  }

  /** A line of words in a row. */
  public static String line(List<Word> words) {
    return words.stream().map(Word::shown).collect(Collectors.joining(" "));
  }

  /**
   * What the reading of a face asserts, and what somebody may say of how it is taken.
   *
   * @param reading id of the reading that stands
   * @param words of the reading, line by line
   * @param persons named on the face
   */
  public record ToldFace(
      String id,
      String name,
      String reading,
      List<Told> statements,
      List<List<Word>> words,
      List<Named> persons,
      List<Said> said) {
    /** Those statements that somebody can say something of. */
    public List<Told> open() {
      return statements.stream().filter(Told::open).toList();
    }
  }

  /**
   * A statement.
   *
   * @param which counted from 0 on its face
   * @param open whether it is read from letters and not worked out
   */
  public record Told(int which, String words, boolean open, String address) {}

  /**
   * A word of a reading.
   *
   * @param place counted from 0 over the face
   */
  public record Word(int place, String shown) {}

  /** Somebody named on a face, by his number on it. */
  public record Named(int number, String called) {}

  /**
   * What somebody said of how words are taken.
   *
   * @param fits whether its letters still stand, so that it is used
   */
  public record Said(String words, String reader, boolean fits) {}

  /**
   * Somebody.
   *
   * @param elsewhere where else somebody is spoken of whom people hold to be the same; may be empty
   */
  public record PersonLine(String called, String life, String elsewhere, String address) {}

  /**
   * Something nobody knows yet, or didn't.
   *
   * @param steps what was done about it, in order
   */
  public record QuestionLine(
      String label, String text, boolean open, List<String> steps, String address) {}

  /**
   * A link of this marker.
   *
   * @param to the id of the marker it leads to; empty for a person
   */
  public record LinkLine(String words, String to, String note) {}

  /**
   * Something decided.
   *
   * @param undoable its id where this reader may take it back, else empty
   */
  public record Event(String at, String reader, String words, boolean undone, String undoable) {}

  /**
   * Where it stands.
   *
   * @param place its row and plots; may be empty
   * @param evidence what tells it and how far that may be off, the best first
   * @param footstone the page where it is settled whose footstone it is; empty where it is none
   */
  public record Where(String place, List<String> evidence, String footstone) {
    public Where {
      evidence = List.copyOf(evidence);
    }
  }
}
