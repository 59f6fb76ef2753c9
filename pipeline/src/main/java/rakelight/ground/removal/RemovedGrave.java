package rakelight.ground.removal;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import rakelight.marker.Marker;
import rakelight.person.Linkage;
import rakelight.person.Mention;

/**
 * One grave of an old ground, from all rows that are about it.
 *
 * @param place of its first row, as commands take it: {@code 5.17}
 * @param rows never empty
 * @param standing what became of it
 * @param why in words; empty where nothing need be said
 * @param marker the one it is under; present if and only if it is accounted for and may be told
 * @param leadsTo every marker that its rows or people's decisions lead to
 * @param found whom a person said it to be
 * @param proposals who it may be on the stones, the likeliest first
 * @param nameWithheld whether the name may not be told; the rows then have none
 * @param placeWithheld whether the marker may not be told; the rows then have no new place
 */
public record RemovedGrave(
    String place,
    List<Removal> rows,
    Standing standing,
    String why,
    Optional<Marker> marker,
    List<Marker> leadsTo,
    Optional<Mention> found,
    List<Linkage.Match> proposals,
    boolean nameWithheld,
    boolean placeWithheld) {
  /** What became of a grave; it is one of these and no other. */
  public enum Standing {
    MARKED,
    UNKNOWN,
    UNACCOUNTED;

    public String label() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  public RemovedGrave {
    rows = List.copyOf(rows);
    leadsTo = List.copyOf(leadsTo);
    proposals = List.copyOf(proposals);
  }

  /** The row that speaks for the grave: its first. */
  public Removal row() {
    return rows.get(0);
  }

  /** The numbers of its rows. */
  public List<Integer> numbers() {
    return rows.stream().map(Removal::number).toList();
  }

  /** Who it was, as far as it may be told. */
  public String called() {
    return nameWithheld ? "(withheld)" : row().called();
  }

  /** Whether it is counted by a figure. */
  boolean isIn(RemovalFigure figure) {
    boolean here = standing != Standing.UNACCOUNTED;
    return switch (figure) {
      case RECORDED -> true;
      case MOVED -> isMoved();
      case NOT_MOVED -> !isMoved();
      case MARKED -> standing == Standing.MARKED;
      case UNKNOWN -> standing == Standing.UNKNOWN;
      case NAMED_BY_REGISTER -> standing == Standing.UNKNOWN && (nameWithheld || row().isNamed());
      case UNACCOUNTED -> standing == Standing.UNACCOUNTED;
      case ORIGINAL -> here && row().stoneKind() == Removal.StoneKind.ORIGINAL;
      case REPLACEMENT -> here && row().stoneKind() == Removal.StoneKind.REPLACEMENT;
      case STONE_UNKNOWN -> here && row().stoneKind() == Removal.StoneKind.UNKNOWN;
    };
  }

  private boolean isMoved() {
    return placeWithheld || rows.stream().anyMatch(Removal::isMoved);
  }

  /** The same without the name and whatever leads to it. */
  public RemovedGrave withoutName() {
    List<Removal> bare = new ArrayList<>();
    for (Removal row : rows) {
      bare.add(
          new Removal(
              row.number(),
              row.oldGround(),
              "",
              "",
              "",
              Optional.empty(),
              row.oldRow(),
              row.oldNumber(),
              row.newRow(),
              row.newNumber(),
              row.moved(),
              row.movedOn(),
              row.stone(),
              ""));
    }
    return new RemovedGrave(
        place,
        bare,
        standing,
        why,
        marker,
        leadsTo,
        Optional.empty(),
        List.of(),
        true,
        placeWithheld);
  }

  /** The same without where it is now. */
  public RemovedGrave withoutPlace() {
    List<Removal> bare = new ArrayList<>();
    for (Removal row : rows) {
      bare.add(
          new Removal(
              row.number(),
              row.oldGround(),
              row.given(),
              row.surname(),
              row.died(),
              row.diedOn(),
              row.oldRow(),
              row.oldNumber(),
              "",
              "",
              row.moved(),
              row.movedOn(),
              row.stone(),
              ""));
    }
    return new RemovedGrave(
        place,
        bare,
        standing,
        "the place is withheld",
        Optional.empty(),
        List.of(),
        Optional.empty(),
        List.of(),
        nameWithheld,
        true);
  }

  /** The same with other persons on the stones. */
  public RemovedGrave with(Optional<Mention> otherFound, List<Linkage.Match> otherProposals) {
    return new RemovedGrave(
        place,
        rows,
        standing,
        why,
        marker,
        leadsTo,
        otherFound,
        otherProposals,
        nameWithheld,
        placeWithheld);
  }

  /** In a line, for people. */
  public String told() {
    StringBuilder told = new StringBuilder(called());
    part(told, "died ", row().died());
    part(told, "was at ", row().oldPlace());
    part(told, "moved ", row().moved());
    marker.ifPresent(m -> part(told, "marker ", m.number()));
    part(told, "", why);
    return told.toString();
  }

  private static void part(StringBuilder told, String before, String words) {
    if (!words.isEmpty()) {
      told.append(String.format(Locale.ROOT, ", %s%s", before, words));
    }
  }
}
