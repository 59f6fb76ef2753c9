package rakelight.desk;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.ArrayList;
import java.util.List;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.font.PDType0Font;
import rakelight.marker.Caution;

/**
 * A text that flows down pages of A4, the standing caution at the foot of each and the page's
 * number beside it. Sizes in points, lengths in millimetres.
 */
final class Paper implements AutoCloseable {
  private static final float POINTS_PER_MM = 72 / 25.4f;
  private static final float MARGIN_MM = 18;
  private static final float FOOT_MM = 22;
  private static final float WIDTH_MM = PDRectangle.A4.getWidth() / POINTS_PER_MM;
  private static final float HEIGHT_MM = PDRectangle.A4.getHeight() / POINTS_PER_MM;

  /** Of the size of the letters, from line to line. */
  private static final float LEADING = 1.35f;

  private static final String TYPEFACE = "/net/sf/jasperreports/fonts/dejavu/DejaVuSerif.ttf";

  private final PDDocument document = new PDDocument();
  private final PDFont font;
  private final String head;
  private PDPageContentStream page;
  private float y;
  private int pages;

  /**
   * @param title of the document
   * @param head at the top of each page
   */
  Paper(String title, String head) throws IOException {
    document.getDocumentInformation().setTitle(title);
    try (InputStream typeface = Paper.class.getResourceAsStream(TYPEFACE)) {
      font =
          PDType0Font.load(
              document, new TTFParser().parse(new RandomAccessReadBuffer(typeface)), true);
    }
    this.head = head;
    page = next();
  }

  private PDPageContentStream next() throws IOException {
    PDPage sheet = new PDPage(PDRectangle.A4);
    document.addPage(sheet);
    pages++;
    PDPageContentStream content = new PDPageContentStream(document, sheet);
    page = content;
    draw(8.5f, head, MARGIN_MM, HEIGHT_MM - 13);
    draw(8.5f, Caution.LOOK_ONLY, MARGIN_MM, 12);
    draw(8.5f, Integer.toString(pages), WIDTH_MM - MARGIN_MM - 4, 12);
    y = HEIGHT_MM - 22;
    return content;
  }

  /** Begins another page unless so much room is left. */
  void room(float highMm) throws IOException {
    if (y - highMm < FOOT_MM) {
      page.close();
      page = next();
    }
  }

  void space(float highMm) {
    y -= highMm;
  }

  /** Words from a place on, as many lines as they need. */
  void words(float size, float fromMm, String words) throws IOException {
    for (String line : wrapped(size, words, WIDTH_MM - MARGIN_MM - fromMm)) {
      float high = size * LEADING / POINTS_PER_MM;
      room(high);
      y -= high;
      draw(size, line, fromMm, y);
    }
  }

  /** Words over the whole width. */
  void words(float size, String words) throws IOException {
    words(size, MARGIN_MM, words);
  }

  /** A box to tick and words beside it. */
  void ticked(float size, String words) throws IOException {
    room(2 * size * LEADING / POINTS_PER_MM);
    float high = 3.8f;
    page.setLineWidth(0.6f);
    page.addRect(
        MARGIN_MM * POINTS_PER_MM,
        (y - high - 1.6f) * POINTS_PER_MM,
        high * POINTS_PER_MM,
        high * POINTS_PER_MM);
    page.stroke();
    words(size, MARGIN_MM + 8, words);
  }

  /** A line to write on. */
  void rule() throws IOException {
    room(9);
    y -= 8;
    page.setLineWidth(0.3f);
    page.moveTo((MARGIN_MM + 8) * POINTS_PER_MM, y * POINTS_PER_MM);
    page.lineTo((WIDTH_MM - MARGIN_MM) * POINTS_PER_MM, y * POINTS_PER_MM);
    page.stroke();
  }

  /** Where words beside a tick box begin. */
  static float indent() {
    return MARGIN_MM + 8;
  }

  void save(OutputStream out) throws IOException {
    page.close();
    document.save(out);
  }

  private void draw(float size, String words, float xMm, float yMm) throws IOException {
    page.beginText();
    page.setFont(font, size);
    page.newLineAtOffset(xMm * POINTS_PER_MM, yMm * POINTS_PER_MM);
    page.showText(printable(words));
    page.endText();
  }

  private List<String> wrapped(float size, String words, float roomMm) throws IOException {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : words.strip().split("\\s+", -1)) {
      if (!line.isEmpty() && width(size, line + " " + word) > roomMm) {
        lines.add(line.toString());
        line.setLength(0);
      }
      line.append(line.isEmpty() ? "" : " ").append(word);
    }
    lines.add(line.toString());
    return lines;
  }

  private float width(float size, String words) throws IOException {
    return font.getStringWidth(printable(words)) / 1000 * size / POINTS_PER_MM;
  }

  /** What the typeface doesn't have is printed as a question mark. */
  private String printable(String words) {
    StringBuilder shown = new StringBuilder();
    words
        .codePoints()
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

  @Override
  public void close() throws IOException {
    document.close();
  }
}
