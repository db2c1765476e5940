package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.extension.AfterAllCallback;
import org.junit.jupiter.api.extension.AfterEachCallback;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.openqa.selenium.Dimension;

/**
 * The page of a host of canned data in a real browser: one browser for a class of tests, a host for
 * each test, and no error in the console at its end.
 */
final class StubPage implements AfterEachCallback, AfterAllCallback {
  final Browser browser = new Browser().scheme("light");
  private StubHost host;

  /** The host of this test, which ends with it. */
  StubHost with(StubHost started) {
    host = started;
    return host;
  }

  /** A host's page at that place of it, on a screen of that size. */
  StubHost open(Dimension screen, StubHost started, String place) {
    browser.size(screen).open(with(started), place);
    return host;
  }

  @Override
  public void afterEach(ExtensionContext test) {
    assertEquals(List.of(), browser.consoleErrors());
    if (host != null) {
      host.close();
      host = null;
    }
  }

  @Override
  public void afterAll(ExtensionContext tests) {
    browser.close();
  }
}
