package rakelight.publish.iiif;

/**
 * A file that shows a photograph upright.
 *
 * @param address on the web
 * @param mediaType such as {@code image/jpeg}
 * @param widthPx of the picture in it
 * @param heightPx of the picture in it
 */
public record PictureFile(String address, String mediaType, int widthPx, int heightPx) {}
