package rakelight.reading;

import rakelight.archive.Sha256;

/** A line finder or recogniser that a proposal was made with, and the digest of its weights. */
public record ModelUsed(String name, Sha256 digest) {}
