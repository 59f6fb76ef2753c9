package rakelight.ground;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import rakelight.ground.FamilyGroup.Tie;

/**
 * A family's tree as its stones tell it, laid out to be drawn: married people side by side,
 * children below, in the order in which they are named. Units are those of the drawing.
 *
 * @param nodes who is tied to somebody of the family by what a stone says
 * @param edges one for each tie that leads to somebody of the family; where both parents are told
 *     by the same words, one for both
 */
public record FamilyTree(double wide, double high, List<Node> nodes, List<Edge> edges) {
  /** How wide and high a person's box is. */
  public static final double BOX_WIDE = 200;

  public static final double BOX_HIGH = 62;
  private static final double BETWEEN = 24;
  private static final double BETWEEN_MARRIED = 70;
  private static final double BETWEEN_GENERATIONS = 58;
  private static final double MARGIN = 10;

  private static final Set<String> MARRIED =
      Set.of("wife", "husband", "widow", "widower", "relict", "spouse", "consort");
  private static final Set<String> CHILD =
      Set.of(
          "son",
          "sons",
          "daughter",
          "daughters",
          "child",
          "children",
          "infant",
          "infants",
          "twin",
          "twins",
          "stepson",
          "stepdaughter");
  private static final Set<String> PARENT = Set.of("father", "mother", "parent");

  /**
   * A box.
   *
   * @param person place in the family's list
   */
  public record Node(int person, double x, double y) {}

  /**
   * A line from box to box.
   *
   * @param d as SVG has it
   * @param x where its word stands, and {@code y}
   */
  public record Edge(Tie tie, String d, double x, double y) {}

  public FamilyTree {
    nodes = List.copyOf(nodes);
    edges = List.copyOf(edges);
  }

  /** The tree of a family; empty of boxes where no stone tells who is whose. */
  public static FamilyTree of(FamilyGroup family) {
    return new Layout(family).tree();
  }

  /** What is known while it is laid out. */
  private static final class Layout {
    private final FamilyGroup family;
    private final List<Tie> told = new ArrayList<>();
    private final Map<Integer, Integer> unitOf = new TreeMap<>();
    private final Map<Integer, Set<Integer>> parents = new TreeMap<>();
    private final Map<Integer, Set<Integer>> below = new TreeMap<>();
    private final Set<Integer> withParent = new HashSet<>();
    private final Map<Integer, double[]> at = new TreeMap<>();
    private final Set<Integer> placed = new HashSet<>();

    Layout(FamilyGroup family) {
      this.family = family;
      for (Tie tie : family.ties()) {
        if (tie.to().isPresent() && place(tie) >= 0 && sort(tie) != 0) {
          told.add(tie);
          unitOf.put(who(tie), who(tie));
          unitOf.put(place(tie), place(tie));
        }
      }
      for (Tie tie : told) {
        if (sort(tie) == 1) {
          int kept = Math.min(unit(who(tie)), unit(place(tie)));
          int gone = Math.max(unit(who(tie)), unit(place(tie)));
          unitOf.replaceAll((person, unit) -> unit == gone ? kept : unit);
        } else {
          parents.computeIfAbsent(child(tie), c -> new TreeSet<>()).add(parent(tie));
        }
      }
      parents.forEach(
          (child, own) -> {
            int unit = unit(own.iterator().next());
            if (unit != unit(child) && withParent.add(unit(child))) {
              below.computeIfAbsent(unit, u -> new LinkedHashSet<>()).add(unit(child));
            }
          });
    }

    /** 1 for married people, 2 for a child of somebody, 3 for a parent; 0 for what isn't drawn. */
    private static int sort(Tie tie) {
      String relation = tie.relation().toLowerCase(Locale.ROOT);
      return MARRIED.contains(relation)
          ? 1
          : CHILD.contains(relation) ? 2 : PARENT.contains(relation) ? 3 : 0;
    }

    private int who(Tie tie) {
      return family.persons().indexOf(tie.who());
    }

    private int place(Tie tie) {
      return tie.to().map(family.persons()::indexOf).orElse(-1);
    }

    private int child(Tie tie) {
      return sort(tie) == 2 ? who(tie) : place(tie);
    }

    private int parent(Tie tie) {
      return sort(tie) == 2 ? place(tie) : who(tie);
    }

    private int unit(int person) {
      return unitOf.getOrDefault(person, person);
    }

    private List<Integer> members(int unit) {
      return unitOf.keySet().stream().filter(person -> unit(person) == unit).toList();
    }

    private double own(int unit) {
      int count = members(unit).size();
      return count * BOX_WIDE + (count - 1) * BETWEEN_MARRIED;
    }

    private double wide(int unit, Set<Integer> seen) {
      if (!seen.add(unit)) {
        return 0;
      }
      double children = -BETWEEN;
      for (int child : below.getOrDefault(unit, Set.of())) {
        children += wide(child, seen) + BETWEEN;
      }
      return Math.max(own(unit), children);
    }

    private void put(int unit, double left, int generation) {
      if (!placed.add(unit)) {
        return;
      }
      double whole = wide(unit, new HashSet<>());
      double x = left + (whole - own(unit)) / 2;
      double y = MARGIN + generation * (BOX_HIGH + BETWEEN_GENERATIONS);
      for (int person : members(unit)) {
        at.put(person, new double[] {x, y});
        x += BOX_WIDE + BETWEEN_MARRIED;
      }
      double children = -BETWEEN;
      for (int child : below.getOrDefault(unit, Set.of())) {
        children += wide(child, new HashSet<>()) + BETWEEN;
      }
      double next = left + Math.max(0, (whole - children) / 2);
      for (int child : below.getOrDefault(unit, Set.of())) {
        put(child, next, generation + 1);
        next += wide(child, new HashSet<>()) + BETWEEN;
      }
    }

    FamilyTree tree() {
      double left = MARGIN;
      Set<Integer> units = new TreeSet<>(unitOf.values());
      // A circle of parents, which no stone should tell, has no one to begin with.
      List<Integer> first =
          new ArrayList<>(units.stream().filter(u -> !withParent.contains(u)).toList());
      first.addAll(units);
      for (int unit : first) {
        if (!placed.contains(unit)) {
          put(unit, left, 0);
          left += wide(unit, new HashSet<>()) + BETWEEN;
        }
      }
      double wide = 0;
      double high = 0;
      List<Node> nodes = new ArrayList<>();
      for (Map.Entry<Integer, double[]> one : at.entrySet()) {
        nodes.add(new Node(one.getKey(), one.getValue()[0], one.getValue()[1]));
        wide = Math.max(wide, one.getValue()[0] + BOX_WIDE + MARGIN);
        high = Math.max(high, one.getValue()[1] + BOX_HIGH + MARGIN);
      }
      return new FamilyTree(wide, high, nodes, edges());
    }

    private List<Edge> edges() {
      List<Edge> edges = new ArrayList<>();
      Map<String, Tie> both = new HashMap<>();
      for (Tie tie : told) {
        if (sort(tie) == 1) {
          edges.add(married(tie));
          continue;
        }
        List<Integer> couple =
            parents.getOrDefault(child(tie), Set.of()).stream()
                .filter(parent -> unit(parent) == unit(parent(tie)))
                .toList();
        String words = child(tie) + " " + unit(parent(tie)) + " " + tie.signs();
        boolean asOne =
            couple.size() > 1
                && told.stream()
                        .filter(
                            o ->
                                words.equals(
                                    sort(o) == 1
                                        ? ""
                                        : child(o) + " " + unit(parent(o)) + " " + o.signs()))
                        .count()
                    > 1;
        if (!asOne) {
          edges.add(descent(tie, at(parent(tie))[0] + BOX_WIDE / 2, at(parent(tie))[1] + BOX_HIGH));
        } else if (both.putIfAbsent(words, tie) == null) {
          double x = couple.stream().mapToDouble(p -> at(p)[0] + BOX_WIDE / 2).average().orElse(0);
          edges.add(descent(tie, x, at(couple.get(0))[1] + BOX_HIGH / 2));
        }
      }
      return edges;
    }

    private double[] at(int person) {
      return Optional.ofNullable(at.get(person)).orElseThrow();
    }

    private Edge married(Tie tie) {
      double[] one = at(who(tie));
      double[] other = at(place(tie));
      double left = Math.min(one[0], other[0]) + BOX_WIDE;
      double right = Math.max(one[0], other[0]);
      double y = one[1] + BOX_HIGH / 2;
      boolean beside = right - left <= BETWEEN_MARRIED + 1;
      double over = one[1] - 6;
      String d =
          beside
              ? path("M%.0f %.0fH%.0f", left, y, right)
              : path(
                  "M%.0f %.0fV%.0fH%.0fV%.0f",
                  left - BOX_WIDE / 2, one[1], over, right + BOX_WIDE / 2, one[1]);
      return new Edge(tie, d, beside ? (left + right) / 2 : left + 20, beside ? y - 5 : over + 2);
    }

    private Edge descent(Tie tie, double fromX, double fromY) {
      double[] child = at(child(tie));
      double x = child[0] + BOX_WIDE / 2;
      double middle = child[1] - BETWEEN_GENERATIONS / 2;
      return new Edge(
          tie,
          path("M%.0f %.0fV%.0fH%.0fV%.0f", fromX, fromY, middle, x, child[1]),
          x + 4,
          child[1] - 8);
    }

    private static String path(String format, Object... values) {
      return String.format(Locale.ROOT, format, values);
    }
  }
}
