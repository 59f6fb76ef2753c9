package rakelight.publish.site;

import java.util.List;

/**
 * What stands round every page.
 *
 * @param ground its name
 * @param title of the page
 * @param said what the page is, in a sentence, for those who find it from elsewhere
 * @param root how one comes from the page to the front page's folder: empty, or {@code ../}
 * @param day of publication
 * @param address of the page, if anybody said where the site lies; else empty
 * @param described Dublin Core elements and what they say, in order
 * @param linkedData JSON-LD, free of signs that would end a script
 * @param withPlan whether there is a plan to go to, and so on for the rest
 */
public record SiteFrame(
    String ground,
    String title,
    String said,
    String root,
    String day,
    String address,
    List<Element> described,
    String linkedData,
    boolean withPlan,
    boolean withFamilies,
    boolean withWalks,
    boolean withQuestions) {
  public SiteFrame {
    described = List.copyOf(described);
  }

  /** An element of Dublin Core. */
  public record Element(String name, String content) {}

  /** What a browser calls the page. */
  public String called() {
    return title.equals(ground) ? ground : title + " – " + ground;
  }
}
