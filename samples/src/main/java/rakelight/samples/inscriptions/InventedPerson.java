package rakelight.samples.inscriptions;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.Function;

/** Somebody on an invented stone, and what is known of him by it. */
final class InventedPerson {
  /** Why somebody stands there. */
  enum Role {
    COMMEMORATED,
    KIN,
    MOURNER
  }

  /** A form of a name, and the stretch where it is cut; less than 0 where it isn't. */
  private record Form(String text, int stretch) {}

  private final char key;
  private final Role role;
  private final List<Form> given = new ArrayList<>();
  private final List<Form> surname = new ArrayList<>();
  private final List<Form> maiden = new ArrayList<>();
  private final List<Function<Wear, String>> facts = new ArrayList<>();

  InventedPerson(char key, Role role) {
    this.key = key;
    this.role = role;
  }

  /** A form that counts as the given name. */
  InventedPerson given(String text, int stretch) {
    given.add(new Form(text, stretch));
    return this;
  }

  /** A form that counts as the surname, cut there or lent from there. */
  InventedPerson surname(String text, int stretch) {
    surname.add(new Form(text, stretch));
    return this;
  }

  /** The same surname as somebody's. */
  InventedPerson surnameOf(InventedPerson other) {
    surname.addAll(other.surname);
    return this;
  }

  /** A form that counts as the name borne at birth; an empty one says that none need be said. */
  InventedPerson maiden(String text, int stretch) {
    maiden.add(new Form(text, stretch));
    return this;
  }

  /** Kinship to somebody on the stone. */
  InventedPerson kin(String relation, InventedPerson to) {
    facts.add(wear -> relation + " of " + to.key);
    return this;
  }

  /** Something told by words cut as they are told. */
  InventedPerson words(String kind, String text, int stretch) {
    facts.add(
        wear -> {
          String left = wear.left(stretch);
          boolean gone = left.replace("?", "").isBlank();
          return (gone ? "?" : "")
              + kind
              + " "
              + text
              + (left.equalsIgnoreCase(text) ? "" : " / " + left);
        });
    return this;
  }

  /** Something told as it is, whatever has become of the stone. */
  InventedPerson fact(String line) {
    facts.add(wear -> line);
    return this;
  }

  /** Something that is told by what is left. */
  InventedPerson fact(Function<Wear, String> line) {
    facts.add(line);
    return this;
  }

  /** The line of the file, after this wear. */
  String line(Wear wear) {
    StringBuilder line = new StringBuilder().append(key).append(' ');
    if (role != Role.COMMEMORATED) {
      line.append('(').append(role.name().toLowerCase(Locale.ROOT)).append(") ");
    }
    line.append("= ").append(forms(given, wear)).append('|').append(forms(surname, wear));
    if (!maiden.isEmpty()) {
      line.append('|').append(forms(maiden, wear));
    }
    facts.forEach(fact -> line.append(" ; ").append(fact.apply(wear)));
    return line.toString();
  }

  private static String forms(List<Form> forms, Wear wear) {
    Set<String> all = new LinkedHashSet<>();
    for (Form form : forms) {
      all.add(form.text().isEmpty() ? "-" : form.text());
      if (form.stretch() >= 0 && wear.touches(form.stretch())) {
        String left = wear.left(form.stretch());
        all.add(left.replace("?", "").isBlank() ? "-" : left);
        all.add(left);
      }
    }
    return all.isEmpty() ? "-" : String.join(" / ", all);
  }
}
