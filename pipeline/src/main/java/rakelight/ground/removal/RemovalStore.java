package rakelight.ground.removal;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.Json;
import rakelight.archive.NewDecision;
import rakelight.archive.Projection;
import rakelight.archive.SourceId;
import rakelight.inscription.Reading;
import rakelight.person.Evidence;
import rakelight.person.Mention;
import rakelight.person.MentionId;
import rakelight.person.RowsOfSource;
import rakelight.person.Source;
import rakelight.person.SourceStore;

/** Registers of removals, and what people decided of who on the stones is who in them. */
public final class RemovalStore {
  /** Subject: the source. Rests on the decision that recorded it. */
  static final String LISTED = "removal.listed";

  /** Subject: the source. Rests on the listing and on the reading that names the person. */
  static final String IS = "removal.is";

  static final String IS_NOT = "removal.is-not";

  private final Archive archive;

  /** Version 1 of the payload of {@link #LISTED}. */
  record Listed(
      String file,
      Map<String, String> columns,
      List<RemovalRegister.Stated> stated,
      List<Removal> rows) {}

  /** Version 1 of the payload of {@link #IS} and {@link #IS_NOT}. */
  record Judged(int row, MentionId mention, String note) {}

  /**
   * What somebody decided about a row.
   *
   * @param is whether the mention is of the person of the row; else it is of another
   */
  public record RemovalOpinion(
      SourceId source,
      int row,
      boolean is,
      MentionId mention,
      String reader,
      DecisionId decision) {}

  public RemovalStore(Archive archive) {
    this.archive = archive;
  }

  /** The state tables of this store. */
  public static Projection projection() {
    return new RemovalProjection();
  }

  /** Whether a decision of this kind says who somebody in a register is. */
  public static boolean isOpinion(String kind) {
    return kind.equals(IS) || kind.equals(IS_NOT);
  }

  /** Every register that was taken in, by the order in which its source was recorded. */
  public List<RemovalRegister> registers() {
    Map<SourceId, List<Removal>> rows = new HashMap<>();
    Map<SourceId, RemovalRegister> bare = new HashMap<>();
    List<Source> sources = new SourceStore(archive).sources();
    archive
        .ledger()
        .read(
            handle -> {
              handle
                  .select("SELECT source, document FROM removal ORDER BY source, row")
                  .map(
                      (row, context) ->
                          rows.computeIfAbsent(
                                  SourceId.of(row.getString("source")), s -> new ArrayList<>())
                              .add(Json.read(row.getString("document"), Removal.class)))
                  .list();
              for (Source source : sources) {
                handle
                    .select(
                        "SELECT * FROM removal_register WHERE source = ?", source.id().toString())
                    .map(
                        (row, context) ->
                            new RemovalRegister(
                                source.id(),
                                source.number(),
                                source.title(),
                                row.getString("file"),
                                Json.words(row.getString("columns")),
                                List.of(
                                    Json.read(
                                        row.getString("stated"), RemovalRegister.Stated[].class)),
                                List.of(),
                                DecisionId.of(row.getString("decision_id"))))
                    .findOne()
                    .ifPresent(register -> bare.put(source.id(), register));
              }
              return 0;
            });
    return sources.stream()
        .flatMap(source -> Optional.ofNullable(bare.get(source.id())).stream())
        .map(
            register ->
                new RemovalRegister(
                    register.source(),
                    register.sourceNumber(),
                    register.title(),
                    register.file(),
                    register.columns(),
                    register.stated(),
                    rows.getOrDefault(register.source(), List.of()),
                    register.decision()))
        .toList();
  }

  /**
   * The register of a source such as {@code 5}, or of a row such as {@code 5.17}.
   *
   * @throws ArchiveException if none was taken in for it
   */
  public RemovalRegister register(String number) {
    return RowsOfSource.of(
        registers(),
        number,
        "There is no register of removals of source %s here. `removals` lists them.");
  }

  /**
   * Takes a register in.
   *
   * @throws ArchiveException if one of this source is here already
   */
  public DecisionId list(
      Source source,
      String file,
      RemovalFile register,
      List<RemovalRegister.Stated> stated,
      String reader) {
    return archive
        .ledger()
        .write(
            handle -> {
              RowsOfSource.requireNone(registers(), source, "removals");
              return archive
                  .journal()
                  .append(
                      NewDecision.of(
                              reader,
                              LISTED,
                              1,
                              source.id().value(),
                              new Listed(file, register.columns(), stated, register.rows()))
                          .restingOn(List.of(source.decision())))
                  .id();
            });
  }

  /** What was decided about rows, the oldest first. */
  public List<RemovalOpinion> opinions() {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .select("SELECT * FROM removal_opinion ORDER BY counter")
                    .map(
                        (row, context) ->
                            new RemovalOpinion(
                                SourceId.of(row.getString("source")),
                                row.getInt("row"),
                                row.getInt("found") == 1,
                                new MentionId(
                                    FaceId.of(row.getString("face")),
                                    row.getInt("sign"),
                                    row.getInt("place")),
                                row.getString("reader"),
                                DecisionId.of(row.getString("decision_id"))))
                    .list());
  }

  /**
   * Says that the person of a row is the one a stone speaks of, or isn't; said again it is left as
   * it is.
   *
   * @param place of the row, such as {@code 5.17}
   * @throws ArchiveException if there is no such row, somebody has said the opposite or that the
   *     row is of another, or the face has been read anew since
   */
  public DecisionId judge(String place, Mention mention, boolean is, String note, String reader) {
    RemovalRegister register = register(place);
    Removal removal = register.row(place);
    return archive
        .ledger()
        .write(
            handle -> {
              new Evidence(archive).requireCurrent(mention);
              for (RemovalOpinion earlier : opinions()) {
                boolean ofRow =
                    earlier.source().equals(register.source()) && earlier.row() == removal.number();
                boolean same = ofRow && earlier.mention().equals(mention.id());
                if (same && earlier.is() == is) {
                  return earlier.decision();
                }
                if (same || (ofRow && is && earlier.is())) {
                  throw new ArchiveException(
                      earlier.reader()
                          + " has said otherwise. Undo that first: undo ARCHIVE "
                          + earlier.decision());
                }
              }
              List<DecisionId> rests = new ArrayList<>(List.of(register.decision()));
              mention.source().reading().map(Reading::decision).ifPresent(rests::add);
              return archive
                  .journal()
                  .append(
                      NewDecision.of(
                              reader,
                              is ? IS : IS_NOT,
                              1,
                              register.source().value(),
                              new Judged(removal.number(), mention.id(), note.strip()))
                          .restingOn(rests))
                  .id();
            });
  }
}
