package rakelight.desk;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpRequest;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.work.QuickReaders;
import rakelight.work.ReaderStore;
import rakelight.work.Role;

/** Who is let in, how long, and what he may leave behind in a browser. */
class SignInTest {
  private static final String ADAS = "ada has long words";
  private static final String GILS = "gil has long words";

  @TempDir Path folder;
  private OpenDesk desk;
  private ReaderStore readers;
  private Visitor ada;
  private Visitor gil;

  @BeforeEach
  void open() {
    desk = new OpenDesk(folder.resolve("archive"));
    readers = QuickReaders.of(desk.archive());
    readers.admit("Ada Fenn", Role.ARCHIVIST, ADAS.toCharArray(), "Ada Fenn");
    readers.admit("Gil Orme", Role.READER, GILS.toCharArray(), "Ada Fenn");
    ada = Visitor.named("Ada Fenn", ADAS, desk.port());
    gil = Visitor.named("Gil Orme", GILS, desk.port());
  }

  @AfterEach
  void close() {
    desk.close();
  }

  private int whoIs(Visitor visitor) {
    return visitor.get("/api/whoami").status();
  }

  @Test
  void wrongPassphrasesForOneNameLockNobodyElseOut() {
    Visitor guesser = desk.stranger();
    for (int i = 0; i < SignInLimit.FREE; i++) {
      assertThat(guesser.signIn("Gil Orme", "guess number " + i).status()).isEqualTo(401);
    }
    Visitor.Answer held = guesser.signIn("Gil Orme", GILS);
    assertThat(held.status()).isEqualTo(429);
    assertThat(held.header("Retry-After")).isEqualTo("31");
    assertThat(held.body()).contains("Wait 31 seconds");
    assertThat(desk.stranger().signIn("Ada Fenn", ADAS).status()).isEqualTo(302);
    desk.later(SignInLimit.FIRST);
    assertThat(guesser.signIn("Gil Orme", GILS).status()).isEqualTo(302);
  }

  @Test
  void aNewPassphraseEndsTheReadersSessionsEverywhere() {
    Visitor elsewhere = Visitor.named("gil orme", GILS, desk.port());
    readers.admit("gil orme", Role.READER, "gil has other words".toCharArray(), "Ada Fenn");
    assertThat(whoIs(gil)).isEqualTo(401);
    assertThat(whoIs(elsewhere)).isEqualTo(401);
    assertThat(whoIs(ada)).isEqualTo(200);
    assertThat(desk.stranger().signIn("Gil Orme", GILS).status()).isEqualTo(401);
  }

  @Test
  void anotherRoleEndsTheReadersSessions() {
    assertThat(
            ada.form(
                    "/readers",
                    Map.of("do", "admit", "name", "Gil Orme", "role", "guest", "passphrase", GILS))
                .status())
        .isEqualTo(200);
    assertThat(whoIs(gil)).isEqualTo(401);
    Visitor again = Visitor.named("Gil Orme", GILS, desk.port());
    assertThat(again.get("/api/whoami").json().path("role").asText()).isEqualTo("guest");
  }

  @Test
  void whoIsRemovedIsOutAtOnceAndStaysOutWhenAdmittedAnew() {
    readers.dismiss("Gil Orme", "Ada Fenn");
    assertThat(whoIs(gil)).isEqualTo(401);
    readers.dismiss("Ada Fenn", "Ada Fenn");
    readers.admit("Ada Fenn", Role.ARCHIVIST, ADAS.toCharArray(), "Ada Fenn");
    assertThat(whoIs(ada)).isEqualTo(401);
  }

  @Test
  void whoChangesHisOwnWayInSignsInAnew() {
    Visitor.Answer changed =
        ada.form(
            "/readers",
            Map.of("do", "admit", "name", "Ada Fenn", "role", "archivist", "passphrase", GILS));
    assertThat(changed.header("Location")).isEqualTo("/sign-in");
    assertThat(whoIs(ada)).isEqualTo(401);
  }

  @Test
  void noBrowserKeepsWhatOnlyReadersMaySee() {
    String face = desk.face("12");
    String marker = ada.open(face).path("marker").path("id").asText();
    for (String path :
        List.of(
            "/",
            "/queue",
            "/readers",
            "/faces/" + face,
            "/faces/" + face + "/at-the-stone",
            "/markers/" + marker,
            "/markers/" + marker + "/sheet.pdf",
            "/api/whoami",
            "/api/ground",
            "/api/next",
            "/api/other-light",
            "/api/faces/" + face,
            "/nothing-here")) {
      assertThat(ada.get(path).header("Cache-Control")).as(path).isEqualTo("no-store");
    }
    Visitor.Answer out = ada.form("/sign-out", Map.of());
    assertThat(out.header("Clear-Site-Data")).isEqualTo("\"cache\"");
    assertThat(whoIs(ada)).isEqualTo(401);
  }

  @Test
  void aWrongMethodIsToldWhichAreRight() {
    Visitor.Answer deleted = ada.send(ada.request("/api/ground").DELETE());
    assertThat(deleted.status()).isEqualTo(405);
    assertThat(deleted.json().path("error").asText()).isEqualTo("method");
    assertThat(deleted.header("Allow")).isEqualTo("GET, HEAD");
    assertThat(ada.get("/sign-out").status()).isEqualTo(405);
    assertThat(ada.get("/sign-out").header("Allow")).isEqualTo("POST");
    assertThat(
            ada.send(ada.request("/sign-in").method("PUT", HttpRequest.BodyPublishers.noBody()))
                .header("Allow"))
        .isEqualTo("GET, HEAD, POST");
    assertThat(ada.send(ada.request("/nothing-here").DELETE()).status()).isEqualTo(404);
  }

  @Test
  void aGetStaysAGetWhateverAHeaderSays() {
    Visitor.Answer got =
        ada.send(ada.request("/api/whoami").header("X-HTTP-Method-Override", "POST").GET());
    assertThat(got.status()).isEqualTo(200);
    assertThat(
            ada.send(ada.request("/sign-out").header("x-http-method-override", "POST").GET())
                .status())
        .isEqualTo(405);
    assertThat(whoIs(ada)).isEqualTo(200);
  }
}
