package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.Receipt;
import org.junit.jupiter.api.Test;

/** What a person says was poured by hand. */
class HandWateringTest {
  private static Receipt watered(double ml) {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 262.1);
    String order =
        "{\"id\":\"w\",\"kind\":\"watered\",\"cup\":\"A1\",\"ml\":" + ml + ",\"strength\":0}";
    return story.look(order).receipts().get(0);
  }

  @Test
  void fiveLitresIntoASmallCupAreASlipOfThePen() {
    Receipt refused = watered(5_000);
    assertEquals("refused", refused.outcome());
    assertTrue(refused.why().startsWith("ml: at most "), refused.why());
    assertEquals("done", watered(Math.floor(2 * mixMl())).outcome());
    assertEquals("refused", watered(Math.ceil(2 * mixMl())).outcome());
  }

  private static double mixMl() {
    Story story = Story.from("2027-02-14T08:00:00Z");
    return CupFrame.of(story.bench, story.bench.cups().get("A1")).water().volumeMl();
  }
}
