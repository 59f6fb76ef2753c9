package rakelight.person;

import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.inscription.Inscription;
import rakelight.inscription.Letter;
import rakelight.inscription.Sign;
import rakelight.inscription.SignId;

/**
 * What somebody said of how words of a face are to be taken. It holds as long as these signs say
 * what they said then; where a later reading has other letters there it is kept and no longer used.
 *
 * @param decision undoing it undoes the correction
 */
public record Correction(FaceId face, Said said, String reader, Instant at, DecisionId decision) {

  /** What is said. */
  public enum What {
    /** The words are somebody's name. */
    NAME,
    /** What is told of these words isn't so: they are no name, no trade, no date of his. */
    NOT_SO,
    /** What is told of these words is told of another person of the face. */
    BELONGS,
    /** The words are verse or comfort. */
    VERSE,
    /** The words are no verse. */
    NOT_VERSE
  }

  /**
   * Version 1 of the payload.
   *
   * @param signs of the words, in order of reading
   * @param words as they were read: what the signs must still say
   * @param given of a name; empty for anything else
   * @param surname of a name, likewise; may be blank
   * @param kind of the statement that is so, isn't so or belongs to another; empty for verse
   * @param of the first sign of that other person's name
   */
  public record Said(
      What what,
      List<Integer> signs,
      String words,
      Optional<String> given,
      Optional<String> surname,
      Optional<Statement.Kind> kind,
      Optional<Integer> of) {
    public Said {
      signs = List.copyOf(signs);
      if (signs.isEmpty()) {
        throw new IllegalArgumentException("a correction is about words");
      }
    }

    /** That words are verse, or aren't. */
    public static Said ofWords(What what, Inscription inscription, List<ReadWord> words) {
      return of(what, inscription, signs(words), Optional.empty(), Optional.empty());
    }

    /**
     * That words are a name.
     *
     * @param surname how many of them, from the last, are the surname
     */
    public static Said ofName(Inscription inscription, List<ReadWord> words, int surname) {
      int first = words.size() - surname;
      return new Said(
          What.NAME,
          signs(words),
          Correction.words(inscription, signs(words)).orElseThrow(),
          Optional.of(name(words.subList(0, first))),
          Optional.of(name(words.subList(first, words.size()))),
          Optional.of(Statement.Kind.NAME),
          Optional.empty());
    }

    /** That what is told isn't so, or, where a name is given, is told of its bearer. */
    public static Said ofStatement(
        Inscription inscription, Statement statement, Optional<Statement> name) {
      return of(
          name.isPresent() ? What.BELONGS : What.NOT_SO,
          inscription,
          statement.signs().stream().map(SignId::number).toList(),
          Optional.of(statement.kind()),
          name.map(bearer -> bearer.signs().get(0).number()));
    }

    private static Said of(
        What what,
        Inscription inscription,
        List<Integer> signs,
        Optional<Statement.Kind> kind,
        Optional<Integer> bearer) {
      String words = Correction.words(inscription, signs).orElseThrow();
      return new Said(what, signs, words, Optional.empty(), Optional.empty(), kind, bearer);
    }

    private static List<Integer> signs(List<ReadWord> words) {
      return words.stream().flatMap(word -> word.signs().stream()).map(SignId::number).toList();
    }

    private static String name(List<ReadWord> words) {
      return words.stream()
          .map(word -> NameWords.titleCase(word.folded()))
          .collect(Collectors.joining(" "));
    }

    /** Whether both can't be said of the words that they share. */
    public boolean isAgainst(Said other) {
      boolean share = signs.stream().anyMatch(other.signs()::contains);
      boolean verse = what == What.VERSE || other.what() == What.VERSE;
      boolean notVerse = what == What.NOT_VERSE || other.what() == What.NOT_VERSE;
      return share && !equals(other) && (verse || (!notVerse && kind.equals(other.kind())));
    }

    List<SignId> signIds() {
      return signs.stream().map(SignId::new).toList();
    }
  }

  /**
   * What signs say, sign by sign; empty where one of them isn't there or their order is another.
   */
  static Optional<String> words(Inscription inscription, List<Integer> signs) {
    Map<Integer, Integer> placeOf = new HashMap<>();
    for (int i = 0; i < inscription.signs().size(); i++) {
      placeOf.put(inscription.signs().get(i).id().number(), i);
    }
    StringBuilder words = new StringBuilder();
    int before = -1;
    for (int number : signs) {
      Integer place = placeOf.get(number);
      if (place == null || place <= before) {
        return Optional.empty();
      }
      Sign sign = inscription.signs().get(place);
      boolean parted = before >= 0 && place > before + 1;
      words.append(parted ? " " : "").append(sign(sign));
      before = place;
    }
    return Optional.of(words.toString());
  }

  private static String sign(Sign sign) {
    return sign instanceof Letter letter ? letter.text() : "?";
  }

  /** What was said, in words: of which words, and what of them. */
  public String inWords() {
    String about =
        switch (said.what()) {
          case NAME ->
              "the name " + (said.given().orElse("") + " " + said.surname().orElse("")).strip();
          case NOT_SO -> "no " + kind();
          case BELONGS -> "the " + kind() + " of somebody else";
          case VERSE -> "verse";
          case NOT_VERSE -> "no verse";
        };
    return "“" + said.words() + "” is " + about;
  }

  private String kind() {
    return said.kind().map(kind -> kind.name().toLowerCase(Locale.ROOT)).orElse("statement");
  }

  /** Whether its signs still say what they said. */
  public boolean fits(Inscription inscription) {
    return words(inscription, said.signs()).filter(said.words()::equals).isPresent()
        && said.of().stream().allMatch(first -> words(inscription, List.of(first)).isPresent());
  }
}
