package rakelight.person;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import rakelight.archive.Archive;
import rakelight.archive.Decision;
import rakelight.archive.Joining;
import rakelight.archive.Meeting;
import rakelight.archive.NewDecision;

/** Questions of two laptops: of two with one number, the later in order gets another. */
final class QuestionJoining implements Joining {
  @Override
  public List<NewDecision> follows(Archive joined, Meeting meeting) {
    Set<UUID> raised =
        meeting.sides().stream()
            .flatMap(side -> side.standing().stream())
            .filter(decision -> decision.kind().equals(Question.Kind.RAISED.decisionKind()))
            .map(Decision::subject)
            .collect(Collectors.toSet());
    QuestionStore store = new QuestionStore(joined);
    List<NewDecision> follows = new ArrayList<>();
    Set<Long> taken = new HashSet<>();
    long next = store.nextNumber();
    for (Question question : store.questions()) {
      if (!taken.add(question.number()) && raised.contains(question.id().value())) {
        follows.add(
            NewDecision.of(
                    Decision.PROGRAM,
                    QuestionStore.NUMBERED,
                    1,
                    question.id().value(),
                    new QuestionStore.Numbered(next++))
                .restingOn(List.of(question.steps().get(0).decision())));
      }
    }
    return follows;
  }
}
