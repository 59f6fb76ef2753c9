package rakelight.publish.gedcom;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Reads a GEDCOM 7 file and holds it against the standard, knowing nothing of who wrote it. Lines,
 * payloads and cardinalities are those of FamilySearch GEDCOM 7.0 (its tables of structures,
 * cardinalities and payloads, and its grammar), for the structures that are written here; any other
 * is refused.
 */
public final class GedcomFile {
  private static final Pattern LINE =
      Pattern.compile("(0|[1-9]\\d*) (?:@([A-Z0-9_]+)@ )?([A-Z][A-Z0-9_]*)(?: (.+))?");
  private static final Pattern POINTER = Pattern.compile("@([A-Z0-9_]+)@");

  /** What may stand under what: tag, least, most (0 for any number), payload. */
  private static final String STRUCTURES =
      """
      HEAD: GEDC 1 1 none, SOUR 0 1 text, DATE 0 1 exact, NOTE 0 1 text
      HEAD.GEDC: VERS 1 1 text
      HEAD.SOUR: VERS 0 1 text, NAME 0 1 text
      INDI: NAME 0 0 name, SEX 0 1 sex, OCCU 0 0 text, FACT 0 0 text, BIRT 0 0 yes, DEAT 0 0 yes, \
      BURI 0 0 yes, EVEN 0 0 text, FAMC 0 0 FAM, FAMS 0 0 FAM, UID 0 0 text, NOTE 0 0 text
      FAM: HUSB 0 1 INDI, WIFE 0 1 INDI, CHIL 0 0 INDI, SOUR 0 0 SOUR
      SOUR: AUTH 0 1 text, TITL 0 1 text, TEXT 0 1 text, REFN 0 0 text, UID 0 0 text, NOTE 0 0 text
      SOUR.REFN: TYPE 0 1 text
      NAME: TYPE 0 1 nametype, NPFX 0 0 text, GIVN 0 0 text, SURN 0 0 text, NSFX 0 0 text, SOUR 0 0 SOUR
      OCCU: TYPE 0 1 text, SOUR 0 0 SOUR
      FACT: TYPE 1 1 text, SOUR 0 0 SOUR
      EVEN: TYPE 1 1 text, DATE 0 1 date, SOUR 0 0 SOUR
      BIRT: DATE 0 1 date, PLAC 0 1 text, SOUR 0 0 SOUR
      DEAT: DATE 0 1 date, PLAC 0 1 text, AGE 0 1 age, CAUS 0 1 text, SOUR 0 0 SOUR, NOTE 0 0 text
      BURI: DATE 0 1 date, PLAC 0 1 text, SOUR 0 0 SOUR, NOTE 0 0 text
      DATE: PHRASE 0 1 text
      AGE: PHRASE 0 1 text
      cited: PAGE 0 1 text, DATA 0 1 none, QUAY 0 1 quay, NOTE 0 0 text
      DATA: TEXT 0 0 text
      """;

  private static final String DATE =
      "(?:\\d{1,2} (?:JAN|FEB|MAR|APR|MAY|JUN|JUL|AUG|SEP|OCT|NOV|DEC) \\d+"
          + "|(?:JAN|FEB|MAR|APR|MAY|JUN|JUL|AUG|SEP|OCT|NOV|DEC) \\d+|\\d+)";

  private static final Map<String, Pattern> PAYLOADS =
      Map.of(
          "text", Pattern.compile("(?s).+"),
          "name", Pattern.compile("[^/]+|[^/]*/[^/]*/[^/]*"),
          "sex", Pattern.compile("[MFXU]"),
          "yes", Pattern.compile("Y?"),
          "nametype", Pattern.compile("AKA|BIRTH|IMMIGRANT|MAIDEN|MARRIED|PROFESSIONAL|OTHER"),
          "quay", Pattern.compile("[0-3]"),
          "exact",
              Pattern.compile("\\d{1,2} (?:JAN|FEB|MAR|APR|MAY|JUN|JUL|AUG|SEP|OCT|NOV|DEC) \\d+"),
          "date",
              Pattern.compile(
                  "|%1$s|BET %1$s AND %1$s|(?:AFT|BEF|ABT|CAL|EST) %1$s".formatted(DATE)),
          "age",
              Pattern.compile(
                  "(?:[<>] )?(?=\\d)(?:\\d+y(?: |$))?(?:\\d+m(?: |$))?(?:\\d+w(?: |$))?(?:\\d+d)?"));

  /** A structure: its tag, what it says, what stands under it. */
  public static final class Node {
    public final String pointer;
    public final String tag;
    public String payload;
    public final List<Node> under = new ArrayList<>();

    Node(String pointer, String tag, String payload) {
      this.pointer = pointer;
      this.tag = tag;
      this.payload = payload;
    }

    public List<Node> all(String wanted) {
      return under.stream().filter(node -> node.tag.equals(wanted)).toList();
    }

    public String one(String wanted) {
      List<Node> found = all(wanted);
      return found.size() == 1 ? found.get(0).payload : "(" + found.size() + " " + wanted + ")";
    }
  }

  private static final Node NOWHERE = new Node("", "", "");

  private final List<Node> records = new ArrayList<>();
  private final Map<String, Node> named = new LinkedHashMap<>();
  private final List<String> broken = new ArrayList<>();

  private GedcomFile(String text) {
    if (!text.startsWith("\uFEFF")) {
      broken.add("no byte-order mark");
    }
    List<Node> open = new ArrayList<>();
    for (String line : text.substring(1).split("\n")) {
      Matcher parts = LINE.matcher(line);
      if (!parts.matches()) {
        broken.add("no line: " + line);
        continue;
      }
      int level = Integer.parseInt(parts.group(1));
      String payload = Optional.ofNullable(parts.group(4)).orElse("");
      if (payload.startsWith("@@")) {
        payload = payload.substring(1);
      } else if (payload.startsWith("@") && !POINTER.matcher(payload).matches()) {
        broken.add("a single at sign: " + line);
      }
      if (level > open.size()) {
        broken.add("a level left out: " + line);
        continue;
      }
      Node node = new Node(Optional.ofNullable(parts.group(2)).orElse(""), parts.group(3), payload);
      open.subList(level, open.size()).clear();
      if (node.tag.equals("CONT")) {
        open.get(level - 1).payload += "\n" + payload;
        continue;
      }
      if (level == 0) {
        records.add(node);
        if (!node.pointer.isEmpty() && named.put(node.pointer, node) != null) {
          broken.add("twice: " + node.pointer);
        }
      } else {
        open.get(level - 1).under.add(node);
      }
      open.add(node);
    }
    frame();
    records.stream()
        .filter(node -> !node.tag.equals("TRLR"))
        .forEach(node -> hold(node, node.tag, node.tag));
    bothWays("INDI", "FAMS", List.of("HUSB", "WIFE"));
    bothWays("INDI", "FAMC", List.of("CHIL"));
  }

  public static GedcomFile read(String text) {
    return new GedcomFile(text);
  }

  /** What in the file isn't as the standard has it. */
  public List<String> broken() {
    return broken;
  }

  public List<Node> records(String tag) {
    return records.stream().filter(node -> node.tag.equals(tag)).toList();
  }

  public Node named(String pointer) {
    return named.getOrDefault(pointer.replace("@", ""), NOWHERE);
  }

  /** The individual with this name, slashes and all. */
  public Node person(String name) {
    return records("INDI").stream()
        .filter(node -> node.all("NAME").stream().anyMatch(n -> n.payload.equals(name)))
        .findFirst()
        .orElseThrow(() -> new AssertionError("no " + name));
  }

  private void frame() {
    boolean framed =
        records.size() > 1
            && records.get(0).tag.equals("HEAD")
            && records.get(records.size() - 1).tag.equals("TRLR")
            && records("HEAD").size() == 1
            && records("TRLR").size() == 1;
    if (!framed) {
      broken.add("no HEAD at the beginning and TRLR at the end");
    }
  }

  private static Map<String, String[]> allowed(String path, String tag) {
    Map<String, String[]> rules = new HashMap<>();
    STRUCTURES
        .lines()
        .filter(line -> line.startsWith(path + ": "))
        .findFirst()
        .or(() -> STRUCTURES.lines().filter(line -> line.startsWith(tag + ": ")).findFirst())
        .ifPresent(
            line -> {
              for (String rule : line.substring(line.indexOf(':') + 2).split(", ")) {
                String[] words = rule.strip().split(" ");
                rules.put(words[0], words);
              }
            });
    return rules;
  }

  private void hold(Node node, String path, String tag) {
    Map<String, String[]> rules = allowed(path, tag);
    Map<String, Integer> counts = new HashMap<>();
    for (Node child : node.under) {
      counts.merge(child.tag, 1, Integer::sum);
      String[] rule = rules.get(child.tag);
      if (rule == null) {
        broken.add(child.tag + " may not stand under " + path);
        continue;
      }
      look(child, rule[3], path);
      boolean cited = rule[3].equals("SOUR");
      boolean leaf = "INDI FAM".contains(rule[3]);
      if (!leaf) {
        hold(child, cited ? "cited" : path + "." + child.tag, cited ? "cited" : leafRule(child));
      }
    }
    rules.forEach(
        (child, rule) -> {
          int count = counts.getOrDefault(child, 0);
          int most = Integer.parseInt(rule[2]);
          if (count < Integer.parseInt(rule[1]) || (most > 0 && count > most)) {
            broken.add(count + " " + child + " under " + path);
          }
        });
  }

  /** Tags that as records and as parts of others are two things. */
  private static String leafRule(Node child) {
    return child.tag.equals("SOUR") ? "none" : child.tag;
  }

  private void look(Node node, String payload, String path) {
    if (payload.equals("none")) {
      if (!node.payload.isEmpty()) {
        broken.add(path + "." + node.tag + " takes nothing, has " + node.payload);
      }
    } else if (PAYLOADS.containsKey(payload)) {
      if (!PAYLOADS.get(payload).matcher(node.payload).matches()) {
        broken.add(path + "." + node.tag + " is no " + payload + ": " + node.payload);
      }
    } else if (!named(node.payload).tag.equals(payload)) {
      broken.add(path + "." + node.tag + " points nowhere: " + node.payload);
    }
  }

  /** Who is said to be of a family must be named by it, and the other way round. */
  private void bothWays(String tag, String there, List<String> back) {
    for (Node node : records(tag)) {
      for (Node to : node.all(there)) {
        Node family = named(to.payload);
        boolean named =
            back.stream()
                .flatMap(b -> family.all(b).stream())
                .anyMatch(b -> b.payload.equals("@" + node.pointer + "@"));
        if (!named) {
          broken.add(node.pointer + " is in no " + back + " of " + to.payload);
        }
      }
    }
    for (Node family : records("FAM")) {
      for (String b : back) {
        for (Node of : family.all(b)) {
          Node person = named(of.payload);
          if (person.all(there).stream()
              .noneMatch(f -> f.payload.equals("@" + family.pointer + "@"))) {
            broken.add(family.pointer + " isn't in " + there + " of " + of.payload);
          }
        }
      }
    }
  }
}
