package rakelight.publish.paper;

import com.google.zxing.BarcodeFormat;
import com.google.zxing.EncodeHintType;
import com.google.zxing.WriterException;
import com.google.zxing.common.BitMatrix;
import com.google.zxing.qrcode.QRCodeWriter;
import com.google.zxing.qrcode.decoder.ErrorCorrectionLevel;
import java.io.IOException;
import java.io.OutputStream;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import rakelight.photo.CardLabel;
import rakelight.photo.CardText;
import rakelight.publish.paper.Paper.Cut;
import rakelight.publish.paper.Paper.Part;

/**
 * Prints field cards, one A5 page each: the marker's number large, face, a QR code that says the
 * same, a scale bar of 10 cm, and grey patches. Photographed before a face, a card names the shots
 * that follow.
 */
public final class FieldCards {
  private static final float PAGE_WIDTH_MM = 148;
  private static final float PAGE_HEIGHT_MM = 210;
  private static final float MARGIN_MM = 12;
  private static final float CODE_MM = 84;
  private static final int BAR_CM = 10;

  /**
   * Reflectances aimed at, from paper white of about 90 per cent down, each half of the next: one
   * aperture stop (common practice, no source). What a printer makes of them differs.
   */
  public static final List<Double> REFLECTANCES = List.of(0.056, 0.11, 0.22, 0.45, 0.90);

  /** A grey of value v prints with a reflectance of about v to this power (from memory). */
  private static final double GAMMA = 2.2;

  private FieldCards() {}

  /** Writes a PDF with a page for each card, in this order. */
  public static void write(List<CardLabel> cards, OutputStream out) throws IOException {
    try (Paper paper = new Paper("Field cards")) {
      for (CardLabel card : cards) {
        draw(paper, paper.leaf(PAGE_WIDTH_MM, PAGE_HEIGHT_MM), card);
      }
      paper.save(out);
    }
  }

  private static void draw(Paper paper, PrintedPage card, CardLabel label) throws IOException {
    float widest = PAGE_WIDTH_MM - 2 * MARGIN_MM;
    paper.begin(Part.HEADING);
    centred(paper, card, Cut.BOLD, label.markerNumber(), 44, widest, PAGE_HEIGHT_MM - 50);
    centred(paper, card, Cut.PLAIN, label.faceName(), 12, widest, PAGE_HEIGHT_MM - 66);
    paper.begin(Part.FIGURE, "A code that says the same");
    code(card, CardText.of(label), (PAGE_WIDTH_MM - CODE_MM) / 2, 48);
    paper.begin(Part.FIGURE, "A bar of 10 cm, and grey patches");
    scaleBar(card, (PAGE_WIDTH_MM - 10 * BAR_CM) / 2, 26);
    patches(card, MARGIN_MM, 4);
  }

  /** Text as large as fits, its letters at most so many millimetres high. */
  private static void centred(
      Paper paper, PrintedPage card, Cut cut, String text, float highMm, float widestMm, float yMm)
      throws IOException {
    float wideMm = paper.width(cut, 1, text);
    float size = Math.min(highMm * Paper.POINTS / 0.72f, widestMm / Math.max(wideMm, 0.03f));
    card.text(cut, size, text, PAGE_WIDTH_MM / 2 - wideMm * size / 2, yMm);
  }

  private static void code(PrintedPage card, String text, float xMm, float yMm) throws IOException {
    BitMatrix matrix;
    try {
      matrix =
          new QRCodeWriter()
              .encode(
                  text,
                  BarcodeFormat.QR_CODE,
                  0,
                  0,
                  Map.of(
                      EncodeHintType.ERROR_CORRECTION,
                      ErrorCorrectionLevel.M,
                      EncodeHintType.MARGIN,
                      0,
                      EncodeHintType.CHARACTER_SET,
                      "UTF-8"));
    } catch (WriterException e) {
      throw new IllegalArgumentException("too long for a card: " + text, e);
    }
    float moduleMm = CODE_MM / matrix.getWidth();
    for (int y = 0; y < matrix.getHeight(); y++) {
      for (int x = 0; x < matrix.getWidth(); x++) {
        if (matrix.get(x, y)) {
          card.filled(
              xMm + x * moduleMm, yMm + CODE_MM - (y + 1) * moduleMm, moduleMm, moduleMm, 0);
        }
      }
    }
  }

  private static void scaleBar(PrintedPage card, float xMm, float yMm) throws IOException {
    for (int cm = 0; cm < BAR_CM; cm += 2) {
      card.filled(xMm + 10 * cm, yMm, 10, 6, 0);
    }
    card.filled(xMm, yMm + 5.6f, 10 * BAR_CM, 0.4f, 0);
    card.filled(xMm, yMm, 10 * BAR_CM, 0.4f, 0);
    card.text(Cut.PLAIN, 9, "0", xMm - 1, yMm + 8);
    card.text(
        Cut.PLAIN,
        9,
        BAR_CM + " cm when printed at full size; measure before use",
        xMm + 15,
        yMm + 8);
  }

  private static void patches(PrintedPage card, float xMm, float yMm) throws IOException {
    float widthMm = (PAGE_WIDTH_MM - 2 * MARGIN_MM) / REFLECTANCES.size();
    for (int i = 0; i < REFLECTANCES.size(); i++) {
      card.filled(
          xMm + i * widthMm,
          yMm + 5,
          widthMm,
          12,
          (float) Math.pow(REFLECTANCES.get(i), 1 / GAMMA));
      card.text(
          Cut.PLAIN,
          8,
          String.format(
              Locale.ROOT,
              REFLECTANCES.get(i) < 0.1 ? "%.1f %%" : "%.0f %%",
              100 * REFLECTANCES.get(i)),
          xMm + i * widthMm + 6,
          yMm);
    }
    card.text(Cut.PLAIN, 7, "aimed-at reflectance", xMm, yMm + 18);
  }
}
