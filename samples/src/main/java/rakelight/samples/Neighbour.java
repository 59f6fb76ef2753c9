package rakelight.samples;

import java.awt.AlphaComposite;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.LinearGradientPaint;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;

/**
 * One photograph of two stones, out of photographs of one each: the second, smaller, stands to the
 * right. Where they meet they fade into each other. What the camera said is lost.
 */
final class Neighbour {
  private static final double SCALE = 0.6;

  /** Part of the neighbour's width that fades, and part that lies over the first picture. */
  private static final double FADE = 0.1;

  private static final double OVER = 0.2;

  private Neighbour() {}

  /** Places of the first stone's lines stay as they were. */
  static byte[] beside(byte[] first, byte[] second) {
    try {
      BufferedImage stone = ImageIO.read(new ByteArrayInputStream(first));
      BufferedImage other = faded(ImageIO.read(new ByteArrayInputStream(second)));
      int width = stone.getWidth() + (int) (other.getWidth() * (1 - OVER));
      int height = stone.getHeight();
      BufferedImage both = new BufferedImage(width, height, BufferedImage.TYPE_3BYTE_BGR);
      Graphics2D g = both.createGraphics();
      // Sky, trees and grass go on as at the edge of the first picture.
      int edge = stone.getWidth() - 1;
      g.drawImage(stone.getSubimage(edge, 0, 1, height), edge, 0, width - edge, height, null);
      g.drawImage(stone, 0, 0, null);
      g.drawImage(other, width - other.getWidth(), height - other.getHeight(), null);
      g.dispose();
      return jpeg(both);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static BufferedImage faded(BufferedImage picture) {
    int width = (int) (picture.getWidth() * SCALE);
    int height = (int) (picture.getHeight() * SCALE);
    BufferedImage small = new BufferedImage(width, height, BufferedImage.TYPE_INT_ARGB);
    Graphics2D g = small.createGraphics();
    g.setRenderingHint(
        RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BICUBIC);
    g.drawImage(picture, 0, 0, width, height, null);
    g.setComposite(AlphaComposite.DstIn);
    Color[] appears = {new Color(0, 0, 0, 0), Color.BLACK};
    float[] ends = {0, 1};
    g.setPaint(new LinearGradientPaint(0, 0, (float) (width * FADE), 0, ends, appears));
    g.fillRect(0, 0, width, height);
    g.setPaint(new LinearGradientPaint(0, 0, 0, (float) (height * FADE), ends, appears));
    g.fillRect(0, 0, width, height);
    g.dispose();
    return small;
  }

  private static byte[] jpeg(BufferedImage picture) throws IOException {
    ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (var stream = ImageIO.createImageOutputStream(out)) {
      writer.setOutput(stream);
      ImageWriteParam quality = writer.getDefaultWriteParam();
      quality.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
      quality.setCompressionQuality(0.88f);
      writer.write(null, new IIOImage(picture, null, null), quality);
    } finally {
      writer.dispose();
    }
    return out.toByteArray();
  }
}
