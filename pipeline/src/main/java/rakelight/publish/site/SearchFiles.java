package rakelight.publish.site;

import com.fasterxml.jackson.databind.node.ArrayNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.function.Function;
import rakelight.archive.Json;
import rakelight.index.Entry;
import rakelight.index.IndexWriting;
import rakelight.index.SearchIndex;
import rakelight.index.SearchPieces;

/**
 * The index of a site: {@link SearchPieces} as scripts that each call one function with their text,
 * since a page on a disk may fetch nothing else; and what hits show, {@value #BLOCK} entries a
 * piece.
 */
final class SearchFiles {
  static final int BLOCK = 8;

  private SearchFiles() {}

  /**
   * Writes the pieces.
   *
   * @param entries what is searched
   * @param markers all that are told of, by their numbers and places
   * @param shown what a hit shows of an entry
   */
  static void write(
      SiteFolder folder,
      List<Entry> entries,
      List<SearchPieces.Numbered> markers,
      Function<Entry, ArrayNode> shown)
      throws IOException {
    List<Entry> inOrder = SearchPieces.inOrder(entries);
    Path scratch = Files.createTempDirectory("rakelight-site");
    try {
      try (IndexWriting writing = IndexWriting.open(scratch, true).orElseThrow()) {
        inOrder.forEach(writing::put);
        writing.commit(1);
      }
      try (SearchIndex index = SearchIndex.open(scratch)) {
        SearchPieces.write(index, inOrder, markers, (name, text) -> piece(folder, name, text));
      }
    } finally {
      SiteFolder.delete(scratch);
    }
    for (int from = 0; from < inOrder.size(); from += BLOCK) {
      ArrayNode block = Json.mapper().createArrayNode();
      inOrder
          .subList(from, Math.min(inOrder.size(), from + BLOCK))
          .forEach(entry -> block.add(shown.apply(entry)));
      piece(folder, "d-" + from / BLOCK, Json.text(block));
    }
  }

  private static void piece(SiteFolder folder, String name, String text) throws IOException {
    folder.text("index/" + name + ".js", out -> out.write(script(text)));
  }

  /** A piece as a script. */
  static String script(String text) {
    return "p(" + Json.text(Json.tree(text)) + ");\n";
  }
}
