package rakelight.desk;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Function;

/**
 * One page of a long list.
 *
 * @param rows those of this page
 * @param from the first of them, from 1; 0 if there is none
 * @param of how many there are on all pages
 * @param before the address of the page before; empty on the first
 * @param after the address of the next; empty on the last
 */
public record Paged<T>(List<T> rows, int from, int of, String before, String after) {
  public Paged {
    rows = List.copyOf(rows);
  }

  /**
   * @param page from 1; one beyond the last is the last
   * @param path the list's address
   * @param query what else the address says
   */
  static <T> Paged<T> of(
      List<T> all, int page, int rowsOnPage, String path, Map<String, String> query) {
    int last = Math.max(1, (all.size() + rowsOnPage - 1) / rowsOnPage);
    int now = Math.min(page, last);
    int begin = (now - 1) * rowsOnPage;
    List<T> rows = all.subList(begin, Math.min(all.size(), begin + rowsOnPage));
    return new Paged<>(
        rows,
        rows.isEmpty() ? 0 : begin + 1,
        all.size(),
        now == 1 ? "" : address(path, query, now - 1),
        now == last ? "" : address(path, query, now + 1));
  }

  /** The number of a page as a request has it; the first, where it has none that makes sense. */
  static int page(Optional<String> given) {
    return given
        .filter(text -> text.matches("[0-9]{1,6}"))
        .map(Integer::parseInt)
        .filter(page -> page > 0)
        .orElse(1);
  }

  private static String address(String path, Map<String, String> query, int page) {
    Map<String, String> all = new TreeMap<>(query);
    all.put("page", Integer.toString(page));
    return Addresses.of(path, all);
  }

  /** The same page with something made of each row. */
  <R> Paged<R> map(Function<? super T, ? extends R> row) {
    return new Paged<>(rows.stream().<R>map(row).toList(), from, of, before, after);
  }

  /** The last of this page, from 1. */
  public int to() {
    return from == 0 ? 0 : from + rows.size() - 1;
  }

  /** Whether there is another page. */
  public boolean isParted() {
    return rows.size() < of;
  }
}
