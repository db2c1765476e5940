package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Dose;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Receipt;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.openqa.selenium.Dimension;

/** The days of a whole bench, on a laptop and on a phone. */
class DaysTest {
  @RegisterExtension static final StubPage page = new StubPage();
  private final Browser browser = page.browser;
  private StubHost host;

  private void open(Dimension screen, StubHost started) {
    host = page.with(started);
    browser.size(screen).open(host, "attic/days");
    browser.awaitText("h1", "Days of the bench");
  }

  /** Sunday the 14th, five past eight; each cup's next water as its status says. */
  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void nextSevenDaysTellWaterTanksLooksAndTheFeedSwitch(Dimension screen) {
    StubHost bench = StubHost.withCups(12);
    bench.cups.get("A9").tell("water_at", "2027-02-17T09:30:00Z");
    bench.cups.get("A9").tell("due_at", "2027-02-17T03:00:00Z");
    bench.cups.get("A1").tell("water_at", null);
    bench.cups.get("A1").tell("due_at", null);
    open(screen, bench);
    browser.awaitText(".days li", "Today");
    assertEquals(7, browser.textsOf(".days li").size());
    browser.awaitText("[data-day='2027-02-17']", "A9 likely 09:30 AM");
    browser.awaitText(".panel", "No forecast: A1.");
    browser.awaitText(".panel", "This bench waters from 08:00 to 16:00");
    assertFalse(browser.textsOf(".days").get(0).contains("03:00"), "due by night, not watered");
    // First roots of struck cups are likely nine days on: past the seven.
    assertFalse(browser.textsOf(".days").get(0).contains("Look for roots"));
    host.now = Instant.parse("2027-02-18T12:00:00Z");
    host.pass("A9", 20, "due");
    browser.awaitText("[data-day='2027-02-23']", "Look for roots: A1, A5, A9.");
  }

  /** 20 mL by the program and 50 mL by hand today; what was before today is in the week only. */
  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void whatWasGivenIsSummedByCupAndKindForTodayTheWeekAndTheWinter(Dimension screen) {
    StubHost bench = StubHost.withCups(3);
    bench.cups.values().forEach(cup -> cup.doses.clear());
    give(bench, "2027-02-14T08:01:00Z", 15, 5, "due");
    give(bench, "2027-02-14T08:02:00Z", 50, 0, "hand");
    give(bench, "2027-02-10T08:00:00Z", 30, 0, "due");
    give(bench, "2027-02-02T08:00:00Z", 100, 0, "rescue");
    open(screen, bench);
    browser.awaitText(
        "[data-part=given] [role=status]",
        "Today: 65 mL plain water and 5 mL of feed, in 2 passes.");
    browser.awaitText("[aria-label='Given by kind']", "by hand");
    browser.tap("[data-part=given] button:nth-child(2)");
    browser.awaitText(
        "[data-part=given] [role=status]",
        "Since Mon, Feb 8: 95 mL plain water and 5 mL of feed, in 3 passes.");
    browser.tap("[data-part=given] button:nth-child(3)");
    browser.awaitText("[data-part=given] [role=status]", "Since Sun, Jan 31: 195 mL plain water");
    browser.awaitText("[aria-label='Given by kind']", "rescue");
    browser.awaitText("[aria-label='Given by cup']", "A2");
    browser.assertAccessible("days-" + screen.width);
    browser.screenshot("days-" + screen.width);
  }

  private static void give(StubHost bench, String at, double plainMl, double feedMl, String why) {
    Dose dose = new Dose("A2", plainMl, feedMl, 0.25, why, "given");
    List<Event> doses = bench.cups.get("A2").doses;
    doses.add(
        new Event(
            "e1",
            500 + doses.size(),
            Instant.parse(at),
            "dose",
            "A2",
            Json.MAPPER.valueToTree(dose)));
  }

  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void climateIsToldWithItsColdSpellsAndHolds(Dimension screen) {
    StubHost bench = StubHost.withCups(3);
    cold(bench, "raised", "2027-02-10T01:00:00Z");
    cold(bench, "cleared", "2027-02-11T09:30:00Z");
    ObjectNode hold =
        Json.MAPPER.createObjectNode().put("kind", "hold").put("id", "h").put("by", "gardener");
    hold.put("issued", "2027-02-12T08:00:00Z").put("until", "2027-02-13T08:00:00Z");
    hold.putArray("receipts").add(Json.MAPPER.valueToTree(Receipt.done("h")));
    bench.orders.add(hold);
    open(screen, bench);
    browser.awaitText(
        "[data-part=climate] .says", "Wed, Feb 10, 01:00 AM to Thu, Feb 11, 09:30 AM");
    browser.awaitText(
        "[data-part=climate] .says",
        "Hold (whole bench): Fri, Feb 12, 08:00 AM to Sat, Feb 13, 08:00 AM");
    browser.awaitText("[data-curve=air_c]", "Least 10.0 °C, most 18.0 °C.");
    browser.awaitText("[data-curve=rh_pct]", "Least 50 %, most 70 %.");
    browser.awaitText("[data-curve=light_umol_m2_s]", "Not read in this time.");
    browser.tap("[data-part=climate] button:nth-child(1)");
    browser.awaitText(
        "[data-part=climate] .says", "No cold or hot spell and no hold in this time.");
    browser.assertAccessible("climate-" + screen.width);
  }

  private static void cold(StubHost bench, String state, String at) {
    Instant since = Instant.parse("2027-02-10T01:00:00Z");
    AlertNotice notice = new AlertNotice("cold", null, state, since, 11, 12, "Warm the roots.");
    bench.pastAlerts.add(
        new Event("e1", 900, Instant.parse(at), "alert", null, Json.MAPPER.valueToTree(notice)));
  }
}
