package rakelight.work;

/** Somebody who works under his name, at the desk or at the terminal, and what he may do. */
public record NamedReader(String name, Role role) {
  /**
   * @throws RefusedException if he only looks
   */
  public void requireDeciding() {
    if (!role.mayDecide()) {
      throw new RefusedException(new Refused.OnlyLooks());
    }
  }

  /**
   * @throws RefusedException if he isn't an archivist
   */
  public void requireArchivist() {
    if (role != Role.ARCHIVIST) {
      throw new RefusedException(new Refused.NoArchivist());
    }
  }
}
