package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.host.Host;
import dev.cupwarden.host.HostSettings;
import dev.cupwarden.host.broker.LoopbackPort;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.Store;
import dev.cupwarden.host.store.Users.UserRow;
import dev.cupwarden.host.users.Passwords;
import dev.cupwarden.host.web.Exposure;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Dimension;
import org.openqa.selenium.Keys;

/** A host that asks who one is, in a real browser and by keyboard alone. */
class SignedInPageTest {
  private static final String PASSWORD = "a long enough password";
  @TempDir private static Path data;
  private static Host host;
  private static BenchOnTheWire wire;
  private static Browser browser;

  @BeforeAll
  static void start() throws Exception {
    try (Store store = Store.open(Database.sqlite(data.resolve("host.db")))) {
      String hash = Passwords.hash(PASSWORD.toCharArray());
      store.users().put(new UserRow("looker", "look", hash));
      store.users().put(new UserRow("grower", "act", hash));
    }
    host =
        Host.start(
            HostSettings.local(
                    data,
                    LoopbackPort.anyFree("the page", "--port"),
                    LoopbackPort.anyFree("the broker", "--broker-port"))
                .exposed(new Exposure("127.0.0.1", Optional.empty())));
    wire = new BenchOnTheWire(host.brokerUri());
    StubHost bench = StubHost.unserved(6);
    wire.tellAllOf(bench);
    wire.alert(
        new AlertNotice("tank-low", null, "raised", bench.now, 380, 500, "Fill the tank “plain”."));
    browser = new Browser();
    browser.size(Browser.WIDE).scheme("light");
  }

  @AfterAll
  static void stop() throws MqttException {
    browser.close();
    wire.close();
    host.close();
  }

  @AfterEach
  void forget() {
    browser.driver.manage().deleteAllCookies();
  }

  private static void signIn(String name) {
    browser.awaitText("h1", "Sign in");
    browser.find("#name").click();
    browser.typeOver(name);
    browser.press(Keys.TAB);
    browser.press(PASSWORD);
    browser.press(Keys.ENTER);
  }

  @Test
  void whoMayActIsLedBackToWhatWasAskedForActsAndSignsOut() {
    browser.open(host.address() + "#/attic/do/hold");
    signIn("grower");
    browser.awaitText("h1", "Hold");
    browser.awaitText("#who", "Signed in as grower.");
    assertEquals(List.of(), browser.textsOf(".refusal"));
    browser.tabTo("form button[type=submit]");
    browser.press(Keys.ENTER);
    browser.awaitText("tr[data-order]", "Hold whole bench");
    browser.run("document.querySelector('#skip').focus()");
    browser.tabTo("#who button");
    browser.press(Keys.ENTER);
    browser.awaitText("h1", "Sign in");
    browser.open(host.address());
    browser.awaitText("h1", "Sign in");
  }

  @Test
  void whoMayOnlyLookIsToldSoBeforehandAndIsRefusedByTheHostToo() {
    browser.open(host.address() + "#/attic/do/hold");
    signIn("looker");
    browser.awaitText("#who", "Signed in as looker, to look only.");
    browser.awaitText(".refusal", "looker may look, not act");
    assertFalse(browser.find("form button[type=submit]").isEnabled());
    browser.assertAccessible("do, for who may only look");
    browser.screenshot("do-look-only");
    // As where the role was taken away while the page was open.
    browser.run("document.querySelector('form button[type=submit]').disabled = false");
    browser.tabTo("form button[type=submit]");
    browser.press(Keys.ENTER);
    browser.awaitText(".error", "The order was not sent: looker may look, not act.");
    browser.run("location.hash = '#/attic/alerts'");
    browser.awaitText(".refusal", "looker may look, not act");
    assertFalse(browser.find("section[data-code=tank-low] button").isEnabled());
  }

  @Test
  void aSessionThatEndsLeadsToSignInAndBackToTheSameView() {
    browser.open(host.address());
    signIn("grower");
    browser.awaitText("#who", "grower");
    browser.driver.manage().deleteAllCookies();
    browser.run("location.hash = '#/attic/tanks'");
    signIn("grower");
    browser.awaitText("h1", "Tanks and feed");
    browser.awaitText("section[data-tank=plain]", "7.4 L");
  }

  @Test
  void aWrongPasswordIsToldAndTheWayInIsForEveryone() {
    for (Dimension size : List.of(Browser.WIDE, Browser.NARROW)) {
      for (String scheme : List.of("light", "dark")) {
        browser.size(size).scheme(scheme).open(host.address());
        browser.awaitText("h1", "Sign in");
        String picture = "sign-in-" + (size.equals(Browser.WIDE) ? "wide-" : "narrow-") + scheme;
        browser.assertAccessible(picture);
        browser.screenshot(picture);
      }
    }
    browser.find("#name").click();
    browser.typeOver("stranger");
    browser.press(Keys.TAB);
    browser.press("guess guess guess");
    browser.press(Keys.ENTER);
    browser.awaitText("#said", "Name and password do not belong together.");
    browser.size(Browser.WIDE).scheme("light");
  }
}
