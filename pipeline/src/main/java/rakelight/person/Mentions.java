package rakelight.person;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import rakelight.inscription.SignId;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.Statement.Kind;

/** Gathers who is spoken of on faces: those named for themselves and those named as their kin. */
final class Mentions {
  private Mentions() {}

  static List<Mention> of(List<FaceStatements> faces) {
    List<Mention> mentions = new ArrayList<>();
    faces.forEach(face -> mentions.addAll(of(face)));
    return List.copyOf(mentions);
  }

  private static List<Mention> of(FaceStatements face) {
    List<Mention> own = new ArrayList<>();
    List<Mention> kinOnly = new ArrayList<>();
    for (Statement statement : face.statements()) {
      if (statement.kind() == Kind.NAME) {
        Detail.Name name = statement.detail(Detail.Name.class).orElseThrow();
        List<Statement> about =
            face.statements().stream()
                .filter(s -> s.persons().contains(statement.person()))
                .toList();
        own.add(
            new Mention(
                id(face, statement.signs().get(0), 0),
                face,
                statement.person(),
                name,
                about,
                kin(face, statement.person())));
      }
      statement
          .detail(Detail.Kinship.class)
          .filter(kin -> !statement.persons().isEmpty())
          .ifPresent(kin -> kinOnly.addAll(named(face, statement, kin)));
    }
    own.addAll(kinOnly);
    return own;
  }

  private static MentionId id(FaceStatements face, SignId sign, int place) {
    return new MentionId(face.face().id(), sign.number(), place);
  }

  /** Those a kinship names; whom "his" means is on the face already. */
  private static List<Mention> named(FaceStatements face, Statement statement, Detail.Kinship kin) {
    List<Mention> mentions = new ArrayList<>();
    if (!kin.persons().isEmpty()) {
      return mentions;
    }
    for (int i = 0; i < kin.names().size(); i++) {
      String[] parts = kin.names().get(i).split("\\|", -1);
      // Husband, wife and child bear one surname unless another is carved.
      String lent = nameOf(face, statement.persons().get(0)).replaceFirst(".*\\|", "");
      String surname = parts[1].isEmpty() && (kin.isMarriage() || kin.isChild()) ? lent : parts[1];
      Detail.Name name = new Detail.Name(parts[0], surname, "", List.of(), List.of());
      List<Mention.Kin> relatives = new ArrayList<>();
      for (int person : statement.persons()) {
        relatives.add(new Mention.Kin(reverse(kin), nameOf(face, person)));
      }
      for (int other = 0; other < kin.names().size(); other++) {
        if (other != i && kin.isChild()) {
          relatives.add(new Mention.Kin("spouse", kin.names().get(other)));
        }
      }
      mentions.add(
          new Mention(
              id(face, statement.signs().get(0), i + 1),
              face,
              statement.person(),
              name,
              List.of(statement),
              relatives));
    }
    return mentions;
  }

  private static List<Mention.Kin> kin(FaceStatements face, int person) {
    List<Mention.Kin> relatives = new ArrayList<>();
    for (Statement statement : face.statements()) {
      Optional<Detail.Kinship> kin = statement.detail(Detail.Kinship.class);
      if (kin.isEmpty()) {
        continue;
      }
      if (statement.persons().contains(person)) {
        String relation =
            kin.get().isMarriage() ? "spouse" : kin.get().isChild() ? "parent" : "other";
        kin.get().names().forEach(name -> relatives.add(new Mention.Kin(relation, name)));
      }
      if (kin.get().persons().contains(person)) {
        statement
            .persons()
            .forEach(
                other -> relatives.add(new Mention.Kin(reverse(kin.get()), nameOf(face, other))));
      }
    }
    return relatives.stream().distinct().toList();
  }

  /** What the person of the statement is to those it names. */
  private static String reverse(Detail.Kinship kin) {
    return kin.isMarriage()
        ? "spouse"
        : kin.isChild() ? "child" : kin.isParent() ? "parent" : "other";
  }

  private static String nameOf(FaceStatements face, int person) {
    return face.statements().stream()
        .filter(s -> s.kind() == Kind.NAME && s.person() == person)
        .map(Statement::value)
        .findFirst()
        .orElse("|");
  }
}
