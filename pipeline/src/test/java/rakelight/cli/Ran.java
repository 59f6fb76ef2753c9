package rakelight.cli;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.Arrays;
import java.util.List;

/** A command run in this process, with what it printed. */
record Ran(int code, String out, String err) {
  static Ran command(Object... words) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    int code =
        Rakelight.commands(new PrintWriter(out, true), new PrintWriter(err, true))
            .execute(Arrays.stream(words).map(Object::toString).toArray(String[]::new));
    return new Ran(code, out.toString(), err.toString());
  }

  List<String> outLines() {
    return out.lines().toList();
  }

  List<String> errLines() {
    return err.lines().toList();
  }
}
