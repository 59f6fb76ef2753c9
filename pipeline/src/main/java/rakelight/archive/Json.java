package rakelight.archive;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.ObjectWriter;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.datatype.jdk8.Jdk8Module;
import com.fasterxml.jackson.datatype.jsr310.JavaTimeModule;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * JSON as the whole program writes it: fields in the order of the record, map entries sorted, an
 * empty {@code Optional} left out, times in ISO 8601 with the offset they came with. The same value
 * always gives the same text.
 */
public final class Json {
  private static final int LONGEST_TEXT_CHARS = 256 << 20;
  private static final ObjectMapper MAPPER =
      JsonMapper.builder()
          .addModule(new Jdk8Module())
          .addModule(new JavaTimeModule())
          .serializationInclusion(JsonInclude.Include.NON_ABSENT)
          .enable(SerializationFeature.ORDER_MAP_ENTRIES_BY_KEYS)
          .disable(SerializationFeature.WRITE_DATES_AS_TIMESTAMPS)
          .disable(SerializationFeature.WRITE_DURATIONS_AS_TIMESTAMPS)
          .disable(DeserializationFeature.ADJUST_DATES_TO_CONTEXT_TIME_ZONE)
          .enable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
          .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
          .disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET)
          .build();

  private static final ObjectWriter CANONICAL =
      MAPPER.writer().with(StreamWriteFeature.USE_FAST_DOUBLE_WRITER);

  static {
    MAPPER
        .getFactory()
        .setStreamReadConstraints(
            StreamReadConstraints.builder().maxStringLength(LONGEST_TEXT_CHARS).build());
  }

  private Json() {}

  /** The one mapper. Not to be reconfigured. */
  public static ObjectMapper mapper() {
    return MAPPER;
  }

  /** A value as a tree. */
  public static JsonNode tree(Object value) {
    return MAPPER.valueToTree(value);
  }

  /** A value on one line. */
  public static String text(Object value) {
    try {
      return MAPPER.writeValueAsString(value);
    } catch (JsonProcessingException e) {
      throw new IllegalArgumentException("no JSON form for " + value.getClass().getName(), e);
    }
  }

  /**
   * A value on one line for hashing: the fields of every object sorted by name, no white space,
   * numbers as the shortest digits that give them back, on every Java version the same.
   */
  public static String canonical(Object value) {
    try {
      return CANONICAL.writeValueAsString(sorted(tree(value)));
    } catch (JsonProcessingException e) {
      throw new IllegalArgumentException("no JSON form for " + value.getClass().getName(), e);
    }
  }

  /**
   * Reads one value from text.
   *
   * @throws IllegalArgumentException if the text isn't JSON or doesn't fit the type
   */
  public static <T> T read(String text, Class<T> type) {
    try {
      return MAPPER.readValue(text, type);
    } catch (JsonProcessingException e) {
      throw new IllegalArgumentException(
          "not the JSON of a " + type.getSimpleName() + ": " + e.getOriginalMessage(), e);
    }
  }

  /**
   * Reads one value from a tree.
   *
   * @throws IllegalArgumentException if the tree doesn't fit the type
   */
  public static <T> T read(JsonNode tree, Class<T> type) {
    try {
      return MAPPER.treeToValue(tree, type);
    } catch (JsonProcessingException e) {
      throw new IllegalArgumentException(
          "not the JSON of a " + type.getSimpleName() + ": " + e.getOriginalMessage(), e);
    }
  }

  /** A JSON object of texts. */
  public static Map<String, String> words(String text) {
    return MAPPER.convertValue(read(text, JsonNode.class), new TypeReference<>() {});
  }

  private static Object sorted(JsonNode node) {
    if (node.isObject()) {
      TreeMap<String, Object> fields = new TreeMap<>();
      node.properties().forEach(field -> fields.put(field.getKey(), sorted(field.getValue())));
      return fields;
    }
    if (node.isArray()) {
      List<Object> elements = new ArrayList<>();
      node.forEach(element -> elements.add(sorted(element)));
      return elements;
    }
    return node;
  }
}
