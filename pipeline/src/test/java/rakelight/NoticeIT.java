package rakelight;

import static java.util.stream.Collectors.toSet;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.junit.jupiter.api.Test;

/**
 * The finished jar says what it carries. Where each of its files comes from is found by looking for
 * it in the artifacts of the class path, not by asking the plugin that wrote the list.
 */
class NoticeIT {
  private static final String LACKING =
      "carried, but not named in META-INF/NOTICE: name it there or leave it out by a filter of"
          + " shade";
  private static final Path JAR = Path.of("target/rakelight.jar");
  private static final Pattern COORDINATES = Pattern.compile("(\\S+):(\\S+):(\\S+)  \\S.*");
  private static final Pattern NATIVE =
      Pattern.compile("(?:lib)?([\\w+-]+?)\\.(?:so|dll|dylib|[\\d.]+dylib)[.\\d]*");

  @Test
  void everyFileIsOursOrFromAnArtifactThatNoticeNames() throws IOException {
    Map<String, List<Artifact>> origins = origins();
    Set<String> unnamed = new TreeSet<>();
    for (String file : files()) {
      if (madeForTheJar(file)) {
        continue;
      }
      List<Artifact> from = origins.getOrDefault(file, List.of());
      if (from.isEmpty()) {
        unnamed.add(file + ": in no artifact of the class path");
      } else if (from.stream().noneMatch(artifact -> artifact.ours() || artifact.named())) {
        from.forEach(artifact -> unnamed.add(artifact.jar().getFileName().toString()));
      }
    }
    assertThat(unnamed).as(LACKING).isEmpty();
  }

  @Test
  void everyTypefaceModelTableProfileAndNativeLibraryIsInNotice() throws IOException {
    String notice = notice();
    Set<String> missing = new TreeSet<>();
    for (String file : files()) {
      String name = file.substring(file.lastIndexOf('/') + 1);
      String sought =
          switch (name.substring(name.lastIndexOf('.') + 1)) {
            case "ttf", "otf", "pfb", "icc", "onnx", "traineddata", "tsv", "csv" -> name;
            default -> {
              var library = NATIVE.matcher(name);
              yield library.matches() ? library.group(1) : "";
            }
          };
      if (!notice.contains(sought)) {
        missing.add(file);
      }
    }
    assertThat(missing).as(LACKING).isEmpty();
  }

  @Test
  void everyCarriedTypefaceIsAskedForByAClassInTheJar() throws IOException {
    Set<String> idle = files().stream().filter(file -> file.endsWith(".ttf")).collect(toSet());
    assertThat(idle).isNotEmpty();
    try (ZipFile jar = new ZipFile(JAR.toFile())) {
      for (String file : files()) {
        if (file.endsWith(".class")) {
          String constants = new String(read(jar, file), StandardCharsets.ISO_8859_1);
          idle.removeIf(constants::contains);
        }
      }
    }
    assertThat(idle).isEmpty();
  }

  @Test
  void theNoticeIsOursAndLeadsAndTheLicenceIsOurs() throws IOException {
    assertThat(notice()).startsWith(Files.readString(Path.of("../NOTICE")));
    try (ZipFile jar = new ZipFile(JAR.toFile())) {
      assertThat(read(jar, "META-INF/LICENSE"))
          .isEqualTo(Files.readAllBytes(Path.of("../LICENSE")));
    }
    assertThat(files())
        .filteredOn(file -> file.matches("META-INF/[^/]*(LICENSE|NOTICE|COPYING)[^/]*"))
        .containsExactlyInAnyOrder("META-INF/LICENSE", "META-INF/NOTICE");
  }

  @Test
  void everyNoticeThatACarriedArtifactBringsIsInTheJar() throws IOException {
    Set<String> brought = new TreeSet<>();
    Set<String> carried = new TreeSet<>();
    for (Artifact artifact : artifacts()) {
      if (artifact.named()) {
        try (ZipFile jar = new ZipFile(artifact.jar().toFile())) {
          for (String file : names(jar)) {
            if (file.matches("META-INF/NOTICE[^/]*|ThirdPartyNotices.txt")) {
              brought.add(new String(read(jar, file), StandardCharsets.UTF_8));
            }
          }
        }
      }
    }
    try (ZipFile jar = new ZipFile(JAR.toFile())) {
      for (String file : names(jar)) {
        if (file.startsWith("META-INF/third-party/")) {
          carried.add(new String(read(jar, file), StandardCharsets.UTF_8));
        }
      }
    }
    assertThat(brought).isNotEmpty();
    assertThat(carried).containsAll(brought);
  }

  /**
   * A jar or folder of the class path.
   *
   * @param named whether META-INF/NOTICE has a line for it
   */
  private record Artifact(Path jar, boolean ours, boolean named) {}

  private static List<Artifact> artifacts() throws IOException {
    List<String> places =
        notice()
            .lines()
            .map(COORDINATES::matcher)
            .filter(line -> line.matches())
            .map(
                line ->
                    String.join(
                        "/", line.group(1).replace('.', '/'), line.group(2), line.group(3), ""))
            .toList();
    List<Artifact> artifacts = new ArrayList<>();
    for (String entry : System.getProperty("java.class.path").split(File.pathSeparator, -1)) {
      Path path = Path.of(entry);
      if (Files.isRegularFile(path)) {
        String place = path.toString().replace(File.separatorChar, '/');
        boolean ours = path.getFileName().toString().startsWith("rakelight-");
        artifacts.add(new Artifact(path, ours, places.stream().anyMatch(place::contains)));
      } else if (Files.isDirectory(path)) {
        artifacts.add(new Artifact(path, true, false));
      }
    }
    return artifacts;
  }

  private static Map<String, List<Artifact>> origins() throws IOException {
    Map<String, List<Artifact>> origins = new HashMap<>();
    for (Artifact artifact : artifacts()) {
      List<String> files;
      if (Files.isDirectory(artifact.jar())) {
        try (Stream<Path> tree = Files.walk(artifact.jar())) {
          files =
              tree.map(file -> artifact.jar().relativize(file).toString())
                  .map(file -> file.replace(File.separatorChar, '/'))
                  .toList();
        }
      } else {
        try (ZipFile jar = new ZipFile(artifact.jar().toFile())) {
          files = names(jar);
        }
      }
      files.forEach(file -> origins.computeIfAbsent(file, f -> new ArrayList<>()).add(artifact));
    }
    return origins;
  }

  /** Written by the shade plugin itself, out of parts of several artifacts. */
  private static boolean madeForTheJar(String file) {
    return Set.of("META-INF/MANIFEST.MF", "META-INF/LICENSE", "META-INF/NOTICE").contains(file);
  }

  private static String notice() throws IOException {
    try (ZipFile jar = new ZipFile(JAR.toFile())) {
      return new String(read(jar, "META-INF/NOTICE"), StandardCharsets.UTF_8);
    }
  }

  private static List<String> files() throws IOException {
    try (ZipFile jar = new ZipFile(JAR.toFile())) {
      return names(jar);
    }
  }

  private static List<String> names(ZipFile jar) {
    return jar.stream().filter(entry -> !entry.isDirectory()).map(ZipEntry::getName).toList();
  }

  private static byte[] read(ZipFile jar, String file) throws IOException {
    ZipEntry entry = jar.getEntry(file);
    assertThat(entry).as("%s in %s", file, jar.getName()).isNotNull();
    try (InputStream in = jar.getInputStream(entry)) {
      return in.readAllBytes();
    }
  }
}
