package rakelight.inscription;

import java.lang.ref.SoftReference;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import rakelight.archive.ArchiveException;

/**
 * The letters of a reading as the ledger holds them, taken apart when they are asked for: lists of
 * the whole ground mostly ask who read what and when. They are kept while there is memory, so that
 * a large ground is handed on in a small heap.
 */
final class StoredText implements Supplier<Inscription> {
  private final String text;
  private final String signIds;
  private volatile SoftReference<@Nullable Inscription> parsed = new SoftReference<>(null);

  /**
   * @param text Leiden signs, one carved line to a line
   * @param signIds of its signs in reading order, parted by spaces
   */
  StoredText(String text, String signIds) {
    this.text = text;
    this.signIds = signIds;
  }

  /**
   * @throws ArchiveException if the ledger holds no reading there
   */
  @Override
  public Inscription get() {
    Inscription known = parsed.get();
    if (known == null) {
      known = parse();
      parsed = new SoftReference<>(known);
    }
    return known;
  }

  private Inscription parse() {
    Inscription read = parsed(text);
    List<Integer> ids = Arrays.stream(signIds.split(" ")).map(Integer::valueOf).toList();
    if (ids.size() != read.signs().size()) {
      throw new ArchiveException(
          "A reading in the ledger has "
              + read.signs().size()
              + " signs and "
              + ids.size()
              + " ids. Run `check`.");
    }
    Map<SignId, SignId> newIds = new HashMap<>();
    for (int i = 0; i < ids.size(); i++) {
      newIds.put(read.signs().get(i).id(), SignId.of(ids.get(i)));
    }
    return read.withIds(newIds);
  }

  static Inscription parsed(String text) {
    try {
      return Leiden.parseKept(text);
    } catch (LeidenException e) {
      throw new ArchiveException(
          "A reading in the ledger can't be read, line " + e.line() + ", " + e.getMessage(), e);
    }
  }

  @Override
  public boolean equals(@Nullable Object other) {
    return other instanceof StoredText that
        && text.equals(that.text)
        && signIds.equals(that.signIds);
  }

  @Override
  public int hashCode() {
    return Objects.hash(text, signIds);
  }
}
