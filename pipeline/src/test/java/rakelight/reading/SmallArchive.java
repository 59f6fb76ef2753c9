package rakelight.reading;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;
import rakelight.archive.Archive;
import rakelight.archive.BadInputException;
import rakelight.archive.FaceId;
import rakelight.archive.Ground;
import rakelight.archive.Projection;
import rakelight.archive.Sha256;
import rakelight.finding.Found;
import rakelight.finding.FoundLine;
import rakelight.finding.LineFinder;
import rakelight.marker.MarkerStore;
import rakelight.photo.Credits;
import rakelight.photo.Ingest;
import rakelight.photo.NoListener;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.GrayImage;
import rakelight.picture.Polygon;
import rakelight.samples.Samples;

/**
 * An archive of a few carried photographs: two lights of M04's west face on that face, and one of
 * M07 on none. It is read by a finder that sees two lines at once and a recogniser that always says
 * the same, so that tests of the going about needn't wait for networks.
 */
public final class SmallArchive implements AutoCloseable {
  static final String TWO_LIGHTS_FIRST = "M04-W-1.jpg";
  static final String TWO_LIGHTS_SECOND = "M04-W-2.jpg";
  static final String ALONE = "M07-W.jpg";

  private static final List<Projection> STATE =
      List.of(MarkerStore.projection(), PhotoStore.projection(), ProposalStore.projection());

  private final Archive archive;
  private final PhotoStore photos;
  private final FaceId face;
  private final AtomicInteger picturesRead = new AtomicInteger();
  private Runnable beforeFinding = () -> {};
  private boolean seesOthers;
  private boolean seesFainter;

  SmallArchive(Path folder) throws IOException {
    this(folder, STATE);
  }

  private SmallArchive(Archive archive) {
    this.archive = archive;
    photos = new PhotoStore(archive);
    face = photos.faceOf("M04", "W", "Ada").id();
  }

  /** A copy of one that is closed, with all that was derived in it. */
  static SmallArchive copyOf(Path made, Path folder) throws IOException {
    return copyOf(made, folder, STATE);
  }

  /** A copy of one with these state tables that is closed, with all that was derived in it. */
  public static SmallArchive copyOf(Path made, Path folder, List<Projection> projections)
      throws IOException {
    try (Stream<Path> files = Files.walk(made)) {
      for (Path file : files.toList()) {
        Path copy = folder.resolve(made.relativize(file).toString());
        if (!Files.isDirectory(copy)) {
          Files.copy(file, copy);
        }
      }
    }
    return new SmallArchive(Archive.open(folder.resolve("archive"), projections));
  }

  /** One with these state tables. */
  public SmallArchive(Path folder, List<Projection> projections) throws IOException {
    Path shots = Files.createDirectories(folder.resolve("shots"));
    for (String name : List.of(TWO_LIGHTS_FIRST, TWO_LIGHTS_SECOND, ALONE)) {
      Files.write(shots.resolve(name), Samples.bytes(name));
    }
    archive =
        Archive.init(
            folder.resolve("archive"),
            new Ground("Fennick Lane", 54.5, -3.25, ZoneId.of("Europe/London")),
            projections);
    new Ingest(archive, Credits.NONE, "Ada", new NoListener()).run(List.of(shots), Set.of());
    photos = new PhotoStore(archive);
    face = photos.faceOf("M04", "W", "Ada").id();
    for (String name : List.of(TWO_LIGHTS_FIRST, TWO_LIGHTS_SECOND)) {
      photos.assign(photograph(name).id(), face, Optional.empty(), "person", "Ada");
    }
  }

  public Archive archive() {
    return archive;
  }

  public FaceId face() {
    return face;
  }

  Photograph photograph(String name) {
    return photos.photographs().stream()
        .filter(photograph -> photograph.originalName().equals(name))
        .findFirst()
        .orElseThrow();
  }

  /** How many pictures have been looked at so far, over all runs. */
  int picturesRead() {
    return picturesRead.get();
  }

  /** Has the finder see other stones too: two to the right of every face, one of them twice. */
  void seeOtherStones() {
    seesOthers = true;
  }

  /** Has the finder hardly see something below the lines of every picture, in step with them. */
  public void seeFainter() {
    seesFainter = true;
  }

  /** Something that happens each time before lines are looked for. */
  void beforeFinding(Runnable action) {
    beforeFinding = action;
  }

  public MachineReader reader() {
    return reader(1);
  }

  /** One whose recogniser has this weight. */
  MachineReader reader(double weight) {
    return new MachineReader(new TwoLines(), List.of(new MachineReader.Voice(new Says(), weight)));
  }

  /** Proposes what is missing, with one worker. */
  public Proposer.Report propose() {
    try (MachineReader reader = reader()) {
      return new Proposer(archive, reader).run(1, (done, all, photograph) -> {});
    }
  }

  /** Makes every picture that a page shows of what is proposed. */
  public void lookAtAll() throws IOException, BadInputException {
    FacePictures pictures = new FacePictures(archive);
    for (Proposal proposal : Proposer.newest(archive)) {
      pictures.lines(proposal);
      for (String name : FacePictures.stripNames(proposal)) {
        pictures.strip(proposal, 1, name);
      }
    }
    for (Photograph photograph : photos.photographs()) {
      pictures.smaller(photograph, 800);
    }
  }

  /** The original of a photograph, spoilt as a failing disk would. */
  void spoil(String name) throws IOException {
    Path original = archive.originals().find(photograph(name).sha256()).orElseThrow();
    Files.delete(original);
    Files.writeString(original, "no picture any more");
  }

  @Override
  public void close() {
    archive.close();
  }

  /** Two lines in the middle of every picture. */
  private final class TwoLines implements LineFinder {
    @Override
    public String name() {
      return "two-lines";
    }

    @Override
    public String digest() {
      return Sha256.of("two lines").hex();
    }

    @Override
    public Found find(GrayImage upright) {
      picturesRead.incrementAndGet();
      beforeFinding.run();
      double w = upright.widthPx();
      double h = upright.heightPx();
      return new Found(
          Polygon.rectangle(.2 * w, .2 * h, .8 * w, .8 * h),
          w / h,
          List.of(line(.3 * w, .4 * h, .7 * w), line(.3 * w, .6 * h, .7 * w)),
          List.of(),
          seesOthers ? others(w, h) : List.of(),
          List.of(),
          seesFainter ? List.of(line(.3 * w, .8 * h, .6 * w)) : List.of());
    }

    /** One on the far right, one before it that is seen twice, and one too far away to be read. */
    private static List<Polygon> others(double w, double h) {
      return List.of(
          Polygon.rectangle(.91 * w, .3 * h, .99 * w, .8 * h),
          Polygon.rectangle(.81 * w, .3 * h, .9 * w, .8 * h),
          Polygon.rectangle(.82 * w, .32 * h, .89 * w, .79 * h),
          Polygon.rectangle(.01 * w, .3 * h, .05 * w, .35 * h));
    }

    private static FoundLine line(double left, double middle, double right) {
      return new FoundLine(Polygon.rectangle(left, middle - 20, right, middle + 20), 40, .9);
    }

    @Override
    public void close() {}
  }

  /** Says of every first strip HANNAH WREN, of every other DIED 1848; of a single one unsurely. */
  private static final class Says implements Recogniser {
    @Override
    public String name() {
      return "says-the-same";
    }

    @Override
    public String digest() {
      return Sha256.of("says the same").hex();
    }

    @Override
    public List<LineLattice> read(List<GrayImage> strips) {
      List<LineLattice> lattices = new ArrayList<>();
      double p = strips.size() == 1 ? .7 : .8;
      for (int i = 0; i < strips.size(); i++) {
        lattices.add(ViewBuilder.lattice(i == 0 ? "HANNAH WREN" : "DIED 1848", p));
      }
      return lattices;
    }

    @Override
    public void close() {}
  }
}
