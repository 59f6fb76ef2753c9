package rakelight.desk;

import java.util.List;

/**
 * Earlier lists of the ground's stones, in words for a page.
 *
 * @param message what went wrong; may be empty
 */
public record EarlierListsPage(
    List<OfSource> lists,
    List<Open> open,
    int openInAll,
    List<Differing> differing,
    int differingInAll,
    String message) {
  public EarlierListsPage {
    lists = List.copyOf(lists);
    open = List.copyOf(open);
    differing = List.copyOf(differing);
  }

  /**
   * A list.
   *
   * @param told how many of its rows have their stone
   */
  public record OfSource(String address, String title, String told) {}

  /** A row whose stone is in doubt or not found. */
  public record Open(String row, String called, String letters, List<Perhaps> perhaps) {
    public Open {
      perhaps = List.copyOf(perhaps);
    }
  }

  /** A stone it may speak of. */
  public record Perhaps(String number, String address, String reasons) {}

  /** A row whose letters aren't those of its stone. */
  public record Differing(
      String row, String number, String address, String face, String what, List<Piece> pieces) {
    public Differing {
      pieces = List.copyOf(pieces);
    }
  }

  /**
   * A word or so, the stone's letters above the list's.
   *
   * @param sort {@code differs}, {@code more} for letters that only the list has, or empty
   */
  public record Piece(String stone, String list, String sort) {}
}
