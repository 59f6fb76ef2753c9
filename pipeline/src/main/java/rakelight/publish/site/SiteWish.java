package rakelight.publish.site;

import java.net.URI;
import java.time.LocalDate;
import java.util.Optional;

/**
 * What whoever makes a site says of it.
 *
 * @param day of publication, which the edition is of
 * @param address where it will lie, ending in a slash; without it no sitemap is made
 * @param mail where corrections go; without it a form to print is shown
 * @param publisher who publishes it, such as a society; without it the ground's name stands
 */
public record SiteWish(
    LocalDate day, Optional<URI> address, Optional<String> mail, Optional<String> publisher) {
  /** An address of this site, if anybody said where it lies. */
  Optional<String> absolute(String path) {
    return address.map(root -> root + (path.equals("index.html") ? "" : path));
  }
}
