package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Receipt;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** What the page asks of a person who told something odd, and how a slip is taken back. */
class TakingBackTest {
  @AutoClose private static final Browser browser = new Browser();
  private StubHost host;

  @BeforeEach
  void startHost() {
    browser.size(Browser.WIDE).scheme("light");
    host = StubHost.troubled();
  }

  @AfterEach
  void stopHost() {
    host.close();
  }

  private ObjectNode order(int count) {
    browser.await("an order arrives", () -> host.orders.size() == count);
    return host.orders.get(0);
  }

  private void tell(String kind) {
    browser.open(host.address() + "#/attic/do/" + kind + "/A8");
    browser.await("the page listens", host::isHeard);
    browser.find("form button[type=submit]").click();
    order(1);
  }

  @Test
  void weightFarFromWhatWasBelievedIsAskedAboutAndLearnedIfThePersonIsSure() {
    tell("drained");
    host.receive(
        Receipt.notSure(
            "o-1", "“A8” weighs 166.0 g", Receipt.Capacity.of(166.0, 238.0, "weighing")));
    browser.awaitText(
        "tr[data-order=o-1]",
        "It weighs 166.0 g, and 238.0 g was weighed before. Learn it all the same?");
    browser.find("tr[data-order=o-1] button").click();
    ObjectNode sure = order(2);
    assertEquals("drained", sure.get("kind").asText());
    assertEquals("A8", sure.get("cup").asText());
    assertTrue(sure.get("sure").asBoolean());
    host.receive(Receipt.learned("o-2", "learned", Receipt.Capacity.of(166.0, 238.0, "weighing")));
    browser.awaitText("tr[data-order=o-2]", "done: learned");
    browser.await("it is asked once", () -> browser.textsOf("tr[data-order=o-1] button").isEmpty());
  }

  @Test
  void drippingCupIsNotAskedAbout() {
    tell("drained");
    host.receive(Receipt.refused("o-1", "still dripping: say it again"));
    browser.awaitText("tr[data-order=o-1]", "refused: still dripping: say it again");
    assertTrue(browser.textsOf("tr[data-order=o-1] button").isEmpty());
  }

  @Test
  void slipIsTakenBackBesideItsReceipt() {
    tell("drained");
    host.receive(Receipt.done("o-1"));
    browser.awaitText("tr[data-order=o-1] button", "Take it back");
    browser.find("tr[data-order=o-1] button").click();
    ObjectNode forget = order(2);
    assertEquals("forget", forget.get("kind").asText());
    assertEquals("o-1", forget.get("order").asText());
    host.receive(Receipt.done("o-2", "“A8” is believed to weigh 238.0 g at capacity again"));
    browser.awaitText("tr[data-order=o-2]", "Take back Soaked and drained, A8");
    browser.awaitText("tr[data-order=o-2]", "done: “A8” is believed to weigh 238.0 g");
    browser.awaitText("tr[data-order=o-1]", "taken back");
  }

  @Test
  void afterADayAnotherOrderIsTheWayBack() {
    tell("drained");
    host.now = host.now.plusSeconds(25 * 3600);
    host.receive(Receipt.done("o-1"));
    host.pass("A8", 30, "due");
    browser.open(host.address() + "#/attic/do/drained/A3");
    browser.awaitText("tr[data-order=o-1] a", "Weigh it drained again");
  }
}
