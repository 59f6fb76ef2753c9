package rakelight.archive;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * What RFC 8493 (The BagIt File Packaging Format, version 1.0, October 2018) says of bags. The
 * cases are those of the Library of Congress's bagit-conformance-suite, made here by hand; those it
 * calls invalid are refused and those it calls valid are not.
 */
class BagTest {
  private static final String DECLARED = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n";

  /** SHA-256 of "abc": FIPS 180-4's example, also in RFC 6234. */
  private static final String ABC =
      "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

  @TempDir Path bag;

  @BeforeEach
  void aBagOfOneFile() throws IOException {
    write("bagit.txt", DECLARED);
    write("data/abc.txt", "abc");
    write("manifest-sha256.txt", ABC + "  data/abc.txt\n");
  }

  private void write(String path, String text) throws IOException {
    write(path, text, StandardCharsets.UTF_8);
  }

  private void write(String path, String text, Charset encoding) throws IOException {
    Path file = bag.resolve(path);
    Files.createDirectories(file.resolveSibling("."));
    Files.write(file, text.getBytes(encoding));
  }

  private void version(String version) throws IOException {
    write("bagit.txt", DECLARED.replace("1.0", version));
  }

  private String digest(String path, String algorithm) throws IOException {
    return Objects.requireNonNull(
        Bag.digests(bag.resolve(path), List.of(algorithm)).get(algorithm));
  }

  private List<String> faults() {
    return Bag.verify(bag, file -> {}).stream()
        .map(fault -> fault.code() + " " + Bag.relative(bag, Path.of(fault.where())))
        .toList();
  }

  @Test
  void theSmallestBagIsValid() {
    assertThat(faults()).isEmpty();
    assertThat(Bag.isAt(bag)).isTrue();
  }

  @Test
  void everyKindOfDigestOfTheSuiteIsCompared() throws IOException {
    for (String algorithm : List.of("md5", "sha1", "sha224", "sha256", "sha512")) {
      write(
          "manifest-" + algorithm + ".txt", digest("data/abc.txt", algorithm) + " data/abc.txt\n");
    }
    assertThat(faults()).isEmpty();
    write("manifest-md5.txt", "0".repeat(32) + " data/abc.txt\n");
    assertThat(faults()).containsExactly("bag-changed data/abc.txt");
  }

  @Test
  void digestsInCapitalsAStarAndTabsAreRead() throws IOException {
    write("manifest-sha256.txt", ABC.toUpperCase(Locale.ROOT) + "\t *data/abc.txt\r\n");
    assertThat(faults()).isEmpty();
  }

  @Test
  void lineEndingsAreReadAsTheyCome() throws IOException {
    write("bagit.txt", DECLARED.replace("\n", "\r\n"));
    assertThat(faults()).isEmpty();
    write("bagit.txt", DECLARED.replace("\n", "\r"));
    assertThat(faults()).isEmpty();
    write("bagit.txt", DECLARED.strip());
    assertThat(faults()).isEmpty();
  }

  @Test
  void tagFilesMayBeInUtf16() throws IOException {
    write("bagit.txt", DECLARED.replace("UTF-8", "UTF-16"));
    write("manifest-sha256.txt", ABC + "  data/abc.txt\n", StandardCharsets.UTF_16);
    assertThat(faults()).isEmpty();
  }

  @Test
  void aDeclarationWithOtherWhitespaceIsRefused() throws IOException {
    for (String other :
        List.of(
            DECLARED.replace(": 1.0", ":1.0"),
            DECLARED.replace(": 1.0", ":  1.0"),
            DECLARED.replace(": 1.0", ": 1.0 "),
            " " + DECLARED,
            DECLARED + "\n\n",
            "BagIt-Version: 1.0\n",
            "Tag-File-Character-Encoding: UTF-8\nBagIt-Version: 1.0\n")) {
      write("bagit.txt", other);
      assertThat(faults()).as(other).containsExactly("bag-undeclared bagit.txt");
    }
  }

  @Test
  void aByteOrderMarkIsRefused() throws IOException {
    write("bagit.txt", '\uFEFF' + DECLARED);
    assertThat(faults()).containsExactly("bag-undeclared bagit.txt");
  }

  @Test
  void aVersionOrAnEncodingNobodyKnowsIsRefused() throws IOException {
    version("2.0");
    assertThat(faults()).containsExactly("bag-undeclared bagit.txt");
    write("bagit.txt", DECLARED.replace("UTF-8", "UTF-9"));
    assertThat(faults()).containsExactly("bag-undeclared bagit.txt");
  }

  @Test
  void aBagWithoutDeclarationPayloadOrManifestIsNone() throws IOException {
    Files.delete(bag.resolve("manifest-sha256.txt"));
    assertThat(faults()).contains("bag-incomplete manifest-*.txt");
    Files.delete(bag.resolve("data/abc.txt"));
    Files.delete(bag.resolve("data"));
    assertThat(faults()).containsExactly("bag-incomplete data");
    Files.delete(bag.resolve("bagit.txt"));
    assertThat(faults()).containsExactly("bag-undeclared bagit.txt");
    assertThat(Bag.isAt(bag)).isFalse();
  }

  @Test
  void aChangedMissingOrSurplusFileIsNamed() throws IOException {
    write("data/abc.txt", "abd");
    assertThat(faults()).containsExactly("bag-changed data/abc.txt");
    Files.delete(bag.resolve("data/abc.txt"));
    write("data/new.txt", "abc");
    assertThat(faults())
        .containsExactlyInAnyOrder("bag-incomplete data/abc.txt", "bag-unlisted data/new.txt");
  }

  @Test
  void eachManifestListsEveryFileSinceVersionOne() throws IOException {
    write("data/def.txt", "def");
    write("manifest-md5.txt", digest("data/def.txt", "md5") + " data/def.txt\n");
    assertThat(faults())
        .containsExactlyInAnyOrder(
            "bag-incomplete manifest-md5.txt", "bag-incomplete manifest-sha256.txt");
    version("0.97");
    assertThat(faults()).isEmpty();
  }

  @Test
  void aFileListedTwiceIsRefusedWhateverTheDigest() throws IOException {
    write("manifest-sha256.txt", (ABC + "  data/abc.txt\n").repeat(2));
    assertThat(faults()).containsExactly("bag-twice manifest-sha256.txt");
    write(
        "manifest-sha256.txt",
        ABC + "  data/abc.txt\n" + ABC.replace('b', 'c') + "  data/abc.txt\n");
    assertThat(faults()).contains("bag-twice manifest-sha256.txt");
  }

  @Test
  void noManifestReachesOutOfItsBag() throws IOException {
    Path outside = bag.resolveSibling("outside.txt");
    Files.writeString(outside, "abc");
    for (String path :
        List.of(
            outside.toString(),
            "data/../../outside.txt",
            "../outside.txt",
            "~/outside.txt",
            "bagit.txt",
            "data/./abc.txt")) {
      write("manifest-sha256.txt", ABC + "  data/abc.txt\n" + ABC + "  " + path + "\n");
      assertThat(faults()).as(path).containsExactly("bag-out-of-place manifest-sha256.txt");
    }
  }

  @Test
  void tagFilesAreComparedAndPayloadIsNoneOfThem() throws IOException {
    write("bag-info.txt", "Contact-Name: Ada Fenn\n");
    String manifest = digest("manifest-sha256.txt", "sha256") + "  manifest-sha256.txt\n";
    String info = digest("bag-info.txt", "sha256") + "  bag-info.txt\n";
    write("tagmanifest-sha256.txt", manifest + info);
    assertThat(faults()).isEmpty();
    write("bag-info.txt", "Contact-Name: Ada Fen\n");
    assertThat(faults()).containsExactly("bag-changed bag-info.txt");
    Files.delete(bag.resolve("bag-info.txt"));
    assertThat(faults()).containsExactly("bag-incomplete bag-info.txt");
    write("tagmanifest-sha256.txt", manifest + ABC + "  data/abc.txt\n");
    assertThat(faults()).containsExactly("bag-out-of-place tagmanifest-sha256.txt");
    write("tagmanifest-sha256.txt", "");
    assertThat(faults()).containsExactly("bag-incomplete tagmanifest-sha256.txt");
  }

  @Test
  void theSumOfThePayloadMustBeRight() throws IOException {
    write("bag-info.txt", "Payload-Oxum: 3.1\nContact-Name: Ada\n  Fenn\nContact-Name: Bo\n");
    assertThat(faults()).isEmpty();
    assertThat(Bag.info(bag, StandardCharsets.UTF_8))
        .isEqualTo(
            Map.of("payload-oxum", List.of("3.1"), "contact-name", List.of("Ada Fenn", "Bo")));
    write("bag-info.txt", "Payload-Oxum: 4.1\n");
    assertThat(faults()).containsExactly("bag-incomplete bag-info.txt");
  }

  @Test
  void whatIsToBeFetchedIsMissing() throws IOException {
    write("fetch.txt", "https://example.org/def.txt 3 data/def.txt\n");
    write("manifest-sha256.txt", ABC + "  data/abc.txt\n" + ABC + "  data/def.txt\n");
    assertThat(Bag.verify(bag, file -> {}))
        .extracting(Check.Fault::text)
        .containsExactly(
            "isn't here: fetch.txt says where it is to be had. It isn't fetched by this program.");
  }

  @Test
  void namesWithLineEndsAndPercentSignsComeThrough() throws IOException {
    write("data/100% new\nline.txt", "abc");
    BagManifest.write(
        bag.resolve("manifest-sha256.txt"),
        Map.of("data/abc.txt", ABC, "data/100% new\nline.txt", ABC));
    assertThat(Files.readString(bag.resolve("manifest-sha256.txt")))
        .contains("  data/100%25 new%0Aline.txt\n");
    assertThat(faults()).isEmpty();
  }

  @Test
  void accentsPutTogetherOtherwiseAreOneName() throws IOException {
    write("data/cafe\u0301.txt", "abc");
    write("manifest-sha256.txt", ABC + "  data/abc.txt\n" + ABC + "  data/caf\u00e9.txt\n");
    assertThat(faults()).isEmpty();
  }

  @Test
  void aLineThatIsNoDigestAndPathIsNamed() throws IOException {
    write("manifest-sha256.txt", ABC + "  data/abc.txt\nnothing\n");
    assertThat(faults()).containsExactly("bag-unreadable manifest-sha256.txt");
  }
}
