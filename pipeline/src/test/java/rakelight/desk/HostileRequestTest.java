package rakelight.desk;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.OutputStream;
import java.net.Socket;
import java.net.http.HttpRequest;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Json;
import rakelight.work.QuickReaders;
import rakelight.work.ReaderStore;
import rakelight.work.Role;

class HostileRequestTest {
  private static final String SCRIPT = "<script>alert(1)</script>\"'><img src=x onerror=alert(2)>";

  @TempDir Path folder;
  private OpenDesk desk;
  private String face;
  private Visitor ada;

  @BeforeEach
  void open() {
    desk = new OpenDesk(folder.resolve("archive"));
    face = desk.face("12");
    ada = desk.visitor("Ada Fenn");
  }

  @AfterEach
  void close() {
    desk.close();
  }

  /** A request byte for byte, as no library would send it. */
  private String raw(String request) throws IOException {
    try (Socket socket = new Socket("127.0.0.1", desk.port())) {
      socket.setSoTimeout(5000);
      OutputStream out = socket.getOutputStream();
      out.write(request.getBytes(StandardCharsets.UTF_8));
      out.flush();
      return new String(socket.getInputStream().readAllBytes(), StandardCharsets.ISO_8859_1);
    }
  }

  private String rawGet(String path) throws IOException {
    return raw(
        "GET "
            + path
            + " HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\nCookie: "
            + ada.cookie()
            + "\r\n\r\n");
  }

  private String decide(String more) {
    return "{\"version\":\"" + ada.open(face).path("version").asText() + "\"," + more + "}";
  }

  @Test
  void noPathFromARequestReachesTheFileSystem() throws IOException {
    for (String path :
        List.of(
            "/assets/../ledger.sqlite",
            "/assets/../../../../archive/ledger.sqlite",
            "/assets/..%2f..%2fledger.sqlite",
            "/assets/%2e%2e/%2e%2e/ledger.sqlite",
            "/assets/..%5c..%5cledger.sqlite",
            "/assets/..;/ledger.sqlite",
            "/assets//etc/passwd",
            "/assets/desk.css%00.js",
            "/images/photographs/..%2f..%2fledger.sqlite",
            "/images/faces/" + face + "/..%2f../reliefs/..%2f..%2fledger.sqlite",
            "/images/faces/"
                + face
                + "/"
                + ada.open(face).path("proposal").asText()
                + "/reliefs/..%2f..%2f..%2fledger.sqlite",
            "/images/faces/"
                + face
                + "/"
                + ada.open(face).path("proposal").asText()
                + "/strips/1/..%2fledger",
            "/images/faces/"
                + face
                + "/"
                + ada.open(face).path("proposal").asText()
                + "/strips/-1/cut",
            "/faces/..%2fledger.sqlite",
            "/api/faces/..%2f..%2fledger.sqlite",
            "/ledger.sqlite",
            "/originals/",
            "file:///etc/passwd")) {
      String answer = rawGet(path);
      assertThat(answer).as(path).matches("(?s)HTTP/1.1 (400|403|404) .*");
      assertThat(answer).as(path).doesNotContain("SQLite format").doesNotContain("root:");
    }
  }

  @Test
  void scriptInAnyTextFieldIsRefusedOrShownAsText() {
    Visitor mallory = desk.visitor(SCRIPT);
    assertThat(mallory.get("/").body())
        .doesNotContain("<script>alert")
        .doesNotContain("<img src=x");
    String text = Json.text(SCRIPT);
    for (String more :
        List.of(
            "\"do\":\"letter\",\"line\":1,\"at\":1,\"standing\":\"clear\",\"text\":" + text,
            "\"do\":\"letter\",\"line\":1,\"at\":1,\"standing\":" + text,
            "\"do\":" + text + ",\"line\":1",
            "\"do\":\"letter\",\"line\":1,\"at\":1,\"standing\":\"unclear\",\"candidates\":[{\"text\":"
                + text
                + "},{\"text\":\"A\"}]",
            "\"do\":\"letter\",\"line\":1,\"at\":1,\"standing\":\"lost\",\"letters\":" + text)) {
      Visitor.Answer answer = ada.post("/api/faces/" + face + "/decide", decide(more));
      assertThat(answer.status()).as(more).isIn(400, 422);
      assertThat(answer.header("Content-Type")).startsWith("application/json");
      assertThat(answer.header("X-Content-Type-Options")).isEqualTo("nosniff");
    }
    ada.decide(
        face,
        "{\"do\":\"letter\",\"line\":1,\"at\":1,\"standing\":\"supplied\",\"text\":\"I\",\"note\":"
            + text
            + "}");
    ada.decide(face, "{\"do\":\"add-line\",\"line\":1,\"text\":\"\\\\<script\\\\>\"}");
    ada.post("/api/faces/" + face + "/leave", "{\"for\":\"other-light\",\"note\":" + text + "}");
    ada.acceptTheRest(face);
    String version = ada.open(face).path("version").asText();
    Visitor.Answer signed =
        ada.post(
            "/api/faces/" + face + "/sign",
            "{\"version\":\""
                + version
                + "\",\"basis\":{\"kind\":\"earlier\",\"witness\":"
                + text
                + ",\"light\":"
                + text
                + "}}");
    assertThat(signed.status()).isEqualTo(200);
    String marker = ada.open(face).path("marker").path("id").asText();
    for (String page :
        List.of("/", "/faces/" + face, "/markers/" + marker, "/" + SCRIPT.length())) {
      assertThat(ada.get(page).body())
          .as(page)
          .doesNotContain("<script>alert")
          .doesNotContain("<img src=x");
    }
  }

  @Test
  void aForgedFormIsRefused() throws IOException {
    String body = decide("\"do\":\"remove-line\",\"line\":1");
    String path = "/api/faces/" + face + "/decide";
    long before = desk.archive().journal().lastCounter();
    HttpRequest.Builder noToken =
        ada.request(path)
            .header("Content-Type", "application/json")
            .POST(HttpRequest.BodyPublishers.ofString(body));
    assertThat(ada.send(noToken).json().path("error").asText()).isEqualTo("token");
    HttpRequest.Builder wrongToken =
        ada.request(path)
            .header("Content-Type", "application/json")
            .header("X-Desk-Token", ada.token() + "A")
            .POST(HttpRequest.BodyPublishers.ofString(body));
    assertThat(ada.send(wrongToken).json().path("error").asText()).isEqualTo("token");
    HttpRequest.Builder strangersToken =
        ada.request(path)
            .header("Content-Type", "application/json")
            .header("X-Desk-Token", desk.visitor("Bo").token())
            .POST(HttpRequest.BodyPublishers.ofString(body));
    assertThat(ada.send(strangersToken).json().path("error").asText()).isEqualTo("token");
    HttpRequest.Builder foreign =
        ada.request(path)
            .header("Content-Type", "application/json")
            .header("X-Desk-Token", ada.token())
            .header("Origin", "http://elsewhere.example")
            .POST(HttpRequest.BodyPublishers.ofString(body));
    assertThat(ada.send(foreign).json().path("error").asText()).isEqualTo("host");
    HttpRequest.Builder form =
        ada.request(path)
            .header("Content-Type", "text/plain")
            .header("X-Desk-Token", ada.token())
            .POST(HttpRequest.BodyPublishers.ofString(body));
    assertThat(ada.send(form).status()).isEqualTo(415);
    HttpRequest.Builder out =
        ada.request("/sign-out").POST(HttpRequest.BodyPublishers.ofString("token="));
    assertThat(ada.send(out).status()).isEqualTo(403);
    assertThat(
            raw(
                "POST /sign-in HTTP/1.1\r\n"
                    + "Host: 127.0.0.1\r\n"
                    + "Connection: close\r\n"
                    + "Content-Type: application/x-www-form-urlencoded\r\n"
                    + "Content-Length: 16\r\n\r\n"
                    + "name=Ada&token=x"))
        .startsWith("HTTP/1.1 403");
    assertThat(desk.stranger().post(path, body).status()).isEqualTo(401);
    assertThat(desk.archive().journal().lastCounter()).isEqualTo(before);
  }

  @Test
  void aPageElsewhereCannotReachTheDeskUnderANameOfItsOwn() throws IOException {
    for (String host : List.of("rebound.example", "127.0.0.1.rebound.example", "[::2]", "")) {
      assertThat(raw("GET /sign-in HTTP/1.1\r\nHost: " + host + "\r\nConnection: close\r\n\r\n"))
          .as(host)
          .matches("(?s)HTTP/1.1 (400|403) .*");
    }
    assertThat(raw("GET /sign-in HTTP/1.1\r\nHost: localhost:1\r\nConnection: close\r\n\r\n"))
        .startsWith("HTTP/1.1 200");
  }

  @Test
  void anOversizedBodyIsRefusedHoweverItIsSent() {
    String large =
        "{\"do\":\"text\",\"line\":1,\"text\":\"" + "A".repeat(Door.LARGEST_BODY_BYTES) + "\"}";
    assertThat(ada.post("/api/faces/" + face + "/decide", large).status()).isEqualTo(413);
    HttpRequest.Builder chunked =
        ada.request("/api/faces/" + face + "/decide")
            .header("Content-Type", "application/json")
            .header("X-Desk-Token", ada.token())
            .POST(
                HttpRequest.BodyPublishers.fromPublisher(
                    HttpRequest.BodyPublishers.ofString(large)));
    assertThat(ada.send(chunked).status()).isEqualTo(413);
    assertThat(ada.signIn("A".repeat(100_000), "").status()).isEqualTo(413);
    assertThat(
            ada.post(
                    "/api/faces/" + face + "/leave",
                    "{\"for\":\"other-light\",\"note\":\"" + "A".repeat(3000) + "\"}")
                .status())
        .isEqualTo(400);
  }

  @Test
  void wrongTypesAreRefusedAndChangeNothing() {
    long before = desk.archive().journal().lastCounter();
    for (String more :
        List.of(
            "\"do\":\"remove-line\",\"line\":\"1\"",
            "\"do\":\"remove-line\",\"line\":1.5",
            "\"do\":\"remove-line\",\"line\":0",
            "\"do\":\"remove-line\",\"line\":-1",
            "\"do\":\"remove-line\",\"line\":4",
            "\"do\":\"remove-line\",\"line\":99999999999999999999",
            "\"do\":\"remove-line\",\"line\":null",
            "\"do\":\"remove-line\",\"line\":[1]",
            "\"do\":\"remove-line\",\"line\":1,\"surprise\":true",
            "\"do\":7,\"line\":1",
            "\"line\":1",
            "\"do\":\"letter\",\"line\":1,\"at\":1",
            "\"do\":\"letter\",\"line\":1,\"at\":99,\"standing\":\"lost\"",
            "\"do\":\"letter\",\"line\":1,\"at\":1,\"standing\":\"clear\",\"text\":\"AB\"",
            "\"do\":\"letter\",\"line\":1,\"at\":1,\"standing\":\"clear\",\"text\":\"\"",
            "\"do\":\"letter\",\"line\":1,\"at\":1,\"standing\":\"clear\",\"text\":\" \"",
            "\"do\":\"letter\",\"line\":1,\"at\":1,\"standing\":\"clear\",\"text\":\"\\u0000\"",
            "\"do\":\"letter\",\"line\":1,\"at\":1,\"standing\":\"clear\",\"erased\":\"yes\"",
            "\"do\":\"letter\",\"line\":1,\"at\":1,\"standing\":\"supplied\",\"text\":\"A\"",
            "\"do\":\"letter\",\"line\":1,\"at\":1,\"standing\":\"lost\",\"letters\":0",
            "\"do\":\"letter\",\"line\":1,\"at\":1,\"standing\":\"lost\",\"letters\":1000000",
            "\"do\":\"letter\",\"line\":1,\"at\":1,\"standing\":\"unclear\",\"candidates\":{}",
            "\"do\":\"letter\",\"line\":1,\"at\":1,\"standing\":\"unclear\",\"candidates\":[{\"text\":\"A\",\"percent\":500}]",
            "\"do\":\"text\",\"line\":1,\"text\":\"[unclosed\"",
            "\"do\":\"text\",\"line\":1,\"text\":\"two\\nlines\"",
            "\"do\":\"add-line\",\"line\":1,\"text\":\"\"",
            "\"do\":\"split-line\",\"line\":1,\"at\":1",
            "\"do\":\"join-lines\",\"line\":3")) {
      Visitor.Answer answer = ada.post("/api/faces/" + face + "/decide", decide(more));
      assertThat(answer.status()).as(more).isIn(400, 422);
      assertThat(answer.json().path("message").asText()).as(more).isNotBlank();
    }
    for (String body : List.of("", "[]", "7", "{", "{\"version\":7}", "null", "{}{}")) {
      assertThat(ada.post("/api/faces/" + face + "/decide", body).status()).as(body).isEqualTo(400);
    }
    for (String path :
        List.of(
            "/api/next?by=nothing",
            "/images/photographs/" + face + "?longest=99999",
            "/images/photographs/" + face + "?longest=x")) {
      assertThat(ada.get(path).status()).as(path).isEqualTo(400);
    }
    assertThat(desk.archive().journal().lastCounter()).isEqualTo(before);
  }

  @Test
  void pagesRunNoScriptOfTheirOwnAndCookiesStayInTheBrowser() {
    Visitor.Answer page = desk.stranger().get("/sign-in");
    assertThat(page.header("Content-Security-Policy"))
        .contains("default-src 'none'")
        .contains("script-src 'self'")
        .contains("frame-ancestors 'none'")
        .doesNotContain("unsafe");
    assertThat(page.header("Set-Cookie")).contains("HttpOnly").contains("SameSite=Strict");
    assertThat(page.body()).doesNotContain("<script>").doesNotContain(" onclick=");
    assertThat(desk.stranger().get("/").whole().uri().getPath()).isEqualTo("/");
    assertThat(desk.stranger().get("/").status()).isEqualTo(302);
  }

  @Test
  void aGuestLooks() {
    ReaderStore readers = QuickReaders.of(desk.archive());
    readers.admit("Gil Orme", Role.GUEST, "ten long words here".toCharArray(), "Ada Fenn");
    assertThat(ada.get("/api/whoami").status()).isEqualTo(401);
    Visitor gil = Visitor.named("gil orme", "ten long words here", desk.port());
    JsonNode open = gil.open(face);
    assertThat(open.path("task").asText()).isEqualTo("look");
    assertThat(open.has("lease")).isFalse();
    assertThat(
            gil.post(
                    "/api/faces/" + face + "/decide",
                    "{\"version\":\"x\",\"do\":\"remove-line\",\"line\":1}")
                .json()
                .path("error")
                .asText())
        .isEqualTo("role");
    assertThat(gil.post("/api/faces/" + face + "/leave", "{\"for\":\"other-light\"}").status())
        .isEqualTo(403);
  }
}
