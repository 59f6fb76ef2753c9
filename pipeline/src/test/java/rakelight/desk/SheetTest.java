package rakelight.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import rakelight.inscription.Gap;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;

class SheetTest {
  @Test
  void aSheetHasTheMarkerItsLinesRoomToWriteAndTheCaution() throws IOException {
    String text = text(List.of(line("HANNAH WREN"), line("Auguſt 9th")));

    assertThat(text)
        .contains("Marker 17, W")
        .contains("Fenn Lane.  Keep clear of it: noted as leaning.")
        .contains("HANNAH WREN")
        .contains("Auguſt 9th")
        .contains("Read by")
        .contains("don't clean, wet, chalk, rub, lean on or move the stone");
  }

  @Test
  void whatIsHeldBackFromABlindReaderIsARuleToWriteOn() throws IOException {
    assertThat(text(List.of(line("·····"), line("DIED")))).contains("_____").contains("DIED");
  }

  @Test
  void aLongInscriptionGoesOnOverleaf() throws IOException {
    List<List<ShownFace.Sign>> lines = new ArrayList<>();
    for (int i = 1; i <= 40; i++) {
      lines.add(line("LINE " + i));
    }
    byte[] pdf = pdf(lines);
    try (PDDocument document = Loader.loadPDF(pdf)) {
      assertThat(document.getNumberOfPages()).isGreaterThan(2);
      String text = new PDFTextStripper().getText(document);
      for (int i = 1; i <= 40; i++) {
        assertThat(text).contains("LINE " + i);
      }
    }
  }

  @Test
  void theSignsThatTheSheetAsksForMeanWhatItSays() throws Exception {
    assertThat(text(List.of(line("HENRY"))))
        .contains("+ for marks nobody can read")
        .contains("[.] for each letter whose surface is gone")
        .doesNotContain("[-]");
    assertThat(gaps("HENR[.]")).containsExactly(Gap.Reason.LOST);
    assertThat(gaps("HENR[..]")).containsExactly(Gap.Reason.LOST);
    assertThat(gaps("HEN++")).containsExactly(Gap.Reason.ILLEGIBLE);
    assertThatThrownBy(() -> Leiden.parse("HENR[-]")).hasMessageContaining("[.]");
  }

  private static List<Gap.Reason> gaps(String written) throws LeidenException {
    return Leiden.parse(written).signs().stream()
        .filter(Gap.class::isInstance)
        .map(sign -> ((Gap) sign).reason())
        .toList();
  }

  private static List<ShownFace.Sign> line(String text) {
    List<ShownFace.Sign> signs = new ArrayList<>();
    for (String word : text.split(" ")) {
      for (int i = 0; i < word.length(); i++) {
        signs.add(
            new ShownFace.Sign(
                word.substring(i, i + 1),
                "open",
                i == 0 && !signs.isEmpty(),
                i == 1,
                Optional.empty()));
      }
    }
    return signs;
  }

  private static String text(List<List<ShownFace.Sign>> lines) throws IOException {
    try (PDDocument document = Loader.loadPDF(pdf(lines))) {
      return new PDFTextStripper().getText(document);
    }
  }

  private static byte[] pdf(List<List<ShownFace.Sign>> lines) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    Sheet.write(
        "Fenn Lane", List.of(new Sheet.Side("17", "W", "leaning", Optional.empty(), lines)), out);
    return out.toByteArray();
  }
}
