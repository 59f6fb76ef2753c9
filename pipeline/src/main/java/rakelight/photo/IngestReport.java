package rakelight.photo;

/**
 * What an ingest did with the files it met.
 *
 * @param taken new photographs
 * @param alreadyThere files that an earlier run took from the same path
 * @param duplicates files whose bytes are in the archive under another path
 * @param refused files not taken
 * @param withoutPicture of those taken, how many hold nothing that can be read here
 * @param mended originals that were missing or damaged and are whole again
 * @param withdrawn files not taken, since their photographs were withdrawn
 * @param passedOver files that operating systems strew about
 */
public record IngestReport(
    int taken,
    int alreadyThere,
    int duplicates,
    int refused,
    int withoutPicture,
    int mended,
    int withdrawn,
    int passedOver) {}
