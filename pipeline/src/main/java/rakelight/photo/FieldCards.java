package rakelight.photo;

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
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.font.PDType1Font;
import org.apache.pdfbox.pdmodel.font.Standard14Fonts;

/**
 * Prints field cards, one A5 page each: the marker's number large, face, a QR code that says the
 * same, a scale bar of 10 cm, and grey patches. Photographed before a face, a card names the shots
 * that follow.
 */
public final class FieldCards {
  private static final float POINTS_PER_MM = 72 / 25.4f;
  private static final float PAGE_WIDTH_MM = 148;
  private static final float PAGE_HEIGHT_MM = 210;
  private static final float MARGIN_MM = 12;
  private static final float CODE_MM = 84;
  private static final int BAR_CM = 10;

  /**
   * Reflectances aimed at, from paper white of about 90 per cent down, each half of the next: one
   * aperture stop (common practice, no source). What a printer makes of them differs.
   */
  static final List<Double> REFLECTANCES = List.of(0.056, 0.11, 0.22, 0.45, 0.90);

  /** A grey of value v prints with a reflectance of about v to this power (from memory). */
  private static final double GAMMA = 2.2;

  private FieldCards() {}

  /** Writes a PDF with a page for each card, in this order. */
  public static void write(List<CardLabel> cards, OutputStream out) throws IOException {
    try (PDDocument document = new PDDocument()) {
      document.getDocumentInformation().setTitle("Field cards");
      for (CardLabel card : cards) {
        PDPage page =
            new PDPage(
                new PDRectangle(PAGE_WIDTH_MM * POINTS_PER_MM, PAGE_HEIGHT_MM * POINTS_PER_MM));
        document.addPage(page);
        try (PDPageContentStream content = new PDPageContentStream(document, page)) {
          draw(content, card);
        }
      }
      document.save(out);
    }
  }

  private static void draw(PDPageContentStream content, CardLabel card) throws IOException {
    PDFont bold = new PDType1Font(Standard14Fonts.FontName.HELVETICA_BOLD);
    PDFont plain = new PDType1Font(Standard14Fonts.FontName.HELVETICA);
    float widest = PAGE_WIDTH_MM - 2 * MARGIN_MM;
    centred(content, bold, card.markerNumber(), 48, widest, PAGE_HEIGHT_MM - 50);
    centred(content, plain, card.faceName(), 12, widest, PAGE_HEIGHT_MM - 66);
    code(content, CardText.of(card), (PAGE_WIDTH_MM - CODE_MM) / 2, 48);
    scaleBar(content, plain, (PAGE_WIDTH_MM - 10 * BAR_CM) / 2, 26);
    patches(content, plain, MARGIN_MM, 4);
  }

  /** Text as large as fits, its letters at most so many millimetres high. */
  private static void centred(
      PDPageContentStream content,
      PDFont font,
      String text,
      float highMm,
      float widestMm,
      float yMm)
      throws IOException {
    String shown = printable(font, text);
    float width = font.getStringWidth(shown) / 1000;
    float size =
        Math.min(highMm * POINTS_PER_MM / 0.72f, widestMm * POINTS_PER_MM / Math.max(width, 0.1f));
    text(content, font, size, shown, PAGE_WIDTH_MM / 2 - width * size / POINTS_PER_MM / 2, yMm);
  }

  private static void text(
      PDPageContentStream content, PDFont font, float size, String text, float xMm, float yMm)
      throws IOException {
    content.setNonStrokingColor(0f);
    content.beginText();
    content.setFont(font, size);
    content.newLineAtOffset(xMm * POINTS_PER_MM, yMm * POINTS_PER_MM);
    content.showText(text);
    content.endText();
  }

  /** The built-in fonts know western European letters; the code carries any. */
  private static String printable(PDFont font, String text) {
    StringBuilder shown = new StringBuilder();
    text.codePoints()
        .forEach(
            point -> {
              String sign = Character.toString(point);
              try {
                font.encode(sign);
                shown.append(sign);
              } catch (IOException | IllegalArgumentException e) {
                shown.append('?');
              }
            });
    return shown.toString();
  }

  private static void code(PDPageContentStream content, String text, float xMm, float yMm)
      throws IOException {
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
    content.setNonStrokingColor(0f);
    for (int y = 0; y < matrix.getHeight(); y++) {
      for (int x = 0; x < matrix.getWidth(); x++) {
        if (matrix.get(x, y)) {
          rectangle(
              content, xMm + x * moduleMm, yMm + CODE_MM - (y + 1) * moduleMm, moduleMm, moduleMm);
        }
      }
    }
    content.fill();
  }

  private static void scaleBar(PDPageContentStream content, PDFont font, float xMm, float yMm)
      throws IOException {
    content.setNonStrokingColor(0f);
    for (int cm = 0; cm < BAR_CM; cm += 2) {
      rectangle(content, xMm + 10 * cm, yMm, 10, 6);
    }
    rectangle(content, xMm, yMm + 5.6f, 10 * BAR_CM, 0.4f);
    rectangle(content, xMm, yMm, 10 * BAR_CM, 0.4f);
    content.fill();
    text(content, font, 9, "0", xMm - 1, yMm + 8);
    text(
        content,
        font,
        9,
        BAR_CM + " cm when printed at full size; measure before use",
        xMm + 15,
        yMm + 8);
  }

  private static void patches(PDPageContentStream content, PDFont font, float xMm, float yMm)
      throws IOException {
    float widthMm = (PAGE_WIDTH_MM - 2 * MARGIN_MM) / REFLECTANCES.size();
    for (int i = 0; i < REFLECTANCES.size(); i++) {
      content.setNonStrokingColor((float) Math.pow(REFLECTANCES.get(i), 1 / GAMMA));
      rectangle(content, xMm + i * widthMm, yMm + 5, widthMm, 12);
      content.fill();
      text(
          content,
          font,
          8,
          String.format(
              Locale.ROOT,
              REFLECTANCES.get(i) < 0.1 ? "%.1f %%" : "%.0f %%",
              100 * REFLECTANCES.get(i)),
          xMm + i * widthMm + 6,
          yMm);
    }
    text(content, font, 7, "aimed-at reflectance", xMm, yMm + 18);
  }

  private static void rectangle(
      PDPageContentStream content, float xMm, float yMm, float widthMm, float heightMm)
      throws IOException {
    content.addRect(
        xMm * POINTS_PER_MM,
        yMm * POINTS_PER_MM,
        widthMm * POINTS_PER_MM,
        heightMm * POINTS_PER_MM);
  }
}
