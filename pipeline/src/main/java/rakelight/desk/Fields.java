package rakelight.desk;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import rakelight.archive.Json;
import rakelight.picture.Point;

/**
 * The JSON object of a request, read strictly: a field it doesn't know, a wrong type or a missing
 * field is refused, never guessed at.
 */
final class Fields {
  private static final int LONGEST_TEXT = 2000;

  private final JsonNode object;

  private Fields(JsonNode object) {
    this.object = object;
  }

  static Fields of(String body, String... known) {
    JsonNode tree;
    try {
      tree = Json.read(body.isBlank() ? "{}" : body, JsonNode.class);
    } catch (IllegalArgumentException e) {
      throw Refusal.malformed("The body isn't JSON.");
    }
    return of(tree, known);
  }

  private static Fields of(JsonNode tree, String... known) {
    if (!tree.isObject()) {
      throw Refusal.malformed("A JSON object is expected.");
    }
    Set<String> names = Set.of(known);
    tree.fieldNames()
        .forEachRemaining(
            name -> {
              if (!names.contains(name)) {
                throw Refusal.malformed("There is no field “" + name + "” here.");
              }
            });
    return new Fields(tree);
  }

  boolean has(String name) {
    return object.hasNonNull(name);
  }

  String text(String name) {
    return optionalText(name).orElseThrow(() -> missing(name));
  }

  /** Without control characters, so that nothing hides in it. */
  Optional<String> optionalText(String name) {
    if (!has(name)) {
      return Optional.empty();
    }
    JsonNode value = object.get(name);
    if (!value.isTextual()) {
      throw Refusal.malformed("“" + name + "” must be text.");
    }
    String text = value.textValue();
    if (text.length() > LONGEST_TEXT || text.chars().anyMatch(Character::isISOControl)) {
      throw Refusal.malformed(
          "“" + name + "” must have " + LONGEST_TEXT + " signs at most, on one line.");
    }
    return Optional.of(text);
  }

  int number(String name) {
    return optionalNumber(name).orElseThrow(() -> missing(name));
  }

  OptionalInt optionalNumber(String name) {
    if (!has(name)) {
      return OptionalInt.empty();
    }
    JsonNode value = object.get(name);
    if (!value.isIntegralNumber() || !value.canConvertToInt()) {
      throw Refusal.malformed("“" + name + "” must be a whole number.");
    }
    return OptionalInt.of(value.intValue());
  }

  double decimal(String name) {
    if (!has(name)) {
      throw missing(name);
    }
    return number(name, object.get(name));
  }

  /** A list of places, each as [x, y]. */
  List<Point> points(String name) {
    if (!has(name)) {
      throw missing(name);
    }
    List<Point> points = new ArrayList<>();
    for (JsonNode point : object.get(name)) {
      if (!point.isArray() || point.size() != 2) {
        throw Refusal.malformed("“" + name + "” must be a list of places [x, y].");
      }
      points.add(new Point(number(name, point.get(0)), number(name, point.get(1))));
    }
    return points;
  }

  private static double number(String name, JsonNode value) {
    double number = value.isNumber() ? value.doubleValue() : Double.NaN;
    if (!Double.isFinite(number)) {
      throw Refusal.malformed("“" + name + "” must hold numbers.");
    }
    return number;
  }

  boolean isNumber(String name) {
    return has(name) && object.get(name).isNumber();
  }

  /** Whether the field is there and true. */
  boolean isTrue(String name) {
    if (has(name) && !object.get(name).isBoolean()) {
      throw Refusal.malformed("“" + name + "” must be true or false.");
    }
    return has(name) && object.get(name).booleanValue();
  }

  Fields object(String name, String... known) {
    if (!has(name)) {
      throw missing(name);
    }
    return of(object.get(name), known);
  }

  List<Fields> objects(String name, String... known) {
    List<Fields> objects = new ArrayList<>();
    if (has(name)) {
      if (!object.get(name).isArray()) {
        throw Refusal.malformed("“" + name + "” must be a list.");
      }
      object.get(name).forEach(element -> objects.add(of(element, known)));
    }
    return objects;
  }

  private static Refusal missing(String name) {
    return Refusal.malformed("“" + name + "” is missing.");
  }
}
