package rakelight.person;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.DecisionId;
import rakelight.archive.Joining;
import rakelight.archive.MarkerId;
import rakelight.archive.NewDecision;
import rakelight.archive.Projection;
import rakelight.archive.QuestionId;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.Question.Kind;
import rakelight.person.Question.Step;

/** Questions, and what was done to answer them. */
public final class QuestionStore {
  private final Archive archive;

  /**
   * Version 1 of the payload of all its kinds.
   *
   * @param number of a question that is raised; of those raised before there were numbers, the
   *     decision's counter is one
   */
  record Said(String words, String note, Optional<MarkerId> marker, Optional<Long> number) {}

  /** Subject: the question. It had the same number as one that was raised on another laptop. */
  static final String NUMBERED = "question.numbered";

  /** Version 1 of the payload. */
  record Numbered(long number) {}

  public QuestionStore(Archive archive) {
    this.archive = archive;
  }

  /** The state table of this store. */
  public static Projection projection() {
    return new QuestionProjection();
  }

  /** What to see to when histories come together. */
  public static Joining joining() {
    return new QuestionJoining();
  }

  /** Every question, in the order they were raised. */
  public List<Question> questions() {
    Map<QuestionId, List<Row>> rows = new LinkedHashMap<>();
    archive
        .ledger()
        .read(
            handle ->
                handle
                    .select(
                        "SELECT q.*, coalesce(n.now, q.marker) AS marker_now,"
                            + " coalesce(t.number, d.payload ->> 'number', q.counter) AS number"
                            + " FROM question_step q JOIN decision d ON d.id = q.decision_id"
                            + " LEFT JOIN question_number t ON t.question = q.question"
                            + " LEFT JOIN marker_now n ON n.id = q.marker ORDER BY q.counter")
                    .map((row, context) -> row(row))
                    .list())
        .forEach(row -> rows.computeIfAbsent(row.question(), id -> new ArrayList<>()).add(row));
    List<Question> questions = new ArrayList<>();
    rows.forEach(
        (id, own) -> {
          Row raised = own.get(0);
          questions.add(
              new Question(
                  id,
                  raised.number(),
                  raised.step().words(),
                  raised.marker(),
                  own.stream().map(Row::step).toList()));
        });
    return List.copyOf(questions);
  }

  /**
   * The question of a number such as {@code 17}.
   *
   * @throws ArchiveException if there is none
   */
  public Question question(String number) {
    return questions().stream()
        .filter(question -> Long.toString(question.number()).equals(number.strip()))
        .findFirst()
        .orElseThrow(
            () ->
                new ArchiveException(
                    "There is no question " + number + " here. List them with `questions`."));
  }

  /** The questions in which every word of a query is found, the open ones first. */
  public List<Question> matching(String query) {
    List<Question> matching = new ArrayList<>(questions());
    matching.removeIf(question -> !question.answers(query));
    matching.sort((a, b) -> Boolean.compare(b.isOpen(), a.isOpen()));
    return List.copyOf(matching);
  }

  /**
   * Raises a question.
   *
   * @param markerNumber what it is about; empty for one about the ground or a person
   * @throws ArchiveException if there is no such marker, or the question has no words
   */
  public Question raise(String words, Optional<String> markerNumber, String reader) {
    MarkerStore markers = new MarkerStore(archive);
    Optional<Marker> marker = markerNumber.map(number -> markers.named(number));
    Said said =
        new Said(worded(words, "question"), "", marker.map(Marker::id), Optional.of(nextNumber()));
    QuestionId id = QuestionId.next();
    List<DecisionId> rests = marker.map(row -> markers.madeBy(row.id())).stream().toList();
    append(id, Kind.RAISED, said, rests, reader);
    return questions().stream().filter(q -> q.id().equals(id)).findFirst().orElseThrow();
  }

  /** One more than the highest, counting those that were undone. */
  long nextNumber() {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .select(
                        "SELECT coalesce(max(coalesce(payload ->> 'number', counter)), 0) + 1"
                            + " FROM decision WHERE kind IN (?, ?)",
                        Kind.RAISED.decisionKind(),
                        NUMBERED)
                    .mapTo(Long.class)
                    .one());
  }

  /** Notes that a source was searched, and what it held. */
  public void tried(Question question, String source, String found, String reader) {
    add(question, Kind.TRIED, worded(source, "source that was tried"), found, reader);
  }

  /** Adds a note. */
  public void note(Question question, String words, String reader) {
    add(question, Kind.NOTED, worded(words, "note"), "", reader);
  }

  /**
   * Answers it.
   *
   * @param citation where the answer comes from
   * @throws ArchiveException if it is answered already, or the citation is missing
   */
  public void answer(Question question, String words, String citation, String reader) {
    question
        .answer()
        .ifPresent(
            step -> {
              throw new ArchiveException(
                  "Question "
                      + question.number()
                      + " has been answered by "
                      + step.reader()
                      + ". Reopen it first.");
            });
    if (citation.isBlank()) {
      throw new ArchiveException("An answer needs its citation: where it comes from (--citation).");
    }
    add(question, Kind.ANSWERED, worded(words, "answer"), citation, reader);
  }

  /**
   * Opens it again.
   *
   * @throws ArchiveException if it is open
   */
  public void reopen(Question question, String why, String reader) {
    if (question.isOpen()) {
      throw new ArchiveException("Question " + question.number() + " is open.");
    }
    add(question, Kind.REOPENED, worded(why, "reason"), "", reader);
  }

  private static String worded(String words, String what) {
    if (words.isBlank()) {
      throw new ArchiveException("Say the " + what + " in words.");
    }
    return words.strip();
  }

  private void add(Question question, Kind kind, String words, String note, String reader) {
    Step last = question.steps().get(question.steps().size() - 1);
    boolean settles = kind == Kind.ANSWERED || kind == Kind.REOPENED;
    DecisionId rests = settles ? last.decision() : question.steps().get(0).decision();
    append(
        question.id(),
        kind,
        new Said(words, note.strip(), Optional.empty(), Optional.empty()),
        List.of(rests),
        reader);
  }

  private void append(QuestionId id, Kind kind, Said said, List<DecisionId> rests, String reader) {
    archive
        .journal()
        .append(NewDecision.of(reader, kind.decisionKind(), 1, id.value(), said).restingOn(rests));
  }

  private record Row(QuestionId question, long number, Optional<MarkerId> marker, Step step) {}

  private static Row row(ResultSet row) throws SQLException {
    String kind = row.getString("kind");
    return new Row(
        QuestionId.of(row.getString("question")),
        row.getLong("number"),
        Optional.ofNullable(row.getString("marker_now")).map(MarkerId::of),
        new Step(
            Arrays.stream(Kind.values())
                .filter(k -> k.decisionKind().equals(kind))
                .findFirst()
                .orElseThrow(() -> new ArchiveException("No such step of a question: " + kind)),
            row.getString("words"),
            row.getString("note"),
            row.getString("reader"),
            Instant.parse(row.getString("at")),
            DecisionId.of(row.getString("decision_id"))));
  }
}
