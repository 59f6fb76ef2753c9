package rakelight.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** What the Markdown pages show: their commands, their sections, the fields they tell of. */
final class ShownCommands {
  private static final Path ROOT = Path.of("..");
  private static final Pattern COMMAND = Pattern.compile("(rakelight|java|mvn) .*");
  private static final Pattern SPAN = Pattern.compile("`(rakelight [^`]+)`");
  private static final Pattern WORD = Pattern.compile("\"([^\"]*)\"|'([^']*)'|(\\S+)");
  private static final Pattern TOKEN = Pattern.compile("`[^`]*`|[()]");
  private static final Pattern FIELD = Pattern.compile("`([a-z][A-Za-z0-9-]*)`");
  private static final Pattern JSON = Pattern.compile("\\bJSON[:,]");

  private ShownCommands() {}

  /**
   * A command as it stands on a page.
   *
   * @param section heading of the second level above it; empty before the first
   */
  record Shown(String page, String section, String line) {
    /** Its words as a shell parts them, without the program's name, comment and redirection. */
    List<String> words() {
      List<String> words = new ArrayList<>();
      Matcher word = WORD.matcher(line.replaceFirst("^rakelight +", "").replaceFirst(" < .*", ""));
      while (word.find()) {
        words.add(
            word.group(1) != null
                ? word.group(1)
                : word.group(2) != null ? word.group(2) : word.group(3));
      }
      return words;
    }

    /** The file that stands in for the keyboard; empty if none does. */
    String answers() {
      int sign = line.indexOf(" < ");
      return sign < 0 ? "" : line.substring(sign + 3).strip();
    }

    @Override
    public String toString() {
      return page + ": " + line;
    }
  }

  /** The pages in docs, by name. */
  static List<String> pages() throws IOException {
    try (Stream<Path> files = Files.list(ROOT.resolve("docs"))) {
      return files
          .map(file -> "docs/" + file.getFileName())
          .filter(name -> name.endsWith(".md"))
          .sorted()
          .toList();
    }
  }

  static String page(String name) throws IOException {
    return Files.readString(ROOT.resolve(name));
  }

  /** The commands of indented and fenced blocks, and those in running text that have arguments. */
  static List<Shown> of(String page) throws IOException {
    List<Shown> shown = new ArrayList<>();
    String section = "";
    boolean fenced = false;
    for (String line : page(page).lines().toList()) {
      if (line.startsWith("```")) {
        fenced = !fenced;
      } else if (line.startsWith("## ") && !fenced) {
        section = line.substring(3).strip();
      }
      String code = fenced ? line : line.startsWith("    ") ? line.substring(4) : "";
      String command = code.replaceFirst("(^|\\s)#.*", "").strip();
      if (COMMAND.matcher(command).matches()) {
        shown.add(new Shown(page, section, command));
      }
      Matcher span = SPAN.matcher(code.isEmpty() ? line : "");
      while (span.find()) {
        if (span.group(1).split(" ").length > 2) {
          shown.add(new Shown(page, section, span.group(1)));
        }
      }
    }
    return shown;
  }

  /** The text under each heading of the second level. */
  static Map<String, String> sections(String page) throws IOException {
    Map<String, String> sections = new LinkedHashMap<>();
    for (String part : page(page).split("(?m)^## ")) {
      int end = part.indexOf('\n');
      sections.put(part.substring(0, end).strip(), part.substring(end));
    }
    sections.remove(sections.keySet().iterator().next());
    return sections;
  }

  /**
   * The fields a section tells of, in every part of it that begins with {@code JSON} and ends with
   * its paragraph: names in backquotes, those in brackets lying within the field before. A value in
   * backquotes is quoted, too, and so is no field.
   */
  static List<String> fields(String section) {
    List<String> fields = new ArrayList<>();
    for (String paragraph : section.split("\n\\s*\n")) {
      Matcher json = JSON.matcher(paragraph);
      if (!json.find()) {
        continue;
      }
      List<String> within = new ArrayList<>();
      String last = "";
      Matcher token = TOKEN.matcher(paragraph.substring(json.end()));
      while (token.find()) {
        Matcher field = FIELD.matcher(token.group());
        if (token.group().equals("(")) {
          within.add(last);
        } else if (token.group().equals(")")) {
          last = within.isEmpty() ? "" : within.remove(within.size() - 1);
        } else if (field.matches()) {
          String parent = within.isEmpty() ? "" : within.get(within.size() - 1);
          last = parent.isEmpty() ? field.group(1) : parent + "." + field.group(1);
          fields.add(last);
        }
      }
    }
    return fields;
  }
}
