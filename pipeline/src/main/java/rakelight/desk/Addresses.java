package rakelight.desk;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;

/** Addresses of pages, as links have them. */
final class Addresses {
  private Addresses() {}

  /** A path with what is asked, in the order of its fields; those that are empty are left out. */
  static String of(String path, Map<String, String> query) {
    String asked =
        new TreeMap<>(query)
            .entrySet().stream()
                .filter(one -> !one.getValue().isEmpty())
                .map(one -> one.getKey() + "=" + encoded(one.getValue()))
                .collect(Collectors.joining("&"));
    return asked.isEmpty() ? path : path + "?" + asked;
  }

  private static String encoded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8);
  }
}
