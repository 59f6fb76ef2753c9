package rakelight.desk;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Json;

/** The archives somebody has had open on this machine, the last first, kept in a small file. */
final class KnownArchives {
  private static final String FILE = "archives.json";
  private static final int MOST = 20;

  private final Path folder;

  /**
   * @param folder for settings; made when first written
   */
  KnownArchives(Path folder) {
    this.folder = folder;
  }

  /** The file. */
  private record Kept(List<Known> archives) {}

  /**
   * An archive.
   *
   * @param path its folder, absolute
   * @param ground the name of its ground when it was last open
   */
  record Known(String path, String ground) {}

  /** Those that are still there; none where the file can't be read. */
  List<Known> all() {
    return kept().stream().filter(known -> Archive.isAt(Path.of(known.path()))).toList();
  }

  private List<Known> kept() {
    Path file = folder.resolve(FILE);
    try {
      return Files.exists(file)
          ? Json.read(Files.readString(file), Kept.class).archives()
          : List.of();
    } catch (IOException | IllegalArgumentException e) {
      return List.of();
    }
  }

  /** Puts an archive first. */
  void opened(Path path, String ground) {
    List<Known> all = new ArrayList<>(kept());
    String whole = path.toAbsolutePath().normalize().toString();
    all.removeIf(known -> known.path().equals(whole));
    all.add(0, new Known(whole, ground));
    write(all.subList(0, Math.min(MOST, all.size())));
  }

  /** Takes an archive from the list; its folder stays as it is. */
  void forget(String path) {
    List<Known> all = new ArrayList<>(kept());
    all.removeIf(known -> known.path().equals(path));
    write(all);
  }

  private void write(List<Known> all) {
    Path file = folder.resolve(FILE);
    Path aside = folder.resolve(FILE + ".new");
    try {
      Files.createDirectories(folder);
      Files.writeString(aside, Json.text(new Kept(List.copyOf(all))));
      Files.move(aside, file, StandardCopyOption.REPLACE_EXISTING);
    } catch (IOException e) {
      throw new ArchiveException(file + ": can't be written (" + e.getMessage() + ").", e);
    }
  }
}
