package rakelight.person;

import java.util.Arrays;
import java.util.HashSet;
import java.util.Set;

/**
 * Words of inscriptions, folded. From practice, no source; only what changes a reading is listed.
 */
final class PersonWords {
  /** Before a name. */
  static final Set<String> TITLES =
      words(
          "mr mrs miss mstr master dr doctr rev revd reverend sir dame lady lord hon honble elder "
              + "deacon capt captn captain lieut lt ensign col colonel major maj genl general sergt "
              + "sgt serjt sergeant corpl corp cpl pvt private pte gunner driver trooper drummer "
              + "cadet commander comr admiral boatswain");

  /** After a name. */
  static final Set<String> SUFFIXES =
      words("gent esq esqr esqre esquire junr junior senr senior jr sr jun sen md dd bart");

  /** What somebody was, beside soldiers. */
  static final Set<String> OFFICES =
      words("minister rector vicar pastor curate master mate schoolmaster");

  /** Trades, after a name or a place and a comma. */
  static final Set<String> OCCUPATIONS =
      words(
          "mariner seaman sailor fisherman pilot shipwright ropemaker sailmaker surgeon physician "
              + "apothecary merchant grocer baker butcher brewer maltster innkeeper vintner farmer "
              + "yeoman husbandman gardener shepherd miller carpenter joiner cooper wheelwright "
              + "blacksmith smith mason bricklayer slater glazier plumber painter printer weaver "
              + "clothier tailor taylor hatter shoemaker cordwainer tanner saddler clockmaker "
              + "teacher attorney counsellor clerk bookseller");

  /** After these a name may follow. */
  static final Set<String> FORMULA_ENDS =
      words(
          "also and & of to here rests resteth our interrd interred lyes lies lieth lyeth "
              + "boy memory memoriam remembrance likewise beneath");

  /** Capitalised or not, no part of a name. */
  static final Set<String> NEVER_A_NAME =
      words(
          "the ye our in of who his her he she their and also to here sacred erected memory "
              + "memoriam loving affectionate remembrance died born aged ae aet aetatis ob obt "
              + "obiit departed life at on for wife son daughter dau relict widow consort "
              + "children infant lost co like till until as that this interrd interred lyes lies lieth lyeth body "
              + "removed by him not gone three two buried married beloved anno these with from "
              + "husband spouse mother father sister brother sons daughters first second third "
              + "only eldest youngest erected inst ult nee beneath drowned killed");

  /** Related by marriage. */
  static final Set<String> SPOUSES =
      words("wife wifes husband relict relick widow widower consort spouse wives");

  /** Related by marriage, and outlived the other. */
  static final Set<String> SURVIVORS = words("relict relick widow widower");

  static final Set<String> CHILDREN =
      words("daughter dau daur daughr son sons daughters child children infant infants twins");

  static final Set<String> PARENTS = words("mother father parents");

  /** Several persons at once. */
  static final Set<String> PLURALS = words("sons daughters children infants twins wives parents");

  /** Relations. */
  static final Set<String> KIN =
      all(
          SPOUSES,
          CHILDREN,
          PARENTS,
          words(
              "sister brother sisters brothers grandson grandsons granddaughter grandchild "
                  + "grandmother grandfather nephew niece uncle aunt stepson"));

  /** May lead a relation. */
  static final Set<String> KIN_BEFORE =
      words(
          "his her their the ye second first third fourth 1st 2d 2nd 3d 3rd beloved belovd infant "
              + "only eldest oldest youngest dear dearly loving affectionate late twin adopted still "
              + "stillborn surviving amiable");

  /** End the name of a unit. */
  static final Set<String> ARMS =
      words(
          "inf infty infantry cav cavalry art arty artillery rifles regt regiment vols vol battn bn "
              + "battalion soldier engineers foot dragoons hussars lancers fusiliers highlanders "
              + "marines militia guards fencibles navy");

  /** May lead a unit. */
  static final Set<String> RANKS =
      words(
          "pvt private pte corpl corp cpl sergt sgt serjt sergeant gunner driver trooper drummer lieut "
              + "lt capt captain major maj col colonel ensign");

  /** Lead a war's name, or are it. */
  static final Set<String> WAR_WORDS = words("war wars revolution rebellion");

  /** Go before the name of a ship. */
  static final Set<String> SHIPS =
      words("ship brig brigantine schooner sloop barque bark steamer smack lugger yacht hms ss");

  /** Say that a body lies here. */
  static final Set<String> LYING =
      words("lyes lies lieth lyeth rests resteth interrd interred deposited buried");

  /** Say before a name that its bearer is dead. */
  static final Set<String> MEMORY = words("memory memoriam remembrance memorie");

  /** Words of the formulas around facts: a line of nothing else is no verse. */
  static final Set<String> FORMULA =
      all(
          FORMULA_ENDS,
          words(
              "the ye y in of body bodies sacred erected loving ever affectionate fond dear this "
                  + "stone tomb monument is was by his her their who whom departed life that "
                  + "also and underneath under lie lieth lyeth deposited remains mortal all what "
                  + "mortall near place spot grave buried burial vault family crew brig ship "
                  + "tribute respect children three two four five son daughter wife widow "
                  + "friends sons daughters raised placed aforesaid aforesd above said named"));

  /** A line with one of these is running speech, or words of comfort. */
  static final Set<String> SPEECH =
      words(
          "the of in and a an is are was were be been his her he she him my thy thou thee we us our "
              + "they them not but no nor so yet till until shall will who when where that this "
              + "these to with from for on at by as like such all ye it its i me gone home rest "
              + "asleep peace heaven forgotten come");

  /** Books of scripture as carved, and a chapter follows. */
  static final Set<String> SCRIPTURE =
      words(
          "gen genesis exod exodus job psalm psalms ps psa prov proverbs eccl eccles isa isaiah "
              + "jer jeremiah lam matt matthew mark luke john acts rom romans cor corinthians gal "
              + "eph phil col thess tim titus heb hebrews james jas pet peter rev revelation "
              + "revelations dan daniel deut sam kings");

  private PersonWords() {}

  @SafeVarargs
  private static Set<String> all(Set<String>... sets) {
    Set<String> all = new HashSet<>();
    for (Set<String> set : sets) {
      all.addAll(set);
    }
    return Set.copyOf(all);
  }

  private static Set<String> words(String list) {
    return Set.copyOf(Arrays.asList(list.split(" ", -1)));
  }
}
