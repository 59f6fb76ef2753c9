package rakelight.person;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import rakelight.archive.DecisionId;
import rakelight.archive.MarkerId;
import rakelight.archive.QuestionId;
import rakelight.names.NameForms;

/**
 * Something nobody knows yet, kept until somebody finds out.
 *
 * @param number how people name it, from 1; of an older archive the counter of the decision
 * @param steps what was done about it, in order, the raising first
 * @param marker what it is about, if it is about a marker
 */
public record Question(
    QuestionId id, long number, String text, Optional<MarkerId> marker, List<Step> steps) {

  /** What was done. */
  public enum Kind {
    RAISED,
    /** A source was searched; the note says what it held. */
    TRIED,
    NOTED,
    /** Answered, with where the answer comes from. */
    ANSWERED,
    REOPENED;

    String decisionKind() {
      return "question." + name().toLowerCase(Locale.ROOT);
    }
  }

  /**
   * One decision about it.
   *
   * @param words the question, the source tried, the note, the answer, or why it is open again
   * @param note what a source held, or where an answer comes from; may be empty
   */
  public record Step(
      Kind kind, String words, String note, String reader, Instant at, DecisionId decision) {
    /** What was done, in a line; empty for the raising, whose words are the question. */
    public String told() {
      String did =
          switch (kind) {
            case RAISED -> "";
            case TRIED -> "tried: " + words;
            case NOTED -> "note: " + words;
            case ANSWERED -> "answer: " + words;
            case REOPENED -> "open again: " + words;
          };
      return did.isEmpty() || note.isEmpty() ? did : did + " (" + note + ")";
    }
  }

  public Question {
    steps = List.copyOf(steps);
  }

  /** How it is named to people, such as {@code question 17}; commands take the number. */
  public String label() {
    return "question " + number;
  }

  /** Whether nobody has answered it, or it was opened again since. */
  public boolean isOpen() {
    return answer().isEmpty();
  }

  /** The answer that stands. */
  public Optional<Step> answer() {
    Optional<Step> answer = Optional.empty();
    for (Step step : steps) {
      if (step.kind() == Kind.ANSWERED) {
        answer = Optional.of(step);
      } else if (step.kind() == Kind.REOPENED) {
        answer = Optional.empty();
      }
    }
    return answer;
  }

  /** The steps of a kind. */
  public List<Step> steps(Kind kind) {
    return steps.stream().filter(step -> step.kind() == kind).toList();
  }

  /** Whether each of these words is somewhere in it, however it is spelt and pointed. */
  public boolean answers(String query) {
    List<String> own = new ArrayList<>();
    for (Step step : steps) {
      for (String word : (step.words() + " " + step.note()).split("[^\\p{L}\\p{N}]+", -1)) {
        own.add(NameForms.fold(word));
      }
    }
    List<String> asked = new ArrayList<>();
    for (String word : query.split("[^\\p{L}\\p{N}]+", -1)) {
      asked.add(NameForms.fold(word));
    }
    asked.removeIf(String::isEmpty);
    return !asked.isEmpty() && own.containsAll(asked);
  }
}
