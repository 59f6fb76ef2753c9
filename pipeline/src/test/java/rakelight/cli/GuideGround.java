package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;
import rakelight.samples.removals.InventedRemovals;
import rakelight.samples.removals.InventedRemovals.MovedStone;

/**
 * A ground that has something for each list of a guide: 60 graves moved from Low Carr, a crew lost
 * on one day, soldiers of one regiment spelt in three ways.
 */
final class GuideGround {
  static final String ADA = "Ada Penrose";
  static final InventedRemovals MOVED = new InventedRemovals(4, 60);

  private static final String[] OTHERS = {
    "S1\tJOB FENBY | of Netherquay | drowned in the Alert | 23 Nov. 1866 | aged 31 years",
    "S2\tELI SALLOW | Mariner of Netherquay | drowned in the Alert | 23 Nov. 1866 | aged 19 years",
    "S3\tAMOS TULL | drowned | 23 Nov. 1866 | aged 44 years",
    "S4\tJESSE TARN | died 24 Nov. 1866 | aged 27 years",
    "S5\tLUKE TARN | died November 1866 | aged 50 years",
    "W1\tSERGT. HUGH WRAY | CO. B 5TH REGT. SKER. INF. | died 3 May 1871",
    "W2\tPVT. ABEL KELL | Company B | 5 Sker. Infantry | died 9 June 1880",
    "W3\tCapt. OWEN LANE | Co. D, 5th Sker. Inf. | died 1 March 1890",
    "W4\tPVT. ASA NORTH | CO. B 6 SKER. INF. | died 1 March 1885",
    "T1\tSacred to the memory of | JOHN GARTH | Blacksmith | who died 4 Aug. 1840",
  };

  private GuideGround() {}

  /** The archive, in a new folder. */
  static Path in(Path folder) throws IOException {
    Path archive = folder.resolve("archive");
    done("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    StringBuilder readings = new StringBuilder("marker\tface\tline\ttext\n");
    for (MovedStone stone : MOVED.stones()) {
      row(readings, stone.number(), String.join(" | ", stone.lines()));
    }
    for (String other : OTHERS) {
      row(readings, other.split("\t")[0], other.split("\t")[1]);
    }
    Path file = folder.resolve("readings.tsv");
    Files.writeString(file, readings);
    done("confirm", archive, "--from", file, "--new-markers", "--reader", ADA);
    done(
        "source",
        archive,
        "--kind",
        "register",
        "--title",
        "Register of removals 1867-1868",
        "--reader",
        ADA);
    Path csv = folder.resolve("removals.csv");
    Files.writeString(csv, MOVED.csv());
    List<Object> words =
        new ArrayList<>(List.of("removals", archive, "import", csv, "--source", source(archive)));
    new TreeMap<>(InventedRemovals.FIELDS)
        .forEach((field, column) -> words.addAll(List.of("--column", field + "=" + column)));
    words.addAll(List.of("--stated", "recorded=" + MOVED.statedRecorded(), "--reader", ADA));
    done(words.toArray());
    done(
        "question",
        archive,
        "raise",
        "What became of the Alert in November 1866?",
        "--reader",
        ADA);
    return archive;
  }

  /** The number of the only source. */
  static String source(Path archive) {
    return done("sources", archive).out().replaceFirst("(?s)\\D*(\\d+).*", "$1");
  }

  static Ran done(Object... words) {
    Ran ran = Ran.command(words);
    assertThat(ran.code()).as(ran.err()).isZero();
    return ran;
  }

  private static void row(StringBuilder readings, String marker, String text) {
    readings.append(String.join("\t", marker, "front", "1", text)).append('\n');
  }
}
