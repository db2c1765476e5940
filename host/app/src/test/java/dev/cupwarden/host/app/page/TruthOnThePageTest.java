package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.CupActivity;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Receipt;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.openqa.selenium.Dimension;
import org.openqa.selenium.support.ui.Select;

/** No sentence on the page that the figures beside it contradict. */
class TruthOnThePageTest {
  @RegisterExtension static final StubPage page = new StubPage();
  private final Browser browser = page.browser;
  private StubHost host;

  private void open(Dimension screen, StubHost started, String hash) {
    host = page.with(started);
    browser.size(screen).open(host, hash);
  }

  private void tell(String cup, String field, Object value) {
    CupStatus told = host.cups.get(cup).tell(field, value);
    host.send("cup", Map.of("bench", StubHost.BENCH, "cup", told));
  }

  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void stateYieldsToAnAlert(Dimension screen) {
    open(screen, StubHost.withCups(8), "attic/cup/A8");
    browser.awaitText(".cup-head", "Nothing to do.");
    host.raise(
        new AlertNotice(
            "salts-high", "A8", "raised", host.now, 3, 2.6, "Flush the cup with 90 mL."));
    browser.awaitText(".cup-state", "Salts high");
    browser.awaitText(".cup-head", "Flush the cup with 90 mL.");
    assertFalse(browser.textsOf(".cup-head").get(0).contains("Nothing to do"));
    browser.open(host.address());
    browser.awaitText(".card[data-group=trouble] .card-state", "Salts high");
    browser.awaitText(".card[data-group=trouble] .card-trouble", "Flush the cup with 90 mL.");
  }

  /** Due at 10:25 in the evening, in a window from eight to four. */
  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void nextWaterIsToldForHoursInWhichTheBenchWaters(Dimension screen) {
    open(screen, StubHost.withCups(1), "attic");
    browser.awaitText(".facts", "Next water");
    tell("A1", "due_at", "2027-02-14T22:25:00Z");
    tell("A1", "water_at", "2027-02-15T08:00:00Z");
    browser.awaitText(".facts", "08:00 AM (in 24 h)");
    assertFalse(browser.textsOf(".facts").get(0).contains("10:25"));
    browser.open(host.address() + "#/attic/cup/A1");
    browser.awaitText(".cup-facts", "Next water");
    browser.awaitText(".cup-facts", "in 24 h, Mon, Feb 15, 08:00 AM");
  }

  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void mixThatDrainsToTooLittleAirIsToldOnTheCupsPage(Dimension screen) {
    open(screen, StubHost.withCups(1), "attic/cup/A1");
    browser.awaitText(".cup-facts", "Air when drained");
    assertFalse(browser.textsOf(".cup-facts").get(0).contains("12 % air"));
    tell(
        "A1",
        "little_air",
        new CupStatus.LittleAir(0.12, 0.15, "By mix and vessel it drains to 12 % air."));
    browser.awaitText(".cup-facts", "By mix and vessel it drains to 12 % air.");
  }

  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void heldBenchIsSaidToBeHeldUntilWhenAndByWhom(Dimension screen) {
    open(screen, StubHost.withCups(3), "attic");
    browser.awaitText("h1", "All 3 cups are well.");
    ObjectNode hold =
        Json.MAPPER.createObjectNode().put("kind", "hold").put("by", "gardener").put("id", "h");
    hold.putArray("receipts").add(Json.MAPPER.valueToTree(Receipt.done("h")));
    host.orders.add(hold);
    host.wholeBenchHeld = true;
    for (String cup : host.cups.keySet()) {
      host.cups
          .get(cup)
          .tell("reasons", List.of(new CupStatus.Told("hold", 26, 0, "h", "Held for 26 h.")));
      host.turn(cup, CupActivity.HELD);
    }
    host.send("bench", Map.of("bench", StubHost.BENCH, "status", host.status()));
    browser.awaitText("h1", "Held until Mon, Feb 15, 10:05 AM, by gardener.");
    browser.awaitText(".facts", "whole bench. Held until Mon, Feb 15, 10:05 AM, by gardener.");
  }

  @Test
  void rootedInTheSeasonIsOneNumberUnderOneName() {
    open(Browser.WIDE, StubHost.withCups(4), "attic/season");
    browser.awaitText("tfoot, tbody", "1 of 1");
    List<String> heads = browser.textsOf("thead th");
    assertTrue(heads.containsAll(List.of("Potted on", "Rooted here")), heads.toString());
    assertFalse(heads.contains("Rooted"), heads.toString());
  }

  /** The sentence is worked out anew from what the host answered. */
  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void sentencesOfTheCurvesTellLeastAndMostOfTheirFigures(Dimension screen) {
    open(screen, StubHost.withCups(8), "attic/cup/A8");
    browser.awaitText(".panel p[role=status]", "Between ");
    CannedCup cup = host.cups.get("A8");
    double from = host.now.getEpochSecond() - 72 * 3600;
    double least = Double.MAX_VALUE;
    double most = 0;
    for (int i = 0; i < cup.at.size(); i++) {
      if (cup.at.get(i) >= from) {
        least = Math.min(least, cup.massG.get(i));
        most = Math.max(most, cup.massG.get(i));
      }
    }
    browser.awaitText(
        ".panel p[role=status]", "Between %.1f g and %.1f g from".formatted(least, most));
    browser.awaitText(".course + p", "Least ");
    browser.awaitText(".course + p", "Mean of the first whole day");
  }

  /** As many rows as the sentence counts. */
  @Test
  void everyWateringThatIsCountedIsListed() {
    StubHost watered = StubHost.withCups(8);
    for (int pass = 0; pass < 15; pass++) {
      watered.pass("A8", 5, "due");
    }
    open(Browser.WIDE, watered, "attic/cup/A8");
    browser.awaitText(".panel p[role=status]", "Watered ");
    browser.tap("[role=group] button:last-child");
    String count =
        "return (document.querySelector('.panel p[role=status]').innerText"
            + ".match(/Watered (\\d+) times/) ?? [])[1] ?? ''";
    int doses = host.cups.get("A8").doses.size();
    assertTrue(doses > 30, doses + " doses");
    browser.await("all are counted", () -> String.valueOf(doses).equals(browser.run(count)));
    assertEquals(
        (long) doses,
        browser.run("return document.querySelectorAll('[aria-label=Waterings] tbody tr').length"));
  }

  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void mixStartsWithWhatKeepsAndNotWithTheWholeTank(Dimension screen) {
    open(screen, StubHost.withCups(3), "attic/tanks");
    browser.awaitText(".panel", "mix no more than 560 mL");
    assertEquals(
        "0.56", browser.run("return document.querySelector('input[inputmode=decimal]').value"));
  }

  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void fillingOfATankKeepsItsFeedNamesItAndAsksBeforeItIsPlain(Dimension screen) {
    open(screen, StubHost.withCups(3), "attic/do/filled");
    browser.awaitText("h1", "Tank filled");
    new Select(browser.find("form select")).selectByValue("plain");
    browser.awaitText(".says", "On record now: plain water");
    new Select(browser.find("form select")).selectByValue("feed");
    browser.awaitText(".says", "On record now: leafy");
    browser.find("form input[inputmode=decimal]").sendKeys("4000");
    browser.tap("form button[type=submit]");
    browser.await("an order arrives", () -> !host.orders.isEmpty());
    assertEquals("leafy", host.orders.get(0).get("feed").asText());
    assertEquals(0.5, host.orders.get(0).get("strength").asDouble());
    host.receive(Receipt.done("o-1"));
    browser.awaitText("tr[data-order=o-1]", "feed, 4.0 L, leafy, × 0.50");
    new Select(browser.find("form div:nth-child(3) select")).selectByVisibleText("plain water");
    browser.awaitText(".says", "It held leafy. Is it plain water from now on?");
    browser.tap("form button[type=submit]");
    browser.awaitText("form .error", "Plain water has strength 0");
    assertEquals(1, host.orders.size());
  }
}
