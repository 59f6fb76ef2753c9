package rakelight.publish;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.documentinterchange.markedcontent.PDMarkedContent;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.interactive.documentnavigation.outline.PDOutlineItem;
import org.apache.pdfbox.text.PDFMarkedContentExtractor;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.ground.PositionStore;
import rakelight.ground.RowPlace;
import rakelight.marker.Caution;
import rakelight.marker.MarkerStore;
import rakelight.person.QuestionStore;
import rakelight.publish.paper.RegisterBook;

/** The register as a book: what a reader finds by its indices, its bookmarks and its tags. */
class RegisterBookTest {
  private static final String[] SURNAMES = {
    "WREN", "GARSIDE", "LIDGATE", "SALLOW", "HARROW", "QUILLAN", "FENN", "PENROSE"
  };
  private static final String[] GIVEN = {"HANNAH", "ABEL", "RUTH", "THOMAS", "ELLEN", "JOHN"};
  private static final Pattern ENTRY =
      Pattern.compile("([A-Z][a-z]+), ([A-Z][a-z]+)[^0-9]*\\(d\\. (\\d{4})\\) +([0-9, ]+)");

  @TempDir static Path folder;
  private static PDDocument book;
  private static final Map<String, String> PAGES = new HashMap<>();
  private static String all = "";

  @BeforeAll
  static void print() throws IOException {
    ByteArrayOutputStream pdf = new ByteArrayOutputStream();
    try (SmallGround ground = new SmallGround(folder)) {
      for (int i = 0; i < 48; i++) {
        ground.stone(
            Integer.toString(i + 1),
            "front",
            "In memory of | %s %s | who died May %d, %d | Ạged 3[.] years | (3 or 8) ſleeps | J\u0323oy"
                .formatted(
                    GIVEN[i % GIVEN.length], SURNAMES[i % SURNAMES.length], i % 28 + 1, 1801 + i));
      }
      ground.stone("60", "front", "ROBERT GARSIDE | 1949 - 2011 | ALICE HIS WIFE | 1953 - (vac.)");
      PositionStore places = new PositionStore(ground.archive);
      MarkerStore markers = new MarkerStore(ground.archive);
      places.note(markers.named("40").id(), new RowPlace("A", 1), "Ada Penrose");
      places.note(markers.named("7").id(), new RowPlace("A", 2), "Ada Penrose");
      new QuestionStore(ground.archive).raise("Who cut these?", Optional.of("7"), "Ada");
      new QuestionStore(ground.archive).raise("Does Alice Garside live?", Optional.empty(), "Ada");
      RegisterBook.write(ground.edition(), SmallGround.TODAY, pdf);
    }
    book = Loader.loadPDF(pdf.toByteArray());
    String[] labels = book.getDocumentCatalog().getPageLabels().getLabelsByPageIndices();
    for (int i = 0; i < labels.length; i++) {
      PDFTextStripper stripper = new PDFTextStripper();
      stripper.setStartPage(i + 1);
      stripper.setEndPage(i + 1);
      PAGES.put(labels[i], stripper.getText(book));
    }
    all = new PDFTextStripper().getText(book);
  }

  @AfterAll
  static void close() throws IOException {
    book.close();
  }

  @Test
  void everyNameStandsOnThePageThatTheIndexGives() {
    Matcher entry = ENTRY.matcher(all);
    int found = 0;
    Set<String> pages = new HashSet<>();
    while (entry.find()) {
      for (String page : entry.group(4).strip().split(", ", -1)) {
        assertThat(PAGES.get(page))
            .as(entry.group())
            .contains(
                (entry.group(2) + " " + entry.group(1)).toUpperCase(Locale.ROOT), entry.group(3));
        pages.add(page);
        found++;
      }
    }
    assertThat(found).isEqualTo(49);
    assertThat(pages).hasSizeGreaterThan(4);
  }

  @Test
  void markersStandByRowAndNobodyWhoMayBeLivingIsInIt() {
    assertThat(all.indexOf("Marker 40\n")).isBetween(0, all.indexOf("Marker 7\n"));
    assertThat(all.indexOf("Marker 7\n")).isLessThan(all.indexOf("Marker 1\n"));
    assertThat(all)
        .doesNotContainIgnoringCase("alice")
        .contains("[withheld: may be living]")
        .contains("Who cut these?")
        .contains("Ạged 3[.] years", "(3 or 8) ſleeps")
        .contains(Caution.VISIT.get(0).substring(0, 40))
        .doesNotContain("\uFFFD");
    assertThat(PAGES.get("1")).contains(Caution.LOOK_ONLY);
  }

  @Test
  void bookmarksLeadToItsPartsAndPagesAreNumberedAsTheContentsSay() throws IOException {
    List<String> bookmarks = new ArrayList<>();
    String[] labels = book.getDocumentCatalog().getPageLabels().getLabelsByPageIndices();
    for (PDOutlineItem item : book.getDocumentCatalog().getDocumentOutline().children()) {
      PDPage page = item.findDestinationPage(book);
      String label = labels[book.getPages().indexOf(page)];
      bookmarks.add(item.getTitle());
      if (!item.getTitle().equals("Title")) {
        assertThat(PAGES.get(label)).contains(item.getTitle());
      }
      if (!List.of("Title", "Contents").contains(item.getTitle())) {
        assertThat(PAGES.get("ii")).containsPattern(item.getTitle() + " +" + label + "\\b");
      }
    }
    assertThat(bookmarks)
        .contains("Title", "Contents", "How to read it", "Inscriptions", "Index of names")
        .contains("Questions");
  }

  /** ISO 32000-1, 14.7 and 14.8: language, marks, and for each piece the part it belongs to. */
  @Test
  void whoHearsItReadAloudHearsHeadingsAndParagraphsAndNoPageHeads() throws IOException {
    assertThat(book.getDocumentCatalog().getLanguage()).isEqualTo("en-GB");
    assertThat(book.getDocumentCatalog().getMarkInfo().isMarked()).isTrue();
    COSDictionary tree = book.getDocumentCatalog().getStructureTreeRoot().getCOSObject();
    COSArray parents =
        tree.getCOSDictionary(COSName.getPDFName("ParentTree")).getCOSArray(COSName.NUMS);
    int page = book.getPages().getCount() - 1;
    PDFMarkedContentExtractor extractor = new PDFMarkedContentExtractor();
    extractor.processPage(book.getPage(page));
    Set<String> parts = new HashSet<>();
    for (PDMarkedContent content : extractor.getMarkedContents()) {
      if (content.getMCID() < 0) {
        assertThat(content.getTag()).isEqualTo("Artifact");
        continue;
      }
      COSArray own = (COSArray) parents.getObject(2 * page + 1);
      COSDictionary part = (COSDictionary) own.getObject(content.getMCID());
      assertThat(part.getNameAsString(COSName.S)).isEqualTo(content.getTag());
      parts.add(content.getTag());
    }
    assertThat(parts).contains("H1", "P");
    for (PDPage one : book.getPages()) {
      for (COSName name : one.getResources().getFontNames()) {
        PDFont font = one.getResources().getFont(name);
        assertThat(font.isEmbedded()).as(font.getName()).isTrue();
      }
    }
  }
}
