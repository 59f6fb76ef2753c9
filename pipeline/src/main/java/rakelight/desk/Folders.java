package rakelight.desk;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.text.Collator;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import rakelight.archive.ArchiveException;

/** Folders of this machine, to be chosen by looking. */
final class Folders {
  private Folders() {}

  /**
   * A folder as it was typed.
   *
   * @throws ArchiveException if it isn't a whole path
   */
  static Path absolute(String typed) {
    try {
      Path path = Path.of(typed);
      if (path.isAbsolute()) {
        return path.normalize();
      }
      throw new ArchiveException(
          "“" + typed + "” isn't a whole path, such as " + home().resolve("Photographs") + ".");
    } catch (InvalidPathException e) {
      throw new ArchiveException("“" + typed + "” can't be a path on this machine.", e);
    }
  }

  /** A folder's name that every system takes, made of the ground's. */
  static String named(String ground) {
    String name = ground.replaceAll("[\\\\/:*?\"<>|\\p{Cntrl}]+", " ").strip();
    name = name.replaceAll("\\s+", " ").replaceAll("^\\.+|[. ]+$", "");
    return name.isEmpty() ? "Archive" : name;
  }

  static Path home() {
    return Path.of(System.getProperty("user.home", "/")).toAbsolutePath();
  }

  /** The folders in a folder by name, hidden ones left out. */
  static List<Path> in(Path folder) {
    List<Path> found = new ArrayList<>();
    try (DirectoryStream<Path> all =
        Files.newDirectoryStream(
            folder,
            one -> Files.isDirectory(one) && !one.getFileName().toString().startsWith("."))) {
      all.forEach(found::add);
    } catch (IOException | DirectoryIteratorException e) {
      throw new ArchiveException(folder + ": this folder can't be looked into.", e);
    }
    Collator byName = Collator.getInstance(Locale.ROOT);
    found.sort(Comparator.comparing(path -> path.getFileName().toString(), byName));
    return found;
  }

  /** How many pictures lie right in a folder. */
  static long pictures(Path folder) {
    try (Stream<Path> files = Files.list(folder)) {
      return files
          .map(file -> file.getFileName().toString().toLowerCase(Locale.ROOT))
          .filter(name -> name.matches(".*\\.(jpe?g|tiff?|png|heic|heif|avif|webp)"))
          .count();
    } catch (IOException | UncheckedIOException e) {
      return 0;
    }
  }

  /** Deletes a folder of ours with all in it. */
  static void delete(Path folder) {
    try (Stream<Path> all = Files.walk(folder)) {
      for (Path one : all.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(one);
      }
    } catch (IOException | UncheckedIOException e) {
      System.err.println(folder + ": can't be deleted and may be: " + e.getMessage());
    }
  }
}
