package rakelight.publish.paper;

import java.io.IOException;
import java.util.Optional;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;

/** A page that is drawn on; several may be open. Closed with its document. */
public final class PrintedPage {
  /** How far a mark is lowered that goes below a letter's tail, in parts of the size; looked at. */
  private static final float TAIL = 0.17f;

  private final Paper paper;
  private final PDDocument document;
  private final PDPage page;
  private final PDPageContentStream content;
  private Optional<Paper.Begun> marked = Optional.empty();
  private boolean isMarking;
  private boolean closed;

  PrintedPage(Paper paper, PDDocument document, PDPage page) throws IOException {
    this.paper = paper;
    this.document = document;
    this.page = page;
    this.content = new PDPageContentStream(document, page);
  }

  PDPage page() {
    return page;
  }

  public float wideMm() {
    return page.getMediaBox().getWidth() / Paper.POINTS;
  }

  public float highMm() {
    return page.getMediaBox().getHeight() / Paper.POINTS;
  }

  /** What is drawn next belongs to the part that was begun last, or to none. */
  private void mark() throws IOException {
    Optional<Paper.Begun> now = paper.begun();
    if (isMarking && now.equals(marked)) {
      return;
    }
    if (isMarking) {
      content.endMarkedContent();
    }
    if (now.isPresent()) {
      content.beginMarkedContent(now.get().tag(), paper.piece(this, now.get()));
    } else {
      content.beginMarkedContent(COSName.ARTIFACT);
    }
    marked = now;
    isMarking = true;
  }

  /** Words on one line, in black. */
  public void text(Paper.Cut cut, float size, String words, float xMm, float yMm)
      throws IOException {
    mark();
    content.setNonStrokingColor(0f);
    content.beginText();
    content.newLineAtOffset(xMm * Paper.POINTS, yMm * Paper.POINTS);
    for (Paper.Run run : paper.runs(cut, words)) {
      content.setFont(run.font(), size);
      if (run.lowered()) {
        content.setTextRise(-TAIL * size);
      }
      content.showText(run.signs());
      if (run.lowered()) {
        content.setTextRise(0);
      }
    }
    content.endText();
  }

  /** A stroke from left to right. */
  public void rule(float fromMm, float yMm, float toMm, float points) throws IOException {
    shapes().setLineWidth(points);
    content.moveTo(fromMm * Paper.POINTS, yMm * Paper.POINTS);
    content.lineTo(toMm * Paper.POINTS, yMm * Paper.POINTS);
    content.stroke();
  }

  /** The same of dots. */
  public void dottedRule(float fromMm, float yMm, float toMm) throws IOException {
    shapes().setLineDashPattern(new float[] {1.2f, 1.6f}, 0);
    rule(fromMm, yMm, toMm, 1);
    content.setLineDashPattern(new float[0], 0);
  }

  /** The outline of a rectangle. */
  public void box(float xMm, float yMm, float wideMm, float highMm, float points)
      throws IOException {
    shapes().setLineWidth(points);
    rectangle(xMm, yMm, wideMm, highMm);
    content.stroke();
  }

  /**
   * A filled rectangle.
   *
   * @param grey 0 black to 1 white
   */
  public void filled(float xMm, float yMm, float wideMm, float highMm, float grey)
      throws IOException {
    shapes().setNonStrokingColor(grey);
    rectangle(xMm, yMm, wideMm, highMm);
    content.fill();
  }

  private void rectangle(float xMm, float yMm, float wideMm, float highMm) throws IOException {
    content.addRect(
        xMm * Paper.POINTS, yMm * Paper.POINTS, wideMm * Paper.POINTS, highMm * Paper.POINTS);
  }

  /** A picture of a JPEG or PNG file, as large as fits; how wide and high it is. */
  public float[] picture(byte[] file, float xMm, float topMm, float widestMm, float highestMm)
      throws IOException {
    PDImageXObject image = PDImageXObject.createFromByteArray(document, file, "picture");
    float scale = Math.min(widestMm / image.getWidth(), highestMm / image.getHeight());
    float wide = image.getWidth() * scale;
    float high = image.getHeight() * scale;
    mark();
    content.drawImage(
        image,
        xMm * Paper.POINTS,
        (topMm - high) * Paper.POINTS,
        wide * Paper.POINTS,
        high * Paper.POINTS);
    return new float[] {wide, high};
  }

  /** For shapes of one's own, in points. */
  PDPageContentStream shapes() throws IOException {
    mark();
    return content;
  }

  void close() throws IOException {
    if (!closed) {
      if (isMarking) {
        content.endMarkedContent();
      }
      content.close();
      closed = true;
    }
  }
}
