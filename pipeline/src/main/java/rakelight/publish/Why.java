package rakelight.publish;

import rakelight.person.edtf.Day;

/** Why something isn't told. */
public sealed interface Why {
  /** As documents write it: {@code may-be-living}. */
  String label();

  /** As published files have it: nothing of it tells who asked, or for what reason. */
  String words();

  /** The person may be living ({@link rakelight.person.LivingRule}). */
  record MayBeLiving() implements Why {
    @Override
    public String label() {
      return "may-be-living";
    }

    @Override
    public String words() {
      return "may be living";
    }
  }

  /**
   * Words that nobody understood, where somebody living may be named ({@link
   * rakelight.person.NotUnderstood}).
   */
  record NotUnderstood() implements Why {
    @Override
    public String label() {
      return "not-understood";
    }

    @Override
    public String words() {
      return "not understood, and may name somebody living";
    }
  }

  /** Somebody decided it. */
  record Decided(Withholding withholding) implements Why {
    @Override
    public String label() {
      return withholding.cause().label();
    }

    @Override
    public String words() {
      return withholding.cause().words();
    }
  }

  /**
   * The present reading names nobody where a person was named whom somebody withheld, so nobody
   * knows which letters of the face are his.
   */
  record NotFound(Withholding withholding) implements Why {
    @Override
    public String label() {
      return "not-found";
    }

    @Override
    public String words() {
      return "names somebody withheld";
    }
  }

  /**
   * A burial is younger than the ground's rule asks.
   *
   * @param years that a burial must be old
   * @param death the last day it can have been
   */
  record YoungBurial(int years, Day death) implements Why {
    @Override
    public String label() {
      return "young-burial";
    }

    @Override
    public String words() {
      return "burial less than " + years + " years ago";
    }
  }

  /**
   * The ground has a rule for young burials, and nobody knows how old this one is.
   *
   * @param years that a burial must be old
   */
  record DeathUnknown(int years) implements Why {
    @Override
    public String label() {
      return "death-unknown";
    }

    @Override
    public String words() {
      return "year of death not known, told after " + years + " years";
    }
  }

  /** A photograph of a face that holds something withheld. */
  record ShowsWithheld() implements Why {
    @Override
    public String label() {
      return "shows-withheld";
    }

    @Override
    public String words() {
      return "shows what is withheld";
    }
  }

  /** Nobody has signed what the face says, or it is on no face: nobody knows whom it names. */
  record NotRead() implements Why {
    @Override
    public String label() {
      return "not-read";
    }

    @Override
    public String words() {
      return "nobody has read it";
    }
  }
}
