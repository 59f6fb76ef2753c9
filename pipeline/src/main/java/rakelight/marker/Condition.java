package rakelight.marker;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/**
 * The words for a marker's condition. Those for decay are terms of ICOMOS-ISCS, Illustrated
 * Glossary on Stone Deterioration Patterns (Monuments and Sites XV, 2008), put as one sees them:
 * deformation (bowed), crack, blistering, bursting, delamination, exfoliation, granular
 * disintegration (of marble: sugaring), fragmentation (splintering), peeling, scaling,
 * alveolization (honeycombed), erosion, pitting, mechanical damage, missing part, crust,
 * encrustation, efflorescence (salt), deposit, discoloration, soiling, graffiti, biological
 * colonization; what they mean is told from memory. Those for how a marker stands and for what
 * endangers a visitor are common words of the trade, no source.
 */
public enum Condition {
  SOUND("stands upright, its surface whole"),
  LEANING("out of upright", Concern.UNSAFE),
  LOOSE("a joint is open, or it was seen to move", Concern.UNSAFE),
  BROKEN("in two or more pieces", Concern.UNSAFE),
  FALLEN("lies, wholly or in part", Concern.UNSAFE),
  UNDERMINED("the ground under it is hollow or washed out", Concern.UNSAFE),
  SUNKEN("part of it has gone into the ground"),
  CRACKED("a break shows as a line", Concern.UNSAFE, Concern.FADING),
  BOWED("bent without loss, as thin slabs are", Concern.FADING),
  BLISTERING("its skin is raised and hollow, not yet open", Concern.FADING),
  BURSTING("a crater pushed from inside, as over a rusting pin", Concern.FADING),
  DELAMINATING("splits along its own layers", Concern.FADING),
  EXFOLIATING("several thin leaves lift side by side", Concern.FADING),
  SUGARING("grains come loose", Concern.FADING),
  SPLINTERING("pieces of no regular shape come off", Concern.FADING),
  PEELING("a thin skin lifts, thinner than a scale", Concern.FADING),
  SCALING("plates come off that don't follow its layers", Concern.FADING),
  HONEYCOMBED("cavities side by side, thin walls between", Concern.FADING),
  ERODING("the surface goes, letters turn round and flat", Concern.FADING),
  PITTED("small shallow holes that don't join"),
  STRUCK("scratched, cut or chipped, as by a mower"),
  PART_MISSING("a piece is gone"),
  CRUST("a layer that holds together lies on the surface; black where rain doesn't reach"),
  ENCRUSTATION("a hard mineral layer, where water seeps"),
  SALT("whitish crystals on the surface"),
  DEPOSIT("loose matter lies on it: dust, splashes, droppings"),
  STAINED("coloured, bleached or damp in places"),
  SOILED("a layer of dirt"),
  GRAFFITI("painted or scratched on later"),
  VANDALISED("damaged by people; say when, if that is known"),
  BIOLOGICAL_GROWTH("algae, lichen, moss, mould or plants"),
  REPAIRED("mended earlier; say with what: cement, resin and glue can do harm"),
  ILLEGIBLE("no letter can be made out"),
  OPEN_VAULT("a vault or a grave is open beside it", Concern.UNSAFE),
  DEAD_BRANCH("a dead branch or tree hangs over it", Concern.UNSAFE),
  INSECTS("wasps, bees, ants or ticks live there", Concern.UNSAFE),
  ROADSIDE("one stands on or beside a road to see it", Concern.UNSAFE);

  /** What a word warns of. */
  public enum Concern {
    /** It may hurt whoever stands beside it. */
    UNSAFE,
    /** Its letters are going: it is to be recorded soon. */
    FADING
  }

  private final Set<Concern> concerns;
  private final String meaning;

  Condition(String meaning, Concern... concerns) {
    this.concerns = Set.of(concerns);
    this.meaning = meaning;
  }

  /** What it warns of; nothing for most. */
  public Set<Concern> concerns() {
    return concerns;
  }

  /** What it means, in a few words. */
  public String meaning() {
    return meaning;
  }

  /** As people write it: {@code biological growth}. */
  public String label() {
    return name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }

  /** The word of a label, in whatever case. */
  public static Optional<Condition> of(String label) {
    return Arrays.stream(values())
        .filter(word -> word.label().equalsIgnoreCase(label.strip()))
        .findFirst();
  }
}
