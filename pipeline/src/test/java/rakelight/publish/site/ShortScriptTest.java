package rakelight.publish.site;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class ShortScriptTest {
  @Test
  void commentsIndentsAndSpacesGoTextsAndPatternsStay() {
    String script =
        """
        /* What it does. */
        const a = (b, c) => b + " /* kept */  // kept" + `two
          lines`;
          // gone
          return c.replace(/ [/"] +/g, ' ') / 2;
        let d = 1 - -2; /** Gone. */
        """;
    assertThat(ShortScript.of(script))
        .isEqualTo(
            """
            const a=(b,c)=>b+" /* kept */  // kept"+`two
              lines`;
            return c.replace(/ [/"] +/g,' ')/2;
            let d=1- -2;
            """);
  }
}
