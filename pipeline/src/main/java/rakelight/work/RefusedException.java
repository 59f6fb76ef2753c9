package rakelight.work;

/** Carries a {@link Refused} to whoever asked; nothing has been changed. */
public final class RefusedException extends RuntimeException {
  private final transient Refused refused;

  public RefusedException(Refused refused) {
    super(refused.words());
    this.refused = refused;
  }

  public Refused refused() {
    return refused;
  }
}
