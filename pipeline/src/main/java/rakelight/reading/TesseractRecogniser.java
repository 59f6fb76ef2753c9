package rakelight.reading;

import com.sun.jna.Pointer;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.IntBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import net.sourceforge.tess4j.ITessAPI.TessBaseAPI;
import net.sourceforge.tess4j.ITessAPI.TessChoiceIterator;
import net.sourceforge.tess4j.ITessAPI.TessPageIterator;
import net.sourceforge.tess4j.ITessAPI.TessPageIteratorLevel;
import net.sourceforge.tess4j.ITessAPI.TessPageSegMode;
import net.sourceforge.tess4j.ITessAPI.TessResultIterator;
import net.sourceforge.tess4j.TessAPI;
import rakelight.archive.Sha256;
import rakelight.picture.GrayImage;
import rakelight.picture.Natives;

/**
 * Tesseract's line recogniser, trained on print. On cut stone it reads next to nothing by itself;
 * it is heard as a third voice.
 *
 * <p>A handle used by two threads at once kills the whole program, so each is lent to one call at a
 * time and taken back afterwards; about 12 MB each.
 */
public final class TesseractRecogniser implements Recogniser {
  private static final int RESOLUTION_DPI = 300;

  private final TessAPI api;
  private final Path data;
  private final String digest;
  private final Queue<TessBaseAPI> idle = new ConcurrentLinkedQueue<>();

  public TesseractRecogniser() {
    data = Natives.tesseract();
    try {
      digest = Sha256.of(data.resolve("eng.traineddata")).hex();
    } catch (IOException e) {
      throw new UncheckedIOException("Can't read Tesseract's data in " + data, e);
    }
    api = TessAPI.INSTANCE;
    idle.add(handle());
    Natives.requireOurs("libtesseract");
    Natives.requireOurs("libleptonica");
  }

  private TessBaseAPI handle() {
    TessBaseAPI handle = api.TessBaseAPICreate();
    if (api.TessBaseAPIInit3(handle, data.toString(), "eng") != 0) {
      api.TessBaseAPIDelete(handle);
      throw new IllegalStateException("Tesseract can't read " + data.resolve("eng.traineddata"));
    }
    api.TessBaseAPISetVariable(handle, "lstm_choice_mode", "2");
    api.TessBaseAPISetVariable(handle, "debug_file", "/dev/null");
    // Mode 13, a raw line: mode 7 looks for layout in the grain.
    api.TessBaseAPISetPageSegMode(handle, TessPageSegMode.PSM_RAW_LINE);
    return handle;
  }

  @Override
  public String name() {
    return "tesseract";
  }

  @Override
  public String digest() {
    return digest;
  }

  @Override
  public List<LineLattice> read(List<GrayImage> strips) {
    TessBaseAPI handle = idle.poll();
    if (handle == null) {
      handle = handle();
    }
    try {
      List<LineLattice> lattices = new ArrayList<>();
      for (GrayImage strip : strips) {
        lattices.add(read(handle, strip));
      }
      return lattices;
    } finally {
      idle.add(handle);
    }
  }

  /**
   * The lines it finds and reads by itself on a whole picture (mode 11, sparse text), top to
   * bottom: what a person gets who hands it the photograph. Seconds on textured stone.
   */
  public List<String> readPage(GrayImage picture) {
    TessBaseAPI handle = handle();
    try {
      api.TessBaseAPISetPageSegMode(handle, TessPageSegMode.PSM_SPARSE_TEXT);
      setPicture(handle, picture);
      Pointer text = api.TessBaseAPIGetUTF8Text(handle);
      if (text == null) {
        return List.of();
      }
      String page = text.getString(0, StandardCharsets.UTF_8.name());
      api.TessDeleteText(text);
      return page.lines().map(String::strip).filter(line -> !line.isEmpty()).toList();
    } finally {
      api.TessBaseAPIEnd(handle);
      api.TessBaseAPIDelete(handle);
    }
  }

  private void setPicture(TessBaseAPI handle, GrayImage picture) {
    ByteBuffer pixels = ByteBuffer.allocateDirect(picture.pixels().length);
    pixels.put(picture.pixels()).flip();
    api.TessBaseAPISetImage(
        handle, pixels, picture.widthPx(), picture.heightPx(), 1, picture.widthPx());
    api.TessBaseAPISetSourceResolution(handle, RESOLUTION_DPI);
  }

  private LineLattice read(TessBaseAPI handle, GrayImage strip) {
    setPicture(handle, strip);
    List<Slot> slots = new ArrayList<>();
    if (api.TessBaseAPIRecognize(handle, null) == 0) {
      TessResultIterator results = api.TessBaseAPIGetIterator(handle);
      if (results != null) {
        try {
          collect(results, strip.widthPx(), slots);
        } finally {
          api.TessResultIteratorDelete(results);
        }
      }
    }
    api.TessBaseAPIClear(handle);
    return new LineLattice(slots);
  }

  private void collect(TessResultIterator results, int widthPx, List<Slot> slots) {
    int symbol = TessPageIteratorLevel.RIL_SYMBOL;
    TessPageIterator page = api.TessResultIteratorGetPageIterator(results);
    do {
      IntBuffer left = IntBuffer.allocate(1);
      IntBuffer right = IntBuffer.allocate(1);
      IntBuffer unused = IntBuffer.allocate(1);
      if (api.TessPageIteratorBoundingBox(page, symbol, left, unused, right, unused) == 0) {
        continue;
      }
      double from = (double) left.get(0) / widthPx;
      double to = (double) right.get(0) / widthPx;
      if (!slots.isEmpty()
          && api.TessPageIteratorIsAtBeginningOf(page, TessPageIteratorLevel.RIL_WORD) != 0) {
        double before = slots.get(slots.size() - 1).to();
        slots.add(Slot.ofWeights(Map.of(" ", 1.0), 0, before, Math.max(before, from)));
      }
      Map<String, Double> weights = choices(results);
      if (!weights.isEmpty()) {
        slots.add(Slot.ofWeights(weights, 0.01, from, to));
      }
    } while (api.TessResultIteratorNext(results, symbol) != 0);
  }

  /** The letters this symbol may be, with Tesseract's confidence as weight. */
  private Map<String, Double> choices(TessResultIterator results) {
    Map<String, Double> weights = new LinkedHashMap<>();
    TessChoiceIterator choices = api.TessResultIteratorGetChoiceIterator(results);
    if (choices != null) {
      try {
        do {
          String text = api.TessChoiceIteratorGetUTF8Text(choices);
          float confidence = api.TessChoiceIteratorConfidence(choices);
          if (text != null && !text.isBlank() && confidence > 0) {
            weights.merge(text, (double) confidence, Double::sum);
          }
        } while (api.TessChoiceIteratorNext(choices) != 0);
      } finally {
        api.TessChoiceIteratorDelete(choices);
      }
    }
    if (weights.isEmpty()) {
      Pointer text = api.TessResultIteratorGetUTF8Text(results, TessPageIteratorLevel.RIL_SYMBOL);
      if (text != null) {
        String letter = text.getString(0, StandardCharsets.UTF_8.name());
        api.TessDeleteText(text);
        if (!letter.isBlank()) {
          weights.put(letter, 1.0);
        }
      }
    }
    return weights;
  }

  @Override
  public void close() {
    for (TessBaseAPI handle = idle.poll(); handle != null; handle = idle.poll()) {
      api.TessBaseAPIEnd(handle);
      api.TessBaseAPIDelete(handle);
    }
  }
}
