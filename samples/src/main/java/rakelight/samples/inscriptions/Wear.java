package rakelight.samples.inscriptions;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import rakelight.samples.inscriptions.InventedStone.Cut;

/**
 * What time and reader did to the letters of a stone. Half of those touched lie in patches of two
 * to six, as frost and lichen leave them, the others alone. Of five two are lost, one is illegible;
 * of the rest most are open between two and some are misread and not marked. The shares are our
 * choice, no source.
 */
final class Wear {
  private enum Standing {
    CLEAR,
    LOST,
    ILLEGIBLE,
    OPEN,
    MISREAD
  }

  private static final double IN_PATCHES = 0.5;
  private static final double LOST = 0.42;
  private static final double ILLEGIBLE = 0.62;
  private static final double OPEN = 0.87;
  private static final int LONGEST_PATCH = 6;

  /** How often an open letter's likelier reading is the true one. */
  private static final double LIKELIER_IS_TRUE = 0.7;

  /** What is taken for what where the cut is worn: by shape, from memory, no source. */
  private static final Map<Character, String> TAKEN_FOR =
      Map.ofEntries(
          Map.entry('a', "oe"),
          Map.entry('b', "hl"),
          Map.entry('c', "eo"),
          Map.entry('d', "oa"),
          Map.entry('e', "co"),
          Map.entry('f', "ts"),
          Map.entry('g', "qy"),
          Map.entry('h', "bn"),
          Map.entry('i', "lt"),
          Map.entry('j', "i"),
          Map.entry('k', "hx"),
          Map.entry('l', "it"),
          Map.entry('m', "nw"),
          Map.entry('n', "um"),
          Map.entry('o', "ac"),
          Map.entry('p', "rq"),
          Map.entry('q', "gp"),
          Map.entry('r', "nt"),
          Map.entry('s', "ae"),
          Map.entry('t', "lf"),
          Map.entry('u', "nv"),
          Map.entry('v', "yu"),
          Map.entry('w', "vm"),
          Map.entry('x', "k"),
          Map.entry('y', "vg"),
          Map.entry('z', "s"),
          Map.entry('A', "RH"),
          Map.entry('B', "RE"),
          Map.entry('C', "GO"),
          Map.entry('D', "OB"),
          Map.entry('E', "FB"),
          Map.entry('F', "EP"),
          Map.entry('G', "CO"),
          Map.entry('H', "NM"),
          Map.entry('I', "LT"),
          Map.entry('J', "IL"),
          Map.entry('K', "RH"),
          Map.entry('L', "IE"),
          Map.entry('M', "NH"),
          Map.entry('N', "HM"),
          Map.entry('O', "CQ"),
          Map.entry('P', "FR"),
          Map.entry('Q', "OG"),
          Map.entry('R', "BP"),
          Map.entry('S', "GB"),
          Map.entry('T', "IL"),
          Map.entry('U', "VO"),
          Map.entry('V', "UY"),
          Map.entry('W', "VM"),
          Map.entry('X', "K"),
          Map.entry('Y', "VT"),
          Map.entry('Z', "S"),
          Map.entry('0', "68"),
          Map.entry('1', "74"),
          Map.entry('2', "7"),
          Map.entry('3', "85"),
          Map.entry('4', "1"),
          Map.entry('5', "36"),
          Map.entry('6', "05"),
          Map.entry('7', "1"),
          Map.entry('8', "36"),
          Map.entry('9', "04"));

  private final List<Cut> cut;
  private final Standing[] standings;
  private final char[] others;
  private final double[] trueShare;
  private final Map<Integer, StringBuilder> left = new HashMap<>();
  private final Map<Integer, Boolean> touched = new HashMap<>();

  /**
   * Wears a stone.
   *
   * @param share of the letters and figures that are touched, 0..1
   */
  Wear(InventedStone stone, double share, Random random) {
    cut = stone.cut();
    standings = new Standing[cut.size()];
    others = new char[cut.size()];
    trueShare = new double[cut.size()];
    int patch = 0;
    // Patches of so many letters on average cover their part; single ones are touched between them.
    double covered = share * IN_PATCHES;
    double length = (2 + LONGEST_PATCH) / 2.0;
    double patchBegins = covered / (length - covered * (length - 1));
    double single = (share - covered) / (1 - covered);
    for (int i = 0; i < cut.size(); i++) {
      Cut one = cut.get(i);
      standings[i] = Standing.CLEAR;
      if (patch == 0 && random.nextDouble() < patchBegins) {
        patch = 2 + random.nextInt(LONGEST_PATCH - 1);
      }
      boolean touch = patch > 0 || random.nextDouble() < single;
      patch = Math.max(0, patch - 1);
      if (touch && TAKEN_FOR.containsKey(one.letter())) {
        standings[i] = standing(random);
        String forms = TAKEN_FOR.getOrDefault(one.letter(), "");
        others[i] = forms.charAt(random.nextInt(forms.length()));
        trueShare[i] = random.nextDouble() < LIKELIER_IS_TRUE ? 0.6 : 0.4;
      }
      if (one.stretch() >= 0) {
        left.computeIfAbsent(one.stretch(), s -> new StringBuilder()).append(seen(i));
        touched.merge(one.stretch(), standings[i] != Standing.CLEAR, Boolean::logicalOr);
      }
    }
  }

  private static Standing standing(Random random) {
    double at = random.nextDouble();
    return at < LOST
        ? Standing.LOST
        : at < ILLEGIBLE ? Standing.ILLEGIBLE : at < OPEN ? Standing.OPEN : Standing.MISREAD;
  }

  private char seen(int i) {
    return switch (standings[i]) {
      case CLEAR -> cut.get(i).breaks() ? ' ' : cut.get(i).letter();
      case MISREAD -> others[i];
      case LOST, ILLEGIBLE, OPEN -> '?';
    };
  }

  /** Whether any letter of the stretch is no longer what was cut. */
  boolean touches(int stretch) {
    return touched.getOrDefault(stretch, false);
  }

  /** What the stretch says now, {@code ?} where nobody knows. */
  String left(int stretch) {
    return left.getOrDefault(stretch, new StringBuilder()).toString().strip();
  }

  /** The lines in Leiden signs. */
  List<String> lines() {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (int i = 0; i < cut.size(); i++) {
      Cut one = cut.get(i);
      if (one.breaks()) {
        lines.add(line.toString().strip());
        line.setLength(0);
        continue;
      }
      switch (standings[i]) {
        case CLEAR -> line.append(one.raised() ? "^" : "").append(sign(one.letter()));
        case MISREAD -> line.append(others[i]);
        case ILLEGIBLE -> line.append('+');
        case OPEN -> {
          char first = trueShare[i] > 0.5 ? one.letter() : others[i];
          char second = trueShare[i] > 0.5 ? others[i] : one.letter();
          line.append(String.format(Locale.ROOT, "(%c 60%% or %c 40%%)", first, second));
        }
        case LOST -> {
          boolean goesOn = i > 0 && standings[i - 1] == Standing.LOST && !cut.get(i - 1).breaks();
          if (goesOn) {
            line.setLength(line.length() - 1);
          }
          line.append(goesOn ? ".]" : "[.]");
        }
      }
    }
    lines.add(line.toString().strip());
    lines.removeIf(String::isEmpty);
    return lines;
  }

  /** A clear sign, so that it isn't taken for one of Leiden's. */
  private static String sign(char letter) {
    return "()[]<>{}+?=\\".indexOf(letter) >= 0 ? "\\" + letter : String.valueOf(letter);
  }
}
