package rakelight.samples;

/**
 * Somebody named or meant on a stone; everybody is invented. Empty text means not known.
 *
 * @param birth EDTF, only where carved or given by the parish list
 * @param death EDTF; Old Style dates before 14 September 1752 keep their Julian day and month, the
 *     year beginning on 1 January
 * @param age ISO 8601 duration of the completed age that the carving states
 * @param ageAs how the age was carved: years, months, days, or year-of ("in the 57th year of his
 *     age" is P56Y)
 * @param kin relation to another person, by id or by name
 */
public record SamplePerson(
    String id,
    String given,
    String surname,
    String birthSurname,
    String title,
    String sex,
    String birth,
    String death,
    String age,
    String ageAs,
    String kin,
    String service,
    String note) {}
