package rakelight.desk;

import io.javalin.http.Context;
import io.javalin.http.UploadedFile;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;

/**
 * A file that somebody who may decide sent with a form of the desk's own.
 *
 * @param name its own, without folders
 */
record SentFile(UploadedFile file, String name) {
  static SentFile of(Context context, Requests requests) {
    Session session = requests.session(context);
    String type = String.valueOf(context.contentType()).toLowerCase(Locale.ROOT);
    if (!type.startsWith("multipart/form-data")) {
      throw Refusal.of(415, "media-type", "Send a file with the form.");
    }
    requests.deciding(context);
    UploadedFile file = context.uploadedFile("file");
    Door.requireToken(session, Optional.ofNullable(context.formParam("token")).orElse(""));
    if (file == null || file.size() == 0) {
      throw Refusal.malformed("Choose a file first.");
    }
    String given = file.filename();
    String name =
        given.substring(Math.max(given.lastIndexOf('/'), given.lastIndexOf('\\')) + 1).strip();
    if (name.isEmpty()
        || name.startsWith(".")
        || name.codePoints().anyMatch(Character::isISOControl)) {
      throw Refusal.malformed("This file's name can't be used. Rename it.");
    }
    return new SentFile(file, name);
  }

  /**
   * What is made of it; the file is gone afterwards.
   *
   * @throws ArchiveException as {@code use} does, with the file's own name
   */
  <T> T read(Archive archive, Function<Path, T> use) throws IOException {
    Path folder = Files.createTempDirectory(archive.workingFolder(), "sent-");
    Path kept = folder.resolve(name);
    try {
      try (InputStream in = file.content()) {
        Files.copy(in, kept);
      }
      return use.apply(kept);
    } catch (ArchiveException e) {
      throw new ArchiveException(String.valueOf(e.getMessage()).replace(kept.toString(), name), e);
    } finally {
      Files.deleteIfExists(kept);
      Files.deleteIfExists(folder);
    }
  }
}
