package rakelight.search;

import java.io.IOException;
import java.io.PrintStream;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.apache.lucene.analysis.core.WhitespaceAnalyzer;
import org.apache.lucene.document.Document;
import org.apache.lucene.document.Field;
import org.apache.lucene.document.IntPoint;
import org.apache.lucene.document.StoredField;
import org.apache.lucene.document.TextField;
import org.apache.lucene.index.DirectoryReader;
import org.apache.lucene.index.IndexWriter;
import org.apache.lucene.index.IndexWriterConfig;
import org.apache.lucene.index.Term;
import org.apache.lucene.search.BooleanClause;
import org.apache.lucene.search.BooleanQuery;
import org.apache.lucene.search.FuzzyQuery;
import org.apache.lucene.search.IndexSearcher;
import org.apache.lucene.search.Query;
import org.apache.lucene.search.ScoreDoc;
import org.apache.lucene.search.TermQuery;
import org.apache.lucene.store.FSDirectory;
import rakelight.index.HitList;
import rakelight.index.Hit;
import rakelight.index.IndexWriting;
import rakelight.index.QueryException;
import rakelight.index.SearchIndex;
import rakelight.samples.burials.AllKnowing;
import rakelight.samples.burials.Asking;
import rakelight.samples.burials.Burial;
import rakelight.samples.burials.InventedBurials;

/**
 * How often a person is found from surname, given name and a year within five, among invented
 * burials; beside plain Lucene and SQLite. {@code RetrievalBenchmark FOLDER ENTRIES WORN ASKINGS
 * [PEERS]}: WORN is a list such as 0,10,20,30; PEERS false leaves the others out, ceiling reckons
 * what whoever knows all rules would find.
 */
public final class RetrievalBenchmark {
  private static final long SEED = 20_261_130;
  private static final int AT = 10;
  private static final int WARM_UP = 100;
  private static final int FIVE_YEARS = 5;

  private final PrintStream out;
  private final Path folder;
  private final int entries;
  private final int worn;
  private final int askings;
  private final InventedBurials burials;

  private RetrievalBenchmark(PrintStream out, Path folder, int entries, int worn, int askings) {
    this.out = out;
    this.folder = folder;
    this.entries = entries;
    this.worn = worn;
    this.askings = askings;
    this.burials = new InventedBurials(SEED, worn);
  }

  /** Prints a table. */
  public static void main(String[] args) throws IOException, SQLException, QueryException {
    PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
    Path folder = Path.of(args[0]);
    boolean peers = args.length < 5 || Boolean.parseBoolean(args[4]);
    out.println("| entries, worn, slip | who | recall at 10 | MRR | median ms | p99 ms | bytes an entry |");
    out.println("|---|---|---|---|---|---|---|");
    for (String worn : args[2].split(",", -1)) {
      RetrievalBenchmark benchmark =
          new RetrievalBenchmark(
              out,
              folder,
              Integer.parseInt(args[1]),
              Integer.parseInt(worn),
              Integer.parseInt(args[3]));
      if (args.length > 4 && args[4].equals("ceiling")) {
        benchmark.ceiling();
        continue;
      }
      benchmark.ours();
      if (peers) {
        benchmark.lucene();
        benchmark.sqlite();
      }
    }
  }

  /** What nobody can do better, since those that are missed can't be told apart. */
  private void ceiling() {
    for (boolean slip : new boolean[] {false, true}) {
      AllKnowing.Found found = new AllKnowing(burials).of(entries, askings, slip, AT);
      out.printf(
          Locale.ROOT,
          "| %,d, %d %%%s | whoever knows all rules | %.3f | %.3f | | | first: %.5f, given %.5f |%n",
          entries,
          worn,
          slip ? ", slip" : "",
          found.recall(),
          found.meanReciprocalRank(),
          found.first(),
          found.given());
    }
  }

  /** One of those that are asked. */
  private interface Searching {
    /** The numbers of the first ten. */
    List<Integer> first(Asking asking) throws IOException, SQLException, QueryException;
  }

  private void measure(String who, boolean slip, Searching searching, double bytes)
      throws IOException, SQLException, QueryException {
    for (int i = 0; i < Math.min(WARM_UP, askings); i++) {
      searching.first(burials.asking(1_000_000 + i, entries, slip));
    }
    var threads = ManagementFactory.getThreadMXBean();
    double[] millis = new double[askings];
    int found = 0;
    double reciprocal = 0;
    for (int i = 0; i < askings; i++) {
      Asking asking = burials.asking(i, entries, slip);
      long begin = threads.getCurrentThreadCpuTime();
      List<Integer> first = searching.first(asking);
      millis[i] = (threads.getCurrentThreadCpuTime() - begin) / 1e6;
      int place = first.indexOf(asking.wanted());
      found += place >= 0 ? 1 : 0;
      reciprocal += place >= 0 ? 1.0 / (place + 1) : 0;
    }
    Arrays.sort(millis);
    out.printf(
        Locale.ROOT,
        "| %,d, %d %%%s | %s | %.3f | %.3f | %.2f | %.2f | %.0f |%n",
        entries,
        worn,
        slip ? ", slip" : "",
        who,
        found / (double) askings,
        reciprocal / askings,
        millis[askings / 2],
        millis[(int) (askings * 0.99)],
        bytes);
  }

  private void ours() throws IOException, SQLException, QueryException {
    Path index = folder.resolve("ours-" + entries + "-" + worn);
    if (!Files.exists(index)) {
      try (IndexWriting writing = IndexWriting.open(index, true).orElseThrow()) {
        long begin = cpuTime();
        for (int i = 0; i < entries; i++) {
          writing.put(GeneratedGround.entry(burials, i));
        }
        writing.commit(1);
        System.err.printf(Locale.ROOT, "indexed in %.1f s%n", (cpuTime() - begin) / 1e9);
      }
    }
    double bytes = size(index) / (double) entries;
    try (SearchIndex search = SearchIndex.open(index)) {
      for (boolean slip : new boolean[] {false, true}) {
        measure(
            "Rakelight",
            slip,
            asking ->
                search.search(GeneratedGround.query(asking), AT).hits().stream()
                    .map(hit -> Integer.valueOf(hit.entry().marker()))
                    .toList(),
            bytes);
        calibration(search, slip);
      }
      measure(
          "Rakelight, surname and five years",
          false,
          asking ->
              search
                  .search(
                      "name:"
                          + asking.surname()
                          + " year:"
                          + asking.from()
                          + ".."
                          + (asking.from() + FIVE_YEARS - 1),
                      AT)
                  .hits()
                  .stream()
                  .map(hit -> Integer.valueOf(hit.entry().marker()))
                  .toList(),
          bytes);
    }
  }

  /** Of the hits that are given so much, how many are the person. */
  private void calibration(SearchIndex search, boolean slip) throws QueryException {
    int[] given = new int[10];
    int[] right = new int[10];
    double[] sum = new double[10];
    for (int i = 0; i < askings; i++) {
      Asking asking = burials.asking(i, entries, slip);
      HitList found = search.search(GeneratedGround.query(asking), AT);
      for (Hit hit : found.hits()) {
        int bin = (int) Math.min(9, hit.probability() * 10);
        given[bin]++;
        sum[bin] += hit.probability();
        right[bin] += hit.entry().marker().equals(Integer.toString(asking.wanted())) ? 1 : 0;
      }
    }
    StringBuilder line = new StringBuilder("calibration (given: right of so many)");
    for (int i = 0; i < 10; i++) {
      if (given[i] > 0) {
        line.append(
            String.format(
                Locale.ROOT,
                "; %.2f: %.2f of %d",
                sum[i] / given[i],
                right[i] / (double) given[i],
                given[i]));
      }
    }
    System.err.println(line);
  }

  private void lucene() throws IOException, SQLException, QueryException {
    Path index = folder.resolve("lucene-" + entries + "-" + worn);
    try (FSDirectory directory = FSDirectory.open(index)) {
      if (!DirectoryReader.indexExists(directory)) {
        try (IndexWriter writer =
            new IndexWriter(directory, new IndexWriterConfig(new WhitespaceAnalyzer()))) {
          long begin = cpuTime();
          for (int i = 0; i < entries; i++) {
            Burial burial = burials.burial(i);
            Document document = new Document();
            document.add(new TextField("text", GeneratedGround.plain(burial), Field.Store.YES));
            document.add(new StoredField("number", i));
            for (int year : years(burial)) {
              document.add(new IntPoint("year", year));
            }
            writer.addDocument(document);
          }
          writer.commit();
          System.err.printf(Locale.ROOT, "by Lucene in %.1f s%n", (cpuTime() - begin) / 1e9);
        }
      }
      double bytes = size(index) / (double) entries;
      try (DirectoryReader reader = DirectoryReader.open(directory)) {
        IndexSearcher searcher = new IndexSearcher(reader);
        for (boolean slip : new boolean[] {false, true}) {
          measure("FuzzyQuery", slip, asking -> first(searcher, asking, true), bytes);
          measure("exact", slip, asking -> first(searcher, asking, false), bytes);
        }
      }
    }
  }

  /** The years that can be read without doubt, with the likelier figure where two are possible. */
  private static List<Integer> years(Burial burial) {
    List<Integer> years = new ArrayList<>();
    for (String word : GeneratedGround.plain(burial).split(" ", -1)) {
      if (word.matches("1[0-9]{3}")) {
        years.add(Integer.valueOf(word));
      }
    }
    return years;
  }

  private static List<Integer> first(IndexSearcher searcher, Asking asking, boolean fuzzy)
      throws IOException {
    BooleanQuery.Builder query = new BooleanQuery.Builder();
    for (String word : List.of(asking.given(), asking.surname())) {
      Term term = new Term("text", word);
      Query one = fuzzy ? new FuzzyQuery(term) : new TermQuery(term);
      query.add(one, fuzzy ? BooleanClause.Occur.SHOULD : BooleanClause.Occur.MUST);
    }
    query.add(
        IntPoint.newRangeQuery("year", asking.from(), asking.to()), BooleanClause.Occur.SHOULD);
    List<Integer> first = new ArrayList<>();
    for (ScoreDoc hit : searcher.search(query.build(), AT).scoreDocs) {
      first.add(
          searcher.storedFields().document(hit.doc).getField("number").numericValue().intValue());
    }
    return first;
  }

  private void sqlite() throws IOException, SQLException, QueryException {
    Path file = folder.resolve("fts-" + entries + "-" + worn + ".sqlite");
    boolean fresh = !Files.exists(file);
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file)) {
      if (fresh) {
        try (Statement statement = connection.createStatement()) {
          statement.execute("CREATE VIRTUAL TABLE stones USING fts5(text, year UNINDEXED)");
        }
        connection.setAutoCommit(false);
        try (PreparedStatement insert =
            connection.prepareStatement("INSERT INTO stones(rowid, text, year) VALUES (?,?,?)")) {
          long begin = cpuTime();
          for (int i = 0; i < entries; i++) {
            Burial burial = burials.burial(i);
            List<Integer> years = years(burial);
            insert.setInt(1, i);
            insert.setString(2, GeneratedGround.plain(burial).replace('_', ' '));
            insert.setObject(3, years.isEmpty() ? null : years.get(0));
            insert.execute();
          }
        }
        connection.commit();
        connection.setAutoCommit(true);
      }
      double bytes = Files.size(file) / (double) entries;
      try (PreparedStatement select =
          connection.prepareStatement(
              "SELECT rowid FROM stones WHERE stones MATCH ? ORDER BY"
                  + " rank - 3 * (year BETWEEN ? AND ?) LIMIT "
                  + AT)) {
        for (boolean slip : new boolean[] {false, true}) {
          measure("SQLite FTS5", slip, asking -> first(select, asking), bytes);
        }
      }
    }
  }

  private static List<Integer> first(PreparedStatement select, Asking asking)
      throws SQLException {
    select.setString(1, "\"" + asking.given() + "\" AND \"" + asking.surname() + "\"");
    select.setInt(2, asking.from());
    select.setInt(3, asking.to());
    List<Integer> first = new ArrayList<>();
    try (ResultSet rows = select.executeQuery()) {
      while (rows.next()) {
        first.add(rows.getInt(1));
      }
    }
    return first;
  }

  /** Of all threads, in nanoseconds, since indexes are merged by threads of their own. */
  private static long cpuTime() {
    return ManagementFactory.getPlatformMXBean(com.sun.management.OperatingSystemMXBean.class)
        .getProcessCpuTime();
  }

  private static long size(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      return files
          .filter(Files::isRegularFile)
          .sorted(Comparator.naturalOrder())
          .mapToLong(file -> file.toFile().length())
          .sum();
    }
  }
}
