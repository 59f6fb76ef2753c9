package rakelight.samples.inscriptions;

import static rakelight.samples.inscriptions.InventedStone.any;

import java.util.Map;
import java.util.Random;

/** Names of nobody: given names in common use, surnames and places put together from parts. */
final class InventedNames {
  private static final String[] MEN =
      ("William William John John John Thomas Thomas James James George George Robert Joseph Henry"
              + " Charles Edward Samuel Richard Peter David Daniel Benjamin Isaac Abraham Jacob"
              + " Matthew Mark Luke Stephen Philip Francis Ralph Roger Nathaniel Josiah Ebenezer"
              + " Elijah Amos Caleb Silas Gideon Enoch Job Jonas Levi Moses Simon Walter Gilbert"
              + " Humphrey Giles Hugh Andrew Alexander Archibald Duncan Patrick"
              + " Michael Dennis Owen Evan Rhys Griffith Ezra Asa Seth Zenas Lemuel Obed")
          .split(" ");
  private static final String[] WOMEN =
      ("Mary Mary Mary Ann Ann Elizabeth Elizabeth Sarah Sarah Jane Jane Margaret Hannah Martha"
              + " Susannah Rebecca Rachel Esther Ruth Judith Abigail Lydia Dorothy Alice Agnes"
              + " Catherine Isabella Charlotte Caroline Harriet Emma Eliza Ellen Emily Fanny Louisa"
              + " Matilda Sophia Maria Phoebe Priscilla Mercy Patience Prudence Temperance Charity"
              + " Grace Faith Hope Thankful Mehitable Keziah Bridget Honora Winifred Gwen"
              + " Elinor Janet Jean Isobel Euphemia Christian Betsey Lucinda Almira Lovina Rhoda")
          .split(" ");
  private static final String[] MEN_LATER =
      ("Edwin Alfred Arthur Albert Frederick Herbert Ernest Harold Percy Stanley Leonard Cyril"
              + " Reginald Walter William John George Thomas James")
          .split(" ");
  private static final String[] WOMEN_LATER =
      ("Florence Edith Ethel Ada Maud Gladys Doris Hilda Elsie Ivy Rose Lily Violet May Beatrice"
              + " Annie Nellie Mary Elizabeth Alice")
          .split(" ");
  private static final String[] MEN_OF_TODAY =
      "Kevin Darren Stephen Paul Gary Trevor Brian Alan Keith Lee Wayne Craig".split(" ");
  private static final String[] WOMEN_OF_TODAY =
      "Sharon Tracey Maureen Linda Susan Julie Karen Sheila Joan Pauline Dawn Kylie".split(" ");
  private static final String[] BEGIN =
      ("Had Brad Wex Thorn Oak Ash Pel Hol Crow Tar Mar Lind Ken Hart Wil Bram Stan Fen Gar Hazel"
              + " Cold Win Rad Led Scar Tod Mid Nether Over Hun Dun Kel Birk Gris Lang Whit Black"
              + " Red Green Sed Tem Ul Bever Carl Den El Far Gold Hes Ing Jes Lam Mel Nor")
          .split(" ");
  private static final String[] END =
      ("ley ton ford well by thorpe wick worth field croft more ridge combe stead hurst shaw den"
              + " bourne cote ham grave land stone wood house man ing sby gate low mere")
          .split(" ");
  private static final String[] ALSO_WORDS =
      "Baker Cooper Mason March May Young Stone Day Lord Bishop Farmer Grey Best Church King"
          .split(" ");
  private static final String[] PLACE_END =
      ("bury thwaite minster mouth stow bridge market haven dale ness port hope cross cliffe pool"
              + " wath fleet lade")
          .split(" ");
  private static final Map<String, String> SHORT =
      Map.ofEntries(
          Map.entry("William", "Wm"),
          Map.entry("Thomas", "Thos"),
          Map.entry("John", "Jno"),
          Map.entry("James", "Jas"),
          Map.entry("George", "Geo"),
          Map.entry("Robert", "Robt"),
          Map.entry("Joseph", "Jos"),
          Map.entry("Charles", "Chas"),
          Map.entry("Samuel", "Saml"),
          Map.entry("Richard", "Richd"),
          Map.entry("Edward", "Edwd"),
          Map.entry("Daniel", "Danl"),
          Map.entry("Benjamin", "Benjn"),
          Map.entry("Nathaniel", "Nathl"),
          Map.entry("Alexander", "Alexr"),
          Map.entry("Elizabeth", "Elizth"),
          Map.entry("Margaret", "Margt"),
          Map.entry("Catherine", "Cathe"));

  private final Random random;

  InventedNames(Random random) {
    this.random = random;
  }

  /** One given name, or two. */
  String given(boolean woman, Style style) {
    boolean later =
        style == Style.MODERN
            || ((style == Style.VICTORIAN || style == Style.AMERICAN) && random.nextInt(4) == 0);
    String[] all = woman ? later ? WOMEN_LATER : WOMEN : later ? MEN_LATER : MEN;
    String first = any(random, all);
    boolean two =
        random.nextInt(100)
            < switch (style) {
              case MODERN -> 45;
              case VICTORIAN, AMERICAN -> 30;
              case WELSH, IRISH -> 10;
              default -> 4;
            };
    if (!two) {
      return first;
    }
    if (style == Style.AMERICAN) {
      return first + " " + (char) ('A' + random.nextInt(23));
    }
    String second = any(random, all);
    return second.equals(first) ? first : first + " " + second;
  }

  /** The given name of somebody alive today. */
  String givenToday(boolean woman) {
    return any(random, woman ? WOMEN_OF_TODAY : MEN_OF_TODAY);
  }

  String surname(Style style) {
    String made = any(random, BEGIN) + any(random, END);
    int at = random.nextInt(100);
    if (style == Style.IRISH && at < 40) {
      return "O'" + any(random, BEGIN) + any(random, "an", "erty", "ihan", "agh", "oran");
    }
    if (style == Style.SCOTTISH && at < 25) {
      return "Mc" + any(random, BEGIN) + any(random, "an", "ach", "ie", "ay", "ish");
    }
    if (style == Style.WELSH && at < 60) {
      return any(random, "Pry", "Pen", "Mor", "Lew", "Gwyn")
          + any(random, "therch", "dry", "ddan", "llyn");
    }
    if (style == Style.MODERN && at < 6) {
      return made + "-" + any(random, BEGIN) + any(random, END);
    }
    return at >= 95 ? any(random, ALSO_WORDS) : made;
  }

  String place() {
    String one = any(random, BEGIN) + any(random, PLACE_END);
    return switch (random.nextInt(8)) {
      case 0 -> "Little " + one;
      case 1 -> any(random, "Nether ", "Over ", "Upper ") + one;
      default -> one;
    };
  }

  String ship() {
    return any(random, "Fair", "Good", "Bold", "Star of", "Pride of")
        + " "
        + any(random, "Endeavour", "Hester", "Venture", "Providence", "Skerrin");
  }

  /** A common short form of the first of the names, or nothing. */
  static String shortFor(String given) {
    int space = given.indexOf(' ');
    String first = space < 0 ? given : given.substring(0, space);
    String brief = SHORT.get(first);
    return brief == null ? "" : brief + (space < 0 ? "" : given.substring(space));
  }
}
