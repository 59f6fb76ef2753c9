package rakelight.reading;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.BadInputException;
import rakelight.archive.Derivation;
import rakelight.archive.DerivationInput;
import rakelight.archive.DerivationKey;
import rakelight.archive.Given;
import rakelight.archive.Json;
import rakelight.archive.Sha256;
import rakelight.archive.Stage;
import rakelight.archive.StageKind;
import rakelight.photo.CardLook;
import rakelight.photo.Light;
import rakelight.photo.PictureSource;
import rakelight.picture.NativeScope;
import rakelight.picture.SmallerPicture;
import rakelight.relief.FaceLight;
import rakelight.relief.FindFeatures;
import rakelight.relief.LightStrips;
import rakelight.relief.LineStrips;
import rakelight.relief.LinesDrawn;
import rakelight.relief.Overlay;
import rakelight.relief.RakedFace;
import rakelight.relief.ReliefPictures;
import rakelight.samples.StoneSet;
import rakelight.samples.Weathering;

/** The stages with the networks of the program, on a raking set, without any archive. */
class StagesTest {
  private static final int LIGHTS = 3;

  @TempDir Path folder;

  @AfterAll
  static void noNativeHandleIsLeft() {
    assertThat(NativeScope.live()).isZero();
  }

  @Test
  void thePageOfTheArchivesFormatNamesEveryStageInItsPresentVersion() throws IOException {
    String page = Files.readString(Path.of("..", "docs", "archive-format.md"));

    for (StageKind<?, ?> kind :
        List.of(
            CardLook.KIND,
            SmallerPicture.KIND,
            FindFeatures.KIND,
            ReadPhotograph.KIND,
            MergeFace.KIND,
            ReliefPictures.KIND,
            LinesDrawn.KIND,
            LineStrips.KIND,
            LightStrips.KIND)) {
      assertThat(page).contains("| `" + kind.name() + "` " + kind.version() + " |");
    }
  }

  @Test
  @Tag("long")
  void theSameInputsGiveTheSameBytesInAnyOrder() throws Exception {
    new StoneSet(1, 4, 420, List.of(Weathering.LIGHT), "usual", LIGHTS).writeTo(folder);
    List<byte[]> shots = new ArrayList<>();
    for (int i = 1; i <= LIGHTS; i++) {
      shots.add(Files.readAllBytes(folder.resolve("R000004-" + i + ".jpg")));
    }
    Map<DerivationKey, Derivation> once = run(shots);
    Collections.reverse(shots);
    Map<DerivationKey, Derivation> again = run(shots);

    assertThat(once).hasSize(LIGHTS + 6);
    assertThat(texts(again)).isEqualTo(texts(once));
    once.forEach(
        (key, derivation) -> {
          assertThat(DerivationInput.read(derivation.input().text()).key()).isEqualTo(key);
        });
    MergedFace face =
        once.values().stream()
            .filter(derivation -> derivation.input().isOf(MergeFace.KIND))
            .map(derivation -> derivation.result(MergeFace.KIND))
            .findFirst()
            .orElseThrow();
    assertThat(face.lines()).isNotEmpty();
    assertThat(face.views()).allMatch(view -> view.toLeading().isPresent());
  }

  /** Reads, merges and pictures the photographs, in their order. */
  private static Map<DerivationKey, Derivation> run(List<byte[]> shots) throws BadInputException {
    InMemory memory = new InMemory();
    try (MachineReader reader = MachineReader.standard()) {
      ReadPhotograph read = new ReadPhotograph(reader);
      MergeFace merge = new MergeFace(reader);
      List<MergeFace.View> views = new ArrayList<>();
      Map<Sha256, Optional<FaceLight>> lights = new HashMap<>();
      Map<Sha256, RakedFace.View> raked = new HashMap<>();
      for (byte[] shot : shots) {
        PictureSource source = new PictureSource(memory.add(shot), Optional.empty(), 1);
        // The light follows from the photograph, not from the order.
        double azimuth = Integer.parseInt(source.original().hex().substring(0, 2), 16) / 3.0;
        Optional<FaceLight> light =
            FaceLight.of(Optional.of(new Light(azimuth, Optional.of(20.0))), Optional.of(45.0));
        views.add(
            new MergeFace.View(
                source, memory.run(read, read.input(source, Optional.empty())), List.of()));
        lights.put(source.original(), light);
      }
      MergeFace.Input input = merge.input(views);
      MergedFace face = memory.result(MergeFace.KIND, memory.run(merge, input));
      List<RakedFace.View> over = new ArrayList<>();
      for (MergedFace.View view : face.views()) {
        MergeFace.View shot =
            input.views().stream()
                .filter(v -> v.picture().original().equals(view.original()))
                .findFirst()
                .orElseThrow();
        over.add(
            new RakedFace.View(
                shot.picture(),
                view.toLeading().orElseThrow(),
                lights.getOrDefault(view.original(), Optional.empty())));
      }
      MergedFace.View leading = face.views().get(0);
      Optional<Double> proportion = Optional.of(leading.proportion());
      ReliefPictures.Input relief =
          new ReliefPictures.Input(
              new RakedFace(leading.outline(), proportion, over), 30, List.of());
      PictureSource first = over.get(0).picture();
      List<LineStrips.Line> lines =
          List.of(new LineStrips.Line(1, face.lines().get(0).line(), over.get(0).toLeading()));
      memory.run(
          new LineStrips(),
          new LineStrips.Input(
              memory.run(new ReliefPictures(), relief), leading.outline(), proportion, lines));
      memory.run(new LightStrips(), new LightStrips.Input(first, over.get(0).toLeading(), lines));
      memory.run(
          new LinesDrawn(),
          new LinesDrawn.Input(
              first,
              leading.outline(),
              List.of(new Overlay.Line(1, face.lines().get(0).line().ribbon(), List.of()))));
      memory.run(new SmallerPicture(), new SmallerPicture.Input(first, 200));
    }
    return memory.made;
  }

  private static Map<DerivationKey, String> texts(Map<DerivationKey, Derivation> made) {
    Map<DerivationKey, String> texts = new HashMap<>();
    made.forEach((key, derivation) -> texts.put(key, Json.text(derivation)));
    return texts;
  }

  /** Originals and derivations without an archive. */
  private static final class InMemory implements Given {
    private final Map<Sha256, byte[]> originals = new HashMap<>();
    private final Map<DerivationKey, Derivation> made = new HashMap<>();

    Sha256 add(byte[] bytes) {
      Sha256 digest = Sha256.of(bytes);
      originals.put(digest, bytes);
      return digest;
    }

    /** Runs a stage on what remains of its input once it has been sent as JSON. */
    <I extends Record, O> DerivationKey run(Stage<I, O> stage, I input) throws BadInputException {
      I sent = Json.read(Json.text(input), stage.kind().input());
      assertThat(sent).isEqualTo(input);
      Derivation derivation = Derivation.made(stage, sent, this);
      made.put(derivation.key(), derivation);
      return derivation.key();
    }

    @Override
    public byte[] original(Sha256 digest) {
      return Optional.ofNullable(originals.get(digest)).orElseThrow();
    }

    @Override
    public <O> O result(StageKind<?, O> kind, DerivationKey key) {
      return Optional.ofNullable(made.get(key)).orElseThrow().result(kind);
    }
  }
}
