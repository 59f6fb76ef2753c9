package rakelight.publish.site;

import java.util.List;

/** What templates are given of pages. */
public final class Leaf {
  private Leaf() {}

  /**
   * A way to another page.
   *
   * @param href relative to the page it stands on
   * @param note what is said beside it; may be empty
   */
  public record Way(String href, String words, String note) {}

  /** The front page. */
  public record Front(
      int markers,
      int persons,
      int photographs,
      List<Card> cards,
      List<Way> ways,
      String withheld) {
    public Front {
      cards = List.copyOf(cards);
      ways = List.copyOf(ways);
    }
  }

  /**
   * A marker in a list.
   *
   * @param picture a small one; empty if there is none
   * @param called whom it names
   */
  public record Card(String href, String number, String picture, String called, String years) {}

  /**
   * A page of a list of markers.
   *
   * @param pages ways to the other pages; the one without href is this one
   */
  public record Cards(String title, String said, List<Card> cards, List<Way> pages) {
    public Cards {
      cards = List.copyOf(cards);
      pages = List.copyOf(pages);
    }
  }

  /**
   * One marker.
   *
   * @param manifest what viewers of pictures are given of it; empty if there is none
   */
  public record Stone(
      String number,
      List<String> earlier,
      List<Face> faces,
      List<String> described,
      List<Said> emblems,
      List<Somebody> persons,
      List<Way> links,
      List<Asked> questions,
      String where,
      Way family,
      String cited,
      Correcting correcting,
      String manifest,
      Way before,
      Way after) {
    public Stone {
      earlier = List.copyOf(earlier);
      faces = List.copyOf(faces);
      described = List.copyOf(described);
      emblems = List.copyOf(emblems);
      persons = List.copyOf(persons);
      links = List.copyOf(links);
      questions = List.copyOf(questions);
    }
  }

  /** How somebody sends a correction: a mail, or a form to print. */
  public record Correcting(String mailto, String mail, String form) {}

  /**
   * A face.
   *
   * @param id within the page
   * @param hero its leading photograph; empty address if none is told
   * @param others further photographs
   * @param withheld why something of it isn't told; may be empty
   * @param read who read it, when and from what
   * @param doubts letters that aren't sure, in words
   * @param leiden as epigraphists write it, line by line
   * @param told what it asserts
   */
  public record Face(
      String id,
      String name,
      Hero hero,
      List<Shot> others,
      List<List<Sign>> lines,
      String withheld,
      String read,
      String sureness,
      List<String> doubts,
      List<String> leiden,
      List<String> told) {
    public Face {
      others = List.copyOf(others);
      lines = lines.stream().map(List::copyOf).toList();
      doubts = List.copyOf(doubts);
      leiden = List.copyOf(leiden);
      told = List.copyOf(told);
    }
  }

  /**
   * The leading photograph with the letters that were read on it.
   *
   * @param picture its address; empty for none
   * @param relief that of the relief image; empty for none
   */
  public record Hero(
      String picture,
      int widthPx,
      int heightPx,
      String alt,
      String credit,
      List<Box> letters,
      String relief,
      int reliefWidthPx,
      int reliefHeightPx,
      List<Box> onRelief) {
    static final Hero NONE = new Hero("", 0, 0, "", "", List.of(), "", 0, 0, List.of());

    public Hero {
      letters = List.copyOf(letters);
      onRelief = List.copyOf(onRelief);
    }
  }

  /**
   * A letter on a picture.
   *
   * @param corners as SVG has them
   * @param x where the letter stands, and {@code y}
   * @param size of its type
   */
  public record Box(String how, String text, String corners, int x, int y, int size) {}

  /** Another photograph. */
  public record Shot(String picture, int widthPx, int heightPx, String alt, String credit) {}

  /**
   * A letter or gap of a reading.
   *
   * @param how class of the element: clear, unclear, lost, ...
   * @param words what it is, where it isn't clear; else empty
   */
  public record Sign(String text, String how, String words, boolean spaceBefore) {}

  /** An emblem with what is said of it. */
  public record Said(String name, String seen, String meaning, String strength, Way entry) {}

  /**
   * Somebody named.
   *
   * @param id within the page
   * @param life born, died, aged
   * @param kin whose wife, son, ...
   * @param at where he is named
   */
  public record Somebody(
      String id, Way called, String life, List<String> kin, List<Way> at, boolean isKinOnly) {
    public Somebody {
      kin = List.copyOf(kin);
      at = List.copyOf(at);
    }
  }

  /** A page of persons. */
  public record People(String title, List<Way> pages, List<Somebody> persons) {
    public People {
      pages = List.copyOf(pages);
      persons = List.copyOf(persons);
    }
  }

  /** A question with what was tried. */
  public record Asked(String label, String text, boolean open, List<String> steps, Way marker) {
    public Asked {
      steps = List.copyOf(steps);
    }
  }

  /** A list of ways. */
  public record Ways(String title, String said, List<Way> ways) {
    public Ways {
      ways = List.copyOf(ways);
    }
  }

  /**
   * A family.
   *
   * @param boxes its tree; none where no stone tells who is whose
   */
  public record Family(
      String name,
      boolean isNamed,
      List<Way> stones,
      List<Way> footstones,
      List<Somebody> persons,
      List<String> reasons,
      int widePx,
      int highPx,
      List<TreeBox> boxes,
      List<TreeLine> lines,
      List<String> ties) {
    public Family {
      stones = List.copyOf(stones);
      footstones = List.copyOf(footstones);
      persons = List.copyOf(persons);
      reasons = List.copyOf(reasons);
      boxes = List.copyOf(boxes);
      lines = List.copyOf(lines);
      ties = List.copyOf(ties);
    }
  }

  /** A box of a tree. */
  public record TreeBox(String x, String y, String name, String years) {}

  /** A line of a tree. */
  public record TreeLine(String d, String words, String x, String y) {}

  /** The plan: the drawing and the markers by row. */
  public record Plan(String svg, int unplaced, List<Row> rows) {
    public Plan {
      rows = List.copyOf(rows);
    }
  }

  /** A row of the ground, or a plot. */
  public record Row(String name, List<Way> markers) {
    public Row {
      markers = List.copyOf(markers);
    }
  }

  /** A walk with its stops. */
  public record Walking(String name, String summary, List<Stop> stops) {
    public Walking {
      stops = List.copyOf(stops);
    }
  }

  /** A stop of a walk. */
  public record Stop(
      Way marker, String picture, String metres, boolean isPlaced, String note, String called) {}

  /** An emblem of the glossary, and where it is here. */
  public record Glossed(
      String id,
      String name,
      String seen,
      String readings,
      String strength,
      String source,
      String mistakenFor,
      String neverProves,
      List<Way> markers) {
    public Glossed {
      markers = List.copyOf(markers);
    }
  }

  /**
   * The page that says how to read the site.
   *
   * @param manifests the address of what viewers of pictures are given; empty if there is none
   */
  public record About(
      String cited,
      Correcting correcting,
      List<String> leftOut,
      int faces,
      String publisher,
      String machine,
      String manifests) {
    public About {
      leftOut = List.copyOf(leftOut);
    }
  }

  /** The glossary of emblems. */
  public record Emblems(String said, List<Glossed> glossary) {
    public Emblems {
      glossary = List.copyOf(glossary);
    }
  }

  /** All questions. */
  public record Questions(List<Asked> asked) {
    public Questions {
      asked = List.copyOf(asked);
    }
  }
}
