package rakelight.photo;

/** Why a file can't be taken as a photograph: an expected outcome, turned into a refusal. */
public final class UnfitFileException extends Exception {
  private final String code;
  private final String advice;

  UnfitFileException(String code, String reason, String advice) {
    super(reason);
    this.code = code;
    this.advice = advice;
  }

  static UnfitFileException truncated(String what) {
    return new UnfitFileException(
        "truncated",
        "the file is cut short: " + what + ".",
        "Copy it again from the camera or card.");
  }

  static UnfitFileException damaged(String what) {
    return new UnfitFileException(
        "damaged", "the file is damaged: " + what + ".", "Copy it again from the camera or card.");
  }

  /** Whether the file is no picture at all. */
  boolean isOfNoPicture() {
    return code.equals("not-an-image") || code.equals("empty");
  }

  /** The refusal of the file at this path. */
  public RefusedFile refusal(String path) {
    return new RefusedFile(path, code, String.valueOf(getMessage()), advice);
  }
}
