package rakelight.publish.site;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import rakelight.inscription.Basis;
import rakelight.inscription.Candidate;
import rakelight.inscription.Extent;
import rakelight.inscription.Gap;
import rakelight.inscription.Inscription;
import rakelight.inscription.Leiden;
import rakelight.inscription.Letter;
import rakelight.inscription.Reading;
import rakelight.inscription.Sign;
import rakelight.inscription.SignId;
import rakelight.inscription.Space;
import rakelight.inscription.Span;
import rakelight.inscription.Standing;
import rakelight.person.Statement;
import rakelight.picture.Homography;
import rakelight.picture.Picture;
import rakelight.picture.PictureException;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.publish.Edition;
import rakelight.publish.LaidReading;
import rakelight.publish.ReadFrom;
import rakelight.publish.ToldFace;
import rakelight.publish.iiif.PictureFile;
import rakelight.relief.RakingSet;

/** Faces as pages show them: the photograph with its letters, the reading with its doubt. */
final class FaceLeaves {
  static final int LONGEST_PX = 1600;
  private static final int SMALL_PX = 480;
  private static final int RELIEF_PX = 1200;
  private static final String CUT = "cut";

  /** A gap longer than this is told by its number. */
  private static final int MOST_DOTS = 8;

  private final Edition edition;
  private final SiteFolder folder;
  private final Map<String, int[]> sizes = new HashMap<>();

  FaceLeaves(Edition edition, SiteFolder folder) {
    this.edition = edition;
    this.folder = folder;
  }

  /**
   * @param id of the face within its page
   * @param root how one comes from the page to the site's folder
   */
  Leaf.Face of(ToldFace face, String id, String root) throws IOException {
    Reading reading = face.says().reading().orElseThrow();
    Inscription inscription = face.says().inscription();
    ReadFrom from = edition.readFrom(face);
    Optional<LaidReading> laid = edition.laid(face, from);
    Optional<ReadFrom.Shot> leading =
        laid.map(LaidReading::on).or(() -> from.shots().stream().findFirst());
    Leaf.Hero hero = Leaf.Hero.NONE;
    List<Leaf.Shot> others = new ArrayList<>();
    for (ReadFrom.Shot shot : from.shots()) {
      Optional<String> picture = picture(shot);
      if (picture.isEmpty()) {
        continue;
      }
      if (leading.filter(shot::equals).isPresent()) {
        hero = hero(face, shot, root + picture.get(), laid, root);
      } else {
        PictureFile file = PictureFile.jpeg(root + picture.get(), shot, LONGEST_PX);
        others.add(
            new Leaf.Shot(
                file.address(),
                file.widthPx(),
                file.heightPx(),
                "Photograph of " + label(face),
                credit(shot)));
      }
    }
    return new Leaf.Face(
        id,
        face.says().face().name(),
        hero,
        others,
        lines(face),
        String.join("; ", new TreeSet<>(face.withheld().values())),
        read(reading),
        sureness(inscription, face.withheld()),
        doubts(face),
        Leiden.printLines(inscription),
        told(face));
  }

  static String label(ToldFace face) {
    return "marker " + face.says().marker().number() + ", " + face.says().face().name();
  }

  // Pictures

  /** The small picture of a face, for lists; its path, empty if there is none. */
  String small(ToldFace face) throws IOException {
    for (ReadFrom.Shot shot : edition.readFrom(face).shots()) {
      Optional<Path> made = edition.picture(shot, SMALL_PX);
      if (made.isPresent()) {
        return put(shot, SMALL_PX, made.get());
      }
    }
    return "";
  }

  /** The file of the site that shows a photograph, if there is one. */
  Optional<PictureFile> file(ReadFrom.Shot shot, String base) throws IOException {
    return picture(shot).map(path -> PictureFile.jpeg(base + path, shot, LONGEST_PX));
  }

  private Optional<String> picture(ReadFrom.Shot shot) throws IOException {
    Optional<Path> made = edition.picture(shot, LONGEST_PX);
    return made.isPresent() ? Optional.of(put(shot, LONGEST_PX, made.get())) : Optional.empty();
  }

  private String put(ReadFrom.Shot shot, int longestPx, Path made) throws IOException {
    String path = "photographs/" + shot.sha256().hex().substring(0, 20) + "-" + longestPx + ".jpg";
    if (!folder.has(path)) {
      folder.copy(path, made);
    }
    return path;
  }

  private Leaf.Hero hero(
      ToldFace face, ReadFrom.Shot shot, String picture, Optional<LaidReading> laid, String root)
      throws IOException {
    PictureFile file = PictureFile.jpeg(picture, shot, LONGEST_PX);
    double scale = file.widthPx() / (double) shot.widthPx();
    Map<SignId, Letter> letters = new LinkedHashMap<>();
    for (Sign sign : face.says().inscription().signs()) {
      if (sign instanceof Letter letter) {
        letters.put(letter.id(), letter);
      }
    }
    String relief = laid.isPresent() ? relief(face, shot) : "";
    int[] reliefSize = sizes.getOrDefault(relief, new int[] {0, 0});
    List<Leaf.Box> onRelief = new ArrayList<>();
    if (!relief.isEmpty()) {
      double smaller = reliefSize[0] / (double) laid.orElseThrow().reliefWidthPx();
      Homography map = laid.orElseThrow().toRelief().orElseThrow();
      boxes(laid.get(), letters, p -> scaled(map.map(p), smaller), onRelief);
    }
    List<Leaf.Box> onPhotograph = new ArrayList<>();
    laid.ifPresent(l -> boxes(l, letters, p -> scaled(p, scale), onPhotograph));
    return new Leaf.Hero(
        file.address(),
        file.widthPx(),
        file.heightPx(),
        "Photograph of " + label(face),
        credit(shot),
        onPhotograph,
        relief.isEmpty() ? "" : root + relief,
        reliefSize[0],
        reliefSize[1],
        onRelief);
  }

  private static Point scaled(Point point, double scale) {
    return new Point(point.x() * scale, point.y() * scale);
  }

  private static void boxes(
      LaidReading laid,
      Map<SignId, Letter> letters,
      java.util.function.UnaryOperator<Point> map,
      List<Leaf.Box> into) {
    for (LaidReading.LetterAt at : laid.letters()) {
      Letter letter = letters.get(at.sign());
      if (letter == null) {
        continue;
      }
      Polygon corners = at.corners().map(map);
      Point centre = corners.centre();
      double high = corners.bottom() - corners.top();
      into.add(
          new Leaf.Box(
              how(letter),
              letter.text(),
              corners.points().stream()
                  .map(p -> Math.round(p.x()) + "," + Math.round(p.y()))
                  .collect(Collectors.joining(" ")),
              (int) Math.round(centre.x()),
              (int) Math.round(centre.y() + high * 0.3),
              (int) Math.max(8, Math.round(high * 0.8))));
    }
  }

  private String relief(ToldFace face, ReadFrom.Shot shot) throws IOException {
    Map<String, Path> made = edition.reliefs(face);
    Path png = made.getOrDefault(RakingSet.DEPTH, made.get(CUT));
    if (png == null) {
      return "";
    }
    String path =
        "reliefs/"
            + shot.sha256().hex().substring(0, 20)
            + "-"
            + face.says().face().id().toString().substring(0, 8)
            + ".jpg";
    try {
      byte[] smaller = Picture.smaller(Files.readAllBytes(png), 1, RELIEF_PX);
      folder.bytes(path, smaller);
      var size = Picture.upright(smaller, 1);
      sizes.put(path, new int[] {size.widthPx(), size.heightPx()});
      return path;
    } catch (PictureException e) {
      return "";
    }
  }

  private static String credit(ReadFrom.Shot shot) {
    return Stream.of(
            shot.photographer().map(name -> "Photograph: " + name),
            shot.credit().filter(c -> shot.photographer().filter(c::equals).isEmpty()),
            shot.rights())
        .flatMap(Optional::stream)
        .collect(Collectors.joining(". "));
  }

  // The reading

  private static String read(Reading reading) {
    Basis basis = reading.basis();
    String from =
        switch (basis.kind()) {
          case PHOTOGRAPHS -> "from photographs";
          case STONE -> "at the stone";
          case EARLIER -> "from " + basis.witness().orElse("an earlier witness");
        };
    return "Read by "
        + reading.reader()
        + ", "
        + from
        + basis.date().map(date -> ", " + date).orElse("")
        + basis.light().map(light -> ", " + light).orElse("")
        + "; signed "
        + reading.at().toString().substring(0, 10)
        + ".";
  }

  static List<List<Leaf.Sign>> lines(ToldFace face) {
    Inscription inscription = face.says().inscription();
    List<List<Leaf.Sign>> lines = new ArrayList<>();
    for (List<Sign> line : inscription.lines()) {
      List<Leaf.Sign> signs = new ArrayList<>();
      boolean space = false;
      for (Sign sign : line) {
        if (sign instanceof Space) {
          space = true;
        } else if (sign instanceof Letter letter) {
          signs.add(new Leaf.Sign(letter.text(), how(letter), words(inscription, letter), space));
          space = false;
        } else if (sign instanceof Gap gap) {
          signs.add(gap(gap, Optional.ofNullable(face.withheld().get(gap.id())), space));
          space = false;
        }
      }
      lines.add(signs);
    }
    return lines;
  }

  /** The class of a letter. */
  private static String how(Letter letter) {
    String standing = letter.standing().name().toLowerCase(Locale.ROOT).replace('_', '-');
    return standing + (letter.erased() ? " erased" : "");
  }

  private static String words(Inscription inscription, Letter letter) {
    List<String> words = new ArrayList<>();
    switch (letter.standing()) {
      case CLEAR -> {}
      case UNCLEAR ->
          words.add(
              letter.candidates().isEmpty()
                  ? "seen, but could be another letter"
                  : "could be "
                      + letter.candidates().stream()
                          .map(FaceLeaves::candidate)
                          .collect(Collectors.joining(" or ")));
      case SUPPLIED -> {
        boolean uncut = inscription.spansOver(letter.id()).stream().anyMatch(Span::isUncut);
        words.add(
            (uncut ? "never cut: written out by the reader" : "not seen: worked out by the reader")
                + (letter.doubtful() ? ", not surely" : ""));
      }
      case SEEN_EARLIER -> words.add("gone today: an earlier witness has it");
    }
    if (letter.erased()) {
      words.add("cut away on purpose");
    }
    return String.join(", ", words);
  }

  private static String candidate(Candidate candidate) {
    return candidate.text() + " (" + candidate.percent() + " %)";
  }

  private static Leaf.Sign gap(Gap gap, Optional<String> withheld, boolean space) {
    if (withheld.isPresent()) {
      return new Leaf.Sign("withheld", "withheld", "withheld: " + withheld.get(), space);
    }
    int count = gap.extent() instanceof Extent.Exact exact ? exact.count() : 0;
    boolean letters = gap.unit() == Gap.Unit.LETTERS;
    String sign = gap.reason() == Gap.Reason.ILLEGIBLE ? "+" : "·";
    String dots = letters && count > 0 && count <= MOST_DOTS ? sign.repeat(count) : "– – –";
    String text =
        switch (gap.reason()) {
          case LOST -> "[" + dots + "]";
          case ILLEGIBLE -> letters && count > 0 ? dots : "+ + +";
          case OMITTED -> "(– –)";
          case BLANK -> "␣";
        };
    String what =
        switch (gap.reason()) {
          case LOST -> "surface gone";
          case ILLEGIBLE -> "marks that nobody can read";
          case OMITTED -> "never cut to the end";
          case BLANK -> "left blank";
        };
    return new Leaf.Sign(
        text,
        gap.reason().name().toLowerCase(Locale.ROOT),
        what + extent(gap) + (gap.erased() ? ", cut away on purpose" : ""),
        space);
  }

  private static String extent(Gap gap) {
    String unit = gap.unit() == Gap.Unit.LETTERS ? "letter" : "line";
    if (gap.extent() instanceof Extent.Exact exact) {
      return ", " + SiteWords.counted(exact.count(), unit);
    } else if (gap.extent() instanceof Extent.About about) {
      return ", about " + SiteWords.counted(about.count(), unit);
    } else if (gap.extent() instanceof Extent.Range range) {
      return ", " + range.atLeast() + " to " + SiteWords.counted(range.atMost(), unit);
    }
    return "";
  }

  /** How many letters are sure, in words. */
  private static String sureness(Inscription inscription, Map<SignId, String> withheld) {
    int clear = 0;
    int all = 0;
    int gaps = 0;
    for (Sign sign : inscription.signs()) {
      if (sign instanceof Letter letter && letter.standing() != Standing.SUPPLIED) {
        all++;
        clear += letter.standing() == Standing.CLEAR ? 1 : 0;
      } else if (sign instanceof Gap gap && !withheld.containsKey(gap.id())) {
        gaps += gap.reason() == Gap.Reason.LOST || gap.reason() == Gap.Reason.ILLEGIBLE ? 1 : 0;
      }
    }
    return (all == clear
            ? "All " + SiteWords.counted(all, "letter") + " that can be seen are plain"
            : clear + " of " + SiteWords.counted(all, "letter") + " that can be seen are plain")
        + (gaps == 0 ? "" : "; at " + SiteWords.counted(gaps, "place") + " letters are lost")
        + ".";
  }

  /** What isn't plain, line by line. */
  private static List<String> doubts(ToldFace face) {
    List<String> doubts = new ArrayList<>();
    int number = 0;
    for (List<Leaf.Sign> line : lines(face)) {
      number++;
      Map<String, String> runs = new LinkedHashMap<>();
      for (Leaf.Sign sign : line) {
        if (!sign.words().isEmpty()) {
          runs.merge(sign.words(), sign.text(), String::concat);
        }
      }
      for (Map.Entry<String, String> run : runs.entrySet()) {
        doubts.add("Line " + number + ": " + run.getValue() + " – " + run.getKey());
      }
    }
    return doubts;
  }

  private static List<String> told(ToldFace face) {
    return face.says().statements().stream()
        .filter(Statement::isFact)
        .map(
            statement ->
                SiteWords.kind(statement.kind())
                    + ": "
                    + statement.valueInWords()
                    + statement.standingInWords(" (", ")"))
        .distinct()
        .toList();
  }
}
