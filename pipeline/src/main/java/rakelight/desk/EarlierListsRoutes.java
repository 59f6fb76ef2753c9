package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.ground.witness.SideBySide;
import rakelight.ground.witness.WitnessList;
import rakelight.ground.witness.WitnessMatch;
import rakelight.ground.witness.WitnessMatches;
import rakelight.ground.witness.WitnessStore;

/**
 * Earlier lists beside the stones: rows whose stone is in doubt, and where list and stone differ.
 * For those who may decide: a list names whom it likes.
 */
final class EarlierListsRoutes {
  private static final String HERE = "/earlier-lists";
  private static final int MOST_SHOWN = 50;

  private final Archive archive;
  private final Requests requests;
  private final Pages pages;

  EarlierListsRoutes(Archive archive, Requests requests, Pages pages) {
    this.archive = archive;
    this.requests = requests;
    this.pages = pages;
  }

  void addTo(Javalin server) {
    server.get(HERE, context -> show(context, ""));
    server.post(HERE, this::judge);
  }

  private void show(Context context, String message) {
    requests.deciding(context);
    WitnessMatches matches = new WitnessMatches(archive);
    List<EarlierListsPage.OfSource> lists = new ArrayList<>();
    List<WitnessMatch> all = new ArrayList<>();
    for (WitnessList list : new WitnessStore(archive).lists()) {
      List<WitnessMatch> own = matches.of(list);
      all.addAll(own);
      long settled = own.stream().filter(WitnessMatch::isSettled).count();
      lists.add(
          new EarlierListsPage.OfSource(
              "/sources/" + list.sourceNumber(),
              list.title(),
              settled + " of " + own.size() + " rows have their stone"));
    }
    List<WitnessMatch> open = all.stream().filter(match -> !match.isSettled()).toList();
    List<WitnessMatch.Difference> differing = matches.differences(all);
    pages.show(
        context,
        "earlier-lists",
        Map.of(
            "lists",
            new EarlierListsPage(
                lists,
                open.stream().limit(MOST_SHOWN).map(EarlierListsRoutes::open).toList(),
                open.size(),
                differing.stream().limit(MOST_SHOWN).map(EarlierListsRoutes::differing).toList(),
                differing.size(),
                message)));
  }

  private static EarlierListsPage.Open open(WitnessMatch match) {
    return new EarlierListsPage.Open(
        match.place(),
        match.row().called(),
        match.row().letters(),
        match.candidates().stream()
            .map(
                one ->
                    new EarlierListsPage.Perhaps(
                        one.number(), "/markers/" + one.marker(), String.join("; ", one.reasons())))
            .toList());
  }

  private static EarlierListsPage.Differing differing(WitnessMatch.Difference difference) {
    WitnessMatch.Candidate stone = difference.match().candidates().get(0);
    return new EarlierListsPage.Differing(
        difference.match().place(),
        stone.number(),
        "/markers/" + stone.marker(),
        difference.faceName(),
        difference.letters().sort().words(),
        pieces(difference.letters()));
  }

  /** Cut at spaces, so that the pieces flow on a narrow page, and where marks begin and end. */
  private static List<EarlierListsPage.Piece> pieces(SideBySide letters) {
    List<String> stone = signs(letters.stone());
    List<String> list = signs(letters.list());
    List<EarlierListsPage.Piece> pieces = new ArrayList<>();
    int from = 0;
    for (int i = 1; i <= stone.size(); i++) {
      boolean ends =
          i == stone.size()
              || letters.marks().charAt(i) != letters.marks().charAt(from)
              || stone.get(i - 1).equals(" ")
              || list.get(i - 1).equals(" ");
      if (ends) {
        pieces.add(
            new EarlierListsPage.Piece(
                String.join("", stone.subList(from, i)),
                String.join("", list.subList(from, i)),
                switch (letters.marks().charAt(from)) {
                  case '^' -> "differs";
                  case '+' -> "more";
                  default -> "";
                }));
        from = i;
      }
    }
    return pieces;
  }

  private static List<String> signs(String text) {
    return text.codePoints().mapToObj(Character::toString).toList();
  }

  private void judge(Context context) {
    Map<String, String> form = requests.decidingForm(context);
    try {
      new WitnessStore(archive)
          .judge(
              Requests.words(form, "row"),
              Requests.words(form, "marker"),
              Requests.words(form, "do").equals("is"),
              "",
              requests.by(context).name());
      context.redirect(HERE, HttpStatus.SEE_OTHER);
    } catch (ArchiveException e) {
      show(context, String.valueOf(e.getMessage()));
    }
  }
}
