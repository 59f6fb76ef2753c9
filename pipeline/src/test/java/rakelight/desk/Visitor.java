package rakelight.desk;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.CookieManager;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import rakelight.archive.Json;

/** Somebody at the desk, with a browser's cookies and a page's token. */
final class Visitor {
  private static final Pattern FORM_TOKEN = Pattern.compile("name=\"token\" value=\"([^\"]+)\"");

  private final int port;
  private final CookieManager cookies = new CookieManager();
  private final HttpClient client = HttpClient.newBuilder().cookieHandler(cookies).build();
  private String token = "";
  private String forwardedFor = "";

  Visitor(int port) {
    this.port = port;
  }

  /** Somebody who has signed in by name. */
  static Visitor named(String name, int port) {
    return named(name, "", port);
  }

  static Visitor named(String name, String passphrase, int port) {
    Visitor visitor = new Visitor(port);
    visitor.signIn(name, passphrase);
    visitor.token = visitor.get("/api/whoami").json().path("token").asText();
    return visitor;
  }

  /** What came back. */
  record Answer(int status, String body, HttpResponse<String> whole) {
    JsonNode json() {
      return Json.read(body, JsonNode.class);
    }

    String header(String name) {
      return whole.headers().firstValue(name).orElse("");
    }
  }

  Answer signIn(String name, String passphrase) {
    Matcher form = FORM_TOKEN.matcher(get("/sign-in").body());
    String formToken = form.find() ? form.group(1) : "";
    return send(
        request("/sign-in")
            .header("Content-Type", "application/x-www-form-urlencoded")
            .POST(
                HttpRequest.BodyPublishers.ofString(
                    "token="
                        + encoded(formToken)
                        + "&name="
                        + encoded(name)
                        + "&passphrase="
                        + encoded(passphrase))));
  }

  Answer get(String path) {
    return send(request(path).header("Accept", "text/html,application/json").GET());
  }

  /** A change from the desk's own page. */
  Answer post(String path, String json) {
    return send(
        request(path)
            .header("Content-Type", "application/json")
            .header("X-Desk-Token", token)
            .POST(HttpRequest.BodyPublishers.ofString(json)));
  }

  /** A form of one of the desk's own pages, sent with the session's token. */
  Answer form(String path, Map<String, String> fields) {
    Map<String, String> all = new TreeMap<>(fields);
    all.put("token", token);
    return send(
        request(path)
            .header("Content-Type", "application/x-www-form-urlencoded")
            .header("Accept", "application/json")
            .POST(
                HttpRequest.BodyPublishers.ofString(
                    all.entrySet().stream()
                        .map(field -> encoded(field.getKey()) + "=" + encoded(field.getValue()))
                        .collect(Collectors.joining("&")))));
  }

  /** A file sent with a form of one of the desk's own pages, with the session's token. */
  Answer file(String path, String name, byte[] content) {
    return file(path, name, content, token);
  }

  Answer file(String path, String name, byte[] content, String withToken) {
    String edge = "edge-of-a-part";
    String head =
        "--"
            + edge
            + "\r\nContent-Disposition: form-data; name=\"token\"\r\n\r\n"
            + withToken
            + "\r\n--"
            + edge
            + "\r\nContent-Disposition: form-data; name=\"file\"; filename=\""
            + name
            + "\"\r\nContent-Type: application/octet-stream\r\n\r\n";
    ByteArrayOutputStream body = new ByteArrayOutputStream();
    body.writeBytes(head.getBytes(StandardCharsets.UTF_8));
    body.writeBytes(content);
    body.writeBytes(("\r\n--" + edge + "--\r\n").getBytes(StandardCharsets.UTF_8));
    return send(
        request(path)
            .header("Content-Type", "multipart/form-data; boundary=" + edge)
            .header("Accept", "application/json")
            .POST(HttpRequest.BodyPublishers.ofByteArray(body.toByteArray())));
  }

  /** A change to a face at the version it has, given without its version; answered by the face. */
  JsonNode change(String face, String what, String json) {
    ObjectNode body = (ObjectNode) Json.read(json, JsonNode.class);
    body.put("version", open(face).path("version").asText());
    Answer answer = post("/api/faces/" + face + "/" + what, Json.text(body));
    if (answer.status() != 200) {
      throw new AssertionError(answer.status() + " " + answer.body());
    }
    return answer.json();
  }

  JsonNode decide(String face, String json) {
    return change(face, "decide", json);
  }

  JsonNode open(String face) {
    return get("/api/faces/" + face).json();
  }

  /** Takes every letter that isn't decided as it is shown, word by word. */
  void acceptTheRest(String face) {
    JsonNode open = open(face);
    for (JsonNode line : open.path("lines")) {
      int from = 1;
      for (JsonNode letter : line.path("letters")) {
        int at = letter.path("at").asInt();
        boolean last = at == line.path("letters").size();
        if (last || line.path("letters").get(at).path("spaceBefore").asBoolean()) {
          decide(
              face,
              String.format(
                  Locale.ROOT,
                  "{\"do\":\"accept\",\"line\":%d,\"from\":%d,\"to\":%d}",
                  line.path("line").asInt(),
                  from,
                  at));
          from = at + 1;
        }
      }
    }
  }

  /** As a Cookie header has it. */
  String cookie() {
    return cookies.getCookieStore().getCookies().stream()
        .map(cookie -> cookie.getName() + "=" + cookie.getValue())
        .collect(Collectors.joining("; "));
  }

  String token() {
    return token;
  }

  /** Somebody whose requests claim to come from this address. */
  Visitor forwardedFor(String address) {
    forwardedFor = address;
    return this;
  }

  HttpRequest.Builder request(String path) {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + port + path));
    return forwardedFor.isEmpty() ? request : request.header("X-Forwarded-For", forwardedFor);
  }

  Answer send(HttpRequest.Builder request) {
    try {
      HttpResponse<String> response =
          client.send(request.build(), HttpResponse.BodyHandlers.ofString());
      return new Answer(response.statusCode(), response.body(), response);
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }

  private static String encoded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8);
  }
}
