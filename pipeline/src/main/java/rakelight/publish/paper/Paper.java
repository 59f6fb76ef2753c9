package rakelight.publish.paper;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.common.PDNumberTreeNode;
import org.apache.pdfbox.pdmodel.common.PDPageLabelRange;
import org.apache.pdfbox.pdmodel.common.PDPageLabels;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDMarkInfo;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDMarkedContentReference;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDParentTreeValue;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDStructureElement;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDStructureTreeRoot;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.font.PDType0Font;
import org.apache.pdfbox.pdmodel.interactive.documentnavigation.destination.PDPageXYZDestination;
import org.apache.pdfbox.pdmodel.interactive.documentnavigation.outline.PDDocumentOutline;
import org.apache.pdfbox.pdmodel.interactive.documentnavigation.outline.PDOutlineItem;
import org.apache.pdfbox.pdmodel.interactive.viewerpreferences.PDViewerPreferences;
import rakelight.inscription.Letter;

/**
 * A document on paper. Whatever is drawn belongs to the part that was begun last, such as a heading
 * or a paragraph, so that programs that read aloud know what is what; heads and feet of pages are
 * outside of all. Tables aren't marked as such, and links aren't made.
 */
public final class Paper implements AutoCloseable {
  static final float POINTS = 72 / 25.4f;
  private static final String LANGUAGE = "en-GB";

  /** The cuts of the one typeface, which has letters for all of Europe and marks to set on them. */
  public enum Cut {
    PLAIN("DejaVuSerif"),
    BOLD("DejaVuSerif-Bold"),
    ITALIC("DejaVuSerif-Italic"),
    /** For signs that the others don't have. */
    OTHER("DejaVuSansCondensed");

    private final String file;

    Cut(String file) {
      this.file = "/net/sf/jasperreports/fonts/dejavu/" + file + ".ttf";
    }
  }

  /** What a part of a document is. */
  public enum Part {
    TITLE("H1"),
    SECTION("H1"),
    HEADING("H2"),
    SUBHEADING("H3"),
    PARAGRAPH("P"),
    ITEM("LI"),
    FIGURE("Figure");

    private final COSName tag;

    Part(String tag) {
      this.tag = COSName.getPDFName(tag);
    }
  }

  /** A part that was begun. */
  static final class Begun {
    private final PDStructureElement element;
    private final COSName tag;

    private Begun(PDStructureElement element, COSName tag) {
      this.element = element;
      this.tag = tag;
    }

    COSName tag() {
      return tag;
    }
  }

  private final PDDocument document = new PDDocument();
  private final Map<Cut, PDFont> fonts = new EnumMap<>(Cut.class);
  private final Map<Cut, Map<Integer, Boolean>> known = new EnumMap<>(Cut.class);

  /** Letters that reach so far down that a mark below them would run into them. */
  private static final String DESCENDING = "JQgjpqyſ,;";

  /** Brackets of the Leiden conventions that no typeface here has, and the like of them. */
  private static final Map<Integer, Integer> FOR_WANT_OF =
      Map.of((int) '〚', (int) '⟦', (int) '〛', (int) '⟧');

  private final PDStructureTreeRoot tree = new PDStructureTreeRoot();
  private final PDStructureElement whole;
  private final Map<Integer, PDParentTreeValue> parents = new HashMap<>();
  private final PDDocumentOutline outline = new PDDocumentOutline();
  private final List<PDOutlineItem> open = new ArrayList<>();
  private final PDPageLabels labels = new PDPageLabels(document);
  private final List<PrintedPage> leaves = new ArrayList<>();
  private Optional<Begun> begun = Optional.empty();
  private boolean labelled;

  /**
   * @param title of the document, which viewers show
   */
  public Paper(String title) throws IOException {
    document.getDocumentInformation().setTitle(title);
    document.getDocumentCatalog().setLanguage(LANGUAGE);
    PDViewerPreferences preferences = new PDViewerPreferences(new COSDictionary());
    preferences.setDisplayDocTitle(true);
    document.getDocumentCatalog().setViewerPreferences(preferences);
    PDMarkInfo marks = new PDMarkInfo();
    marks.setMarked(true);
    document.getDocumentCatalog().setMarkInfo(marks);
    document.getDocumentCatalog().setStructureTreeRoot(tree);
    whole = new PDStructureElement("Document", tree);
    tree.appendKid(whole);
  }

  private PDFont font(Cut cut) throws IOException {
    PDFont font = fonts.get(cut);
    if (font == null) {
      try (InputStream typeface =
          Objects.requireNonNull(Paper.class.getResourceAsStream(cut.file), cut.file)) {
        font =
            PDType0Font.load(
                document, new TTFParser().parse(new RandomAccessReadBuffer(typeface)), true);
      }
      fonts.put(cut, font);
    }
    return font;
  }

  // Pages

  /** Another page of A4. */
  public PrintedPage leaf() throws IOException {
    return leaf(PDRectangle.A4);
  }

  /** Another page of this size. */
  PrintedPage leaf(float wideMm, float highMm) throws IOException {
    return leaf(new PDRectangle(wideMm * POINTS, highMm * POINTS));
  }

  private PrintedPage leaf(PDRectangle size) throws IOException {
    PDPage page = new PDPage(size);
    document.addPage(page);
    page.setStructParents(leaves.size());
    PrintedPage leaf = new PrintedPage(this, document, page);
    leaves.add(leaf);
    return leaf;
  }

  /** How many pages there are. */
  public int pages() {
    return leaves.size();
  }

  /** From the next page on, pages are numbered anew from 1: in roman figures, or not. */
  public void number(boolean roman) {
    PDPageLabelRange range = new PDPageLabelRange();
    range.setStyle(roman ? PDPageLabelRange.STYLE_ROMAN_LOWER : PDPageLabelRange.STYLE_DECIMAL);
    range.setStart(1);
    labels.setLabelItem(leaves.size(), range);
    labelled = true;
  }

  /** A number from 1 to 3999 in small roman figures. */
  public static String roman(int number) {
    String[] figures = {"m", "cm", "d", "cd", "c", "xc", "l", "xl", "x", "ix", "v", "iv", "i"};
    int[] values = {1000, 900, 500, 400, 100, 90, 50, 40, 10, 9, 5, 4, 1};
    StringBuilder roman = new StringBuilder();
    int left = number;
    for (int i = 0; i < values.length; i++) {
      for (; left >= values[i]; left -= values[i]) {
        roman.append(figures[i]);
      }
    }
    return roman.toString();
  }

  /**
   * Names a place for whoever leafs by bookmarks.
   *
   * @param level 0 for a section, 1 for what lies within the last of them
   */
  public void bookmark(String words, int level, PrintedPage leaf, float yMm) {
    PDPageXYZDestination place = new PDPageXYZDestination();
    place.setPage(leaf.page());
    place.setLeft(0);
    place.setTop((int) (yMm * POINTS));
    PDOutlineItem item = new PDOutlineItem();
    item.setTitle(words);
    item.setDestination(place);
    while (open.size() > level) {
      open.remove(open.size() - 1);
    }
    if (open.isEmpty()) {
      outline.addLast(item);
    } else {
      open.get(open.size() - 1).addLast(item);
    }
    open.add(item);
  }

  // Parts

  /** What is drawn from here on is this. */
  public void begin(Part part) {
    begin(part, "");
  }

  /**
   * The same with words for those who don't see it.
   *
   * @param words for a figure; may be empty
   */
  public void begin(Part part, String words) {
    PDStructureElement element = new PDStructureElement(part.tag.getName(), whole);
    if (!words.isEmpty()) {
      element.setAlternateDescription(words);
    }
    whole.appendKid(element);
    begun = Optional.of(new Begun(element, part.tag));
  }

  /** Draws what belongs to no part, such as the head of a page. */
  void outside(Drawing drawing) throws IOException {
    Optional<Begun> before = begun;
    begun = Optional.empty();
    drawing.draw();
    begun = before;
  }

  /** Something that is drawn. */
  @FunctionalInterface
  interface Drawing {
    void draw() throws IOException;
  }

  Optional<Begun> begun() {
    return begun;
  }

  /**
   * Notes that a piece of a page belongs to a part.
   *
   * @return its number on the page
   */
  int piece(PrintedPage leaf, Begun of) {
    PDParentTreeValue own =
        parents.computeIfAbsent(
            leaf.page().getStructParents(), page -> new PDParentTreeValue(new COSArray()));
    COSArray pieces = (COSArray) own.getCOSObject();
    int number = pieces.size();
    pieces.add(of.element.getCOSObject());
    PDMarkedContentReference reference = new PDMarkedContentReference();
    reference.setPage(leaf.page());
    reference.setMCID(number);
    of.element.appendKid(reference);
    return number;
  }

  // Words

  /**
   * Signs that are set in one go.
   *
   * @param lowered whether they are marks that go below a letter's tail
   */
  record Run(PDFont font, String signs, boolean lowered) {}

  /**
   * Words as they are set: each sign in a typeface that has it, as a question mark where none has.
   */
  List<Run> runs(Cut cut, String words) throws IOException {
    List<Run> runs = new ArrayList<>();
    StringBuilder signs = new StringBuilder();
    Cut set = cut;
    boolean low = false;
    int before = ' ';
    for (int i = 0; i < words.length(); ) {
      int written = words.codePointAt(i);
      i += Character.charCount(written);
      int sign = FOR_WANT_OF.getOrDefault(written, written);
      Cut own = has(cut, sign) ? cut : has(Cut.OTHER, sign) ? Cut.OTHER : cut;
      if (!has(own, sign)) {
        sign = '?';
      }
      boolean mark = Letter.isCombining(sign);
      boolean lowered = mark && isBelow(sign) && DESCENDING.indexOf(before) >= 0;
      if (!signs.isEmpty() && (own != set || lowered != low)) {
        runs.add(new Run(font(set), signs.toString(), low));
        signs.setLength(0);
      }
      set = own;
      low = lowered;
      signs.appendCodePoint(sign);
      before = mark ? before : sign;
    }
    if (!signs.isEmpty()) {
      runs.add(new Run(font(set), signs.toString(), low));
    }
    return runs;
  }

  private static boolean isBelow(int mark) {
    return Letter.DOT_BELOW.codePointAt(0) == mark || Letter.LINE_BELOW.codePointAt(0) == mark;
  }

  private boolean has(Cut cut, int sign) throws IOException {
    PDFont font = font(cut);
    return known
        .computeIfAbsent(cut, c -> new HashMap<>())
        .computeIfAbsent(sign, one -> isIn(font, one));
  }

  /** How wide words are. */
  public float width(Cut cut, float size, String words) throws IOException {
    float wide = 0;
    for (Run run : runs(cut, words)) {
      wide += run.font().getStringWidth(run.signs());
    }
    return wide / 1000 * size / POINTS;
  }

  /** Words in lines that fit, broken at spaces. */
  public List<String> wrapped(Cut cut, float size, String words, float roomMm) throws IOException {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    float wide = 0;
    float space = width(cut, size, " ");
    for (String word : words.strip().split("\\s+", -1)) {
      float own = width(cut, size, word);
      if (!line.isEmpty() && wide + space + own > roomMm) {
        lines.add(line.toString());
        line.setLength(0);
        wide = 0;
      }
      wide += (line.isEmpty() ? 0 : space) + own;
      line.append(line.isEmpty() ? "" : " ").append(word);
    }
    lines.add(line.toString());
    return lines;
  }

  private static boolean isIn(PDFont font, int point) {
    try {
      font.encode(Character.toString(point));
      return true;
    } catch (IOException | IllegalArgumentException e) {
      return false;
    }
  }

  // The end

  /** Writes the document; nothing can be drawn any more. */
  public void save(OutputStream out) throws IOException {
    for (PrintedPage leaf : leaves) {
      leaf.close();
    }
    PDNumberTreeNode numbers = new PDNumberTreeNode(PDParentTreeValue.class);
    numbers.setNumbers(new HashMap<>(parents));
    tree.setParentTree(numbers);
    tree.setParentTreeNextKey(leaves.size());
    if (outline.hasChildren()) {
      document.getDocumentCatalog().setDocumentOutline(outline);
    }
    if (labelled) {
      document.getDocumentCatalog().setPageLabels(labels);
    }
    document.save(out);
  }

  @Override
  public void close() throws IOException {
    document.close();
  }
}
