package rakelight.photo;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.FileSystemLoopException;
import java.nio.file.FileVisitOption;
import java.nio.file.FileVisitResult;
import java.nio.file.FileVisitor;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeMap;

/**
 * The files below some folders, in a fixed order, following links. What can't be looked into is a
 * refusal; what operating systems strew about is passed over.
 *
 * @param files by path
 * @param refusals by path
 * @param passedOver how many files were left aside without a word each
 */
record FolderWalk(List<Found> files, List<RefusedFile> refusals, int passedOver) {
  private static final int DEEPEST = 100;
  private static final Set<String> STREWN =
      Set.of("thumbs.db", "desktop.ini", "ehthumbs.db", "__macosx", "@eadir");

  /** What lies beside photographs and is none: notes, tables, what programs keep of a picture. */
  private static final Set<String> BESIDE =
      Set.of(
          "txt", "md", "csv", "tsv", "xmp", "aae", "thm", "json", "xml", "html", "htm", "pdf",
          "doc", "docx", "odt", "xls", "xlsx", "ods", "gpx", "kml");

  FolderWalk {
    files = List.copyOf(files);
    refusals = List.copyOf(refusals);
  }

  /** A file met, absolute and normalised. */
  record Found(Path path, long sizeBytes) {}

  /**
   * Walks.
   *
   * @param given folders, or single files
   * @param leftAside files and folders not to be entered: the archive itself, a manifest
   */
  static FolderWalk of(List<Path> given, Set<Path> leftAside) {
    TreeMap<String, Found> files = new TreeMap<>();
    TreeMap<String, RefusedFile> refusals = new TreeMap<>();
    int[] passedOver = {0};
    for (Path path : given) {
      Path start = path.toAbsolutePath().normalize();
      try {
        Files.walkFileTree(
            start,
            EnumSet.of(FileVisitOption.FOLLOW_LINKS),
            DEEPEST,
            new Visitor(start, leftAside, files, refusals, passedOver));
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
    return new FolderWalk(
        new ArrayList<>(files.values()),
        refusals.values().stream().sorted(Comparator.comparing(RefusedFile::path)).toList(),
        passedOver[0]);
  }

  /** The bytes of all files together. */
  long sizeBytes() {
    return files.stream().mapToLong(Found::sizeBytes).sum();
  }

  private record Visitor(
      Path start,
      Set<Path> leftAside,
      TreeMap<String, Found> files,
      TreeMap<String, RefusedFile> refusals,
      int[] passedOver)
      implements FileVisitor<Path> {
    @Override
    public FileVisitResult preVisitDirectory(Path folder, BasicFileAttributes attributes) {
      return leftAside.contains(folder) || (!folder.equals(start) && isStrewn(folder))
          ? FileVisitResult.SKIP_SUBTREE
          : FileVisitResult.CONTINUE;
    }

    @Override
    public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) {
      if (leftAside.contains(file)) {
        return FileVisitResult.CONTINUE;
      }
      if (isStrewn(file) || (isBeside(file) && !file.equals(start))) {
        passedOver[0]++;
      } else if (attributes.isRegularFile()) {
        files.put(file.toString(), new Found(file, attributes.size()));
      } else if (attributes.isSymbolicLink()) {
        refuse(file, "missing", "a link that leads nowhere.", "Remove it, or mend it.");
      } else if (attributes.isDirectory()) {
        refuse(file, "too-deep", "more than " + DEEPEST + " folders deep.", "Give it by itself.");
      } else {
        refuse(file, "not-a-file", "not a file.", "Leave it out.");
      }
      return FileVisitResult.CONTINUE;
    }

    @Override
    public FileVisitResult visitFileFailed(Path file, IOException e) {
      if (e instanceof FileSystemLoopException) {
        refuse(file, "symlink-loop", "a link that leads back to its own folder.", "Remove it.");
      } else if (e instanceof NoSuchFileException) {
        refuse(file, "missing", "there is no such file or folder.", "Check the path.");
      } else {
        refuse(file, "unreadable", "it can't be read (" + e + ").", "Check its permissions.");
      }
      return FileVisitResult.CONTINUE;
    }

    @Override
    public FileVisitResult postVisitDirectory(
        Path folder, @org.jspecify.annotations.Nullable IOException e) {
      if (e != null) {
        refuse(folder, "unreadable", "the folder can't be read (" + e + ").", "Check its disk.");
      }
      return FileVisitResult.CONTINUE;
    }

    private static boolean isBeside(Path path) {
      String name = String.valueOf(path.getFileName()).toLowerCase(Locale.ROOT);
      return BESIDE.contains(name.substring(name.lastIndexOf('.') + 1));
    }

    private static boolean isStrewn(Path path) {
      String name = String.valueOf(path.getFileName());
      return name.startsWith(".") || STREWN.contains(name.toLowerCase(Locale.ROOT));
    }

    private void refuse(Path path, String code, String reason, String advice) {
      refusals.put(path.toString(), new RefusedFile(path.toString(), code, reason, advice));
    }
  }
}
