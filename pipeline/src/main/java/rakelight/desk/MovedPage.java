package rakelight.desk;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import rakelight.ground.removal.RemovalAccount;
import rakelight.ground.removal.RemovalFigure;
import rakelight.ground.removal.RemovedGrave;
import rakelight.person.Linkage;

/**
 * The accounts of older grounds, and the list behind one of their figures.
 *
 * @param day by which it is reckoned what may be told
 * @param chosen the account whose list is open
 * @param show the figure whose list is open
 * @param list the graves of that list on this page
 * @param settled by row of a grave, the decision that said who it is
 * @param mayDecide whether the reader may confirm and refuse
 * @param message what was done; may be empty
 * @param undo the decision that can be taken back; may be empty
 */
public record MovedPage(
    String day,
    List<RemovalAccount> accounts,
    Optional<RemovalAccount> chosen,
    RemovalFigure show,
    Paged<RemovedGrave> list,
    Map<String, String> settled,
    boolean mayDecide,
    String message,
    String undo) {
  public MovedPage {
    accounts = List.copyOf(accounts);
    settled = Map.copyOf(settled);
  }

  /** Whether this account's list is open. */
  public boolean isChosen(RemovalAccount account) {
    return chosen.filter(account::equals).isPresent();
  }

  /** The address of the list behind a figure. */
  public String address(RemovalAccount account, RemovalFigure figure) {
    return ListRoutes.address(account, figure.label()) + "#list";
  }

  /** The address of the open list. */
  public String back() {
    int page = 1 + list.from() / ListRoutes.GRAVES_ON_PAGE;
    return chosen
        .map(account -> ListRoutes.address(account, show.label()) + "&page=" + page)
        .orElse("/moved?");
  }

  /** Numbers of rows, for people. */
  public String rows(List<Integer> numbers) {
    return numbers.stream().map(String::valueOf).collect(Collectors.joining(", "));
  }

  /** What speaks for and against somebody, with its weight. */
  public String reasons(Linkage.Match match) {
    return match.reasons().stream().map(Linkage.Reason::words).collect(Collectors.joining("; "));
  }

  /** The decision by which people said who lies in a grave; empty where none did. */
  public String settledBy(RemovedGrave grave) {
    return grave.found().isEmpty() ? "" : settled.getOrDefault(grave.place(), "");
  }
}
