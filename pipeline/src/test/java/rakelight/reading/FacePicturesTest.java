package rakelight.reading;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.BadInputException;
import rakelight.picture.GrayImage;
import rakelight.picture.NativeScope;
import rakelight.picture.Picture;
import rakelight.relief.HeightMap;
import rakelight.relief.RakingSet;
import rakelight.relief.Relief;

class FacePicturesTest {
  private static final FileTime LONG_AGO = FileTime.from(Instant.parse("2001-01-01T00:00:00Z"));

  @TempDir Path folder;

  @AfterAll
  static void noNativeHandleIsLeft() {
    assertThat(NativeScope.live()).isZero();
  }

  @Test
  void thePicturesOfAFaceAreMadeOnceAndAllOfOneSize() throws IOException, BadInputException {
    try (SmallArchive small = new SmallArchive(folder)) {
      small.propose();
      Proposal proposal = new ProposalStore(small.archive()).latest(small.face()).orElseThrow();
      FacePictures pictures = new FacePictures(small.archive());

      Path lines = pictures.lines(proposal);
      Map<String, Path> reliefs = pictures.reliefs(proposal);

      assertThat(reliefs.keySet()).containsAll(Relief.NAMES);
      assertThat(List.copyOf(reliefs.keySet()).subList(0, Relief.NAMES.size()))
          .isEqualTo(Relief.NAMES);
      GrayImage grey = decoded(reliefs.values().iterator().next());
      for (Path relief : reliefs.values()) {
        GrayImage image = decoded(relief);
        assertThat(image.widthPx()).isEqualTo(grey.widthPx());
        assertThat(image.heightPx()).isEqualTo(grey.heightPx());
      }
      assertThat(decoded(lines).widthPx()).isPositive();
      Optional<Path> heights = pictures.heights(proposal);
      assertThat(heights.isPresent()).isEqualTo(reliefs.containsKey(RakingSet.DEPTH));
      if (heights.isPresent()) {
        HeightMap map = HeightMap.ofPng(Files.readAllBytes(heights.get()));
        assertThat(map.widthPx()).isBetween(grey.widthPx() / 4, grey.widthPx());
      }

      for (Path made : reliefs.values()) {
        Files.setLastModifiedTime(made, LONG_AGO);
      }
      Files.setLastModifiedTime(lines, LONG_AGO);
      assertThat(pictures.reliefs(proposal)).isEqualTo(reliefs);
      assertThat(pictures.lines(proposal)).isEqualTo(lines);
      for (Path made : reliefs.values()) {
        assertThat(Files.getLastModifiedTime(made)).isEqualTo(LONG_AGO);
      }
      assertThat(Files.getLastModifiedTime(lines)).isEqualTo(LONG_AGO);
    }
  }

  private static GrayImage decoded(Path file) throws IOException, BadInputException {
    return Picture.upright(Files.readAllBytes(file), 1);
  }
}
