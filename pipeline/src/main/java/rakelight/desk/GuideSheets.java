package rakelight.desk;

import java.io.IOException;
import java.io.OutputStream;
import java.time.LocalDate;
import java.util.List;
import rakelight.archive.Archive;
import rakelight.ground.PlannedWalk;
import rakelight.marker.Caution;
import rakelight.publish.paper.Flow;
import rakelight.publish.paper.Paper;
import rakelight.publish.paper.Paper.Part;
import rakelight.survey.FirstToRecord;

/** What a guide takes along on paper: a walk, and what to record first. PDF, A4. */
public final class GuideSheets {
  private static final float TITLE = 18;
  private static final float HEAD = 12;
  private static final float TEXT = 10;
  private static final float STOP_MM = 24;

  private GuideSheets() {}

  /** A walk, stop by stop, with room to write. */
  public static void walk(Archive archive, LocalDate day, PlannedWalk planned, OutputStream out)
      throws IOException {
    GuidePage.WalkShown shown = WalkPlans.shown(archive, planned);
    String ground = archive.ground().name();
    try (Paper whole = new Paper("Walk: " + planned.name())) {
      whole.begin(Part.TITLE);
      Flow paper = new Flow(whole, ground + ": " + planned.name() + ", of " + day);
      paper.words(TITLE, planned.name());
      whole.begin(Part.PARAGRAPH);
      paper.space(1);
      paper.words(TEXT, shown.summary());
      cautions(paper);
      if (!shown.unsafe().isEmpty()) {
        paper.space(2);
        paper.words(
            TEXT,
            "Unsafe on the way, look from afar: "
                + String.join(
                    "; ",
                    shown.unsafe().stream()
                        .map(stop -> "marker " + stop.marker().number() + " " + stop.unsafe())
                        .toList())
                + ".");
      }
      for (GuidePage.Stop stop : shown.stops()) {
        paper.space(4);
        paper.room(STOP_MM);
        whole.begin(Part.ITEM);
        paper.ticked(
            HEAD,
            stop.place()
                + ". Marker "
                + stop.marker().number()
                + (stop.metres().isEmpty() ? "" : ", " + stop.metres())
                + (stop.known() ? "" : ", nobody knows where it stands"));
        unsafe(paper, stop.unsafe());
        line(paper, stop.what());
        line(paper, stop.note());
        paper.rule();
      }
      whole.save(out);
    }
  }

  /** Markers to record first, each with its reasons and room to tick it off. */
  public static void first(
      Archive archive, LocalDate day, List<FirstToRecord.Urgency> first, OutputStream out)
      throws IOException {
    String ground = archive.ground().name();
    try (Paper whole = new Paper("Record these first")) {
      whole.begin(Part.TITLE);
      Flow paper = new Flow(whole, ground + ": record these first, of " + day);
      paper.words(TITLE, "Record these first");
      whole.begin(Part.PARAGRAPH);
      paper.space(1);
      paper.words(
          TEXT,
          "Those that may lose soonest what nobody has read yet. A ranking by what is noted of them,"
              + " no forecast.");
      cautions(paper);
      int rank = 0;
      for (FirstToRecord.Urgency one : first) {
        rank++;
        paper.space(3);
        paper.room(STOP_MM);
        whole.begin(Part.ITEM);
        paper.ticked(HEAD, rank + ". Marker " + one.marker().number());
        unsafe(paper, one.unsafe());
        line(paper, String.join("; ", one.reasons()));
      }
      whole.save(out);
    }
  }

  private static void cautions(Flow paper) throws IOException {
    paper.space(2);
    for (String caution : Caution.VISIT) {
      paper.words(TEXT, caution);
    }
  }

  private static void unsafe(Flow paper, String unsafe) throws IOException {
    if (!unsafe.isEmpty()) {
      paper.beside(TEXT, "UNSAFE: " + unsafe + ". Look from afar.");
    }
  }

  private static void line(Flow paper, String words) throws IOException {
    if (!words.isEmpty()) {
      paper.beside(TEXT, words);
    }
  }
}
