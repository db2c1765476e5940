package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/**
 * Numbers as the page shows them in a browser, against values that it did not make; and its own
 * weight.
 */
class NumbersTest {
  private static final int MOST_BYTES = 200 * 1024;
  private static Browser browser;
  private static StubHost host;

  @BeforeAll
  static void open() {
    browser = new Browser();
    host = StubHost.troubled();
    browser.size(Browser.WIDE).open(host.address());
  }

  @AfterAll
  static void close() {
    browser.close();
    host.close();
  }

  @BeforeEach
  void nothingToldOfDryDowns() {
    host.dryDowns.clear();
  }

  /** The host's answer as it stands: what the core makes of dry-downs is tested there. */
  @Test
  void dryDownsAreShownAsTheHostCutFittedAndComparedThem() {
    host.dryDowns.put(
        "A8",
        """
          {"dry_downs": [{"from": "2027-02-10T20:00:00Z", "to": "2027-02-12T20:00:00Z",
            "start_seen": false, "hours": [0, 24, 48], "mass_g": [400, 375, 355], "lost_g": 45,
            "loss_g_h_kpa": 1.0417,
            "fit": {"asymptote_g": 275, "amplitude_g": 125, "rate_per_h": 0.0093, "rsd_g": 0.31,
              "half_life_h": null}}],
           "change": {"verdict": "less", "factor": 0.607, "low": 0.484, "high": 0.761, "each": 3}}
          """);
    browser.open(host.address() + "#/attic/dry-downs/A8");
    browser.awaitText(
        ".says", "A8 drinks 0.61 times as much as before in air like this (0.48–0.76)");
    browser.awaitText("table", "1.04 g/h");
    browser.awaitText("table", "beginning cut off");
    browser.awaitText("table", "cannot be told yet");
  }

  @Test
  void fewDryDownsMakeNoVerdict() {
    host.dryDowns.put("A8", "{\"dry_downs\": [], \"change\": null}");
    host.dryDowns.put(
        "A7",
        """
          {"dry_downs": [{"from": "2027-02-10T20:00:00Z", "to": "2027-02-11T08:00:00Z",
            "start_seen": true, "hours": [0, 12], "mass_g": [400, 390], "lost_g": 10,
            "loss_g_h_kpa": null, "fit": null}], "change": null}
          """);
    browser.open(host.address() + "#/attic/dry-downs/A7,A8");
    browser.awaitText(".says", "A7: whether it drinks more or less than before is told after six");
    browser.awaitText("[role=status]", "A8");
  }

  @Test
  void numbersOnTheCupEqualTheApi() {
    browser.open(host.address() + "#/attic/cup/A8");
    browser.awaitText("h1", "A8, pomegranate");
    CannedCup cup = host.cups.get("A8");
    browser.awaitText(".cup-facts", "%.1f g".formatted(cup.status.massG()));
    browser.awaitText(".cup-facts", "%.2f g/h".formatted(cup.status.rateGPerH()));
    browser.awaitText(".cup-facts", Math.round((1 - cup.status.depletion()) * 100) + " %");
  }

  @Test
  void wholePageWeighsLessThanTwoHundredKilobytesCompressed() throws IOException {
    long bytes = PageWeight.bytes();
    assertTrue(bytes <= MOST_BYTES, bytes + " bytes");
  }
}
