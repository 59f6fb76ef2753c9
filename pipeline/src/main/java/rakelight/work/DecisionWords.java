package rakelight.work;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import rakelight.archive.Apart;
import rakelight.archive.Archive;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.archive.PhotographId;
import rakelight.marker.MarkerStore;
import rakelight.photo.PhotoStore;

/**
 * What decisions say, in plain words: about what, by whom, and what. The same for commands and for
 * pages. What is sealed isn't told.
 */
public final class DecisionWords {
  /** Of use to the program alone. */
  private static final Set<String> UNTOLD = Set.of("batch", "proposal", "reading", "signIds", "id");

  private static final Pattern ID = Pattern.compile("[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}");
  private static final int MOST_CHARS = 300;

  private final List<Archive> archives;

  /**
   * @param archive the one that things are named by
   * @param others where decisions may be that aren't in it yet
   */
  public DecisionWords(Archive archive, Archive... others) {
    this.archives = Stream.concat(Stream.of(archive), Stream.of(others)).toList();
  }

  /**
   * A thing that was decided differently on two laptops.
   *
   * @param about what it is called
   * @param both the two decisions; once the histories are one in their order, so that the last
   *     holds
   * @param isOfOne whether both are of one thing, so that the later holds
   * @param letters that would be seen nowhere any more; of two things what else is to be known
   */
  public record Told(
      String what, String about, List<Said> both, boolean isOfOne, List<String> letters) {
    public Told {
      both = List.copyOf(both);
      letters = List.copyOf(letters);
    }
  }

  /**
   * One decision.
   *
   * @param words what it says; empty if that can't be told in words
   */
  public record Said(DecisionId id, String reader, Instant at, String words) {}

  /** Tells of what was decided differently. */
  public Told tell(Apart apart) {
    List<Decision> both =
        Stream.of(apart.one(), apart.other())
            .flatMap(id -> find(id).stream())
            .sorted(Comparator.comparing(Decision::counter))
            .toList();
    return new Told(
        apart.what(),
        about(apart.subject()),
        both.stream().map(this::say).toList(),
        both.stream().map(Decision::subject).distinct().count() == 1,
        both.stream().allMatch(this::isOpen) ? apart.words() : List.of());
  }

  /** Tells what one decision says. */
  public Said say(Decision decision) {
    return new Said(
        decision.id(),
        decision.reader(),
        decision.at(),
        isOpen(decision) ? words(decision) : "not shown until the second reader has signed");
  }

  private boolean isOpen(Decision decision) {
    return archives.stream().allMatch(archive -> new Sight(archive).isOpen(decision));
  }

  private Optional<Decision> find(DecisionId id) {
    return archives.stream().flatMap(archive -> archive.journal().find(id).stream()).findFirst();
  }

  /** What a thing is called that something was decided of. */
  public String about(UUID id) {
    return name(id).orElse(archives.get(0).id().equals(id) ? "the ground" : "number " + id);
  }

  /** A marker or face by its number, also one withdrawn; a photograph by its file's name. */
  private Optional<String> name(UUID id) {
    return archives.stream().flatMap(archive -> name(archive, id).stream()).findFirst();
  }

  private static Optional<String> name(Archive archive, UUID id) {
    MarkerStore markers = new MarkerStore(archive);
    PhotoStore photos = new PhotoStore(archive);
    return photos
        .face(new FaceId(id))
        .map(face -> "marker " + markers.numberOf(face.marker()) + ", face " + face.name())
        .or(() -> markers.marker(new MarkerId(id)).map(marker -> "marker " + marker.number()))
        .or(
            () ->
                photos
                    .photograph(new PhotographId(id))
                    .map(photograph -> "photograph " + photograph.originalName()))
        .or(() -> markers.numberGiven(new MarkerId(id)).map(number -> "marker " + number))
        .or(
            () ->
                photos
                    .facePlaced(new FaceId(id))
                    .map(
                        face ->
                            "marker "
                                + markers.numberGiven(face.marker()).orElse("?")
                                + ", face "
                                + face.name()));
  }

  private String words(Decision decision) {
    JsonNode payload = decision.payload();
    String words =
        payload.path("text").isArray()
            ? String.join(" | ", texts(payload.path("text")))
            : decision.kind().equals("reading.drafted") ? "" : words(payload);
    return words.length() <= MOST_CHARS ? words : words.substring(0, MOST_CHARS) + "…";
  }

  private static List<String> texts(JsonNode lines) {
    return StreamSupport.stream(lines.spliterator(), false).map(JsonNode::asText).toList();
  }

  /** The fields of a payload by their names; what has no words of its own is left out. */
  private String words(JsonNode node) {
    List<String> parts = new ArrayList<>();
    if (node.isObject()) {
      for (Map.Entry<String, JsonNode> field : node.properties()) {
        String value = UNTOLD.contains(field.getKey()) ? "" : words(field.getValue());
        if (!value.isEmpty()) {
          parts.add(label(field.getKey()) + ": " + value);
        }
      }
      return String.join("; ", parts);
    }
    if (node.isArray()) {
      node.forEach(one -> parts.add(words(one)));
      parts.removeIf(String::isEmpty);
      return String.join(", ", parts);
    }
    String text = node.isNull() ? "" : node.asText();
    return ID.matcher(text).matches() ? name(UUID.fromString(text)).orElse("") : text;
  }

  private static String label(String field) {
    return field.replaceAll("([A-Z])", " $1").toLowerCase(Locale.ROOT);
  }
}
