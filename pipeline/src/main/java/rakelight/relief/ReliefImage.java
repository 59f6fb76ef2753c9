package rakelight.relief;

import rakelight.finding.GrayImage;

/**
 * One picture of a squared face.
 *
 * @param name "grey", "flat", "contrast", "smooth", "cut-dark", "cut-light" or "depth"
 */
public record ReliefImage(String name, GrayImage image) {}
