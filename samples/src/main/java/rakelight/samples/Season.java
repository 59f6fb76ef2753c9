package rakelight.samples;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import javax.imageio.ImageIO;

/**
 * A season as it comes in: three cameras, two of one model; one follows field cards, one a manifest
 * that is off by a row, and is an hour behind; the third goes along with both, has neither, and its
 * clock gains half a minute an hour. Some pictures went through a telephone's messages and have
 * lost their time, some files came twice, some are smaller copies of others. Of 90 markers there
 * are 300 files.
 *
 * @param markers how many; 9 or more
 * @param seed of the first stone; each next stone has the next one
 * @param widthPx width of the upright pictures, 200 to 9000
 */
public record Season(int markers, long seed, int widthPx) {
  private static final View.Equipment CARDS =
      new View.Equipment("Halden", "Halden Pocket 4", "Halden 4.3mm f/1.8", 4.3, 27, 1.8, "H4-417");
  private static final View.Equipment TABLE =
      new View.Equipment("Orrery", "Orrery X2", "Orrery 23mm f/2", 23, 35, 5.6, "X2-0907");
  private static final View.Equipment ALONG =
      new View.Equipment("Halden", "Halden Pocket 4", "Halden 4.3mm f/1.8", 4.3, 27, 1.8, "H4-932");

  private static final LocalDateTime FIRST_MORNING = LocalDateTime.of(2026, 5, 9, 9, 30);
  private static final LocalDateTime SECOND_MORNING = LocalDateTime.of(2026, 6, 13, 9, 30);
  private static final Duration AT_A_STONE = Duration.ofMinutes(3);
  private static final Duration BEHIND = Duration.ofHours(1);
  private static final int GAINED_SECONDS_AN_HOUR = 30;

  /**
   * Of 90 markers: with cards, photographed twice by manifest; pictures without a time, and so on.
   */
  private static final int ALL = 90;

  private static final int WITH_CARDS = 40;
  private static final int TWICE = 22;
  private static final int UNDATED = 20;
  private static final int AGAIN = 12;
  private static final int SMALLER = 6;

  public Season {
    if (markers < 9) {
      throw new IllegalArgumentException("A season has 9 markers or more");
    }
  }

  /**
   * One file before it is written.
   *
   * @param marker empty for a card
   * @param at when it truly was
   */
  private record Shot(String file, String marker, LocalDateTime at, byte[] bytes) {}

  private int share(int ofNinety) {
    return Math.round((float) markers * ofNinety / ALL);
  }

  /**
   * Writes the photographs into folders of their cameras; {@code orrery.csv}, the manifest that is
   * off by a row, and {@code orrery-right.csv} beside them; and {@code season.csv}: file, the
   * marker it shows (empty for a card), when it truly was taken.
   */
  public void writeTo(Path folder) throws IOException {
    List<Shot> shots = new ArrayList<>();
    int carded = share(WITH_CARDS);
    int numberOfA = 1000;
    int numberOfC = 4000;
    for (int i = 0; i < markers; i++) {
      String marker = String.format(Locale.ROOT, "S%03d", i + 1);
      SampleFace face = face(i, marker);
      boolean cards = i < carded;
      int atStone = cards ? i : i - carded;
      LocalDateTime there =
          (cards ? FIRST_MORNING : SECOND_MORNING).plus(AT_A_STONE.multipliedBy(atStone));
      boolean twice = cards || atStone < share(TWICE);
      List<View> views = new ArrayList<>();
      views.add(
          cards
              ? view(face, i, 0, CARDS, there.plusSeconds(20))
              : view(face, i, 0, TABLE, there.plusSeconds(20).minus(BEHIND)));
      if (twice) {
        views.add(
            cards
                ? view(face, i, 1, CARDS, there.plusSeconds(50))
                : view(face, i, 1, TABLE, there.plusSeconds(50).minus(BEHIND)));
      }
      LocalDateTime along = there.plusSeconds(80);
      long gained = GAINED_SECONDS_AN_HOUR * AT_A_STONE.multipliedBy(atStone).toSeconds() / 3600;
      views.add(view(face, i, 2, ALONG, along.plusSeconds(gained)));
      List<RenderedPhotograph> photographs =
          Renderer.renderApart(face, views, 1000 * (seed + i) + 17);
      if (cards) {
        shots.add(card(numberOfA++, marker, there));
      }
      for (int k = 0; k < views.size() - 1; k++) {
        String name = cards ? "cards/HP" + numberOfA++ : "orrery/ORR_" + (2000 + shots.size());
        shots.add(
            new Shot(
                name + ".jpg", marker, there.plusSeconds(20 + 30L * k), photographs.get(k).jpeg()));
      }
      byte[] jpeg = photographs.get(views.size() - 1).jpeg();
      int undated = share(UNDATED);
      // Spread over the season: every so many markers one.
      boolean lostItsTime = (i + 1) * undated / markers > i * undated / markers;
      shots.add(
          new Shot(
              (lostItsTime ? "messages/IMG-WA" : "along/HP") + numberOfC++ + ".jpg",
              marker,
              along,
              lostItsTime ? withoutExif(jpeg) : jpeg));
    }
    again(shots);
    write(folder, shots);
  }

  private SampleFace face(int i, String marker) {
    Weathering wear = Weathering.values()[i % 3];
    SampleFace face =
        i % 5 == 4
            ? StoneMaker.government(seed + i, wear)
            : StoneMaker.random(
                seed + i,
                Material.values()[i % Material.values().length],
                wear,
                Typeface.values()[i * 5 % Typeface.values().length]);
    return new SampleFace(
        marker, face.face(), face.bearingDegrees(), face.stone(), face.lines(), face.seed());
  }

  private View view(SampleFace face, int i, int k, View.Equipment camera, LocalDateTime written) {
    View usual = StoneMaker.view(face, widthPx, 100 * (seed + i) + k);
    return new View(
        usual.light(),
        usual.yawDegrees(),
        usual.pitchDegrees(),
        usual.rollDegrees(),
        usual.fill(),
        usual.widthPx(),
        usual.heightPx(),
        1,
        usual.blurPx(),
        usual.noise(),
        usual.quality(),
        camera,
        written.atOffset(ZoneOffset.ofHours(-3)),
        usual.position());
  }

  private Shot card(int number, String marker, LocalDateTime at) {
    BufferedImage picture =
        CardPicture.of(marker, "rakelight-card/1;" + marker + ";front", widthPx);
    SampleFace any = face(0, marker);
    View view = view(any, 0, 0, CARDS, at);
    byte[] jpeg = Renderer.encode(picture, 0.85f);
    return new Shot(
        "cards/HP" + number + ".jpg",
        "",
        at,
        Exif.insert(jpeg, view, picture.getWidth(), picture.getHeight(), 0.01, 100));
  }

  /** Files that came twice, and smaller copies of others. */
  private void again(List<Shot> shots) throws IOException {
    SplittableRandom r = new SplittableRandom(seed ^ 0xA6A1L);
    List<Shot> stones =
        new ArrayList<>(shots.stream().filter(shot -> !shot.marker().isEmpty()).toList());
    int again = Math.max(1, share(AGAIN));
    int smaller = Math.max(1, share(SMALLER));
    for (int i = 0; i < again + smaller; i++) {
      Shot one = stones.remove(r.nextInt(stones.size()));
      String name = one.file().replaceAll(".*/", "");
      shots.add(
          i < again
              ? new Shot("again/copy of " + name, one.marker(), one.at(), one.bytes())
              : new Shot("smaller/" + name, one.marker(), one.at(), smaller(one.bytes())));
    }
  }

  private static byte[] smaller(byte[] jpeg) throws IOException {
    BufferedImage whole = ImageIO.read(new ByteArrayInputStream(jpeg));
    int width = whole.getWidth() * 3 / 4;
    int height = whole.getHeight() * 3 / 4;
    BufferedImage small = new BufferedImage(width, height, BufferedImage.TYPE_3BYTE_BGR);
    Graphics2D g = small.createGraphics();
    g.setRenderingHint(
        RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BICUBIC);
    g.drawImage(whole, 0, 0, width, height, null);
    g.dispose();
    return Renderer.encode(small, 0.8f);
  }

  /** Without the segment that {@link Exif#insert} puts behind the first two bytes. */
  private static byte[] withoutExif(byte[] jpeg) {
    int length = 2 + ((jpeg[4] & 0xFF) << 8 | jpeg[5] & 0xFF);
    byte[] rest = Arrays.copyOf(jpeg, jpeg.length - length);
    System.arraycopy(jpeg, 2 + length, rest, 2, rest.length - 2);
    return rest;
  }

  private static void write(Path folder, List<Shot> shots) throws IOException {
    StringBuilder truth = new StringBuilder("file,marker,taken\n");
    Map<String, String> table = new TreeMap<>();
    for (Shot shot : shots) {
      Path file = folder.resolve(shot.file());
      Files.createDirectories(file.resolveSibling(""));
      Files.write(file, shot.bytes());
      truth.append(String.join(",", shot.file(), shot.marker(), shot.at().toString())).append('\n');
      if (shot.file().startsWith("orrery/")) {
        table.put(shot.file(), shot.marker());
      }
    }
    List<String> files = List.copyOf(table.keySet());
    StringBuilder right = new StringBuilder("file,marker\n");
    StringBuilder off = new StringBuilder("file,marker\n");
    for (int i = 0; i < files.size(); i++) {
      right.append(files.get(i)).append(',').append(table.get(files.get(i))).append('\n');
      String next = files.get(Math.min(i + 1, files.size() - 1));
      off.append(files.get(i)).append(',').append(table.get(next)).append('\n');
    }
    Files.writeString(folder.resolve("season.csv"), truth, StandardCharsets.UTF_8);
    Files.writeString(folder.resolve("orrery.csv"), off, StandardCharsets.UTF_8);
    Files.writeString(folder.resolve("orrery-right.csv"), right, StandardCharsets.UTF_8);
  }
}
