package rakelight.publish.site;

import com.fasterxml.jackson.databind.node.ArrayNode;
import java.io.IOException;
import java.io.InputStream;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import rakelight.archive.Json;
import rakelight.archive.MarkerId;
import rakelight.archive.PhotographId;
import rakelight.ground.FamilyGroup;
import rakelight.ground.FamilyTree;
import rakelight.ground.GroundPlan;
import rakelight.ground.Link;
import rakelight.ground.PlanFiles;
import rakelight.ground.RowPlace;
import rakelight.ground.Spot;
import rakelight.ground.Walk;
import rakelight.index.Entry;
import rakelight.index.SearchPieces;
import rakelight.inscription.Reading;
import rakelight.marker.EmblemNote;
import rakelight.marker.GlossaryEmblem;
import rakelight.marker.Marker;
import rakelight.names.NameForms;
import rakelight.person.Mention;
import rakelight.person.MentionId;
import rakelight.person.Person;
import rakelight.person.Question;
import rakelight.person.Statement.Kind;
import rakelight.publish.Edition;
import rakelight.publish.LetterPlaces;
import rakelight.publish.ReadFrom;
import rakelight.publish.ToldFace;
import rakelight.publish.ToldGround;
import rakelight.publish.ToldMarker;
import rakelight.publish.Why;
import rakelight.publish.iiif.Manifests;
import rakelight.publish.iiif.PictureFile;
import rakelight.search.EntryMaking;

/**
 * Writes an edition as a web site: plain files that any web space, a stick or a disk shows. A page
 * is written as soon as it is made, so that memory holds the edition and one page.
 */
public final class SiteExport {
  private static final List<String> ASSETS = List.of("site.css", "search.js", "icon.svg");
  private static final int CARDS_A_PAGE = 200;
  private static final int PERSONS_A_PAGE = 300;
  private static final int ON_FRONT = 10;

  private final Edition edition;
  private final SiteWish wish;
  private final Rendering rendering;
  private final LetterPlaces letters;
  private final LinkedData linked;
  private final Map<MarkerId, List<ToldFace>> faces = new LinkedHashMap<>();
  private final Map<MarkerId, String> pages = new HashMap<>();
  private final List<Person> persons;
  private final Map<UUID, String> personAt = new HashMap<>();
  private final Map<MarkerId, List<Person>> named = new HashMap<>();
  private final Map<MentionId, Person> byMention = new HashMap<>();
  private final Map<MarkerId, List<Link>> links = new HashMap<>();
  private final GroundPlan plan;
  private final Map<MarkerId, GroundPlan.Placed> placedAt = new HashMap<>();
  private final Map<MarkerId, String> familyAt = new HashMap<>();
  private final List<Edition.ToldWalk> walks;
  private final Map<MarkerId, ToldMarker> noted;
  private final List<Question> questions;
  private final Map<MarkerId, String> small = new HashMap<>();

  /**
   * What was written.
   *
   * @param leftOut how much isn't told, by why in words
   */
  public record Written(
      Path folder,
      int markers,
      int persons,
      int photographs,
      int files,
      long sizeBytes,
      Map<String, Integer> leftOut) {
    public Written {
      leftOut = java.util.Collections.unmodifiableMap(new TreeMap<>(leftOut));
    }
  }

  /**
   * @param letters where letters stand, for viewers of pictures
   */
  public SiteExport(Edition edition, SiteWish wish, Rendering rendering, LetterPlaces letters) {
    this.edition = edition;
    this.wish = wish;
    this.rendering = rendering;
    this.letters = letters;
    this.linked = new LinkedData(edition.ground(), wish);
    for (ToldFace face : edition.faces()) {
      faces.computeIfAbsent(face.says().marker().id(), id -> new ArrayList<>()).add(face);
    }
    Set<String> used = new HashSet<>();
    faces.forEach((id, own) -> pages.put(id, page(own.get(0).says().marker(), used)));
    persons =
        edition.persons().stream()
            .sorted(
                Comparator.comparing((Person p) -> SiteWords.letter(p).equals("–"))
                    .thenComparing(p -> NameForms.fold(SiteWords.surname(p)))
                    .thenComparing(p -> NameForms.fold(SiteWords.given(p)))
                    .thenComparing(p -> String.join(" ", p.values(Kind.DEATH)))
                    .thenComparing(Person::id))
            .toList();
    for (Person person : persons) {
      Set<MarkerId> on = new LinkedHashSet<>();
      for (Mention mention : person.mentions()) {
        byMention.put(mention.id(), person);
        on.add(mention.source().marker().id());
      }
      on.forEach(id -> named.computeIfAbsent(id, m -> new ArrayList<>()).add(person));
    }
    for (Link link : edition.links()) {
      links.computeIfAbsent(link.from(), id -> new ArrayList<>()).add(link);
    }
    plan = edition.plan();
    plan.markers().forEach(placed -> placedAt.put(placed.marker().id(), placed));
    walks = edition.walks();
    ToldGround around = edition.around();
    noted = around.byId();
    questions = around.questions();
  }

  /** A marker that has a page, beside what its faces say. */
  private ToldMarker told(Marker marker) {
    return Objects.requireNonNull(noted.get(marker.id()));
  }

  /** A file name that no other marker of the site has, on file systems blind to case too. */
  private static String page(Marker marker, Set<String> used) {
    String plain = marker.number().replaceAll("[^\\p{L}\\p{N}_-]", "-");
    String ascii = plain.replaceAll("[^A-Za-z0-9_-]", "-");
    String name = ascii;
    for (int i = 2; !used.add(name.toLowerCase(Locale.ROOT)); i++) {
      name = ascii + "-" + i;
    }
    return "markers/" + name + ".html";
  }

  /**
   * Writes the site in place of what the folder holds.
   *
   * @throws rakelight.archive.ArchiveException if it holds anything else than an earlier site
   */
  public Written write(Path to) throws IOException {
    try (SiteFolder folder = SiteFolder.begin(to)) {
      folder.text(
          SiteFolder.OURS,
          out ->
              out.write(
                  Json.mapper()
                          .createObjectNode()
                          .put("schema", 1)
                          .put("site", edition.ground())
                          .put("asOf", wish.day().toString())
                          .toPrettyString()
                      + "\n"));
      FaceLeaves leaves = new FaceLeaves(edition, folder);
      for (String asset : ASSETS) {
        try (InputStream in =
            Objects.requireNonNull(SiteExport.class.getResourceAsStream(asset), asset)) {
          byte[] bytes = in.readAllBytes();
          folder.bytes(
              "assets/" + asset,
              asset.endsWith(".js")
                  ? ShortScript.of(new String(bytes, StandardCharsets.UTF_8))
                      .getBytes(StandardCharsets.UTF_8)
                  : bytes);
        }
      }
      places();
      for (Map.Entry<MarkerId, List<ToldFace>> one : faces.entrySet()) {
        for (ToldFace face : one.getValue()) {
          String picture = leaves.small(face);
          if (!picture.isEmpty()) {
            small.put(one.getKey(), picture);
            break;
          }
        }
      }
      markers(folder, leaves);
      markerLists(folder);
      personLists(folder);
      families(folder);
      plan(folder);
      walks(folder);
      emblems(folder);
      questions(folder);
      Map<String, Integer> leftOut = leftOut();
      about(folder, leftOut);
      search(folder);
      front(folder, leftOut);
      sitemap(folder);
      forViewers(folder, leaves);
      folder.finish();
      return new Written(
          to.toAbsolutePath().normalize(),
          faces.size(),
          persons.size(),
          photographs(),
          folder.files(),
          folder.sizeBytes(),
          leftOut);
    }
  }

  private int photographs() {
    return small.size();
  }

  /** Where persons and families are told of. */
  private void places() {
    Map<String, List<Person>> byLetter = byLetter();
    byLetter.forEach(
        (letter, own) -> {
          for (int i = 0; i < own.size(); i++) {
            personAt.put(own.get(i).id(), personPage(letter, i / PERSONS_A_PAGE) + "#p" + (i + 1));
          }
        });
    int number = 0;
    for (FamilyGroup family : plan.families()) {
      String at = "families/" + ++number + ".html";
      family.stones().forEach(marker -> familyAt.put(marker.id(), at));
      family.footstones().forEach(marker -> familyAt.put(marker.id(), at));
    }
  }

  private Map<String, List<Person>> byLetter() {
    Map<String, List<Person>> byLetter = new LinkedHashMap<>();
    for (Person person : persons) {
      byLetter.computeIfAbsent(SiteWords.letter(person), l -> new ArrayList<>()).add(person);
    }
    return byLetter;
  }

  private static String personPage(String letter, int number) {
    String name = letter.equals("–") ? "none" : letter.toLowerCase(Locale.ROOT);
    return "persons/" + name + (number == 0 ? "" : "-" + (number + 1)) + ".html";
  }

  // The pages

  private void page(
      SiteFolder folder,
      String path,
      String template,
      String title,
      String said,
      String type,
      Optional<String> creator,
      String linkedData,
      Object leaf)
      throws IOException {
    String root = path.contains("/") ? "../" : "";
    SiteFrame frame =
        new SiteFrame(
            edition.ground(),
            title,
            said,
            root,
            wish.day().toString(),
            wish.absolute(path).orElse(""),
            linked.elements(path, title, said, type, creator),
            linkedData,
            hasPlan(),
            !plan.families().isEmpty(),
            !walks.isEmpty(),
            !questions.isEmpty());
    folder.text(
        path,
        out -> rendering.render("site/site" + template, Map.of("frame", frame, "leaf", leaf), out));
  }

  private void list(
      SiteFolder folder, String path, String template, String title, String said, Object leaf)
      throws IOException {
    page(
        folder,
        path,
        template,
        title,
        said,
        "Collection",
        Optional.empty(),
        linked.collection(path, title, said),
        leaf);
  }

  private boolean hasPlan() {
    return !plan.markers().isEmpty();
  }

  private void markers(SiteFolder folder, FaceLeaves leaves) throws IOException {
    List<MarkerId> all = List.copyOf(faces.keySet());
    for (int i = 0; i < all.size(); i++) {
      MarkerId id = all.get(i);
      List<ToldFace> own = faces.getOrDefault(id, List.of());
      Marker marker = own.get(0).says().marker();
      List<Leaf.Face> shown = new ArrayList<>();
      for (ToldFace face : own) {
        shown.add(leaves.of(face, "face-" + (shown.size() + 1), "../"));
      }
      String path = pageOf(id);
      String title = "Marker " + marker.number();
      List<Person> who = named.getOrDefault(id, List.of());
      page(
          folder,
          path,
          "marker",
          title,
          said(who),
          "PhysicalObject",
          own.get(0).says().reading().map(Reading::reader),
          linked.marker(path, marker.number(), own, shown, who),
          stone(
              marker,
              own,
              shown,
              who,
              i == 0 ? NOWHERE : neighbour(all.get(i - 1)),
              i + 1 == all.size() ? NOWHERE : neighbour(all.get(i + 1))));
    }
  }

  private static final Leaf.Way NOWHERE = new Leaf.Way("", "", "");

  private String pageOf(MarkerId id) {
    return pages.getOrDefault(id, "");
  }

  private Leaf.Way neighbour(MarkerId id) {
    return new Leaf.Way(
        pageOf(id).substring("markers/".length()),
        "Marker " + faces.getOrDefault(id, List.of()).get(0).says().marker().number(),
        "");
  }

  private static String said(List<Person> who) {
    List<String> names =
        who.stream().filter(Person::isCommemorated).map(Person::called).distinct().toList();
    return names.isEmpty()
        ? "A grave marker, its inscription read letter by letter."
        : "The grave marker of " + String.join(", ", names) + ", read letter by letter.";
  }

  private Leaf.Stone stone(
      Marker marker,
      List<ToldFace> own,
      List<Leaf.Face> shown,
      List<Person> who,
      Leaf.Way before,
      Leaf.Way after) {
    List<Leaf.Said> emblems = new ArrayList<>();
    for (EmblemNote note : told(marker).emblems()) {
      Optional<GlossaryEmblem> entry = note.entry();
      emblems.add(
          new Leaf.Said(
              note.name(),
              note.remark(),
              entry.map(e -> String.join("; or ", e.readings())).orElse(""),
              entry.map(e -> e.strength().label()).orElse(""),
              entry
                  .map(e -> new Leaf.Way("../emblems.html#" + anchor(e.name()), e.name(), ""))
                  .orElse(NOWHERE)));
    }
    return new Leaf.Stone(
        marker.number(),
        marker.earlierNumbers(),
        shown,
        told(marker).description().told(),
        emblems,
        who.stream().map(person -> somebody(person, "../", "")).toList(),
        ways(marker),
        questions.stream()
            .filter(question -> question.marker().filter(marker.id()::equals).isPresent())
            .map(question -> asked(question, "../"))
            .toList(),
        where(marker),
        Optional.ofNullable(familyAt.get(marker.id()))
            .map(at -> new Leaf.Way("../" + at, "The family it is taken to belong to", ""))
            .orElse(NOWHERE),
        cited(marker, own),
        correcting("Marker " + marker.number(), "../"),
        wish.address().isPresent() && small.containsKey(marker.id())
            ? "../" + Manifests.path(marker.id())
            : "",
        before,
        after);
  }

  private String where(Marker marker) {
    return Optional.ofNullable(placedAt.get(marker.id()))
        .map(
            placed ->
                String.join(
                    ", ",
                    java.util.stream.Stream.concat(
                            placed.row().stream()
                                .map(row -> "row " + row.row() + ", place " + row.place()),
                            placed.plots().stream().map(plot -> "plot " + plot))
                        .toList()))
        .orElse("");
  }

  private List<Leaf.Way> ways(Marker marker) {
    List<Leaf.Way> ways = new ArrayList<>();
    for (Link link : links.getOrDefault(marker.id(), List.of())) {
      String note = edition.mayTell(link.note()) ? link.note() : "";
      Optional<Marker> to = link.toMarker().flatMap(edition::marker);
      Optional<Person> person =
          link.toPerson().flatMap(mention -> Optional.ofNullable(byMention.get(mention)));
      to.ifPresent(
          other ->
              ways.add(
                  new Leaf.Way(
                      pages.containsKey(other.id()) ? "../" + pageOf(other.id()) : "",
                      link.kind().label() + " marker " + other.number(),
                      note)));
      if (to.isEmpty()) {
        person.ifPresent(
            who ->
                ways.add(
                    new Leaf.Way(
                        "../" + personAt.getOrDefault(who.id(), ""),
                        link.kind().label() + ": " + who.called(),
                        note)));
      }
    }
    return ways;
  }

  private String cited(Marker marker, List<ToldFace> own) {
    List<String> readers =
        own.stream()
            .flatMap(face -> face.says().reading().stream())
            .map(Reading::reader)
            .distinct()
            .toList();
    return edition.ground()
        + ", marker "
        + marker.number()
        + ", read by "
        + String.join(", ", readers)
        + ". Edition of "
        + wish.day()
        + "."
        + wish.absolute(pageOf(marker.id())).map(url -> " " + url).orElse("");
  }

  private Leaf.Correcting correcting(String subject, String root) {
    return new Leaf.Correcting(
        wish.mail()
            .map(
                mail ->
                    "mailto:"
                        + mail
                        + "?subject="
                        + encoded(edition.ground() + ", " + subject + ": a correction"))
            .orElse(""),
        wish.mail().orElse(""),
        root + "correction.html");
  }

  private static String encoded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8).replace("+", "%20");
  }

  /**
   * @param root how one comes from the page to the site's folder
   * @param id of the entry on its page; empty where the entry leads to it
   */
  private Leaf.Somebody somebody(Person person, String root, String id) {
    List<Leaf.Way> at = new ArrayList<>();
    Set<String> said = new HashSet<>();
    List<String> kin = new ArrayList<>();
    for (Mention mention : person.mentions()) {
      Marker marker = mention.source().marker();
      String href = pages.containsKey(marker.id()) ? root + pageOf(marker.id()) : "";
      if (said.add(href + SiteWords.as(mention))) {
        at.add(new Leaf.Way(href, "marker " + marker.number(), SiteWords.as(mention)));
      }
      for (Mention.Kin one : mention.kin()) {
        String words = one.relation() + ": " + one.name().replace('|', ' ').strip();
        if (!kin.contains(words)) {
          kin.add(words);
        }
      }
    }
    return new Leaf.Somebody(
        id,
        new Leaf.Way(
            id.isEmpty() ? root + personAt.getOrDefault(person.id(), "") : "",
            id.isEmpty() ? person.called() : SiteWords.surnameFirst(person),
            ""),
        SiteWords.life(person),
        kin,
        at,
        !person.isCommemorated());
  }

  private Leaf.Card card(MarkerId id, String root) {
    Marker marker = faces.getOrDefault(id, List.of()).get(0).says().marker();
    List<Person> who =
        named.getOrDefault(id, List.of()).stream().filter(Person::isCommemorated).toList();
    String picture = small.getOrDefault(id, "");
    return new Leaf.Card(
        root + pageOf(id),
        marker.number(),
        picture.isEmpty() ? "" : root + picture,
        String.join(", ", who.stream().map(Person::called).distinct().toList()),
        who.stream()
            .map(SiteWords::years)
            .filter(years -> !years.isEmpty())
            .findFirst()
            .orElse(""));
  }

  private void markerLists(SiteFolder folder) throws IOException {
    List<MarkerId> all = List.copyOf(faces.keySet());
    int count = Math.max(1, (all.size() + CARDS_A_PAGE - 1) / CARDS_A_PAGE);
    for (int number = 0; number < count; number++) {
      List<Leaf.Way> others = new ArrayList<>();
      for (int other = 0; count > 1 && other < count; other++) {
        String first = numberOf(all.get(other * CARDS_A_PAGE));
        String last = numberOf(all.get(Math.min(all.size(), (other + 1) * CARDS_A_PAGE) - 1));
        others.add(
            new Leaf.Way(other == number ? "" : markerList(other), first + " to " + last, ""));
      }
      list(
          folder,
          "markers/" + markerList(number),
          "markers",
          "The markers",
          "All markers of " + edition.ground() + " that are read, by number.",
          new Leaf.Cards(
              "The markers",
              SiteWords.counted(all.size(), "marker") + ", by number.",
              all
                  .subList(number * CARDS_A_PAGE, Math.min(all.size(), (number + 1) * CARDS_A_PAGE))
                  .stream()
                  .map(id -> card(id, "../"))
                  .toList(),
              others));
    }
  }

  private String numberOf(MarkerId id) {
    return faces.getOrDefault(id, List.of()).get(0).says().marker().number();
  }

  /** None is called as a marker's page may be: those have no point in their names. */
  private static String markerList(int number) {
    return number == 0 ? "index.html" : "list." + (number + 1) + ".html";
  }

  private void personLists(SiteFolder folder) throws IOException {
    Map<String, List<Person>> byLetter = byLetter();
    List<String[]> all = new ArrayList<>();
    byLetter.forEach(
        (letter, own) -> {
          for (int i = 0; i * PERSONS_A_PAGE < own.size(); i++) {
            all.add(new String[] {letter + (i == 0 ? "" : " " + (i + 1)), personPage(letter, i)});
          }
        });
    List<Leaf.Way> index =
        all.stream()
            .map(one -> new Leaf.Way(one[1].substring("persons/".length()), one[0], ""))
            .toList();
    list(
        folder,
        "persons/index.html",
        "persons",
        "Persons",
        "Persons named on the markers of " + edition.ground() + ", by surname.",
        new Leaf.People("Persons", index, List.of()));
    for (Map.Entry<String, List<Person>> one : byLetter.entrySet()) {
      List<Person> own = one.getValue();
      for (int from = 0; from < own.size(); from += PERSONS_A_PAGE) {
        String path = personPage(one.getKey(), from / PERSONS_A_PAGE);
        List<Leaf.Somebody> shown = new ArrayList<>();
        for (int i = from; i < Math.min(own.size(), from + PERSONS_A_PAGE); i++) {
          shown.add(somebody(own.get(i), "../", "p" + (i + 1)));
        }
        String title = "Persons: " + (one.getKey().equals("–") ? "no surname" : one.getKey());
        list(
            folder,
            path,
            "persons",
            title,
            "Persons named on the markers of " + edition.ground() + ", by surname.",
            new Leaf.People(
                title,
                index.stream()
                    .map(
                        way ->
                            path.endsWith("/" + way.href())
                                ? new Leaf.Way("", way.words(), "")
                                : way)
                    .toList(),
                shown));
      }
    }
  }

  private void families(SiteFolder folder) throws IOException {
    if (plan.families().isEmpty()) {
      return;
    }
    List<Leaf.Way> all = new ArrayList<>();
    int number = 0;
    for (FamilyGroup family : plan.families()) {
      String path = "families/" + ++number + ".html";
      all.add(
          new Leaf.Way(
              number + ".html",
              family.name(),
              SiteWords.counted(family.persons().size(), "person")
                  + "; "
                  + (family.stones().size() == 1 ? "marker " : "markers ")
                  + String.join(", ", family.stones().stream().map(Marker::number).toList())
                  + (family.isNamed() ? "" : "; proposed")));
      list(
          folder,
          path,
          "family",
          "The family " + family.name(),
          "Stones of " + edition.ground() + " that are taken to be one family’s.",
          family(family));
    }
    list(
        folder,
        "families/index.html",
        "families",
        "Families",
        "Which stones of " + edition.ground() + " are taken to be one family’s.",
        new Leaf.Ways(
            "Families",
            "Which stones are one family’s is worked out from what they say and how they stand. It"
                + " is proposed, unless people have said so.",
            all));
  }

  private Leaf.Family family(FamilyGroup family) {
    FamilyTree tree = FamilyTree.of(family);
    List<Leaf.TreeBox> boxes = new ArrayList<>();
    for (FamilyTree.Node node : tree.nodes()) {
      Person person = family.persons().get(node.person());
      boxes.add(
          new Leaf.TreeBox(
              px(node.x()), px(node.y()), shortened(person.called()), SiteWords.years(person)));
    }
    List<Leaf.TreeLine> lines = new ArrayList<>();
    for (FamilyTree.Edge edge : tree.edges()) {
      lines.add(new Leaf.TreeLine(edge.d(), edge.tie().relation(), px(edge.x()), px(edge.y())));
    }
    return new Leaf.Family(
        family.name(),
        family.isNamed(),
        family.stones().stream().map(this::stoneOfFamily).toList(),
        family.footstones().stream().map(this::stoneOfFamily).toList(),
        family.persons().stream().map(person -> somebody(person, "../", "")).toList(),
        family.reasons(),
        (int) Math.ceil(tree.wide()),
        (int) Math.ceil(tree.high()),
        boxes,
        lines,
        family.ties().stream()
            .map(
                tie ->
                    tie.who().called()
                        + ": "
                        + tie.relation()
                        + " of "
                        + tie.to().map(Person::called).orElse(tie.name().replace('|', ' ').strip())
                        + ", “"
                        + tie.words()
                        + "”")
            .distinct()
            .toList());
  }

  private static final int LONGEST_IN_BOX = 24;

  private static String shortened(String name) {
    return name.length() <= LONGEST_IN_BOX
        ? name
        : name.substring(0, LONGEST_IN_BOX - 1).strip() + "…";
  }

  private static String px(double value) {
    return String.format(Locale.ROOT, "%.0f", value);
  }

  private Leaf.Way stoneOfFamily(Marker marker) {
    return new Leaf.Way(
        pages.containsKey(marker.id()) ? "../" + pageOf(marker.id()) : "",
        "marker " + marker.number(),
        "");
  }

  private void plan(SiteFolder folder) throws IOException {
    if (!hasPlan()) {
      return;
    }
    List<Leaf.Row> rows = new ArrayList<>();
    plan.rows()
        .forEach(
            (row, in) ->
                rows.add(new Leaf.Row("Row " + row, in.stream().map(this::onPlan).toList())));
    Set<MarkerId> inRows = new HashSet<>();
    plan.rows().values().forEach(in -> in.forEach(marker -> inRows.add(marker.id())));
    List<Leaf.Way> others =
        plan.markers().stream()
            .map(GroundPlan.Placed::marker)
            .filter(marker -> !inRows.contains(marker.id()))
            .map(this::onPlan)
            .toList();
    if (!others.isEmpty()) {
      rows.add(new Leaf.Row(rows.isEmpty() ? "On the plan" : "In no row", others));
    }
    list(
        folder,
        "plan.html",
        "plan",
        "The plan",
        "Where the markers of " + edition.ground() + " stand.",
        new Leaf.Plan(PlanFiles.svg(plan), plan.unplaced().size(), rows));
  }

  private Leaf.Way onPlan(Marker marker) {
    return new Leaf.Way(pageOf(marker.id()), marker.number(), "");
  }

  private void walks(SiteFolder folder) throws IOException {
    if (walks.isEmpty()) {
      return;
    }
    List<Leaf.Way> all = new ArrayList<>();
    for (int i = 0; i < walks.size(); i++) {
      Edition.ToldWalk walk = walks.get(i);
      String summary = summary(walk);
      all.add(new Leaf.Way((i + 1) + ".html", walk.planned().name(), summary));
      List<Leaf.Stop> stops = new ArrayList<>();
      for (Walk.Stop stop : walk.walk().stops()) {
        MarkerId id = stop.marker().id();
        String picture = small.getOrDefault(id, "");
        stops.add(
            new Leaf.Stop(
                new Leaf.Way(
                    pages.containsKey(id) ? "../" + pageOf(id) : "",
                    "Marker " + stop.marker().number(),
                    ""),
                picture.isEmpty() ? "" : "../" + picture,
                stop.metres().map(metres -> Math.round(metres) + " m on").orElse(""),
                stops.size() < walk.walk().stops().size() - walk.walk().unplaced(),
                walk.notes().get(stops.size()),
                String.join(
                    ", ",
                    named.getOrDefault(id, List.of()).stream()
                        .filter(Person::isCommemorated)
                        .map(Person::called)
                        .distinct()
                        .toList())));
      }
      list(
          folder,
          "walks/" + (i + 1) + ".html",
          "walk",
          "Walk: " + walk.planned().name(),
          "A walk past markers of " + edition.ground() + ".",
          new Leaf.Walking(walk.planned().name(), summary, stops));
    }
    list(
        folder,
        "walks/index.html",
        "walks",
        "Walks",
        "Walks past markers of " + edition.ground() + ".",
        new Leaf.Ways("Walks", "Planned by people who know the ground.", all));
  }

  private static String summary(Edition.ToldWalk walk) {
    return SiteWords.counted(walk.walk().stops().size(), "stop")
        + ", "
        + Math.round(walk.walk().metres())
        + " m in straight lines, about "
        + Math.round(walk.walk().minutes(walk.planned().minutes()))
        + " min"
        + (walk.planned().back() ? ", and back to where it begins" : "");
  }

  private void emblems(SiteFolder folder) throws IOException {
    Map<String, List<Leaf.Way>> seen = new HashMap<>();
    for (List<ToldFace> own : faces.values()) {
      Marker marker = own.get(0).says().marker();
      Set<String> once = new HashSet<>();
      for (EmblemNote note : told(marker).emblems()) {
        if (once.add(note.name())) {
          seen.computeIfAbsent(note.name(), n -> new ArrayList<>()).add(onPlan(marker));
        }
      }
    }
    List<Leaf.Glossed> all = new ArrayList<>();
    for (GlossaryEmblem emblem : GlossaryEmblem.glossary()) {
      all.add(
          new Leaf.Glossed(
              anchor(emblem.name()),
              emblem.name(),
              emblem.seen(),
              String.join("; or ", emblem.readings()),
              emblem.strength().label(),
              emblem.source(),
              emblem.mistakenFor(),
              emblem.neverProves(),
              seen.getOrDefault(emblem.name(), List.of())));
    }
    list(
        folder,
        "emblems.html",
        "emblems",
        "Emblems",
        "Carved emblems, what one sees and what they are said to mean.",
        new Leaf.Emblems("", all));
  }

  static String anchor(String name) {
    return "e-" + NameForms.fold(name.replace(' ', '-')) + "-" + name.length();
  }

  private void questions(SiteFolder folder) throws IOException {
    if (questions.isEmpty()) {
      return;
    }
    list(
        folder,
        "questions.html",
        "questions",
        "Questions",
        "What nobody knows yet of " + edition.ground() + ", and what was tried.",
        new Leaf.Questions(questions.stream().map(question -> asked(question, "")).toList()));
  }

  private Leaf.Asked asked(Question question, String root) {
    Leaf.Way marker =
        question
            .marker()
            .flatMap(edition::marker)
            .map(
                one ->
                    new Leaf.Way(
                        pages.containsKey(one.id()) ? root + pageOf(one.id()) : "",
                        "marker " + one.number(),
                        ""))
            .orElse(NOWHERE);
    return new Leaf.Asked(
        question.label(),
        question.text(),
        question.isOpen(),
        question.steps().stream().map(Question.Step::told).filter(step -> !step.isEmpty()).toList(),
        marker);
  }

  /** How much isn't told, by why. */
  private Map<String, Integer> leftOut() {
    Map<String, Integer> counts = new TreeMap<>();
    for (Edition.LeftOut left : edition.leftOut()) {
      if (left.sort() != Edition.Sort.PHOTOGRAPHS) {
        for (String why : new LinkedHashSet<>(left.why().stream().map(Why::words).toList())) {
          counts.merge(left.sort().name().toLowerCase(Locale.ROOT) + "s: " + why, 1, Integer::sum);
        }
      }
    }
    return counts;
  }

  private void about(SiteFolder folder, Map<String, Integer> leftOut) throws IOException {
    Leaf.About about =
        new Leaf.About(
            edition.ground()
                + ", marker NUMBER, read by NAME. Edition of "
                + wish.day()
                + "."
                + wish.address().map(url -> " " + url).orElse(""),
            correcting("the site", ""),
            leftOut.entrySet().stream()
                .map(one -> one.getKey() + " (" + one.getValue() + ")")
                .toList(),
            edition.faces().size(),
            wish.publisher().orElse(""),
            "Rakelight",
            wish.address().map(root -> root + Manifests.COLLECTION).orElse(""));
    list(
        folder,
        "about.html",
        "about",
        "About this site",
        "How to read its doubt marks, how to cite it, how to send a correction.",
        about);
    list(
        folder,
        "correction.html",
        "correction",
        "A correction",
        "A form to print for whoever knows better.",
        about);
  }

  private void search(SiteFolder folder) throws IOException {
    SearchFiles.write(folder, entries(), numbered(), this::found);
    list(
        folder,
        "search.html",
        "search",
        "Search",
        "Search the markers of " + edition.ground() + " by half a name, a nickname or a year.",
        new Leaf.Ways("Search", "", List.of()));
  }

  /** By what a search finds a marker that it doesn't find by its words. */
  private List<SearchPieces.Numbered> numbered() {
    Map<MarkerId, Marker> markers = new LinkedHashMap<>();
    faces.forEach((id, own) -> markers.put(id, own.get(0).says().marker()));
    placedAt.forEach((id, placed) -> markers.put(id, placed.marker()));
    List<SearchPieces.Numbered> numbered = new ArrayList<>();
    for (Marker marker : markers.values()) {
      List<String> numbers = new ArrayList<>(List.of(marker.number()));
      numbers.addAll(marker.earlierNumbers());
      Optional<Spot> at = Optional.ofNullable(placedAt.get(marker.id())).map(GroundPlan.Placed::at);
      numbered.add(
          new SearchPieces.Numbered(
              marker.id().toString(),
              numbers,
              at.map(Spot::eastMetres).orElse(Double.NaN),
              at.map(Spot::northMetres).orElse(Double.NaN)));
    }
    return numbered;
  }

  /** What is searched: what the edition tells of each marker. */
  private List<Entry> entries() {
    List<Entry> entries = new ArrayList<>();
    for (List<ToldFace> own : faces.values()) {
      Marker marker = own.get(0).says().marker();
      Map<String, List<String>> beside = new LinkedHashMap<>();
      beside.put("link", ways(marker).stream().map(Leaf.Way::words).toList());
      beside.put("emblem", told(marker).emblems().stream().map(EmblemNote::name).toList());
      beside.put(
          "question",
          questions.stream()
              .filter(question -> question.marker().filter(marker.id()::equals).isPresent())
              .map(Question::text)
              .toList());
      Optional<GroundPlan.Placed> placed = Optional.ofNullable(placedAt.get(marker.id()));
      beside.put(
          "row", placed.stream().flatMap(at -> at.row().stream()).map(RowPlace::row).toList());
      beside.put("plot", placed.stream().flatMap(at -> at.plots().stream()).toList());
      entries.add(
          EntryMaking.of(
              marker,
              own.stream().map(ToldFace::says).toList(),
              told(marker).description(),
              beside));
    }
    return entries;
  }

  /** An entry as a hit shows it: where its page is, its number, whom it names, what it says. */
  private ArrayNode found(Entry entry) {
    MarkerId id = MarkerId.of(entry.id());
    ArrayNode shown =
        Json.mapper()
            .createArrayNode()
            .add(pageOf(id))
            .add(entry.marker())
            .add(
                String.join(
                    ", ",
                    named.getOrDefault(id, List.of()).stream()
                        .filter(Person::isCommemorated)
                        .map(Person::called)
                        .distinct()
                        .toList()));
    ArrayNode texts = shown.addArray();
    entry.texts().forEach(texts::add);
    return shown;
  }

  private void front(SiteFolder folder, Map<String, Integer> leftOut) throws IOException {
    String said = "The grave markers of " + edition.ground() + ": photographs, readings, persons.";
    List<MarkerId> pictured = faces.keySet().stream().filter(small::containsKey).toList();
    List<Leaf.Card> cards = new ArrayList<>();
    for (int i = 0; i < Math.min(ON_FRONT, pictured.size()); i++) {
      cards.add(card(pictured.get(i * pictured.size() / Math.min(ON_FRONT, pictured.size())), ""));
    }
    page(
        folder,
        "index.html",
        "front",
        edition.ground(),
        said,
        "Collection",
        Optional.empty(),
        linked.site(said),
        new Leaf.Front(
            faces.size(),
            (int) persons.stream().filter(Person::isCommemorated).count(),
            small.size(),
            cards,
            List.of(),
            leftOut.isEmpty() ? "" : "some"));
  }

  /** By the sitemap protocol 0.9, sitemaps.org. */
  private void sitemap(SiteFolder folder) throws IOException {
    if (wish.address().isEmpty()) {
      return;
    }
    List<String> paths = folder.pages().toList();
    folder.text(
        "sitemap.xml",
        out -> {
          out.write(
              "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                  + "<urlset xmlns=\"http://www.sitemaps.org/schemas/sitemap/0.9\">\n");
          for (String path : paths) {
            out.write(
                "<url><loc>"
                    + wish.absolute(path).orElseThrow().replace("&", "&amp;")
                    + "</loc><lastmod>"
                    + wish.day()
                    + "</lastmod></url>\n");
          }
          out.write("</urlset>\n");
        });
  }

  /** Manifests and annotations name themselves by where they lie on the web. */
  private void forViewers(SiteFolder folder, FaceLeaves leaves) throws IOException {
    if (wish.address().isEmpty()) {
      return;
    }
    String base = wish.address().get().toString();
    Map<PhotographId, PictureFile> pictures = new HashMap<>();
    for (ToldFace face : edition.faces()) {
      for (ReadFrom.Shot shot : edition.readFrom(face).shots()) {
        leaves.file(shot, base).ifPresent(file -> pictures.put(shot.id(), file));
      }
    }
    Manifests manifests =
        new Manifests(
            edition,
            edition.faces(),
            noted,
            base,
            shot -> Optional.ofNullable(pictures.get(shot.id())),
            letters);
    manifests.write((path, text) -> folder.text(path, out -> out.write(text)));
    manifests.writeAnnotations((path, text) -> folder.text(path, out -> out.write(text)));
  }
}
