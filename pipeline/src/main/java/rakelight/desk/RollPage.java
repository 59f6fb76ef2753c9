package rakelight.desk;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.List;
import rakelight.person.Roll;

/**
 * Everybody by regiment, rank, trade and so on.
 *
 * @param day by which it is reckoned what may be told
 * @param of the words that were looked for; may be empty
 * @param groups those found
 * @param open whether the persons of each group are listed, and not the groups alone
 */
public record RollPage(String day, Roll.By by, String of, List<Roll.Group> groups, boolean open) {
  public RollPage {
    groups = List.copyOf(groups);
  }

  /** The address of one group. */
  public String address(Roll.Group group) {
    return "/roll?by="
        + by.label()
        + "&of="
        + URLEncoder.encode(group.called(), StandardCharsets.UTF_8);
  }

  /** How many stand on it. */
  public int entries() {
    return groups.stream().mapToInt(group -> group.entries().size()).sum();
  }
}
