package rakelight.work;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import rakelight.archive.ProposalId;

/**
 * Why something can't be done. Nothing has been changed then. Whoever asked shows it in his own way
 * and may go by its type; the words are the same for all.
 */
public sealed interface Refused {
  /** What is the matter and what to do, for a person. */
  String words();

  /** A refusal that points to a place of the draft. */
  sealed interface AtPlace extends Refused {
    /** From 1. */
    int line();

    /** From 1. */
    int at();
  }

  /** A guest wants to decide. */
  record OnlyLooks() implements Refused {
    @Override
    public String words() {
      return "A guest may look, but not decide.";
    }
  }

  /** Somebody else than an archivist wants to do what only archivists do. */
  record NoArchivist() implements Refused {
    @Override
    public String words() {
      return "Only an archivist may do this.";
    }
  }

  /** Another reader has the face. */
  record Taken(String by, Instant until) implements Refused {
    @Override
    public String words() {
      return by + " has this face open; take another meanwhile.";
    }
  }

  /** The draft isn't the one that the change was meant for. */
  record Changed() implements Refused {
    @Override
    public String words() {
      return "This reading has been changed in another window meanwhile. Here is how it stands"
          + " now.";
    }
  }

  /**
   * Since the reader looked, a reading of the face was signed or taken back.
   *
   * @param by who signed; empty where one was taken back
   */
  record Superseded(Optional<String> by) implements Refused {
    @Override
    public String words() {
      return by.map(reader -> reader + " has signed a reading of this face meanwhile.")
              .orElse("The reading you saw has been taken back.")
          + " Look at it, then sign again.";
    }
  }

  /** The reader has signed the face and has no draft of it. */
  record AlreadySigned() implements Refused {
    @Override
    public String words() {
      return "You have signed this face; reopen it to change something.";
    }
  }

  /** The reader has decided nothing since he last signed. */
  record NothingToTakeBack() implements Refused {
    @Override
    public String words() {
      return "There is nothing to take back.";
    }
  }

  /** The reader has taken nothing back since he last decided. */
  record NothingToBringBack() implements Refused {
    @Override
    public String words() {
      return "There is nothing to bring back.";
    }
  }

  /** Letters of a draft that isn't his own, which a reader wants to take back. */
  record AnothersDraft(String reader) implements Refused {
    @Override
    public String words() {
      return "These letters are in the draft of " + reader + ", who alone takes them back.";
    }
  }

  /** A decision of another, which only he or an archivist takes back. */
  record NotYours(String reader) implements Refused {
    @Override
    public String words() {
      return "That was decided by " + reader + "; only he or an archivist takes it back.";
    }
  }

  /** Nobody has said what stands at a place that is to be taken as shown. */
  record NotRead(int line, int at) implements AtPlace {
    @Override
    public String words() {
      return "Say what stands at letter " + at + "; nobody has read it yet.";
    }
  }

  /**
   * A letter that can't be decided with its line.
   *
   * @param shown the letter
   * @param others what else it may be; a space and nothing are named in words
   */
  record Doubtful(int line, int at, String shown, List<String> others) implements AtPlace {
    public Doubtful {
      others = List.copyOf(others);
    }

    @Override
    public String words() {
      return "Letter "
          + at
          + ", "
          + shown
          + ", is doubtful"
          + (others.isEmpty() ? "" : ": it may be " + String.join(" or ", others))
          + ". Decide it by itself or with its word, then take the line.";
    }
  }

  /**
   * A line that can't be taken whole yet.
   *
   * @param letters every letter of it that asks for a look of its own, in order; at least one
   */
  record LookFirst(List<AtPlace> letters) implements AtPlace {
    public LookFirst {
      letters = List.copyOf(letters);
    }

    @Override
    public int line() {
      return letters.get(0).line();
    }

    @Override
    public int at() {
      return letters.get(0).at();
    }

    @Override
    public String words() {
      int more = letters.size() - 1;
      return letters.get(0).words()
          + switch (more) {
            case 0 -> "";
            case 1 -> " One more letter of this line asks for a look.";
            default -> " " + more + " more letters of this line ask for a look.";
          };
    }
  }

  /** A letter that can't be taken with words beside its own. */
  record DecideFirst(int line, int at) implements AtPlace {
    @Override
    public String words() {
      return "Decide letter " + at + " first: it is doubtful, or may belong to a name or a date.";
    }
  }

  /** A line to be taken whole where two read blind. */
  record ReadBlind() implements Refused {
    @Override
    public String words() {
      return "Two read this stone, each without sight of the other; decide its names and dates"
          + " letter by letter or word by word.";
    }
  }

  /**
   * A draft that isn't decided to the end.
   *
   * @param line the first line with an open letter, from 1; 0 if there is no line at all
   */
  record Undecided(int line) implements Refused {
    @Override
    public String words() {
      return line == 0
          ? "There is no line to sign."
          : "Some letters of line " + line + " aren't decided yet; decide them first.";
    }
  }

  /**
   * A change that can't be made, or lines that can't stand together.
   *
   * @param words a sentence
   */
  record Impossible(String words) implements Refused {}

  /** A file counts the lines of a proposal that its face doesn't have. */
  record NoSuchProposal(String marker, String face, ProposalId proposal) implements Refused {
    @Override
    public String words() {
      return "Marker "
          + marker
          + ", "
          + face
          + ": proposal "
          + proposal
          + " isn't its newest, nor one that was used before. `proposals --json` names the newest;"
          + " nothing was signed.";
    }
  }

  /** A file is to be signed as an earlier witness's and says nowhere who read it. */
  record NobodyReadIt() implements Refused {
    @Override
    public String words() {
      return "says nowhere who read it. Leave out --sign, compare the draft with the stone and sign"
          + " what you see.";
    }
  }

  /** A reading from elsewhere can't become a draft where the reader has another. */
  record DraftInTheWay(String marker, String face) implements Refused {
    @Override
    public String words() {
      return "you have an unsigned draft of marker "
          + marker
          + ", "
          + face
          + ". Sign it first with `read`.";
    }
  }
}
