package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.CupActivity;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.openqa.selenium.Dimension;

/** A cup's page offers what may be done with it now, and of the rest says why not. */
class OrdersThatApplyTest {
  @RegisterExtension static final StubPage page = new StubPage();
  private final Browser browser = page.browser;
  private StubHost host;

  private void open(Dimension screen, String cup) {
    host = page.with(StubHost.troubled());
    browser.size(screen).open(host, "attic/cup/" + cup);
    browser.awaitText(".doing h2", "Do something with this cup");
  }

  private List<String> offered() {
    return browser.textsOf(".doing > .row a");
  }

  @ParameterizedTest
  @MethodSource(Browser.SCREENS)
  void cupThatStandsIsNotPutBackAndTheRestIsUnderOneFoldWithItsReason(Dimension screen) {
    open(screen, "A8");
    assertEquals(
        List.of(
            "Water now",
            "Watered by hand",
            "Soaked and drained",
            "Roots seen",
            "Hold",
            "Taken off the bench",
            "Covered",
            "Repotted",
            "Taken out for good",
            "A new cup like it"),
        offered());
    browser.awaitText(".doing summary", "Not now (7)");
    browser.tap(".doing summary");
    browser.awaitText(".doing .not-now", "It stands in its place.");
    browser.awaitText(".doing .not-now", "It is not held.");
    browser.awaitText(".doing .not-now", "It stands open.");
    browser.awaitText(".doing .not-now", "No alert asks for it");
    browser.assertAccessible("cup-not-now-" + screen.width);
    browser.screenshot("cup-not-now-" + screen.width);
    browser.tap(".not-now [data-kind=back]");
    browser.awaitText("h1", "Put back");
  }

  @Test
  void cupThatGoesOutIsOfferedTheWayBackAtOnce() {
    open(Browser.WIDE, "A8");
    host.turn("A8", CupActivity.AWAY);
    browser.await("put back is offered", () -> offered().contains("Put back"));
    assertFalse(offered().contains("Water now"), offered().toString());
    assertFalse(offered().contains("Taken off the bench"), offered().toString());
  }

  @Test
  void waterIsNotOfferedToACupThatALimitRefuses() {
    open(Browser.WIDE, "A3");
    assertFalse(offered().contains("Water now"), offered().toString());
    browser.tap(".doing summary");
    browser.awaitText(".doing .not-now", "more water than its wet line allows");
  }

  @Test
  void heldCupIsReleasedAndNotHeldAgain() {
    open(Browser.WIDE, "A6");
    assertTrue(offered().contains("Release a hold"), offered().toString());
    assertFalse(offered().contains("Hold"), offered().toString());
  }
}
