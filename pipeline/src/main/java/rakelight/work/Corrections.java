package rakelight.work;

import java.util.List;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.archive.ReadingId;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.person.Correction;
import rakelight.person.Correction.What;
import rakelight.person.CorrectionStore;
import rakelight.person.Evidence;
import rakelight.person.ReadWord;
import rakelight.person.Statement;
import rakelight.person.Statement.Kind;

/**
 * People say how words of a face are to be taken: that they are a name or verse, or aren't, or that
 * something is told of another. Whoever may decide letters may; the reading he looked at must still
 * stand.
 */
public final class Corrections {
  private final ReadingStore readings;
  private final CorrectionStore store;
  private final Evidence evidence;
  private final Archive archive;

  public Corrections(Archive archive) {
    this.archive = archive;
    this.readings = new ReadingStore(archive);
    this.store = new CorrectionStore(archive);
    this.evidence = new Evidence(archive);
  }

  /**
   * Says that words are verse or no verse.
   *
   * @param seen the reading whose words are meant
   * @param first of the words, counted from 0 over the face
   * @param last of them
   * @throws RefusedException if he may not, another reading stands now, or there are no such words
   */
  public Correction words(
      FaceId face, ReadingId seen, What what, int first, int last, NamedReader by) {
    Reading reading = standing(face, seen, by);
    return keep(
        reading,
        Correction.Said.ofWords(what, reading.inscription(), between(reading, first, last)),
        by);
  }

  /**
   * Says that words are a name.
   *
   * @param surname how many of them, from the last, are the surname
   * @throws RefusedException as {@link #words}, or if more words are the surname than there are
   */
  public Correction name(
      FaceId face, ReadingId seen, int first, int last, int surname, NamedReader by) {
    Reading reading = standing(face, seen, by);
    List<ReadWord> words = between(reading, first, last);
    if (surname < 0 || surname > words.size()) {
      throw impossible("The surname can't be more words than the name.");
    }
    if (words.stream().noneMatch(word -> word.shown().codePoints().anyMatch(Character::isLetter))) {
      throw impossible("There is no letter in these words; a name has one.");
    }
    return keep(reading, Correction.Said.ofName(reading.inscription(), words, surname), by);
  }

  /**
   * Says that what is told isn't so.
   *
   * @param which of the statements of the face, counted from 0
   * @throws RefusedException if he may not, another reading stands now, or there is no such
   *     statement that could be wrong
   */
  public Correction notSo(FaceId face, ReadingId seen, int which, NamedReader by) {
    Reading reading = standing(face, seen, by);
    Statement statement = told(reading, which);
    return keep(
        reading,
        statement.kind() == Kind.VERSE || statement.kind() == Kind.SCRIPTURE
            ? noVerse(reading, statement)
            : Correction.Said.ofStatement(reading.inscription(), statement, Optional.empty()),
        by);
  }

  private static Correction.Said noVerse(Reading reading, Statement verse) {
    List<ReadWord> words =
        ReadWord.of(reading.inscription()).stream()
            .filter(word -> verse.signs().containsAll(word.signs()))
            .toList();
    return Correction.Said.ofWords(What.NOT_VERSE, reading.inscription(), words);
  }

  /**
   * Says of whom something is told.
   *
   * @param which of the statements of the face, counted from 0
   * @param person by his number on the face
   * @throws RefusedException as {@link #notSo}, or if nobody has that number
   */
  public Correction belongs(FaceId face, ReadingId seen, int which, int person, NamedReader by) {
    Reading reading = standing(face, seen, by);
    Statement statement = told(reading, which);
    if (statement.persons().isEmpty() || statement.kind() == Kind.NAME) {
      throw impossible("Only what is told of a person can be told of another.");
    }
    Statement name =
        evidence.told(reading).stream()
            .filter(s -> s.kind() == Kind.NAME && s.person() == person)
            .findFirst()
            .orElseThrow(() -> impossible("Nobody on this face has the number " + person + "."));
    return keep(
        reading,
        Correction.Said.ofStatement(reading.inscription(), statement, Optional.of(name)),
        by);
  }

  private Reading standing(FaceId face, ReadingId seen, NamedReader by) {
    by.requireDeciding();
    Optional<Reading> now = readings.current(face);
    return now.filter(reading -> reading.id().equals(seen)).orElseThrow(() -> superseded(now));
  }

  private static RefusedException superseded(Optional<Reading> now) {
    return new RefusedException(new Refused.Superseded(now.map(Reading::reader)));
  }

  private static List<ReadWord> between(Reading reading, int first, int last) {
    List<ReadWord> words = ReadWord.of(reading.inscription());
    if (first < 0 || last < first || last >= words.size()) {
      throw impossible("Choose the first word and the last, in the order of the stone.");
    }
    return words.subList(first, last + 1);
  }

  private Statement told(Reading reading, int which) {
    List<Statement> told = evidence.told(reading);
    if (which < 0 || which >= told.size() || told.get(which).isReckoned()) {
      throw impossible("Choose something that is told of this face and read from its letters.");
    }
    return told.get(which);
  }

  private Correction keep(Reading reading, Correction.Said said, NamedReader by) {
    return archive
        .ledger()
        .write(
            handle -> {
              Optional<Reading> now = readings.current(reading.face());
              if (now.filter(current -> current.id().equals(reading.id())).isEmpty()) {
                throw superseded(now);
              }
              for (Correction other : store.of(reading.face())) {
                if (other.said().equals(said)) {
                  return other;
                }
                if (other.said().isAgainst(said) && other.fits(reading.inscription())) {
                  throw impossible(
                      other.reader()
                          + " has said that "
                          + other.inWords()
                          + ". Take that back first.");
                }
              }
              return store.keep(reading, said, by.name());
            });
  }

  private static RefusedException impossible(String words) {
    return new RefusedException(new Refused.Impossible(words));
  }
}
