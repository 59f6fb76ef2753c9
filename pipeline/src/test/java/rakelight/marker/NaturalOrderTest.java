package rakelight.marker;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;

class NaturalOrderTest {
  private final NaturalOrder order = new NaturalOrder();

  @Test
  void markersAreListedAsPeopleCountThem() {
    assertThat(List.of("A10", "12a", "12", "9", "A9", "012").stream().sorted(order))
        .containsExactly("9", "012", "12", "12a", "A9", "A10");
  }

  @Property
  void theOrderIsTotalAndTransitive(
      @ForAll("labels") String a, @ForAll("labels") String b, @ForAll("labels") String c) {
    assertThat(Integer.signum(order.compare(a, b))).isEqualTo(-Integer.signum(order.compare(b, a)));
    assertThat(order.compare(a, b) == 0).isEqualTo(a.equals(b));
    if (order.compare(a, b) <= 0 && order.compare(b, c) <= 0) {
      assertThat(order.compare(a, c)).isLessThanOrEqualTo(0);
    }
  }

  @Provide
  Arbitrary<String> labels() {
    return Arbitraries.strings().withChars('0', '1', '2', 'a', 'B').ofMaxLength(5);
  }
}
