package rakelight.index;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.apache.lucene.document.BinaryDocValuesField;
import org.apache.lucene.document.Document;
import org.apache.lucene.document.Field;
import org.apache.lucene.document.IntRange;
import org.apache.lucene.document.StringField;
import org.apache.lucene.index.IndexReader;
import org.apache.lucene.index.MultiTerms;
import org.apache.lucene.index.Term;
import org.apache.lucene.index.Terms;
import org.apache.lucene.index.TermsEnum;
import org.apache.lucene.search.AutomatonQuery;
import org.apache.lucene.search.BooleanClause;
import org.apache.lucene.search.BooleanQuery;
import org.apache.lucene.search.MatchAllDocsQuery;
import org.apache.lucene.search.TermInSetQuery;
import org.apache.lucene.util.BytesRef;
import org.apache.lucene.util.automaton.LevenshteinAutomata;
import rakelight.names.GivenNames;
import rakelight.names.NameForms;
import rakelight.names.SoundCodes;

/**
 * Entries as Lucene documents, and queries that find at least every document whose entry the {@link
 * Matcher} takes.
 *
 * <p>Fields: {@code id}; {@code word}, every reading of every word; {@code sound}, their Soundex
 * codes; {@code pattern}, each led by its first letter, or {@code ?} if that isn't sure; {@code
 * lost}, for words of which no letter is known; {@code years}; {@code initials}; {@code marker};
 * {@code entry}, stored.
 */
final class Documents {
  static final String ID = "id";
  static final String ENTRY = "entry";
  private static final String WORD = "word";
  private static final String SOUND = "sound";
  private static final String PATTERN = "pattern";
  private static final String LOST = "lost";
  private static final String YEARS = "years";
  private static final String INITIALS = "initials";
  private static final String MARKER = "marker";
  private static final String HAS_LINK = "link";
  private static final String YES = "1";

  /** The entries that answer on letters, and those that answer at least with what is lost. */
  private record Part(
      org.apache.lucene.search.Query onLetters, org.apache.lucene.search.Query atAll) {}

  private Documents() {}

  static Document document(Entry entry) {
    Document document = new Document();
    document.add(new StringField(ID, entry.id(), Field.Store.NO));
    document.add(new BinaryDocValuesField(ENTRY, new BytesRef(EntryCodec.encode(entry))));
    document.add(new StringField(MARKER, NameForms.fold(entry.marker()), Field.Store.NO));
    Set<String> words = new TreeSet<>();
    Set<String> sounds = new TreeSet<>();
    Set<String> patterns = new TreeSet<>();
    for (Word word : entry.words()) {
      for (String reading : word.readings().keySet()) {
        words.add(reading);
        if (Matcher.hasSound(reading)) {
          sounds.add(SoundCodes.soundex(reading));
        }
      }
      for (Pattern pattern : word.patterns()) {
        if (pattern.hasLetters()) {
          patterns.add(led(pattern));
        } else {
          document.add(new StringField(LOST, YES, Field.Store.NO));
        }
      }
    }
    add(document, WORD, words);
    add(document, SOUND, sounds);
    add(document, PATTERN, patterns);
    for (Entry.YearSpan year : entry.years()) {
      document.add(new IntRange(YEARS, new int[] {year.from()}, new int[] {year.to()}));
    }
    Set<String> initials = new TreeSet<>(entry.initials());
    for (Entry.NameSpan name : entry.names()) {
      initials.add(Matcher.initialsOf(entry.words().subList(name.first(), name.last() + 1)));
    }
    initials.remove("");
    add(document, INITIALS, initials);
    if (!entry.links().isEmpty()) {
      document.add(new StringField(HAS_LINK, YES, Field.Store.NO));
    }
    return document;
  }

  private static void add(Document document, String field, Set<String> terms) {
    for (String term : terms) {
      // Lucene takes no longer terms, and no carved word is as long.
      if (term.length() < 1000) {
        document.add(new StringField(field, term, Field.Store.NO));
      }
    }
  }

  private static String led(Pattern pattern) {
    int first = pattern.text().codePointAt(0);
    String lead =
        Character.isLetterOrDigit(first) || first == '&' ? Character.toString(first) : "?";
    return lead + " " + pattern.text();
  }

  static org.apache.lucene.search.Query candidates(Query query, IndexReader reader)
      throws IOException {
    BooleanQuery.Builder all = new BooleanQuery.Builder();
    BooleanQuery.Builder anyOnLetters = new BooleanQuery.Builder();
    for (Query.Part part : query.parts()) {
      Part candidates = part(part, reader);
      all.add(candidates.atAll(), BooleanClause.Occur.FILTER);
      anyOnLetters.add(candidates.onLetters(), BooleanClause.Occur.SHOULD);
    }
    all.add(anyOnLetters.build(), BooleanClause.Occur.FILTER);
    List<Query.Term> terms = query.plainTerms();
    if (terms.size() < 2) {
      return all.build();
    }
    BooleanQuery.Builder byInitials = new BooleanQuery.Builder();
    byInitials.add(initials(terms), BooleanClause.Occur.FILTER);
    for (Query.Part part : query.parts()) {
      if (!(part instanceof Query.Term)) {
        byInitials.add(part(part, reader).atAll(), BooleanClause.Occur.FILTER);
      }
    }
    return either(List.of(all.build(), byInitials.build()));
  }

  private static Part part(Query.Part part, IndexReader reader) throws IOException {
    if (part instanceof Query.Term term) {
      return term(term, reader);
    }
    if (part instanceof Query.Phrase phrase) {
      List<Part> parts = new ArrayList<>();
      for (String folded : phrase.folded()) {
        parts.add(asWritten(Set.of(folded), List.of(), reader));
      }
      return every(parts);
    }
    if (part instanceof Query.Name name) {
      List<Part> parts = new ArrayList<>();
      for (Query.Term term : name.terms()) {
        parts.add(term(term, reader));
      }
      Part every = every(parts);
      if (name.terms().size() < 2) {
        return every;
      }
      org.apache.lucene.search.Query initials = initials(name.terms());
      return new Part(
          either(List.of(every.onLetters(), initials)), either(List.of(every.atAll(), initials)));
    }
    org.apache.lucene.search.Query plain;
    if (part instanceof Query.Years years) {
      plain = IntRange.newIntersectsQuery(YEARS, new int[] {years.from()}, new int[] {years.to()});
    } else if (part instanceof Query.Initials initials) {
      plain = terms(INITIALS, Set.of(initials.folded()));
    } else if (part instanceof Query.Marker marker) {
      plain = terms(MARKER, Set.of(NameForms.fold(marker.number())));
    } else {
      plain = terms(HAS_LINK, Set.of(YES));
    }
    return new Part(plain, plain);
  }

  private static Part term(Query.Term term, IndexReader reader) throws IOException {
    String wanted = term.folded();
    Set<String> forms = new LinkedHashSet<>();
    forms.add(wanted);
    forms.addAll(GivenNames.known().abbreviationsOf(wanted));
    forms.addAll(GivenNames.known().nicknamesOf(wanted));
    List<org.apache.lucene.search.Query> alike = new ArrayList<>();
    int edits = Matcher.edits(wanted);
    if (edits > 0) {
      alike.add(
          new AutomatonQuery(
              new Term(WORD, wanted), new LevenshteinAutomata(wanted, true).toAutomaton(edits)));
    }
    if (Matcher.hasSound(wanted)) {
      alike.add(terms(SOUND, Set.of(SoundCodes.soundex(wanted))));
    }
    return asWritten(forms, alike, reader);
  }

  private static Part asWritten(
      Set<String> forms, List<org.apache.lucene.search.Query> alike, IndexReader reader)
      throws IOException {
    List<org.apache.lucene.search.Query> onLetters = new ArrayList<>(alike);
    onLetters.add(terms(WORD, forms));
    Set<String> patterns = patterns(forms, reader);
    if (!patterns.isEmpty()) {
      onLetters.add(terms(PATTERN, patterns));
    }
    List<org.apache.lucene.search.Query> atAll = new ArrayList<>(onLetters);
    atAll.add(terms(LOST, Set.of(YES)));
    return new Part(either(onLetters), either(atAll));
  }

  /**
   * The patterns in the index that some form fits: those with its first letter or an unsure one.
   */
  private static Set<String> patterns(Set<String> forms, IndexReader reader) throws IOException {
    Set<String> fitting = new TreeSet<>();
    Terms terms = MultiTerms.getTerms(reader, PATTERN);
    if (terms == null) {
      return fitting;
    }
    for (String form : forms) {
      for (String lead : List.of(Character.toString(form.codePointAt(0)), "?")) {
        TermsEnum each = terms.iterator();
        BytesRef start = new BytesRef(lead + " ");
        if (each.seekCeil(start) == TermsEnum.SeekStatus.END) {
          continue;
        }
        for (BytesRef term = each.term();
            term != null && org.apache.lucene.util.StringHelper.startsWith(term, start);
            term = each.next()) {
          String written = term.utf8ToString();
          if (new Pattern(written.substring(lead.length() + 1)).matches(form)) {
            fitting.add(written);
          }
        }
      }
    }
    return fitting;
  }

  private static Part every(List<Part> parts) {
    BooleanQuery.Builder every = new BooleanQuery.Builder();
    BooleanQuery.Builder onLetters = new BooleanQuery.Builder();
    for (Part part : parts) {
      every.add(part.atAll(), BooleanClause.Occur.FILTER);
      onLetters.add(part.onLetters(), BooleanClause.Occur.SHOULD);
    }
    every.add(new MatchAllDocsQuery(), BooleanClause.Occur.FILTER);
    BooleanQuery atAll = every.build();
    return new Part(
        new BooleanQuery.Builder()
            .add(atAll, BooleanClause.Occur.FILTER)
            .add(onLetters.build(), BooleanClause.Occur.FILTER)
            .build(),
        atAll);
  }

  private static org.apache.lucene.search.Query initials(List<Query.Term> terms) {
    StringBuilder initials = new StringBuilder();
    terms.forEach(term -> initials.appendCodePoint(term.folded().codePointAt(0)));
    return terms(INITIALS, Set.of(initials.toString()));
  }

  private static org.apache.lucene.search.Query either(
      List<org.apache.lucene.search.Query> queries) {
    BooleanQuery.Builder either = new BooleanQuery.Builder();
    queries.forEach(query -> either.add(query, BooleanClause.Occur.SHOULD));
    return either.build();
  }

  private static org.apache.lucene.search.Query terms(String field, Set<String> terms) {
    return new TermInSetQuery(field, terms.stream().map(BytesRef::new).toList());
  }
}
