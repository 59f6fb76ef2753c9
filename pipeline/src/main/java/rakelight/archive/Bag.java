package rakelight.archive;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.Charset;
import java.nio.charset.IllegalCharsetNameException;
import java.nio.charset.MalformedInputException;
import java.nio.charset.StandardCharsets;
import java.nio.charset.UnsupportedCharsetException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.text.Normalizer;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * A bag: a folder whose manifests tell every file that belongs in it and its digest, so that
 * anybody's tool can tell whether it came over whole. Versions 1.0 (RFC 8493) and 0.97 are looked
 * at; 1.0 is written. Nothing is ever fetched.
 */
public final class Bag {
  static final String DECLARATION = "bagit.txt";
  static final String INFO = "bag-info.txt";
  static final String PAYLOAD = "data";
  static final String OXUM = "Payload-Oxum";
  static final List<String> ALGORITHMS = List.of("sha256", "sha512");
  private static final String FETCH = "fetch.txt";
  private static final Pattern DECLARED =
      Pattern.compile(
          "BagIt-Version: (\\d+\\.\\d+)(?:\\r\\n|\\r|\\n)"
              + "Tag-File-Character-Encoding: (\\S+)(?:\\r\\n|\\r|\\n)?");
  private static final Set<String> VERSIONS = Set.of("0.97", "1.0");
  private static final Pattern ELEMENT = Pattern.compile("([^:]+?)\\s*:[ \\t]*(.*)");
  private static final int CHUNK_BYTES = 1 << 20;

  private final Path root;
  private final List<Check.Fault> faults = new ArrayList<>();

  private Bag(Path root) {
    // So that "." has a name that paths within it begin with.
    this.root = root.toAbsolutePath().normalize();
  }

  /** Whether a folder says of itself that it is a bag. */
  public static boolean isAt(Path folder) {
    return Files.isRegularFile(folder.resolve(DECLARATION));
  }

  /**
   * Reads every file of a bag and compares it with what the manifests say.
   *
   * @param progress is told of each file as it has been read
   * @return what isn't as it must be: nothing, if the bag is complete and valid (RFC 8493, 3)
   * @throws ArchiveException if the folder can't be read
   */
  public static List<Check.Fault> verify(Path root, Consumer<Path> progress) {
    Bag bag = new Bag(root);
    try {
      bag.verify(progress);
    } catch (IOException e) {
      throw new ArchiveException(root + ": can't be read (" + e + "). Check the disk.", e);
    }
    return List.copyOf(bag.faults);
  }

  private record Declared(String version, Charset encoding) {
    boolean isOfEveryFileInEach() {
      return version.equals("1.0");
    }
  }

  private void verify(Consumer<Path> progress) throws IOException {
    Optional<Declared> declared = declared();
    if (declared.isEmpty()) {
      return;
    }
    if (!Files.isDirectory(root.resolve(PAYLOAD))) {
      add("bag-incomplete", PAYLOAD, "the folder is missing.");
      return;
    }
    List<BagManifest> manifests = manifests(declared.get().encoding());
    List<BagManifest> ofPayload = manifests.stream().filter(one -> !one.isOfTags()).toList();
    if (ofPayload.isEmpty()) {
      add("bag-incomplete", "manifest-*.txt", "there is no manifest of the payload.");
    }
    Map<String, Path> payload = files(root, PAYLOAD);
    Map<String, Map<String, String>> wanted = new TreeMap<>();
    Set<String> fetched = toFetch(declared.get().encoding());
    for (BagManifest manifest : manifests) {
      look(manifest, ofPayload);
      manifest
          .digests()
          .forEach(
              (path, digest) -> {
                if (lies(manifest, path)) {
                  wanted
                      .computeIfAbsent(path, p -> new LinkedHashMap<>())
                      .put(manifest.algorithm(), digest);
                }
              });
    }
    unlisted(payload.keySet(), ofPayload, declared.get());
    for (var one : wanted.entrySet()) {
      Optional<Path> file = found(one.getKey(), payload);
      if (file.isEmpty()) {
        add(
            "bag-incomplete",
            one.getKey(),
            fetched.contains(one.getKey())
                ? "isn't here: fetch.txt says where it is to be had. It isn't fetched by this"
                    + " program."
                : "is missing.");
      } else {
        compare(one.getKey(), file.get(), one.getValue());
        progress.accept(file.get());
      }
    }
    compareSum(declared.get().encoding(), payload.values());
  }

  private Optional<Declared> declared() throws IOException {
    Path file = root.resolve(DECLARATION);
    if (!Files.isRegularFile(file)) {
      add("bag-undeclared", DECLARATION, "is missing, so that the folder is no bag.");
      return Optional.empty();
    }
    String text = new String(Files.readAllBytes(file), StandardCharsets.UTF_8);
    Matcher lines = DECLARED.matcher(text);
    if (!lines.matches()) {
      add(
          "bag-undeclared",
          DECLARATION,
          "isn't the two lines BagIt-Version: 1.0 and Tag-File-Character-Encoding: UTF-8, without"
              + " a byte-order mark.");
      return Optional.empty();
    }
    if (!VERSIONS.contains(lines.group(1))) {
      add(
          "bag-undeclared",
          DECLARATION,
          "says version " + lines.group(1) + ". Only 1.0 and 0.97 are known here.");
      return Optional.empty();
    }
    try {
      return Optional.of(new Declared(lines.group(1), Charset.forName(lines.group(2))));
    } catch (IllegalCharsetNameException | UnsupportedCharsetException e) {
      add("bag-undeclared", DECLARATION, "names an encoding nobody knows: " + lines.group(2) + ".");
      return Optional.empty();
    }
  }

  private List<BagManifest> manifests(Charset encoding) throws IOException {
    List<BagManifest> manifests = new ArrayList<>();
    List<Path> files;
    try (Stream<Path> entries = Files.list(root)) {
      files = entries.sorted().toList();
    }
    for (Path file : files) {
      Optional<String> algorithm = BagManifest.algorithmOf(file);
      if (algorithm.isEmpty()) {
        continue;
      }
      if (BagManifest.digest(algorithm.get()).isEmpty()) {
        add("bag-unknown", relative(file), "its kind of digest isn't known here.");
        continue;
      }
      try {
        manifests.add(BagManifest.read(file, encoding));
      } catch (MalformedInputException e) {
        add("bag-unreadable", relative(file), "isn't in " + encoding + ", as bagit.txt says.");
      }
    }
    return manifests;
  }

  private void look(BagManifest manifest, List<BagManifest> ofPayload) {
    manifest
        .unreadable()
        .forEach(
            line ->
                add("bag-unreadable", manifest.name(), "a line is no digest and path: " + line));
    manifest.twice().forEach(path -> add("bag-twice", manifest.name(), "lists twice: " + path));
    if (manifest.isOfTags()) {
      ofPayload.stream()
          .map(BagManifest::name)
          .filter(name -> !manifest.digests().containsKey(name))
          .forEach(name -> add("bag-incomplete", manifest.name(), "doesn't list " + name + "."));
    }
  }

  /** Whether an entry names a place where its manifest may have one. */
  private boolean lies(BagManifest manifest, String path) {
    boolean good;
    try {
      Path place = root.resolve(path).normalize();
      good =
          !path.startsWith("/")
              && !path.startsWith("~")
              && !path.contains("\\..")
              && place.startsWith(root.normalize())
              && Path.of(path).normalize().equals(Path.of(path))
              && (path.startsWith(PAYLOAD + "/") != manifest.isOfTags())
              && !(manifest.isOfTags() && path.startsWith("tagmanifest-"));
    } catch (InvalidPathException e) {
      good = false;
    }
    if (!good) {
      add("bag-out-of-place", manifest.name(), "may not list " + path + ".");
    }
    return good;
  }

  private void unlisted(Set<String> payload, List<BagManifest> manifests, Declared declared) {
    Map<String, Set<String>> listed = new LinkedHashMap<>();
    manifests.forEach(
        one ->
            listed.put(
                one.name(),
                one.digests().keySet().stream().map(Bag::composed).collect(Collectors.toSet())));
    for (String path : payload) {
      List<String> lacking =
          listed.entrySet().stream()
              .filter(manifest -> !manifest.getValue().contains(composed(path)))
              .map(Map.Entry::getKey)
              .toList();
      if (lacking.size() == listed.size()) {
        add("bag-unlisted", path, "is in no manifest: it doesn't belong to the bag.");
      } else if (declared.isOfEveryFileInEach()) {
        lacking.forEach(name -> add("bag-incomplete", name, "doesn't list " + path + "."));
      }
    }
  }

  private static boolean isSame(String path, String other) {
    return path.equals(other) || composed(path).equals(composed(other));
  }

  /** Names as file systems write them differ in how accents are put together. */
  private static String composed(String path) {
    return Normalizer.normalize(path, Normalizer.Form.NFC);
  }

  private Optional<Path> found(String path, Map<String, Path> payload) {
    Path file = root.resolve(path);
    if (Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
      return Optional.of(file);
    }
    return payload.entrySet().stream()
        .filter(one -> isSame(one.getKey(), path))
        .map(Map.Entry::getValue)
        .findFirst();
  }

  private void compare(String path, Path file, Map<String, String> wanted) {
    Map<String, String> is;
    try {
      is = digests(file, wanted.keySet());
    } catch (IOException e) {
      add("bag-unreadable", path, "can't be read (" + e + "). Check the disk.");
      return;
    }
    wanted.forEach(
        (algorithm, digest) -> {
          if (!digest.equals(is.get(algorithm))) {
            add(
                "bag-changed",
                path,
                "has changed: its " + algorithm + " isn't the one in the manifest.");
          }
        });
  }

  /** The digests of a file by these algorithms, read in one pass. */
  static Map<String, String> digests(Path file, Collection<String> algorithms) throws IOException {
    Map<String, MessageDigest> digests = new LinkedHashMap<>();
    algorithms.forEach(one -> digests.put(one, BagManifest.digest(one).orElseThrow()));
    try (InputStream in = Files.newInputStream(file)) {
      byte[] chunk = new byte[CHUNK_BYTES];
      for (int n = in.read(chunk); n >= 0; n = in.read(chunk)) {
        for (MessageDigest digest : digests.values()) {
          digest.update(chunk, 0, n);
        }
      }
    }
    Map<String, String> found = new LinkedHashMap<>();
    digests.forEach((name, digest) -> found.put(name, HexFormat.of().formatHex(digest.digest())));
    return found;
  }

  private Set<String> toFetch(Charset encoding) throws IOException {
    Path file = root.resolve(FETCH);
    if (!Files.isRegularFile(file)) {
      return Set.of();
    }
    Set<String> paths = new HashSet<>();
    for (String line : Files.readAllLines(file, encoding)) {
      String[] parts = line.trim().split("[ \\t]+", 3);
      if (parts.length == 3) {
        paths.add(parts[2]);
      }
    }
    return paths;
  }

  private void compareSum(Charset encoding, Collection<Path> payload) throws IOException {
    List<String> said = info(root, encoding).getOrDefault(OXUM.toLowerCase(Locale.ROOT), List.of());
    if (said.isEmpty()) {
      return;
    }
    String is = sum(payload);
    if (said.size() > 1 || !said.get(0).equals(is)) {
      add(
          "bag-incomplete",
          INFO,
          OXUM + " says " + String.join(" and ", said) + ", the payload is " + is + ".");
    }
  }

  /** Octets and files of a payload, as {@code Payload-Oxum} has them. */
  static String sum(Collection<Path> payload) throws IOException {
    long bytes = 0;
    for (Path file : payload) {
      bytes += Files.size(file);
    }
    return bytes + "." + payload.size();
  }

  /** What a bag says of itself: values by label in lower case, as often as each stands there. */
  static Map<String, List<String>> info(Path root, Charset encoding) throws IOException {
    Path file = root.resolve(INFO);
    Map<String, List<String>> elements = new LinkedHashMap<>();
    if (!Files.isRegularFile(file)) {
      return elements;
    }
    String text = Files.readString(file, encoding).replaceAll("(\\r\\n|\\r|\\n)[ \\t]+", " ");
    text.lines()
        .forEach(
            line -> {
              Matcher element = ELEMENT.matcher(line);
              if (element.matches()) {
                elements
                    .computeIfAbsent(
                        element.group(1).trim().toLowerCase(Locale.ROOT), l -> new ArrayList<>())
                    .add(element.group(2).trim());
              }
            });
    return elements;
  }

  /** The files under a folder of the bag by their path from its root, with {@code /}. */
  static Map<String, Path> files(Path root, String folder) throws IOException {
    Map<String, Path> files = new TreeMap<>();
    Path top = root.resolve(folder);
    if (Files.isDirectory(top)) {
      try (Stream<Path> all = Files.walk(top)) {
        all.filter(file -> !Files.isDirectory(file))
            .forEach(file -> files.put(relative(root, file), file));
      }
    }
    return files;
  }

  private String relative(Path file) {
    return relative(root, file);
  }

  static String relative(Path root, Path file) {
    return root.relativize(file).toString().replace(file.getFileSystem().getSeparator(), "/");
  }

  private void add(String code, String where, String text) {
    faults.add(new Check.Fault(code, root.resolve(where.replace('\0', '?')).toString(), text));
  }
}
