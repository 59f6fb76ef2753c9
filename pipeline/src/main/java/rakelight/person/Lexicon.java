package rakelight.person;

import java.util.Set;

/**
 * Words of inscriptions, folded. From practice, no source; only what changes a reading is listed.
 */
final class Lexicon {
  /** Before a name. */
  static final Set<String> TITLES =
      words(
          "mr mrs miss dr rev revd sir lady capt captain lieut lt col major sergt sgt serjt "
              + "corpl corp cpl pvt private gunner deacon");

  /** After a name. */
  static final Set<String> SUFFIXES = words("gent esq esqr junr senr jr sr");

  /** What somebody was, beside soldiers. */
  static final Set<String> OFFICES = words("minister rector vicar pastor master mate schoolmaster");

  /** After these a name may follow. */
  static final Set<String> FORMULA_ENDS =
      words(
          "also and & of to here rests our interrd interred boy lyes lies lieth lyeth "
              + "memory memoriam remembrance");

  /** Capitalised or not, no part of a name. */
  static final Set<String> NEVER_A_NAME =
      words(
          "the ye our in of who his her he she their and also to here sacred erected memory "
              + "memoriam loving affectionate remembrance died born aged ae aet aetatis ob obt "
              + "obiit departed life at on for wife son daughter dau relict widow consort "
              + "children infant lost co like till until as that this interrd interred lyes lies lieth lyeth body "
              + "removed by him not gone three two buried married beloved anno these with from "
              + "husband");

  /** Relations. */
  static final Set<String> KIN =
      words(
          "wife relict widow consort daughter dau daur daughr son sons daughters child "
              + "children husband mother father sister brother grandson");

  /** May lead a relation. */
  static final Set<String> KIN_BEFORE =
      words("his her their second first third beloved infant only eldest youngest dear dearly");

  /** End the name of a unit. */
  static final Set<String> ARMS =
      words(
          "inf infantry cav cavalry art artillery rifles regt regiment vols battn bn "
              + "soldier engineers foot dragoons marines militia");

  /** May lead a unit. */
  static final Set<String> RANKS = words("pvt private corpl corp sergt sgt gunner lieut capt");

  private Lexicon() {}

  private static Set<String> words(String list) {
    return Set.of(list.split(" ", -1));
  }
}
