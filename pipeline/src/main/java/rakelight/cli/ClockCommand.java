package rakelight.cli;

import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.photo.CaptureTime;
import rakelight.photo.ClockCorrection;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;

@Command(name = "clock", description = "Puts the clock of a camera right, for all it took.")
final class ClockCommand extends ArchiveCommand {
  private static final Pattern SHIFT = Pattern.compile("([+-])(\\d{1,6}):(\\d\\d)(?::(\\d\\d))?");

  @Parameters(
      index = "1..*",
      arity = "1..2",
      paramLabel = "PHOTO",
      description = {
        "Any photograph by the camera: id, digest, path or file name. Two of them, each with its",
        "--same-moment-as, for a clock that runs fast or slow."
      })
  private List<String> photographs;

  @Option(
      names = "--by",
      paramLabel = "+H:MM[:SS]",
      description = "What is to be added to its times; with - what is to be taken off.")
  private Optional<String> by;

  @Option(
      names = "--same-moment-as",
      paramLabel = "PHOTO",
      description = "A photograph of that very moment by a camera whose clock was right.")
  private List<String> sameMoment = List.of();

  @Option(
      names = "--from",
      paramLabel = "DAY",
      description = "Only what was taken from this day on, by the wrong clock.")
  private Optional<LocalDate> from;

  @Option(names = "--to", paramLabel = "DAY", description = "Only what was taken up to this day.")
  private Optional<LocalDate> to;

  @Option(names = "--dry-run", description = "Only says what would change.")
  private boolean dryRun;

  @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
  private String reader;

  @Override
  int run(Archive archive) {
    if (by.isPresent() != sameMoment.isEmpty()
        || photographs.size() != Math.max(1, sameMoment.size())) {
      throw wrong("Give --by, or for each photograph --same-moment-as.");
    }
    PhotoStore store = new PhotoStore(archive);
    Photograph wrong = chosen(store, photographs.get(0));
    ZoneId zone = archive.ground().zone();
    long seconds =
        by.map(this::seconds).orElseGet(() -> between(store, wrong, sameMoment.get(0), zone));
    Optional<ClockCorrection.Drift> drift =
        photographs.size() == 1 ? Optional.empty() : Optional.of(drift(store, wrong, zone));
    if (seconds == 0 && drift.isEmpty()) {
      out().println("The clock is right. Nothing was changed.");
      return 0;
    }
    ClockCorrection correction = new ClockCorrection(wrong.takenBy(), from, to, seconds, drift);
    List<Photograph> shots = store.goesFor(correction);
    if (shots.isEmpty()) {
      throw new ArchiveException(
          photographs.get(0)
              + ": no photograph by "
              + wrong.takenBy().inWords()
              + " has a time of its own clock in these days.");
    }
    out()
        .println(
            Counted.of(shots.size(), "photograph")
                + " by "
                + wrong.takenBy().inWords()
                + ", times put right by "
                + correction.inWords()
                + ":");
    for (Photograph shot : List.of(shots.get(0), shots.get(shots.size() - 1))) {
      CaptureTime written = shot.taken().orElseThrow();
      CaptureTime right =
          new CaptureTime(
              written.local().plusSeconds(correction.secondsAt(written.local())),
              written.offset(),
              written.source());
      out()
          .println(
              "  "
                  + shot.originalName()
                  + ": "
                  + written.inWords(zone)
                  + " -> "
                  + right.inWords(zone));
    }
    if (dryRun) {
      out().println("Nothing was changed.");
    } else {
      store.correctClock(correction, reader);
    }
    return 0;
  }

  private ClockCorrection.Drift drift(PhotoStore store, Photograph first, ZoneId zone) {
    Photograph second = chosen(store, photographs.get(1));
    if (!second.takenBy().equals(first.takenBy())) {
      throw new ArchiveException(
          second.originalName() + ": isn't by the camera that took " + first.originalName() + ".");
    }
    long later = between(store, second, sameMoment.get(1), zone);
    LocalDateTime from = store.takenAsWritten(first.id()).orElseThrow().local();
    LocalDateTime until = store.takenAsWritten(second.id()).orElseThrow().local();
    if (!from.isBefore(until)) {
      throw new ArchiveException(
          "A drift is measured between two moments. Give the earlier photograph first.");
    }
    return new ClockCorrection.Drift(from, until, later);
  }

  private static Photograph chosen(PhotoStore store, String named) {
    return Chosen.of(store, List.of(named)).get(0);
  }

  private long seconds(String text) {
    Matcher matcher = SHIFT.matcher(text);
    if (!matcher.matches()) {
      throw wrong("--by must be hours, minutes and seconds such as +1:00 or -0:00:40: " + text);
    }
    Duration size =
        Duration.ofHours(Long.parseLong(matcher.group(2)))
            .plusMinutes(Long.parseLong(matcher.group(3)))
            .plusSeconds(Long.parseLong(Optional.ofNullable(matcher.group(4)).orElse("0")));
    return matcher.group(1).equals("-") ? -size.getSeconds() : size.getSeconds();
  }

  /** How far a photograph's own time is from that of one of the same moment. */
  private static long between(PhotoStore store, Photograph wrong, String named, ZoneId zone) {
    Photograph right = chosen(store, named);
    Optional<CaptureTime> written = store.takenAsWritten(wrong.id());
    if (written.isEmpty() || right.taken().isEmpty()) {
      throw new ArchiveException(
          (written.isEmpty() ? wrong : right).originalName()
              + ": has no time. Choose two photographs that have one, or give --by.");
    }
    return Duration.between(written.get().instant(zone), right.taken().get().instant(zone))
        .getSeconds();
  }
}
