package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.CupActivity;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.Host;
import dev.cupwarden.host.HostSettings;
import dev.cupwarden.host.broker.LoopbackPort;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Duration;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;

/** The page on a real host: broker, store and live stream, from the wire to the eye. */
class LiveHostTest {
  private static final Duration SOON_ENOUGH = Duration.ofSeconds(3);

  @AutoClose
  private static final Browser browser = new Browser().size(Browser.WIDE).scheme("light");

  @TempDir Path data;
  private final LoopbackPort page = LoopbackPort.anyFree("the page", "--port");
  private final LoopbackPort broker = LoopbackPort.anyFree("the broker", "--broker-port");
  private final StubHost bench = StubHost.unserved(6);
  private Host host;
  private BenchOnTheWire wire;

  @BeforeEach
  void startHostAndTellOfTheBench() throws Exception {
    host = startHost();
    wire = new BenchOnTheWire(host.brokerUri());
    wire.tellAllOf(bench);
  }

  private Host startHost() throws InterruptedException {
    return Host.start(HostSettings.local(data, page, broker));
  }

  @AfterEach
  void stop() throws MqttException {
    wire.close();
    host.close();
  }

  @Test
  void aCupsTroubleIsVisibleWithinThreeSecondsOfTheWord() throws Exception {
    browser.open(host.address());
    browser.awaitText("h1", "All 6 cups are well.");
    browser.run("document.querySelector('.legend').open = true");
    browser.awaitText(".legend", "to one scale by their vessels");
    browser.await(
        "the page listens",
        () -> browser.textsOf(".age").stream().noneMatch(text -> text.contains("Connecting")));
    bench.now = bench.now.plusSeconds(300);
    CupStatus dry = bench.cups.get("A5").become(CupActivity.DRY, bench.now);
    long told = System.nanoTime();
    wire.tell(BenchOnTheWire.TOPICS.cup("A5"), dry);
    browser.awaitText(".group-trouble .card-name", "A5");
    Duration seen = Duration.ofNanos(System.nanoTime() - told);
    System.out.println("trouble seen " + seen.toMillis() + " ms after it was told over the wire");
    assertTrue(seen.compareTo(SOON_ENOUGH) < 0, seen::toString);
  }

  @Test
  void thePageSurvivesARestartOfTheHostAndSaysSo() throws Exception {
    browser.open(host.address());
    browser.awaitText("h1", "All 6 cups are well.");
    wire.close();
    host.close();
    browser.awaitText("#banner", "Host not reached");
    browser.awaitText("#said", "cannot be reached");
    host = startHost();
    wire = new BenchOnTheWire(host.brokerUri());
    browser.await(
        "the banner is gone", () -> browser.textsOf("#banner").stream().allMatch(String::isEmpty));
    browser.awaitText("h1", "All 6 cups are well.");
    wire.tell(
        BenchOnTheWire.TOPICS.cup("A3"),
        bench.cups.get("A3").become(CupActivity.WET, bench.now.plusSeconds(60)));
    browser.awaitText(".group-trouble .card-name", "A3");
  }

  @Test
  void numbersOnTheBenchEqualTheApis() throws Exception {
    browser.open(host.address());
    browser.awaitText("h1", "All 6 cups are well.");
    for (JsonNode cup : json("api/benches/attic/cups")) {
      String card = "a.card[href$='/" + cup.get("cup").asText() + "']";
      long left = Math.round(100 * (1 - cup.get("depletion").asDouble()));
      assertEquals(left + " % left", browser.textsOf(card + " .card-left").get(0));
      assertEquals(cup.get("plant").asText(), browser.textsOf(card + " .card-plant").get(0));
    }
    JsonNode status = json("api/benches").get(0).get("status");
    browser.awaitText(".facts", "air %.1f °C".formatted(status.get("air_c").asDouble()));
    browser.awaitText(
        ".facts", "plain %.1f L".formatted(status.at("/tank_ml/plain").asDouble() / 1000));
  }

  @Test
  void anAlertMarkedAsSeenIsSeenByAllUntilItIsRaisedAnew() throws Exception {
    AlertNotice low =
        new AlertNotice("tank-low", null, "raised", bench.now, 380, 500, "Fill the tank “plain”.");
    wire.alert(low);
    browser.open(host.address() + "#/attic/alerts");
    browser.awaitText("section[data-code=tank-low]", "Fill the tank “plain”.");
    browser.awaitText("nav .badge", "1");
    browser.tabTo("section[data-code=tank-low] button");
    browser.press(Keys.ENTER);
    browser.awaitText("section[data-code=tank-low]", "Seen by page");
    browser.await("nothing new", () -> browser.textsOf("nav .badge").contains("0"));
    assertEquals("page", json("api/benches/attic/alerts").at("/0/acknowledged/by").asText());
    browser.open("about:blank").open(host.address() + "#/attic/alerts");
    browser.awaitText("section[data-code=tank-low]", "Seen by page");
    wire.alert(
        new AlertNotice(
            "tank-low", null, "cleared", bench.now.plusSeconds(60), 900, 500, "Nothing."));
    browser.awaitText("main", "No open alert.");
  }

  @Test
  void whatToMixNextIsReckonedByTheHost() throws Exception {
    browser.open(host.address() + "#/attic/tanks");
    browser.awaitText("section[data-tank=plain]", "7.4 L of 12.0 L");
    browser.awaitText("section[data-tank=feed]", "not used in the last 7 d");
    JsonNode mix = json("api/benches/attic/recipe?feed=leafy&volume_ml=4000&strength=0.5");
    browser.awaitText("p[role=status]", "%.2f g of feed".formatted(mix.get("feed_g").asDouble()));
    assertEquals(0.53, mix.get("level_teaspoons").asDouble(), 0.005);
    browser.awaitText("p[role=status]", "or a little over 1/2 level teaspoon");
    browser.tabTo("input[inputmode=decimal]");
    browser.press(Keys.TAB);
    browser.typeOver("400");
    browser.awaitText("p[role=status]", "Not calculated: strength");
  }

  private JsonNode json(String path) throws IOException, InterruptedException {
    HttpRequest ask = HttpRequest.newBuilder(URI.create(host.address() + path)).build();
    return Json.MAPPER.readTree(
        HttpClient.newHttpClient().send(ask, HttpResponse.BodyHandlers.ofString()).body());
  }
}
