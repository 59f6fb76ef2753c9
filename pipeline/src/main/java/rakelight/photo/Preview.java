package rakelight.photo;

/**
 * Where a JPEG preview lies inside an original.
 *
 * @param offsetBytes from the start of the file
 */
public record Preview(long offsetBytes, long lengthBytes) {}
