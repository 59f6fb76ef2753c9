package rakelight.relief;

import rakelight.picture.GrayImage;

/**
 * One picture of a squared face.
 *
 * @param name one of {@link Relief#NAMES}, or {@link RakingSet#DEPTH}
 */
public record ReliefImage(String name, GrayImage image) {}
