package rakelight.archive;

import java.io.IOException;
import java.net.JarURLConnection;
import java.net.URISyntaxException;
import java.net.URL;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import java.util.TreeSet;
import java.util.jar.JarFile;
import java.util.stream.Stream;
import org.flywaydb.core.Flyway;
import org.jdbi.v3.core.Handle;
import org.sqlite.SQLiteDataSource;

/**
 * The numbered scripts that bring a ledger's tables up to date, in {@code migrations/}. Starting
 * Flyway costs most of a second; it is spared where its history names exactly these scripts.
 */
final class Migrations {
  private static final String FOLDER = "rakelight/archive/migrations/";

  private Migrations() {}

  static boolean areDone(Handle handle) {
    Set<String> done =
        new TreeSet<>(
            handle
                .createQuery(
                    "SELECT script FROM flyway_schema_history WHERE success = 1 AND type = 'SQL'")
                .mapTo(String.class)
                .list());
    return done.equals(known());
  }

  static boolean haveBegun(Handle handle) {
    return handle
            .createQuery("SELECT count(*) FROM sqlite_master WHERE name = 'flyway_schema_history'")
            .mapTo(Integer.class)
            .one()
        > 0;
  }

  static void run(SQLiteDataSource source) {
    Flyway.configure()
        .dataSource(source)
        .locations("classpath:" + FOLDER)
        // A ledger written by a newer program is refused; by default it would be let through.
        .ignoreMigrationPatterns(new String[0])
        .load()
        .migrate();
  }

  private static Set<String> known() {
    Set<String> names = new TreeSet<>();
    URL first = Migrations.class.getResource("migrations/V1__journal.sql");
    if (first == null) {
      throw new IllegalStateException("this program comes without its migrations");
    }
    try {
      if (first.openConnection() instanceof JarURLConnection connection) {
        JarFile jar = connection.getJarFile();
        jar.stream()
            .map(entry -> entry.getName())
            .filter(name -> name.startsWith(FOLDER) && name.endsWith(".sql"))
            .forEach(name -> names.add(name.substring(FOLDER.length())));
      } else {
        Path folder = Path.of(first.toURI()).resolveSibling("");
        try (Stream<Path> files = Files.list(folder)) {
          files
              .map(file -> String.valueOf(file.getFileName()))
              .filter(name -> name.endsWith(".sql"))
              .forEach(names::add);
        }
      }
    } catch (IOException | URISyntaxException e) {
      throw new IllegalStateException("this program's migrations can't be listed", e);
    }
    return names;
  }
}
