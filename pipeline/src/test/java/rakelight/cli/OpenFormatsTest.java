package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.drew.metadata.Metadata;
import com.drew.metadata.xmp.XmpDirectory;
import com.drew.metadata.xmp.XmpReader;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.net.CookieManager;
import java.net.InetAddress;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.UUID;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import rakelight.archive.Archive;
import rakelight.archive.Json;
import rakelight.archive.PhotographId;
import rakelight.archive.Sha256;
import rakelight.desk.Desk;
import rakelight.finding.FoundLine;
import rakelight.ground.MarkerPosition;
import rakelight.ground.Plot;
import rakelight.ground.PositionStore;
import rakelight.ground.RowPlace;
import rakelight.marker.Condition;
import rakelight.marker.ConditionStore;
import rakelight.marker.Description;
import rakelight.marker.DescriptionStore;
import rakelight.marker.EmblemNote;
import rakelight.marker.EmblemStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.Polygon;
import rakelight.publish.epidoc.EpidocSchema;
import rakelight.publish.iiif.PresentationRules;
import rakelight.reading.GivenProposal;

/** A described marker with a photograph, and one of somebody living, in every open format. */
class OpenFormatsTest {
  private static final String ADA = "Ada Penrose";
  private static final String BASE = "https://thornbeck.example/stones/";

  @TempDir static Path folder;
  private static Path out;

  @BeforeAll
  static void export() throws Exception {
    Path archive = folder.resolve("archive");
    for (String marker : List.of("12", "14")) {
      Path season = Files.createDirectories(folder.resolve("season").resolve(marker));
      ImageIO.write(
          new BufferedImage(600, Integer.parseInt(marker) * 30, BufferedImage.TYPE_INT_RGB),
          "png",
          season.resolve("stone.png").toFile());
    }
    Ran.command("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    Ran.command(
        "ingest",
        archive,
        folder.resolve("season"),
        "--reader",
        ADA,
        "--photographer",
        "A & B",
        "--rights",
        "https://creativecommons.org/licenses/by/4.0/");
    Map<String, String> proposals = describe(archive);
    Path readings = folder.resolve("readings.tsv");
    Files.writeString(
        readings,
        "marker\tface\tline\ttext\tproposal\n"
            + "12\tfront\t1\tIN MEMORY OF\t"
            + proposals.get("12")
            + "\n12\tfront\t2\tHANN(A 60% or E 40%)H W[re]N\t"
            + proposals.get("12")
            + "\n12\tfront\t3\tdied 4 May 1851\t"
            + proposals.get("12")
            + "\n12\tback\t1\tAlso ABEL WREN\t\n12\tback\t2\tdied 1860\t\n"
            + "14\tfront\t1\tROBERT GARSIDE\t"
            + proposals.get("14")
            + "\n14\tfront\t2\t1949 - 2011\t"
            + proposals.get("14")
            + "\n14\tfront\t3\tALICE HIS WIFE\t"
            + proposals.get("14")
            + "\n",
        StandardCharsets.UTF_8);
    Ran confirmed =
        Ran.command("confirm", archive, "--new-markers", "--from", readings, "--reader", ADA);
    assertThat(confirmed.code()).as(confirmed.err()).isZero();
    out = folder.resolve("out");
    Ran ran =
        Ran.command(
            "export",
            archive,
            "--to",
            out,
            "--as-of",
            "2026-11-25",
            "--corpus",
            "--iiif",
            "--annotations",
            "--sidecars",
            "--address",
            "https://thornbeck.example/stones");
    assertThat(ran.code()).as(ran.err()).isZero();
  }

  private static Map<String, String> describe(Path root) throws IOException {
    try (Archive archive = Archive.open(root, Projections.all())) {
      PhotoStore photographs = new PhotoStore(archive);
      Map<String, String> proposals = new TreeMap<>();
      MarkerStore markers = new MarkerStore(archive);
      for (Photograph shot : photographs.photographs()) {
        Face face = photographs.face(shot.face().orElseThrow()).orElseThrow();
        List<FoundLine> found =
            Stream.of(0, 1, 2)
                .map(
                    i ->
                        new FoundLine(
                            Polygon.rectangle(-3, 20 + 50.0 * i, 500.5, 60 + 50.0 * i), 30, 0.9))
                .toList();
        List<String> lines =
            markers.marker(face.marker()).orElseThrow().number().equals("12")
                ? List.of("IN MEMORY OF", "HANNAH WREN", "died 4 May 1851")
                : List.of("ROBERT GARSIDE", "1949 - 2011", "ALICE HIS WIFE");
        proposals.put(
            markers.marker(face.marker()).orElseThrow().number(),
            GivenProposal.of(
                    archive,
                    face.id(),
                    shot.source(),
                    shot.id(),
                    Polygon.rectangle(0, 0, 600, 360),
                    found,
                    lines)
                .id()
                .toString());
      }
      Marker twelve = markers.named("12");
      new DescriptionStore(archive)
          .describe(
              twelve.id(),
              new Description(
                  Optional.of("headstone"),
                  Optional.of("round top"),
                  Optional.of("slate"),
                  List.of("V-cut"),
                  List.of(new Description.Part("shaft", "leaning", Optional.of(8.0))),
                  Optional.of(110.0),
                  Optional.of(62.5),
                  Optional.empty(),
                  Optional.empty(),
                  Optional.of("T. Lidgate"),
                  Optional.empty(),
                  Optional.empty(),
                  Optional.empty(),
                  Optional.of("beside the grave of Alice Garside")),
              UUID.randomUUID(),
              ADA);
      new ConditionStore(archive)
          .note(
              twelve.id(),
              LocalDate.parse("2026-04-30"),
              List.of(Condition.LEANING, Condition.DELAMINATING),
              "",
              ADA);
      new EmblemStore(archive)
          .note(
              twelve.id(),
              "front",
              "clasped hands",
              Optional.<EmblemNote.Outline>empty(),
              Map.of(),
              "",
              ADA);
      PositionStore places = new PositionStore(archive);
      places.note(
          new Plot(
              "old ground",
              List.of(
                  List.of(-3.2005, 54.0995),
                  List.of(-3.1995, 54.0995),
                  List.of(-3.1995, 54.1005),
                  List.of(-3.2005, 54.1005),
                  List.of(-3.2005, 54.0995))),
          ADA);
      places.note(twelve.id(), new RowPlace("3", 4), ADA);
      places.note(
          new MarkerPosition(
              twelve.id(),
              54.1,
              -3.2,
              0.5,
              MarkerPosition.Basis.GPS,
              "",
              Optional.of(ADA),
              Optional.empty()),
          ADA);
      return proposals;
    }
  }

  private static List<Path> files(String in, String ending) throws IOException {
    try (Stream<Path> files = Files.walk(out.resolve(in))) {
      return files.filter(file -> file.toString().endsWith(ending)).sorted().toList();
    }
  }

  @Test
  void nobodyWhoMayBeLivingIsInAnyFile() throws Exception {
    for (Path file : files("", "")) {
      if (Files.isRegularFile(file) && !file.toString().endsWith(".png")) {
        assertThat(Files.readString(file)).as("%s", file).doesNotContainIgnoringCase("alice");
      }
    }
    // Her stone's photograph shows her name.
    assertThat(files("photographs", ".png")).hasSize(1);
    assertThat(files("photographs", ".xmp")).hasSize(1);
  }

  @Test
  void theCorpusIsValidAndSaysWhatMarkersAreAndWhereTheyStand() throws Exception {
    String corpus = Files.readString(out.resolve("corpus.xml"));
    assertThat(corpus)
        .contains("<category xml:id=\"material-slate\">")
        .contains("<material ref=\"#material-slate\">slate</material>")
        .contains("<dimensions unit=\"cm\">")
        .contains("T. Lidgate")
        .contains("<rs type=\"execution\" ref=\"#lettering-")
        .contains("<placeName ref=\"#plot-old-ground\">old ground</placeName>")
        .contains("<div type=\"textpart\" subtype=\"face\" n=\"back\" xml:id=\"m1f1\">")
        .contains("<lb n=\"1\" facs=\"#m1f2-p1-l1\"/>IN MEMORY OF")
        .contains("<gap reason=\"ellipsis\"");
    assertThat(EpidocSchema.orSkip().errors(corpus)).isEmpty();
  }

  @Test
  void theCorpusBroughtBackIsTheSameFaces() throws Exception {
    Path archive = folder.resolve("archive");
    Ran own = Ran.command("import", archive, out.resolve("corpus.xml"), "--reader", ADA);
    assertThat(own.out())
        .contains("marker 12, back: a reading of this archive, unchanged; nothing to do")
        .contains("marker 12, front: a reading of this archive, unchanged; nothing to do");
    Path other = folder.resolve("other");
    Ran.command("init", other, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    Ran there =
        Ran.command("import", other, out.resolve("corpus.xml"), "--reader", "Cora", "--sign");
    assertThat(there.code()).as(there.err()).isZero();
    for (Path one : List.of(archive, other)) {
      Ran.command(
          "export",
          one,
          "--to",
          folder.resolve(one.getFileName() + "-again"),
          "--as-of",
          "2026-11-25");
    }
    for (String face : List.of("12-front.xml", "12-back.xml")) {
      assertThat(edition(folder.resolve("other-again").resolve(face)))
          .isEqualTo(edition(folder.resolve("archive-again").resolve(face)));
    }
  }

  private static String edition(Path file) throws Exception {
    String xml = Files.readString(file);
    return xml.substring(xml.indexOf("<div type=\"edition\">"), xml.indexOf("</div>"))
        .replaceAll(" facs=\"[^\"]*\"", "");
  }

  /** Judged by {@link PresentationRules}, which names its sources. */
  @Test
  void viewersFindManifestsCanvasesAndWhatIsOnThem() throws Exception {
    JsonNode collection = json(out.resolve("iiif/collection.json"));
    Map<String, double[]> sizes = new HashMap<>();
    assertThat(PresentationRules.broken(collection, sizes)).isEmpty();
    assertThat(collection.path("items")).hasSize(1);
    Path path = local(collection.path("items").get(0).path("id").asText());
    JsonNode manifest = json(path);
    assertThat(PresentationRules.broken(manifest, sizes)).isEmpty();
    JsonNode canvas = manifest.path("items").get(0);
    assertThat(canvas.path("width").asInt()).isEqualTo(600);
    assertThat(canvas.path("height").asInt()).isEqualTo(360);
    assertThat(canvas.path("rights").asText()).contains("creativecommons");
    assertThat(canvas.path("requiredStatement").toString()).contains("A & B");
    assertThat(local(canvas.at("/items/0/items/0/body/id").asText())).exists();
    assertThat(canvas.path("annotations")).hasSize(2);
    List<String> texts = new ArrayList<>();
    for (JsonNode reference : canvas.path("annotations")) {
      JsonNode page = json(local(reference.path("id").asText()));
      assertThat(page.path("id")).isEqualTo(reference.path("id"));
      assertThat(PresentationRules.broken(page, sizes)).isEmpty();
      for (JsonNode annotation : page.path("items")) {
        assertThat(annotation.at("/target/source/id")).isEqualTo(canvas.path("id"));
        JsonNode body = annotation.path("body");
        texts.add((body.isArray() ? body.get(0) : body).path("value").asText());
      }
    }
    assertThat(texts).startsWith("IN MEMORY OF", "HANN(A 60% or E 40%)H W[re]N", "died 4 May 1851");
    // A letter for each that was cut, seen or not, and none for spaces.
    assertThat(String.join("", texts.subList(3, texts.size())))
        .isEqualTo("INMEMORYOFHANNHWreNdied4May1851");
    assertThat(Files.readString(local(canvas.at("/annotations/1/id").asText())))
        .contains("\"type\":\"Choice\"")
        .contains("\"value\":\"supplied\"");
  }

  /**
   * Each address that a document names lies where the site will lie, and is what it is said to be.
   */
  @Test
  void aSiteHoldsAllThatItsManifestsName() throws Exception {
    Path site = folder.resolve("site");
    String base = "https://thornbeck.example/ground/";
    Ran made =
        Ran.command(
            "site",
            folder.resolve("archive"),
            "--to",
            site,
            "--as-of",
            "2026-11-25",
            "--address",
            "https://thornbeck.example/ground");
    assertThat(made.code()).as(made.err()).isZero();
    Map<String, double[]> sizes = new HashMap<>();
    JsonNode collection = json(site.resolve("iiif/collection.json"));
    assertThat(PresentationRules.broken(collection, sizes)).isEmpty();
    assertThat(collection.path("items")).hasSize(1);
    JsonNode manifest = at(site, base, collection.at("/items/0/id"));
    assertThat(PresentationRules.broken(manifest, sizes)).isEmpty();
    JsonNode canvas = manifest.at("/items/0");
    JsonNode picture = canvas.at("/items/0/items/0/body");
    assertThat(picture.path("format").asText()).isEqualTo("image/jpeg");
    Path file = site.resolve(picture.path("id").asText().substring(base.length()));
    BufferedImage shown = ImageIO.read(file.toFile());
    assertThat(shown.getWidth()).isEqualTo(picture.path("width").asInt());
    assertThat(shown.getHeight()).isEqualTo(picture.path("height").asInt());
    assertThat(canvas.path("annotations")).hasSize(2);
    for (JsonNode reference : canvas.path("annotations")) {
      JsonNode page = at(site, base, reference.path("id"));
      assertThat(PresentationRules.broken(page, sizes)).isEmpty();
      assertThat(page.path("items")).isNotEmpty();
    }
    try (Stream<Path> written = Files.list(site.resolve("annotations"))) {
      for (Path one : written.toList()) {
        JsonNode all = at(site, base, json(one).path("id"));
        assertThat(all.at("/first/items/0/target/source/id")).isEqualTo(picture.path("id"));
      }
    }
    String marker = Files.readString(site.resolve("markers/12.html"));
    String link = marker.replaceAll("(?s).*href=\"([^\"]+manifest.json)\".*", "$1");
    assertThat(site.resolve("markers").resolve(link).normalize())
        .isEqualTo(site.resolve(manifest.path("id").asText().substring(base.length())));
    assertThat(Files.readString(site.resolve("about.html"))).contains(base + "iiif/collection");
  }

  /** The document that lies at an address and calls itself by it. */
  private static JsonNode at(Path site, String base, JsonNode address) throws IOException {
    assertThat(address.asText()).startsWith(base);
    JsonNode document = json(site.resolve(address.asText().substring(base.length())));
    assertThat(document.path("id")).isEqualTo(address);
    return document;
  }

  @Test
  void viewersAreGivenAPictureThatBrowsersShow() throws Exception {
    Path archive = folder.resolve("tiff");
    Path season = folder.resolve("tiffs");
    Path shot = Files.createDirectories(season.resolve("7")).resolve("stone.tif");
    BufferedImage stone = new BufferedImage(400, 300, BufferedImage.TYPE_INT_RGB);
    assertThat(ImageIO.write(stone, "tiff", shot.toFile())).isTrue();
    Path readings =
        Files.writeString(
            folder.resolve("seven.tsv"),
            "marker\tface\tline\ttext\n7\tfront\t1\tJOB RUDD died 1801\n");
    Ran.command("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    Ran.command("ingest", archive, season, "--reader", ADA);
    Ran.command("confirm", archive, "--from", readings, "--reader", ADA);
    Path to = folder.resolve("tiff-out");
    Ran ran =
        Ran.command(
            "export", archive, "--to", to, "--as-of", "2026-11-25", "--iiif", "--address", BASE);
    assertThat(ran.code()).as(ran.err()).isZero();
    JsonNode collection = json(to.resolve("iiif/collection.json"));
    JsonNode manifest =
        json(to.resolve(collection.at("/items/0/id").asText().substring(BASE.length())));
    JsonNode picture = manifest.at("/items/0/items/0/items/0/body");
    assertThat(picture.path("format").asText()).isEqualTo("image/jpeg");
    BufferedImage shown =
        ImageIO.read(to.resolve(picture.path("id").asText().substring(BASE.length())).toFile());
    assertThat(shown.getWidth()).isEqualTo(400);
    assertThat(picture.path("width").asInt()).isEqualTo(400);
    try (Stream<Path> files = Files.list(to.resolve("photographs"))) {
      assertThat(files.map(file -> file.getFileName().toString()))
          .anyMatch(name -> name.endsWith(".tif"));
    }
  }

  @Test
  void theJudgeOfManifestsSeesWhatIsWrong() throws Exception {
    Path path = files("iiif", "manifest.json").get(0);
    for (String pointer : List.of("/label", "/items", "/items/0/height", "/items/0/items/0/id")) {
      JsonNode manifest = json(path);
      int slash = pointer.lastIndexOf('/');
      ((ObjectNode) manifest.at(pointer.substring(0, slash))).remove(pointer.substring(slash + 1));
      assertThat(PresentationRules.broken(manifest, new HashMap<>())).as(pointer).isNotEmpty();
    }
    JsonNode manifest = json(path);
    ((ObjectNode) manifest).put("label", "Marker 12").put("height", 3);
    assertThat(PresentationRules.broken(manifest, new HashMap<>())).hasSize(2);
  }

  /** Read by metadata-extractor, which knows nothing of the writer; names by ISO 16684-1. */
  @Test
  void aSidecarIsReadByOthers() throws Exception {
    Metadata metadata = new Metadata();
    new XmpReader().extract(Files.readAllBytes(files("photographs", ".xmp").get(0)), metadata);
    Map<String, String> read =
        metadata.getFirstDirectoryOfType(XmpDirectory.class).getXmpProperties();
    assertThat(read)
        .containsEntry("dc:title[1]", "Thornbeck, marker 12, front")
        .containsEntry("dc:creator[1]", "A & B")
        .containsEntry("dc:format", "image/png")
        .containsEntry("dc:subject[3]", "slate")
        .containsEntry("xmpRights:Marked", "True")
        .containsEntry("xmpRights:WebStatement", "https://creativecommons.org/licenses/by/4.0/")
        .containsEntry("Iptc4xmpCore:Location", "Thornbeck");
    assertThat(read.get("dc:description[1]")).contains("IN MEMORY OF");
    Path picture = files("photographs", ".png").get(0);
    assertThat(read.get("dc:identifier"))
        .isEqualTo("urn:sha256:" + Sha256.of(Files.readAllBytes(picture)).hex());
  }

  /** Names by the DCMI Metadata Terms of 2020. */
  @Test
  void dublinCoreTellsOfEveryPhotographThatIsTold() throws Exception {
    DocumentBuilderFactory factory = DocumentBuilderFactory.newDefaultInstance();
    factory.setNamespaceAware(true);
    Document all =
        factory.newDocumentBuilder().parse(out.resolve("photographs/dublin-core.rdf").toFile());
    NodeList described =
        all.getElementsByTagNameNS("http://www.w3.org/1999/02/22-rdf-syntax-ns#", "Description");
    assertThat(described.getLength()).isEqualTo(1);
    Element one = (Element) described.item(0);
    assertThat(term(one, "creator")).isEqualTo("A & B");
    assertThat(term(one, "extent")).isEqualTo("600 x 360 pixels");
    assertThat(term(one, "spatial")).isEqualTo("Thornbeck");
    assertThat(term(one, "source")).isEqualTo("stone.png");
    String about = one.getAttributeNS("http://www.w3.org/1999/02/22-rdf-syntax-ns#", "about");
    assertThat(out.resolve("photographs").resolve(about)).exists();
  }

  private static String term(Element of, String name) {
    return of.getElementsByTagNameNS("http://purl.org/dc/terms/", name).item(0).getTextContent();
  }

  @Test
  void webAnnotationsLieOnThePictureItself() throws Exception {
    List<Path> files = files("annotations", ".json");
    assertThat(files).hasSize(1);
    JsonNode all = json(files.get(0));
    Map<String, double[]> sizes = new HashMap<>();
    files("photographs", ".png")
        .forEach(
            file -> sizes.put(BASE + "photographs/" + file.getFileName(), new double[] {600, 360}));
    assertThat(PresentationRules.broken(all, sizes)).isEmpty();
    for (JsonNode annotation : all.at("/first/items")) {
      assertThat(sizes).containsKey(annotation.at("/target/source/id").asText());
    }
    assertThat(all.at("/first/items/0/target/selector/0/value").asText())
        .isEqualTo("xywh=0,20,501,40");
  }

  /** The same documents under the desk's own address, for a guest and as far as he may be told. */
  @Test
  void theDeskGivesTheSameAsAnExport() throws Exception {
    try (Archive archive = Archive.open(folder.resolve("archive"), Projections.all());
        Desk desk =
            Desk.start(
                archive,
                InetAddress.getLoopbackAddress(),
                0,
                Clock.fixed(Instant.parse("2026-11-25T09:00:00Z"), ZoneOffset.UTC))) {
      String root = "http://127.0.0.1:" + desk.port() + "/";
      HttpClient guest = HttpClient.newBuilder().cookieHandler(new CookieManager()).build();
      assertThat(get(guest, root + "iiif/collection.json").statusCode()).isNotEqualTo(200);
      String form = get(guest, root + "sign-in").body();
      String token = form.replaceAll("(?s).*name=\"token\" value=\"([^\"]+)\".*", "$1");
      guest.send(
          HttpRequest.newBuilder(URI.create(root + "sign-in"))
              .header("Content-Type", "application/x-www-form-urlencoded")
              .POST(HttpRequest.BodyPublishers.ofString("token=" + token + "&name=Cora"))
              .build(),
          HttpResponse.BodyHandlers.discarding());
      for (Path file : files("iiif", ".json")) {
        String name = out.relativize(file).toString();
        assertThat(get(guest, root + name).body())
            .isEqualTo(
                Json.text(json(file))
                    .replace(BASE, root)
                    .replaceAll(
                        "photographs/[0-9a-f]{64}\\.png\",\"type\":\"Image\",\"format\":\"image/png",
                        "images/photographs/"
                            + shot(archive)
                            + "?longest=3200\",\"type\":\"Image\",\"format\":\"image/jpeg"));
      }
      JsonNode manifest =
          Json.read(
              get(guest, root + out.relativize(files("iiif", "manifest.json").get(0))).body(),
              JsonNode.class);
      String picture = manifest.at("/items/0/items/0/items/0/body/id").asText();
      assertThat(get(guest, picture).statusCode()).isEqualTo(200);
      for (Face face : new PhotoStore(archive).faces()) {
        HttpResponse<String> annotations = get(guest, root + "annotations/" + face.id() + ".json");
        boolean told = Files.exists(out.resolve("annotations/" + face.id() + ".json"));
        assertThat(annotations.statusCode()).isEqualTo(told ? 200 : 404);
      }
    }
  }

  private static PhotographId shot(Archive archive) {
    return new PhotoStore(archive)
        .photographs().stream()
            .filter(shot -> shot.heightPx() == 360)
            .findFirst()
            .orElseThrow()
            .id();
  }

  private static HttpResponse<String> get(HttpClient client, String address) throws Exception {
    return client.send(
        HttpRequest.newBuilder(URI.create(address)).GET().build(),
        HttpResponse.BodyHandlers.ofString());
  }

  private static JsonNode json(Path file) throws IOException {
    return Json.read(Files.readString(file), JsonNode.class);
  }

  private static Path local(String address) {
    assertThat(address).startsWith(BASE);
    return out.resolve(address.substring(BASE.length()));
  }
}
