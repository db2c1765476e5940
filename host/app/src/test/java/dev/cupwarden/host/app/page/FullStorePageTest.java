package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.host.Host;
import dev.cupwarden.host.HostSettings;
import dev.cupwarden.host.HostSettings.Keeping;
import dev.cupwarden.host.broker.LoopbackPort;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.StoreMaintenance.Retention;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** That the host stores nothing stands in one line above all. */
class FullStorePageTest {
  @AutoClose
  private static final Browser browser = new Browser().size(Browser.WIDE).scheme("light");

  @TempDir Path folder;

  @Test
  void itIsSaidWhileItIsSoAndNoLonger() {
    try (StubHost host = StubHost.withCups(3)) {
      browser.open(host.address());
      browser.awaitText("h1", "All 3 cups are well.");
      browser.await("the page listens", host::isHeard);
      assertEquals(List.of(""), browser.textsOf("#host-line"));
      host.store(true, true);
      browser.awaitText("#host-line", "disk is nearly full: 480 MB left");
      host.store(false, true);
      browser.awaitText("#host-line", "The host stores nothing since");
      browser.awaitText("#host-line", "alerts still go out");
      browser.open(host.address());
      browser.awaitText("#host-line", "The host stores nothing since");
      host.store(true, false);
      browser.await(
          "the line is gone",
          () -> browser.textsOf("#host-line").stream().allMatch(String::isEmpty));
    }
  }

  /** A real host on a file that may not grow further: it starts, and its page says so. */
  @Test
  void aHostOnAFullStoreStartsAndSaysSo() throws Exception {
    Path file = folder.resolve("host.db");
    LoopbackPort page = LoopbackPort.anyFree("the page", "--port");
    LoopbackPort broker = LoopbackPort.anyFree("the broker", "--broker-port");
    HostSettings settings = HostSettings.local(folder, page, broker);
    try (Host host = Host.start(settings)) {
      host.counts();
    }
    try (var connection = java.sql.DriverManager.getConnection("jdbc:sqlite:" + file);
        var statement = connection.createStatement()) {
      // What is refused here is what a full disk refuses: the write of the mark.
      statement.execute(
          "CREATE TRIGGER full BEFORE UPDATE ON marks BEGIN SELECT RAISE(ABORT, 'disk is full'); END");
      statement.execute(
          "CREATE TRIGGER full_too BEFORE INSERT ON marks BEGIN SELECT RAISE(ABORT, 'full'); END");
    }
    try (Host host =
        Host.start(settings.keeping(new Keeping(Database.sqlite(file), Retention.USUAL)))) {
      browser.open(host.address());
      browser.awaitText("#host-line", "The host stores nothing since");
    }
  }
}
