package rakelight.search;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiFunction;
import rakelight.archive.Archive;
import rakelight.archive.Json;
import rakelight.index.Entry;
import rakelight.index.Hit;
import rakelight.index.HitList;
import rakelight.inscription.Leiden;
import rakelight.marker.MarkerStore;
import rakelight.person.Question;
import rakelight.person.QuestionJson;
import rakelight.photo.Photograph;

/** What a search found, as programs get it at the terminal and at the desk. */
public final class SearchJson {
  private final Archive archive;
  private final Optional<LocalDate> searched;
  private final BiFunction<Photograph, Path, Map<String, String>> where;

  /**
   * @param searched the day of the search, if citations are to name it
   * @param where the fields that say where a photograph is to be had, of it and its original
   */
  public SearchJson(
      Archive archive,
      Optional<LocalDate> searched,
      BiFunction<Photograph, Path, Map<String, String>> where) {
    this.archive = archive;
    this.searched = searched;
    this.where = where;
  }

  /**
   * An object a hit, then the questions in which the words are found, then what was covered.
   *
   * @param couldAnswer the likeliest of those that nobody has read; empty where nobody looked
   */
  public List<ObjectNode> of(
      GroundSearch.Answers answers,
      List<Question> questions,
      Coverage coverage,
      Optional<List<GroundSearch.Unread>> couldAnswer) {
    List<ObjectNode> objects = new ArrayList<>();
    answers.answers().forEach(found -> objects.add(hit(found)));
    MarkerStore markers = new MarkerStore(archive);
    questions.forEach(question -> objects.add(QuestionJson.of(question, markers)));
    objects.add(covers(answers, coverage, couldAnswer));
    return objects;
  }

  /** An object a hit of what nobody confirmed; each says so. */
  public static List<ObjectNode> ofProposals(HitList found) {
    List<ObjectNode> objects = new ArrayList<>();
    for (Hit hit : found.hits()) {
      ObjectNode object = object().put("proposed", true);
      answer(object, hit);
      ArrayNode faces = object.putArray("faces");
      for (Entry.Face face : hit.entry().faces()) {
        ArrayNode lines = faces.addObject().put("face", face.name()).putArray("proposal");
        face.text().lines().forEach(lines::add);
      }
      objects.add(object);
    }
    return objects;
  }

  /** A face's reading in lines of Leiden signs; as it was indexed, if it was undone since. */
  public static List<String> lines(GroundSearch.AnsweringFace face, Entry entry) {
    return face.reading()
        .map(reading -> Leiden.printLines(reading.inscription()))
        .orElseGet(
            () ->
                entry.faces().stream()
                    .filter(each -> each.name().equals(face.name()))
                    .map(Entry.Face::text)
                    .toList());
  }

  private static ObjectNode object() {
    return Json.mapper().createObjectNode().put("schema", 1);
  }

  private ObjectNode hit(GroundSearch.Answer found) {
    Entry entry = found.hit().entry();
    ObjectNode object = object();
    answer(object, found.hit());
    ArrayNode links = object.putArray("links");
    entry.fact("link").forEach(links::add);
    ArrayNode faces = object.putArray("faces");
    for (GroundSearch.AnsweringFace face : found.faces()) {
      face(faces.addObject(), face, entry);
    }
    return object;
  }

  private static void answer(ObjectNode object, Hit hit) {
    Entry entry = hit.entry();
    object.put("marker", entry.marker()).put("probability", hit.probability());
    ArrayNode why = object.putArray("why");
    hit.why().forEach(why::add);
    ArrayNode letters = object.putArray("letters");
    for (Hit.Letters word : hit.letters()) {
      StringBuilder standing = new StringBuilder();
      word.places().forEach(place -> standing.append(sign(place)));
      ObjectNode one = letters.addObject().put("asked", word.asked()).put("as", word.as());
      if (word.word() >= 0) {
        one.put("word", entry.words().get(word.word()).shown())
            .put("face", entry.faceOf(word.word()).name());
      }
      one.put("standing", standing.toString());
    }
  }

  private static char sign(Hit.Standing standing) {
    return switch (standing) {
      case SURE -> 's';
      case GUESSED -> 'g';
      case OTHER -> 'o';
    };
  }

  private void face(ObjectNode object, GroundSearch.AnsweringFace face, Entry entry) {
    object.put("face", face.name());
    ArrayNode reading = object.putArray("reading");
    lines(face, entry).forEach(reading::add);
    face.reading()
        .ifPresent(
            signed ->
                object
                    .put("reader", signed.reader())
                    .put("basis", signed.basis().kind().label())
                    .put("readingId", signed.id().toString()));
    object.put("citation", Citation.of(archive.ground(), entry.marker(), face, searched));
    ArrayNode photographs = object.putArray("photographs");
    for (int i = 0; i < face.photographs().size(); i++) {
      Photograph photograph = face.photographs().get(i);
      ObjectNode one =
          photographs
              .addObject()
              .put("id", photograph.id().toString())
              .put("file", photograph.originalPath())
              .put("sha256", photograph.sha256().hex());
      where.apply(photograph, face.originals().get(i)).forEach(one::put);
    }
  }

  private static ObjectNode covers(
      GroundSearch.Answers answers,
      Coverage coverage,
      Optional<List<GroundSearch.Unread>> couldAnswer) {
    ObjectNode object = object();
    ObjectNode covers =
        object
            .putObject("covers")
            .put("markers", coverage.markers())
            .put("photographed", coverage.photographed())
            .put("read", coverage.read())
            .put("illegible", coverage.illegible());
    ArrayNode unread = covers.putArray("unread");
    coverage.unread().forEach(unread::add);
    couldAnswer.ifPresent(
        all -> {
          ArrayNode could = covers.putArray("couldAnswer");
          all.forEach(
              one ->
                  could
                      .addObject()
                      .put("marker", one.number())
                      .put("probability", one.probability()));
        });
    ObjectNode widened = object.putObject("widened");
    answers
        .found()
        .widened()
        .forEach(
            (word, forms) -> {
              ArrayNode all = widened.putArray(word);
              forms.forEach(all::add);
            });
    return object
        .put("answering", answers.found().answering())
        .put("elsewhere", answers.found().elsewhere());
  }
}
