package rakelight.person.edtf;

/** How sure a part of a date is. Never changes the days it spans. */
public enum Qualifier {
  NONE("", false, false),
  UNCERTAIN("?", true, false),
  APPROXIMATE("~", false, true),
  UNCERTAIN_AND_APPROXIMATE("%", true, true);

  private final String sign;
  private final boolean uncertain;
  private final boolean approximate;

  Qualifier(String sign, boolean uncertain, boolean approximate) {
    this.sign = sign;
    this.uncertain = uncertain;
    this.approximate = approximate;
  }

  public String sign() {
    return sign;
  }

  static Qualifier ofSign(String sign) {
    for (Qualifier qualifier : values()) {
      if (qualifier.sign.equals(sign)) {
        return qualifier;
      }
    }
    throw new IllegalArgumentException("no qualifier: " + sign);
  }

  Qualifier and(Qualifier other) {
    boolean either = uncertain || other.uncertain;
    boolean about = approximate || other.approximate;
    if (either) {
      return about ? UNCERTAIN_AND_APPROXIMATE : UNCERTAIN;
    }
    return about ? APPROXIMATE : NONE;
  }
}
