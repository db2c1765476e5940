package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Receipt;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.Keys;

/** What a person orders from the page, by keyboard alone, and what they are told. */
class DoingTest {
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

  private ObjectNode newestOrder() {
    browser.await("an order arrives", () -> !host.orders.isEmpty());
    return host.orders.get(0);
  }

  @Test
  void holdOfTheWholeBenchByKeyboardNamesTheCupsThatWillBeDry() {
    browser.open(host.address());
    browser.awaitText("h1", "need a look");
    browser.tabTo("nav a[data-path=do]");
    browser.press(Keys.ENTER);
    browser.awaitText("h1", "What do you want to do?");
    browser.tabTo("a[href$='/do/hold']");
    browser.press(Keys.ENTER);
    browser.awaitText("h1", "Hold");
    browser.awaitText(".says", "May be dry before then: A2");
    browser.tabTo("form button[type=submit]");
    browser.press(Keys.ENTER);
    ObjectNode order = newestOrder();
    assertEquals("hold", order.get("kind").asText());
    assertEquals("2027-02-15T08:05:00Z", order.get("until").asText());
    assertTrue(!order.has("cup"), "no cup: the whole bench");
    browser.awaitText("tr[data-order=o-1]", "no receipt yet");
    host.receive(new Receipt("o-1", "taken", null, List.of("A2")));
    browser.awaitText("tr[data-order=o-1]", "taken");
    browser.awaitText("tr[data-order=o-1]", "May be dry before it ends: A2.");
    browser.awaitText("tr[data-order=o-1] a", "Release it");
  }

  @Test
  void refusedDoseIsToldWithItsReason() {
    browser.open(host.address() + "#/attic/do/dose/A3");
    browser.awaitText("h1", "Water now");
    browser.awaitText(".says", "at or above its refill line");
    browser.awaitText(
        ".says",
        "Holds it back now: too wet: It holds more water than its wet line allows. (found");
    browser.find("form input[inputmode=decimal]").clear();
    browser.find("form input[inputmode=decimal]").sendKeys("20");
    browser.find("form button[type=submit]").click();
    ObjectNode order = newestOrder();
    assertEquals(20.0, order.get("ml").asDouble());
    assertEquals(0.0, order.get("strength").asDouble());
    browser.await("the page listens", host::isHeard);
    host.receive(Receipt.refused("o-1", "A3 holds more than its wet line."));
    browser.awaitText("tr[data-order=o-1]", "refused: A3 holds more than its wet line.");
    browser.awaitText("#said", "refused");
  }

  @Test
  void oneOrderForSeveralCupsIsToldForEachBeforeAndAfter() {
    browser.open(host.address() + "#/attic/do/dose/A8");
    browser.awaitText("h1", "Water now");
    browser.find("details.field summary").click();
    browser.find("input[data-cup=A3]").click();
    browser.awaitText(".says", "One order for 2 cups: A3, A8.");
    browser.awaitText(".says", "A3: The cup is at or above its refill line");
    browser.find("form input[inputmode=decimal]").clear();
    browser.find("form input[inputmode=decimal]").sendKeys("20");
    browser.find("form button[type=submit]").click();
    ObjectNode order = newestOrder();
    assertEquals("[\"A3\",\"A8\"]", order.get("cups").toString());
    assertFalse(order.has("cup"), "cups stands in place of cup");
    browser.await("the page listens", host::isHeard);
    host.receive(
        Receipt.ofEach(
            "o-1",
            "refused",
            "nothing was done: A3 too wet",
            List.of(
                new Receipt.AtCup("A3", "refused", "A3 too wet"),
                new Receipt.AtCup("A8", "refused", null))));
    browser.awaitText("tr[data-order=o-1]", "A3, A8, 20 mL");
    browser.awaitText("tr[data-order=o-1]", "refused: nothing was done: A3 too wet");
  }

  /** 34 and 59 °F are 1.1 and 15.0 °C; the bench's day is offered. */
  @Test
  void weatherOutdoorsIsToldInTheReadersUnitsAndGoesOutInCelsius() {
    browser.open(host.address() + "#/units");
    browser.find("input[type=radio][value=f]").click();
    browser.open(host.address() + "#/attic/do/weather");
    browser.awaitText("h1", "Weather outdoors");
    browser.awaitText("form", "Least while cups would be out, in °F");
    browser.awaitText(".says", "Counts until that day is over");
    browser.find("form button[type=submit]").click();
    browser.awaitText(
        "form .error", "Least while cups would be out, in °F: a number from -76 to 140.");
    browser.find("form > div > .field:nth-child(2) input").sendKeys("34");
    browser.find("form > div > .field:nth-child(3) input").sendKeys("59");
    browser.find("form input[value=strong]").click();
    browser.find("form button[type=submit]").click();
    ObjectNode order = newestOrder();
    assertEquals("weather", order.get("kind").asText());
    assertEquals("2027-02-14", order.get("day").asText());
    assertEquals(1.1, order.get("least_c").asDouble());
    assertEquals(15.0, order.get("most_c").asDouble());
    assertEquals("strong", order.get("wind").asText());
    browser.awaitText("tr[data-order=o-1]", "2027-02-14: 34.0 °F to 59.0 °F, strong");
    assertFalse(order.has("cup"), "of the bench");
  }

  @Test
  void settingIsChangedFromWhatItIsNowAndBackInOneStep() {
    browser.open(host.address() + "#/attic/do/change");
    browser.awaitText("h1", "Change a setting");
    browser.awaitText(".says", "Now watering.pass is 30 mL.");
    browser.find("form select").sendKeys("climate.cold");
    browser.awaitText(".says", "Now climate.cold is 12 C.");
    browser.find("form input").clear();
    browser.find("form input").sendKeys("14 C");
    browser.find("form button[type=submit]").click();
    ObjectNode order = newestOrder();
    assertEquals("climate.cold", order.get("path").asText());
    assertEquals("12 C", order.get("from").asText());
    assertEquals("14 C", order.get("to").asText());
    browser.await("the page listens", host::isHeard);
    host.receive(Receipt.done("o-1"));
    browser.awaitText("tr[data-order=o-1]", "climate.cold: 12 C → 14 C");
    browser.awaitText("tr[data-order=o-1]", "done");
    browser.find("tr[data-order=o-1] button").click();
    browser.await("it is changed back", () -> host.orders.size() == 2);
    assertEquals("14 C", newestOrder().get("from").asText());
    assertEquals("12 C", newestOrder().get("to").asText());
  }

  @Test
  void takingSeveralCupsOutIsConfirmedForThoseThatAreNamed() {
    browser.open(host.address() + "#/attic/do/retire/A8");
    browser.awaitText("h1", "Taken out for good");
    browser.find("input[value=rooted]").click();
    browser.find("form > div > label.check input").click();
    browser.find("details.field summary").click();
    browser.find("input[data-cup=A2]").click();
    browser.awaitText("form", "Yes, take A8, A2 out");
    browser.find("form button[type=submit]").click();
    browser.awaitText("form .error", "Tick the box to confirm.");
    browser.find("form > div > label.check input").click();
    browser.find("form button[type=submit]").click();
    assertEquals("[\"A2\",\"A8\"]", newestOrder().get("cups").toString());
  }

  @Test
  void theHoseIsClearedIntoAJug() {
    browser.open(host.address() + "#/attic/do/prime/A8");
    browser.awaitText("h1", "Fill or clear the hose");
    browser.awaitText(".says", "A8 stands on the bench, as far as is known: lift it off");
    browser.awaitText(".says", "At most three times what the hose holds");
    browser.find("form input[inputmode=decimal]").sendKeys("24");
    browser.find("form button[type=submit]").click();
    ObjectNode order = newestOrder();
    assertEquals("prime", order.get("kind").asText());
    assertEquals("A8", order.get("cup").asText());
    assertEquals(24.0, order.get("ml").asDouble());
    assertTrue(order.has("tank"));
    browser.await("the page listens", host::isHeard);
    host.receive(new Receipt("o-1", "done", "24.0 mL given", List.of()));
    browser.awaitText("tr[data-order=o-1]", "done: 24.0 mL given");
    browser.awaitText("tr[data-order=o-1] a", "Fill or clear it again");
  }

  @Test
  void nothingIsSentWhileAFieldIsWrong() {
    browser.open(host.address() + "#/attic/do/dose/A8");
    browser.awaitText("h1", "Water now");
    browser.find("form input[inputmode=decimal]").clear();
    browser.find("form input[inputmode=decimal]").sendKeys("plenty");
    browser.find("form button[type=submit]").click();
    browser.awaitText("form .error", "Amount in mL: a number from 0 to");
    assertEquals(List.of(), host.orders);
  }

  @Test
  void takingACupOutNeedsAReasonAndAConfirmationAndHasAWayBack() {
    browser.open(host.address() + "#/attic/do/retire/A8");
    browser.awaitText("h1", "Taken out for good");
    browser.find("form button[type=submit]").click();
    browser.awaitText("form .error", "Because is needed.");
    browser.find("input[value=rotted]").click();
    browser.find("form button[type=submit]").click();
    browser.awaitText("form .error", "Tick the box to confirm.");
    assertEquals(List.of(), host.orders);
    browser.find("form > div > label.check input").click();
    browser.find("form button[type=submit]").click();
    assertEquals("rotted", newestOrder().get("because").asText());
    host.receive(Receipt.done("o-1"));
    browser.awaitText("tr[data-order=o-1] a", "Put on the bench again");
    browser.find("tr[data-order=o-1] a").click();
    browser.awaitText("h1", "New cup on the bench");
    browser.find("form button[type=submit]").click();
    browser.await("the cup comes back", () -> host.orders.size() == 2);
    ObjectNode back = host.orders.get(0);
    assertEquals("add", back.get("kind").asText());
    assertEquals("A8", back.get("cup").asText());
    assertEquals("coir-perlite", back.get("mix").asText());
  }

  @Test
  void rootsSeenAreSetByAPerson() {
    browser.open(host.address() + "#/attic/do/stage/A8");
    browser.awaitText(".says", "Now set: circling roots.");
    browser.find("input[value=toughened]").click();
    browser.awaitText(".says", "Feed starts, weak, and rises.");
    browser.find("form button[type=submit]").click();
    assertEquals("toughened", newestOrder().get("stage").asText());
  }

  @Test
  void alertsAreOneLineForACauseAndCanBeMarkedAsSeen() {
    browser.open(host.address() + "#/attic/alerts");
    browser.awaitText("section[data-code=near-dry]", "Water it by hand");
    browser.awaitText(
        "section[data-code=near-dry]", "found 83 % of its usable water gone, limit 80 %");
    browser.awaitText("section[data-code=tank-low]", "found 380 mL, limit 500 mL");
    browser.awaitText("table", "Tank low");
    browser.tabTo("section[data-code=near-dry] button");
    browser.press(Keys.ENTER);
    browser.awaitText("section[data-code=near-dry]", "Seen by gardener");
    assertEquals(Set.of("near-dry/A2"), host.seen);
    browser.awaitText("#said", "Marked as seen.");
    browser.awaitText("nav .badge", "3");
  }

  @Test
  void mixNextWeighsTheFeedForATank() {
    browser.open(host.address() + "#/attic/tanks");
    // What keeps, and not the whole tank: 0.56 L at half of 1.532 g/L is 0.429 g.
    browser.awaitText("p[role=status]", "0.43 g of feed");
    browser.tabTo("input[inputmode=decimal]");
    browser.typeOver("4");
    // 4 L at half of 1.532 g/L is 3.064 g, 0.53 spoons of 5.8 g, and 0.3 + 0.766 g/L x 1.25 mS/cm.
    browser.awaitText("p[role=status]", "3.06 g of feed, or a little over 1/2 level teaspoon.");
    browser.awaitText("p[role=status]", "Then about 1.26 mS/cm, of which the water’s own 0.30.");
    browser.awaitText("section[data-tank=feed]", "mix no more than 560 mL at a time");
    browser.awaitText(".panel", "from Apr 15, 2027: bloom");
  }

  @Test
  void whatTheLabelLeavesIsToldBeforeADoseAndWhatWasGivenAfterIt() {
    browser.open(host.address() + "#/attic/do/dose/A8");
    browser.awaitText("h1", "Water now");
    browser.awaitText(".says", "Fed so far this interval: 31 % of one label feed");
    browser.tabTo("form input[inputmode=decimal]");
    browser.typeOver("40");
    browser.tabTo("form input[inputmode=decimal]");
    browser.typeOver("0.8");
    browser.awaitText(".says", "at most 0.50 of the label’s strength");
    browser.typeOver("0.25");
    browser.tabTo("form button[type=submit]");
    browser.press(Keys.ENTER);
    newestOrder();
    browser.await("the page listens", host::isHeard);
    host.receive(new Receipt("o-1", "taken", null, List.of()));
    browser.awaitText("tr[data-order=o-1]", "Nothing given for it yet.");
    host.pass("A8", 30, "order");
    browser.awaitText("tr[data-order=o-1]", "30 mL given for it in 1 pass.");
    browser.awaitText("tr[data-order=o-1] a", "Stop it: hold the cup");
  }

  /** Every step has its way back beside its receipt, or says beforehand why none is needed. */
  @Test
  void everyOrderThatWasTakenShowsItsWayBack() {
    Object bare =
        browser
            .open(host.address())
            .driver
            .executeAsyncScript(
                "const done = arguments[0];"
                    + "Promise.all([import('/js/orders.js'), import('/js/text.js')]).then(([o, t]) =>"
                    + " done(Object.keys(o.KINDS).filter(k => !o.BACK_BY[k] || !t.text.doing.undo[k])))");
    assertEquals(List.of(), bare);
  }
}
