package rakelight.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.archive.Ground;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.inscription.ReadingFile;
import rakelight.person.Mention;
import rakelight.person.People;
import rakelight.person.PersonStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.reading.GivenProposal;
import rakelight.work.FileWork;
import rakelight.work.NamedReader;
import rakelight.work.ReaderStore;

/**
 * An invented ground of any size, for measuring: readings confirmed as {@code confirm} does, and
 * proposals written down by hand, without a photograph. Surnames are few and uneven as in a parish
 * (weights 1/rank), made from syllables; nobody of them ever lived.
 *
 * <p>Of ten markers seven are read and three wait with a proposal. Of those read one in ten is a
 * footstone with initials and a year, one in ten has a second face, a third names two persons, one
 * date in twelve has lost a figure. For one marker in fifty somebody has said that two mentions are
 * of one person.
 */
final class LargeGround {
  static final String READER = "Ada Penrose";
  private static final int CHUNK = 1000;
  private static final String[] HEADS = {
    "Wren", "Ash", "Thorn", "Fen", "Hal", "Bram", "Cod", "Quil", "Sal", "Pen", "Lid", "Gar", "Mos",
    "Had"
  };
  private static final String[] TAILS = {
    "ford", "ley", "ton", "by", "wick", "side", "gate", "more", "den", "row"
  };
  private static final String[] MEN = {
    "John", "William", "Thomas", "George", "James", "Robert", "Henry", "Joseph", "Samuel", "Edward",
    "Richard", "Charles", "Abel", "Amos", "Josiah", "Silas", "Hugh", "Nathan"
  };
  private static final String[] WOMEN = {
    "Mary",
    "Elizabeth",
    "Ann",
    "Sarah",
    "Jane",
    "Hannah",
    "Margaret",
    "Martha",
    "Ellen",
    "Alice",
    "Ruth",
    "Susan",
    "Charlotte",
    "Harriet",
    "Lucy",
    "Rachel",
    "Emma",
    "Esther"
  };
  private static final String[] MONTHS = {
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December"
  };

  private final Random random;
  private final List<String> surnames = new ArrayList<>();

  private LargeGround(long seed) {
    random = new Random(seed);
    for (String tail : TAILS) {
      for (String head : HEADS) {
        surnames.add(head + tail);
      }
    }
  }

  /** Makes the archive. */
  static void make(Path folder, int markers, long seed) throws IOException {
    LargeGround ground = new LargeGround(seed);
    try (Archive archive =
        Archive.init(
            folder,
            new Ground("Thornbeck", 54.1, -3.2, ZoneId.of("Europe/London")),
            Projections.all())) {
      ground.fill(archive, markers);
    }
  }

  private void fill(Archive archive, int markers) throws IOException {
    FileWork confirming = new FileWork(archive);
    NamedReader reader = new ReaderStore(archive).atTheTerminal(READER);
    Basis basis =
        new Basis(
            Basis.Kind.STONE,
            Optional.of(LocalDate.of(2026, 5, 2)),
            Optional.empty(),
            Optional.empty());
    List<ReadingFile.Entry> entries = new ArrayList<>();
    List<String> unread = new ArrayList<>();
    for (int marker = 1; marker <= markers; marker++) {
      String number = String.valueOf(marker);
      if (marker % 10 >= 7) {
        unread.add(number);
        continue;
      }
      String surname = surname();
      boolean footstone = marker % 10 == 3;
      entries.add(entry(number, Face.FRONT, footstone ? footstone(surname) : stone(surname)));
      if (marker % 10 == 5) {
        entries.add(entry(number, "back", "Also\n" + child(surname)));
      }
    }
    for (int from = 0; from < entries.size(); from += CHUNK) {
      confirming.confirm(
          new ReadingFile(entries.subList(from, Math.min(entries.size(), from + CHUNK))),
          basis,
          reader);
    }
    PhotoStore photographs = new PhotoStore(archive);
    List<FaceId> faces =
        archive
            .ledger()
            .write(
                handle ->
                    unread.stream()
                        .map(number -> photographs.faceOf(number, Face.FRONT, READER).id())
                        .toList());
    for (FaceId face : faces) {
      GivenProposal.of(archive, face, proposal(surname()));
    }
    PersonStore persons = new PersonStore(archive);
    List<Mention> mentions = People.of(archive).mentions();
    for (int i = 0; i < markers / 50; i++) {
      Mention one = mentions.get(random.nextInt(mentions.size()));
      Mention other = mentions.get(random.nextInt(mentions.size()));
      if (!one.id().equals(other.id())) {
        persons.same(one, other, "", READER);
      }
    }
  }

  private static ReadingFile.Entry entry(String marker, String face, String text) {
    try {
      return new ReadingFile.Entry(marker, face, Leiden.parse(text), Optional.empty());
    } catch (LeidenException e) {
      throw new IllegalArgumentException(text, e);
    }
  }

  private String stone(String surname) {
    boolean man = random.nextBoolean();
    String given = given(man);
    int died = 1780 + random.nextInt(150);
    StringBuilder text = new StringBuilder("IN MEMORY OF\n");
    text.append((given + " " + surname).toUpperCase(Locale.ROOT)).append('\n');
    text.append("who died ").append(day()).append(' ').append(year(died)).append('\n');
    text.append("aged ").append(20 + random.nextInt(70)).append(" years");
    if (random.nextInt(3) == 0) {
      text.append("\nAlso ").append(given(!man).toUpperCase(Locale.ROOT));
      text.append(man ? "\nhis wife" : "\nher husband");
      text.append("\nwho died ").append(day()).append(' ').append(year(died + random.nextInt(20)));
    }
    return text.toString();
  }

  private String child(String surname) {
    return given(random.nextBoolean()).toUpperCase(Locale.ROOT)
        + "\nchild of "
        + given(true)
        + " & "
        + given(false)
        + " "
        + surname
        + "\ndied "
        + day()
        + " "
        + year(1780 + random.nextInt(150));
  }

  private String footstone(String surname) {
    return given(random.nextBoolean()).charAt(0)
        + ". "
        + surname.charAt(0)
        + ".\n"
        + (1780 + random.nextInt(150));
  }

  private String[] proposal(String surname) {
    String year = "18" + random.nextInt(10) + "(350840)";
    return new String[] {
      "IN MEMORY OF",
      given(random.nextBoolean()).toUpperCase(Locale.ROOT)
          + " (R60K30)"
          + surname.substring(1).toUpperCase(Locale.ROOT),
      "died " + day() + " " + year
    };
  }

  private String day() {
    return (1 + random.nextInt(28)) + " " + MONTHS[random.nextInt(12)];
  }

  private String year(int year) {
    String figures = String.valueOf(year);
    return random.nextInt(12) == 0 ? figures.substring(0, 3) + "[.]" : figures;
  }

  private String given(boolean man) {
    return skewed(List.of(man ? MEN : WOMEN));
  }

  private String surname() {
    return skewed(surnames);
  }

  /** One of them, the first ones oftener: weights 1/rank. */
  private String skewed(List<String> words) {
    double whole = 0;
    for (int rank = 1; rank <= words.size(); rank++) {
      whole += 1.0 / rank;
    }
    double left = random.nextDouble() * whole;
    for (int rank = 1; rank < words.size(); rank++) {
      left -= 1.0 / rank;
      if (left < 0) {
        return words.get(rank - 1);
      }
    }
    return words.get(words.size() - 1);
  }
}
