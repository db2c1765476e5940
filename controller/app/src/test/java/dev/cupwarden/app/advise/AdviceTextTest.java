package dev.cupwarden.app.advise;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.Advice.Pass;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Receipt;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import org.junit.jupiter.api.Test;

class AdviceTextTest {
  private static final Instant AT = Instant.parse("2027-02-14T07:00:00Z");
  private final AdviceText text = new AdviceText(ZoneId.of("Europe/Berlin"));

  /**
   * A1: 41 mL, a third of it feed; A2: 30 mL, a half; A3 plain. By hand: a third of 70 mL is 23.
   */
  @Test
  void aDaysRoundIsMixedOnceAndWeakEnoughForAll() {
    List<Pass> passes =
        List.of(
            new Pass("A1", 13.67, 6.83, 0.17, "due"),
            new Pass("A2", 15, 15, 0.25, "due"),
            new Pass("A3", 18.2, 0, 0, "due"),
            new Pass("A1", 13.67, 6.83, 0.17, "due"));
    assertEquals(
        """
        Sunday 14 February 2027, 08:00
          You noted: bud open
          Mix first: 23 mL from the feed's tank and 47 mL of water.
          A1: 40 mL of the mix, in 2 passes of about 21 mL so that each soaks in
          A2: 30 mL of the mix
          A3: 20 mL of water
          In all: 90 mL.
        """,
        text.answer(new Advice(AT, passes, List.of(), List.of(), null), List.of("bud open")));
  }

  @Test
  void whatMustBeKnownComesBeforeTheWater() {
    AlertNotice raised =
        new AlertNotice("near-dry", "A1", "raised", AT, 0.8, 0.7, "Water it by hand.");
    AlertNotice over = new AlertNotice("near-dry", "A2", "cleared", AT, 0.4, 0.7, "Done.");
    assertEquals(
        """
        Sunday 14 February 2027, 08:00
          Your order (refused): It is not there.
          A1: Water it by hand.
          A2: over: near-dry
          Nothing to water.
        """,
        text.answer(
            new Advice(
                AT,
                List.of(),
                List.of(raised, over),
                List.of(Receipt.refused("o-1", "It is not there."), Receipt.taken("o-2")),
                null),
            List.of()));
  }
}
