package rakelight.publish.gedcom;

import rakelight.person.Mention;
import rakelight.person.Statement;

/** A statement and the mention of a person that makes it. */
record StatedFact(Mention by, Statement statement) {}
