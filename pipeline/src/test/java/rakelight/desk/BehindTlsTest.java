package rakelight.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.OutputStream;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.ArchiveException;
import rakelight.work.QuickReaders;
import rakelight.work.Role;

/** The desk behind a proxy that adds TLS: what it believes, and what not. */
class BehindTlsTest {
  private static final String NAME = "read.fennlane.example";
  private static final String PASSPHRASE = "ada has long words";
  private static final Pattern TOKEN = Pattern.compile("name=\"token\" value=\"([^\"]+)\"");
  private static final Pattern COOKIE = Pattern.compile("Set-Cookie: (desk=[^;]+)([^\r]*)");

  @TempDir Path folder;
  private OpenDesk plain;
  private Desk desk;

  @BeforeEach
  void open() {
    plain = new OpenDesk(folder.resolve("archive"));
    QuickReaders.of(plain.archive())
        .admit("Ada Fenn", Role.ARCHIVIST, PASSPHRASE.toCharArray(), "Ada Fenn");
    desk = Desk.behindTls(plain.archive(), NAME, 0, Clock.systemUTC());
  }

  @AfterEach
  void close() {
    desk.close();
    plain.close();
  }

  private static String raw(int port, String request) throws IOException {
    try (Socket socket = new Socket("127.0.0.1", port)) {
      socket.setSoTimeout(10_000);
      OutputStream out = socket.getOutputStream();
      out.write(request.getBytes(StandardCharsets.UTF_8));
      out.flush();
      return new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  /** What a proxy hands on for somebody at an address. */
  private String proxied(String line, String forwardedFor, String headers, String body)
      throws IOException {
    return raw(
        desk.port(),
        line
            + " HTTP/1.1\r\nHost: "
            + NAME
            + "\r\nX-Forwarded-Proto: https\r\nX-Forwarded-For: "
            + forwardedFor
            + "\r\nConnection: close\r\n"
            + headers
            + (body.isEmpty()
                ? "\r\n"
                : "Content-Type: application/x-www-form-urlencoded\r\nContent-Length: "
                    + body.length()
                    + "\r\n\r\n"
                    + body));
  }

  private String signIn(String forwardedFor, String passphrase) throws IOException {
    String page = proxied("GET /sign-in", forwardedFor, "", "");
    Matcher cookie = COOKIE.matcher(page);
    Matcher token = TOKEN.matcher(page);
    assertThat(cookie.find() && token.find()).isTrue();
    return proxied(
        "POST /sign-in",
        forwardedFor,
        "Cookie: " + cookie.group(1) + "\r\nOrigin: https://" + NAME + "\r\n",
        "token=" + token.group(1) + "&name=Ada+Fenn&passphrase=" + passphrase.replace(' ', '+'));
  }

  @Test
  void cookiesTravelByHttpsAlone() throws IOException {
    Matcher cookie = COOKIE.matcher(proxied("GET /sign-in", "192.0.2.7", "", ""));
    assertThat(cookie.find()).isTrue();
    assertThat(cookie.group(2)).contains("Secure").contains("HttpOnly").contains("SameSite=Strict");
    String signedIn = signIn("192.0.2.7", PASSPHRASE);
    assertThat(signedIn).startsWith("HTTP/1.1 302").contains("Location: /\r\n");
    cookie = COOKIE.matcher(signedIn);
    assertThat(cookie.find()).isTrue();
    assertThat(cookie.group(2)).contains("Secure");
    assertThat(plain.stranger().get("/sign-in").header("Set-Cookie")).doesNotContain("Secure");
  }

  @Test
  void itAnswersUnderItsNameAndByHttpsAlone() throws IOException {
    String end = "\r\nConnection: close\r\n\r\n";
    assertThat(raw(desk.port(), "GET /sign-in HTTP/1.1\r\nHost: " + NAME + end))
        .startsWith("HTTP/1.1 403")
        .contains("https only");
    assertThat(
            raw(
                desk.port(),
                "GET /sign-in HTTP/1.1\r\nX-Forwarded-Proto: https\r\nHost: 127.0.0.1" + end))
        .startsWith("HTTP/1.1 403");
    assertThat(proxied("GET /sign-in", "192.0.2.7", "X-Forwarded-Proto: http\r\n", ""))
        .startsWith("HTTP/1.1 403");
    assertThat(
            proxied(
                "POST /sign-in", "192.0.2.7", "Origin: http://" + NAME + "\r\n", "token=x&name=A"))
        .contains("own pages");
  }

  @Test
  void whoGuessesIsKnownByTheAddressTheProxySaw() throws IOException {
    for (int i = 0; i < SignInLimit.FREE; i++) {
      // What stands before the last address the stranger has written himself.
      assertThat(signIn("10.0.0." + i + ", 192.0.2.7", "guess number " + i))
          .startsWith("HTTP/1.1 401");
    }
    assertThat(signIn("10.0.0.99, 192.0.2.7", PASSPHRASE)).startsWith("HTTP/1.1 429");
    assertThat(signIn("192.0.2.8", PASSPHRASE)).startsWith("HTTP/1.1 302");
  }

  @Test
  void withoutTheOptionNobodyIsBelievedToComeFromElsewhere() {
    for (int i = 0; i <= SignInLimit.FREE; i++) {
      Visitor guesser = plain.stranger().forwardedFor("192.0.2." + i);
      assertThat(guesser.signIn("Ada Fenn", "guess number " + i).status())
          .isEqualTo(i < SignInLimit.FREE ? 401 : 429);
    }
  }

  @Test
  void readersMustBeNamedFirst() {
    try (OpenDesk nobody = new OpenDesk(folder.resolve("nobody"))) {
      assertThatThrownBy(() -> Desk.behindTls(nobody.archive(), NAME, 0, Clock.systemUTC()))
          .isInstanceOf(ArchiveException.class)
          .hasMessageContaining("add NAME");
    }
  }
}
