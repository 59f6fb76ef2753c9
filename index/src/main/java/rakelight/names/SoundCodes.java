package rakelight.names;

import java.util.Set;
import java.util.TreeSet;
import org.apache.commons.codec.language.DaitchMokotoffSoundex;
import org.apache.commons.codec.language.Soundex;

/** Codes that names which sound alike share. */
public final class SoundCodes {
  private static final DaitchMokotoffSoundex DAITCH_MOKOTOFF = new DaitchMokotoffSoundex();

  private SoundCodes() {}

  /**
   * American Soundex by the rule of the United States National Archives (H and W don't part letters
   * of one code). Empty for a name with no letter from a to z.
   */
  public static String soundex(String name) {
    String letters = NameForms.fold(name).replaceAll("[^a-z]", "");
    return letters.isEmpty() ? "" : Soundex.US_ENGLISH.encode(letters);
  }

  /** Daitch-Mokotoff codes, six figures each; several where a spelling sounds more than one way. */
  public static Set<String> daitchMokotoff(String name) {
    String letters = NameForms.fold(name);
    if (letters.isEmpty()) {
      return Set.of();
    }
    return new TreeSet<>(Set.of(DAITCH_MOKOTOFF.soundex(letters).split("\\|", -1)));
  }
}
