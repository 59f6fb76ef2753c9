package rakelight.measure;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import javax.imageio.ImageIO;

/**
 * Draws how often what was said with each probability came true: a bar per bin, the diagonal is
 * where bars should end; the paler bars below show how many were said in each bin.
 */
public final class ReliabilityDiagram {
  private static final int SIDE_PX = 300;
  private static final int COUNTS_PX = 60;
  private static final int MARGIN_PX = 52;
  private static final Color BARS = new Color(0x35, 0x5c, 0x7d);
  private static final Color GAP = new Color(0xc0, 0x5a, 0x3c);
  private static final Color PALE = new Color(0xb8, 0xc4, 0xcc);

  private ReliabilityDiagram() {}

  /** One diagram per kind of statement, side by side, as a PNG file. */
  public static byte[] png(Map<String, Calibration> byKind) {
    int width = MARGIN_PX + byKind.size() * (SIDE_PX + MARGIN_PX);
    int height = 3 * MARGIN_PX + SIDE_PX + COUNTS_PX;
    BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
    g.setRenderingHint(
        RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
    g.setColor(Color.WHITE);
    g.fillRect(0, 0, width, height);
    int left = MARGIN_PX;
    for (Map.Entry<String, Calibration> kind : byKind.entrySet()) {
      draw(g, left, kind.getKey(), kind.getValue());
      left += SIDE_PX + MARGIN_PX;
    }
    g.dispose();
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try {
      ImageIO.write(image, "png", bytes);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }

  private static void draw(Graphics2D g, int left, String kind, Calibration said) {
    int top = MARGIN_PX;
    int foot = top + SIDE_PX;
    List<Calibration.Bin> bins = said.diagram();
    int most = bins.stream().mapToInt(Calibration.Bin::count).max().orElse(1);
    for (Calibration.Bin bin : bins) {
      int x = left + (int) Math.round(bin.low() * SIDE_PX) + 1;
      int wide = (int) Math.round((bin.high() - bin.low()) * SIDE_PX) - 2;
      int tall = (int) Math.round(bin.shareTrue() * SIDE_PX);
      int meant = (int) Math.round(bin.meanStated() * SIDE_PX);
      g.setColor(BARS);
      g.fillRect(x, foot - tall, wide, tall);
      g.setColor(GAP);
      g.fillRect(x, foot - Math.max(tall, meant), 3, Math.abs(tall - meant));
      g.setColor(PALE);
      int many = (int) Math.ceil(COUNTS_PX * (double) bin.count() / most);
      g.fillRect(x, foot + MARGIN_PX / 2 + COUNTS_PX - many, wide, many);
    }
    g.setColor(Color.DARK_GRAY);
    g.setStroke(new BasicStroke(1));
    g.drawRect(left, top, SIDE_PX, SIDE_PX);
    g.drawLine(left, foot, left + SIDE_PX, top);
    g.setFont(new Font(Font.SANS_SERIF, Font.PLAIN, 13));
    g.drawString(
        String.format(
            Locale.ROOT, "%s: error %.3f, %d said", kind, said.expectedError(), said.size()),
        left,
        top - 12);
    g.drawString("0", left - 4, foot + 16);
    g.drawString("said", left + SIDE_PX / 2 - 12, foot + 16);
    g.drawString("1", left + SIDE_PX - 4, foot + 16);
    g.drawString("true", left - 36, top + SIDE_PX / 2);
    g.drawString("how many", left, foot + MARGIN_PX / 2 + COUNTS_PX + 16);
  }
}
