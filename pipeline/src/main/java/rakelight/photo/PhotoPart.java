package rakelight.photo;

import java.util.Optional;
import rakelight.archive.FaceId;
import rakelight.archive.PhotographId;

/**
 * What somebody said of one stone among several on a photograph.
 *
 * @param face which it is; empty where it is to be passed over
 */
public record PhotoPart(PhotographId photograph, Optional<FaceId> face, Frame frame) {}
