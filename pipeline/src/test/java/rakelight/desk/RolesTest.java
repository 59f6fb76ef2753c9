package rakelight.desk;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.archive.PhotographId;
import rakelight.inscription.Basis;
import rakelight.inscription.Inscription;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.inscription.Reading;
import rakelight.marker.Condition;
import rakelight.marker.MarkerStore;
import rakelight.person.Question;
import rakelight.person.QuestionStore;
import rakelight.person.Source;
import rakelight.person.SourceStore;
import rakelight.photo.Credits;
import rakelight.photo.Ingest;
import rakelight.photo.NoListener;
import rakelight.photo.PhotoStore;
import rakelight.samples.Samples;
import rakelight.work.QuickReaders;
import rakelight.work.ReaderStore;
import rakelight.work.Role;

/** Who may do what, action by action, as the table in docs/desk.md says. */
class RolesTest {
  private static final Path DOCS = Path.of("../docs/desk.md");

  @TempDir Path folder;
  private OpenDesk desk;
  private ReaderStore readers;
  private Visitor ada;
  private final Map<Role, Visitor> visitors = new EnumMap<>(Role.class);
  private int faces;

  @BeforeEach
  void open() throws IOException {
    desk = new OpenDesk(folder.resolve("archive"));
    Path shots = Files.createDirectories(folder.resolve("shots"));
    Files.write(shots.resolve("M07-W.jpg"), Samples.bytes("M07-W.jpg"));
    new Ingest(desk.archive(), Credits.NONE, "Ada Fenn", new NoListener())
        .run(List.of(shots), Set.of());
    readers = QuickReaders.of(desk.archive());
    for (Role role : Role.values()) {
      readers.admit(name(role), role, passphrase(role).toCharArray(), "Ada Fenn");
    }
    readers.admit("Ada Fenn", Role.ARCHIVIST, "ada has long words".toCharArray(), "Ada Fenn");
    for (Role role : Role.values()) {
      visitors.put(role, Visitor.named(name(role), passphrase(role), desk.port()));
    }
    ada = Visitor.named("Ada Fenn", "ada has long words", desk.port());
  }

  @AfterEach
  void close() {
    desk.close();
  }

  private static String name(Role role) {
    return "Gil the " + role.label();
  }

  private static String passphrase(Role role) {
    return "long words of " + role.label();
  }

  /** Something a person does at the desk. */
  private interface Act {
    Visitor.Answer by(Visitor visitor, String face, String marker) throws IOException;
  }

  /**
   * @param words as the table in the documentation has them
   */
  private record Action(String words, Set<Role> allowed, Act act) {}

  private static final Set<Role> ALL = Set.of(Role.values());
  private static final Set<Role> DECIDING = Set.of(Role.ARCHIVIST, Role.READER);
  private static final Set<Role> ARCHIVISTS = Set.of(Role.ARCHIVIST);

  private List<Action> actions() {
    return List.of(
        new Action("look at the ground and the queue", ALL, (who, face, marker) -> who.get("/")),
        new Action("search", ALL, (who, face, marker) -> who.get("/search?q=wren")),
        new Action("ask what comes next", ALL, (who, face, marker) -> who.get("/api/next")),
        new Action("look at a marker", ALL, (who, face, marker) -> who.get("/markers/" + marker)),
        new Action("look at a face", ALL, (who, face, marker) -> who.get("/api/faces/" + face)),
        new Action(
            "print a sheet",
            ALL,
            (who, face, marker) -> who.get("/markers/" + marker + "/sheet.pdf")),
        new Action(
            "see persons, statements, dates, questions, sources and persons sought",
            ALL,
            (who, face, marker) -> who.get("/persons")),
        new Action(
            "see earlier lists and say which stone a row speaks of",
            DECIDING,
            (who, face, marker) -> {
              Visitor.Answer lists = who.get("/earlier-lists");
              return lists.status() == 200
                  ? who.form("/earlier-lists", Map.of("row", "1.1", "marker", "1", "do", "is"))
                  : lists;
            }),
        new Action("look at the plan", ALL, (who, face, marker) -> who.get("/plan")),
        new Action(
            "see families and whose footstones are whose",
            DECIDING,
            (who, face, marker) -> {
              Visitor.Answer families = who.get("/families");
              return families.status() == 200 ? who.get("/links") : families;
            }),
        new Action(
            "say whose a footstone is, and who is of one family",
            DECIDING,
            (who, face, marker) ->
                who.form("/markers/" + marker + "/family", Map.of("do", "name", "name", "Wren"))),
        new Action(
            "draw where a marker stands",
            DECIDING,
            (who, face, marker) ->
                who.post(
                    "/api/markers/" + marker + "/place",
                    "{\"east\":1,\"north\":2,\"errorMetres\":0.5}")),
        new Action(
            "skip a face for today",
            ALL,
            (who, face, marker) -> who.post("/api/faces/" + face + "/skip", "{}")),
        new Action("decide letters", DECIDING, (who, face, marker) -> decide(who, face)),
        new Action(
            "take one's own letters back",
            DECIDING,
            (who, face, marker) -> {
              decide(who, face);
              return who.post("/api/faces/" + face + "/undo", versioned(who, face, ""));
            }),
        new Action(
            "sign a reading",
            DECIDING,
            (who, face, marker) -> {
              for (int line = 3; line >= 1; line--) {
                who.post(
                    "/api/faces/" + face + "/decide",
                    versioned(who, face, ",\"do\":\"text\",\"text\":\"ELI\",\"line\":" + line));
              }
              return who.post(
                  "/api/faces/" + face + "/sign",
                  versioned(who, face, ",\"basis\":{\"kind\":\"photographs\"}"));
            }),
        new Action(
            "leave a face to others, or for other light",
            DECIDING,
            (who, face, marker) ->
                who.post(
                    "/api/faces/" + face + "/leave",
                    "{\"for\":\"other-light\",\"note\":\"moss\"}")),
        new Action(
            "bring a face back",
            DECIDING,
            (who, face, marker) -> who.post("/api/faces/" + face + "/come-back", "{}")),
        new Action(
            "say what a marker is",
            DECIDING,
            (who, face, marker) ->
                who.form("/markers/" + marker + "/description", Map.of("kind", "cross"))),
        new Action(
            "say what markers are by a table",
            DECIDING,
            (who, face, marker) ->
                who.file("/describe", "t.csv", "marker,kind\n7,cross\n".getBytes(UTF_8))),
        new Action(
            "note an emblem",
            DECIDING,
            (who, face, marker) ->
                who.form(
                    "/markers/" + marker + "/emblem",
                    Map.of("face", "front", "name", "an unknown knot"))),
        new Action(
            "see emblems, when made, what goes first, the sun and walks",
            ALL,
            (who, face, marker) -> who.get("/first")),
        new Action(
            "plan a walk",
            DECIDING,
            (who, face, marker) ->
                who.form("/walk", Map.of("name", "W", "markers", number(marker)))),
        new Action(
            "note a marker's condition", DECIDING, (who, face, marker) -> condition(who, marker)),
        new Action(
            "say how words are to be taken",
            DECIDING,
            (who, face, marker) -> {
              Reading read =
                  desk.readings()
                      .sign(
                          FaceId.of(face),
                          eliWren(),
                          Basis.FROM_PHOTOGRAPHS,
                          Optional.empty(),
                          "Ada Fenn");
              return who.form(
                  "/markers/" + marker + "/words",
                  Map.of(
                      "face", face,
                      "reading", read.id().toString(),
                      "first", "0",
                      "last", "1",
                      "what", "name",
                      "surname", "1"));
            }),
        new Action(
            "raise a question",
            DECIDING,
            (who, face, marker) ->
                who.form("/markers/" + marker + "/question", Map.of("words", "Who was he?"))),
        new Action(
            "try, answer or reopen a question",
            DECIDING,
            (who, face, marker) -> {
              Question question =
                  new QuestionStore(desk.archive()).raise("Who?", Optional.empty(), "Ada Fenn");
              return who.form(
                  "/questions/" + question.number(),
                  Map.of("do", "answer", "words", "Eli", "note", "his own letter"));
            }),
        new Action(
            "see who may be one with whom", DECIDING, (who, face, marker) -> who.get("/pairs")),
        new Action(
            "say who is one with whom, dead or unnamed",
            DECIDING,
            (who, face, marker) ->
                who.form("/persons", Map.of("marker", number(marker), "note", "one side is bare"))),
        new Action(
            "record a source",
            DECIDING,
            (who, face, marker) ->
                who.form("/sources", Map.of("kind", "roll", "title", "Roll of the club"))),
        new Action(
            "add a scan, or see one",
            DECIDING,
            (who, face, marker) ->
                who.file(
                    "/sources/" + roll().number() + "/scans",
                    "page-3.txt",
                    "Eli Wren".getBytes(StandardCharsets.UTF_8))),
        new Action(
            "add a person sought, or take a roll",
            DECIDING,
            (who, face, marker) ->
                who.form(
                    "/sought",
                    Map.of("source", Long.toString(roll().number()), "surname", "Wren"))),
        new Action(
            "say whose stone it is who is sought",
            DECIDING,
            (who, face, marker) -> {
              Source roll = roll();
              ada.form(
                  "/sought", Map.of("source", Long.toString(roll.number()), "surname", "Wren"));
              desk.readings()
                  .sign(
                      FaceId.of(face),
                      eliWren(),
                      Basis.FROM_PHOTOGRAPHS,
                      Optional.empty(),
                      "Ada Fenn");
              return who.form(
                  "/sought/" + roll.number() + ".1",
                  Map.of("is", "found", "mention", number(marker) + ":front:1"));
            }),
        new Action(
            "take back one's own decision",
            DECIDING,
            (who, face, marker) -> {
              condition(who, marker);
              return takeBack(who, marker);
            }),
        new Action(
            "take back another's decision",
            ARCHIVISTS,
            (who, face, marker) -> {
              condition(ada, marker);
              return takeBack(who, marker);
            }),
        new Action(
            "give a marker another number",
            ARCHIVISTS,
            (who, face, marker) ->
                who.form("/markers/" + marker + "/number", Map.of("number", "400"))),
        new Action(
            "move a photograph to another marker",
            ARCHIVISTS,
            (who, face, marker) ->
                who.form(
                    "/markers/" + marker + "/photograph",
                    Map.of(
                        "photograph",
                        photograph(face),
                        "number",
                        "77",
                        "face",
                        "front",
                        "new",
                        "on"))),
        new Action(
            "see what was decided differently on two laptops",
            ARCHIVISTS,
            (who, face, marker) -> who.get("/apart")),
        new Action("sort photographs", ARCHIVISTS, (who, face, marker) -> who.get("/sorting")),
        new Action("see who may sign in", ARCHIVISTS, (who, face, marker) -> who.get("/readers")),
        new Action(
            "admit a reader, or give another passphrase or role",
            ARCHIVISTS,
            (who, face, marker) ->
                who.form(
                    "/readers",
                    Map.of(
                        "do",
                        "admit",
                        "name",
                        "Eve Marsh",
                        "role",
                        "archivist",
                        "passphrase",
                        "eve has long words"))),
        new Action(
            "dismiss a reader",
            ARCHIVISTS,
            (who, face, marker) ->
                who.form("/readers", Map.of("do", "dismiss", "name", "Eve Marsh"))),
        new Action(
            "say how many read each face",
            ARCHIVISTS,
            (who, face, marker) -> who.form("/readers", Map.of("do", "require", "readings", "2"))));
  }

  @TestFactory
  Stream<DynamicTest> eachActionOfEachRole() {
    List<DynamicTest> tests = new ArrayList<>();
    for (Role role : Role.values()) {
      for (Action action : actions()) {
        boolean allowed = action.allowed().contains(role);
        tests.add(
            DynamicTest.dynamicTest(
                role.label() + (allowed ? " may " : " may not ") + action.words(),
                () -> check(role, action, allowed)));
      }
    }
    return tests.stream();
  }

  private void check(Role role, Action action, boolean allowed) throws IOException {
    Visitor who = Objects.requireNonNull(visitors.get(role));
    String face = desk.face(String.valueOf(++faces));
    String marker = ada.open(face).path("marker").path("id").asText();
    ada.post("/api/faces/" + face + "/let-go", "{}");
    if (readers.find("Eve Marsh").isEmpty()) {
      readers.admit("Eve Marsh", Role.GUEST, "eve has long words".toCharArray(), "Ada Fenn");
    }
    desk.readings().require(1, "Ada Fenn");
    Visitor.Answer answer = action.act().by(who, face, marker);
    if (allowed) {
      assertThat(answer.status()).as(answer.body()).isIn(200, 302);
    } else {
      assertThat(answer.status()).as(answer.body()).isEqualTo(403);
      assertThat(answer.body())
          .containsAnyOf("\"error\":\"role\"", "Only an archivist", "A guest may look");
    }
  }

  private static String versioned(Visitor who, String face, String more) {
    return "{\"version\":\"" + who.open(face).path("version").asText() + "\"" + more + "}";
  }

  private static Visitor.Answer decide(Visitor who, String face) {
    return who.post(
        "/api/faces/" + face + "/decide",
        versioned(who, face, ",\"do\":\"letter\",\"line\":1,\"at\":1,\"standing\":\"lost\""));
  }

  private Source roll() {
    return new SourceStore(desk.archive())
        .record(Source.Kind.ROLL, "A roll", "", "", Optional.empty(), "", "Ada Fenn");
  }

  private String number(String marker) {
    return new MarkerStore(desk.archive()).numberOf(MarkerId.of(marker));
  }

  private static Inscription eliWren() {
    try {
      return Leiden.parse("ELI WREN");
    } catch (LeidenException e) {
      throw new IllegalStateException(e);
    }
  }

  private static Visitor.Answer condition(Visitor who, String marker) {
    return who.form(
        "/markers/" + marker + "/condition",
        Map.of("on", "2026-11-20", Condition.values()[0].name(), "on"));
  }

  /** Takes the newest note of its condition back, whoever wrote it. */
  private Visitor.Answer takeBack(Visitor who, String marker) {
    String noted =
        desk.archive().journal().bySubject(MarkerId.of(marker).value()).stream()
            .filter(decision -> decision.kind().equals("condition.noted"))
            .reduce((earlier, later) -> later)
            .map(decision -> decision.id().toString())
            .orElse("");
    return who.form("/markers/" + marker + "/undo", Map.of("decision", noted));
  }

  /** A photograph on the face. */
  private String photograph(String face) {
    PhotoStore photographs = new PhotoStore(desk.archive());
    PhotographId id = photographs.photographs().get(0).id();
    photographs.assign(id, FaceId.of(face), Optional.empty(), "person", "Ada Fenn");
    return id.toString();
  }

  @Test
  void theDocumentationHasTheSameTable() throws Exception {
    String docs = Files.readString(DOCS, StandardCharsets.UTF_8);
    for (Action action : actions()) {
      String row =
          "| "
              + action.words()
              + " | yes | "
              + (action.allowed().contains(Role.READER) ? "yes" : "no")
              + " | "
              + (action.allowed().contains(Role.GUEST) ? "yes" : "no")
              + " |";
      assertThat(docs.contains(row)).as(row).isTrue();
    }
  }
}
