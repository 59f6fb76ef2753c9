package rakelight.index;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.apache.lucene.index.BinaryDocValues;
import org.apache.lucene.index.DocValues;
import org.apache.lucene.index.LeafReader;
import org.apache.lucene.index.LeafReaderContext;
import org.apache.lucene.index.NumericDocValues;
import org.apache.lucene.index.PostingsEnum;
import org.apache.lucene.index.Term;
import org.apache.lucene.search.DocIdSetIterator;
import org.apache.lucene.util.Bits;
import org.apache.lucene.util.BytesRef;
import org.apache.lucene.util.FixedBitSet;
import rakelight.names.NameForms;

/**
 * Finds the entries that answer best, and how likely each is the one asked for.
 *
 * <p>First ladder: for each word asked, patterns of the word and its forms are stepped along the
 * terms; each term that they accept is weighed once, and each entry sums the logarithms of its best
 * terms' odds against lacking the word. The best few hundred are then weighed exactly, person by
 * person. Where that leaves much to chance a second and a third ladder take one and two slips as
 * well. {@link #ofAll} weighs every entry exactly: slow, and the oracle.
 */
final class Ranking {
  /** So many who search look for somebody who is on none of the stones. A choice. */
  private static final double ABSENT = 0.05;

  /**
   * No further ladder is climbed where those that were found weigh so many times what one might
   * weigh that takes more slips.
   */
  private static final double OUTWEIGHS = 10;

  private static final int RESCORED = 300;

  /** Terms that raise an entry's odds by less are read only while few entries were found. */
  private static final float NEXT_TO_NOTHING = 0.01f;

  /** An entry that lacks a word asked for is left out where others answer so much better. */
  private static final double FAR_BELOW = 1e-4;

  private static final double LEAST_INITIALS = 0.3;
  private static final double LEAST_KIN = 0.05;
  private static final int BINS = 2048;

  /**
   * In a table of more terms than these, words of texts aren't looked for with a slip where several
   * are asked for.
   */
  static final int LARGE_TERMS = 100_000;

  /** Of so many documents the years are read one by one. */
  private static final int MANY_TO_READ = 300;

  /** To look at an entry's terms may make it so much likelier: e to this. A choice. */
  private static final double GAINED_BY_LOOKING = 6;

  /** One letter of so many may be misread where another word answers. */
  private static final int MOST_DIFFERENT = 2;

  /** The terms of so many of the likeliest entries are looked at. */
  private static final int LOOKED_AT = 2000;

  /**
   * An entry of the index.
   *
   * @param weight the probability that the query is typed by somebody who means it
   */
  record Candidate(int doc, double weight, long order) {}

  /**
   * Entries, the likeliest first.
   *
   * @param sum the weights of all that answer
   * @param absent the weight of none of them
   * @param said what terms were found to say
   */
  record Ranked(
      List<Candidate> best, int answering, double sum, double absent, Asked.Weights said) {
    double probability(Candidate candidate) {
      return candidate.weight() / (sum + absent);
    }

    /** Certain where there is no entry at all. */
    double elsewhere() {
      return sum == 0 ? 1 : absent / (sum + absent);
    }
  }

  /** A segment with its terms. */
  record Segment(
      LeafReaderContext context,
      TermTable names,
      TermTable texts,
      WhenLarge whenLarge,
      MetTerms.Lately lately) {}

  private final List<Segment> segments;
  private final Asked asked;
  private final Set<String> near;
  private final int most;
  private final int largeTerms;
  private final int entries;

  /**
   * @param near ids of the entries that a {@link Query.Near} names
   * @param most so many candidates at least are weighed
   */
  Ranking(List<Segment> segments, Asked asked, Set<String> near, int most) {
    this(segments, asked, near, most, LARGE_TERMS);
  }

  /**
   * @param largeTerms tables of more terms are searched otherwise
   */
  Ranking(List<Segment> segments, Asked asked, Set<String> near, int most, int largeTerms) {
    this.largeTerms = largeTerms;
    this.segments = segments;
    this.asked = asked;
    this.near = near;
    this.most = Math.max(RESCORED, most);
    int all = 0;
    for (Segment segment : segments) {
      all += segment.context().reader().numDocs();
    }
    this.entries = all;
  }

  Ranked ranked() throws IOException {
    int top = asked.terms().stream().mapToInt(each -> mostSlips(each)).max().orElse(0);
    top = asked.terms().size() > 1 ? Math.min(1, top) : top;
    List<Leaf> leaves = new ArrayList<>();
    for (Segment segment : segments) {
      leaves.add(new Leaf(segment));
    }
    // What can hardly be enough isn't tried first: one that fits in all weighs one at most.
    int slips = 0;
    while (slips < top && OUTWEIGHS * asked.shareBeyond(slips) > 1) {
      slips++;
    }
    Ranked ranked = ladder(leaves, slips++);
    for (; slips <= top && ranked.sum() < OUTWEIGHS * asked.shareBeyond(slips - 1); slips++) {
      ranked = ladder(leaves, slips);
    }
    return ranked;
  }

  private static int mostSlips(Asked.AskedTerm term) {
    return term.phrase() >= 0 ? 0 : term.word(true).mostSlips();
  }

  private double absent(double missed) {
    return (ABSENT / (1 - ABSENT) + missed) * entries * asked.byChance();
  }

  private Ranked ladder(List<Leaf> leaves, int slips) throws IOException {
    List<Candidate> all = new ArrayList<>();
    double rest = 0;
    int answering = 0;
    for (Leaf leaf : leaves) {
      leaf.candidates(slips, all);
      rest += leaf.rest;
      answering += leaf.answering;
    }
    // The wanted one may need more slips than were allowed.
    return best(all, answering, rest, absent(asked.shareBeyond(slips)), said(leaves));
  }

  /** The most that a term was found to say in any segment. */
  private Asked.Weights said(List<Leaf> leaves) {
    return (term, name) -> {
      float[] most = new float[asked.terms().size()];
      for (Leaf leaf : leaves) {
        float[] own = leaf.known(term, name);
        for (int j = 0; j < most.length; j++) {
          most[j] = Math.max(most[j], own[j]);
        }
      }
      return most;
    };
  }

  private Ranked best(
      List<Candidate> all, int answering, double rest, double absent, Asked.Weights said) {
    all.sort(
        Comparator.comparingDouble((Candidate each) -> -each.weight())
            .thenComparingLong(Candidate::order)
            .thenComparingInt(Candidate::doc));
    double sum = rest;
    for (Candidate each : all) {
      sum += each.weight();
    }
    double least = all.isEmpty() ? 0 : all.get(0).weight() * FAR_BELOW;
    List<Candidate> kept = new ArrayList<>();
    for (Candidate each : all) {
      if (each.weight() > 0 && each.weight() >= least) {
        kept.add(each);
      }
    }
    return new Ranked(kept, Math.max(answering, kept.size()), sum, absent, said);
  }

  /** Every entry weighed exactly, by every term it holds. */
  Ranked ofAll() throws IOException {
    List<Candidate> all = new ArrayList<>();
    Scored.Cursor cursor = new Scored.Cursor();
    Asked.Weights weights = asked.weights();
    for (Segment segment : segments) {
      LeafReaderContext leaf = segment.context();
      LeafReader reader = leaf.reader();
      BinaryDocValues scored = DocValues.getBinary(reader, Documents.SCORED);
      NumericDocValues order = DocValues.getNumeric(reader, Documents.ORDER);
      double[] filter = filter(reader);
      Bits live = reader.getLiveDocs();
      for (int doc = 0; doc < reader.maxDoc(); doc++) {
        boolean in = (live == null || live.get(doc)) && (filter.length == 0 || filter[doc] > 0);
        if (in && scored.advanceExact(doc) && order.advanceExact(doc)) {
          double weight =
              asked.given(cursor, scored.binaryValue(), weights)
                  * (filter.length == 0 ? 1 : filter[doc]);
          all.add(new Candidate(leaf.docBase + doc, weight, order.longValue()));
        }
      }
    }
    return best(all, all.size(), 0, absent(0), weights);
  }

  /** How well each document answers the parts that are no words; empty where there are none. */
  private double[] filter(LeafReader reader) throws IOException {
    double[] filter = new double[0];
    for (Query.Part part : asked.others()) {
      double[] own = new double[reader.maxDoc()];
      if (part instanceof Query.Fact fact) {
        if (fact.field().equals("kin")) {
          Arrays.fill(own, LEAST_KIN);
        }
        FixedBitSet every = new FixedBitSet(Math.max(1, reader.maxDoc()));
        every.set(0, reader.maxDoc());
        for (String word : fact.folded()) {
          FixedBitSet having = new FixedBitSet(Math.max(1, reader.maxDoc()));
          each(reader, Documents.FACT, fact.field() + ":" + word, having::set);
          every.and(having);
        }
        fill(own, every, 1);
      } else if (part instanceof Query.Initials initials) {
        each(reader, Documents.INITIALS, initials.folded(), doc -> own[doc] = LEAST_INITIALS);
        each(reader, Documents.INITIALS, "=" + initials.folded(), doc -> own[doc] = 1);
      } else if (part instanceof Query.Marker marker) {
        each(reader, Documents.MARKER, NameForms.fold(marker.number()), doc -> own[doc] = 1);
      } else if (part instanceof Query.Near) {
        for (String id : near) {
          each(reader, new Term(Documents.ID, Documents.id(id)), doc -> own[doc] = 1);
        }
      }
      if (filter.length == 0) {
        filter = own;
      } else {
        for (int doc = 0; doc < filter.length; doc++) {
          filter[doc] *= own[doc];
        }
      }
    }
    return filter;
  }

  private static void fill(double[] into, FixedBitSet docs, double weight) {
    for (int doc = docs.nextSetBit(0);
        doc != DocIdSetIterator.NO_MORE_DOCS;
        doc = doc + 1 < docs.length() ? docs.nextSetBit(doc + 1) : DocIdSetIterator.NO_MORE_DOCS) {
      into[doc] = weight;
    }
  }

  /** What is done with a document. */
  private interface Doing {
    void with(int doc);
  }

  private static void each(LeafReader reader, String field, String term, Doing doing)
      throws IOException {
    each(reader, new Term(field, term), doing);
  }

  private static void each(LeafReader reader, Term term, Doing doing) throws IOException {
    PostingsEnum postings = reader.postings(term, PostingsEnum.NONE);
    if (postings != null) {
      for (int doc = postings.nextDoc();
          doc != DocIdSetIterator.NO_MORE_DOCS;
          doc = postings.nextDoc()) {
        doing.with(doc);
      }
    }
  }

  /** One segment; what terms were met is kept from ladder to ladder. */
  private final class Leaf {
    private final LeafReaderContext context;
    private final LeafReader reader;
    private final TermTable[] tables;
    private final Bits live;
    private final double[] filter;
    private final boolean narrowed;
    private final float[] sums;
    private final int[] masks;
    private final MetTerms[][] met;
    private final int[][] climbed;
    private final MetTerms.Lately lately;
    private final float[] said;
    private final boolean large;
    private final WhenLarge whenLarge;
    private final MetTerms[] lookedAt;
    private int[] touched = new int[1024];
    private int touches;
    double rest;
    int answering;

    Leaf(Segment segment) throws IOException {
      this.context = segment.context();
      this.reader = context.reader();
      this.tables = new TermTable[] {segment.names(), segment.texts()};
      this.live = reader.getLiveDocs();
      this.filter = filter(reader);
      this.narrowed = Arrays.stream(filter).anyMatch(weight -> weight == 0);
      WeighingSpace scratch = WeighingSpace.of(reader.maxDoc());
      this.sums = scratch.sums();
      this.masks = scratch.masks();
      this.lately = segment.lately();
      this.met = new MetTerms[asked.terms().size()][tables.length];
      this.climbed = new int[met.length][tables.length];
      this.said = new float[met.length];
      this.large = segment.names().size() > largeTerms;
      this.whenLarge = segment.whenLarge();
      this.lookedAt = new MetTerms[met.length];
      Arrays.fill(lookedAt, MetTerms.NONE);
      for (int j = 0; j < met.length; j++) {
        Arrays.fill(met[j], MetTerms.NONE);
        Arrays.fill(climbed[j], -1);
      }
    }

    void candidates(int slips, List<Candidate> into) throws IOException {
      rest = 0;
      touches = 0;
      try {
        touch(slips);
        choose(into, slips > 0 && met.length > 1);
      } finally {
        for (int i = 0; i < touches; i++) {
          sums[touched[i]] = 0;
          masks[touched[i]] = 0;
        }
      }
    }

    private void touch(int slips) throws IOException {
      if (asked.terms().isEmpty()) {
        touchWithoutWords();
        return;
      }
      for (int j = 0; j < met.length; j++) {
        meet(j, 0, slips);
        meet(j, 1, slips);
      }
      for (boolean creating : new boolean[] {true, false}) {
        for (int j = 0; j < met.length; j++) {
          touch(j, 0, creating);
          touch(j, 1, creating);
        }
      }
    }

    /**
     * What says most comes first, so that each document keeps its best. A word of which nothing is
     * left makes no candidate by itself, unless the other parts of the query leave few to choose
     * from.
     */
    private void touch(int word, int field, boolean creating) {
      Asked.AskedTerm term = asked.terms().get(word);
      double factor = term.weight(field == 0) / term.missing();
      MetTerms terms = met[word][field];
      for (int i = 0; i < terms.size(); i++) {
        float odds = (float) Math.log1p(terms.given(i) * factor);
        if (odds < NEXT_TO_NOTHING && touches >= most) {
          return;
        }
        int number = terms.number(i);
        boolean letters = tables[field].hasLetters(number);
        if (letters == creating) {
          tables[field].docs(number, doc -> add(doc, word, odds, letters || narrowed));
        }
      }
    }

    private void add(int doc, int word, float odds, boolean creates) {
      int bit = 1 << Math.min(31, word);
      int mask = masks[doc];
      if ((mask & bit) != 0 || (mask == 0 && (!creates || !isIn(doc)))) {
        return;
      }
      if (mask == 0) {
        touched(doc);
      }
      masks[doc] = mask | bit;
      sums[doc] += odds;
    }

    private boolean isIn(int doc) {
      return (live == null || live.get(doc)) && (filter.length == 0 || filter[doc] > 0);
    }

    private void touched(int doc) {
      if (touches == touched.length) {
        touched = Arrays.copyOf(touched, touches * 2);
      }
      touched[touches++] = doc;
    }

    /** By what is known besides, or by years alone. */
    private void touchWithoutWords() throws IOException {
      if (filter.length > 0 || asked.yearParts().isEmpty()) {
        for (int doc = 0; doc < reader.maxDoc(); doc++) {
          if (isIn(doc)) {
            touched(doc);
          }
        }
        return;
      }
      FixedBitSet having = new FixedBitSet(Math.max(1, reader.maxDoc()));
      for (Query.Years years : asked.yearParts()) {
        for (int year : years.among()) {
          each(reader, Documents.YEAR, Documents.year(years.event(), year), having::set);
        }
      }
      for (int doc = 0; doc < reader.maxDoc(); doc++) {
        if (having.get(doc) && isIn(doc)) {
          touched(doc);
        }
      }
    }

    /** Climbs as far as this ladder goes. */
    private void meet(int word, int field, int slips) {
      boolean name = field == 0;
      AskedWord own = asked.terms().get(word).word(name);
      // Of several words those with more slips are looked for where the others are.
      int most = (name ? 2 : 1) - (met.length > 1 && (name || large) ? 1 : 0);
      int to = Math.min(slips, Math.min(most, Math.max(1, own.mostSlips())));
      int from = climbed[word][field];
      if (to == from) {
        return;
      }
      MetTerms before = met[word][field];
      TermTable table = tables[field];
      MetTerms now =
          lately.of(
              new MetTerms.Key(own.word(), own.widenings(), table, to),
              () -> MetTerms.of(own, table, before, from, to));
      met[word][field] = now;
      climbed[word][field] = to;
    }

    /** What was met of a term, by the words asked for; the same array each time. */
    private float[] known(BytesRef term, boolean name) {
      int field = name ? 0 : 1;
      int hash = TermTable.hash(term.bytes, term.offset, term.offset + term.length);
      for (int j = 0; j < met.length; j++) {
        said[j] = met[j][field].given(tables[field], term, hash);
        if (name && said[j] == 0) {
          said[j] = lookedAt[j].given(tables[0], term, hash);
        }
      }
      return said;
    }

    private void choose(List<Candidate> into, boolean looking) throws IOException {
      answering = touches;
      if (touches == 0) {
        return;
      }
      boolean byYear = !asked.years().isEmpty();
      double gain = byYear ? -Math.log(YearsAsked.LEAST) * asked.years().size() : 0;
      double least = leastWorthReading(gain + (looking ? GAINED_BY_LOOKING : 0));
      double missing = 1;
      for (Asked.AskedTerm term : asked.terms()) {
        missing *= term.missing();
      }
      int[] docs = new int[touches];
      int count = 0;
      double last = Double.NaN;
      double weightOfLast = 0;
      for (int i = 0; i < touches; i++) {
        double sum = sum(touched[i]);
        if (sum >= least) {
          docs[count++] = touched[i];
          continue;
        }
        if (sum != last) {
          // Many are alike.
          last = sum;
          weightOfLast = missing * Math.exp(sum) * (byYear ? YearsAsked.LEAST : 1);
        }
        rest += weightOfLast;
      }
      Arrays.sort(docs, 0, count);
      float[] logs = new float[count];
      for (int i = 0; i < count; i++) {
        logs[i] = (float) sum(docs[i]);
      }
      if (byYear) {
        addYears(docs, logs);
      }
      if (looking) {
        lookAt(docs, logs, count);
      }
      float cut = cut(logs, count, most);
      rescore(docs, logs, count, cut, missing, into);
    }

    private double sum(int doc) {
      return sums[doc] + (filter.length == 0 ? 0 : Math.log(filter[doc]));
    }

    private void addYears(int[] docs, float[] logs) throws IOException {
      if (logs.length > MANY_TO_READ) {
        YearsOfDocuments years = whenLarge.years();
        for (int i = 0; i < logs.length; i++) {
          logs[i] += (float) Math.log(years.answer(docs[i], asked.years()));
        }
        return;
      }
      BinaryDocValues scored = DocValues.getBinary(reader, Documents.SCORED);
      Scored.Cursor cursor = new Scored.Cursor();
      for (int i = 0; i < logs.length; i++) {
        if (scored.advanceExact(docs[i])) {
          cursor.begin(scored.binaryValue());
          logs[i] += (float) Math.log(cursor.years(asked.years()));
        }
      }
    }

    /** Below this no entry can come among the best, whatever its years say. */
    private double leastWorthReading(double yearsGain) {
      float[] all = new float[touches];
      for (int i = 0; i < touches; i++) {
        all[i] = sums[touched[i]];
      }
      return touches <= most
          ? Double.NEGATIVE_INFINITY
          : cut(all, touches, most) - yearsGain - 1e-3;
    }

    /** About the value of the last of the best; never above it. */
    private float cut(float[] values, int count, int most) {
      if (count <= most) {
        return Float.NEGATIVE_INFINITY;
      }
      float low = Float.MAX_VALUE;
      float high = -Float.MAX_VALUE;
      for (int i = 0; i < count; i++) {
        low = Math.min(low, values[i]);
        high = Math.max(high, values[i]);
      }
      if (high <= low) {
        return low;
      }
      int[] bins = new int[BINS];
      float scale = (BINS - 1) / (high - low);
      for (int i = 0; i < count; i++) {
        bins[(int) ((values[i] - low) * scale)]++;
      }
      int seen = 0;
      int bin = BINS;
      while (seen < most && bin > 0) {
        seen += bins[--bin];
      }
      return low + bin / scale - 1e-4f;
    }

    /** Looks for words that the likeliest documents lack among their own terms, with more slips. */
    private void lookAt(int[] docs, float[] logs, int count) {
      float cut = cut(logs, count, LOOKED_AT);
      TermsOfDocuments ofDocuments = whenLarge.terms();
      for (int j = 0; j < met.length; j++) {
        Asked.AskedTerm term = asked.terms().get(j);
        AskedWord word = term.word(true);
        if (term.phrase() >= 0 || word.mostSlips() < 1) {
          continue;
        }
        List<AskedWord.Form> forms = word.meant();
        SkeletonPattern[] patterns = new SkeletonPattern[forms.size()];
        SkeletonPattern.Passed[] passed = new SkeletonPattern.Passed[patterns.length];
        for (int f = 0; f < patterns.length; f++) {
          patterns[f] = SkeletonPattern.of(forms.get(f).text(), word.mostSlips());
          passed[f] = TermTable.begin(patterns[f]);
        }
        double factor = term.weight(true) / term.missing();
        Map<Integer, Float> found = new LinkedHashMap<>();
        for (int i = 0; i < count; i++) {
          if (logs[i] < cut || (masks[docs[i]] >> Math.min(31, j) & 1) == 1) {
            continue;
          }
          float most = 0;
          for (int at = ofDocuments.first(docs[i]); at < ofDocuments.end(docs[i]); at++) {
            int number = ofDocuments.term(at);
            boolean may = false;
            for (int f = 0; f < patterns.length && !may; f++) {
              int[] letters = forms.get(f).letters();
              may =
                  tables[0].accepts(patterns[f], passed[f], number)
                      || tables[0].different(number, letters) <= letters.length / MOST_DIFFERENT;
            }
            if (may) {
              most =
                  Math.max(
                      most,
                      found.computeIfAbsent(
                          number, own -> (float) word.given(tables[0].places(own))));
            }
          }
          logs[i] += (float) Math.log1p(most * factor);
        }
        int[] numbers = found.keySet().stream().mapToInt(Integer::intValue).toArray();
        float[] given = new float[numbers.length];
        for (int i = 0; i < given.length; i++) {
          given[i] = found.getOrDefault(numbers[i], 0f);
        }
        lookedAt[j] = MetTerms.of(tables[0], numbers, given);
      }
    }

    private void rescore(
        int[] docs, float[] logs, int count, float cut, double missing, List<Candidate> into)
        throws IOException {
      BinaryDocValues scored = DocValues.getBinary(reader, Documents.SCORED);
      NumericDocValues order = DocValues.getNumeric(reader, Documents.ORDER);
      int kept = 0;
      for (int i = 0; i < count; i++) {
        if (logs[i] >= cut) {
          docs[kept] = docs[i];
          logs[kept++] = logs[i];
        } else {
          rest += missing * Math.exp(logs[i]);
        }
      }
      boolean[] chosen = chosen(docs, logs, kept, order);
      NumericDocValues orders = DocValues.getNumeric(reader, Documents.ORDER);
      Scored.Cursor cursor = new Scored.Cursor();
      for (int i = 0; i < kept; i++) {
        if (!chosen[i]) {
          rest += missing * Math.exp(logs[i]);
        } else if (scored.advanceExact(docs[i]) && orders.advanceExact(docs[i])) {
          double weight =
              asked.given(cursor, scored.binaryValue(), this::known)
                  * (filter.length == 0 ? 1 : filter[docs[i]]);
          into.add(new Candidate(context.docBase + docs[i], weight, orders.longValue()));
        }
      }
    }

    /** Of many that are alike, those whose markers come first. */
    private boolean[] chosen(int[] docs, float[] logs, int count, NumericDocValues order)
        throws IOException {
      boolean[] chosen = new boolean[count];
      if (count <= most * 2) {
        Arrays.fill(chosen, true);
        return chosen;
      }
      long[] orders = new long[count];
      Integer[] by = new Integer[count];
      for (int i = 0; i < count; i++) {
        by[i] = i;
        orders[i] = order.advanceExact(docs[i]) ? order.longValue() : 0;
      }
      Arrays.sort(
          by,
          Comparator.comparingDouble((Integer i) -> -logs[i])
              .thenComparingLong(i -> orders[i])
              .thenComparingInt(i -> docs[i]));
      for (int i = 0; i < most; i++) {
        chosen[by[i]] = true;
      }
      return chosen;
    }
  }
}
