package rakelight.desk;

import io.javalin.http.Context;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.archive.PhotographId;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.work.NamedReader;

/** What a request says: who asks, about what, and what is to be changed. */
final class Requests {
  private static final int MOST_SIGNS = 2000;

  private final Door door;
  private final PhotoStore photographs;
  private final MarkerStore markers;

  Requests(Archive archive, Door door) {
    this.door = door;
    this.photographs = new PhotoStore(archive);
    this.markers = new MarkerStore(archive);
  }

  /** The session of somebody who has signed in. */
  Session session(Context context) {
    return door.signedIn(context);
  }

  /** Who asks; a session ends when he may do something else by now. */
  NamedReader by(Context context) {
    Session session = door.signedIn(context);
    return new NamedReader(session.reader().orElseThrow(), session.role());
  }

  /** Who asks, if he may decide. */
  NamedReader deciding(Context context) {
    NamedReader by = by(context);
    by.requireDeciding();
    return by;
  }

  /** Who asks, if he is an archivist. */
  NamedReader archivist(Context context) {
    NamedReader by = by(context);
    by.requireArchivist();
    return by;
  }

  /** Whether who asks would still be let in, after a change of who is. */
  boolean stands(Context context) {
    return door.stands(door.signedIn(context));
  }

  Face face(Context context) {
    return faceOf(context.pathParam("face"));
  }

  Face faceOf(String id) {
    return known(id, FaceId::of, photographs::face, "face");
  }

  Marker marker(Context context) {
    return known(context.pathParam("marker"), MarkerId::of, markers::marker, "marker");
  }

  Marker markerOf(Face face) {
    return markers.marker(face.marker()).orElseThrow(() -> Refusal.notFound("marker"));
  }

  Photograph photograph(String id) {
    return known(id, PhotographId::of, photographs::photograph, "photograph");
  }

  /** What has this id; not found where there is none, or where it isn't an id at all. */
  static <I, T> T known(
      String id, Function<String, I> read, Function<I, Optional<T>> find, String what) {
    I known;
    try {
      known = read.apply(id);
    } catch (IllegalArgumentException e) {
      throw Refusal.notFound(what);
    }
    return find.apply(known).orElseThrow(() -> Refusal.notFound(what));
  }

  /** The body of a request that changes something, if it comes from a page of the session. */
  String changing(Context context) {
    Session session = door.signedIn(context);
    Door.requireToken(session, Optional.ofNullable(context.header(Door.TOKEN)).orElse(""));
    String type = String.valueOf(context.contentType()).toLowerCase(Locale.ROOT);
    if (!type.split(";", -1)[0].strip().equals("application/json")) {
      throw Refusal.of(415, "media-type", "The body must be application/json.");
    }
    return Door.body(context);
  }

  /** A form that changes something, if it comes from a page of the session. */
  Map<String, String> decidingForm(Context context) {
    Map<String, String> form = ownForm(context);
    deciding(context);
    return form;
  }

  /** The same, if an archivist sends it. */
  Map<String, String> archivistsForm(Context context) {
    Map<String, String> form = ownForm(context);
    archivist(context);
    return form;
  }

  private Map<String, String> ownForm(Context context) {
    Map<String, String> form = form(context);
    Door.requireToken(door.signedIn(context), form.getOrDefault("token", ""));
    return form;
  }

  /** The fields of a form. */
  static Map<String, String> form(Context context) {
    Map<String, String> fields = new HashMap<>();
    for (String pair : Door.body(context).split("&", -1)) {
      int equals = pair.indexOf('=');
      if (equals > 0) {
        try {
          fields.put(
              URLDecoder.decode(pair.substring(0, equals), StandardCharsets.UTF_8),
              URLDecoder.decode(pair.substring(equals + 1), StandardCharsets.UTF_8));
        } catch (IllegalArgumentException e) {
          throw Refusal.malformed("This form can't be read.");
        }
      }
    }
    return fields;
  }

  /** What the address of a page asks in a field; empty if nothing. */
  static String asked(Context context, String field) {
    return Optional.ofNullable(context.queryParam(field)).map(String::strip).orElse("");
  }

  /** The page of a list that the address asks for. */
  static <T> Paged<T> paged(Context context, List<T> all, String path, List<Listing.Field> fields) {
    return Paged.of(
        all,
        Paged.page(Optional.ofNullable(context.queryParam("page"))),
        Listing.ROWS_ON_PAGE,
        path,
        Listing.asked(fields));
  }

  /** What somebody wrote in a field of a form. */
  static String words(Map<String, String> form, String field) {
    String words = form.getOrDefault(field, "").strip();
    if (words.length() > MOST_SIGNS) {
      throw Refusal.malformed("A field has " + MOST_SIGNS + " signs at most.");
    }
    return words;
  }
}
