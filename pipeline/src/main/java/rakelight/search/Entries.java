package rakelight.search;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.MarkerId;
import rakelight.ground.Link;
import rakelight.ground.LinkStore;
import rakelight.index.Entry;
import rakelight.index.Entry.YearSpan;
import rakelight.index.Word;
import rakelight.inscription.Inscription;
import rakelight.inscription.Leiden;
import rakelight.inscription.Reading;
import rakelight.marker.MarkerStore;
import rakelight.person.Evidence;
import rakelight.photo.Face;

/** Makes entries for the index out of confirmed readings and links. */
final class Entries {
  private static final int MOST_INITIALS = 5;

  private final MarkerStore markers;
  private final LinkStore links;
  private final Evidence evidence;

  Entries(Archive archive) {
    this.markers = new MarkerStore(archive);
    this.links = new LinkStore(archive);
    this.evidence = new Evidence(archive);
  }

  Entry of(Face face, Reading reading) {
    Inscription inscription = reading.inscription();
    Words words = Words.of(inscription);
    Told told = new Told(inscription, words, evidence.of(reading));
    List<YearSpan> years = new ArrayList<>(CarvedYears.of(words.words()));
    years.addAll(told.yearsBesides(years));
    return new Entry(
        face.id().toString(),
        markers.numberOf(face.marker()),
        face.name(),
        Leiden.print(inscription),
        words.words(),
        told.names(),
        years,
        initials(words.words()),
        links(face.marker()));
  }

  /** The initials of a stone that bears nothing else but years. */
  private static List<String> initials(List<Word> words) {
    StringBuilder initials = new StringBuilder();
    for (Word word : words) {
      Optional<String> letter = likeliest(word).filter(text -> text.matches("\\p{L}"));
      boolean year =
          word.readings().keySet().stream().anyMatch(text -> text.matches("[0-9]{4}"))
              || word.patterns().stream().anyMatch(pattern -> pattern.text().startsWith("1"));
      if (letter.isPresent()) {
        initials.append(letter.get());
      } else if (!year) {
        return List.of();
      }
    }
    int letters = initials.codePointCount(0, initials.length());
    return letters >= 2 && letters <= MOST_INITIALS ? List.of(initials.toString()) : List.of();
  }

  private static Optional<String> likeliest(Word word) {
    return word.readings().entrySet().stream()
        .max(
            Map.Entry.<String, Double>comparingByValue()
                .thenComparing(Map.Entry.<String, Double>comparingByKey().reversed()))
        .map(Map.Entry::getKey);
  }

  private List<String> links(MarkerId marker) {
    List<String> texts = new ArrayList<>();
    for (Link link : links.ofMarker(marker)) {
      boolean leadsFrom = link.from().equals(marker);
      if (leadsFrom) {
        texts.add(
            link.kind().label()
                + " "
                + link.toMarker().map(markers::numberOf).or(link::toWords).orElse(""));
      } else {
        texts.add(
            "has as "
                + link.kind().label().replace(" of", "")
                + " "
                + markers.numberOf(link.from()));
      }
    }
    return texts;
  }
}
