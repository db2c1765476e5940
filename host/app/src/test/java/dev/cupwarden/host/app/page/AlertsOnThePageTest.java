package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.Host;
import dev.cupwarden.host.HostSettings;
import dev.cupwarden.host.broker.LoopbackPort;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Alerts of the whole bench, of its tanks and of cups, from the wire to the eye. */
class AlertsOnThePageTest {
  @TempDir Path data;
  private final LoopbackPort page = LoopbackPort.anyFree("the page", "--port");
  private final LoopbackPort broker = LoopbackPort.anyFree("the broker", "--broker-port");
  private final StubHost bench = StubHost.unserved(6);
  private Browser browser;
  private Host host;
  private BenchOnTheWire wire;

  @BeforeEach
  void open() throws Exception {
    browser = new Browser();
    browser.size(Browser.WIDE).scheme("light");
    host = Host.start(HostSettings.local(data, page, broker));
    wire = new BenchOnTheWire(host.brokerUri());
    wire.tellAllOf(bench);
  }

  @AfterEach
  void close() throws MqttException {
    wire.close();
    host.close();
    browser.close();
  }

  @Test
  void whatIsOfTheWholeBenchStandsOnItsOwnBeforeWhatIsOfACup() throws Exception {
    wire.alert(notice("near-dry", "A1", null, List.of(), "Water A1 by hand."));
    wire.alert(notice("near-dry", null, null, List.of("A2", "A3", "A4", "A5"), "A2 to A5: look."));
    wire.alert(notice("tank-low", null, "feed", List.of(), "Fill the tank “feed”."));
    wire.alert(notice("tank-low", null, "plain", List.of(), "Fill the tank “plain”."));
    wire.alert(notice("tank-empty", null, "plain", List.of(), "The tank “plain” is empty."));
    browser.open(host.address() + "#/attic/alerts");
    browser.await("five parts", () -> browser.textsOf("section[data-code] h3").size() == 5);
    assertEquals(
        List.of("Tank empty", "Near its dry line", "Tank low", "Tank low", "Near its dry line"),
        browser.textsOf("section[data-code] h3").stream()
            .map(text -> text.replace(" (open)", ""))
            .toList());
    List<String> parts = browser.textsOf("section[data-code]");
    assertTrue(parts.get(1).contains("A2 to A5: look."), parts.get(1));
    assertFalse(parts.get(1).contains("Water A1"), parts.get(1));
    assertTrue(parts.get(4).contains("Cup A1"), parts.get(4));
    browser.open(host.address());
    browser.awaitText(".alert-lines", "A2 to A5: look.");
    browser.awaitText(".alert-lines", "Tank plain");
  }

  @Test
  void toldAgainIsNoSecondAlertAndStaysSeen() throws Exception {
    AlertNotice low = notice("tank-low", null, "plain", List.of(), "Fill the tank “plain”.");
    wire.alert(low);
    browser.open(host.address() + "#/attic/alerts");
    browser.awaitText("section[data-code=tank-low]", "Tank plain");
    browser.find("section[data-code=tank-low] button").click();
    browser.awaitText("section[data-code=tank-low]", "Seen by page");
    wire.alert(low.toldAgain());
    wire.alert(notice("cold", null, null, List.of(), "Warm the roots."));
    browser.awaitText("section[data-code=cold]", "Warm the roots.");
    assertEquals(1, browser.textsOf("section[data-code=tank-low]").size());
    browser.awaitText("section[data-code=tank-low]", "Seen by page");
  }

  @Test
  void aButtonPutsAnAlertOffForAWeekAndNoneALeak() throws Exception {
    wire.alert(notice("near-dry", "A1", null, List.of(), "Water A1 by hand."));
    wire.alert(notice("leak", null, null, List.of(), "Find where it comes from."));
    browser.open(host.address() + "#/attic/alerts");
    browser.awaitText("section[data-code=near-dry]", "Do not tell again for");
    browser.awaitText("section[data-code=leak]", "Find where it comes from.");
    assertEquals(List.of(), browser.textsOf("section[data-code=leak] [data-later]"));
    browser.find("section[data-code=near-dry] [data-later=week]").click();
    browser.awaitText("section[data-code=near-dry]", "it stays open");
    JsonNode order = json("api/benches/attic/orders").get(0);
    assertEquals("later", order.path("kind").asText());
    assertEquals("near-dry", order.path("alert").asText());
    assertEquals("A1", order.path("cup").asText());
    Duration put = Duration.between(bench.now, Instant.parse(order.path("until").asText()));
    assertTrue(put.compareTo(Duration.ofDays(7)) <= 0, put.toString());
    assertTrue(put.compareTo(Duration.ofDays(6)) > 0, put.toString());
  }

  private AlertNotice notice(String code, String cup, String tank, List<String> cups, String what) {
    return new AlertNotice(code, cup, "raised", bench.now, 1, 2, what, tank, cups, false, 0, false);
  }

  private JsonNode json(String path) throws Exception {
    HttpRequest asked = HttpRequest.newBuilder(URI.create(host.address() + path)).build();
    HttpResponse<String> answer =
        HttpClient.newHttpClient().send(asked, HttpResponse.BodyHandlers.ofString());
    return Json.MAPPER.readTree(answer.body());
  }
}
