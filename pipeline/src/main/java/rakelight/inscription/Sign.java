package rakelight.inscription;

/** One sign of a reading, in the order of reading. */
public sealed interface Sign permits Letter, Gap, Space, Break {
  SignId id();

  Sign withId(SignId id);

  /** Whether somebody cut it away on purpose. */
  default boolean erased() {
    return false;
  }
}
