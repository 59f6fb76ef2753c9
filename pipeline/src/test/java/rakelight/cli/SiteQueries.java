package rakelight.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import rakelight.archive.MarkerId;
import rakelight.index.Entry;
import rakelight.index.IndexWriting;
import rakelight.index.QueryException;
import rakelight.index.SearchIndex;
import rakelight.index.SearchPieces;
import rakelight.marker.Description;
import rakelight.person.Person;
import rakelight.publish.Edition;
import rakelight.publish.ToldFace;
import rakelight.search.EntryMaking;

/**
 * Queries by names, halves of names, slips, years and words in a row, with what the program finds
 * first.
 */
final class SiteQueries {
  /** What a site's page finds first, as numbers of markers. */
  static final String FIRST_FIVE =
      "async (q) => (await Promise.all((await searchGround(q, 5)).best.slice(0, 5)"
          + ".map(hit => shownOf(hit.doc)))).map(shown => shown[1])";

  private SiteQueries() {}

  /**
   * What the program's own search core finds first in what an edition tells.
   *
   * @param index where its index may lie
   */
  static Map<String, List<String>> expected(Edition edition, Path index, int count, long seed)
      throws QueryException {
    Map<MarkerId, List<ToldFace>> faces = new LinkedHashMap<>();
    for (ToldFace face : edition.faces()) {
      faces.computeIfAbsent(face.says().marker().id(), id -> new ArrayList<>()).add(face);
    }
    List<Entry> entries = new ArrayList<>();
    for (List<ToldFace> own : faces.values()) {
      entries.add(
          EntryMaking.of(
              own.get(0).says().marker(),
              own.stream().map(ToldFace::says).toList(),
              Description.NONE,
              Map.of()));
    }
    try (IndexWriting writing = IndexWriting.open(index, true).orElseThrow()) {
      SearchPieces.inOrder(entries).forEach(writing::put);
      writing.commit(1);
    }
    Map<String, List<String>> expected = new LinkedHashMap<>();
    try (SearchIndex search = SearchIndex.open(index)) {
      for (String query : queries(edition.persons(), count, seed)) {
        expected.put(
            query,
            search.search(query, 5).hits().stream().map(hit -> hit.entry().marker()).toList());
      }
    }
    return expected;
  }

  private static Set<String> queries(List<Person> persons, int count, long seed) {
    Random random = new Random(seed);
    Set<String> queries = new LinkedHashSet<>();
    for (int i = 0; queries.size() < count; i++) {
      Person person = persons.get(random.nextInt(persons.size()));
      String[] name = person.called().toLowerCase(Locale.ROOT).replaceAll("[()]", "").split(" ");
      String given = name[0];
      String surname = name[name.length - 1];
      if (surname.length() < 3) {
        continue;
      }
      int at = random.nextInt(surname.length() - 1);
      String year = String.valueOf(1780 + random.nextInt(150));
      queries.add(
          switch (i % 9) {
            case 0 -> surname;
            case 1 -> given + " " + surname;
            case 2 -> surname.substring(0, at) + "?" + surname.substring(at + 1);
            case 3 -> surname.substring(0, at) + surname.substring(at + 1);
            case 4 -> given + " " + surname.substring(0, at) + "x" + surname.substring(at + 1);
            case 5 -> surname + " " + year;
            case 8 -> "\"" + person.called().toLowerCase(Locale.ROOT).replaceAll("[()]", "") + "\"";
            case 6 -> "name:" + surname + " died:" + year;
            default -> given.substring(0, 1) + " " + surname;
          });
    }
    return queries;
  }
}
