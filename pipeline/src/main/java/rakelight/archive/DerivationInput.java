package rakelight.archive;

/**
 * What a derivation is made from: an original, by its digest, or another derivation, by its key.
 */
public sealed interface DerivationInput permits Sha256, DerivationKey {
  /** 64 lower-case hexadecimal digits. */
  String hex();
}
