package rakelight.cli;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.UUID;
import java.util.stream.IntStream;
import javax.imageio.ImageIO;
import rakelight.archive.Archive;
import rakelight.archive.MarkerId;
import rakelight.finding.FoundLine;
import rakelight.ground.MarkerPosition;
import rakelight.ground.PositionStore;
import rakelight.ground.RowPlace;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.inscription.ReadingFile;
import rakelight.inscription.ReadingStore;
import rakelight.marker.Description;
import rakelight.marker.DescriptionStore;
import rakelight.marker.EmblemStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.Polygon;
import rakelight.reading.GivenProposal;
import rakelight.work.FileWork;
import rakelight.work.ReaderStore;

/**
 * An invented ground of any size in which every marker has a photograph (small and of one grey), a
 * reading that counts the lines of a proposal, a description, a row and a place. One in eight has a
 * letter that the reader leaves open, one in ten names somebody who may be living. For measuring
 * what exports and the book take: arguments are a folder and how many markers. An archive that is
 * there already, and isn't read to the end, is read on.
 */
final class PicturedGround {
  private static final String READER = "Ada Penrose";
  private static final int CHUNK = 500;
  private static final String[] HEADS = {"Wren", "Ash", "Thorn", "Fen", "Hal", "Bram", "Quil"};
  private static final String[] TAILS = {"ford", "ley", "ton", "by", "wick", "side", "gate"};
  private static final String[] GIVEN = {
    "HANNAH", "ABEL", "RUTH", "THOMAS", "ELLEN", "JOHN", "SARAH", "AMOS"
  };
  private static final String[] MATERIALS = {"slate", "marble", "sandstone", "granite"};

  private PicturedGround() {}

  public static void main(String[] args) throws Exception {
    Path folder = Path.of(args[0]);
    int markers = Integer.parseInt(args[1]);
    Path root = folder.resolve("archive");
    if (!Files.exists(root)) {
      photograph(folder.resolve("season"), root, markers);
    }
    try (Archive archive = Archive.open(root, Projections.all())) {
      read(archive, new Random(5300000));
      describe(archive);
    }
  }

  private static void photograph(Path season, Path root, int markers) throws IOException {
    for (int i = 1; i <= markers; i++) {
      Path shot = Files.createDirectories(season.resolve("N" + i)).resolve("stone.png");
      BufferedImage picture = new BufferedImage(300, 400, BufferedImage.TYPE_BYTE_GRAY);
      picture.getRaster().setSample(i % 300, i / 300, 0, 255);
      ImageIO.write(picture, "png", shot.toFile());
    }
    Ran.command("init", root, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    Ran taken = Ran.command("ingest", root, season, "--reader", READER, "--rights", "CC BY 4.0");
    System.out.println(taken.err());
  }

  private static List<String> lines(Random random) {
    String given = GIVEN[random.nextInt(GIVEN.length)];
    String surname =
        (HEADS[random.nextInt(HEADS.length)] + TAILS[random.nextInt(TAILS.length)])
            .toUpperCase(Locale.ROOT);
    if (random.nextInt(10) == 0) {
      return List.of(given + " " + surname, "1949 - 2011", "RUTH HIS WIFE", "1953 - ");
    }
    String year = String.valueOf(1780 + random.nextInt(150));
    return List.of(
        "IN MEMORY OF",
        given + " " + surname,
        "who died 4 May "
            + (random.nextInt(8) == 0 ? year.substring(0, 3) + "(3 60% or 8 40%)" : year),
        "aged " + (20 + random.nextInt(70)) + " years");
  }

  private static void read(Archive archive, Random random) throws Exception {
    PhotoStore photographs = new PhotoStore(archive);
    MarkerStore markers = new MarkerStore(archive);
    List<FoundLine> found =
        IntStream.range(0, 4)
            .mapToObj(
                i -> new FoundLine(Polygon.rectangle(10, 20 + 80 * i, 290, 70 + 80 * i), 40, .9))
            .toList();
    List<ReadingFile.Entry> entries = new ArrayList<>();
    FileWork confirming = new FileWork(archive);
    ReadingStore readings = new ReadingStore(archive);
    for (Photograph shot : photographs.photographs()) {
      if (shot.face().filter(face -> readings.versions(face).isEmpty()).isEmpty()) {
        continue;
      }
      Face face = photographs.face(shot.face().orElseThrow()).orElseThrow();
      List<String> lines = lines(random);
      entries.add(
          new ReadingFile.Entry(
              markers.marker(face.marker()).orElseThrow().number(),
              face.name(),
              Leiden.parse(String.join("\n", lines)),
              Optional.of(
                  GivenProposal.of(
                          archive,
                          face.id(),
                          shot.source(),
                          shot.id(),
                          Polygon.rectangle(0, 0, 300, 400),
                          found,
                          lines.stream().map(line -> line.replaceAll("\\(.*\\)", "3")).toList())
                      .id())));
      if (entries.size() == CHUNK) {
        confirming.confirm(
            new ReadingFile(entries),
            Basis.FROM_PHOTOGRAPHS,
            new ReaderStore(archive).atTheTerminal(READER));
        entries.clear();
      }
    }
    if (!entries.isEmpty()) {
      confirming.confirm(
          new ReadingFile(entries),
          Basis.FROM_PHOTOGRAPHS,
          new ReaderStore(archive).atTheTerminal(READER));
    }
  }

  private static void describe(Archive archive) {
    DescriptionStore descriptions = new DescriptionStore(archive);
    EmblemStore emblems = new EmblemStore(archive);
    PositionStore places = new PositionStore(archive);
    List<Marker> all = new MarkerStore(archive).markers();
    UUID batch = UUID.randomUUID();
    for (int from = 0; from < all.size(); from += CHUNK) {
      List<Marker> some = all.subList(from, Math.min(all.size(), from + CHUNK));
      int first = from;
      archive
          .ledger()
          .write(
              handle -> {
                for (int i = 0; i < some.size(); i++) {
                  MarkerId marker = some.get(i).id();
                  int n = first + i;
                  descriptions.describe(marker, described(n), batch, READER);
                  if (n % 4 == 0) {
                    emblems.note(
                        marker, "front", "clasped hands", Optional.empty(), Map.of(), "", READER);
                  }
                  places.note(marker, new RowPlace("R" + n / 50, n % 50 + 1), READER);
                  places.note(
                      new MarkerPosition(
                          marker,
                          54.1 + n / 50 * 0.00002,
                          -3.2 + n % 50 * 0.00002,
                          0.3,
                          MarkerPosition.Basis.GPS,
                          "",
                          Optional.of(READER),
                          Optional.empty()),
                      READER);
                }
                return some.size();
              });
    }
  }

  private static Description described(int n) {
    return new Description(
        Optional.of("headstone"),
        Optional.of("round top"),
        Optional.of(MATERIALS[n % MATERIALS.length]),
        List.of("V-cut"),
        List.of(),
        Optional.of(80.0 + n % 60),
        Optional.of(60.0),
        Optional.empty(),
        Optional.empty(),
        n % 9 == 0 ? Optional.of("T. Lidgate") : Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }
}
