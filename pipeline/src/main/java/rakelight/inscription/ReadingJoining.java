package rakelight.inscription;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import rakelight.archive.Apart;
import rakelight.archive.Archive;
import rakelight.archive.Decision;
import rakelight.archive.FaceId;
import rakelight.archive.Joining;
import rakelight.archive.Json;
import rakelight.archive.Meeting;
import rakelight.archive.NewDecision;

/**
 * Readings of two laptops. Two of one face stay as two; where one reader is enough somebody is
 * asked which holds. A draft that one reader went on with on both can't be put together: the one
 * that doesn't show any more is told of with its letters. Where readings were withdrawn on one
 * laptop, those that the other signed or drafted meanwhile go with them.
 */
final class ReadingJoining implements Joining {
  private static final List<String> SIGNED = List.of(ReadingDecisions.SIGNED);
  private static final Set<String> LETTERS =
      Set.of(
          ReadingDecisions.SIGNED,
          ReadingDecisions.DRAFTED,
          ReadingDecisions.IMPORTED,
          ReadingDecisions.KNOWN,
          ReadingDecisions.KNOWN_LETTERS);

  @Override
  public List<Apart> apart(Meeting meeting) {
    Meeting.Side one = meeting.sides().get(0);
    Meeting.Side other = meeting.sides().get(1);
    List<Apart> apart = new ArrayList<>();
    boolean oneIsEnough =
        new ReadingStore(one.archive()).required() == 1
            && new ReadingStore(other.archive()).required() == 1;
    Map<UUID, Decision> ofOther = other.last(SIGNED);
    one.last(SIGNED)
        .forEach(
            (face, signed) -> {
              if (ofOther.containsKey(face)) {
                Decision there = ofOther.get(face);
                if (oneIsEnough && !text(signed).equals(text(there))) {
                  apart.add(plain("the reading", signed, there));
                }
                if (!text(signed).equals(text(there))) {
                  named(one, face, there, apart);
                  named(other, face, signed, apart);
                }
              }
            });
    drafts(one, other, apart);
    return apart;
  }

  private static List<String> text(Decision signed) {
    return signed.payload(ReadingDecisions.Signed.class).text();
  }

  private static Apart plain(String what, Decision one, Decision other) {
    return Apart.of(what, one, other, Optional.empty(), Optional.empty());
  }

  /**
   * What one decided of persons of a face that the other read anew: signs may have the same number
   * in both readings and not be the same letters.
   */
  private static void named(
      Meeting.Side side, UUID face, Decision readingThere, List<Apart> apart) {
    side.standing().stream()
        .filter(decision -> !decision.kind().startsWith("reading."))
        .filter(
            decision ->
                decision.kind().startsWith("person.")
                    || decision.kind().startsWith("link.")
                    || decision.kind().startsWith("sought.")
                    || decision.kind().startsWith("removal.")
                    || decision.kind().startsWith("parse."))
        .filter(
            decision ->
                decision.subject().equals(face)
                    || Json.text(decision.payload()).contains(face.toString()))
        .forEach(
            decision ->
                apart.add(plain("who is meant on a face that both read", decision, readingThere)));
  }

  private static void drafts(Meeting.Side one, Meeting.Side other, List<Apart> apart) {
    Map<List<Object>, Decision> drafted = drafted(one);
    drafted(other)
        .forEach(
            (of, there) -> {
              Decision here = drafted.get(of);
              if (here != null) {
                apart.add(
                    Apart.of("the draft", here, there, words(one, here), words(other, there)));
              }
            });
  }

  /** The last change to each draft, by face and reader. */
  private static Map<List<Object>, Decision> drafted(Meeting.Side side) {
    Map<List<Object>, Decision> last = new HashMap<>();
    side.standing().stream()
        .filter(ReadingStore::isOfDraft)
        .forEach(decision -> last.put(List.of(decision.subject(), decision.reader()), decision));
    return last;
  }

  private static Optional<String> words(Meeting.Side side, Decision drafted) {
    return new ReadingStore(side.archive())
        .draft(new FaceId(drafted.subject()), drafted.reader())
        .map(
            draft ->
                draft.lines().stream().map(Draft.Line::text).collect(Collectors.joining(" | ")));
  }

  @Override
  public List<NewDecision> follows(Archive joined, Meeting meeting) {
    List<NewDecision> follows = new ArrayList<>();
    follow(meeting.sides().get(0), meeting.sides().get(1), follows);
    follow(meeting.sides().get(1), meeting.sides().get(0), follows);
    return follows;
  }

  private static void follow(
      Meeting.Side withdrawing, Meeting.Side other, List<NewDecision> follows) {
    Set<UUID> read =
        other.standing().stream()
            .filter(decision -> LETTERS.contains(decision.kind()))
            .map(Decision::subject)
            .collect(Collectors.toSet());
    withdrawing
        .last(List.of(ReadingDecisions.WITHDRAWN))
        .forEach(
            (face, withdrawn) -> {
              if (read.contains(face)) {
                follows.add(
                    new NewDecision(
                        withdrawn.reader(),
                        withdrawn.kind(),
                        withdrawn.version(),
                        face,
                        withdrawn.payload(),
                        withdrawn.restsOn()));
              }
            });
  }
}
