package rakelight.inscription;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javax.imageio.ImageIO;
import rakelight.archive.Archive;
import rakelight.archive.DerivationKey;
import rakelight.archive.PhotographId;
import rakelight.archive.Stage;
import rakelight.finding.GrayImage;
import rakelight.finding.PictureException;
import rakelight.finding.Point;
import rakelight.finding.Polygon;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.reading.Proposal;
import rakelight.reading.ProposedLine;
import rakelight.reading.Proposer;
import rakelight.reading.Slot;

/**
 * The photograph of a face with the proposed lines drawn in, each with its number, and a box round
 * each letter: green where the machine is sure of it, amber where not. For opening beside a
 * terminal, which can't show the stone. A derivation: {@code derived/lines-drawn/ab/KEY.jpg}.
 */
public final class FacePicture {
  private static final Stage STAGE = new Stage("lines-drawn", 1);
  private static final int LONGER_SIDE_PX = 2400;
  private static final Color LINE = new Color(0x2F, 0x80, 0xFF);
  private static final Color SURE = new Color(0x3C, 0xB3, 0x4A);
  private static final Color DOUBTFUL = new Color(0xFF, 0xA5, 0x00);

  /**
   * The bars that make each figure; bit 0 is the top, 1 and 2 the upper sides, 3 the middle, 4 and
   * 5 the lower sides, 6 the bottom.
   */
  private static final int[] BARS = {
    0b1110111, 0b0100100, 0b1011101, 0b1101101, 0b0101110, 0b1101011, 0b1111011, 0b0100101,
    0b1111111, 0b1101111
  };

  private FacePicture() {}

  /**
   * Draws the lines on the photograph that shows most of them, or finds the picture drawn before.
   *
   * @return empty if the proposal has no line
   * @throws PictureException if the photograph can't be decoded
   */
  public static Optional<Path> of(Archive archive, Proposal proposal)
      throws IOException, PictureException {
    if (proposal.lines().isEmpty()) {
      return Optional.empty();
    }
    PhotographId shown = mostLines(proposal);
    Optional<Photograph> photograph = new PhotoStore(archive).photograph(shown);
    if (photograph.isEmpty()) {
      return Optional.empty();
    }
    DerivationKey key =
        DerivationKey.of(
            STAGE,
            List.of(),
            Map.of("photograph", shown.toString()),
            List.of(proposal.key(), photograph.get().sha256()));
    if (archive.derived().has(STAGE, key, "jpg")) {
      return Optional.of(archive.derived().path(STAGE, key, "jpg"));
    }
    BufferedImage drawn =
        draw(
            Proposer.pixels(archive, photograph.get()),
            proposal.lines().stream().filter(line -> line.photograph().equals(shown)).toList());
    return Optional.of(
        archive
            .derived()
            .write(
                STAGE,
                key,
                "jpg",
                out -> {
                  if (!ImageIO.write(drawn, "jpeg", out)) {
                    throw new IOException("no writer for JPEG");
                  }
                }));
  }

  private static PhotographId mostLines(Proposal proposal) {
    PhotographId most = proposal.lines().get(0).photograph();
    long lines = 0;
    for (PhotographId photograph : proposal.photographs()) {
      long here =
          proposal.lines().stream().filter(line -> line.photograph().equals(photograph)).count();
      if (here > lines) {
        most = photograph;
        lines = here;
      }
    }
    return most;
  }

  static BufferedImage draw(GrayImage photograph, List<ProposedLine> lines) {
    double scale =
        Math.min(
            1.0, (double) LONGER_SIDE_PX / Math.max(photograph.widthPx(), photograph.heightPx()));
    BufferedImage grey =
        new BufferedImage(
            photograph.widthPx(), photograph.heightPx(), BufferedImage.TYPE_BYTE_GRAY);
    grey.getRaster()
        .setDataElements(0, 0, photograph.widthPx(), photograph.heightPx(), photograph.pixels());
    BufferedImage drawn =
        new BufferedImage(
            (int) Math.max(1, Math.round(photograph.widthPx() * scale)),
            (int) Math.max(1, Math.round(photograph.heightPx() * scale)),
            BufferedImage.TYPE_INT_RGB);
    Graphics2D pen = drawn.createGraphics();
    try {
      pen.setRenderingHint(
          RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
      pen.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
      pen.drawImage(grey, AffineTransform.getScaleInstance(scale, scale), null);
      for (ProposedLine line : lines) {
        draw(pen, line, scale);
      }
    } finally {
      pen.dispose();
    }
    return drawn;
  }

  private static void draw(Graphics2D pen, ProposedLine line, double scale) {
    pen.setStroke(new BasicStroke(2));
    for (Slot slot : line.lattice().slots()) {
      if (!slot.best().isBlank()) {
        pen.setColor(slot.p() >= Suggestion.SURE ? SURE : DOUBTFUL);
        pen.draw(outline(line.letterBox(slot), scale));
      }
    }
    pen.setColor(LINE);
    pen.draw(outline(line.box(), scale));
    double height = Math.max(14, Math.min(48, line.heightPx() * scale * 0.8));
    String number = Integer.toString(line.number());
    double x = Math.max(2, line.box().left() * scale - number.length() * height * 0.75 - 4);
    double y = (line.box().top() + line.box().bottom()) / 2 * scale - height / 2;
    pen.setStroke(new BasicStroke((float) Math.max(2, height / 8)));
    for (int i = 0; i < number.length(); i++) {
      figure(pen, number.charAt(i) - '0', x + i * height * 0.75, y, height);
    }
  }

  /** Figures made of bars, since a bare machine may have no font. */
  private static void figure(Graphics2D pen, int figure, double x, double y, double height) {
    double right = x + height / 2;
    double middle = y + height / 2;
    double bottom = y + height;
    Line2D[] bars = {
      new Line2D.Double(x, y, right, y),
      new Line2D.Double(x, y, x, middle),
      new Line2D.Double(right, y, right, middle),
      new Line2D.Double(x, middle, right, middle),
      new Line2D.Double(x, middle, x, bottom),
      new Line2D.Double(right, middle, right, bottom),
      new Line2D.Double(x, bottom, right, bottom)
    };
    for (int bar = 0; bar < bars.length; bar++) {
      if ((BARS[figure] >> bar & 1) == 1) {
        pen.draw(bars[bar]);
      }
    }
  }

  private static Path2D outline(Polygon polygon, double scale) {
    Path2D path = new Path2D.Double();
    boolean first = true;
    for (Point point : polygon.points()) {
      if (first) {
        path.moveTo(point.x() * scale, point.y() * scale);
      } else {
        path.lineTo(point.x() * scale, point.y() * scale);
      }
      first = false;
    }
    path.closePath();
    return path;
  }
}
