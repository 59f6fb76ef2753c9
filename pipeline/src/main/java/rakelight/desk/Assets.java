package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import java.io.IOException;
import java.io.InputStream;
import java.util.Map;
import java.util.regex.Pattern;

/** The pages' own scripts, styles and typefaces. */
final class Assets {
  private static final Pattern ASSET = Pattern.compile("[a-z0-9-]{1,40}\\.(css|js|svg|woff2)");
  private static final Map<String, String> ASSET_TYPES =
      Map.of(
          "css", "text/css; charset=utf-8",
          "js", "text/javascript; charset=utf-8",
          "svg", "image/svg+xml",
          "woff2", "font/woff2");

  private Assets() {}

  static void addTo(Javalin server) {
    server.get("/assets/{name}", Assets::asset);
  }

  private static void asset(Context context) throws IOException {
    String name = context.pathParam("name");
    if (!ASSET.matcher(name).matches()) {
      throw Refusal.notFound("file");
    }
    try (InputStream in = Assets.class.getResourceAsStream("assets/" + name)) {
      if (in == null) {
        throw Refusal.notFound("file");
      }
      context
          .header("Cache-Control", "no-cache")
          .contentType(String.valueOf(ASSET_TYPES.get(name.substring(name.lastIndexOf('.') + 1))))
          .result(in.readAllBytes());
    }
  }
}
